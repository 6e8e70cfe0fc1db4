"""What every room stands on: exact lengths, plain geometry, and what a problem is."""

from pinchrod.ground.lengths import length_at, read_length
from pinchrod.ground.millimetres import FOOT, INCH, Mm, NotALength, Unit
from pinchrod.ground.plain import Outline, Point, Span, area
from pinchrod.ground.showing import quoted, rounded, show, show_fixed, show_inches, spell
from pinchrod.ground.trouble import NotYetRight, Problem, Where, doubts_of, must_be_right

__all__ = [
    "FOOT",
    "INCH",
    "Mm",
    "NotALength",
    "NotYetRight",
    "Outline",
    "Point",
    "Problem",
    "Span",
    "Unit",
    "Where",
    "area",
    "doubts_of",
    "length_at",
    "must_be_right",
    "quoted",
    "read_length",
    "rounded",
    "show",
    "show_fixed",
    "show_inches",
    "spell",
]
