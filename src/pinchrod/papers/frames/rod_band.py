"""One rod at full size: a strip with every member's section, each line squared across, and its figures.

The rod lies with its left or bottom end to the left, its face edge below. Lines stand at exact places;
what is printed is rounded.
"""

from collections.abc import Iterator
from itertools import pairwise

from pinchrod.ground import Mm, Span, show
from pinchrod.job import Bead
from pinchrod.papers.frames.rod_section import section
from pinchrod.papers.frames.rod_strip import Part, end_to_end, in_words, kept
from pinchrod.papers.frames.rod_words import LARGE, LEAST, PLAIN, foot_words, gap_words, section_words
from pinchrod.papers.marks.chains import PITCH
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import (
    CENTRE,
    HIDDEN,
    NARROW,
    WIDE,
    Line,
    Mark,
    Marks,
    Pen,
    RunningDimension,
    Spot,
    Words,
)
from pinchrod.papers.marks.stacking import beyond
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import Band, filled

STRIP = 45.0  # how wide the rod is drawn, if its members leave ABOVE of it
ABOVE = 23.0  # mm of the strip for words, above the sections
TICK = 5.0  # how far a dashed line runs on above the sections
ARROW = 6.0  # from the face edge up to the line that shows a sight size
AWAY = 9.0  # from the face edge down to the line of the running figures
OVER = 3.0  # from the strip up to the words at its ends
UNDER = 4.0  # from the figures down to the next rod
LEADING = 1.7  # from line to line, in heights of the letters: accents on capitals have room
MOST_NAMED = 8  # openings in a rod's heading


def rod_band(part: Part, bead: Bead, step: Mm, width: float) -> Band:
    """A part of a rod as a band of that width: its heading, its strip, its running figures."""
    figures = running_figures(part, step)
    heading = _heading(part, step, width)
    above = heading.height + (LARGE if part.matches else 0.0) + OVER + rod_height(part)
    strip = placed((*_strip(part, bead, step), figures), dx=-float(part.shown.low), dy=-above)
    return Band(height=above + AWAY + beyond(figures) + UNDER, marks=(*heading.marks, *strip))


def rod_height(part: Part) -> float:
    """How wide the strip is drawn."""
    thickness = max(float(member.thickness) for member in part.strip.cut.members)
    return max(STRIP, thickness + ABOVE)


def running_figures(part: Part, step: Mm) -> RunningDimension:
    """The distance of every line from the rod's first end; shoulders are left out where lines stand close."""
    places = _figured(part)
    size = PLAIN if _have_room(places, PLAIN) else LEAST
    start, *rest = places
    return RunningDimension(
        Spot(float(start), 0.0),
        tuple(Spot(float(at), 0.0) for at in rest),
        tuple(show(at, step) for at in rest),
        away=-AWAY,
        size=size,
        datum_text=show(start, step),
    )


def _figured(part: Part) -> tuple[Mm, ...]:
    """The places that get their figures: the first is nought, or the match mark of a part further on."""
    strip = part.strip
    for lines in (strip.lines, strip.cut.stops):
        places = sorted({*kept(lines, part.shown), *part.matches})
        if _have_room(places, PLAIN):
            break
    if part.first:
        return tuple(places)
    # A part further on has no nought on it: its figures start at the match mark and read as the whole rod's.
    return (part.matches[0], *(at for at in places if at != part.matches[0]))


def _have_room(places: list[Mm] | tuple[Mm, ...], size: float) -> bool:
    return len(places) * PITCH * size <= float(max(places) - min(places))


def _heading(part: Part, step: Mm, width: float) -> Band:
    """What the rod is, and the members that lie along it with their lengths."""
    strip = part.strip
    named = in_words([opening.name for opening in strip.cut.openings], MOST_NAMED)
    part_of = f", part {part.number} of {part.count}" if part.count > 1 else ""
    kind = f"{strip.rod.frame.id} {strip.kind}{part_of}, through {named}"
    lying = [end_to_end(member, step) for member in strip.lying] if part.first else []
    lines = [(line, LARGE, True) for line in filled(kind.split(), LARGE, width, between=" ", bold=True)]
    if lying:
        said = [f"Along it, end to end: {lying[0]}", *lying[1:]]
        lines += [(line, PLAIN, False) for line in filled(said, PLAIN, width)]
    marks: list[Mark] = []
    down = 0.0
    for text, size, bold in lines:
        marks.append(Words(Spot(0, -down - size), text, size=size, bold=bold))
        down += LEADING * size
    return Band(height=down + 2.0, marks=tuple(marks))


