"""One frame reckoned by hand on paper: 600 x 720, a drawer 140 high over a pair, everything usual.

Worked out before it was run: sight width 600 - 45 - 45 = 510; the drawer under the top rail from 520 to 660; a
rail 38 from 482 to 520; the pair from 45 to 482, 437 high. Fronts: 510 - 4 = 506 x 136; leaves
(510 - 4 - 3) / 2 = 251.5 x 433. Rails 510 + 18 = 528. Notches: mouth as the member, floor 9 narrower at each bead.
"""

from pinchrod.ground import Mm, Span
from pinchrod.job import Joint, Shop, Side
from pinchrod.setting_out import Edge, Face, Member, Recess, Rod, set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening


def the_rod(**said: object) -> Rod:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")), **said)
    [rod] = set_out(a_job(frame), Shop()).rods
    return rod


def test_the_members_are_named_in_order_and_have_their_lengths() -> None:
    rod = the_rod()

    assert [(m.name, m.length, m.width) for m in rod.members] == [
        ("K1-LS", 720, 45),
        ("K1-RS", 720, 45),
        ("K1-TR", 528, 60),
        ("K1-BR", 528, 45),
        ("K1-R1", 528, 38),
    ]


def test_the_left_stile_has_three_notches_in_its_right_edge() -> None:
    stile = the_rod().member("K1-LS")

    assert stile.beads == (Edge.RIGHT,)
    assert [(n.takes, n.mouth, n.floor, n.depth) for n in stile.notches] == [
        ("K1-BR", Span(Mm(0), Mm(45)), Span(Mm(0), Mm(36)), 9),
        ("K1-R1", Span(Mm(482), Mm(520)), Span(Mm(491), Mm(511)), 9),
        ("K1-TR", Span(Mm(660), Mm(720)), Span(Mm(669), Mm(720)), 9),
    ]


def test_the_middle_rail_is_mitred_at_both_ends_on_both_edges() -> None:
    rail = the_rod().member("K1-R1")

    assert rail.outline == (
        (36, 491),
        (45, 482),
        (555, 482),
        (564, 491),
        (564, 511),
        (555, 520),
        (45, 520),
        (36, 511),
    )


def test_the_left_stile_is_outlined_anticlockwise_with_its_notches() -> None:
    stile = the_rod().member("K1-LS")

    assert set(stile.outline) == {
        (0, 0),
        (36, 0),
        (36, 36),
        (45, 45),
        (45, 482),
        (36, 491),
        (36, 511),
        (45, 520),
        (45, 660),
        (36, 669),
        (36, 720),
        (0, 720),
    }


def test_the_openings_and_fronts_have_their_sizes() -> None:
    drawer, pair = the_rod().openings

    assert (drawer.name, drawer.x, drawer.y) == ("K1.1", Span(Mm(45), Mm(555)), Span(Mm(520), Mm(660)))
    assert [(f.name, f.corner, f.width, f.height, f.hung) for f in drawer.fronts] == [
        ("K1.1", (47, 522), 506, 136, None)
    ]
    assert pair.y == Span(Mm(45), Mm(482))
    assert [(f.name, f.corner, f.width, f.height, f.hung) for f in pair.fronts] == [
        ("K1.2L", (47, 47), Mm("251.5"), 433, Side.LEFT),
        ("K1.2R", (Mm("301.5"), 47), Mm("251.5"), 433, Side.RIGHT),
    ]


def test_a_leaf_hangs_on_two_hinges_let_into_its_stile() -> None:
    rod = the_rod()

    # one hinge of 63 and its half from each end: 94.5, and 433 - 94.5 = 338.5; the leaf stands at 47
    assert rod.fronts[1].hinges == (Mm("94.5"), Mm("338.5"))
    assert [(s.edge, s.at, s.front) for s in rod.member("K1-LS").hinge_seats] == [
        (Edge.RIGHT, Mm("141.5"), "K1.2L"),
        (Edge.RIGHT, Mm("385.5"), "K1.2L"),
    ]
    assert [s.edge for s in rod.member("K1-RS").hinge_seats] == [Edge.LEFT, Edge.LEFT]


