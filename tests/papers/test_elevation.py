"""A frame seen from its face: what is drawn lies where the rod says, and lines stop where they should."""

from itertools import pairwise

import pytest

from pinchrod.ground import Mm, area
from pinchrod.job import Bead, Joint, Kind, Side
from pinchrod.papers import Line, Path, Spot
from pinchrod.papers.frames.elevation import LAYERS
from pinchrod.papers.frames.elevation_lines import (
    BARREL,
    bead_insets,
    bead_lines,
    front_lines,
    hinge_box,
    recess_box,
)
from pinchrod.papers.frames.interrupted import interrupted
from pinchrod.papers.marks.boxes import Box, mark_box
from pinchrod.setting_out import Edge, Face
from tests.builders import a_row, a_stack, an_opening
from tests.papers.frame_builders import (
    DOOR_BESIDE_DRAWERS,
    DRAWER_OVER_PAIR,
    a_rod,
    on_layer,
    random_rods,
    seen,
)


def near(a, b, slack=1e-6):
    return abs(a - b) <= slack


def length(line: Line) -> float:
    return abs(line.b.x - line.a.x) + abs(line.b.y - line.a.y)


def bead_length_at(rod, inset):
    """How long the lines at that inset are, all members together."""
    return sum(length(line) for member in rod.members for line in bead_lines(member, (inset,)))


def test_every_member_is_drawn_as_a_closed_outline_of_its_true_area():
    rod, job = a_rod(DOOR_BESIDE_DRAWERS, width=1200, foot=100)

    outlines = on_layer(seen(rod, job).marks, "outline", Path)

    assert len(outlines) == len(rod.members)
    for outline, member in zip(outlines, rod.members, strict=True):
        assert outline.closed
        assert near(_area(outline), float(area(member.outline)))


def _area(path: Path) -> float:
    spots = (*path.points, path.points[0])
    return sum(a.x * b.y - b.x * a.y for a, b in pairwise(spots)) / 2


@pytest.mark.parametrize("inset", [3.0, 7.0, 9.0])
@pytest.mark.parametrize("seed", range(3))
def test_bead_lines_go_round_every_opening_and_close_at_the_mitres(seed, inset):
    for rod, _ in random_rods(seed, 8):
        if not rod.members[0].bead or rod.frame.foot or not rod.frame.bottom_rail:
            continue
        inset = min(inset, float(rod.members[0].bead))

        drawn = bead_length_at(rod, inset)

        around = sum(float(o.x.length + o.y.length) * 2 + 8 * inset for o in rod.openings)
        assert near(drawn, around)


def test_a_bead_line_ends_on_the_mitre_where_its_neighbour_goes_on():
    rod, _ = a_rod(DRAWER_OVER_PAIR)
    rail, stile = rod.member("K1-R1"), rod.member("K1-LS")

    upper = next(line for line in bead_lines(rail, (7.0,)) if line.a.y > 500)
    beside_the_drawer = next(line for line in bead_lines(stile, (7.0,)) if line.a.y > 500)

    assert upper.a == beside_the_drawer.a == Spot(45 - 7, 520 - 7)


def test_the_bead_runs_out_square_where_there_is_no_bottom_rail():
    rod, _ = a_rod(bottom_rail=0)

    [line] = bead_lines(rod.member("K1-LS"), (9.0,))

    assert (line.a, line.b) == (Spot(36, 0), Spot(36, 669))


def test_over_a_foot_the_bead_goes_on_below_the_bottom_rail():
    rod, _ = a_rod(foot=100)

    below, above = bead_lines(rod.member("K1-LS"), (9.0,))

    assert (below.a.y, below.b.y) == (0, 109)
    assert (above.a.y, above.b.y) == (136, 669)


@pytest.mark.parametrize(
    ("quirk", "closest", "insets"),
    [(2, 0, (7, 9)), (2, 3, (9,)), (0, 0, (9,)), (2, 10, ())],
)
def test_lines_of_the_bead_too_close_to_tell_apart_are_left_out(quirk, closest, insets):
    bead = Bead(width=Mm(9), quirk=Mm(quirk))

    assert bead_insets(bead, closest) == insets


def test_a_square_frame_has_no_bead_lines():
    rod, job = a_rod(said={"bead": 0})

    assert not on_layer(seen(rod, job, per=1).marks, "bead", Line)


@pytest.mark.parametrize("joint", list(Joint))
def test_hidden_recesses_lie_in_their_members_and_begin_at_the_joint(joint):
    wide = {"left_stile": 80, "right_stile": 80, "bottom_rail": 80, "muntin": 80}
    rod, _ = a_rod(DOOR_BESIDE_DRAWERS, width=1200, **wide, said={"joint": joint})

    for member in rod.members:
        room = mark_box(Path(tuple(Spot(float(x), float(y)) for x, y in member.outline)))
        for fixing in member.fixings:
            box = recess_box(member, fixing)
            assert room.grown(1e-6).holds(box)
            assert box.right > box.left
            assert box.top > box.bottom


