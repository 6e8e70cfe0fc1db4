"""What a scan asks for: the code that came, and what is to be said of its piece."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.store import SHAPING, Deed
from pinchrod.web.visit import Visit

MOST_SAID = 20_000  # bytes of a scan with all that is told of it
FIELDS = ("key", "code", "deed", "job", "reason", "spot", "undoes", "touch", "back", "lot", "all")
SAYABLE = (*SHAPING, Deed.GLUED, Deed.DELIVERED, Deed.SPOILED, Deed.MADE_AGAIN, Deed.UNDONE)
WHOLE_FRAME = (Deed.GLUED, Deed.DELIVERED)
"""What is said of a piece is said of its whole frame: nobody glues or delivers half of one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One scan, or one touch on a piece's page."""

    code: str
    deed: Deed | None = None  # None: the piece is looked at, and nothing said
    job: str = ""
    reason: str = ""
    spot: str = ""
    undoes: int = 0  # the event that is taken back, of this piece
    touch: str = ""  # the touch that is taken back, whatever it said
    despite: tuple[str, ...] = ()
    back: str = ""


def asked_in(visit: Visit) -> Asked:
    """What a form, or the script of a page, asks."""
    deed = visit.said("deed")
    if deed and deed not in SAYABLE:
        raise _amiss(
            "scan-form", "what is to be said of the piece is none of the steps", "choose one of those shown"
        )
    undoes = visit.said("undoes")
    return Asked(
        code=visit.said("code"),
        deed=Deed(deed) if deed else None,
        job=visit.said("job"),
        reason=" ".join((visit.said("reason"), visit.said("more"))).strip(),
        spot=visit.said("spot").strip(),
        undoes=int(undoes) if undoes.isascii() and undoes.isdigit() and len(undoes) < len(str(10**12)) else 0,
        touch=visit.said("touch"),
        despite=visit.all_said("despite"),
        back=visit.said("back"),
    )


def as_form(visit: Visit) -> Visit:
    """A request in JSON as if its fields had come in a form."""
    return replace(visit, form=tuple(_fields(_read(visit.body))))


def _read(body: bytes) -> Mapping[str, object]:
    if len(body) > MOST_SAID:
        what = f"{len(body):,} letters came at once; a scan has fewer than 200"
        raise _amiss("scan-too-long", what, "clear the field, then scan one label")
    try:
        said = json.loads(body)
    except (ValueError, RecursionError):
        said = None
    if not isinstance(said, dict):
        raise _amiss("scan-form", "what came is no scan of these pages", "load the page again")
    return said


def _fields(said: Mapping[str, object]) -> Iterator[tuple[str, str]]:
    for name in FIELDS:
        value = said.get(name, "")
        if not isinstance(value, str):
            raise _amiss("scan-form", f"{name} is no text", "load the page again")
        yield name, value
    despite = said.get("despite", [])
    if not isinstance(despite, list) or not all(isinstance(code, str) for code in despite):
        raise _amiss("scan-form", "despite is no list of codes", "load the page again")
    yield from (("despite", str(code)) for code in despite)


def _amiss(code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(name="scan"), code=code, what=what, mend=mend)])
