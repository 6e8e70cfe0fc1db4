"""Builders of jobs whose pages are looked at, and what the looking finds."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from pinchrod.ground import Mm
from pinchrod.job import Frame, Job, Joint, Shop, Side
from pinchrod.papers import MARGINS, Content, Mark, Sheet, about, bind, extent, overlaps, text_boxes
from pinchrod.papers.pages.page import CELL, SIZES
from pinchrod.setting_out import Rods
from tests.builders import a_frame, a_row, a_stack, an_opening
from tests.papers.data_builders import set_out_job

LEAST = 2.5
LONG_NAME = "Ä frame, jogged; " + "long-named frame for the quay " * 3
LONG_NAME = LONG_NAME[:80].strip()


def a_shop(size: str = "A4", step: object = "0.1") -> Shop:
    """The built-in workshop on that paper, with stops set to that step."""
    shop = Shop()
    return replace(
        shop,
        papers=replace(shop.papers, size=size),
        practice=replace(shop.practice, resolution=Mm(str(step))),
    )


def a_kitchen(**said: Any) -> tuple[Job, Rods]:
    """A job of ordinary frames: drawers, pairs, doors both ways, a panel, a foot, alike ones and near ones."""
    drawer_over_pair = a_stack(an_opening("drawer", 140), an_opening("pair"))
    left, right = an_opening("door", hung=Side.LEFT), an_opening("door", hung=Side.RIGHT)
    drawers = a_stack(an_opening("drawer"), an_opening("open"), an_opening("drawer"))
    larder = a_stack(an_opening("panel", 300), a_row(an_opening(), an_opening()))
    return set_out_job(
        a_frame(drawer_over_pair, id="K1", width=800),
        a_frame(a_stack(*[an_opening("drawer")] * 3), id="K2", width=500, quantity=3),
        a_frame(a_row(left, drawers, right), id="K3", width=1200, foot=100),
        a_frame(larder, id="T1", width=900, height=2150),
        a_frame(drawer_over_pair, id="K4", width=802),
        **said,
    )


def awkward_frames() -> Iterator[tuple[Frame, ...]]:
    """Frames that are hard on a page: very many notches, bunched ones, tiny, long, much named, very many."""
    small = {"left_stile": 30, "right_stile": 30, "top_rail": 30, "bottom_rail": 30}
    drawers = [an_opening("drawer", 40)] * 18
    yield (a_frame(a_stack(*[an_opening("drawer")] * 40), width=600, height=6000),)
    yield (a_frame(a_row(a_stack(an_opening(), *drawers), a_stack(*drawers, an_opening())), height=6000),)
    yield (a_frame(an_opening("open"), width=80, height=80, **small),)
    yield (a_frame(a_row(*[an_opening()] * 12), width=6000, height=400, left_stile=200, top_rail=140),)
    yield (a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")), id=LONG_NAME, quantity=999),)
    yield tuple(a_frame(a_row(an_opening(), an_opening()), id=f"K{n}") for n in range(1, 101))


def awkward_jobs(joint: Joint = Joint.DOVETAIL_KEY) -> Iterator[tuple[Job, Rods]]:
    """A job of each kind of awkward frame, much named."""
    for frames in awkward_frames():
        yield set_out_job(*frames, joint=joint, name=LONG_NAME, customer=LONG_NAME)


def bound(contents: Sequence[Content], job: Job, shop: Shop) -> tuple[Sheet, ...]:
    """The pages with their title blocks."""
    return bind(contents, about(job, shop))


def flaws(contents: Iterable[Content], job: Job, shop: Shop) -> list[str]:
    """What is wrong with how the pages look: words on words, off the page or too small, marks out of place."""
    contents = tuple(contents)
    return [flaw for sheet in bound(contents, job, shop) for flaw in _flaws(sheet)] + [
        f"{content.title}: something reaches beyond the page's body"
        for content in contents
        if not _inside(content, shop.papers.size)
    ]


def _flaws(sheet: Sheet) -> Iterator[str]:
    yield from overlaps(sheet, MARGINS)
    yield from (f"{words.text!r} is too small" for words, _ in text_boxes(sheet) if words.size < LEAST - 1e-9)


def _inside(content: Content, size: str) -> bool:
    """Whether all that a page holds lies between its border and its title block."""
    width, height = SIZES[size][::-1] if content.landscape else SIZES[size]
    box = extent(content.marks)
    rows = 2 if content.landscape else 3
    low = MARGINS.bottom + rows * CELL + (9 if content.true_scale else 0)
    level = MARGINS.left <= box.left and box.right <= width - MARGINS.right
    return level and low <= box.bottom and box.top <= height - MARGINS.top


def texts(marks: Iterable[Mark]) -> list[str]:
    """All that is written, in the order it is drawn."""
    return [words.text for words, _ in text_boxes(Sheet(width=1, height=1, marks=tuple(marks)))]


def texts_of(contents: Iterable[Content]) -> list[str]:
    """All that is written on the pages."""
    return [text for content in contents for text in texts(content.marks)]


def rows_of(content: Content) -> list[list[str]]:
    """What is written on a page line by line: words on one baseline together, from the left."""
    lines: dict[float, list[tuple[float, str]]] = {}
    for words, box in text_boxes(Sheet(width=1, height=1, marks=content.marks)):
        if words.turn == 0:
            lines.setdefault(round(words.at.y, 2), []).append((box.left, words.text))
    return [[text for _, text in sorted(lines[y])] for y in sorted(lines, reverse=True)]
