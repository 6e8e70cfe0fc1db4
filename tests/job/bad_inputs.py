"""Everything that people and programs are known to get wrong, one small input each.

Groups as in golden/: files (what a file is), tables (lists of frames), numbers, meaning, syntax
(of TOML), workshop, rack, offers, hostile (made to do harm). Inputs are built here, so that each can be read.
"""

import struct
from dataclasses import dataclass
from random import Random
from zipfile import ZIP_STORED, ZipInfo

from pinchrod.job import Source
from tests.job.workbooks import (
    HEADER,
    MAIN,
    ROW,
    Raw,
    a_sheet,
    a_workbook,
    parts_of_a_workbook,
    zipped,
)

FRAME = {"id": '"K1"', "width": "600", "height": "720", "layout": '"drawer 140 over pair"'}


@dataclass(frozen=True)
class Case:
    """One input: what is wrong with it, and the files."""

    name: str
    source: Source
    joined: tuple[Source, ...] = ()
    workshop: Source | None = None


def toml(name, text, **more):
    """A case of a job file with this text."""
    content = text if isinstance(text, bytes) else text.encode()
    return Case(name, Source(name="job.toml", content=content), **more)


def a_frame_saying(**said):
    """The text of a job file with one frame, and what is said of it; None leaves a name out."""
    lines = [f"{key} = {value}" for key, value in {**FRAME, **said}.items() if value is not None]
    return "\n".join(["pinchrod = 1", "", "[[frame]]", *lines, ""])


def frame(name, **said):
    """A case of a job file whose one frame says this."""
    return toml(name, a_frame_saying(**said))


def job(name, text):
    """A case of a job file with a good frame, and this text before it."""
    return toml(name, "\n".join(["pinchrod = 1", text, a_frame_saying().removeprefix("pinchrod = 1\n")]))


def csv(name, text, file="frames.csv"):
    """A case of a list saved as text."""
    return Case(name, Source(name=file, content=text if isinstance(text, bytes) else text.encode()))


def row(name, **said):
    """A case of a text list with one row that says this."""
    cells = {"id": "K1", "width": "600", "height": "720", "layout": "pair", **said}
    return csv(name, f"{','.join(cells)}\n{','.join(cells.values())}\n")


def xlsx(name, content, file="frames.xlsx"):
    """A case of a workbook."""
    return Case(name, Source(name=file, content=content))


def cell(name, value, column=1, **said):
    """A case of a workbook with one row, in which one cell holds this."""
    cells = [*ROW]
    cells[column] = value
    return xlsx(name, a_workbook(cells, **said))


def shop(name, text):
    """A case of a workshop file, for a job with nothing wrong."""
    workshop = Source(name="workshop.toml", content=f"pinchrod = 1\n{text}\n".encode())
    return toml(name, a_frame_saying(), workshop=workshop)


def rack(name, text, file="rack.csv", jobs=""):
    """A case of a good job with this rack."""
    content = text if isinstance(text, bytes) else text.encode()
    said = f'pinchrod = 1\n[job]\nrack = "{file}"\n{jobs}' + a_frame_saying().removeprefix("pinchrod = 1\n")
    return toml(name, said, joined=(Source(name=file, content=content),))


OFFER = {"thickness": "27", "width": "[150, 250]", "length": "[2400, 4800]", "price": "640", "per": '"m3"'}


def an_offer_saying(**said):
    """The lines of an offer that says this; None leaves a name out."""
    lines = [f"{key} = {value}" for key, value in {**OFFER, **said}.items() if value is not None]
    return "\n".join(["[[offer]]", *lines])


def offer(case, sent=None, /, **said):
    """A case of a good job with one offer that says this, and perhaps what was sent before."""
    joined = () if sent is None else (Source(name="sent.csv", content=sent.encode()),)
    return offers(case, said, joined=joined)


def offers(name, *all_said, joined=(), **more):
    """A case of a good job with these offers."""
    tables = "\n".join(an_offer_saying(**said) for said in all_said)
    return toml(name, f"{a_frame_saying()}\n{tables}\n", joined=joined, **more)


def board(name, **said):
    """A case of a rack with one board that says this; None leaves a cell blank."""
    cells = {"board": "B1", "thickness": "27", "width": "160", "length": "3000", **said}
    return rack(name, f"{','.join(cells)}\n{','.join(cell or '' for cell in cells.values())}\n")


GOOD_CSV = "id,width,height,layout\nK1,600,720,drawer 140 over pair\n"
GOOD_XLSX = a_workbook(ROW)

