"""Boards typed on a page, saved as a revision of their job: judged first, each problem at its cell."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import (
    Files,
    RackWords,
    boards_as_said,
    rack_cell_of,
    rack_of,
    read_what_stands,
    with_boards,
)
from pinchrod.store import DraftAt, JobFiles, Revision, files_at
from pinchrod.web.jobs_saving import save_job
from pinchrod.web.known import Known
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit

MOST_NOTE = 400  # letters


@dataclass(frozen=True, slots=True, kw_only=True)
class RackSlip:
    """A problem of a rack that was typed, and the row, from 0, and column of it; -1: of no row."""

    row: int
    column: str
    problem: Problem

    def beside(self, field: str) -> Slip:
        """The same as a page shows it, beside that field."""
        words = f"{self.problem.what}; {self.problem.mend}"
        name = self.problem.where.name
        return Slip(
            words=f"{name}: {words}" if name else words,
            field=field,
            doubt=not self.problem.stops,
            code=self.problem.code,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A job with another rack: its files, and everything wrong or doubtful in them."""

    files: JobFiles
    slips: tuple[RackSlip, ...]

    @property
    def stops(self) -> tuple[RackSlip, ...]:
        """What has to be mended before it is saved."""
        return tuple(slip for slip in self.slips if slip.problem.stops)


def boards_of_job(files: JobFiles) -> RackWords:
    """The boards of a job as they were typed."""
    return boards_as_said(_plain(files))


def judged(files: JobFiles, rack: RackWords) -> Judged:
    """The job with these boards on its rack, read again; NotYetRight if it can have no rack."""
    changed = with_boards(_plain(files), rack)
    new = JobFiles(main=changed.main, joined=changed.joined, workshop=files.workshop)
    _, _, problems = read_what_stands(new.main, new.joined, workshop=new.workshop)
    source = rack_of(changed)
    name = source.name if source is not None else ""
    return Judged(files=new, slips=tuple(_slip(rack, problem, name) for problem in problems))


def saved(visit: Visit, known: Known, made: Judged, note: str, typed: DraftAt | None = None) -> Revision:
    """The new revision of the job; NotYetRight as the store has it."""
    return save_job(visit, known.name, made.files, after=known.number, note=note[:MOST_NOTE], typed=typed)


def rack_changed_since(visit: Visit, known: Known, number: int) -> bool:
    """Whether the rack is another than in that revision, which somebody looked at while typing."""
    if number == known.number:
        return False
    before = files_at(visit.floor.store, known.name, number)
    return boards_of_job(before) != boards_of_job(known.files)


def what_changed(before: RackWords, after: RackWords) -> str:
    """The change in words, for the job's history: `Rack: B73 entered; B7 changed`."""
    old, new = ({board[0]: board for board in rack.boards if any(board)} for rack in (before, after))
    parts = (
        ("entered", [name for name in new if name not in old]),
        ("changed", [name for name in new if name in old and new[name] != old[name]]),
        ("taken out", [name for name in old if name not in new]),
    )
    said = [f"{_listed(names)} {what}" for what, names in parts if names]
    return f"Rack: {'; '.join(said) or 'put in another order'}"


def _listed(names: Iterable[str]) -> str:
    shown = list(names)
    return ", ".join(shown) if len(shown) <= 6 else f"{len(shown)} boards"


def _plain(files: JobFiles) -> Files:
    return Files(main=files.main, joined=files.joined)


def _slip(rack: RackWords, problem: Problem, name: str) -> RackSlip:
    cell = rack_cell_of(rack, problem) if problem.where.file == name else None
    row, column = cell or (-1, "")
    return RackSlip(row=row, column=column, problem=problem)


def why_not(trouble: NotYetRight) -> tuple[Slip, ...]:
    """What the store, or a job that can have no rack, has against it."""
    return tuple(Slip(words=f"{each.what}; {each.mend}", code=each.code) for each in trouble.problems)
