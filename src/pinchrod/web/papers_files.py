"""A paper as it is sent to a browser: shown in the page's place, or saved under a name of its own."""

from pathlib import PurePosixPath

from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.papers import Paper
from pinchrod.web.answers import Answer, Sent

SHOWN = {".pdf": "application/pdf", ".svg": "image/svg+xml; charset=utf-8"}
SAVED = {
    ".csv": "text/csv; charset=utf-8",
    ".dxf": "image/vnd.dxf",
    ".json": "application/json",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
KINDS = {
    "plan.json": "The plan, for other programs",
    "plan.schema.json": "What stands where in the plan",
    "pack.pdf": "The shop pack: cover, frames, lists, boards, cards, pieces",
    "rods.pdf": "Rods, full size",
    "labels.pdf": "A label for every piece",
    "label-test.pdf": "A test print of the labels",
    "labels-again.pdf": "Labels printed again",
    "cutting-list.csv": "The cutting list",
    "cutting-list.xlsx": "The cutting list, as a workbook",
    "rack-after.csv": "The rack when the job is sawn",
}


def is_shown(name: str) -> bool:
    """Whether a browser shows it, and does not save it."""
    return _ending(name) in SHOWN


def in_words(name: str) -> str:
    """What the paper is."""
    if name.startswith("drawings/"):
        return f"Frame {PurePosixPath(name).stem}, true size"
    return KINDS.get(name, "Part of it, the paper being long")


def sent(paper: Paper, job: str, revision: int) -> Answer:
    """The paper, byte for byte."""
    ending = _ending(paper.name)
    name = f"{job}-{revision}-{PurePosixPath(paper.name).name}"
    if ending in SHOWN:
        return Sent(content=paper.content, media=SHOWN[ending], name=name, shown=True)
    return Sent(content=paper.content, media=SAVED.get(ending, "application/octet-stream"), name=name)


def how_large(paper: Paper) -> str:
    """Its size, as people say it."""
    size = len(paper.content)
    return f"{size / 1_000_000:.1f} MB" if size >= 1_000_000 else f"{max(1, round(size / 1_000)):,} kB"


def missing(name: str) -> NotYetRight:
    """What is told of a paper that is not there."""
    what = f"there is no paper {quoted(name[:80])} here now"
    mend = "open the page Papers, and have the pack made"
    return NotYetRight([Problem(where=Where(name="papers"), code="paper-missing", what=what, mend=mend)])


def _ending(name: str) -> str:
    return PurePosixPath(name).suffix