FILES = (
    toml("an empty job file", ""),
    toml("a job file of blank lines", "\n \n\t\n"),
    csv("an empty list", ""),
    csv("a list of blank lines", "\n,,,\n  \n"),
    csv("a list with only a header", "id,width,height,layout\n"),
    xlsx("a workbook of no bytes", b""),
    xlsx("a workbook with nothing in it", zipped(parts_of_a_workbook(a_sheet()))),
    xlsx("a workbook with only a header", a_workbook()),
    toml("a job file too large", b"#" * (2 * 1024 * 1024 + 1)),
    toml("a job file with too many lines", "#\n" * 100_000),
    csv("a list too large", b" " * (10 * 1024 * 1024 + 1)),
    toml("a job file cut off in the middle", a_frame_saying()[:40]),
    xlsx("a workbook cut off in the middle", GOOD_XLSX[: len(GOOD_XLSX) // 2]),
    csv("a picture named .csv", b"\x89PNG\r\n\x1a\n\x00\x00"),
    csv("a PDF named .csv", b"%PDF-1.7\n"),
    toml("a program named .toml", b"\x7fELF\x02\x01"),
    csv("a list of another kind", GOOD_CSV, file="frames.ods"),
    csv("a list without an ending", GOOD_CSV, file="frames"),
    csv("a workbook renamed .csv", GOOD_XLSX),
    toml("a workbook renamed .toml", GOOD_XLSX),
    xlsx("a text list renamed .xlsx", GOOD_CSV.encode()),
    xlsx("a spreadsheet of the old kind", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(64)),
    csv("an old spreadsheet renamed .csv", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(64)),
    xlsx("a zip that is no workbook", zipped({"readme.txt": "hello"})),
    csv("a list in UTF-16", GOOD_CSV.encode("utf-16")),
    csv("a list in UTF-16 without its mark", GOOD_CSV.encode("utf-16-le")),
    csv("a list in UTF-16 cut off within a letter", GOOD_CSV.encode("utf-16") + b"\x00"),
    csv("a list in UTF-8 with a mark", b"\xef\xbb\xbf" + GOOD_CSV.encode()),
    csv("a list in Windows-1252 with an accent", GOOD_CSV.replace("K1", "Küche").encode("cp1252")),
    csv(
        "a list with a byte that no code has", GOOD_CSV.replace("K1", "K").encode() + b"K\x81,600,720,pair\n"
    ),
    csv(
        "a list in two codes",
        "id,width,height,layout\nKü".encode() + b"che,600,720,pair\nK\xfc,600,720,pair\n",
    ),
    csv("a list with a NUL", GOOD_CSV.replace("600", "6\x0000")),
    csv("a list with lines ended by CR alone", GOOD_CSV.replace("\n", "\r")),
    csv("a list with mixed line ends", "id,width,height,layout\r\nK1,600,720,pair\rK2,600,720,pair\n"),
    csv("a list without a line end at its end", GOOD_CSV.rstrip("\n")),
    toml("a job file in UTF-16", a_frame_saying().encode("utf-16")),
    toml("a job file in Windows-1252", a_frame_saying(id='"Küche"').encode("cp1252")),
    toml("a job file in two codes", 'name = "Kü"\n'.encode() + b'customer = "\xfc"\n'),
    toml("a job file with lines ended by CR alone", a_frame_saying().replace("\n", "\r")),
    toml("a job file with a NUL", a_frame_saying(id='"K\x001"')),
    job("a list that is not there", '[job]\nframes = "frames.xlsx"'),
    job("a workshop that is not there", '[job]\nworkshop = "workshop.toml"'),
    job("a list of a kind that is not read", '[job]\nframes = "frames.ods"'),
    Case(
        "a joined list with a fault of its own",
        Source(name="job.toml", content=b'pinchrod = 1\n[job]\nframes = "frames.csv"\nthicknes = 22\n'),
        joined=(Source(name="jobs/frames.csv", content=b"id,width,height,layout\nK1,60O,720,pair\n"),),
    ),
    Case(
        "a joined list that is a workbook by another name",
        Source(name="job.toml", content=b'pinchrod = 1\n[job]\nframes = "frames.csv"\n'),
        joined=(Source(name="frames.csv", content=GOOD_XLSX),),
    ),
    toml(
        "a workshop that cannot be read",
        a_frame_saying(width='"x"'),
        workshop=Source(name="shop.toml", content=b"["),
    ),
    toml(
        "neither the job nor the workshop can be read",
        "[",
        workshop=Source(name="shop.toml", content=b"pinchrod = 2"),
    ),
    toml("a workshop of another kind", a_frame_saying(), workshop=Source(name="shop.yaml", content=b"a: 1")),
)

TABLES = (
    csv("no header", "K1,600,720,pair\nK2,600,720,pair\n"),
    csv("a header in another language", "Nummer,Breite,Hoehe,Aufteilung\nK1,600,720,pair\n"),
    csv("a title above the header", "Saltmarsh Row\n\nid,width,height,layout\nK1,600,720,pair\n"),
    csv("a misspelt header", "id,widht,height,layout\nK1,600,720,pair\n"),
    csv("a unit in the header", "id,width (mm),height,layout\nK1,600,720,pair\n"),
    csv("a header with gaps and capitals", "ID,Width,HEIGHT,Layout,Left Stile,top-rail\nK1,600,720,pair,60,70\n"),
    csv("a doubled header", "id,width,height,layout,Width\nK1,600,720,pair,700\n"),
    csv("a column missing", "id,width,layout\nK1,600,pair\n"),
    csv("a column nobody reads", "id,width,height,layout,price\nK1,600,720,pair,12\n"),
    csv("blank columns to the right", "id,width,height,layout,,\nK1,600,720,pair,,\n"),
    csv("a value in a column without a name", "id,,width,height,layout\nK1,oak,600,720,pair\n"),
    csv("a row too short", "id,width,height,layout,foot\nK1,600,720,pair\n"),
    csv("a row too long", "id,width,height,layout\nK1,600,720,pair,,over there\n"),
    csv("a decimal comma between commas", "id,width,height,layout\nK1,600,5,720,pair\n"),
    csv("semicolons and decimal commas", "id;width;height;layout\nK1;600,5;720;pair\n"),
    csv("tabs", "id\twidth\theight\tlayout\nK1\t600\t720\tpair\n"),
    csv("a separator told in the first line", "sep=;\nid;width;height;layout\nK1;600,25;720;pair\n"),
    csv("semicolons and a doubtful point", "id;width;height;layout\nK1;1.234;720;pair\n"),
    csv("an unclosed quotation mark", 'id,width,height,layout\nK1,600,720,"pair\nK2,600,720,pair\n'),
    csv("an inch mark in quotes, told once", 'id,width,height,layout\nK1,"23 5/8"",720,pair\n'),
    csv("an inch mark without quotes", 'id,width,height,layout\nK1,23 5/8",720,pair\n'),
    csv("a quotation mark within a cell", 'id,width,height,layout\nK"1,600,720,pair\n'),
    csv("a cell over two lines", 'id,width,height,layout\nK1,600,720,"drawer 140\nover pear"\n'),
    csv("blank rows between", "id,width,height,layout\n\nK1,600,720,pair\n,,,\nK2,60O,720,pair\n"),
    csv("a total at the end", "id,width,height,layout\nK1,600,720,pair\nTotal,600,,\n"),
    csv("a sum without a word", "id,width,height,layout\nK1,600,720,pair\n,600,,\n"),
    csv("two lists below each other", "id,width,height,layout\nK1,600,720,pair\nid,width,height,layout\nK2,600,720,pair\n"),
    csv("two lists beside each other", "id,width,height,layout,,id,width,height,layout\nK1,600,720,pair,,K2,600,720,pair\n"),
    csv("an error left by a formula", "id,width,height,layout\nK1,#REF!,720,#N/A\n"),
    csv("a formula as text", "id,width,height,layout\n=1+1,=300*2,720,pair\n"),
    csv("inches and bare numbers in one column", 'id,width,height,layout\nK1,24 in,720,pair\nK2,600,720,pair\nK3,610,720,pair\n'),
    csv("many in mixed units", "id,width,height,layout\n" + "".join(f"K{n},24 in,720,pair\nT{n},600,720,pair\n" for n in range(7))),
    csv("several faults in one row", "id,width,height,layout\n,60O,,pear\n"),
    csv("a row with nothing but an id", "id,width,height,layout\nK1,,,\n"),
    csv("too many columns", ",".join([*HEADER, *(f"c{n}" for n in range(61))]) + "\n"),
    csv("a cell of too many letters", f"id,width,height,layout\nK1,600,720,{'pair ' * 201}\n"),
    csv("a cell width of too many letters", f"id,width,height,layout\nK1,{'6' * 1001},720,pair\n"),
    cell("a formula whose result was not saved", Raw('<c r="{at}"><f>300*2</f></c>')),
    cell("a formula with its result", Raw('<c r="{at}"><f>300*2</f><v>600</v></c>')),
    cell("a formula that gives no words", Raw('<c r="{at}" t="str"><f>""</f><v></v></c>'), column=3),
    cell("an error", Raw('<c r="{at}" t="e"><v>#DIV/0!</v></c>')),
    cell("an error for an id", Raw('<c r="{at}" t="e"><v>#N/A</v></c>'), column=0),
    cell("true for a size", Raw('<c r="{at}" t="b"><v>1</v></c>')),
    cell("a date where 5/8 stood", Raw('<c r="{at}" s="1"><v>46239</v></c>'), formats=("d-mmm",)),
    cell("a date in ISO form", Raw('<c r="{at}" t="d"><v>2026-08-05T00:00:00</v></c>')),
    cell("a date counted from 1904", Raw('<c r="{at}" s="1"><v>44777</v></c>'), formats=("yyyy-mm-dd",), book_says='<workbookPr date1904="1"/>'),
    cell("a time", Raw('<c r="{at}" s="1"><v>0.25</v></c>'), formats=("[h]:mm",)),
    cell("a day before all days", Raw('<c r="{at}" s="1"><v>-5</v></c>'), formats=("d.m.yy",)),
    cell("a day after all days", Raw('<c r="{at}" s="1"><v>9e300</v></c>'), formats=("d.m.yy",)),
    cell("a number shown in inches", Raw('<c r="{at}" s="1"><v>600</v></c>'), formats=('0.0" in"',)),
    cell("a number shown with an inch mark", Raw('<c r="{at}" s="1"><v>23.625</v></c>'), formats=('# ?/?\\"',)),
    cell("a number shown per cent", Raw('<c r="{at}" s="1"><v>600</v></c>'), formats=("0%",)),
    cell("a number shown in mm", Raw('<c r="{at}" s="1"><v>600</v></c>'), formats=('0" mm"',)),
    cell("an id that was 171E2", Raw('<c r="{at}" s="1"><v>17100</v></c>'), column=0, formats=("0.00E+00",)),
    cell("an id that is 007", Raw('<c r="{at}" s="1"><v>7</v></c>'), column=0, formats=("000",)),
    cell("a number for an id", 12, column=0),
    cell("a number for a layout", 12, column=3),
    cell("a number with a long tail", Raw('<c r="{at}"><v>600.10000000000002</v></c>')),
    cell("a number too great", Raw('<c r="{at}"><v>1E+20</v></c>')),
    cell("a number of nothing", Raw('<c r="{at}"><v> </v></c>')),
    cell("a number that is none", Raw('<c r="{at}"><v>six</v></c>')),
    cell("words from a list that is too short", Raw('<c r="{at}" t="s"><v>5</v></c>')),
    xlsx("merged cells", a_workbook(ROW, ROW, after='<mergeCells><mergeCell ref="B2:B3"/></mergeCells>')),
    xlsx("hidden rows and columns", a_workbook(ROW, ("K2", 600, 720, "pair"), before='<cols><col min="2" max="3" hidden="1"/></cols>', row_says={3: 'hidden="1"'})),
    xlsx("a hidden sheet and another", zipped(parts_of_a_workbook(a_sheet(("old",)), a_sheet(HEADER, ROW), a_sheet(("notes",)), names=("Old", "Frames", "Notes"), states=("hidden",)))),
    xlsx("only a hidden sheet", zipped(parts_of_a_workbook(a_sheet(HEADER, ROW), states=("hidden",)))),
    xlsx("a cell far away", a_workbook(ROW, (Raw('<c r="XFD1048576"><v>1</v></c>'),))),
    xlsx("a stray cell below", a_workbook(ROW, (Raw('<c r="D1048576" t="inlineStr"><is><t>note</t></is></c>'),))),
    xlsx("a sheet whose part is missing", zipped(parts_of_a_workbook(names=("Gone",)))),
    xlsx("a sheet named with letters that cannot be seen", zipped(parts_of_a_workbook(a_sheet(HEADER, ("K1", "x", 720, "pair")), names=("Fra\u202emes",)))),
)  # fmt: skip


def _sizes():
    """A size as people write it, in a job file and in a list; what is refused, and in which words."""
    spellings = (
        ("letters", "six hundred"), ("an O for a nought", "60O"), ("an l for a one", "l20"),
        ("a comma between thousands", "1,234"), ("point and comma", "1.234,5"), ("a space between thousands", "1 234"),
        ("a thin space", "1\u2009234"), ("two signs", "--5"), ("a plus", "+5"), ("a sign behind", "5-"),
        ("two points", "5..0"), ("a power", "1e3"), ("NaN", "NaN"), ("inf", "inf"), ("5,000 digits", "5" * 5000),
        ("21 digits", "5" * 21), ("Arabic figures", "٦٠٠"), ("full-width figures", "\uff16\uff10\uff10"), ("a half", "½"),
        ("one and a half", "1 1/2"), ("one and a half with a hyphen", "1-1/2"), ("a fraction over 0", "3/0"),
        ("two strokes", "7/8/2"), ("a fraction over one", "19/16"), ("nothing", "0"), ("less than nothing", "-600"),
        ("two units", "600 mm\""), ("a doubled unit", "600 mm mm"), ("an unknown unit", "600 px"), ("feet and too many inches", "2' 14\""),
        ("a day for a fraction", "5-Aug"), ("a day in figures", "05/08/2026"), ("a day as ISO writes it", "2026-08-05"), ("blank", "   "),
        ("25.4 times too great", "15240"), ("a size in inches without a mark", "23.625"), ("below the least", "19.9"), ("above the most", "6000.1"), ("one inch", "1"),
        ("something unseen", "6\u200b00"), ("far too great", "999999"),
    )  # fmt: skip
    for what, size in spellings:
        yield frame(f"{what}, in a job file", width=f"'''{size}'''")
        if size.strip() and "," not in size:
            yield row(
                f"{what}, in a list", width=size if '"' not in size else '"' + size.replace('"', '""') + '"'
            )


NUMBERS = (
    *_sizes(),
    *(frame(f"the bare number {size}", width=size) for size in ("0", "-5", "19", "6001", "15240", "23.625", "1e3", "nan", "-inf", "1_000_000_000_000_000_000_000", "0x1p", "0xffffffffffffffffffffffff", "1.5e400", "0.0000000000000000000001", "600.", "+600")),
    frame("true for a size", width="true"),
    frame("a date for a size", width="2026-08-05"),
    frame("a time for a size", height="07:30:00"),
    frame("a list for a size", width="[600, 700]"),
    frame("a table for a size", width="{ mm = 600 }"),
    *(frame(f"a quantity of {number}", quantity=number) for number in ("0", "-1", "1.5", "1000", '"two"', "true", '"2 off"', "1e2")),
    row("a quantity of 2 off in a list", quantity="2 off"),
    row("a quantity of 2.0 in a list", quantity="2.0"),
    cell("a quantity left by a broken formula", Raw('<c r="{at}" t="e"><v>#REF!</v></c><c r="E1" t="inlineStr"><is><t>quantity</t></is></c><c r="E2" t="e"><v>#REF!</v></c>'), column=3),
    *(frame(f"a stile of {size}", left_stile=size) for size in ("0", "300.5", '"12 in"')),
    *(frame(f"a bottom rail of {size}", bottom_rail=size) for size in ("-1", "301")),
    *(job(f"gaps of {size}", f"[gaps]\nedge = {size}") for size in ("-1", "20.5")),
    *(job(f"a thickness of {size}", f"[job]\nthickness = {size}") for size in ("0", "4.9", "101", '"7/8"')),
)  # fmt: skip

MEANING = (
    toml("no frames", "pinchrod = 1\n[job]\nname = \"Saltmarsh Row\"\n"),
    frame("no id", id=None),
    frame("no width", width=None),
    frame("no height and no layout", height=None, layout=None),
    frame("a number for an id", id="7"),
    frame("a blank id", id='" "'),
    frame("a blank layout", layout='""'),
    frame("a number for a layout", layout="140"),
    frame("a layout with an unknown word", layout='"drawer 140 over pear"'),
    frame("a layout in several lines", layout='"""drawer 140\nover pear"""'),
    frame("a layout with too many openings", layout='"201 drawers"'),
    frame("the width a run leaves", width='"share"', height='"ceiling"'),
    frame("a foot without a bottom rail", bottom_rail="0", foot="100"),
    toml("one id twice", a_frame_saying() + a_frame_saying().removeprefix("pinchrod = 1")),
    csv("one id in two cases", "id,width,height,layout\nK1,600,720,pair\nk1,600,720,pair\n"),
    csv("an id in another alphabet", "id,width,height,layout\nK1,600,720,pair\n\u041a1,600,720,pair\n"),
    csv("an id in full-width letters", "id,width,height,layout\nK1,600,720,pair\n\uff2b\uff11,600,720,pair\n"),
    csv("an id with a letter like a figure", "id,width,height,layout\nK10,600,720,pair\nK1O,600,720,pair\nKl0,600,720,pair\n"),
    *(frame(f"the id {name}", id=f"'{name}'") for name in ("-K1", ".K1", "K1.", "K/1", "K:1", "../K1", "CON", "lpt1.2", "=1+1", "K" * 81, "1.71E+04", "5-Aug", "Aug-26", "K|1")),
    frame("an id with a hidden letter", id='"K\\u200b1"'),
    frame("an id that turns the line round", id='"K\\u202e1"'),
    frame("an id that colours a terminal", id='"K\\u001b[31m1"'),
    frame("an unknown name near a known one", widht="600"),
    frame("an unknown name like none", colour='"white"'),
    frame("a name that belongs elsewhere", thickness="22"),
    job("a bead's name in [job]", "[job]\nquirk = 2"),
    job("an unknown table", "[membres]\nstile = 45"),
    job("a table of the workshop file", "[practice]\nskim = 1"),
    job("an unknown timber near a known one", '[job]\ntimber = "yelow poplar"'),
    job("an unknown timber like none", '[job]\ntimber = "xyzzy"'),
    job("a timber that is a number", "[job]\ntimber = 7"),
    job("an unknown joint near a known one", '[job]\njoint = "dovetale key"'),
    job("an unknown joint like none", '[job]\njoint = "glue"'),
    job("a timber described twice", '[[timber]]\nname = "plum"\ndensity = 700\n[[timber]]\nname = "plum"'),
    job("a timber without a name", "[[timber]]\ndensity = 700"),
    job("a timber with odd figures", '[[timber]]\nname = "plum"\ndensity = 7\nradial = "much"\ntangential = true\nweight = 3'),
    job("a timber that is one table", '[timber]\nname = "plum"'),
    toml("a frame that is one table", a_frame_saying().replace("[[frame]]", "[frame]")),
    toml("frames that are words", 'pinchrod = 1\nframe = ["K1", "K2"]\n'),
    job("a quirk as wide as the bead", "[bead]\nwidth = 3\nquirk = 3"),
    job("a bead narrower than the usual quirk", "[bead]\nwidth = 2"),
    job("a quirk without a bead", "[bead]\nwidth = 0\nquirk = 2"),
    job("a square edge", "[bead]\nwidth = 0"),
    job("a bead in inches", '[bead]\nwidth = "3/8 in"\nquirk = 2'),
    job("words where a table belongs", 'bead = "small"'),
    toml("a form that is not ours yet", "pinchrod = 2\n"),
    *(toml(f"the form {form}", f"pinchrod = {form}\n" + a_frame_saying().removeprefix("pinchrod = 1\n")) for form in ('"1"', "0", "-1", "1.0", "true")),
    toml("no form", a_frame_saying().removeprefix("pinchrod = 1\n")),
    job("what this release does not use", '[[run]]\nid = "north"'),
    job("a name that is a number", "[job]\nname = 7"),
    job("a name too long", f'[job]\nname = "{"x" * 81}"'),
    job("a number too long for the title block", f'[job]\nnumber = "{"x" * 17}"\nrevision = "ABC"\ndrawn_by = "{"x" * 21}"'),
    *(job(f"the date {day}", f"[job]\ndate = {day}") for day in ('"2026-02-30"', '"31.5.2026"', "2026-05-31T10:00:00", "20260531")),
    job("doors with odd sizes", "[doors]\nstile = 0\ngroove = 51\nstyle = 60"),
    toml("more frames than a job has", "pinchrod = 1\n" + "[[frame]]\n" * 2001),
    frame("more members than can be planned", quantity="999", layout='"40 drawers"'),
    frame("many faults at once", id="7", width='"60O"', height="6001", layout='"pear"', quantity="0", left_stile="0", foot='"x"', colour="1"),
)  # fmt: skip

SYNTAX = (
    *(toml(name, f"pinchrod = 1\n{line}\n") for name, line in (
        ("a fault on the last line", "width = "), ("a length with a bare inch mark", 'width = 23 5/8"'), ("a bare foot mark", "width = 2'"),
        ("a bare unit", "width = 600mm"), ("a bare unit after a fraction", "width = 23 5/8 in"), ("an O for a nought", "width = 60O"),
        ("a decimal comma", "width = 600,5"), ("a comma between thousands", "width = 1,234"), ("a leading nought", "width = 0600"),
        ("a point without a nought", "width = .5"), ("a point at the end", "width = 5."), ("two signs", "width = --5"), ("a bare fraction", "width = 5/8"),
        ("words without quotes", "layout = drawer over pair"), ("True in capitals", "power_feed = True"), ("typographic quotes", "layout = “pair”"),
        ("a quotation mark left open", 'layout = "pair'), ("a quotation mark left open at the end", "layout = '''pair"), ("two values", 'layout = "pair" "drawer"'), ("two names on a line", "a = 1 b = 2"),
        ("a colon for the equals sign", "width: 600"), ("a name with a gap", "left stile = 60"), ("no equals sign", "width 600"), ("a line that is no line", "pair, oak"),
        ("an accent in a bare name", "größe = 600"), ("a header left open", "[members"), ("a double header left open", "[[frame]"), ("a list left open", "final_pass = [0.75, 1"),
        ("braces left open", "step = { up_to = 1"), ("a trailing comma in braces", "step = { up_to = 1, }"), ("one name twice in braces", "step = { a = 1, a = 2 }"),
        ("one name twice", "width = 600\nheight = 720\nwidth = 610"), ("a name that is a table already", "bead.width = 9\nbead = 3"), ("[frame] twice", '[frame]\nid = "K1"\n[frame]\nid = "K2"'),
        ("a backslash", 'frames = "C:\\jobs\\frames.csv"'), ("a lone surrogate", 'id = "\\ud800"'), ("a tab inside quotes", 'id = "K\t1"'), ("an escape inside quotes", 'id = "K\x1b1"'), ("no such day", "date = 2026-02-30"),
        ("an anchor", "width = &w 600"), ("a comment of another kind", "// width"), ("an endless number", f"width = {'9' * 5000}"), ("JSON", '{"width": 600}'), ("a nan of another kind", "width = NaN"),
    )),
    toml("a fault on the first line", "pinchrod: 1\n[job]\n"),
    toml("lists 10,000 deep", "pinchrod = 1\na = " + "[" * 10_000),
    toml("lists 200 deep", "pinchrod = 1\na = " + "[" * 200 + "]" * 200),
    toml("a name 10,000 deep", "a" + ".a" * 10_000 + " = 1"),
    toml("a name 33 deep", "a" + ".a" * 32 + " = 1"),
    toml("a header 33 deep", "[a" + ' . "a"' * 32 + "]"),
)  # fmt: skip

WORKSHOP = (
    shop("a figure out of range", "[practice]\nresolution = 0\nconfidence = 1.5\n[machines.moulder]\nspeed = 99"),
    shop("an unknown figure", "[practice]\nskimm = 1\n[machines.notcher]\nflatt = 20\n[machines.lathe]\nspeed = 1"),
    shop("an unknown table", "[fixing]\ndowel = 1"),
    shop("a table of the job file", '[job]\nname = "x"'),
    shop("words for a number", '[machines.moulder]\nfeed = "6 m/min"\nknives = "two"\ndiameter = "5 in"\npower_feed = "yes"'),
    shop("a number for a table", "[machines]\nnotcher = 20"),
    shop("a table for a number", "[practice.skim]\nmm = 1"),
    shop("the more before the less", "[machines.thicknesser]\nfinal_pass = [1.0, 0.75]"),
    shop("one size for two", "[machines.thicknesser]\nfinal_pass = 1.0"),
    shop("two sizes that are none", '[machines.thicknesser]\nfinal_pass = ["x", 99]'),
    shop("a last pass deeper than any", "[machines.thicknesser]\nfinal_pass = [3, 4]"),
    shop("sticks shorter than the shortest", "[practice]\nshortest_stick = 3000\nlongest_stick = 300"),
    shop("wetter than dry", "[moisture]\ndriest = 14\nwettest = 8"),
    shop("labels beyond the page", "[labels]\ncolumns = 3\nrows = 9\nfirst = 99"),
    shop("labels over one another", "[labels]\ncolumn_pitch = 50\nrow_pitch = 20"),
    shop("paper of no size we know", '[papers]\nsize = "A5"'),
    shop("hinges in steps that fall", "[hinges]\nby_height = [[2000, 3], [1000, 2]]"),
    shop("hinges that are no steps", "[hinges]\nby_height = 3\nby_weight = [[6], 7, { up_to = 6, numbr = 2 }]"),
    shop("hinge steps out of range", '[hinges]\nby_height = [[0, 2], { up_to = "90 in", number = 0 }]'),
    shop("no steps", "[hinges]\nby_weight = []"),
    shop("a tally that is none", "[spoiled]\ntally = 3\nrate = 0.7"),
    shop(
        "a tally of rows that cannot be",
        '[spoiled]\ntally = [600, { up_to = 600, made = 2, spoiled = 3 }, { up_to = "2 m", spoild = 1 }, { up_to = 0, made = 0.5, spoiled = -1 }]',
    ),
    shop(
        "a tally with one length twice",
        "[spoiled]\ntally = [{ up_to = 600, made = 2, spoiled = 1 }, { up_to = 600, made = 2, spoiled = 1 }]",
    ),
    shop("a share that is none", '[fixings.mortice_and_tenon]\nthickness_share = "1/0"'),
    toml("a workshop without its form", a_frame_saying(), workshop=Source(name="workshop.toml", content=b"[practice]\nskim = 1\n")),
    job("a workshop's table in the job", "[papers]\nsize = \"B4\"\n[labels]\nfirst = 15"),
)  # fmt: skip


def _with(**parts):
    """A workbook's parts, some of them other than usual; `__` stands for / and `_` for . in a name."""
    return {**parts_of_a_workbook(a_sheet(HEADER, ROW)), **parts}


def _sheet_with(declared, inside="&a;"):
    sheet = a_sheet(
        HEADER, ("K1", 600, 720, Raw(f'<c r="{{at}}" t="inlineStr"><is><t>{inside}</t></is></c>'))
    )
    return _with(**{"xl/worksheets/sheet1.xml": f"<?xml version='1.0'?>{declared}{sheet}"})


def _entry(name, mode=0):
    entry = ZipInfo(name)
    entry.external_attr = mode << 16
    return entry


def _locked(packed):
    """The zip with its first entry marked as locked, in both places that say so."""
    at = packed.index(b"PK\x01\x02")
    return packed[:6] + b"\x01" + packed[7 : at + 8] + b"\x01" + packed[at + 9 :]


def _lying(packed):
    """The zip with its first entry said to be of 1 byte, in both places that say so."""
    at = packed.index(b"PK\x01\x02")
    one = struct.pack("<I", 1)
    return packed[:22] + one + packed[26 : at + 24] + one + packed[at + 28 :]


def _overlapping(packed):
    """The zip with its second entry said to begin where the first does."""
    first = packed.index(b"PK\x01\x02")
    second = packed.index(b"PK\x01\x02", first + 1)
    return packed[: second + 42] + struct.pack("<I", 0) + packed[second + 46 :]


NOISE = Random(1).randbytes(700_000)
LAUGHS = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10))
HOSTILE = (
    xlsx("a billion laughs", zipped(_sheet_with(f'<!DOCTYPE x [<!ENTITY a0 "ha">{LAUGHS}]>', "&a9;"))),
    xlsx("one long entity, many times", zipped(_sheet_with(f'<!DOCTYPE x [<!ENTITY a "{"ha" * 9999}">]>', "&a;" * 999))),
    xlsx("an entity from another file", zipped(_sheet_with('<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]>'))),
    xlsx("a document type from elsewhere", zipped(_sheet_with('<!DOCTYPE x SYSTEM "x.dtd">', "pair"))),
    xlsx("a document type in UTF-16", zipped(_with(**{"xl/styles.xml": '<!DOCTYPE x [<!ENTITY a "b">]><x/>'.encode("utf-16")}))),
    xlsx("an entity that is not declared", zipped(_sheet_with(""))),
    xlsx("a zip bomb", zipped(_with(bomb=bytes(20_000_000)))),
    xlsx("more than 50 MB", zipped(_with(big=bytes(52_000_000), noise=NOISE))),
    xlsx("a zip in a zip", zipped(_with(inner=zipped({"bomb": bytes(1_000_000)})))),
    xlsx("100,000 parts", b"PK\x03\x04" + b"PK\x01\x02" * 100_000),
    xlsx("201 parts", zipped(_with(**{f"part{n}": "x" for n in range(196)}))),
    xlsx("a size that lies", _lying(zipped(_with(), pack=ZIP_STORED))),
    xlsx("two parts of one name", zipped([*_with().items(), (ZipInfo("xl/more.xml"), "x"), (ZipInfo("xl/same.xml"), "x")]).replace(b"xl/more.xml", b"xl/same.xml")),
    xlsx("a path that climbs out", zipped(_with(**{"../../etc/cron.d/x": "x"}))),
    xlsx("a path from the root", zipped(_with(**{"/etc/passwd": "x"}))),
    xlsx("a path with a drive", zipped(_with(**{"C:x": "x"}))),
    xlsx("a path with backslashes", zipped(_with(**{"..\\x": "x"}))),
    xlsx("a link to another file", zipped([*_with().items(), (_entry("link", 0o120777), "/etc/passwd")])),
    xlsx("a locked part", _locked(GOOD_XLSX)),
    xlsx("overlapping parts", _overlapping(zipped(_with(), pack=ZIP_STORED))),
    xlsx("a part of a wrong checksum", zipped(_with(), pack=ZIP_STORED).replace(b"drawer", b"DRAWER")),
    xlsx("noise after a zip's beginning", b"PK\x03\x04" + bytes(range(256)) * 4),
    xlsx("a sheet that breaks off", zipped(_with(**{"xl/worksheets/sheet1.xml": a_sheet(HEADER, ROW)[:-20]}))),
    xlsx("a sheet of another kind", zipped(_with(**{"xl/worksheets/sheet1.xml": "<html><c><v>1</v></c></html>"}))),
    xlsx("a row that is no number", zipped(_with(**{"xl/worksheets/sheet1.xml": f'<worksheet xmlns="{MAIN}"><row r="x"><c><v>1</v></c></row></worksheet>'}))),
    xlsx("a cell that is no place", zipped(_with(**{"xl/worksheets/sheet1.xml": f'<worksheet xmlns="{MAIN}"><row r="1"><c r="1A"><v>1</v></c></row></worksheet>'}))),
    xlsx("a workbook in itself", zipped(_with(**{"xl/_rels/workbook.xml.rels": '<Relationships><Relationship Id="r1" Type="x/worksheet" Target="workbook.xml"/></Relationships>'}))),
    xlsx("too many words", zipped(_with(**{"xl/sharedStrings.xml": "<sst>" + "<si/>" * 60_001 + "</sst>", "noise": NOISE}))),
    xlsx("nothing but the word zip", b"PK\x03\x04"),
    csv("a formula that calls a program", "id,width,height,layout\n=cmd|' /C calc'!A0,600,720,pair\n"),
    csv("a script in an id", "id,width,height,layout\n<script>alert(1)</script>,600,720,pair\n"),
    csv("words to wear a reader out", f"id,width,height,layout\nK1,{'1/' * 400},720,{'(' * 900}\n"),
    csv("nothing but quotation marks", '"' * 100_001),
    toml("words to wear a reader out, in a job file", f"width = {'9' * 4000}x\n"),
    toml("a line of spaces", "a" + " " * 200_000 + "b"),
    toml("a line of dots", "a" + "." * 200_000),
)  # fmt: skip

