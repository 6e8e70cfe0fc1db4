"""Strokes of the knife: together they cut the notch, no more and no less, and as few as can be."""

import random
from itertools import pairwise
from math import ceil

import pytest
import shapely
from shapely.geometry import Polygon

from pinchrod.ground import Mm, NotYetRight, Span
from pinchrod.job import Joint, Machines, Notcher, Shop
from pinchrod.machining import Stroke, flaws_of_strokes, notch_strokes, woods_of
from pinchrod.machining.strokes import centres
from pinchrod.setting_out import Edge, Member, Notch, Rods, set_out
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many

DRAWER_OVER_PAIR = a_stack(an_opening("drawer", 140), an_opening("pair"))


def rods_of(*frames, bead: object = 9, flat: object = 20) -> Rods:
    shop = Shop(machines=Machines(notcher=Notcher(flat=Mm(str(flat)))))
    return set_out(a_job(*frames, bead=bead), shop)


def a_notch(low: object, high: object, *, depth: int = 9, low_end: bool = False, high_end: bool = False):
    """A notch by its floor; at a piece's end the flank on that side is missing."""
    floor = Span(Mm(str(low)), Mm(str(high)))
    mouth = Span(floor.low - (0 if low_end else depth), floor.high + (0 if high_end else depth))
    return Notch(edge=Edge.RIGHT, mouth=mouth, floor=floor, depth=Mm(depth), takes="K1-R1")


@pytest.mark.parametrize(
    ("notch", "strokes"),
    [
        (a_notch(491, 511), [501]),  # as wide as the flat: one
        (a_notch(491, "511.1"), [501, "501.1"]),  # a hair wider: two
        (a_notch(100, 140), [110, 130]),
        (a_notch(100, 142), [110, 121, 132]),  # equal steps
        (a_notch(669, 720, high_end=True), [679, "694.5", 710]),  # the last flush with the end
        (a_notch(0, 36, low_end=True), [10, 26]),
        (a_notch(709, 720, high_end=True), [719]),  # narrower than the flat: against its flank
        (a_notch(0, 11, low_end=True), [1]),
        (a_notch(715, 720, high_end=True), [725]),
    ],
)
def test_a_notch_takes_the_strokes_that_the_rule_says(notch, strokes):
    assert centres(notch, Mm(20)) == tuple(Mm(str(at)) for at in strokes)


def test_strokes_are_counted_from_the_datum_end_edge_by_edge():
    rods = rods_of(a_frame(DRAWER_OVER_PAIR))

    strokes = list(notch_strokes(woods_of(rods), Mm(20)))

    left = [(str(s.side), s.at) for s in strokes if s.piece == "K1-LS"]
    assert left == [
        ("right", 10),
        ("right", 26),
        ("right", 501),
        ("right", 679),
        ("right", 694.5),
        ("right", 710),
    ]


def test_tenons_count_in_what_is_measured_from_the_datum_end():
    two_doors = a_row(an_opening(), an_opening())
    job = a_job(a_frame(a_stack(two_doors, an_opening("drawer", 140))), joint=Joint.MORTICE_AND_TENON)

    strokes = list(notch_strokes(woods_of(set_out(job, Shop())), Mm(20)))

    rail = [(s.side, s.at, s.length) for s in strokes if s.piece == "K1-R1"]
    assert rail == [(Edge.UPPER, 304, 608)]  # the muntin stands in the middle of 510 + 2 x 9 + 2 x 40


def test_every_copy_of_alike_frames_is_cut():
    rods = rods_of(a_frame(DRAWER_OVER_PAIR, id="K13", quantity=2))

    strokes = list(notch_strokes(woods_of(rods), Mm(20)))

    assert len(strokes) == 24
    assert {s.piece for s in strokes} == {"K13-LS/1", "K13-LS/2", "K13-RS/1", "K13-RS/2"}


def test_square_frames_have_no_strokes():
    assert list(notch_strokes(woods_of(rods_of(a_frame(), bead=0)), Mm(20))) == []