def test_a_mortice_is_as_deep_behind_the_face_as_it_is_cut():
    rod, _ = a_rod(said={"joint": Joint.LOOSE_TENON})
    stile = rod.member("K1-LS")
    mortice = next(fixing for fixing in stile.fixings if fixing.face is Face.EDGE)

    box = recess_box(stile, mortice)

    assert (box.left, box.right) == (11, 36)
    assert near(box.top - box.bottom, float(mortice.long))


def test_two_halves_of_a_key_slot_meet_at_the_shoulder():
    rod, _ = a_rod(DRAWER_OVER_PAIR)
    stile, rail = rod.member("K1-LS"), rod.member("K1-R1")
    in_stile = next(fixing for fixing in stile.fixings if fixing.to == rail.name)
    in_rail = next(fixing for fixing in rail.fixings if fixing.to == stile.name)

    left, right = recess_box(stile, in_stile), recess_box(rail, in_rail)

    assert left.right == right.left == 36
    assert (left.bottom, left.top) == (right.bottom, right.top)


def test_a_hinge_is_shown_on_the_edge_it_is_let_into_as_long_as_it_is():
    rod, job = a_rod()
    stile = rod.member("K1-LS")

    boxes = [mark_box(bar) for bar in on_layer(seen(rod, job).marks, "hinge", Path)]

    assert boxes == [hinge_box(stile, seat) for seat in stile.hinge_seats]
    assert all(near(box.top - box.bottom, 63) for box in boxes)
    assert all((box.left, box.right) == (45 - BARREL / 2, 45 + BARREL / 2) for box in boxes)


@pytest.mark.parametrize(("hung", "apex"), [(Side.LEFT, 47), (Side.RIGHT, 553)])
def test_the_dashed_lines_of_a_door_meet_at_the_side_it_hangs_on(hung, apex):
    rod, _ = a_rod(an_opening("door", hung=hung))

    lines = [mark for mark in front_lines(rod.openings[0], 0.0) if isinstance(mark, Line)]

    assert len(lines) == 2
    assert all(line.pen.dashes for line in lines)
    assert {line.b for line in lines} == {Spot(apex, 352.5)}


def test_fronts_are_drawn_where_their_gap_can_be_seen_and_a_pair_keeps_its_meeting():
    rod, _ = a_rod(an_opening("pair"))

    near_by = [mark for mark in front_lines(rod.openings[0], 0.0) if isinstance(mark, Path)]
    far_off = [mark for mark in front_lines(rod.openings[0], 6.0) if not getattr(mark.pen, "dashes", ())]

    assert [mark_box(leaf).right - mark_box(leaf).left for leaf in near_by] == [251.5, 251.5]
    assert far_off == [Line(Spot(300, 45), Spot(300, 660), layer="front")]


def test_an_open_place_is_crossed_and_a_drawer_and_a_panel_are_not():
    layout = a_row(*[an_opening(kind) for kind in ("open", "drawer", "panel")])
    rod, _ = a_rod(layout, width=1500)

    counts = {o.kind: len(list(front_lines(o, 6.0))) for o in rod.openings}

    assert counts == {Kind.OPEN: 2, Kind.DRAWER: 0, Kind.PANEL: 0}


def test_every_mark_of_an_elevation_is_on_one_of_the_layers_of_its_legend():
    rod, job = a_rod(a_stack(DRAWER_OVER_PAIR, an_opening("open")), height=1400)

    drawn = {mark.layer for mark in seen(rod, job, per=1).marks}

    assert drawn == {layer.name for layer in LAYERS} - {"dimension"}


def test_a_line_is_left_out_only_where_words_stand_on_it():
    line = Line(Spot(0, 5), Spot(100, 5), layer="bead")

    parts = list(interrupted([line], Box(40, 0, 60, 10)))

    assert parts == [
        Line(Spot(0, 5), Spot(40, 5), layer="bead"),
        Line(Spot(60, 5), Spot(100, 5), layer="bead"),
    ]


def test_an_outline_clear_of_the_words_stays_closed():
    square = Path((Spot(0, 0), Spot(9, 0), Spot(9, 9), Spot(0, 9)), layer="front")

    assert list(interrupted([square], Box(2, 2, 7, 7))) == [square]
    assert list(interrupted([square], None)) == [square]


def test_an_outline_that_runs_under_words_becomes_lines():
    square = Path((Spot(0, 0), Spot(9, 0), Spot(9, 9), Spot(0, 9)), layer="front")

    parts = list(interrupted([square], Box(-1, 3, 2, 6)))

    assert all(isinstance(part, Line) for part in parts)
    assert near(sum(length(part) for part in parts if isinstance(part, Line)), 36 - 3)


def test_the_bead_of_a_right_stile_lies_on_its_left_edge():
    rod, _ = a_rod(DRAWER_OVER_PAIR)

    lines = list(bead_lines(rod.member("K1-RS"), (9.0,)))

    assert rod.member("K1-RS").beads == (Edge.LEFT,)
    assert {line.a.x for line in lines} == {555 + 9}
