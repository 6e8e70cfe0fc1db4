"""Whether what is set out will still fit: as the wood moves, and as the frame stands when glued."""

from pinchrod.fit.movement import change_across
from pinchrod.fit.panels import check_panels
from pinchrod.fit.square_words import advice_words, leaning_words, tapering_words
from pinchrod.fit.squareness import (
    Diagonals,
    Row,
    Squareness,
    SquareTable,
    Taper,
    Verdict,
    check_taped,
    lean_of,
    pull_of,
    squareness,
    table_for,
    taped_from,
)

__all__ = [
    "Diagonals",
    "Row",
    "SquareTable",
    "Squareness",
    "Taper",
    "Verdict",
    "advice_words",
    "change_across",
    "check_panels",
    "check_taped",
    "lean_of",
    "leaning_words",
    "pull_of",
    "squareness",
    "table_for",
    "taped_from",
    "tapering_words",
]
