"""Lengths as people write them, read exactly or refused with the reason."""

import re

from pinchrod.ground.millimetres import INCH, Mm, NotALength, Unit

__all__ = ["INCH", "Mm", "NotALength", "Unit", "length_at", "read_length"]

PLAIN = re.compile(r"[0-9]++(?:\.[0-9]++)?+")


def read_length(text: str, *, unit: Unit = Unit.MM, decimal_comma: bool = False) -> Mm:
    """The one length that the text says."""
    found = length_at(text.strip(), 0, unit=unit, decimal_comma=decimal_comma)
    if found is None or found[1] < len(text.strip()):
        raise NotALength("length-letters", "this is not one length", "write it as 600 or 600 mm")
    return found[0]


def length_at(
    text: str, start: int, *, unit: Unit = Unit.MM, decimal_comma: bool = False
) -> tuple[Mm, int] | None:
    """The length that begins there and the place where it ends, or None if none begins there."""
    found = PLAIN.match(text, start)
    if found is None:
        return None
    return Mm(found[0]) * (INCH if unit is Unit.INCH else 1), found.end()
