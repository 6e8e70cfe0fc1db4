"""What is shown when something is not right: problems in the joiner's words, or that the fault is ours."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import Problem
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.roles import Role
from pinchrod.web.visit import Visit

NOT_THERE = frozenset(
    {"job-missing", "revision-missing", "paper-missing", "board-missing", "stick-missing", "no-such-frame"}
)
OVERTAKEN = frozenset({"revision-overtaken", "job-exists", "key-used"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A problem as a page shows it: what it says, and the field that it is about, if there is one."""

    words: str
    field: str = ""
    place: str = ""  # the file and line, or the cell
    doubt: bool = False
    code: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TroublePage:
    """A page that says what is not right."""

    title: str
    slips: tuple[Slip, ...]
    words: str = ""
    back: str = "/"


def slips_of(problems: Iterable[Problem], field: str = "") -> tuple[Slip, ...]:
    """Problems as a page shows them, all of one field unless the page knows better."""
    return tuple(
        Slip(
            words=": ".join(part for part in (each.where.name, f"{each.what}; {each.mend}") if part),
            field=field,
            place=str(each.where),
            doubt=not each.stops,
            code=each.code,
        )
        for each in problems
    )


def trouble_page(visit: Visit, problems: tuple[Problem, ...]) -> Page:
    """The page of an action that could not be done, where it has none of its own."""
    codes = {problem.code for problem in problems}
    status = 404 if codes & NOT_THERE else 409 if codes & OVERTAKEN else 422
    title = "Not there" if status == 404 else "There is a problem"
    page = TroublePage(title=title, slips=slips_of(problems), back=_back(visit))
    return Page(template="trouble.html", page=page, status=status)


MISSING = "Nothing is at this address. It may have been mistyped, or be of a program of another age."
NOT_TAKEN = {
    400: "What came was no form of these pages, or one with more fields or files than any of them has."
    " Nothing was changed.",
    405: "Nothing is sent to this address: it is only looked at. Nothing was changed.",
}


def not_taken(visit: Visit, status: int) -> Page:
    """The page of an address that leads nowhere, or of something sent that no page sends."""
    title = "Not taken" if status in NOT_TAKEN else "Not there"
    page = TroublePage(title=title, slips=(), words=NOT_TAKEN.get(status, MISSING), back=_back(visit))
    return Page(template="trouble.html", page=page, status=status)


def not_yours(visit: Visit) -> Answer:
    """A stranger is led to the door; a tablet is told that this is done in the office."""
    if visit.role is Role.NOBODY:
        return Go(to="/enter")
    words = "This is done on the office computer. Nothing was changed."
    page = TroublePage(title="For the office", slips=(), words=words, back=_back(visit))
    return Page(template="trouble.html", page=page, status=403)


def fault_page(visit: Visit, number: str) -> Page:
    """The page of a fault of ours: what happened to the work, and what to do."""
    words = (
        "The fault is the program's, not yours. What was saved before is safe; what was just sent was not"
        " done. Go back and try once more. If it happens again, send us the log that serve writes:"
        f" it is fault {number}."
    )
    page = TroublePage(title="This did not work", slips=(), words=words, back=_back(visit))
    return Page(template="trouble.html", page=page, status=500)


def _back(visit: Visit) -> str:
    """Where one may go on: the job, if there is one in the address."""
    job = dict(visit.places).get("job")
    return f"/jobs/{job}" if job else "/"