def a_blank(member: Member) -> Polygon:
    """The piece before any notch, mitres cut, along its length from the datum: by an outline with none."""
    plain = type(member)(**{name: getattr(member, name) for name in type(member).__slots__} | {"notches": ()})
    return Polygon([(float(p.x), float(p.y)) for p in plain.outline])


def knife(member: Member, stroke: Stroke, flat: float, depth: float) -> Polygon:
    """What one stroke takes: the flat at the notch's depth, its flanks running out at 45 degrees."""
    middle = float(stroke.at + member.datum)
    low, high = float(member.across.low), float(member.across.high)
    edge, inward = (low, 1) if str(stroke.side) in ("left", "lower") else (high, -1)
    beyond = 50.0  # well outside the piece
    profile = [
        (middle - flat / 2 - depth - beyond, edge - inward * beyond),
        (middle - flat / 2, edge + inward * depth),
        (middle + flat / 2, edge + inward * depth),
        (middle + flat / 2 + depth + beyond, edge - inward * beyond),
    ]
    return Polygon([(side, along) for along, side in profile] if member.upright else profile)


@pytest.mark.parametrize(("bead", "flat"), [(9, 20), (6.5, 12.7), (9, 5)])
def test_the_knife_cuts_exactly_the_notches_by_another_library(bead, flat):
    dice = random.Random(f"knife {bead} {flat}")
    tried = 0
    while tried < so_many(60):
        try:
            rods = rods_of(a_random_frame(dice), bead=bead, flat=flat)
        except NotYetRight:
            continue
        tried += 1
        strokes = list(notch_strokes(woods_of(rods), Mm(str(flat))))
        members = [wood.member for wood in woods_of(rods)]
        assert list(flaws_of_strokes(members, strokes, Mm(str(flat)))) == []
        for member in members:
            taken = [knife(member, s, flat, bead) for s in strokes if s.piece == member.name]
            left = a_blank(member).difference(shapely.union_all(taken))
            wanted = Polygon([(float(p.x), float(p.y)) for p in member.outline])
            assert left.symmetric_difference(wanted).area < 1e-6


def test_no_fewer_strokes_would_cover_any_floor():
    dice = random.Random(5)
    for _ in range(so_many(500)):
        low, width = Mm(dice.randrange(9000), 7), 20 + Mm(dice.randrange(900), 7)

        cut = centres(a_notch(low, low + width), Mm(20))

        assert len(cut) == ceil(width / 20)
        assert (cut[0] - 10, cut[-1] + 10) == (low, low + width)
        assert len({b - a for a, b in pairwise(cut)}) <= 1


@pytest.mark.parametrize(
    ("shift", "said"),
    [(Mm(1), "cuts beyond"), (Mm(-1), "cuts beyond"), (Mm(100), "meets no notch")],
)
def test_the_judge_of_strokes_sees_one_out_of_place(shift, said):
    rods = rods_of(a_frame(DRAWER_OVER_PAIR))
    members = [wood.member for wood in woods_of(rods)]
    good = list(notch_strokes(woods_of(rods), Mm(20)))
    moved = next(s for s in good if s.piece == "K1-LS" and s.at == 501)
    bad = Stroke(
        piece="K1-LS", side=Edge.RIGHT, at=moved.at + shift, length=moved.length, from_left=moved.from_left
    )

    found = " ".join(flaws_of_strokes(members, [bad if s is moved else s for s in good], Mm(20)))

    assert said in found
    assert "wood is left" in found


def test_the_judge_of_strokes_sees_one_missing():
    rods = rods_of(a_frame(DRAWER_OVER_PAIR))
    members = [wood.member for wood in woods_of(rods)]
    good = list(notch_strokes(woods_of(rods), Mm(20)))

    for missing in good:
        found = list(flaws_of_strokes(members, [s for s in good if s is not missing], Mm(20)))

        assert any("wood is left" in flaw for flaw in found)
