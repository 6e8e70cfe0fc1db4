"""The words on a rod: what each section and each gap between them is, as large as there is room for."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, Span
from pinchrod.papers.frames.elevation_words import length_between
from pinchrod.papers.frames.rod_strip import Part, Standing, in_words
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import Marks
from pinchrod.papers.pages.blocks import Block, Said, first_that_fits, middle_of, said, stood

LARGEST, LARGE, PLAIN, LEAST = 10.0, 7.0, 5.0, 3.5
CLEAR = 1.5  # mm between words and the lines beside them
MOST_IN_GAP = 3  # openings named in one gap


def section_words(standing: Standing, part: Part, high: float, tick: float) -> Marks:
    """The marks of the members in one place, above their section."""
    low, end = float(standing.place.low) + 1.0, float(standing.place.high) - 1.0
    room = Box(low, float(standing.drawn.thickness) + tick + 0.5, end, high - 1.0)
    short = _short(standing.marks, part)
    names = [in_words(marks, 2) for marks in (standing.marks, short)]
    if len(short) > 1:
        names.append(f"{short[0]} +{len(short) - 1}")
    return _placed(_name_blocks([said(name, bold=True) for name in names]), room)


def _name_blocks(names: Sequence[Said]) -> Iterator[Block]:
    for size in (LARGE, PLAIN, LEAST):
        for name in names:
            block = Block(((name, size),))
            yield from (block, block.turned())


def _short(marks: Sequence[str], part: Part) -> tuple[str, ...]:
    """The marks without the frame's id, which stands in the heading."""
    return tuple(mark[len(part.strip.rod.frame.id) + 1 :] for mark in marks)


def gap_words(part: Part, span: Span, seen: Span, step: Mm, between: tuple[float, float]) -> Marks:
    """The openings of a gap and their sight size, in what is seen of it."""
    marks = part.strip.marks_in(span)
    names = [said(in_words(each, MOST_IN_GAP), bold=True) for each in (marks, _short(marks, part))]
    sight = length_between(span, step)
    room = Box(float(seen.low) + CLEAR, between[0] + 2 * CLEAR, float(seen.high) - CLEAR, between[1] - CLEAR)
    return _placed(_gap_blocks(names, said(f"sight {sight}"), said(sight)), room)


def _gap_blocks(names: Sequence[Said], sight: Said, alone: Said) -> Iterator[Block]:
    for size, letters in ((LARGE, LARGEST), (PLAIN, LARGEST), (PLAIN, LARGE), (LEAST, PLAIN)):
        for name in names:
            block = Block(((name, size), (sight, letters)))
            yield from (block, block.turned())
    for size in (LARGE, PLAIN, LEAST):
        block = Block(((alone, size),))
        yield from (block, block.turned())


def foot_words(part: Part, high: float) -> Marks:
    """The word for the first stretch of a height rod where the stiles run on below the bottom rail."""
    frame = part.strip.rod.frame
    if part.strip.cut.axis == "x" or not frame.foot or not part.first:
        return ()
    room = Box(CLEAR, CLEAR, float(min(frame.foot, part.shown.high)) - CLEAR, high - CLEAR)
    words = said("foot", bold=True)
    return _placed((Block(((words, size),)) for size in (LARGE, PLAIN, LEAST)), room)


def _placed(blocks: Iterator[Block], room: Box) -> Marks:
    block = first_that_fits(blocks, room, 1.0)
    return stood(block, middle_of(room), 1.0).words if block else ()
