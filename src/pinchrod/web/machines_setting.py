"""One setting on a screen: what to set, how the pieces lie, which go through, which comes next."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from string import ascii_uppercase

from markupsafe import Markup

from pinchrod.ground import show
from pinchrod.papers import (
    Box,
    lying_picture,
    lying_words,
    sheet_around,
    spares_by_piece,
    spares_with,
    ways_of_lying,
    write_svg,
)
from pinchrod.plan import Plan
from pinchrod.store import STEPS, Deed, Entry, Gone, Lot, Standing, Turn, comes_later, turns_of
from pinchrod.web.known import Known
from pinchrod.web.machines_steps import Once, entries_of, far_of, left_in, once_of
from pinchrod.web.scans_touches import Touch
from pinchrod.web.templates import drawing
from pinchrod.web.within import Within, within

PICTURE = Box(0.0, -20.0, 44.0, 0.0)  # as on the card
MARGIN = 1.0
MOST_SHOWN = 60  # pieces to be ticked one by one; others come up as these go through
NAMED = 6  # so many pieces are named in a sentence, and the rest counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Here:
    """Where one is among all settings."""

    job: str
    turns: tuple[Turn, ...]
    step: int
    number: int

    @classmethod
    def at(cls, job: str, plan: Plan, step: int, number: int) -> "Here":
        """The setting of that number in a step."""
        return cls(job=job, turns=turns_of(plan.machining), step=step, number=number)

    @property
    def of_step(self) -> tuple[Turn, ...]:
        """Every setting of the step."""
        return tuple(turn for turn in self.turns if turn.step == self.step)

    @property
    def turn(self) -> Turn:
        """The setting itself."""
        return self.of_step[self.number - 1]

    @property
    def home(self) -> str:
        """Where the order of work is."""
        return f"/jobs/{self.job}/machines"

    @property
    def address(self) -> str:
        """Where the setting is."""
        return f"{self.home}/{self.step}/{self.number}"

    @property
    def before(self) -> str:
        """Where one came from: the setting before, or the step's own page."""
        return f"{self.home}/{self.step}/{self.number - 1}" if self.number > 1 else f"{self.home}/{self.step}"

    @property
    def after(self) -> str:
        """Where it goes on: the next setting, the next step, or the order of work again."""
        if self.number < len(self.of_step):
            return f"{self.home}/{self.step}/{self.number + 1}"
        later = any(turn.step > self.step for turn in self.turns)
        return f"{self.home}/{self.step + 1}" if later else self.home


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way in which pieces lie, with its picture."""

    letter: str  # empty if all lie in one way
    picture: Markup
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """What is touched when it went through: a piece, or a stick."""

    name: str
    aside: str = ""  # the ways in which it lies, or what a stick holds


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingPage:
    """One setting."""

    within: Within
    title: str
    machine: str
    step: int
    number: int
    of: int
    what: str
    to: str
    unit: str
    spot: str
    once: tuple[Once, ...]
    ways: tuple[Way, ...]
    left: tuple[Tick, ...]
    number_left: int
    through: tuple[str, ...]
    spoiled: tuple[str, ...]
    early: tuple[str, ...]  # sentences: what was not said to be done before
    spares: str
    caution: str
    address: str
    before: str
    after: str
    home: str
    undo: Touch | None


def setting_page(
    known: Known, plan: Plan, here: Here, standings: Mapping[str, Standing], undo: Touch | None
) -> SettingPage:
    """The page of a setting."""
    turn, step, far = here.turn, plan.machining.steps[here.step - 1], far_of(standings)
    resolution = known.shop.practice.resolution
    to = show(turn.setting.to, resolution) if turn.setting else ""
    ways = tuple(_ways(turn, to))
    entries = entries_of(known.roll)
    left = left_in(turn, entries, far)
    gone_through = {piece for lot in turn.lots for piece in lot.pieces} - set(left)
    ticks = tuple(_ticks(turn, frozenset(left)))
    spoiled = tuple(piece for piece in far if piece in gone_through and far[piece].spoiled)
    return SettingPage(
        within=within(known.revision, "machines"),
        title=step.title,
        machine=step.machine,
        step=here.step,
        number=here.number,
        of=len(here.of_step),
        what=turn.setting.of if turn.setting else "everything goes through",
        to=to,
        unit=turn.setting.unit if turn.setting else "",
        spot=turn.spot,
        once=once_of(step, resolution),
        ways=ways,
        left=ticks[:MOST_SHOWN],
        number_left=len(ticks),
        through=tuple(_whole(turn, gone_through - set(spoiled))),
        spoiled=spoiled,
        early=tuple(_early(turn, here.turns, [entries[piece] for piece in left], far)),
        spares=_spares(turn, plan),
        caution=step.cautions[0] if step.cautions else "",
        address=here.address,
        before=here.before,
        after=here.after,
        home=here.home,
        undo=undo,
    )


def _ways(turn: Turn, to: str) -> Iterator[Way]:
    if turn.setting is None or turn.setting.stop is None:
        return
    lies = ways_of_lying(turn.setting.stop, back_up=turn.setting.back_up)
    for place, lie in enumerate(lies):
        letter = ascii_uppercase[place] if len(lies) > 1 else ""
        sheet = sheet_around(
            lying_picture(lie, to, PICTURE), margin=MARGIN, title=f"How it lies {letter}".strip()
        )
        yield Way(letter=letter, picture=drawing(write_svg(sheet)), words=lying_words(lie))


def _letters(turn: Turn) -> Mapping[str, str]:
    """For each piece the letters of the ways in which it lies, where there is more than one."""
    if turn.setting is None or turn.setting.stop is None:
        return {}
    lies = ways_of_lying(turn.setting.stop, back_up=turn.setting.back_up)
    found: dict[str, str] = {}
    for letter, lie in zip(ascii_uppercase, lies, strict=False):
        for piece in dict.fromkeys(lie.pieces):
            found[piece] = f"{found.get(piece, '')} {letter}".strip()
    return found if len(lies) > 1 else {}


def _ticks(turn: Turn, left: frozenset[str]) -> Iterator[Tick]:
    """What can be touched: of a stick whose pieces went through in part, what is left of it."""
    letters = _letters(turn)
    for lot in turn.lots:
        rest = [piece for piece in lot.pieces if piece in left]
        if rest:
            yield Tick(name=lot.name, aside=letters.get(lot.name, "") or _held(lot, rest))


def _held(lot: Lot, rest: list[str]) -> str:
    return ", ".join(rest) if rest != [lot.name] else ""


def _whole(turn: Turn, through: set[str]) -> Iterator[str]:
    for lot in turn.lots:
        if through.issuperset(lot.pieces):
            yield lot.name


def _early(
    turn: Turn, turns: tuple[Turn, ...], left: Sequence[Entry], far: Mapping[str, Gone]
) -> Iterator[str]:
    """What is usually done before, and was not said of pieces that are to go through now."""
    if comes_later(turns, turn):
        return
    missing: dict[Deed, list[str]] = {}
    for entry in left:
        deed = _missing(turn, entry, far.get(entry.mark, Gone()))
        if deed is not None:
            missing.setdefault(deed, []).append(entry.mark)
    for deed, pieces in missing.items():
        more = f" and {len(pieces) - NAMED} more" if len(pieces) > NAMED else ""
        yield f"Not said to be {deed} yet: {', '.join(pieces[:NAMED])}{more}."


def _missing(turn: Turn, entry: Entry, so_far: Gone) -> Deed | None:
    before = STEPS[: STEPS.index(turn.deed)]
    return next((deed for deed in before if deed in entry.steps and deed not in so_far.done), None)


def _spares(turn: Turn, plan: Plan) -> str:
    """The spare pieces that are made while the setting stands; they bear no mark of their own."""
    marks = [piece for lot in turn.lots for piece in lot.pieces]
    spares = spares_with(marks, spares_by_piece(plan.bench.spares))
    if len(spares) > NAMED:
        return f"{sum(each.spare for each in spares)}, one or more of {len(spares)} kinds"
    return ", ".join(f"+{each.spare} {each.like[0]}" for each in spares)
