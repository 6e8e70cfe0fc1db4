"""What can be bought: the tables [[offer]] of a job or workshop file, understood."""

import re
from collections.abc import Iterator, Mapping, Sequence

from pinchrod.ground import Mm, Problem, Span, Where, quoted
from pinchrod.job.boards import Board
from pinchrod.job.fields import choice, tables_in, words
from pinchrod.job.found import missing, problem_at
from pinchrod.job.history import check_like, read_history
from pinchrod.job.joined import file_name, found, given
from pinchrod.job.keys import unknown_names
from pinchrod.job.limits import MOST_NAME, MOST_OFFERS, OFFER_SIZES
from pinchrod.job.names import plain
from pinchrod.job.offers import Offer, Per, Tallying
from pinchrod.job.quarters import thickness_in
from pinchrod.job.said import Reading, Said, Table, gathered
from pinchrod.job.sizes import length, number
from pinchrod.job.source import LISTS, Source

OFFER_KEYS = ("thickness", "width", "length", "price", "per", "tally", "name", "history")
MISSING = {
    "thickness": "write it as it is sold, such as 27",
    "width": "write it, or the least and the most of random widths: [150, 250]",
    "length": "write it, or the least and the most of random lengths: [2400, 4800]",
    "price": "write what the merchant asks",
    "per": f"write what the price is for: {', '.join(Per)}",
}
WRITTEN = {plain(per): per for per in Per} | {"m³": Per.CUBIC_METRE, "boardfeet": Per.BOARD_FOOT}
STRETCH = re.compile(r"\s*([0-9.]+)\s*(?:-|–|to)\s*([0-9.]+)\s*(?:mm)?\s*")

FOR = {Per.CUBIC_METRE: "a cubic metre", Per.METRE: "a metre", Per.BOARD: "a board"}

Offered = tuple[tuple[Said, Table], ...]
"""The tables as they stand, each with the place where it begins."""


def read_offers(said: Table, files: Sequence[Source], unnamed: str) -> Reading[tuple[Offer, ...]]:
    """The offers that can be read, with the boards of their history from these files.

    An offer without a name is called by its place: `unnamed` and a number.
    """
    offered = yield from _offered(said)
    if len(offered) > MOST_OFFERS:
        what = f"there are {len(offered)} offers; at most {MOST_OFFERS} are read"
        yield problem_at(offered[0][0], "offers-many", what, "leave out those that nobody will buy from")
        return ()
    sent = yield from _histories(offered, files)
    offers = []
    for place, (at, table) in enumerate(offered, start=1):
        name = yield from _name(table, f"{unnamed} {place}")
        offers.append((yield from _offer(at.called(name), table.called(name), name, sent)))
    yield from _check_twice(offered)
    return tuple(offer for offer in offers if offer is not None)


def histories(said: Table) -> tuple[str, ...]:
    """The names of the files that the offers' histories stand in, each once."""
    offered, _ = gathered(_offered(said))
    return tuple(gathered(_named(offered))[0])


def history_files(said: Table, files: Sequence[Source]) -> tuple[Source, ...]:
    """Those of the files that are a history."""
    return tuple(file for name in histories(said) if (file := found(name, files)) is not None)


def merged(job: Sequence[Offer], shop: Sequence[Offer]) -> Reading[tuple[Offer, ...]]:
    """The job's offers, then the workshop's; of two with one name the job's stands."""
    own = {plain(offer.name): offer for offer in job}
    for offer in shop:
        if plain(offer.name) in own:
            first = own[plain(offer.name)].where
            what = (
                f"the offer {quoted(offer.name)} stands in the job, too, at {first}, which counts before it"
            )
            mend = "give one of them another name, if both are meant"
            yield Problem(where=offer.where, code="offer-twice", what=what, mend=mend, stops=False)
    return (*job, *(offer for offer in shop if plain(offer.name) not in own))


def _offered(said: Table) -> Reading[Offered]:
    found_there = said.get("offer")
    return () if found_there is None else (yield from tables_in(found_there, "offer"))


def _named(offered: Offered) -> Reading[dict[str, Said]]:
    """Every history's file by its name, where it is first named."""
    names: dict[str, Said] = {}
    for _, table in offered:
        said = table.get("history")
        name = None if said is None else (yield from file_name(said, "history", LISTS))
        if said is not None and name is not None:
            names.setdefault(name, said)
    return names


def _histories(offered: Offered, files: Sequence[Source]) -> Reading[Mapping[str, tuple[Board, ...]]]:
    """What was sent before, by the name of its file; each file is read once, however often it is named."""
    sent = {}
    for name, said in (yield from _named(offered)).items():
        source = yield from given(said, name, files)
        if source is not None:
            sent[name] = yield from read_history(source)
    return sent


def _name(table: Table, otherwise: str) -> Reading[str]:
    said = table.get("name")
    name = None if said is None else (yield from words(said, "the offer's name", MOST_NAME))
    return name or otherwise


