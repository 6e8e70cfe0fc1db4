"""Doors and drawer fronts: gaps, hands, hinges and the parts of a five-piece door."""

from typing import Any

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Hinges, HingeStep, Kind, Layout, Shop, Side
from pinchrod.setting_out import DoorPartRole, Front, door_weight, set_out
from pinchrod.setting_out.fronts import hinge_centres
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening, five_pieces


def fronts(layout: Layout, **said: Any) -> tuple[Front, ...]:
    [rod] = set_out(a_job(a_frame(layout, width=1800, height=1400), **said), Shop()).rods
    return rod.fronts


DOOR = an_opening("door")


@pytest.mark.parametrize(
    ("layout", "hands"),
    [
        (DOOR, "L"),
        (an_opening("door", hung=Side.RIGHT), "R"),
        (a_row(DOOR, DOOR), "LR"),
        (a_row(DOOR, DOOR, DOOR), "LLR"),
        (a_row(an_opening("panel"), DOOR), "L"),
        (a_row(DOOR, an_opening("open"), DOOR), "LR"),
        (a_row(DOOR, an_opening("door", hung=Side.LEFT)), "LL"),
        (a_row(a_stack(DOOR, DOOR), a_stack(DOOR, DOOR)), "LLRR"),
        (a_row(DOOR, an_opening("open")), "L"),
        (a_stack(DOOR, DOOR), "LL"),
        (a_stack(a_row(DOOR, DOOR), DOOR), "LRL"),
        (an_opening("pair"), "LR"),
    ],
)
def test_doors_hang_as_said_and_else_left_or_on_the_outer_stiles(layout: Layout, hands: str) -> None:
    assert "".join("L" if front.hung is Side.LEFT else "R" for front in fronts(layout)) == hands


def test_a_panel_and_an_open_place_have_no_front() -> None:
    assert fronts(a_row(an_opening("panel"), an_opening("open"))) == ()


def test_a_drawer_front_has_no_hinges() -> None:
    [front] = fronts(an_opening("drawer"))

    assert (front.kind, front.hung, front.hinges) == (Kind.DRAWER, None, ())


def test_an_inner_door_of_a_row_hangs_on_its_muntin() -> None:
    [rod] = set_out(a_job(a_frame(a_row(an_opening("open"), DOOR), width=1200)), Shop()).rods

    assert rod.member("K1-M1").hinge_seats[0].front == "K1.2"
    assert rod.member("K1-LS").hinge_seats == ()


def test_hinge_seats_and_a_door_s_own_hinges_stand_at_the_same_height() -> None:
    [rod] = set_out(a_job(a_frame(a_row(DOOR, DOOR), width=1200, foot=100)), Shop()).rods
    front, stile = rod.fronts[0], rod.member("K1-LS")

    assert [seat.at + stile.datum for seat in stile.hinge_seats] == [front.corner.y + h for h in front.hinges]


@pytest.mark.parametrize(
    ("height", "number"), [(1016, 2), (Mm("1016.1"), 3), (1524, 3), (1525, 4), (2032, 4), (2159, 5)]
)
def test_hinges_are_counted_by_height(height: object, number: int) -> None:
    # 40, 60, 80 and 85 in, from a home-improvement page; narrow doors, so that weight does not decide
    layout = a_row(an_opening("door", 100), an_opening("open"))
    high = Mm(str(height)) + 4 + 60 + 45
    [rod] = set_out(a_job(a_frame(layout, height=high)), Shop()).rods

    assert len(rod.fronts[0].hinges) == number


def test_a_heavy_door_has_more_hinges_than_its_height_asks_for() -> None:
    # 996 x 796 x 22 of 470 kg/m3: 8.2 kg, over 6 and under 12
    layout = a_row(an_opening("door", 1000), an_opening("open"))
    [rod] = set_out(a_job(a_frame(layout, width=1800, height=905)), Shop()).rods
    [front] = rod.fronts

    assert float(door_weight(front, Mm(470))) == pytest.approx(8.198, abs=0.001)
    assert len(front.hinges) == 3


def test_three_hinges_are_spaced_equally() -> None:
    assert hinge_centres(Mm(1200), 3, Hinges()) == (Mm("94.5"), 600, Mm("1105.5"))


def test_on_a_low_door_the_hinges_stand_at_the_quarters() -> None:
    assert hinge_centres(Mm(200), 2, Hinges()) == (50, 150)


def test_a_workshop_may_have_its_own_table_of_hinges() -> None:
    own = Hinges(
        by_height=(HingeStep(up_to=Mm(500), number=4),), by_weight=(HingeStep(up_to=Mm(99), number=2),)
    )
    [rod] = set_out(a_job(a_frame(an_opening(), height=600)), Shop(hinges=own)).rods

    assert len(rod.fronts[0].hinges) == 4


def test_a_five_piece_door_has_two_stiles_two_rails_and_a_loose_panel() -> None:
    frame = a_frame(an_opening())
    [rod] = set_out(a_job(frame, doors=five_pieces()), Shop()).rods
    [door] = rod.fronts

    # the door is 506 x 611: rails 506 - 120 + 20; panel 406 - 6 across and 611 - 140 + 20 - 2 up its grain
    assert [(p.role, p.length, p.width, p.thickness) for p in door.parts] == [
        (DoorPartRole.LEFT_STILE, 611, 60, 22),
        (DoorPartRole.RIGHT_STILE, 611, 60, 22),
        (DoorPartRole.TOP_RAIL, 406, 60, 22),
        (DoorPartRole.BOTTOM_RAIL, 406, 80, 22),
        (DoorPartRole.PANEL, 489, 400, 6),
    ]
    assert door.parts[4].name == "K1.1-P"


def test_a_five_piece_door_is_weighed_by_its_parts() -> None:
    [rod] = set_out(a_job(a_frame(an_opening()), doors=five_pieces()), Shop()).rods
    [door] = rod.fronts

    # 2 x 611 x 60 x 22 + 406 x (60 + 80) x 22 + 489 x 400 x 6 mm3 = 4 037 120 mm3, at 470 kg/m3 1.897 kg
    assert float(door_weight(door, Mm(470))) == pytest.approx(1.8974, abs=0.0001)
    assert door_weight(door, None) == 0
