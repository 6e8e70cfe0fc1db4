"""Labels: one for every single piece, in the order in which the saw gives them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, Problem, Where, doubts_of, show
from pinchrod.job import Job, LabelSheet, Shop
from pinchrod.papers.labels.label_code import code_text, modules
from pinchrod.papers.labels.label_layout import Layout, Said, lay_out
from pinchrod.papers.labels.label_marks import label_marks
from pinchrod.papers.labels.label_sheet import label_faults, label_places
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import Mark, Sheet
from pinchrod.papers.pages.identity import About, about
from pinchrod.papers.pieces.pieces import OnePiece, single_fronts, single_members, single_parts
from pinchrod.setting_out import Rods

NO_REVISION = "–"


@dataclass(frozen=True, slots=True)
class Label:
    """A piece's label: what it says and how, if there is room for it."""

    piece: OnePiece
    said: Said
    layout: Layout | None


def labelled(rods: Rods) -> tuple[OnePiece, ...]:
    """Every piece that has a label: members first, then fronts, then the parts of five-piece doors."""
    return (*single_members(rods), *single_fronts(rods), *single_parts(rods))


def label_sheets(rods: Rods, job: Job, shop: Shop, only: frozenset[str] | None = None) -> tuple[Sheet, ...]:
    """The sheets of labels, of all pieces or only of those with these marks, in the same order.

    NotYetRight if the labels are too small, or a mark is too long to be printed on them.
    """
    labels = tuple(label for label in _labels(rods, job, shop) if only is None or label.piece.mark in only)
    doubts_of(_doubts(labels, rods, shop.labels))
    places = label_places(shop.labels)
    shares = _shares(labels, shop.labels.first, len(places))
    return tuple(
        Sheet(
            width=float(shop.labels.page_width),
            height=float(shop.labels.page_height),
            marks=tuple(_marks(share, places)),
            title=f"Labels, sheet {number} of {len(shares)}",
        )
        for number, share in enumerate(shares, start=1)
    )


def label_doubts(rods: Rods, job: Job, shop: Shop) -> tuple[Problem, ...]:
    """What is wrong with labels that cannot be read at arm's length, or not printed at all."""
    return tuple(_doubts(_labels(rods, job, shop), rods, shop.labels))


def _labels(rods: Rods, job: Job, shop: Shop) -> tuple[Label, ...]:
    told, squares = about(job, shop), modules(shop.papers.printer_dots_per_inch)
    width, height = float(shop.labels.width), float(shop.labels.height)
    labels = []
    for piece in labelled(rods):
        said = said_of(piece, told, shop.practice.resolution)
        labels.append(Label(piece, said, lay_out(said, width, height, squares)))
    return tuple(labels)


def _shares(labels: Sequence[Label], first: int, places: int) -> tuple[Sequence[Label | None], ...]:
    """The labels sheet by sheet; those of the first sheet that are used already stay empty."""
    row = (*[None] * (first - 1), *labels)
    return tuple(row[start : start + places] for start in range(0, len(row), places))


def _marks(labels: Sequence[Label | None], places: Sequence[Box]) -> Iterator[Mark]:
    for label, place in zip(labels, places, strict=False):  # the last sheet is seldom full
        if label and label.layout:
            yield from label_marks(label.said, label.piece.made, label.layout, place)


def said_of(piece: OnePiece, told: About, step: Mm) -> Said:
    """What the label of a piece says."""
    return Said(
        mark=piece.mark,
        sizes=(show(piece.length, step), show(piece.width, step), show(piece.thickness, step)),
        role=piece.role,
        pattern=piece.pattern,
        job=told.job,
        revision=f"rev. {told.revision or NO_REVISION}",
        content_mark=told.mark,
        code=code_text(told.mark, piece.mark),
    )


def _doubts(labels: Sequence[Label], rods: Rods, sheet: LabelSheet) -> Iterator[Problem]:
    """Labels too small; one problem for all that cannot be printed, one for all that are hard to read."""
    yield from label_faults(sheet)
    unfit = [label for label in labels if not label.layout]
    small = [label for label in labels if label.layout and not label.layout.readable]
    room = f"on a label of {show(sheet.width)} x {show(sheet.height)}"
    if unfit:
        what = f"{room} there is no room for the mark and size of {_named(unfit)}"
        yield _too_long(what, _where(unfit[0], rods), stops=True)
    if small:
        what = f"{room} {_named(small)} cannot have mark and size 5 mm high and a code that bears dust"
        yield _too_long(what, _where(small[0], rods), stops=False)


def _named(labels: Sequence[Label]) -> str:
    more = f" and {len(labels) - 1} more" if len(labels) > 1 else ""
    return f"{labels[0].piece.mark}{more}"


def _where(label: Label, rods: Rods) -> Where:
    frame = next(rod.frame for rod in rods.rods if rod.frame.id == label.piece.frame)
    return frame.where.called(f"{frame.id}, {label.piece.role}")


def _too_long(what: str, where: Where, *, stops: bool) -> Problem:
    mend = "take larger labels, or give the frames shorter ids"
    code = "label-no-room" if stops else "label-letters"
    return Problem(where=where, code=code, what=what, mend=mend, stops=stops)