def test_on_a_foot_the_bottom_rail_is_beaded_on_both_edges_and_its_notch_has_two_flanks() -> None:
    rod = the_rod(foot=100)
    bottom, stile = rod.member("K1-BR"), rod.member("K1-LS")

    assert bottom.beads == (Edge.LOWER, Edge.UPPER)
    assert (stile.notches[0].mouth, stile.notches[0].floor) == (
        Span(Mm(100), Mm(145)),
        Span(Mm(109), Mm(136)),
    )
    assert stile.length == 720
    assert rod.openings[1].y == Span(Mm(145), Mm(482))


def test_without_a_bottom_rail_the_opening_runs_to_the_foot_of_the_frame() -> None:
    frame = a_frame(a_row(an_opening("open"), an_opening("open")), bottom_rail=0)
    [rod] = set_out(a_job(frame), Shop()).rods
    muntin = rod.member("K1-M1")

    assert [m.name for m in rod.members] == ["K1-LS", "K1-RS", "K1-TR", "K1-M1"]
    assert rod.openings[0].y == Span(Mm(0), Mm(660))
    assert muntin.length == 669
    assert muntin.low_end.meets == ""
    assert {point for point in muntin.outline if point.y == 0} == {(281, 0), (319, 0)}


def test_a_divider_spans_only_its_own_part() -> None:
    frame = a_frame(a_row(an_opening("door"), a_stack(an_opening("drawer"), an_opening("drawer"))))
    [rod] = set_out(a_job(frame), Shop()).rods
    muntin, rail = rod.member("K1-M1"), rod.member("K1-R1")

    assert (muntin.low_end.meets, muntin.high_end.meets) == ("K1-BR", "K1-TR")
    assert (rail.low_end.meets, rail.high_end.meets) == ("K1-M1", "K1-RS")
    assert [n.takes for n in muntin.notches] == ["K1-R1"]


def test_a_divider_of_its_own_width_is_as_wide_as_said() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening(), rails=(80,)))
    [rod] = set_out(a_job(frame), Shop()).rods

    assert rod.member("K1-R1").width == 80
    assert rod.openings[1].y.high == 660 - 140 - 80


def test_square_members_have_no_beads_notches_or_mitres() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")))
    [rod] = set_out(a_job(frame, bead=0), Shop()).rods

    assert all(m.beads == () and m.notches == () and len(m.outline) == 4 for m in rod.members)
    assert rod.member("K1-R1").length == 510
    assert rod.openings[0].fronts[0].width == 506


def recesses(member: Member) -> list[tuple[Recess, Face, Mm, Mm]]:
    return [(f.recess, f.face, f.at, f.across) for f in member.fixings]


def rod_with(joint: Joint) -> Rod:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")))
    [rod] = set_out(a_job(frame, joint=joint), Shop()).rods
    return rod


def test_a_dovetail_key_has_half_its_slot_in_the_back_of_each_piece() -> None:
    rod = rod_with(Joint.DOVETAIL_KEY)

    # the joint lies 9 in from the stile's edge, at 36; a slot reaches 8 from it, so its middle is at 32 and at 4
    assert recesses(rod.member("K1-R1")) == [
        (Recess.KEY_SLOT, Face.BACK, Mm(4), Mm(19)),
        (Recess.KEY_SLOT, Face.BACK, Mm(524), Mm(19)),
    ]
    assert (Recess.KEY_SLOT, Face.BACK, Mm(501), Mm(32)) in recesses(rod.member("K1-LS"))
    assert (Recess.KEY_SLOT, Face.BACK, Mm(501), Mm(13)) in recesses(rod.member("K1-RS"))


