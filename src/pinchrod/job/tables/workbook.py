"""The parts of a workbook (.xlsx), unpacked with care: a file from elsewhere may be made to do harm.

A workbook is a zip of XML parts (ECMA-376). Every byte is counted as it is unpacked, since what a
zip says of itself may be a lie, and a part that declares a document type is never parsed.
"""

import stat
import struct
import zlib
from collections.abc import Iterator, Mapping
from io import BytesIO
from itertools import pairwise
from pathlib import PurePosixPath
from typing import IO
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, LargeZipFile, ZipFile, ZipInfo

from pinchrod.ground import Problem, quoted
from pinchrod.job.limits import MEGABYTE, MOST_PARTS, MOST_RATIO, MOST_UNPACKED
from pinchrod.job.said import Reading
from pinchrod.job.source import Source

ENTRY = b"PK\x01\x02"  # begins each entry of a zip's list
ALONE = "save a workbook with nothing but the list"
CHUNK = 64 * 1024
DOCTYPES = tuple("<!DOCTYPE".encode(code) for code in ("utf-8", "utf-16-le", "utf-16-be"))
BROKEN = (
    BadZipFile,
    LargeZipFile,
    EOFError,
    zlib.error,
    struct.error,
    ValueError,
    NotImplementedError,
    OSError,
)
Parts = Mapping[str, bytes]


def parts_of(source: Source) -> Reading[Parts | None]:
    """Every part of the workbook by its name, or None if it is damaged or cannot be trusted."""
    if source.content.count(ENTRY) > MOST_PARTS:
        what = f"the workbook holds more than {MOST_PARTS} parts"
        yield _problem(source, "workbook-parts", what, ALONE)
        return None
    try:
        with ZipFile(BytesIO(source.content)) as packed:
            parts = _distrusted(source, packed.infolist()) or _unpacked(source, packed)
    except BROKEN:
        parts = damaged(source)
    if isinstance(parts, Problem):
        yield parts
        return None
    return parts


def damaged(source: Source) -> Problem:
    """What is said of a workbook that cannot be read to its end."""
    what = "the workbook is damaged, or was not saved to its end"
    return _problem(source, "workbook-damaged", what, "open it in a spreadsheet program and save it again")


def _distrusted(source: Source, entries: list[ZipInfo]) -> Problem | None:
    """What speaks against unpacking at all, from what the zip says of its entries."""
    for entry in entries:
        why = _why_not(entry)
        if why:
            return _trick(source, f"its part {quoted(entry.filename)} {why}")
    if len({entry.filename for entry in entries}) < len(entries):
        return _trick(source, "two of its parts bear one name")
    return _trick(source, "its parts lie over one another") if _overlap(entries) else None


def _why_not(entry: ZipInfo) -> str:
    """Why an entry is no part of an honest workbook; empty if it may be one."""
    path = PurePosixPath(entry.filename)
    if path.is_absolute() or ".." in path.parts or "\\" in entry.filename or ":" in entry.filename:
        return "would lie outside it"
    if stat.S_ISLNK(entry.external_attr >> 16):
        return "points at another file"
    if entry.flag_bits & 1:
        return "is locked with a password"
    return "" if entry.compress_type in (ZIP_STORED, ZIP_DEFLATED) else "is packed in an unusual way"


def _overlap(entries: list[ZipInfo]) -> bool:
    laid = sorted(entries, key=lambda entry: entry.header_offset)
    return any(
        one.header_offset + len(one.filename) + one.compress_size > next_one.header_offset
        for one, next_one in pairwise(laid)
    )


def _unpacked(source: Source, packed: ZipFile) -> Parts | Problem:
    """All parts, or what is said when they come to more than a workbook holds, or to something else."""
    most = min(MOST_UNPACKED, MOST_RATIO * len(source.content))
    parts: dict[str, bytes] = {}
    count = 0
    for entry in packed.infolist():
        with packed.open(entry) as part:
            content = b"".join(_upto(part, most - count))
        count += len(content)
        if count > most:
            return _too_large(source, most)
        if any(mark in content for mark in DOCTYPES):
            return _trick(source, f"its part {quoted(entry.filename)} declares a document type")
        parts[entry.filename] = content
    return parts


def _upto(part: IO[bytes], left: int) -> Iterator[bytes]:
    """The part's bytes, ended once more than what is left has come."""
    while left >= 0:
        chunk = part.read(CHUNK)
        if not chunk:
            return
        left -= len(chunk)
        yield chunk


def _too_large(source: Source, most: int) -> Problem:
    if most == MOST_UNPACKED:
        what = f"the workbook unpacks to more than {MOST_UNPACKED // MEGABYTE} MB"
    else:
        what = f"the workbook unpacks to more than {MOST_RATIO} times its size"
    return _problem(source, "workbook-swells", what, ALONE)


def _trick(source: Source, why: str) -> Problem:
    mend = "do not trust the file; open it in a spreadsheet program you trust and save it again as .xlsx"
    return _problem(source, "workbook-odd", f"this is no ordinary workbook: {why}", mend)


def _problem(source: Source, code: str, what: str, mend: str) -> Problem:
    return Problem(where=source.whole, code=code, what=what, mend=mend)
