"""A workbook's cell as a value: words, a number, a day, or why it shows none."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_EVEN, Context

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.said import Amiss, Number, Said, Value, cell_said
from pinchrod.job.tables.number_formats import is_date, other_unit, shown
from pinchrod.job.tables.sheet_xml import CellXml
from pinchrod.job.tables.workbook_xml import Formats

NUMBER = re.compile(r"[+-]?([0-9]++\.?[0-9]*+|\.[0-9]++)([eE][+-]?[0-9]{1,3})?")
LONGEST_NUMBER = 400
DIGITS = Context(prec=15, rounding=ROUND_HALF_EVEN, Emax=9999, Emin=-9999)
"""A spreadsheet keeps 15 digits of a number; what its file says beyond them was never typed."""

UNSAVED = Amiss(
    "formula-unsaved",
    "the cell holds a formula whose result was not saved",
    "open the workbook in a spreadsheet program and save it, or type the value itself",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """What cells point at: words by number, formats by style, and where days are counted from."""

    strings: Sequence[str]
    formats: Formats
    from_1904: bool


def said_of(cell: CellXml, where: Where, wording: Wording) -> Said | None:
    """What the cell says; None if it is blank."""
    if cell.value is None or (cell.formula and cell.kind == "n" and not cell.value.strip()):
        return cell_said(UNSAVED, where, "")
    if cell.kind == "n":
        return _number(cell, cell.value, where, wording)
    value = _value(cell, cell.value, wording)
    if isinstance(value, str):
        value = value.strip()
        return cell_said(value, where, value) if value else None
    return cell_said(value, where, str(value).upper() if isinstance(value, bool) else cell.value)


def doubt_of(cell: CellXml, said: Said, wording: Wording) -> Problem | None:
    """A number that the sheet shows in another unit than it is read in."""
    if not isinstance(said.value, Number):
        return None
    unit = other_unit(*wording.formats.of(cell.style))
    if not unit:
        return None
    what = f"the cell holds {said.value.text}, and its number format shows {unit}"
    mend = (
        f"it was read as {said.value.text} without a unit; write the unit into the cell, or change its format"
    )
    return Problem(where=said.at, code="unit-in-format", what=what, mend=mend, stops=False)


def _value(cell: CellXml, value: str, wording: Wording) -> Value:
    if cell.kind == "s":
        at = int(value)
        return wording.strings[at] if 0 <= at < len(wording.strings) else ""
    if cell.kind == "b":
        return value == "1"
    if cell.kind == "e":
        return Amiss(
            "error-cell", f"the cell shows {quoted(value)}", "mend its formula, or type the value itself"
        )
    return date.fromisoformat(value[:10]) if cell.kind == "d" else value


def _number(cell: CellXml, value: str, where: Where, wording: Wording) -> Said | None:
    """The number, or the day that its format makes of it."""
    if not value.strip():
        return None
    if len(value) > LONGEST_NUMBER or not NUMBER.fullmatch(value.strip()):
        raise ValueError(f"{value} is no number")
    exact = DIGITS.create_decimal(value.strip())
    code, format_number = wording.formats.of(cell.style)
    if is_date(code, format_number):
        day = _day(int(exact), from_1904=wording.from_1904)
        return cell_said(day, where, day.isoformat())
    text = f"{exact:f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return cell_said(Number(text), where, shown(text, code, format_number))


def _day(count: int, *, from_1904: bool) -> date:
    """The day that a spreadsheet counts so far from its first; 1900 began on a wrong foot, hence the 30th."""
    first = date(1904, 1, 1) if from_1904 else date(1899, 12, 30)
    furthest = (date.max - first).days
    return first + timedelta(days=min(max(count, 0), furthest))
