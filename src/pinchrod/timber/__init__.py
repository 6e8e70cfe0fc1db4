"""From members to sticks out of real boards, near the least cost, with a proven bound."""

from pinchrod.timber.asking import question_of, wanted_of
from pinchrod.timber.break_out import ORDINARY, break_out, compile_sums, tries_in
from pinchrod.timber.buying import (
    Amount,
    Buying,
    Level,
    Planed,
    Promise,
    Refused,
    Sure,
    ToBuy,
    Weighed,
    buy,
    buying_flaws,
    to_buy,
)
from pinchrod.timber.found_late import FoundLate, recut_all
from pinchrod.timber.joiner import answer, by_eye
from pinchrod.timber.judge import flaws
from pinchrod.timber.offcuts import Offcut, offcuts, rack_after
from pinchrod.timber.records import Board, Breakout, Effort, Fault, GoesOn, Question, Stick, Wanted, always
from pinchrod.timber.recut import Recut, recut
from pinchrod.timber.ripping import Rip, RippedBoard, fence_moves, ripped

__all__ = [
    "ORDINARY",
    "Amount",
    "Board",
    "Breakout",
    "Buying",
    "Effort",
    "Fault",
    "FoundLate",
    "GoesOn",
    "Level",
    "Offcut",
    "Planed",
    "Promise",
    "Question",
    "Recut",
    "Refused",
    "Rip",
    "RippedBoard",
    "Stick",
    "Sure",
    "ToBuy",
    "Wanted",
    "Weighed",
    "always",
    "answer",
    "break_out",
    "buy",
    "buying_flaws",
    "by_eye",
    "compile_sums",
    "fence_moves",
    "flaws",
    "offcuts",
    "question_of",
    "rack_after",
    "recut",
    "recut_all",
    "ripped",
    "to_buy",
    "tries_in",
    "wanted_of",
]
