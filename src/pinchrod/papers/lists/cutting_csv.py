"""The cutting list as a CSV file: UTF-8, commas, CRLF, a head (RFC 4180)."""

import csv
import io

from pinchrod.ground import Mm, show_fixed
from pinchrod.job import Shop
from pinchrod.setting_out import CutLine, Rods, cutting_list

HEAD = ("length", "width", "thickness", "beads", "quantity", "members")
BETWEEN_MARKS = "; "
TAKEN_FOR_FORMULAS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What a spreadsheet may take a text for a formula by, if it begins with it (OWASP's list, from memory)."""


def cutting_csv(rods: Rods, shop: Shop) -> bytes:
    """The cutting list as the bytes of a CSV file, a line for each section and length."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(HEAD)
    writer.writerows(_cells(line, shop.practice.resolution) for line in cutting_list(rods))
    return text.getvalue().encode()


def _cells(line: CutLine, step: Mm) -> tuple[str, ...]:
    sizes = (show_fixed(size, step) for size in (line.length, line.width, line.thickness))
    return *sizes, str(line.beads), str(line.quantity), harmless(BETWEEN_MARKS.join(line.members))


def harmless(text: str) -> str:
    """The text, with an apostrophe before it if a spreadsheet might take it for a formula."""
    return f"'{text}" if text.startswith(TAKEN_FOR_FORMULAS) else text
