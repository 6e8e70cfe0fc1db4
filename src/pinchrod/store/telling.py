"""What is not right in a store, said so that somebody can mend it."""

from pinchrod.ground import NotYetRight, Problem, Where


def so_many(jobs: int, events: int) -> str:
    """What a store holds, in words: `1 job, 20 events`."""
    return f"{jobs} job{'' if jobs == 1 else 's'}, {events} event{'' if events == 1 else 's'}"


def amiss(name: str, code: str, what: str, mend: str, *, stops: bool = True) -> Problem:
    """Something wrong or doubtful in what is called by a name: a piece, a job, an event."""
    return Problem(where=Where(name=name), code=code, what=what, mend=mend, stops=stops)


def amiss_in(file: object, code: str, what: str, mend: str, *, stops: bool = True) -> Problem:
    """The same of a file, a folder or a server."""
    return Problem(where=Where(file=str(file)), code=code, what=what, mend=mend, stops=stops)


def refused(file: object, code: str, what: str, mend: str) -> NotYetRight:
    """What is raised where a file, a folder or a server keeps the work from going on."""
    return NotYetRight([amiss_in(file, code, what, mend)])