BOARDS = "board,thickness,width,length,bow,spring,price,faults\n"
TALLY = ("board", "thickness", "width", "length", "faults")
RACK = (
    rack("a rack with nothing wrong", BOARDS + "B1,27,160,3000,2,1,20.50,0-60; 840-905@30-60; 2100-2160@0-20 back\n"),
    rack("a rack in a workbook", zipped(parts_of_a_workbook(a_sheet(TALLY, ("B1", 27, 160, 3000, "0-60; 840-905@30-60")))), file="rack.xlsx"),
    rack("a rack with decimal commas", "board;thickness;width;length;price;faults\nB1;27,5;160;3000;20,50;\"0-60,5; 80-90\"\n"),
    job("a rack that is not there", '[job]\nrack = "rack.csv"'),
    job("a rack of a kind that is not read", '[job]\nrack = "rack.toml"'),
    rack("an empty rack", ""),
    rack("a rack with only a header", BOARDS),
    rack("a rack without a column of widths", "board,thickness,length\nB1,27,3000\n"),
    rack("a column of racks misspelt", "board,thicknes,width,length\nB1,27,160,3000\n"),
    rack("a column nobody reads in a rack", "board,thickness,width,length,colour\nB1,27,160,3000,green\n"),
    rack("a total below the boards", "board,thickness,width,length,price\nB1,27,160,3000,20\n,,,,20\n"),
    board("a board without a name", board=None),
    board("a board without a thickness", thickness=None),
    board("a board without a width", width=None),
    board("a board without a length", length=None),
    board("a board of a negative width", width="-160"),
    board("a board without length to speak of", length="0"),
    board("a board longer than any tree", length="30000"),
    board("a board with a word for a size", length="long"),
    board("a negative bow", bow="-3"),
    board("a price in words", price="dear"),
    board("a negative price", price="-20"),
    rack("one board twice", BOARDS + "B1,27,160,3000,,,20,\nB2,27,160,3000,,,20,\nb1,27,140,2400,,,15,\n"),
    rack("a tally in feet and inches", "board,thickness,width,length\nA1,5/4,6 1/4 in,8 ft 6 in\nA2,\"8/4\"\"\",\"6 1/4\"\"\",8'\nA3, 6 / 4 in,6-1/2 in,\"8'-6\"\"\"\n"),
    *(board(f"a thickness of {said}", thickness=said) for said in ("4/4", "7/4", "24/4", "3/4", "5/4 S2S", "5/4 mm", "5/40", "5/3", "5/0")),
    *(board(f"a thickness that was made the day {said}", thickness=said) for said in ("05-Apr", "4-May", "Apr-05", "4/5/2026", "07-Apr", "2026-04-08", "04.05.2026", "1-Jan", "Apr-99")),
    *(rack(f"a thickness that was made a date in a workbook: {day}", zipped(parts_of_a_workbook(a_sheet(TALLY[:4], ("B1", Raw(f'<c r="B2" s="1"><v>{day}</v></c>'), 160, 3000)), formats=("d-mmm",))), file="rack.xlsx") for day in (46117, 46146, 46239)),
    rack("a thickness in quarters in a workbook", zipped(parts_of_a_workbook(a_sheet(TALLY, ("B1", "5/4", "6 1/4 in", "8 ft", "0-60")))), file="rack.xlsx"),
    rack("a rack with lengths in inches and in mm", BOARDS + "B1,27,160,118 in,,,20,\nB2,27,160,3000,,,20,\n"),
    rack("a rack without a price for one board", BOARDS + "B1,27,160,3000,,,20,\nB2,27,160,1500,,,,\n"),
    rack("a rack without prices", "board,thickness,width,length\nB1,27,160,3000\n"),
    rack("one board too thin for the job", BOARDS + "B1,23,160,3000,,,20,\nB2,27,160,3000,,,20,\n"),
    rack("every board too thin for the job", BOARDS + "B1,23,160,3000,,,20,\nB2,22,160,3000,,,20,\n"),
    board("a bow that leaves no clean stick", bow="400"),
    board("a spring that leaves no width", spring="120"),
    board("a negative spring", spring="-2"),
    board("a board too narrow for the job", width="51"),
    board("a board too short for the shop", length="299"),
    board("faults that leave no stick", faults="280-1000; 1290-2705@0-160; 1100-1150@0-100"),
    board("faults only the back shows", faults="0-3000 back"),
    board("faults off the board and backwards", faults="3100-2900; 10-20@170-150"),
    board("a fault wholly off the board", faults="3000-3100; 10-40@160-170"),
    board("faults typed backwards", faults="60-0; 840-905@60-30"),
    board("a fault that is nothing long", faults="60-60"),
    board("a fault off the board's end", faults="2900-3100"),
    board("a fault off the board's edge", faults="10-40@150-170"),
    board("faults over each other", faults="0-100; 80-140@20-40; 90-120@50-60 back"),
    board("faults in words", faults="a knot near the end"),
    board("a fault without an end", faults="0-60; 840"),
    board("a fault across without an end", faults="840-905@30"),
    board("a fault with a unit", faults="0-60 mm"),
    board("a fault in inches", faults="0-2 1/2"),
    board("a fault with another word", faults="0-60 front"),
    board("faults parted by blanks", faults="0-60 840-905"),
    board("no fault between two semicolons", faults="0-60;; 840-905"),
    board("a hundred and one faults", faults=";".join(f"{n}-{n + 1}" for n in range(0, 202, 2))),
    rack("a fault that cannot be read, in a workbook", zipped(parts_of_a_workbook(a_sheet(TALLY, ("B1", 27, 160, 3000, "0-60; knot")))), file="rack.xlsx"),
    rack("faults wrong in many ways at once", BOARDS + "B1,27,160,3000,,,20,60-0; 2900-3100; knot\nB1,,-160,3000,,,20,\nB3,22,160,3000,,,20,0-50;40-60\n"),
)  # fmt: skip

