"""The best stick of each length: held to every choice of members, where they are few and where they are many."""

from itertools import accumulate, product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.timber.kernels import FEW, Lengths, Tables, fill

ENDS, LEAST = 2, 9


def tables_for(types: int, top: int) -> Tables:
    rows, cells = 8 * types, top + 1
    none = np.zeros(0, np.int64)
    return Tables(
        item_first=np.array([0, rows]),
        item_count=np.zeros(1, np.int64),
        item_type=np.zeros(rows, np.int64),
        item_times=np.zeros(rows, np.int64),
        take=np.zeros((rows, cells), np.bool_),
        worth=np.full((1, cells), -1),
        filled=np.full((1, cells), -1),
        steps=np.zeros((1, cells), np.int64),
        step_count=np.zeros(1, np.int64),
        density=np.zeros(1),
        band_worth=none,
        state_worth=none,
        once=np.zeros((1, 1), np.int64),
    )


def every_choice(members, top: int, *, padded: bool) -> list[int]:
    """By cell: the most that any choice of members is worth, each as often as it is there."""
    best = [0] * (top + 1)
    for times in product(*(range(left + 1) for _, _, left in members)):
        size = ENDS + sum(number * one[0] for number, one in zip(times, members, strict=True))
        worth = sum(number * one[1] for number, one in zip(times, members, strict=True))
        place = max(size, LEAST) if padded else size
        if place >= LEAST and place <= top:
            best[place] = max(best[place], worth)
    return list(accumulate(best, max))


def chosen(tables: Tables, lengths: Lengths, cell: int) -> tuple[int, np.ndarray]:
    """The members of the stick that the tables say is best: how long it is, and how many of each type."""
    at, counts = int(tables.filled[0, cell]), np.zeros(len(lengths.size), np.int64)
    for item in range(tables.item_count[0] - 1, -1, -1):
        if tables.take[item, at]:
            of, times = tables.item_type[item], tables.item_times[item]
            counts[of] += times
            at -= times * lengths.size[of]
    assert at == ENDS
    return int(tables.filled[0, cell]), counts


def filled(members, top: int, *, padded: bool) -> tuple[Tables, Lengths, np.ndarray]:
    size, values, left = (np.array(column, np.int64) for column in zip(*members, strict=True))
    tables, lengths = tables_for(len(members), top), Lengths(np.array([0, len(members)]), size, ENDS, LEAST)
    fill(lengths, tables, np.array([0]), values, left, top, padded)
    return tables, lengths, values


A_MEMBER = st.tuples(st.integers(1, 30), st.integers(1, 40), st.integers(0, 3))


@pytest.mark.parametrize("padded", [False, True])
@given(members=st.lists(A_MEMBER, min_size=1, max_size=5))
def test_the_best_stick_of_each_length_is_the_best_choice_there_is(padded, members):
    tables, lengths, values = filled(members, 60, padded=padded)

    assert tables.worth[0].tolist() == every_choice(members, 60, padded=padded)
    rises = np.flatnonzero(np.diff(tables.worth[0], prepend=0)).tolist()
    assert tables.steps[0, : tables.step_count[0]].tolist() == rises
    for cell in rises:
        long, counts = chosen(tables, lengths, cell)
        assert long <= cell
        assert (counts <= [left for *_, left in members]).all()
        assert int((counts * values).sum()) == tables.worth[0, cell]


@pytest.mark.parametrize("padded", [False, True])
def test_so_it_is_where_members_are_many(padded):
    members = [(101 + 37 * at + 7 * at**2 % 19, 1000 + 371 * at + 13 * at**2 % 29, 1) for at in range(14)]

    tables, _, _ = filled(members, 5200, padded=padded)

    assert tables.step_count[0] > FEW  # so before the last one too many to go by
    assert tables.worth[0].tolist() == every_choice(members, 5200, padded=padded)
