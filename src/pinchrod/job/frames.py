"""A frame understood: from its table in a job file, or its row in a list."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.ground import INCH, Mm, Problem, Where, quoted, show
from pinchrod.job.fields import words
from pinchrod.job.found import WORDS, missing, words_in
from pinchrod.job.limits import ALIKE, FRAME_SIDE, FRAME_SIZES, SMALL_SIDE, in_unit
from pinchrod.job.names import check_id
from pinchrod.job.phrases.phrase import read_phrase
from pinchrod.job.records import Frame, Layout
from pinchrod.job.said import Reading, Said, Table
from pinchrod.job.sizes import exact_length, length, whole

FRAME_KEYS: tuple[str, ...] = ("id", "width", "height", "layout", "quantity", *list(FRAME_SIZES)[2:])
NEEDED = ("id", "width", "height", "layout")
NEARLY = Mm("0.5")  # a size worked out from inches and rounded to whole mm
BARE = re.compile(r"[0-9]+([.,][0-9]+)?")
LATER = {"width": "share", "height": "ceiling"}  # what a frame of a run may say instead of a size


@dataclass(frozen=True, slots=True, kw_only=True)
class Members:
    """The face widths that stand in a frame that says nothing else."""

    stile: Mm
    top_rail: Mm
    mid_rail: Mm
    bottom_rail: Mm
    muntin: Mm


def read_frame(place: Said, row: Table, usual: Members) -> Reading[Frame | None]:
    """The frame, or None if a part of it is at fault. `place` is its row or header."""
    name = yield from read_id(place, row)
    where = row.said.get("id", place).called(name or "").at
    row, place = row.called(name or ""), place.called(name or "")
    width = yield from _side(place, row, "width")
    height = yield from _side(place, row, "height")
    layout = yield from _layout(place, row)
    quantity = yield from _quantity(row)
    sizes = yield from _sizes(row, usual)
    yield from _check_foot(row, sizes)
    if name is None or width is None or height is None or layout is None or quantity is None:
        return None
    return Frame(
        id=name,
        width=width,
        height=height,
        layout=layout.parsed,
        phrase=layout.phrase,
        quantity=quantity,
        where=where,
        layout_where=layout.where,
        **sizes,
    )


def read_id(place: Said, row: Table) -> Reading[str | None]:
    """The frame's id, if it is fit to stand on papers and in file names."""
    said = row.get("id")
    if said is None:
        yield from _missing(place, row, "id", "the frame's id", 'give it one, such as "K1"')
        return None
    name = yield from words(said, "the id")
    if name is None:
        return None
    problems = tuple(check_id(name, said.at))
    yield from problems
    return None if problems else name


def _missing(place: Said, row: Table, key: str, name: str, mend: str) -> Iterator[Problem]:
    """What was left out; nothing where the whole list has no such column, which its header tells."""
    if key not in row.without:
        yield missing(place, name, mend)


@dataclass(frozen=True, slots=True)
class _Phrase:
    """A layout, as said and as read."""

    phrase: str
    parsed: Layout
    where: Where


def _layout(place: Said, row: Table) -> Reading[_Phrase | None]:
    said = row.get("layout")
    if said is None:
        mend = 'say what stands in the frame, such as "drawer 140 over pair"'
        yield from _missing(place, row, "layout", "the layout", mend)
        return None
    phrase = yield from words_in(said, "the layout", WORDS)
    if phrase is None:
        return None
    parsed, problems = read_phrase(phrase, said.words_at)
    yield from problems
    return None if parsed is None else _Phrase(phrase.strip(), parsed, said.words_at)


def _quantity(row: Table) -> Reading[int | None]:
    said = row.get("quantity")
    return 1 if said is None else (yield from whole(said, "quantity", ALIKE))


def _side(place: Said, row: Table, name: str) -> Reading[Mm | None]:
    """Width or height: between its ends, and not likely to have been meant in the other unit."""
    said = row.get(name)
    if said is None:
        yield from _missing(place, row, name, f"the {name}", "give the outer size, such as 600")
        return None
    if said.value == LATER[name]:
        what = f"{name} is {quoted(LATER[name])}, which needs the survey of a run; runs are not read yet"
        yield Problem(where=said.at, code="needs-run", what=what, mend=f"give the {name} as a size for now")
        return None
    size = yield from exact_length(said, name)
    if size is None:
        return None
    problem = _slip(said, name, size)
    if problem:
        yield problem
    return None if problem and problem.stops else size


def _slip(said: Said, name: str, size: Mm) -> Problem | None:
    """A side that is out of reason, or so small that inches may be meant."""
    if FRAME_SIDE.low <= size <= FRAME_SIDE.high:
        small = size < SMALL_SIDE and BARE.fullmatch(said.shown)
        return _doubt_small(said, name, size) if small else None
    less = size < FRAME_SIDE.low
    end = f"less than {FRAME_SIDE.low}" if less else f"more than {FRAME_SIDE.high}"
    what = f"{name} is {in_unit(size, 'mm')}, {end} mm"
    code = "too-small" if less else "too-large"
    return Problem(where=said.at, code=code, what=what, mend=f"write {FRAME_SIDE}{_other_unit(said, size)}")


def _other_unit(said: Said, size: Mm) -> str:
    """What to write if the size was meant in the other unit."""
    if BARE.fullmatch(said.shown) and FRAME_SIDE.low <= size * INCH <= FRAME_SIDE.high:
        return f"; if inches are meant, write {said.shown} in"
    whole = round(size / INCH)
    if FRAME_SIDE.low <= whole <= FRAME_SIDE.high and abs(size - whole * INCH) <= NEARLY:
        return f"; it is 25.4 x {whole}: if that many mm are meant, write {whole}"
    return ""


def _doubt_small(said: Said, name: str, size: Mm) -> Problem:
    what = f"{name} is {in_unit(size, 'mm')}, which is very small for a frame"
    mend = f"if inches are meant, write {said.shown} in"
    return Problem(where=said.at, code="small-side", what=what, mend=mend, stops=False)


def _sizes(row: Table, usual: Members) -> Reading[dict[str, Mm]]:
    """Each member's face width, and the foot, as said or as usual."""
    sizes = {
        "left_stile": usual.stile,
        "right_stile": usual.stile,
        "top_rail": usual.top_rail,
        "bottom_rail": usual.bottom_rail,
        "mid_rail": usual.mid_rail,
        "muntin": usual.muntin,
        "foot": Mm(0),
    }
    for name, usual_size in tuple(sizes.items()):
        said = row.get(name)
        found = None if said is None else (yield from length(said, name, FRAME_SIZES[name]))
        sizes[name] = usual_size if found is None else found
    return sizes


def _check_foot(row: Table, sizes: dict[str, Mm]) -> Reading[None]:
    """A foot is how far the stiles run on below the bottom rail: without that rail it means nothing."""
    said = row.get("foot")
    if said is not None and sizes["foot"] and not sizes["bottom_rail"]:
        what = f"foot is {show(sizes['foot'])} mm, but there is no bottom rail for the stiles to run on below"
        mend = "give the frame a bottom rail, or leave the foot out"
        yield Problem(where=said.at, code="foot-without-rail", what=what, mend=mend)
