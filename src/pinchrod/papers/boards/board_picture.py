"""One board for a page on a screen: as on its paper, but alone, and drawn even if it is not planned yet."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.papers.boards.board_drawing import Chalked, label_room, label_size, lane_bands, lane_height
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
    lying = _lying(on_rack, width, scale, step)
    bands = lane_bands(Chalked(lying, on_rack.question, step))
    height = _height(lying)
    marks: list[Mark] = []
    for lane, band in zip(_lanes(lying), bands, strict=True):
        marks.extend(placed(band.marks, dy=height - lane.top))
    sheet = Sheet(width=width, height=height, marks=tuple(marks), title=f"Board {on_rack.board.name}")
    return BoardPicture(sheet=sheet, scale=scale, lanes=_lanes(lying))


def picture_height(on_rack: OnRack, width: float, scale: int, step: Mm) -> float:
    """How high that picture is, for whoever leaves room for it."""
    return _height(_lying(on_rack, width, scale, step))


def _lying(on_rack: OnRack, width: float, scale: int, step: Mm) -> BoardLying:
    board = on_rack.board
    bare = RippedBoard(board=board, first_edge=Mm(0), rips=(), rest=Span(Mm(0), board.width))
    sawn = on_rack.sawn or bare
    size = label_size(sawn, scale)
    left = max(MARGIN, label_room(sawn, size, step) + EDGE if size else 0.0)
    return lying_at(sawn, on_rack.kept, left, width, scale)


def _height(lying: BoardLying) -> float:
    return lane_height(lying) * len(lying.lanes) + 2 * EDGE


def _lanes(lying: BoardLying) -> tuple[LaneAt, ...]:
    tops = (EDGE + lane_height(lying) * place for place in range(len(lying.lanes)))
    return tuple(
        LaneAt(left=lying.left, top=top, along=lane) for lane, top in zip(lying.lanes, tops, strict=True)
    )
