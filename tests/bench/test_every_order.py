"""Where no order is found there is none: every way of parting small frames is tried, their faces moved by Shapely."""

import os
import random
from itertools import combinations

import pytest

from pinchrod.bench import Direction, order_bench_work
from pinchrod.job import Joint, Shop
from pinchrod.setting_out import Rods
from tests.bench.hand_made import a_hand_made_rod, a_random_hand_made
from tests.bench.moving import TOUCHING, face, wood_in_the_way
from tests.builders import a_job, so_many

DEEP = os.environ.get("PINCHROD_DEPTH") == "deep"


class Loose:
    """A frame's members, and what is known of each two of them."""

    def __init__(self, rod, *, straight_in):
        self.faces = {member.name: face(member) for member in rod.members}
        self.straight_in = straight_in
        self.closes_level = {
            frozenset((member.name, end.meets)): not member.upright
            for member in rod.members
            for end in (member.low_end, member.high_end)
            if end.meets
        }
        self.tried = {}

    def goes_together(self):
        """Whether any order at all makes the frame, one lot brought to another, each lot held by its joints."""
        return self.can_be_made(frozenset(self.faces))

    def can_be_made(self, lot):
        if lot not in self.tried:
            self.tried[lot] = len(lot) == 1 or any(
                self.slides(part, lot - part) and self.can_be_made(part) and self.can_be_made(lot - part)
                for part in parts_of(lot)
                if self.held(part) and self.held(lot - part)
            )
        return self.tried[lot]

    def slides(self, part, onto):
        return any(all(self.passes(one, by, way) for one in part for by in onto) for way in Direction)

    def passes(self, one, by, way):
        key = one, by, way
        if key not in self.tried:
            closes = (
                not self.straight_in or self.closes_level.get(frozenset((one, by)), way.level) == way.level
            )
            self.tried[key] = closes and wood_in_the_way([self.faces[one]], [self.faces[by]], way) < TOUCHING
        return self.tried[key]

    def held(self, lot):
        reached, fresh = set(), {min(lot)}
        while fresh:
            reached |= fresh
            fresh = {name for name in lot - reached if any(self.joined(name, by) for by in reached)}
        return reached == lot

    def joined(self, one, by):
        return frozenset((one, by)) in self.closes_level


def parts_of(lot):
    """Every part of a lot that leaves its first member behind."""
    _, *others = sorted(lot)
    for number in range(1, len(others) + 1):
        yield from (frozenset(part) for part in combinations(others, number))


def some_frames(number, most, windmills, seed):
    dice = random.Random(seed)
    return [
        a_hand_made_rod(a_random_hand_made(dice, most=most, windmills=windmills), dice.choice([0, 9]))
        for _ in range(number)
    ]


@pytest.mark.parametrize("joint", [Joint.DOWEL, Joint.DOVETAIL_KEY])
def test_an_order_is_found_just_where_trying_every_parting_finds_one(joint):
    frames = [
        *some_frames(300 if DEEP else so_many(20), 9, 0.3, 41),
        *some_frames(200 if DEEP else so_many(10), 13, 0.9, 42),
    ]
    wrong = []
    for rod in frames:
        found = not order_bench_work(a_job(), Shop(), Rods(rods=(rod,), joint=joint)).doubts
        ways = (True, False) if joint is Joint.DOVETAIL_KEY else (True,)
        there = any(Loose(rod, straight_in=straight_in).goes_together() for straight_in in ways)
        if found != there:
            wrong.append((found, [(m.name, m.along, m.across) for m in rod.members]))

    assert wrong == []


def test_among_those_frames_there_are_some_that_no_order_closes():
    frames = some_frames(200 if DEEP else so_many(10), 13, 0.9, 42)
    orders = [
        bool(order_bench_work(a_job(), Shop(), Rods(rods=(rod,), joint=Joint.DOWEL)).doubts) for rod in frames
    ]

    assert any(orders) or len(frames) < 10
    assert not all(orders)
