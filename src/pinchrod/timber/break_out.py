"""Sticks for all members out of the cheapest boards: every way tried where they are few, else a search."""

from pinchrod.timber.records import Breakout, Effort, Question
from pinchrod.timber.small import every_way, is_small

ORDINARY = Effort()


def break_out(question: Question, effort: Effort = ORDINARY) -> Breakout:
    """Sticks for all members out of the cheapest boards found, with the bound that says how near that is.

    The same question and effort give the same answer on any machine: rounds are counted, not seconds.
    """
    if is_small(question):
        return every_way(question)
    # numba and HiGHS take more than a second to load, and most commands break nothing out
    from pinchrod.timber.search import search  # house: imports_at_the_top it loads numba and HiGHS

    return search(question, effort)