def test_a_member_wider_than_sixty_has_two_keys_at_the_quarter_points() -> None:
    frame = a_frame(top_rail=69)
    [rod] = set_out(a_job(frame), Shop()).rods

    # floor from 660 to 720, 60 wide: its quarter points are 15 from each end
    slots = [fixing.at for fixing in rod.member("K1-LS").fixings if fixing.to == "K1-TR"]
    assert slots == [675, 705]


def test_loose_tenons_have_a_mortice_in_the_end_and_one_in_the_edge() -> None:
    rod = rod_with(Joint.LOOSE_TENON)
    end = rod.member("K1-TR").fixings[0]
    edge = next(f for f in rod.member("K1-LS").fixings if f.to == "K1-TR")

    # the floor is 51 wide: with 5 of wood at each side the tenon is 41, and it stands in the middle, at 694.5
    assert (end.face, end.at, end.across, end.long, end.wide, end.deep) == (
        Face.END,
        0,
        Mm("34.5"),
        41,
        10,
        25,
    )
    assert (edge.face, edge.at, edge.across, edge.long) == (Face.EDGE, Mm("694.5"), 36, 41)


def test_dowels_stand_near_the_third_points_half_in_each_piece() -> None:
    rod = rod_with(Joint.DOWEL)
    holes = [f for f in rod.member("K1-LS").fixings if f.to == "K1-R1"]

    # thirds of 482 to 520 lie at 494.7 and 507.3; the floor runs from 491 to 511, and a hole of 8 keeps 1 of wood
    # beside it: 496 and 506
    assert [hole.at for hole in holes] == [496, 506]
    assert {(hole.long, hole.deep) for hole in holes} == {(Mm(8), Mm(20))}


def test_a_worked_tenon_is_counted_in_the_length_and_has_a_mortice_in_the_other() -> None:
    rod = rod_with(Joint.MORTICE_AND_TENON)
    rail, stile = rod.member("K1-R1"), rod.member("K1-LS")
    mortice = next(f for f in stile.fixings if f.to == "K1-R1")

    assert rail.length == 528 + 80
    assert (rail.low_end.tenon, rail.high_end.tenon) == (40, 40)
    assert rail.corner == (36, 482)
    assert rail.datum == -4
    assert rail.outline[0] == (36, 491)
    assert rail.fixings == ()
    assert (mortice.at, mortice.long, mortice.wide, mortice.deep) == (501, 20, Mm(22) / 3, 40)


def test_at_a_frame_s_corner_the_mortice_is_closed_by_a_haunch() -> None:
    rod = rod_with(Joint.MORTICE_AND_TENON)
    top, bottom = (
        next(f for f in rod.member("K1-LS").fixings if f.to == name) for name in ("K1-TR", "K1-BR")
    )

    # floors 669-720 and 0-36, a third of each left at the frame's corner
    assert (top.at - top.long / 2, top.at + top.long / 2) == (669, 703)
    assert (bottom.at - bottom.long / 2, bottom.at + bottom.long / 2) == (12, 36)


def test_pocket_screws_are_bored_only_in_the_arriving_piece() -> None:
    rod = rod_with(Joint.POCKET_SCREW)

    assert rod.member("K1-LS").fixings == ()
    assert recesses(rod.member("K1-R1"))[0] == (Recess.POCKET, Face.BACK, Mm(38), Mm(14))


def test_a_muntin_with_tenons_counts_its_places_from_the_tenon_s_end() -> None:
    frame = a_frame(a_row(an_opening("door"), a_stack(an_opening(), an_opening())))
    [rod] = set_out(a_job(frame, joint=Joint.MORTICE_AND_TENON), Shop()).rods
    muntin, rail = rod.member("K1-M1"), rod.member("K1-R1")
    mortice = next(f for f in muntin.fixings if f.to == "K1-R1")

    assert muntin.datum == 36 - 40
    assert mortice.at == rail.across.middle - muntin.datum
