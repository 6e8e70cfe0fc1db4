"""Each frame's rods at full size, on one long sheet: its width rods and its height rods, one over another."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from pinchrod.ground import Mm
from pinchrod.job import Job, Shop
from pinchrod.papers.frames.frame_heading import ORIENTATION, makings
from pinchrod.papers.frames.rod_band import rod_band, running_figures
from pinchrod.papers.frames.rod_strip import Part, Strip, parts_of
from pinchrod.papers.frames.room_outside import running_ends
from pinchrod.papers.frames.sections import height_cuts, width_cuts
from pinchrod.papers.marks.boxes import DESCENT, Box
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import NARROW, WIDE, Line, Mark, Marks, Sheet, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import Band, filled
from pinchrod.papers.pages.identity import About, about
from pinchrod.papers.pages.page import CELL, LEVEL_BLOCK, MARGINS, Content, title_block
from pinchrod.setting_out import Rod, Rods

BLOCK = 267.0  # mm: a title block as wide as on an A4 page that lies
MOST_BANDS = 5  # rods on one sheet, which then is hardly wider than the widest usual roll of paper, 841 mm
ENDS = 14.0  # mm beyond each end of a rod, for its name
BAR, BAR_BAND = 100.0, 18.0
ID_SIZES = (14.0, 10.0, 7.0, 5.0, 3.5)
LETTERS = 5.0
WARNING = "Full size: print at 100 %, do not fit to page"


@dataclass(frozen=True, slots=True, kw_only=True)
class RodSheet:
    """What one sheet holds, and how it is numbered."""

    rod: Rod
    parts: tuple[Part, ...]
    first: bool  # of its frame
    sheet: str


def rod_sheets(rods: Rods, job: Job, shop: Shop) -> tuple[Sheet, ...]:
    """The full-size rods of every frame: one sheet for each, more where rods are too long or too many."""
    planned = [(rod, place, parts) for rod in rods.rods for place, parts in enumerate(_by_sheet(rod))]
    said = about(job, shop)
    return tuple(
        _sheet(
            RodSheet(rod=rod, parts=parts, first=not place, sheet=f"{number} of {len(planned)}"),
            job,
            shop.practice.resolution,
            said,
        )
        for number, (rod, place, parts) in enumerate(planned, start=1)
    )


def _by_sheet(rod: Rod) -> Iterator[tuple[Part, ...]]:
    """The frame's rods, widths first, as they come on its sheets: all first parts, then all second ones."""
    parts = [parts_of(Strip(rod=rod, cut=cut)) for cut in (*width_cuts(rod), *height_cuts(rod))]
    for number in range(max(map(len, parts))):
        here = [found[number] for found in parts if number < len(found)]
        for start in range(0, len(here), MOST_BANDS):
            yield tuple(here[start : start + MOST_BANDS])


def _sheet(it: RodSheet, job: Job, step: Mm, said: About) -> Sheet:
    past = [running_ends(running_figures(part, step)) for part in it.parts]
    left, right = (max(ENDS, *(ends[side] for ends in past)) for side in (0, 1))
    longest = max(float(part.shown.length) for part in it.parts)
    width = max(BLOCK, left + longest + right)
    heading = _heading(it.rod, makings(it.rod, job, step), width)
    bands = [heading, *(rod_band(part, job.bead, step, width - left) for part in it.parts)]
    foot = MARGINS.bottom + CELL * len(LEVEL_BLOCK) + BAR_BAND
    tops = list(accumulate((band.height for band in reversed(bands)), initial=foot))[:0:-1]
    marks: list[Mark] = []
    for number, (band, top) in enumerate(zip(bands, tops, strict=True)):
        marks.extend(placed(band.marks, dx=MARGINS.left + (left if number else 0.0), dy=top))
    return Sheet(
        width=MARGINS.left + width + MARGINS.right,
        height=tops[0] + MARGINS.top,
        marks=(*marks, *_check_bar(foot - BAR_BAND), *_title(it, said)),
        title=f"Rod of frame {it.rod.frame.id}" if it.first else "",
    )


def _title(it: RodSheet, said: About) -> Marks:
    content = Content(
        title=f"Frame {it.rod.frame.id}", document_type="Full-size rod", marks=(), scale="1:1", landscape=True
    )
    left, bottom = MARGINS.left, MARGINS.bottom
    return title_block(content, said, it.sheet, Box(left, bottom, left + BLOCK, bottom))


def _heading(rod: Rod, items: Sequence[str], width: float) -> Band:
    """The frame's id, what the frame is made of, and how to print its rod."""
    name, wide = rod.frame.id, words_width(rod.frame.id, 1, bold=True)
    size = next((size for size in ID_SIZES if wide * size <= width), ID_SIZES[-1])
    down = size * (1 + DESCENT)
    marks: list[Mark] = [Words(Spot(0, -down), name, size=size, bold=True, max_width=width)]
    down += LETTERS
    for line in (*filled((*items, ORIENTATION), LETTERS, width, between=" · "), WARNING):
        down += 1.7 * LETTERS
        marks.append(Words(Spot(0, -down), line, size=LETTERS, bold=line == WARNING))
    return Band(height=down + 3 * LETTERS, marks=tuple(marks))


def _check_bar(bottom: float) -> Iterator[Mark]:
    """A bar of 100 mm to try the print with before anything is marked from it."""
    left, y = MARGINS.left, bottom + 7.0
    yield Line(Spot(left, y), Spot(left + BAR, y), pen=WIDE, layer="check bar")
    for end in (left, left + BAR):
        yield Line(Spot(end, y - 3.0), Spot(end, y + 3.0), pen=WIDE, layer="check bar")
    for tenth in range(1, 10):
        at = left + BAR * tenth / 10
        yield Line(Spot(at, y - 1.5), Spot(at, y), pen=NARROW, layer="check bar")
    middle = Spot(left + BAR / 2, y + 2.5)
    yield Words(middle, "measure me: 100 mm", size=LETTERS, anchor="middle", layer="check bar")
    beside = Spot(left + BAR + 8.0, y - LETTERS / 2)
    yield Words(beside, "before marking anything from this rod", size=LETTERS, layer="check bar")
