"""Builders of frames set out for their drawings, and readers of what is drawn."""

import random
from collections.abc import Iterable, Iterator
from dataclasses import replace
from io import BytesIO
from typing import Any, TypeVar

from pdfminer.high_level import extract_pages
from pdfminer.layout import LAParams, LTChar, LTCurve, LTPage

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Frame, Job, Joint, Layout, Shop
from pinchrod.papers import Mark, Papers, Sheet, Words, plain_marks, write_pdf
from pinchrod.papers.frames.elevation import Elevation, elevation
from pinchrod.papers.frames.elevation_words import Scale
from pinchrod.papers.frames.frame_dimensions import dimension_frame
from pinchrod.setting_out import Rod
from tests.builders import a_frame, a_random_frame, a_row, a_stack, an_opening
from tests.papers.data_builders import SHOP, set_out_job

TENTH = Mm("0.1")
POINTS_PER_MM = 72 / 25.4
DRAWER_OVER_PAIR = a_stack(an_opening("drawer", 140), an_opening("pair"))
DOOR_BESIDE_DRAWERS = a_row(an_opening(), a_stack(*[an_opening("drawer")] * 3))
Drawn = TypeVar("Drawn", bound=Mark)


def a_rod(
    layout: Layout | None = None, *, said: dict[str, Any] | None = None, **frame: Any
) -> tuple[Rod, Job]:
    """One frame's rod, and the job it stands in; `said` of the job, the rest of the frame."""
    job, rods = set_out_job(a_frame(layout, **frame), **(said or {}))
    return rods.rods[0], job


def random_frames(dice: random.Random, count: int) -> Iterator[tuple[Frame, dict[str, Any]]]:
    """Frames of any layout and shape that can be made at all, each with its job's bead and joint."""
    found = 0
    while found < count:
        frame = a_random_frame(dice, found + 1)
        if dice.random() < 0.3:
            sides = (Mm(dice.randint(2000, 60000)) / 10 for _ in range(2))
            frame = replace(frame, width=next(sides), height=next(sides))
        said = {"bead": dice.choice([0, 6, 9, 12]), "joint": dice.choice(list(Joint))}
        if _can_be_made(frame, said):
            found += 1
            yield frame, said


def _can_be_made(frame: Frame, said: dict[str, Any]) -> bool:
    try:
        set_out_job(frame, **said)
    except NotYetRight:
        return False
    return True


def random_rods(seed: int, count: int) -> Iterator[tuple[Rod, Job]]:
    """Rods of frames of any layout and shape, each in a job of its own."""
    for frame, said in random_frames(random.Random(seed), count):
        job, rods = set_out_job(frame, **said)
        yield rods.rods[0], job


def seen(rod: Rod, job: Job, per: float = 10, *, letters_shrink: bool = False) -> Elevation:
    """The frame's elevation at one to `per`, with its sizes written as its dimensions leave them."""
    sizes = dimension_frame(rod, SHOP.practice.resolution, per)
    return elevation(rod, job, Scale(per=per, letters_shrink=letters_shrink), sizes.size_of)


def on_layer(marks: Iterable[Mark], layer: str, kind: type[Drawn]) -> list[Drawn]:
    """The marks of one kind on one layer, dimensions taken apart."""
    return [mark for mark in plain_marks(marks) if isinstance(mark, kind) and mark.layer == layer]


def written(marks: Iterable[Mark]) -> list[str]:
    """All that is written, dimensions with it."""
    return [mark.text for mark in plain_marks(marks) if isinstance(mark, Words)]


def read_back(*sheets: Sheet) -> list[LTPage]:
    """The sheets as another reader finds them in the PDF, every letter where it is printed."""
    pdf = write_pdf(Papers(title="K1", sheets=sheets))
    return list(extract_pages(BytesIO(pdf), laparams=LAParams(detect_vertical=True, all_texts=True)))


def lines_in(page: LTPage) -> list[tuple[float, float, float, float]]:
    """Every straight line of a page read back: its box in millimetres."""
    return [
        (mark.x0 / POINTS_PER_MM, mark.y0 / POINTS_PER_MM, mark.x1 / POINTS_PER_MM, mark.y1 / POINTS_PER_MM)
        for mark in page
        if isinstance(mark, LTCurve)
    ]


def letters_in(page: LTPage) -> str:
    """All letters of a page read back, in the order of the file."""
    return "".join(_letters(page))


def _letters(part: Any) -> Iterator[str]:
    if isinstance(part, LTChar):
        yield part.get_text()
    elif isinstance(part, Iterable):
        for each in part:
            yield from _letters(each)


def a_shop_on(size: str) -> Shop:
    """The built-in workshop with paper of that size."""
    return replace(SHOP, papers=replace(SHOP.papers, size=size))
