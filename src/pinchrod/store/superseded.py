"""Whether a label and the list a tablet works from are of the newest revision of their job."""

from collections.abc import Iterator

from pinchrod.ground import Problem
from pinchrod.store.base import Base, words_of
from pinchrod.store.rolls import Roll
from pinchrod.store.telling import amiss


def check_current(base: Base, mark: str, roll: Roll) -> Iterator[Problem]:
    """What is told of a label of another job or of an older revision, and of an older list of pieces."""
    found = base.rows("SELECT number, mark FROM revisions WHERE job = :job ORDER BY number", job=roll.job)
    if not found:
        yield amiss("job", "job-missing", f"there is no job {roll.job}", "open a job from the list")
        return
    newest, newest_mark = int(found[-1][0]), str(found[-1][1])
    if roll.revision != newest or roll.mark != newest_mark:
        what = f"the list of pieces is of revision {roll.revision}; the job is at revision {newest}"
        yield amiss("job", "list-old", what, "load the page again")
    if mark and mark != newest_mark:
        yield _of_label(base, mark, roll.job, newest, [int(number) for number, each in found if each == mark])


def _of_label(base: Base, mark: str, mine: str, newest: int, numbers: list[int]) -> Problem:
    if numbers:
        what = f"the label is of revision {numbers[-1]}; the job is at revision {newest}"
        mend = "look what has changed on this piece before going on; print its label again"
        return amiss("label", "label-superseded", what, mend, stops=False)
    others = base.rows("SELECT job, name FROM revisions WHERE mark = :mark ORDER BY job", mark=mark)
    if others:
        [job, name] = words_of(others[0], 0, 1)
        what = f"the label is of another job: {name or job}"
        return amiss("label", "label-of-other-job", what, f"open that job, or scan a piece of {mine}")
    what = f"no job here has the content mark {mark}"
    mend = "the label may be another workshop's, or its job was never saved here"
    return amiss("label", "label-unknown", what, mend)
