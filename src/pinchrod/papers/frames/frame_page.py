"""A frame's page: its elevation with all its dimensions, true to a scale, and what is to know of it."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache, partial

from pinchrod.ground import Problem
from pinchrod.job import Job, Shop
from pinchrod.papers.frames.elevation import Elevation, elevation
from pinchrod.papers.frames.elevation_words import Scale
from pinchrod.papers.frames.frame_facts import FrameFacts, facts_bands, facts_lots, frame_facts, remarks_on
from pinchrod.papers.frames.frame_fitting import Lot
from pinchrod.papers.frames.frame_heading import frame_heading, makings
from pinchrod.papers.frames.frame_layout import LEAST_FACTS, Figure, Layout, Page, Wanted, lay_out
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import Marks
from pinchrod.papers.pages.bands import Band, gathered
from pinchrod.papers.pages.page import NOT_TO_SCALE, Content, body
from pinchrod.setting_out import Pattern, Rod, Rods


def frame_pages(rods: Rods, job: Job, shop: Shop, patterns: Iterable[Pattern]) -> tuple[Content, ...]:
    """Every frame's page, and those that go on from it, in the order of the job."""
    marks = {piece.member.name: pattern.mark for pattern in patterns for piece in pattern.pieces}
    doubts = doubts_by_frame(rods)
    return tuple(
        page for rod in rods.rods for page in frame_page(rod, job, shop, marks, doubts.get(rod.frame.id, ()))
    )


def doubts_by_frame(rods: Rods) -> Mapping[str, tuple[Problem, ...]]:
    """The doubts about each frame, by its id: their place is named after it, or after a part of it."""
    ids = {rod.frame.id for rod in rods.rods}
    found: dict[str, list[Problem]] = defaultdict(list)
    for doubt in rods.doubts:
        name = doubt.where.name
        owner = name if name in ids else name.rpartition(", ")[0]
        if owner in ids:
            found[owner].append(doubt)
    return {owner: tuple(doubts) for owner, doubts in found.items()}


def frame_page(
    rod: Rod, job: Job, shop: Shop, patterns: Mapping[str, str], doubts: Sequence[Problem] = ()
) -> tuple[Content, ...]:
    """One frame's page, and more if its facts run on; `patterns` has each member's pattern mark."""
    facts = frame_facts(rod, shop, patterns, doubts)
    headings = _headings(rod, job, shop)
    draw = cache(
        partial(_drawn, rod, job)
    )  # each size once: it is looked at for its words before it is chosen
    layout = lay_out(_wanted(rod, shop, facts, headings, draw))
    figure, lies = layout.figure, layout.page
    drawn = draw(figure)
    first, *more = _facts_by_page(rod, shop, facts, layout, drawn)
    heading = placed(headings[lies.landscape].marks, dx=lies.whole.left, dy=lies.whole.top)
    page = Content(
        title=f"Frame {rod.frame.id}",
        document_type="Frame drawing",
        marks=(*heading, *_figure(layout, drawn.marks), *first),
        scale=f"1:{figure.per}",
        true_scale=True,
        landscape=lies.landscape,
    )
    return (page, *(_going_on(page, marks) for marks in more))


def _headings(rod: Rod, job: Job, shop: Shop) -> tuple[Band, Band]:
    """The page's heading for paper that stands, and for paper that lies."""
    items = makings(rod, job, shop.practice.resolution)
    upright, level = (body(shop.papers.size, landscape=lies) for lies in (False, True))
    return (
        frame_heading(rod.frame.id, items, upright.right - upright.left),
        frame_heading(rod.frame.id, items, level.right - level.left),
    )


def _drawn(rod: Rod, job: Job, figure: Figure) -> Elevation:
    return elevation(rod, job, Scale(per=figure.per), figure.dimensions.size_of)


def _wanted(
    rod: Rod, shop: Shop, facts: FrameFacts, headings: Iterable[Band], draw: Callable[[Figure], Elevation]
) -> Wanted:
    def lots(figure: Figure) -> Iterable[tuple[Lot, ...]]:
        return facts_lots(facts, tuple(remarks_on(rod, draw(figure), figure.dimensions)))

    return Wanted(
        rod=rod,
        step=shop.practice.resolution,
        pages=tuple(_page(shop, heading, landscape=bool(lies)) for lies, heading in enumerate(headings)),
        lots=lots,
        least_area=facts.openings.area + facts.members.area,
        unmarked=lambda figure: len(draw(figure).unmarked),
    )


def _page(shop: Shop, heading: Band, *, landscape: bool) -> Page:
    whole = body(shop.papers.size, landscape=landscape)
    room = replace(whole, top=whole.top - heading.height)
    return Page(landscape=landscape, whole=whole, room=room)


def _facts_by_page(
    rod: Rod, shop: Shop, facts: FrameFacts, layout: Layout, drawn: Elevation
) -> tuple[Marks, ...]:
    """All facts beside and under the drawing, or as far as they go under it, and the rest on more pages."""
    if layout.facts is not None:
        return (tuple(mark for stood in layout.facts for mark in stood.marks),)
    remarks = tuple(remarks_on(rod, drawn, layout.figure.dimensions))
    rest, below = body(shop.papers.size, landscape=layout.page.landscape, true_scale=False), layout.below
    bands = facts_bands(facts, rest.right - rest.left, remarks)
    begin_here = below.top - below.bottom >= LEAST_FACTS
    return gathered(bands, below, rest) if begin_here else ((), *gathered(bands, rest, rest))


def _figure(layout: Layout, marks: Marks) -> Marks:
    dx, dy = layout.corner
    drawn = (*marks, *layout.figure.dimensions.rows)
    return placed(drawn, scale=1 / layout.figure.per, dx=dx, dy=dy)


def _going_on(page: Content, marks: Marks) -> Content:
    return replace(page, marks=marks, continued=True, true_scale=False, scale=NOT_TO_SCALE)
