"""Cuts across a frame: every opening lies on one each way, and none is found twice."""

from itertools import pairwise

import pytest

from pinchrod.ground import Mm, Span
from pinchrod.papers.frames.sections import along, height_cuts, width_cuts
from tests.builders import a_row, a_stack, an_opening
from tests.papers.frame_builders import DOOR_BESIDE_DRAWERS, DRAWER_OVER_PAIR, a_rod, random_rods


def names(things):
    return [thing.name for thing in things]


def test_a_plain_stack_has_one_cut_each_way():
    rod, _ = a_rod(DRAWER_OVER_PAIR)

    [level], [upright] = width_cuts(rod), height_cuts(rod)

    assert names(level.openings) == names(upright.openings) == ["K1.1", "K1.2"]
    assert names(level.members) == ["K1-LS", "K1-RS"]
    assert names(upright.members) == ["K1-BR", "K1-R1", "K1-TR"]
    assert upright.stops == tuple(map(Mm, (0, 45, 482, 520, 660, 720)))


def test_a_door_beside_drawers_has_two_upright_cuts_and_one_level_one():
    rod, _ = a_rod(DOOR_BESIDE_DRAWERS, width=1200)

    assert [names(cut.openings) for cut in height_cuts(rod)] == [["K1.1"], ["K1.2", "K1.3", "K1.4"]]
    assert [names(cut.members) for cut in width_cuts(rod)] == [["K1-LS", "K1-M1", "K1-RS"]]


def test_a_muntin_in_the_same_place_of_another_row_is_not_counted_in():
    row_of_two, row_of_four = ([an_opening("drawer")] * many for many in (2, 4))
    rod, _ = a_rod(a_stack(a_row(*row_of_two), a_row(*row_of_four)), width=1200)

    low, high = width_cuts(rod)

    assert [cut.members[len(cut.members) // 2].name for cut in (low, high)] == ["K1-M3", "K1-M2"]
    assert (len(low.members), len(high.members)) == (5, 3)


def test_members_in_one_place_of_rows_alike_share_a_cut():
    row = a_row(an_opening("drawer"), an_opening("drawer"))
    rod, _ = a_rod(a_stack(row, row), width=900)

    [cut] = width_cuts(rod)

    assert names(cut.members) == ["K1-LS", "K1-M1", "K1-M2", "K1-RS"]


def test_rails_end_at_the_shoulders_of_their_cut():
    rod, _ = a_rod(DRAWER_OVER_PAIR)

    [level], [upright] = width_cuts(rod), height_cuts(rod)

    assert level.shoulders == tuple(map(Mm, (36, 564)))
    assert upright.shoulders == tuple(map(Mm, (36, 491, 511, 669)))
    assert {member.along for member in rod.members if not member.upright} == {Span(*level.shoulders)}


@pytest.mark.parametrize("seed", range(4))
def test_every_opening_lies_on_a_cut_each_way_and_no_cut_is_part_of_another(seed):
    for rod, _ in random_rods(seed + 20, 15):
        for cuts in (width_cuts(rod), height_cuts(rod)):
            spans = [set(cut.spans) for cut in cuts]
            assert {o.name for cut in cuts for o in cut.openings} == {o.name for o in rod.openings}
            assert not any(one <= other for one in spans for other in spans if one is not other)


@pytest.mark.parametrize("seed", range(4))
def test_a_cut_from_edge_to_edge_of_the_frame_leaves_nothing_out(seed):
    for rod, _ in random_rods(seed + 30, 15):
        for cut in (*width_cuts(rod), *height_cuts(rod)):
            spans = sorted([*cut.spans, *{m.across for m in cut.members}], key=lambda span: span.low)
            assert not any(a.meets(b) for a, b in pairwise(spans))
            assert all(along(opening, cut.axis) in cut.spans for opening in cut.openings)
