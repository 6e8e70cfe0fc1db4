"""From members to sticks out of real boards, near the least cost, with a proven bound."""

from pinchrod.timber.asking import question_of, wanted_of
from pinchrod.timber.break_out import break_out
from pinchrod.timber.joiner import answer, by_eye
from pinchrod.timber.judge import flaws
from pinchrod.timber.offcuts import Offcut, offcuts, rack_after
from pinchrod.timber.records import Board, Breakout, Effort, Fault, Question, Stick, Wanted
from pinchrod.timber.recut import Recut, recut
from pinchrod.timber.ripping import Rip, RippedBoard, fence_moves, ripped

__all__ = [
    "Board",
    "Breakout",
    "Effort",
    "Fault",
    "Offcut",
    "Question",
    "Recut",
    "Rip",
    "RippedBoard",
    "Stick",
    "Wanted",
    "answer",
    "break_out",
    "by_eye",
    "fence_moves",
    "flaws",
    "offcuts",
    "question_of",
    "rack_after",
    "recut",
    "ripped",
    "wanted_of",
]