def _strip(part: Part, bead: Bead, step: Mm) -> Iterator[Mark]:
    """The rod itself, and the words on it."""
    high = rod_height(part)
    yield from _lines_across(part, high)
    for standing in part.strip.sections:
        if _within(standing.place, part.shown):
            yield section(standing.drawn, bead)
            yield from _shoulder_lines(part, standing.place, float(standing.drawn.thickness) + TICK)
            yield from section_words(standing, part, high, TICK)
    for span in part.strip.cut.spans:
        seen = _overlap(span, part.shown)
        if seen:
            yield from _arrow(span, seen)
            yield from gap_words(part, span, _beside_match(part, seen), step, (ARROW, high))
    yield from foot_words(part, high)
    yield from _ends(part, step, high)
    yield from _face_edge(part)


def _within(span: Span, shown: Span) -> bool:
    return shown.low <= span.low and span.high <= shown.high


def _overlap(span: Span, shown: Span) -> Span | None:
    low, high = max(span.low, shown.low), min(span.high, shown.high)
    return Span(low, high) if low < high else None


def _beside_match(part: Part, seen: Span) -> Span:
    """The wider side of a stretch through which a match mark is drawn."""
    marks = [at for at in part.matches if seen.low < at < seen.high]
    sides = (Span(low, high) for low, high in pairwise((seen.low, *marks, seen.high)))
    return max(sides, key=lambda side: side.length)


def _lines_across(part: Part, high: float) -> Iterator[Line]:
    """The rod's two edges, and every line of its members and openings squared across."""
    low, end = float(part.shown.low), float(part.shown.high)
    for y in (0.0, high):
        yield Line(Spot(low, y), Spot(end, y), pen=WIDE, layer="rod")
    for at in kept(part.strip.cut.stops, part.shown):
        yield _squared(at, high, NARROW, "rod")


def _squared(at: Mm, high: float, pen: Pen, layer: str) -> Line:
    return Line(Spot(float(at), 0.0), Spot(float(at), high), pen=pen, layer=layer)


def _shoulder_lines(part: Part, place: Span, high: float) -> Iterator[Line]:
    """Where the members that end here have their shoulders (dashed), and their tenons their ends."""
    strip = part.strip
    for at in strip.cut.shoulders:
        if place.low < at < place.high:
            yield _squared(at, high, HIDDEN, "shoulder")
    tenons = {member.along.low - member.low_end.tenon for member in strip.lying if member.low_end.tenon}
    tenons |= {member.along.high + member.high_end.tenon for member in strip.lying if member.high_end.tenon}
    for at in sorted(tenons):
        if place.low < at < place.high:
            yield _squared(at, high, CENTRE, "tenon")


def _arrow(span: Span, seen: Span) -> Iterator[Line]:
    """The line that shows a sight size, with a stroke where it ends on this sheet."""
    yield Line(Spot(float(seen.low), ARROW), Spot(float(seen.high), ARROW), pen=NARROW, layer="sight")
    for end in (span.low, span.high):
        if seen.low <= end <= seen.high:
            x = float(end)
            yield Line(Spot(x - 1.5, ARROW - 1.5), Spot(x + 1.5, ARROW + 1.5), pen=WIDE, layer="sight")


def _ends(part: Part, step: Mm, high: float) -> Iterator[Mark]:
    """The names of the rod's ends, and the match marks where it goes on on another sheet."""
    strip, over = part.strip, high + OVER
    if part.first:
        yield _end_name(Spot(-OVER, high / 2), strip.ends[0])
    if part.last:
        yield _end_name(Spot(float(strip.cut.total) + OVER + LARGE, high / 2), strip.ends[1])
    for at in part.matches:
        x = float(at)
        yield Line(Spot(x, -4.0), Spot(x, over - 1.0), pen=WIDE, layer="match")
        yield Words(Spot(x, over), f"match mark {show(at, step)}", size=LARGE, anchor="middle")


def _end_name(at: Spot, name: str) -> Words:
    return Words(at, name, size=LARGE, bold=True, anchor="middle", turn=90)


def _face_edge(part: Part) -> Marks:
    """The words that say which edge the faces are on, in the widest gap between figures that has room."""
    places = sorted({*kept(part.strip.lines, part.shown), *part.matches})
    gaps = [Span(low, high) for low, high in pairwise(places)]
    widest = max(gaps, key=lambda gap: gap.length)
    if words_width("face edge", PLAIN) + 4.0 > float(widest.length):
        return ()
    at = Spot(float(widest.middle), -PLAIN - 1.8)
    return (Words(at, "face edge", size=PLAIN, anchor="middle"),)
