"""A file as the edge read it, and what kind of file it really is."""

from dataclasses import dataclass
from enum import StrEnum
from hashlib import sha256
from pathlib import PurePath

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.limits import LARGEST_LIST, LARGEST_WORDS, MEGABYTE
from pinchrod.job.said import Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One file: its name as the joiner knows it, and all that is in it.

    `beside` are the files that it names in turn, looked up from its own folder.
    """

    name: str
    content: bytes
    beside: "tuple[Source, ...]" = ()

    @property
    def stem(self) -> str:
        """The file's name without folders and ending."""
        return PurePath(self.name.replace("\\", "/")).stem

    @property
    def ending(self) -> str:
        """The end of the file's name, in small letters: `.toml`."""
        return PurePath(self.name.replace("\\", "/")).suffix.lower()

    @property
    def whole(self) -> Where:
        """The place that means the whole file."""
        return Where(file=self.name)


class Form(StrEnum):
    """How a file says what it says."""

    TOML = "toml"
    CSV = "csv"
    XLSX = "xlsx"


ENDINGS = {".toml": Form.TOML, ".csv": Form.CSV, ".xlsx": Form.XLSX}
LISTS = (Form.CSV, Form.XLSX)

ZIP = b"PK\x03\x04"
OLD_OFFICE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
PICTURES = (b"%PDF", b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"\x7fELF", b"MZ\x90")


def form_of(source: Source, wanted: tuple[Form, ...]) -> Reading[Form | None]:
    """The file's form, if it is one of those wanted and the name and the content agree."""
    form = ENDINGS.get(source.ending)
    problem = _old_office(source) or _other_ending(source, form, wanted)
    if problem is None and form is not None:
        problem = _too_large(source, form) or _other_content(source, form)
    if problem is None:
        return form
    yield problem
    return None


def fingerprint(files: tuple[tuple[str, Source], ...]) -> str:
    """The sha256, in hex, of what was read: each file's part in the job, its form and its content.

    Lengths are framed in, so that no byte can move from one file to the next unseen; names are left out,
    so that a job moved to another folder keeps its fingerprint.
    """
    seal = sha256(b"pinchrod job 1\n")
    for part, source in files:
        seal.update(f"{part} {source.ending} {len(source.content)}\n".encode())
        seal.update(source.content)
    return seal.hexdigest()


def _old_office(source: Source) -> Problem | None:
    if not source.content.startswith(OLD_OFFICE):
        return None
    what = "this is a spreadsheet of the old kind (.xls), or one locked with a password"
    return _of_file(source, "old-spreadsheet", what, "take the password off and save it as .xlsx")


def _other_ending(source: Source, form: Form | None, wanted: tuple[Form, ...]) -> Problem | None:
    if form in wanted:
        return None
    endings = ", ".join(ending for ending, known in ENDINGS.items() if known in wanted)
    name = PurePath(source.name.replace("\\", "/")).name
    what = f"{quoted(name)} does not end as a file does that is read here: {endings}"
    return _of_file(source, "file-kind", what, "save it as such a file")


def _too_large(source: Source, form: Form) -> Problem | None:
    most = LARGEST_WORDS if form is Form.TOML else LARGEST_LIST
    size = len(source.content)
    if size <= most:
        return None
    what = f"the file holds {size} bytes; at most {most} ({most // MEGABYTE} MB) are read"
    return _of_file(source, "file-too-large", what, "split the job, or take out what does not belong there")


def _other_content(source: Source, form: Form) -> Problem | None:
    """What is said of a file whose content is not what its name promises."""
    if not source.content:
        return _of_file(
            source, "empty-file", "the file is empty: 0 bytes", "save it again, or choose another"
        )
    if source.content.startswith(ZIP) != (form is Form.XLSX):
        return _misnamed(source, form)
    if source.content.startswith(PICTURES):
        what = f"the file is named {source.ending} but holds no text"
        return _of_file(source, "not-text", what, "choose the file that was meant")
    return None


def _misnamed(source: Source, form: Form) -> Problem:
    if form is Form.XLSX:
        what = "the file is named .xlsx but is no workbook: it may be a list saved as text (.csv)"
        return _of_file(source, "misnamed", what, "save it as .xlsx, or rename it to end in .csv")
    what = f"the file is named {source.ending} but holds a workbook (.xlsx)"
    return _of_file(source, "misnamed", what, f"rename it to end in .xlsx, or save it as {source.ending}")


def _of_file(source: Source, code: str, what: str, mend: str) -> Problem:
    return Problem(where=source.whole, code=code, what=what, mend=mend)
