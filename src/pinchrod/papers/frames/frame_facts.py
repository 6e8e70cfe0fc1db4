"""What a frame's page says beside its drawing: openings, members, diagonals, what to look out for."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial

from pinchrod.fit import SquareTable, table_for
from pinchrod.ground import Problem, show
from pinchrod.job import Shop
from pinchrod.papers.frames.elevation import Elevation
from pinchrod.papers.frames.elevation_words import length_between
from pinchrod.papers.frames.frame_dimensions import FrameDimensions
from pinchrod.papers.frames.frame_fitting import Lot
from pinchrod.papers.frames.hinge_centres import centres_in_words
from pinchrod.papers.pages.bands import Band, blank, heading, paragraph
from pinchrod.papers.pages.facts_table import (
    BETWEEN,
    FactsTable,
    Heading,
    facts_table,
    halves,
    side_by_side,
    table_bands,
)
from pinchrod.setting_out import Member, Opening, Rod

LONGEST_MARK = 16  # letters in a table; a longer mark is printed without the frame's id
LEAST_WORDS, MOST_WORDS = 45.0, 300.0  # mm of width that words may be given
MOST_SPELLED = 12  # marks without room that are named one by one
OPENING_HEADS = (
    Heading("opening"),
    Heading("kind, hung"),
    Heading("sight, w × h", "right"),
    Heading("each front, w × h", "right"),
)
MEMBER_HEADS = (Heading("member"), Heading("like"), Heading("length × width", "right"))
SQUARE_HEADS = (
    Heading("diagonals differ by", "right"),
    Heading("its top leans", "right"),
    Heading("a gap narrows", "right"),
)
DIFFERENCES = (1, 2, 3, 5)  # mm, of those the frame's card at the bench has


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameFacts:
    """The tables and words of one frame."""

    openings: FactsTable
    members: FactsTable
    square: FactsTable
    diagonal: str
    words: tuple[str, ...]
    doubts: tuple[str, ...]


def frame_facts(rod: Rod, shop: Shop, patterns: Mapping[str, str], doubts: Sequence[Problem]) -> FrameFacts:
    """The facts of a frame; `patterns` says for each member which pattern it is made to."""
    step = shop.practice.resolution
    openings = [_opening_row(rod, opening, shop) for opening in rod.openings]
    members = [
        (_short(rod, member.name), patterns.get(member.name, ""), _size(member, shop))
        for member in rod.members
    ]
    square = table_for(rod, shop.taping)
    phrase = rod.frame.phrase
    foot = (
        f"Foot: the stiles run on {show(rod.frame.foot, step)} below the bottom rail."
        if rod.frame.foot
        else ""
    )
    return FrameFacts(
        openings=facts_table(OPENING_HEADS, openings),
        members=facts_table(MEMBER_HEADS, members),
        square=facts_table(SQUARE_HEADS, list(_square_rows(square, rod, shop))),
        diagonal=f"Both diagonals: {show(square.diagonal, step)}",
        words=tuple(words for words in (f"Layout: {phrase}" if phrase else "", foot) if words),
        doubts=tuple(f"{doubt.where.name}: {doubt.what}; {doubt.mend}." for doubt in doubts),
    )


def _square_rows(table: SquareTable, rod: Rod, shop: Shop) -> Iterator[tuple[str, ...]]:
    """What a few differences of the diagonals come to; of gaps nothing, if the frame has no fronts."""
    step = shop.practice.resolution
    for row in table.rows:
        if row.difference in DIFFERENCES:
            narrows = show(row.taper, step) if rod.fronts else ""
            yield show(row.difference, step), show(row.lean, step), narrows


def _short(rod: Rod, mark: str) -> str:
    return mark if len(mark) <= LONGEST_MARK else mark[len(rod.frame.id) + 1 :]


def _size(member: Member, shop: Shop) -> str:
    step = shop.practice.resolution
    return f"{show(member.length, step)} × {show(member.width, step)}"


def _opening_row(rod: Rod, opening: Opening, shop: Shop) -> tuple[str, ...]:
    step = shop.practice.resolution
    sight = f"{length_between(opening.x, step)} × {length_between(opening.y, step)}"
    fronts = {f"{show(front.width, step)} × {show(front.height, step)}": None for front in opening.fronts}
    return _short(rod, opening.name), _kind(opening), sight, "".join(fronts)


def _kind(opening: Opening) -> str:
    hung = opening.fronts[0].hung if len(opening.fronts) == 1 else None
    return f"{opening.kind}, {hung}" if hung else str(opening.kind)


def facts_bands(facts: FrameFacts, width: float, remarks: Sequence[str]) -> tuple[Band, ...]:
    """The facts as bands no wider than that: tables side by side if both have room, words under them."""
    if facts.openings.width + BETWEEN + facts.members.width <= width:
        tables = side_by_side(facts.openings, facts.members)
    else:
        tables = (*table_bands(facts.openings), blank(BETWEEN), *table_bands(facts.members))
    return (*tables, blank(1.5), *_words(facts, remarks, width), blank(1.5), *_square(facts))


def _square(facts: FrameFacts) -> tuple[Band, ...]:
    """The diagonals of the square frame, and what a difference comes to."""
    return (paragraph(facts.diagonal, facts.square.width, keeps=True), *table_bands(facts.square))


def _square_said(facts: FrameFacts) -> str:
    """The same in words: one longer by the first column of the table is the last column of it."""
    longer, comes_to = (", ".join(row[place] for row in facts.square.rows) for place in (0, -1))
    means = "its top leans" if len(facts.square.heads) < len(SQUARE_HEADS) else "a gap narrows"
    return f"{facts.diagonal}; one longer by {longer}: {means} {comes_to}."


def facts_lots(facts: FrameFacts, remarks: Sequence[str]) -> Iterator[tuple[Lot, ...]]:
    """The facts in lots that may stand apart, the tidiest way first.

    Where the table of diagonals has no room they are said in words; where these have none, they are left to
    the frame's card at the bench: the drawing is not made smaller for them.
    """
    ways = tuple(_ways(facts, remarks))
    square = Lot(lambda _: _square(facts), facts.square.width, facts.square.width)
    said = Lot(lambda width: (paragraph(_square_said(facts), width),), LEAST_WORDS, MOST_WORDS)
    yield from ((*lots, square) for lots in ways)
    yield from ((*lots, said) for lots in ways)
    yield from ways


def _ways(facts: FrameFacts, remarks: Sequence[str]) -> Iterator[tuple[Lot, ...]]:
    """The facts without their diagonals: long tables in two halves come last."""
    said = Lot(cache(partial(_words, facts, remarks)), LEAST_WORDS, MOST_WORDS)
    words = (said,) if said.bands(MOST_WORDS) else ()
    openings, members = _lot(facts.openings), _lot(facts.members)
    yield _lot(facts.openings, facts.members), *words
    yield openings, members, *words
    more = _lot(*halves(facts.members))
    yield openings, more, *words
    for each in (members, more):
        yield _lot(*halves(facts.openings)), each, *words


def _lot(*tables: FactsTable) -> Lot:
    """A table, or two side by side, to stand as they are."""
    bands = side_by_side(*tables) if len(tables) == 2 else table_bands(*tables)
    width = sum(table.width for table in tables) + BETWEEN * (len(tables) - 1)
    return Lot(lambda _: bands, width, width)


def _words(facts: FrameFacts, remarks: Sequence[str], width: float) -> tuple[Band, ...]:
    said = [paragraph(text, width) for text in (*facts.words, *remarks)]
    if facts.doubts:
        said.append(heading("Look at this before cutting", width, 3.5))
        said.extend(paragraph(text, width) for text in facts.doubts)
    return tuple(said)


def remarks_on(rod: Rod, drawn: Elevation, dimensions: FrameDimensions) -> Iterator[str]:
    """What has to be said of a drawing on which not everything had room."""
    yield from centres_in_words(rod, dimensions.hinges_said, dimensions.step)
    if drawn.shortened:
        first = rod.members[0].name
        short = first[len(rod.frame.id) + 1 :]
        yield f"Where a mark has no room the frame's id is left off: {short} is {first}."
    if dimensions.left_out:
        which = " and ".join(dimensions.left_out)
        yield f"Too close to dimension here: the {which}. The full-size rod shows them."
    if drawn.unmarked:
        yield _unmarked(drawn.unmarked)


def _unmarked(marks: Sequence[str]) -> str:
    more = f" and {len(marks) - MOST_SPELLED} more" if len(marks) > MOST_SPELLED else ""
    return (
        f"No room here for the marks {', '.join(marks[:MOST_SPELLED])}{more}: rails are numbered"
        " from the top down, muntins from the left, openings as the layout names them."
    )
