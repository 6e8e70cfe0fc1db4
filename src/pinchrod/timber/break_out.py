"""Sticks for all members out of the cheapest boards: every way tried where they are few, else a search."""

from pinchrod.ground import Mm
from pinchrod.timber.records import (
    SEARCHES,
    Board,
    Breakout,
    Effort,
    GoesOn,
    Question,
    Wanted,
    always,
    rounds_for,
    searches_for,
)
from pinchrod.timber.small import every_way, is_small

ORDINARY = Effort()


def break_out(question: Question, effort: Effort = ORDINARY, goes_on: GoesOn = always) -> Breakout:
    """Sticks for all members out of the cheapest boards found, with the bound that says how near that is.

    The same question and effort give the same answer on any machine: rounds are counted, not seconds. Only a
    search that is broken off may give another one elsewhere, and its answer says so.
    """
    if is_small(question):
        return every_way(question)
    # numba and HiGHS take more than a second to load, and most commands break nothing out
    from pinchrod.timber.search import search  # house: imports_at_the_top it loads numba and HiGHS

    return search(question, effort, goes_on)


def tries_in(question: Question, effort: Effort = ORDINARY) -> int:
    """About how many tries a whole search has, as its caller is asked before each; 0 where there is none.

    A small job's search has half as many if what it finds is near the bound at once. Members that no board
    has room for are not searched for, and of the others alone there may be more tries.
    """
    if is_small(question):
        return 0
    members = sum(len(wanted.marks) for wanted in question.wanted)
    return searches_for(members) * SEARCHES * effort.tries * rounds_for(members)


def compile_sums() -> None:
    """Have the sums compiled and kept beside the package, by the search of a question of no weight."""
    marks = tuple(f"M{number}" for number in range(8))
    rail = Wanted(marks=marks, width=Mm(45), thickness=Mm(22), length=Mm(600), beads=1)
    boards = tuple(
        Board(name=name, thickness=Mm(27), width=Mm(160), length=Mm(2400), price=Mm(10)) for name in "AB"
    )
    break_out(Question(wanted=(rail,), boards=boards), Effort(passes=1, tries=1))
