"""The demo job's sections, out of planed lengths whose prices are not in proportion."""

import os
from functools import cache
from itertools import groupby

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Source, joined_files, read_job
from pinchrod.setting_out import set_out
from pinchrod.timber import Wanted, wanted_of
from pinchrod.timber.one_length import Piece, Question, Stock, cut, first_fit, flaws
from tests.timber.one_length.makers import STOCKS
from tests.whole_shop.demo_job import FOLDER

# The third section and the fourth take half a minute each.
SECTIONS = 4 if os.environ.get("PINCHROD_DEPTH") == "deep" else 2


@cache
def sections() -> tuple[Question, ...]:
    """A question for each section in Saltmarsh Row."""
    main = Source(name="job.toml", content=(FOLDER / "job.toml").read_bytes())
    joined = tuple(Source(name=name, content=(FOLDER / name).read_bytes()) for name in joined_files(main))
    wanted = wanted_of(set_out(*read_job(main, joined)))
    return tuple(_question(list(alike)) for _, alike in groupby(wanted, key=lambda one: one.width))


def _question(wanted: list[Wanted]) -> Question:
    return Question(
        pieces=tuple(Piece(mark=one.marks[0], length=one.length, wanted=len(one.marks)) for one in wanted),
        stocks=tuple(Stock(mark=f"{n}", length=Mm(n), price=Mm(p), trim=Mm(20)) for n, p in STOCKS.items()),
        kerf=Mm(3),
    )


@pytest.mark.parametrize("at", range(SECTIONS))
def test_a_section_of_the_demo_is_bought_in_planed_lengths_at_the_least_cost(at):
    question = sections()[at]

    answer = cut(question)

    assert answer.proven
    assert answer.missing == ()
    assert answer.cost <= first_fit(question).cost
    assert list(flaws(question, answer)) == []