def _offer(at: Said, table: Table, name: str, sent: Mapping[str, tuple[Board, ...]]) -> Reading[Offer | None]:
    """One offer, or None if a part of it is at fault."""
    yield from unknown_names(table, "[offer]", {"[offer]": OFFER_KEYS})
    for key, mend in MISSING.items():
        if table.get(key) is None:
            yield missing(at, key if key == "per" else f"the {key}", mend)
    thickness = yield from _thickness(table)
    width = yield from _span(table, "width")
    long = yield from _span(table, "length")
    price = yield from _price(table)
    per = yield from _per(table)
    tallying = yield from _tallying(table, per)
    if thickness is None or width is None or long is None or price is None or per is None:
        return None
    said = table.get("history")
    boards = () if said is None else sent.get(str(said.value).strip(), ())
    offer = Offer(
        name=name,
        thickness=thickness,
        width=width,
        length=long,
        price=price,
        per=per,
        tallying=tallying,
        history=boards,
        where=at.at,
    )
    if said is not None:
        yield from check_like(offer, said.at)
    return offer


def _thickness(table: Table) -> Reading[Mm | None]:
    said = table.get("thickness")
    return None if said is None else (yield from thickness_in(said, OFFER_SIZES["thickness"]))


def _price(table: Table) -> Reading[Mm | None]:
    said = table.get("price")
    return None if said is None else (yield from number(said, "price", OFFER_SIZES["price"]))


def _span(table: Table, key: str) -> Reading[Span | None]:
    """One size, or the least and the most of random sizes."""
    said = table.get(key)
    if said is None:
        return None
    if isinstance(said.value, tuple):
        return (yield from _least_and_most(said, said.value, key))
    stretch = STRETCH.fullmatch(said.value) if isinstance(said.value, str) else None
    if stretch is not None:
        what = f"{key} is {quoted(said.shown)}, which is not one size"
        mend = f"write random sizes as [{stretch[1]}, {stretch[2]}], without quotes"
        yield problem_at(said, "not-a-pair", what, mend)
        return None
    size = yield from length(said, key, OFFER_SIZES[key])
    return None if size is None else Span(size, size)


def _least_and_most(said: Said, ends: Sequence[Said], key: str) -> Reading[Span | None]:
    if len(ends) != 2:
        what = f"{key} is a list of {len(ends)}, not the least and the most"
        yield problem_at(said, "not-a-pair", what, "write one size, or two in brackets: [150, 250]")
        return None
    low = yield from length(ends[0].called(said.at.name), key, OFFER_SIZES[key])
    high = yield from length(ends[1].called(said.at.name), key, OFFER_SIZES[key])
    if low is None or high is None:
        return None
    if low > high:
        what = f"{key} runs from {ends[0].shown} to {ends[1].shown}"
        mend = f"write the least first: [{_bare(ends[1])}, {_bare(ends[0])}]"
        yield problem_at(said, "offer-backwards", what, mend)
        return None
    return Span(low, high)


def _bare(said: Said) -> str:
    """A size as it stands in the file, with quotes around words."""
    return f"'{said.value}'" if isinstance(said.value, str) else said.typed


def _per(table: Table) -> Reading[Per | None]:
    said = table.get("per")
    text = None if said is None else (yield from words(said, "per"))
    if said is None or text is None:
        return None
    if plain(text) not in WRITTEN:
        what = f"per is {quoted(text)}, which is none of those we know"
        *first, last = Per
        yield problem_at(said, "not-a-choice", what, f"write {', '.join(first)} or {last}")
        return None
    return WRITTEN[plain(text)]


def _tallying(table: Table, per: Per | None) -> Reading[Tallying]:
    """How its boards are tallied; the usual way, if nothing is said."""
    said = table.get("tally")
    name = None if said is None else (yield from choice(said, "tally", tuple(Tallying), _tallying_written))
    if said is not None and per is not None and per is not Per.BOARD_FOOT:
        what = f"a tally is said, but the price is for {FOR[per]}, for which nothing is rounded"
        mend = "take the line out, or say that the price is per board foot"
        yield Problem(where=said.key_at, code="tally-unused", what=what, mend=mend, stops=False)
    return Tallying.SURFACE if name is None else Tallying(name)


def _tallying_written(name: str) -> str:
    found = plain(name).removesuffix("tally")
    return next((one.value for one in Tallying if plain(one) == found), name)


def _check_twice(offered: Offered) -> Iterator[Problem]:
    """Two offers of one name, which no paper could tell apart."""
    first: dict[str, Where] = {}
    for _, table in offered:
        said = table.get("name")
        name = None if said is None else gathered(words(said, "name", MOST_NAME))[0]
        if said is None or name is None:
            continue
        if plain(name) in first:
            what = f"an offer named {quoted(name)} stands already at {first[plain(name)]}"
            yield problem_at(said.called(name), "offer-twice", what, "give each offer a name of its own")
        first.setdefault(plain(name), said.at)
