"""One frame of a job read by itself while it is being typed: nothing else of the job is read anew."""

from dataclasses import dataclass, replace

from pinchrod.ground import Problem, Where
from pinchrod.job.editing.as_said import Words
from pinchrod.job.frames import NEEDED, Members, read_frame
from pinchrod.job.job_file import KNOWN, read_head
from pinchrod.job.keys import unknown_names
from pinchrod.job.reading import job_said
from pinchrod.job.records import Frame
from pinchrod.job.said import NOTHING, Said, Table, gathered
from pinchrod.job.source import Source


@dataclass(frozen=True, slots=True, kw_only=True)
class OneFrame:
    """A frame read by itself, and what is wrong or doubtful in it, each at the name it is of."""

    frame: Frame | None
    problems: tuple[Problem, ...]


def usual_members(main: Source) -> Members:
    """The face widths that stand in a job's frames where they say nothing else."""
    said, _ = gathered(job_said(main))
    head, _ = gathered(read_head(said or NOTHING, main.stem))
    return head.members


def one_frame(usual: Members, words: Words, *, decimal_comma: bool = False) -> OneFrame:
    """The frame that says these words in a job with those usual members, or why it is none.

    What is left blank is as usual in the job. A problem's place is the frame's, its cell the name under
    which the words stand that it is about; what the whole frame is at fault for has none.
    """
    row = _row(words, decimal_comma=decimal_comma)
    place = _said("", Where())
    _, unknown = gathered(unknown_names(row, "[frame]", KNOWN))
    frame, problems = gathered(read_frame(place, row, usual))
    problems = (*unknown, *(_at_its_name(problem) for problem in problems))
    sound = frame is not None and not any(problem.stops for problem in problems)
    return OneFrame(
        frame=replace(frame, where=Where(name=frame.id)) if frame is not None and sound else None,
        problems=problems,
    )


def _at_its_name(problem: Problem) -> Problem:
    """What was left out is told of the whole frame; here it is wanted at the name that was left blank."""
    if problem.code != "missing":
        return problem
    key = next((key for key in NEEDED if key in problem.what.split()), "")
    return replace(problem, where=replace(problem.where, cell=key))


def _row(words: Words, *, decimal_comma: bool) -> Table:
    """The words as if each were the cell of a list, the cell called by its name."""
    return Table(
        {
            key: replace(_said(word, Where(cell=key)), decimal_comma=decimal_comma)
            for key, word in words
            if word.strip()
        }
    )


def _said(word: str, at: Where) -> Said:
    return Said(value=word, at=at, key_at=at, words_at=at, typed=word)
