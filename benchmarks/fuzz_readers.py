"""Throws spoiled inputs at the readers and counts what they let slip.

Run as `python benchmarks/fuzz_readers.py 100000` with src on the path.

Each input is a good file spoiled a little or much, or plain noise, from a seed that is printed with any
failure. A reader may hand back a job or raise NotYetRight; anything else, or taking longer than ten
seconds, is a failure.
"""

import argparse
import random
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from pathlib import Path

from pinchrod.ground import NotYetRight
from pinchrod.job import Source, joined_files, read_job, read_workshop

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from tests.job.bad_inputs import GROUPS
from tests.job.workbooks import HEADER, ROW, Raw, a_sheet, a_workbook, parts_of_a_workbook, zipped

Build = Callable[[random.Random], Source]

BITS = (
    b"=", b"[", b"]", b"[[frame]]\n", b'"', b"'", b'"""', b"{", b"}", b",", b";", b"\t", b"\n", b"\r",
    b"\r\n", b"#", b"\x00", b"\xff", b"\xef\xbb\xbf", b"\xc3\xa9", b"\xe2\x80\xae", b"\xed\xa0\x80", b"0",
    b"1e999", b"nan", b"-inf", b"99999999999999999999999", b"0x", b"2026-02-30", b"2026-05-31T10:00:00Z",
    b"true", b".", b"..", b"a.b.c", b"over", b"beside", b"drawer", b"(", b")", b"[38]", b"23 5/8 in", b"1/0",
    b"\xc2\xbd", b"id", b"width", b"layout", b"pinchrod = 1\n", b"sep=;\n", b"#REF!", b"Total",
    b'<c r="A1"/>', b"<row", b"</row>", b'r="ZZZ9999999"', b't="s"', b"<v>", b"</v>", b"&a;",
    b"<!DOCTYPE x>", b"_x000D_", b's="1"',
)  # fmt: skip

GOOD_JOB = b"""pinchrod = 1
[job]
name = "Saltmarsh Row, plot 7"
timber = "yellow-poplar"
thickness = 22
date = 2026-05-31
joint = "dovetail key"
[bead]
width = 9
quirk = 2
[members]
stile = 45
[doors]
[[timber]]
name = "plum"
density = 700
[[frame]]
id = "K1"
width = 600
height = '28 3/8 in'
layout = "drawer 140 over (pair beside door left) over[80] 3 drawers"
quantity = 2
left_stile = 60.5
foot = 100
[hinges]
by_height = [[1016, 2], { up_to = 1524, number = 3 }]
"""
GOOD_SHOP = b"""pinchrod = 1
[practice]
resolution = 0.1
confidence = 0.95
[machines.rip_saw]
kerf = 4
[machines.thicknesser]
final_pass = [0.75, 1.0]
[machines.moulder]
power_feed = true
knives = 2
[fixings.mortice_and_tenon]
thickness_share = "1/3"
[hinges]
by_weight = [[6, 2], [12, 3]]
[papers]
size = "A4"
[labels]
columns = 2
"""
GOOD_CSV = (
    b'id,width,height,layout,left stile\nK1,600,720,"drawer 140 over pair",60\nK2,"23 5/8""",720,pair,\n'
)


def spoiled(chance: random.Random, content: bytes) -> bytes:
    """The content with a few of its bytes changed, taken out, doubled or joined by others."""
    spoiling = bytearray(content)
    for _ in range(chance.choice((1, 1, 2, 3, 8, 40))):
        at = chance.randrange(len(spoiling) + 1)
        to = min(len(spoiling), at + chance.choice((0, 1, 1, 4, 30)))
        kept = chance.choice((b"", chance.choice(BITS), chance.randbytes(2), bytes(spoiling[at:to]) * 2))
        spoiling[at:to] = kept
    return bytes(spoiling)


def noise(chance: random.Random) -> bytes:
    """Bits of files in any order, or bytes of any kind."""
    if chance.random() < 0.5:
        return b"".join(chance.choices(BITS, k=chance.randrange(60)))
    return chance.randbytes(chance.randrange(200))


