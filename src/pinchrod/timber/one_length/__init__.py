"""Cutting pieces of one section from bars: the fewest bars or the least cost, with proof."""

from pinchrod.timber.one_length.cut import cut, first_fit
from pinchrod.timber.one_length.judge import flaws
from pinchrod.timber.one_length.question import (
    Answer,
    Budget,
    Certificate,
    Pattern,
    Piece,
    Proof,
    Question,
    Share,
    Stock,
)

__all__ = [
    "Answer",
    "Budget",
    "Certificate",
    "Pattern",
    "Piece",
    "Proof",
    "Question",
    "Share",
    "Stock",
    "cut",
    "first_fit",
    "flaws",
]
