"""The page of a job's words: its files, its revisions, and what was changed from one to another."""

from dataclasses import dataclass

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import Change, changes_between
from pinchrod.store import JobFiles, Revision, files_at, revision_at, revisions
from pinchrod.web.begun import Begun
from pinchrod.web.floor import Floor
from pinchrod.web.trouble import Slip
from pinchrod.web.within import Within, within
from pinchrod.web.words_files import Texts, WordsFile, problems_of, words_files


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A revision with its files."""

    revision: Revision
    files: JobFiles


@dataclass(frozen=True, slots=True, kw_only=True)
class RevisionRow:
    """One revision in the list."""

    number: int
    saved: str
    by: str
    note: str
    mark: str
    newest: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Meanwhile:
    """What somebody else saved while these words were being changed."""

    mine: int
    theirs: int
    by: str
    saved: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsPage:
    """The words of a job, as they are kept or as they were just typed."""

    within: Within
    revision: int  # that the form was made of
    files: tuple[WordsFile, ...]
    revisions: tuple[RevisionRow, ...]
    slips: tuple[Slip, ...] = ()  # that stop it, of all files
    doubts: tuple[Slip, ...] = ()
    note: str = ""
    changes: tuple[Change, ...] | None = None  # of what was typed against what is kept; None: not looked at
    meanwhile: Meanwhile | None = None
    typed: Begun | None = None
    taken_up: bool = False


def kept_at(floor: Floor, job: str, number: int = 0) -> Kept:
    """A revision of a job, the newest unless said otherwise, whether it can be made or not."""
    revision = revision_at(floor.store, job, number)
    return Kept(revision=revision, files=files_at(floor.store, job, revision.number))


def words_page(floor: Floor, kept: Kept, texts: Texts = (), files: JobFiles | None = None) -> WordsPage:
    """The page of a revision; with `files`, what was typed is looked over."""
    problems = _problems_kept(floor, kept) if files is None else problems_of(files)
    told = words_files(kept.files, problems, texts)
    every = tuple(slip for each in told for slip in each.slips)
    return WordsPage(
        within=within(kept.revision, "words"),
        revision=kept.revision.number,
        files=told,
        revisions=rows_of(revisions(floor.store, kept.revision.job)),
        slips=(*(slip for slip in every if not slip.doubt), *_of_no_file(problems, told)),
        doubts=tuple(slip for slip in every if slip.doubt),
    )


def _problems_kept(floor: Floor, kept: Kept) -> tuple[Problem, ...]:
    """What is doubtful in a revision; or wrong, where a job was kept that cannot be made."""
    try:
        return floor.job(kept.revision.job, kept.revision.number).rods.doubts
    except NotYetRight as trouble:
        return trouble.problems


def _of_no_file(problems: tuple[Problem, ...], files: tuple[WordsFile, ...]) -> tuple[Slip, ...]:
    names = {each.name for each in files}
    rest = (each for each in problems if each.stops and each.where.file not in names)
    return tuple(Slip(words=f"{each.what}; {each.mend}", code=each.code) for each in rest)


def rows_of(found: tuple[Revision, ...]) -> tuple[RevisionRow, ...]:
    """The revisions as they are listed, the newest first."""
    return tuple(
        RevisionRow(
            number=each.number,
            saved=saved_at(each),
            by=str(each.by),
            note=each.note,
            mark=each.mark,
            newest=each is found[-1],
        )
        for each in reversed(found)
    )


def saved_at(revision: Revision) -> str:
    """When a revision was saved, as people read it."""
    return f"{revision.at[:16].replace('T', ' ')} UTC"


def meanwhile_of(mine: Kept, theirs: Kept) -> Meanwhile:
    """What was saved between the revision that was looked at and the newest."""
    return Meanwhile(
        mine=mine.revision.number,
        theirs=theirs.revision.number,
        by=str(theirs.revision.by),
        saved=saved_at(theirs.revision),
        changes=changes_between(mine.files.read()[0], theirs.files.read()[0]),
    )
