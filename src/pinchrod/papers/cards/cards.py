"""The cards of a job: the order of work, one card a step at the machines, one for each frame at the bench."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

from pinchrod.bench import Bench, Spares
from pinchrod.ground import Mm
from pinchrod.job import Shop
from pinchrod.machining import Machining, Step, StepSetting
from pinchrod.papers.cards.care import take_care
from pinchrod.papers.cards.glue_card import glue_card
from pinchrod.papers.cards.machine_words import machine_words
from pinchrod.papers.cards.order_page import TITLE, order_bands
from pinchrod.papers.cards.setting_bands import Turn, once_bands, setting_bands
from pinchrod.papers.cards.spares_bands import spares_bands, spares_by_piece
from pinchrod.papers.pages.bands import LARGE, Band, blank, gathered, heading, paragraph
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.setting_out import Rods

DOCUMENT = "Machine card"


def cards(machining: Machining, bench: Bench, rods: Rods, shop: Shop) -> tuple[Content, ...]:
    """The pages of all cards: those of the machines, then those of the bench."""
    gluings = {gluing.frame: gluing for gluing in bench.gluings}
    glue_cards = (glue_card(rod, gluings[rod.frame.id], shop) for rod in rods.rods)
    return (*_machine_cards(machining, bench.spares, shop), *chain.from_iterable(glue_cards))


def _machine_cards(machining: Machining, spares: Sequence[Spares], shop: Shop) -> tuple[Content, ...]:
    space = body(shop.papers.size, true_scale=False)
    width, step = space.right - space.left, shop.practice.resolution
    order = Content(title=TITLE, document_type=TITLE, marks=())
    first = (
        *order_bands(machining, width),
        *spares_bands(spares, width, sticks_known=machining.sawn is None),
    )
    pages = [*pages_like(order, gathered(first, space, space))]
    made, everything = spares_by_piece(spares), _everything(machining)
    for number, each in enumerate(machining.steps, start=1):
        card = Content(title=f"{number}: {each.title}", document_type=DOCUMENT, marks=(), level=1)
        bands = _card(_Card(each, number, machining, made, everything), step, width)
        pages.extend(pages_like(card, gathered(bands, space, space)))
    return tuple(pages)


@dataclass(frozen=True, slots=True)
class _Card:
    """One step, which it is of all, the spare pieces that are made with the others, and all there is."""

    it: Step
    number: int
    machining: Machining
    spares: Mapping[str, Spares]
    everything: tuple[frozenset[str], frozenset[str]]


def _card(card: _Card, step: Mm, width: float) -> Iterator[Band]:
    """One card: what, why, what to take care of, what is set once, and setting after setting."""
    each, machining = card.it, card.machining
    yield paragraph(
        f"Step {card.number} of {len(machining.steps)}  ·  {each.machine}", width, LARGE, keeps=True
    )
    yield heading(each.title, width, 7.0)
    yield paragraph(each.why, width)
    for said in machine_words(each, machining):
        yield paragraph(said, width)
    yield blank(2.0)
    yield take_care(each.cautions, width)
    yield blank(3.0)
    once, turns = _parted(each)
    called = _with_sticks(each, machining)
    yield from once_bands(once, step, width)
    for place, setting in enumerate(turns, start=1):
        turn = Turn(
            setting=setting,
            number=place,
            of=len(turns),
            whole=len(setting.through) if set(setting.through) in card.everything else 0,
            spares=card.spares,
            called=called,
        )
        yield from setting_bands(turn, step, width)


def _with_sticks(each: Step, machining: Machining) -> dict[str, str]:
    """At the saw that cuts sticks into pieces: each piece as it is called there, with its stick."""
    if each.machine != "crosscut saw":
        return {}
    return {piece: f"{piece} · {cuts.stick}" for cuts in machining.stick_cuts for piece in cuts.pieces}


def _everything(machining: Machining) -> tuple[frozenset[str], frozenset[str]]:
    """All pieces, and all sticks, of the job; all that one step works may be fewer."""
    pieces = frozenset(mark for stop in machining.lengths for mark in stop.pieces)
    return pieces, frozenset(rough.name for rough in machining.roughs)


def _parted(each: Step) -> tuple[list[StepSetting], list[StepSetting]]:
    """What is set once for the whole step, and what is set in turn."""
    once = [setting for setting in each.settings if not setting.through]
    return once, [setting for setting in each.settings if setting.through]
