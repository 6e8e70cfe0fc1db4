"""From members to sticks out of real boards, near the least cost, with a proven bound."""

from pinchrod.timber.asking import question_of, wanted_of
from pinchrod.timber.break_out import break_out
from pinchrod.timber.joiner import answer, by_eye
from pinchrod.timber.judge import flaws
from pinchrod.timber.records import Board, Breakout, Effort, Fault, Question, Stick, Wanted
from pinchrod.timber.recut import Recut, recut

__all__ = [
    "Board",
    "Breakout",
    "Effort",
    "Fault",
    "Question",
    "Recut",
    "Stick",
    "Wanted",
    "answer",
    "break_out",
    "by_eye",
    "flaws",
    "question_of",
    "recut",
    "wanted_of",
]