SENT, ASH = '"sent.csv"', '"Ash"'
OFFERS = (
    offer("an offer of random sizes"),
    offer("an offer of one size", width="150", length="3000", per='"board"'),
    *(offer(f"a price per {per}", per=f'"{per}"') for per in ("M3", "m³", "Board  Foot", "board feet", " m ", "BOARD")),
    offer("an offer that says nothing", **dict.fromkeys(OFFER)),
    *(offer(f"an offer without {key}", **{key: None}) for key in OFFER),
    offer("an offer of negative sizes", thickness="-27", width="[-150, 250]", length="-2400", price="-640"),
    offer("an offer of nothing", thickness="0", width="0", length="[0, 0]", price="0"),
    offer("an offer out of reason", thickness="301", width="[19, 2001]", length="20001", price="1000001"),
    offer("random widths backwards", width="[250, 150]", length='["16 ft", "8 ft"]'),
    offer("random widths of one end", width="[150]", length="[]"),
    offer("random widths of three ends", width="[150, 200, 250]"),
    offer("random widths in words", width='"150-250"', length='"2400 to 4800 mm"'),
    offer("random widths as a table", width="{ least = 150, most = 250 }"),
    offer("an offer in inches", thickness='"1 1/8 in"', width='["6 in", "10 in"]', length='["8 ft", "16 ft"]'),
    offer("an offer in words", thickness='"thick"', price='"dear"', per="7"),
    offer("a price with its mark", price='"£640"'),
    offer("a price for something else", per='"m2"'),
    offer("a name of an offer misspelt", widht="150", witdh="150"),
    offer("a name that belongs elsewhere in an offer", kerf="3", quantity="2"),
    offer("an offer in quarters", thickness='"5/4"', per='"board foot"', tally='"Surface  Measure"'),
    offer("an offer tallied in a way we do not know", per='"board foot"', tally='"log scale"'),
    offer("an offer tallied as for export", per='"board foot"', tally='"Export tally"'),
    offer("a tally of cubic metres", tally='"export"'),
    offer("an offer of a day's thickness", thickness="2026-04-05"),
    offers("two offers of one name", {"name": '"Ash random"'}, {"name": '"ash-random"'}, {"name": '"ASH 2"'}),
    offers("two offers called by their place", {}, {"thickness": "34"}),
    offer("an offer with a blank name", name='" "'),
    toml("an offer that is one table", f"{a_frame_saying()}\n" + an_offer_saying().replace("[[offer]]", "[offer]")),
    toml("offers misspelt", f"{a_frame_saying()}\n" + an_offer_saying().replace("[[offer]]", "[[offers]]")),
    offers("a hundred and one offers", *({"thickness": "27"} for _ in range(101))),
    offer("an offer too thin for the job", thickness="20"),
    offer("an offer too narrow for the job", width="[40, 45]"),
    offer("an offer too short for the shop", length="[200, 290]"),
    offer("a history that is not there", history=SENT),
    offer("a history of a kind that is not read", history='"sent.ods"'),
    offer("a history that is no name", history="7"),
    offer("a history", BOARDS + "B1,27,160,3000,,,20,0-60\nB1,27,180,3000,,,,\n", history=SENT),
    offer("a history of boards thinner than the job", BOARDS + "B1,20,160,3000,,,20,\n", thickness="27", history=SENT),
    offer("a history that is empty", "", history=SENT),
    offer("a history with faults", BOARDS + "B1,27,-160,3000,,,20,60-0; knot\nB2,,160,3000,,,dear,\n", history=SENT),
    offer("one board twice in a history", BOARDS + "B1,27,160,3000,,,20,\nb 1,27,160,3000,,,20,\n", history=SENT),
    offer("a history of another offer", BOARDS + "B1,53,160,3000,,,20,\nB2,27,160,3000,,,20,\nB3,27,400,3000,,,,\n", history=SENT),
    offer("too long a history", BOARDS + "B1,27,160,3000,,,,\n" * 2001, history=SENT),
    offers("one history for two offers, with a fault", {"history": SENT}, {"history": SENT, "price": "700"}, joined=(Source(name="sent.csv", content=f"{BOARDS}B1,27,160,,,,,\n".encode()),)),
    shop("an offer of the workshop", an_offer_saying()),
    shop("an offer of the workshop at fault", an_offer_saying(per='"stere"', thickness="0", history=SENT)),
    offers("an offer of the workshop too thin for the job", workshop=Source(name="workshop.toml", content=f"pinchrod = 1\n{an_offer_saying(thickness='15')}\n".encode())),
    offers("an offer of one name in both", {"name": '"ash"'}, workshop=Source(name="workshop.toml", content=f"pinchrod = 1\n{an_offer_saying(name=ASH)}\n".encode())),
    offers("offers wrong in many ways at once", {"width": "[250, 150]", "per": None}, {"price": "0", "colour": '"brown"'}, {"thickness": "-1"}),
)  # fmt: skip

GROUPS = {
    "offers": OFFERS,
    "files": FILES,
    "tables": TABLES,
    "numbers": NUMBERS,
    "meaning": MEANING,
    "syntax": SYNTAX,
    "workshop": WORKSHOP,
    "hostile": HOSTILE,
    "rack": RACK,
}
