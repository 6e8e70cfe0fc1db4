"""Boards as pictures of a page: how large, where each is found, and the picture itself."""

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote

from pinchrod.ground import Mm, NotYetRight, Problem, Where, quoted
from pinchrod.job import Board
from pinchrod.papers import (
    BoardPicture,
    OnRack,
    Sawn,
    board_picture,
    picture_height,
    picture_scale,
    sawn_from,
    write_svg,
)
from pinchrod.timber import Breakout, question_of
from pinchrod.web.known import Known
from pinchrod.web.visit import Visit

WIDTHS = ((76, 560), (160, 1000), (252, 0))
"""How wide a picture is, in its own millimetres, on screens up to so many pixels: letters stay legible."""
LANES = 2.5  # of a board by itself, with what stands beside it
LARGEST = 5  # millimetres of board to one of its picture
NOTHING = Breakout(sticks=(), short=(), used=Mm(0), finished=Mm(0), cost=Mm(0), bound=Mm(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Where a picture is, how wide and high it is drawn, and up to which width of screen it is meant."""

    address: str
    width: int
    height: int
    up_to: int  # pixels; 0: any


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """The boards of a job as they are drawn, all to one scale, with their sticks once they are planned."""

    job: str
    sawn: Sawn
    seen: str  # changes when a picture may have changed
    scale: int
    step: Mm

    def on_rack(self, board: Board) -> OnRack:
        """A board to be drawn."""
        taken = next((each for each in self.sawn.boards if each.board.name == board.name), None)
        kept = self.sawn.kept_of(board)
        return OnRack(board=board, question=self.sawn.question, sawn=taken, kept=kept)

    def board(self, name: str) -> Board | None:
        """The board of that name, if there is one."""
        return next((board for board in self.sawn.question.boards if board.name == name), None)

    def picture(self, board: Board, width: float) -> BoardPicture:
        """The board so wide, beside others."""
        return board_picture(self.on_rack(board), width, self.scale, self.step)

    def large(self, board: Board, width: float) -> BoardPicture:
        """The board by itself: large enough to tap on, in three lanes or so."""
        scale = min(self.scale, max(LARGEST, -(-int(board.length) // int(LANES * width))))
        return board_picture(self.on_rack(board), width, scale, self.step)

    def pictures(self, board: Board) -> Iterator[Picture]:
        """Where its pictures are, for small screens first."""
        address = f"/jobs/{self.job}/timber/picture"
        on_rack = self.on_rack(board)
        for width, up_to in WIDTHS:
            high = picture_height(on_rack, width, self.scale, self.step)
            yield Picture(
                address=f"{address}/{width}/{quote(board.name, safe='')}?seen={self.seen}",
                width=10 * width,
                height=round(10 * high),
                up_to=up_to,
            )


def rack_of_page(visit: Visit, known: Known) -> Rack:
    """The job's boards as they stand: sawn so far as they are planned."""
    stands = visit.floor.sticks.of(known)
    sawn = visit.floor.sticks.sawn(known)
    question = question_of(known.job, known.shop, known.rods)
    return Rack(
        job=known.name,
        sawn=sawn or sawn_from(question, NOTHING),
        seen=f"{known.number}-{stands.seen if stands else ''}",
        scale=picture_scale(sawn.boards if sawn else ()),
        step=known.shop.practice.resolution,
    )


def board_address(job: str, name: str) -> str:
    """Where a board's page is."""
    return f"/jobs/{job}/timber/board/{quote(name, safe='')}"


def stick_address(job: str, name: str) -> str:
    """Where a stick's page is."""
    return f"/jobs/{job}/timber/stick/{quote(name, safe='')}"


def svg_of(rack: Rack, name: str, width: str) -> bytes:
    """The picture of a board as a file; NotYetRight if there is no such board, or no picture so wide."""
    board = rack.board(name)
    wide = next((wide for wide, _ in WIDTHS if str(wide) == width), 0)
    if board is None or not wide:
        raise NotYetRight([board_missing(name)])
    return write_svg(rack.picture(board, wide).sheet).encode()


def board_missing(name: str) -> Problem:
    """What is said of a board that is not there."""
    what = f"there is no board {quoted(name)} on the rack"
    return Problem(
        where=Where(name="board"), code="board-missing", what=what, mend="choose one from the page Timber"
    )
