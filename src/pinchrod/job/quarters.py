"""A sawn board's thickness: a length, or quarters of an inch as hardwood is sold: `5/4`."""

import re
from collections.abc import Iterator
from datetime import date

from pinchrod.ground import INCH, Mm, Problem, quoted, show, show_inches
from pinchrod.job.found import looks_like_a_day, problem_at
from pinchrod.job.limits import Between
from pinchrod.job.said import Reading, Said
from pinchrod.job.sizes import length, within

QUARTER = INCH / 4
SOLD = (4, 5, 6, 8, 10, 12, 16)
DRESSED = {
    4: Mm(13, 16) * INCH,
    5: Mm(17, 16) * INCH,
    6: Mm(21, 16) * INCH,
    8: Mm(7, 4) * INCH,
    12: Mm(11, 4) * INCH,
    16: Mm(15, 4) * INCH,
}
"""Quarters that boards are sold in, and what is left of them planed on both faces (S2S): US hardwood
thickness tables, as two web pages print them; that 10/4 is sold, from memory."""
SAID = re.compile(
    r"""\s*([0-9]{1,2})\s*/\s*4(?![0-9]|[.,][0-9])\s*(?:in|ins|inch|inches|["″”])?\.?\s*(\S.{0,40})?"""
)
MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec"
PARTS = re.compile(r"[A-Za-z]{3,}|[0-9]+")
LONG_YEAR = 4  # figures


def quarters_of(thickness: Mm) -> int:
    """The quarters a sawn board counts for in board feet: the most of those sold that it is no thinner than.

    Nominal thickness is the least a rough board may have, and a board under one inch counts for one
    (a dealer's page of hardwood terms; the latter in a US Navy course on building, too).
    """
    return max((quarters for quarters in SOLD if quarters * QUARTER <= thickness), default=4)


def thickness_in(said: Said, between: Between) -> Reading[Mm | None]:
    """The thickness; `5/4` is that of a rough board, five quarters of an inch."""
    found = SAID.fullmatch(said.value) if isinstance(said.value, str) else None
    if found is not None and int(found[1]) >= 4:
        return (yield from _rough(said, int(found[1]), found[2] or "", between))
    if _is_day(said):
        yield _made_a_day(said)
        return None
    return (yield from length(said, "thickness", between))


def _rough(said: Said, quarters: int, more: str, between: Between) -> Reading[Mm | None]:
    """What so many quarters are, if boards are sold so and nothing else is said of them."""
    if quarters not in SOLD:
        what = f"{quoted(said.shown)} is none of the quarters that boards are sold in"
        sold = ", ".join(f"{one}/4" for one in SOLD)
        yield problem_at(said, "thickness-quarters", what, f"write {sold}, or the thickness in mm")
        return None
    if more:
        what = f"thickness {quoted(said.shown)} says {quoted(more)} after its quarters, which is not read"
        mend = (
            f"write {quarters}/4 for a rough board, and for a planed one what it is now{_dressed(quarters)}"
        )
        yield problem_at(said, "thickness-quarters", what, mend)
        return None
    return (yield from within(said, "thickness", quarters * QUARTER, between))


def _dressed(quarters: int) -> str:
    """What is left of it once planed, if that is known."""
    if quarters not in DRESSED:
        return ""
    size = DRESSED[quarters]
    return f": {quarters}/4 planed on both faces is {show_inches(size)}, {show(size)} mm"


def _is_day(said: Said) -> bool:
    return isinstance(said.value, date) or (isinstance(said.value, str) and looks_like_a_day(said.value))


def _made_a_day(said: Said) -> Problem:
    """What is said of a date: a spreadsheet made it of 5/4."""
    typed = [f"{quarters}/4" for quarters in dict.fromkeys(_may_have_been(said)) if quarters in SOLD]
    meant = f", as a spreadsheet makes of {' or '.join(typed)}" if typed else ""
    what = f"thickness is the date {quoted(said.shown)}{meant}"
    again = " or ".join(typed) or "5/4"
    mend = f"format the cell as text and type it again, as {again}, or write the thickness in mm"
    return problem_at(said, "date-for-size", what, mend)


def _may_have_been(said: Said) -> Iterator[int]:
    """The numbers that stood over a 4, if the day or the month is the fourth."""
    if isinstance(said.value, date):
        pair = [said.value.day, said.value.month]
    else:
        parts = [part for part in PARTS.findall(str(said.value)) if len(part) < LONG_YEAR or part.isalpha()]
        pair = [_number_of(part) for part in parts[:2]]
    for one, other in (pair, pair[::-1]) if len(pair) == 2 else ():
        if other == 4:
            yield one


def _number_of(part: str) -> int:
    """A day or month, said in figures or by its name."""
    return int(part) if part.isdigit() else MONTHS.find(part[:3].lower()) // 4 + 1
