"""Lengths said again as they are understood, in millimetres and inches, beside their fields."""

from collections.abc import Iterable

from pinchrod.ground import (
    INCH,
    Mm,
    NotALength,
    Span,
    read_length,
    rounded,
    show_fixed,
    show_inches,
    spell,
)
from pinchrod.job import Fault, faults_in
from pinchrod.web.answers import Answer, Sent
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit

FAULTS = "faults"


def understood(visit: Visit) -> Answer:
    """What was typed, said again; nothing where it cannot be read: that is told when the form is sent."""
    comma = visit.said("comma") == "yes"
    said = visit.said("said")
    words = in_both_faults(said) if visit.said("of") == FAULTS else in_both(said, decimal_comma=comma)
    return Sent(content=words.encode(), media="text/plain; charset=utf-8")


def in_both(said: str, *, decimal_comma: bool = False) -> str:
    """The length that is said, in either unit; nothing if none is said."""
    try:
        return both_units(read_length(said, decimal_comma=decimal_comma))
    except NotALength:
        return ""


def in_both_faults(said: str) -> str:
    """The faults that a cell of the rack says, each in either unit."""
    return "; ".join(map(_fault, faults_in(said)))


def both_units(length: Mm) -> str:
    """A length exact in millimetres, and in inches to the nearest sixty-fourth."""
    exact = (length / INCH * 64).denominator == 1
    return f"{spell(length)}, {'' if exact else 'about '}{show_inches(length)}"


def in_column(lengths: Iterable[Mm], step: Mm) -> tuple[str, ...]:
    """Lengths that stand one below the other, all with as many decimals as the one that has most of them."""
    sizes = tuple(rounded(length, step) for length in lengths)
    whole = all(size.denominator == 1 for size in sizes)
    return tuple(show_fixed(size, Mm(1) if whole else step) for size in sizes)


def _fault(fault: Fault) -> str:
    across = f", across {_span(fault.across)}" if fault.across else ""
    return f"{_span(fault.along)}{across}{', back alone' if fault.back_only else ''}"


def _span(span: Span) -> str:
    mm = f"{spell(span.low).removesuffix(' mm')} to {spell(span.high)}"
    return f"{mm} ({show_inches(span.low)} to {show_inches(span.high)})"


ROUTES = (Route(path="/lengths", does=understood, may=WORKSHOP),)
