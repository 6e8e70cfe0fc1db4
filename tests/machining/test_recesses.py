"""Slots, mortices, holes and hinge seats: every one cut once, where the piece, laid on the bed, brings it."""

import random
from collections import Counter
from collections.abc import Iterator

import pytest
from shapely import Point, affinity
from shapely.geometry import box

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Joint, Machines, Shop, Slotter
from pinchrod.machining import (
    Hand,
    PieceEnd,
    StopSetting,
    Stroke,
    arrange,
    flaws_of_stops,
    notch_question,
    woods_of,
)
from pinchrod.setting_out import Edge, Face, Member, Rods, set_out
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many

LONG_BED = Shop(machines=Machines(slotter=Slotter(reach_left=Mm(2500), reach_right=Mm(2500))))
TOWARDS_TOOL = {"left": -90, "upper": 0, "right": 90, "lower": 180}  # turned so, seen from above
ENDS = {(True, PieceEnd.DATUM): "lower", (True, PieceEnd.FAR): "upper"}
ENDS |= {(False, PieceEnd.DATUM): "left", (False, PieceEnd.FAR): "right"}


def random_rods(joint: Joint, number: int) -> list[Rods]:
    dice = random.Random(f"recesses {joint}")
    found: list[Rods] = []
    while len(found) < so_many(number):
        try:
            found.append(set_out(a_job(a_random_frame(dice), joint=joint), Shop()))
        except NotYetRight:
            continue
    return found


def lying(member: Member, side: Edge | PieceEnd, shape, *, back_up: bool):
    """A shape drawn on the piece's face, as it lies on the bed, the tool beyond it (y grows towards it)."""
    middle = piece(member).centroid
    up = affinity.scale(shape, xfact=-1, origin=middle) if back_up else shape
    towards = str(side) if isinstance(side, Edge) else ENDS[member.upright, side]
    if back_up and towards in ("left", "right"):  # turned over, the left side lies on the right
        towards = "right" if towards == "left" else "left"
    return affinity.rotate(up, TOWARDS_TOOL[towards], origin=middle)


def piece(member: Member):
    """The piece's blank, its tenons too."""
    ends = float(member.datum), float(member.datum + member.length)
    low, high = float(member.across.low), float(member.across.high)
    return box(low, ends[0], high, ends[1]) if member.upright else box(ends[0], low, ends[1], high)


def spot(member: Member, at, across) -> Point:
    along, side = float(member.datum + at), float(member.across.low + across)
    return Point(side, along) if member.upright else Point(along, side)


def brings(member: Member, stroke: Stroke, setting: StopSetting, *, back_up: bool) -> float:
    """How far along the bed, from the piece's left end as it lies, the stop brings the tool."""
    left, _, right, _ = lying(member, stroke.side, piece(member), back_up=back_up).bounds
    distance = float(setting.distance)
    return distance if setting.hand is Hand.LEFT else (right - left) - distance


def wanted_places(member: Member, side: Edge | PieceEnd, *, back_up: bool) -> list[float]:
    """Where along the bed the recesses of a side are wanted, from the piece's left end as it lies."""
    left = lying(member, side, piece(member), back_up=back_up).bounds[0]
    far = [PieceEnd.DATUM, PieceEnd.FAR]
    found = []
    for it in member.fixings:
        its_side = it.edge if it.edge is not None else far[it.at * 2 > member.length]
        if its_side == side and (it.face is Face.BACK) == back_up:
            found.append(lying(member, side, spot(member, it.at, it.across), back_up=back_up).x - left)
    if not back_up:
        seats = (seat for seat in member.hinge_seats if seat.edge == side)
        found += [lying(member, side, spot(member, seat.at, 0), back_up=back_up).x - left for seat in seats]
    return sorted(found)


Way = tuple[str, str, bool]  # piece, side, back up


def cut_places(rods: Rods, joint: Joint) -> dict[Way, list[float]]:
    """Where along the bed every recess is cut."""
    members = {member.name: member for rod in rods.rods for member in rod.members}
    made: dict[Way, list[float]] = {}
    for each in arrange(a_job(joint=joint), LONG_BED, rods).recessing:
        back_up = each.tool.face == "back"
        for setting in each.stops.settings:
            for stroke in setting.strokes:
                at = brings(members[stroke.piece], stroke, setting, back_up=back_up)
                made.setdefault((stroke.piece, str(stroke.side), back_up), []).append(at)
    return made


def ways(rods: Rods) -> Iterator[tuple[Member, Edge | PieceEnd, bool]]:
    for rod in rods.rods:
        for member in rod.members:
            for side in (member.low_edge, member.high_edge, *PieceEnd):
                yield from ((member, side, back_up) for back_up in (False, True))


@pytest.mark.parametrize("joint", list(Joint))
def test_every_recess_is_cut_where_it_is_wanted_by_laying_the_piece_on_the_bed(joint):
    cut = 0
    for rods in random_rods(joint, 12):
        made = cut_places(rods, joint)
        for member, side, back_up in ways(rods):
            found = sorted(made.pop((member.name, str(side), back_up), []))

            assert found == pytest.approx(wanted_places(member, side, back_up=back_up), abs=1e-6)

            cut += len(found)
        assert made == {}
    assert cut > 50 or so_many(12) < 12


def test_every_notch_is_cut_where_it_is_wanted_by_laying_the_piece_on_the_bed():
    for rods in random_rods(Joint.DOVETAIL_KEY, 12):
        members = {member.name: member for rod in rods.rods for member in rod.members}
        for setting in arrange(a_job(), Shop(), rods).notching.settings:
            for stroke in setting.strokes:
                member = members[stroke.piece]
                left = lying(member, stroke.side, piece(member), back_up=False).bounds[0]
                wanted = lying(member, stroke.side, spot(member, stroke.at, 0), back_up=False).x - left

                assert brings(member, stroke, setting, back_up=False) == pytest.approx(wanted, abs=1e-6)


@pytest.mark.parametrize("joint", list(Joint))
def test_recesses_have_as_few_settings_as_the_judge_can_prove(joint):
    layout = a_stack(an_opening("drawer", 140), a_row(an_opening(), an_opening()))
    frames = [a_frame(layout, id=f"K{n}", width=600 + 50 * n, quantity=n) for n in (1, 2, 3)]
    job = a_job(*frames, joint=joint)
    rods = set_out(job, Shop())

    for each in arrange(job, Shop(), rods).recessing:
        strokes = tuple(stroke for setting in each.stops.settings for stroke in setting.strokes)
        question = notch_question((), Shop())  # the slotter's stops reach as far as the notcher's
        asked = type(question)(
            strokes=strokes, reach_left=question.reach_left, reach_right=question.reach_right
        )

        assert list(flaws_of_stops(asked, each.stops)) == []
        assert each.stops.fewest == len(each.stops.settings)


def test_every_copy_of_alike_frames_has_its_recesses():
    job = a_job(a_frame(an_opening("pair"), quantity=3))
    rods = set_out(job, Shop())
    recesses = sum(len(wood.member.fixings) + len(wood.member.hinge_seats) for wood in woods_of(rods))

    made = Counter(
        stroke.piece.partition("/")[2]
        for each in arrange(job, Shop(), rods).recessing
        for setting in each.stops.settings
        for stroke in setting.strokes
    )

    assert made == {"1": recesses, "2": recesses, "3": recesses}
