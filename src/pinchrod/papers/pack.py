"""A job's shop pack: its papers, one after another, each under the name it has in the pack's folder."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pinchrod.bench import Bench
from pinchrod.ground import doubts_of
from pinchrod.job import Job, Shop, content_mark
from pinchrod.machining import Machining
from pinchrod.papers.boards.rack_csv import rack_csv
from pinchrod.papers.boards.timber_pages import timber_pages
from pinchrod.papers.cards.cards import cards
from pinchrod.papers.cover import bound_pack
from pinchrod.papers.data.plan_bench import spares_json
from pinchrod.papers.data.plan_json import plan_json
from pinchrod.papers.data.plan_machining import machining_json
from pinchrod.papers.data.plan_schema import plan_schema
from pinchrod.papers.data.plan_timber import timber_json
from pinchrod.papers.frames.drawing import frame_drawing, framed
from pinchrod.papers.frames.rod_page import rod_sheets
from pinchrod.papers.labels.label_sheet import label_faults
from pinchrod.papers.labels.label_trial import label_test_sheet
from pinchrod.papers.labels.labels import label_doubts, label_sheets
from pinchrod.papers.lists.cutting_csv import cutting_csv
from pinchrod.papers.lists.cutting_xlsx import cutting_xlsx
from pinchrod.papers.marks.sheet import Papers, Sheet
from pinchrod.papers.pages.page import Content
from pinchrod.papers.writers.dxf import write_dxf
from pinchrod.papers.writers.pdf import MOST_SHEETS, write_pdf
from pinchrod.papers.writers.svg import write_svg
from pinchrod.setting_out import Rods
from pinchrod.timber import Breakout, Question, question_of, rack_after


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One file of a pack: its name in the pack's folder, and all that is in it."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class ToPrint:
    """A job planned: all that a pack is made of."""

    job: Job
    shop: Shop
    rods: Rods
    breakout: Breakout | None
    machining: Machining | None
    bench: Bench | None

    @property
    def question(self) -> Question:
        """What the sticks were asked of the rack."""
        return question_of(self.job, self.shop, self.rods)


PARTS = ("plan", "pack", "cutting-list", "drawings", "rods", "labels")


def pack(  # noqa: PLR0913 -- all that a pack is made of, each by its name
    job: Job,
    shop: Shop,
    rods: Rods,
    parts: Sequence[str] = PARTS,
    *,
    breakout: Breakout | None = None,
    machining: Machining | None = None,
    bench: Bench | None = None,
) -> Iterator[Paper]:
    """The papers of those parts, in that order; made one at a time, as they are asked for."""
    planned = ToPrint(job, shop, rods, breakout, machining, bench)
    for part in PARTS:
        if part in parts:
            yield from MADE[part](planned)


def labels_again(job: Job, shop: Shop, rods: Rods, marks: Collection[str], first: int = 1) -> Iterator[Paper]:
    """Labels of those pieces once more, beginning at that label of the first sheet.

    A label printed again is no second piece: it says the same, to the last square of its code.
    """
    placed = replace(shop, labels=replace(shop.labels, first=first))
    sheets = label_sheets(rods, job, placed, frozenset(marks))
    yield from _printed("labels-again", "Labels again", sheets, job, scale_locked=True)


def for_printing(job: Job, shop: Shop, rods: Rods) -> Rods:
    """The rods with what is doubtful on their labels; NotYetRight if a label cannot be printed at all."""
    found = tuple(label_faults(shop.labels)) or label_doubts(rods, job, shop)
    return replace(rods, doubts=doubts_of((*rods.doubts, *found)))


def _plan(planned: ToPrint) -> Iterator[Paper]:
    spares = spares_json(planned.bench) if planned.bench else None
    machining = machining_json(planned.machining, spares) if planned.machining else None
    content = plan_json(planned.job, planned.rods, _timber(planned), machining)
    yield Paper(name="plan.json", content=content)
    yield Paper(name="plan.schema.json", content=plan_schema().encode())


def _timber(planned: ToPrint) -> dict[str, object] | None:
    if planned.breakout is None:
        return None
    return timber_json(planned.question, planned.breakout)


def _pack(planned: ToPrint) -> Iterator[Paper]:
    job, shop, rods = planned.job, planned.shop, planned.rods
    sheets = bound_pack(job, shop, rods, timber=_boards(planned), cards=_cards(planned))
    yield from _printed("pack", "Shop pack", sheets, job)
    if planned.breakout is not None:
        yield from _rack_after(planned.question, planned.breakout)


def _rack_after(question: Question, breakout: Breakout) -> Iterator[Paper]:
    """The rack when the job is sawn; no list where nothing is left on it."""
    left = rack_after(question, breakout)
    if left:
        yield Paper(name="rack-after.csv", content=rack_csv(left))


def _boards(planned: ToPrint) -> tuple[Content, ...]:
    if planned.breakout is None:
        return ()
    return timber_pages(planned.question, planned.breakout, planned.shop)


def _cards(planned: ToPrint) -> tuple[Content, ...]:
    if planned.machining is None or planned.bench is None:
        return ()
    return cards(planned.machining, planned.bench, planned.rods, planned.shop)


def _cutting_list(planned: ToPrint) -> Iterator[Paper]:
    job, shop, rods = planned.job, planned.shop, planned.rods
    yield Paper(name="cutting-list.csv", content=cutting_csv(rods, shop))
    yield Paper(name="cutting-list.xlsx", content=cutting_xlsx(rods, job, shop))


def _drawings(planned: ToPrint) -> Iterator[Paper]:
    for rod in planned.rods.rods:
        drawing = frame_drawing(rod, planned.job, planned.shop)
        yield Paper(name=f"drawings/{rod.frame.id}.svg", content=write_svg(framed(drawing)).encode())
        yield Paper(name=f"drawings/{rod.frame.id}.dxf", content=write_dxf(drawing))


def _rods(planned: ToPrint) -> Iterator[Paper]:
    job, shop, rods = planned.job, planned.shop, planned.rods
    yield from _printed("rods", "Rods, full size", rod_sheets(rods, job, shop), job, scale_locked=True)


def _labels(planned: ToPrint) -> Iterator[Paper]:
    job, shop, rods = planned.job, planned.shop, planned.rods
    yield from _printed("labels", "Labels", label_sheets(rods, job, shop), job, scale_locked=True)
    yield from _printed("label-test", "Labels, test print", (label_test_sheet(shop),), job, scale_locked=True)


def _printed(
    name: str, title: str, sheets: Sequence[Sheet], job: Job, *, scale_locked: bool = False
) -> Iterator[Paper]:
    """A PDF of those sheets, or several where they are too many for one."""
    for number, start in enumerate(range(0, len(sheets), MOST_SHEETS), start=1):
        papers = Papers(
            title=f"{title}: {job.name}",
            subject=f"Content mark {content_mark(job.fingerprint)}",
            author=job.issue.owner,
            date=job.issue.date,
            sheets=tuple(sheets[start : start + MOST_SHEETS]),
            scale_locked=scale_locked,
        )
        yield Paper(name=f"{name}-{number}.pdf" if start else f"{name}.pdf", content=write_pdf(papers))


MADE: Mapping[str, Callable[[ToPrint], Iterator[Paper]]] = {
    "plan": _plan,
    "pack": _pack,
    "cutting-list": _cutting_list,
    "drawings": _drawings,
    "rods": _rods,
    "labels": _labels,
}
