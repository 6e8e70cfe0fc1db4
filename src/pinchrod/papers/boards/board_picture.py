"""One board for a page on a screen: as on its paper, but alone, and drawn even if it is not planned yet."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.papers.boards.board_drawing import Chalked, label_room, label_size, lane_bands
from pinchrod.papers.boards.board_lying import BoardLying, lying_at
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import Mark, Sheet
from pinchrod.timber import Board, Offcut, Question, RippedBoard

MARGIN = 6.0  # mm: half a number hangs over the board's left end
EDGE = 1.0  # mm of white over, under and left of the picture
LARGEST, SMALLEST = 5, 15  # millimetres of board to one of a picture


@dataclass(frozen=True, slots=True, kw_only=True)
class LaneAt:
    """Where a lane lies in its board's picture, in mm from the upper left, and what it shows."""

    left: float
    top: float
    along: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPicture:
    """The picture, and how places on it and on the board belong together."""

    sheet: Sheet
    scale: int  # millimetres of board to one of the picture
    lanes: tuple[LaneAt, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OnRack:
    """A board to be drawn, what is sawn from it and kept of it if it is planned, and the saws."""

    board: Board
    question: Question
    sawn: RippedBoard | None = None
    kept: tuple[Offcut, ...] = ()


def picture_scale(sawn: Iterable[RippedBoard]) -> int:
    """The smallest scale at which every strip of these boards can be written on."""
    boards = tuple(sawn)
    scales = range(SMALLEST, LARGEST, -1)
    return next((scale for scale in scales if all(label_size(board, scale) for board in boards)), LARGEST)


def board_picture(on_rack: OnRack, width: float, scale: int, step: Mm) -> BoardPicture:
    """The board at that scale in a picture so wide, in as many lanes as it needs."""
    bare = RippedBoard(board=on_rack.board, first_edge=Mm(0), rips=(), rest=Span(Mm(0), on_rack.board.width))
    sawn = on_rack.sawn or bare
    size = label_size(sawn, scale)
    left = max(MARGIN, label_room(sawn, size, step) + EDGE if size else 0.0)
    lying = lying_at(sawn, on_rack.kept, left, width, scale)
    bands = lane_bands(Chalked(lying, on_rack.question, step))
    height = sum(band.height for band in bands) + 2 * EDGE
    marks: list[Mark] = []
    top = EDGE
    for band in bands:
        marks.extend(placed(band.marks, dy=height - top))
        top += band.height
    sheet = Sheet(width=width, height=height, marks=tuple(marks), title=f"Board {on_rack.board.name}")
    return BoardPicture(sheet=sheet, scale=scale, lanes=_lanes(lying, [band.height for band in bands]))


def _lanes(lying: BoardLying, heights: Sequence[float]) -> tuple[LaneAt, ...]:
    tops = [EDGE + sum(heights[:place]) for place in range(len(heights))]
    return tuple(
        LaneAt(left=lying.left, top=top, along=lane) for lane, top in zip(lying.lanes, tops, strict=True)
    )