def a_job_file(chance: random.Random) -> Source:
    """A spoiled job file."""
    cases = [
        case.source.content
        for case in GROUPS["syntax"] + GROUPS["meaning"]
        if len(case.source.content) < 2000
    ]
    good = GOOD_JOB if chance.random() < 0.7 else chance.choice(cases)
    return Source(name="job.toml", content=spoiled(chance, good) if chance.random() < 0.9 else noise(chance))


def a_shop_file(chance: random.Random) -> Source:
    """A spoiled workshop file."""
    content = spoiled(chance, GOOD_SHOP) if chance.random() < 0.9 else noise(chance)
    return Source(name="workshop.toml", content=content)


def a_text_list(chance: random.Random) -> Source:
    """A spoiled text list."""
    cases = [case.source.content for case in GROUPS["tables"] if case.source.name.endswith(".csv")]
    good = GOOD_CSV if chance.random() < 0.6 else chance.choice(cases)
    content = spoiled(chance, good) if chance.random() < 0.9 else noise(chance)
    return Source(
        name="frames.csv",
        content=content.decode("utf-8", "replace").encode("utf-16") if chance.random() < 0.05 else content,
    )


def a_book(chance: random.Random) -> Source:
    """A spoiled workbook: a part of it, or the zip itself."""
    if chance.random() < 0.3:
        content = spoiled(chance, GOOD_BOOK)
    else:
        parts: dict[str, str | bytes] = {**PARTS}
        for name in chance.sample(sorted(parts), chance.choice((1, 1, 2))):
            parts[name] = spoiled(chance, PARTS[name].encode())
        content = zipped(parts)
    return Source(name="frames.xlsx", content=content)


ROWS = (
    ROW,
    (
        "K2",
        Raw('<c r="{at}" s="1"><v>46239</v></c>'),
        Raw('<c r="{at}" t="s"><v>0</v></c>'),
        Raw('<c r="{at}" t="b"><v>1</v></c>'),
    ),
    (
        7,
        Raw('<c r="{at}" t="e"><v>#REF!</v></c>'),
        Raw('<c r="{at}" s="2"><f>1+1</f><v>600.1</v></c>'),
        Raw('<c r="{at}"><f>1</f></c>'),
    ),
)  # fmt: skip
SHEET = a_sheet(
    HEADER, *ROWS,
    before='<cols><col min="2" max="2" hidden="1"/></cols>',
    after='<mergeCells><mergeCell ref="B7:B8"/></mergeCells>',
    row_says={3: 'hidden="1"'},
)  # fmt: skip
PARTS = {
    **parts_of_a_workbook(
        SHEET, a_sheet(("notes",)), names=("Frames", "Notes"), formats=("d-mmm", '0.0" in"')
    ),
    "xl/sharedStrings.xml": "<sst><si><t>720</t></si><si><r><t>a</t></r><rPh><t>b</t></rPh></si></sst>",
}
GOOD_BOOK = a_workbook(ROW)

READERS: dict[str, tuple[Build, Callable[[Source], object]]] = {
    "job": (a_job_file, lambda source: (joined_files(source), read_job(source))),
    "workshop": (a_shop_file, read_workshop),
    "csv": (a_text_list, read_job),
    "xlsx": (a_book, read_job),
}
SLOWEST = 10  # seconds


def failures(reader: str, count: int, seed: int) -> Iterator[str]:
    """What a reader let slip in so many inputs."""
    build, read = READERS[reader]
    for number in range(seed, seed + count):
        source = build(random.Random(number))
        began = time.monotonic()
        try:
            read(source)
        except NotYetRight:
            pass
        except Exception:  # noqa: BLE001 -- any other is what we look for
            yield f"{reader}, seed {number}: {source.content[:300]!r}\n{traceback.format_exc()}"
        if time.monotonic() - began > SLOWEST:
            yield f"{reader}, seed {number}: slower than {SLOWEST} s"


def main() -> int:
    """1 if any reader let anything slip."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, help="inputs for each reader")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--reader", choices=tuple(READERS), action="append")
    told = parser.parse_args()
    worst = 0
    for reader in told.reader or READERS:
        began = time.monotonic()
        found = list(failures(reader, told.count, told.seed))
        print(
            f"{reader}: {told.count} inputs, {len(found)} failures, {time.monotonic() - began:.0f} s",
            flush=True,
        )
        print(*found[:5], sep="\n")
        worst |= bool(found)
    return worst


if __name__ == "__main__":
    sys.exit(main())
