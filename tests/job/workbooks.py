"""Small workbooks made by hand, so that each can be wrong in its own way."""

from collections.abc import Iterator, Mapping, Sequence
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape, quoteattr
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
DOC = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
HEADER = ("id", "width", "height", "layout")
ROW = ("K1", 600, 720, "drawer 140 over pair")


Cells = Sequence[object]


class Raw(str):
    """A cell's XML as it stands, {at} for its name."""

    __slots__ = ()


def a_sheet(
    *rows: Cells, before: str = "", after: str = "", row_says: Mapping[int, str] | None = None
) -> str:
    """The XML of a sheet; `row_says` are further attributes of a row, by its number."""
    lines = [
        f'<row r="{number}" {(row_says or {}).get(number, "")}>{"".join(_cells(number, row))}</row>'
        for number, row in enumerate(rows, start=1)
    ]
    return f'<worksheet xmlns="{MAIN}">{before}<sheetData>{"".join(lines)}</sheetData>{after}</worksheet>'


def _cells(number: int, row: Cells) -> Iterator[str]:
    for column, value in enumerate(row):
        at = f"{chr(ord('A') + column)}{number}"
        if isinstance(value, Raw):
            yield value.replace("{at}", at)
        elif isinstance(value, str):
            yield f'<c r="{at}" t="inlineStr"><is><t>{escape(value)}</t></is></c>'
        elif value is not None:
            yield f'<c r="{at}"><v>{value}</v></c>'


def parts_of_a_workbook(
    *sheets: str,
    names: Sequence[str] = ("Frames",),
    states: Sequence[str] = (),
    formats: Sequence[str] = (),
    book_says: str = "",
) -> dict[str, str]:
    """The parts of a workbook with these sheets; `formats` are number formats, from style 1 on."""
    states = (*states, *["visible"] * len(sheets))
    listed = "".join(
        f'<sheet name={quoteattr(name)} sheetId="{at}" state="{state}" r:id="r{at}"/>'
        for at, (name, state) in enumerate(zip(names, states, strict=False), start=1)
    )
    codes = "".join(
        f'<numFmt numFmtId="{163 + at}" formatCode={quoteattr(code)}/>' for at, code in enumerate(formats, 1)
    )
    styles = "".join(f'<xf numFmtId="{163 + at}"/>' for at in range(1, len(formats) + 1))
    links = "".join(
        f'<Relationship Id="r{at}" Type="{DOC}/worksheet" Target="worksheets/sheet{at}.xml"/>'
        for at in range(1, len(sheets) + 1)
    )
    return {
        "_rels/.rels": f'<Relationships xmlns="{LINKS}"><Relationship Id="r" Type="{DOC}/officeDocument" '
        'Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{DOC}">{book_says}<sheets>{listed}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{LINKS}">{links}</Relationships>',
        "xl/styles.xml": f'<styleSheet xmlns="{MAIN}"><numFmts>{codes}</numFmts>'
        f'<cellXfs><xf numFmtId="0"/>{styles}</cellXfs></styleSheet>',
        **{f"xl/worksheets/sheet{at}.xml": sheet for at, sheet in enumerate(sheets, start=1)},
    }


def zipped(parts: Any, *, comment: bytes = b"", pack: int = ZIP_DEFLATED) -> bytes:
    """A zip of these parts, the same bytes every time."""
    packed = BytesIO()
    with ZipFile(packed, "w", pack) as zipper:
        for name, content in parts.items() if isinstance(parts, dict) else parts:
            entry = name if isinstance(name, ZipInfo) else ZipInfo(name)
            entry.compress_type = pack
            zipper.writestr(entry, content)
        zipper.comment = comment
    return packed.getvalue()


def a_workbook(*rows: Cells, **said: Any) -> bytes:
    """A workbook with one sheet of these rows below the usual header."""
    sheet_says = {key: said.pop(key) for key in ("before", "after", "row_says") if key in said}
    return zipped(parts_of_a_workbook(a_sheet(HEADER, *rows, **sheet_says), **said))
