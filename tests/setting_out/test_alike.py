"""Pieces that are alike, turned end for end, mirrored or easily taken for each other."""

import random

from pinchrod.job import Frame, Shop, Side
from pinchrod.setting_out import Pattern, Rods, cutting_list, patterns, set_out, shop_order
from pinchrod.setting_out.alike import shape_of
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many
from tests.setting_out.test_tiling import can_be_made


def patterns_of(*frames: Frame) -> dict[str, Pattern]:
    """Each pattern by the marks of its pieces."""
    found = patterns(set_out(a_job(*frames), Shop()))
    return {" ".join(piece.member.name for piece in pattern.pieces): pattern for pattern in found}


def test_the_two_stiles_of_a_frame_are_mirrors() -> None:
    found = patterns_of(a_frame(an_opening("drawer")))
    left, right = found["K1-LS"], found["K1-RS"]

    assert (left.mirror, right.mirror) == (right.mark, left.mark)


def test_stiles_alike_from_both_ends_are_one_pattern_turned() -> None:
    found = patterns_of(a_frame(an_opening("drawer"), top_rail=45))
    stile = found["K1-LS K1-RS"]

    assert [piece.turned for piece in stile.pieces] == [False, True]
    assert stile.mirror == ""


def test_top_and_bottom_rails_alike_are_one_pattern_turned() -> None:
    found = patterns_of(a_frame(an_opening("drawer"), top_rail=45))

    assert [piece.turned for piece in found["K1-BR K1-TR"].pieces] == [False, True]


def test_a_door_s_hinges_tell_the_stile_it_hangs_on_from_the_other() -> None:
    found = patterns_of(a_frame(an_opening("door"), top_rail=45))

    assert {"K1-LS", "K1-RS"} <= set(found)
    assert found["K1-LS"].mirror == ""


def test_alike_frames_count_each_piece() -> None:
    found = patterns_of(a_frame(an_opening("drawer"), quantity=3))

    assert found["K1-LS"].quantity == 3


def test_alike_pieces_of_different_frames_are_one_pattern() -> None:
    found = patterns_of(a_frame(an_opening("drawer")), a_frame(an_opening("panel"), id="K2", width=700))

    assert "K1-LS K2-LS" in found


def test_pieces_less_than_three_millimetres_apart_are_told_apart() -> None:
    found = patterns_of(
        a_frame(an_opening("drawer")),
        a_frame(an_opening("drawer"), id="K2", width=602),
        a_frame(an_opening("drawer"), id="K3", width=605),
    )
    first, second, third = (found[f"{frame}-TR"] for frame in ("K1", "K2", "K3"))

    assert first.nearly == (second.mark,)
    assert second.nearly == (first.mark,)
    assert third.nearly == ()


def test_notches_less_than_three_millimetres_apart_are_told_apart() -> None:
    def with_drawer(size: float, name: str) -> Frame:
        return a_frame(a_stack(an_opening("drawer", size), an_opening("drawer")), id=name)

    found = patterns_of(with_drawer(140, "K1"), with_drawer(142.5, "K2"), with_drawer(143, "K3"))

    assert found["K1-LS"].nearly == (found["K2-LS"].mark,)


def test_nearly_alike_pieces_are_found_turned_end_for_end_too() -> None:
    same = {"top_rail": 45, "bottom_rail": 45}
    low = a_frame(a_stack(an_opening("drawer", 100), an_opening("drawer")), **same)
    high = a_frame(a_stack(an_opening("drawer"), an_opening("drawer", 101)), id="K2", **same)
    found = patterns_of(low, high)

    assert found["K1-LS"].nearly == (found["K2-RS"].mark,)


def test_marks_run_from_thick_wide_and_long_to_short() -> None:
    found = patterns(set_out(a_job(a_frame(an_opening("drawer"))), Shop()))

    assert [pattern.mark for pattern in found] == ["#1", "#2", "#3", "#4"]
    assert [pattern.drawn.width for pattern in found] == [60, 45, 45, 45]


def test_turning_twice_or_mirroring_twice_gives_the_piece_back() -> None:
    dice = random.Random(11)
    frames = [
        frame for number in range(so_many(200)) if can_be_made(frame := a_random_frame(dice, number), 9)
    ]
    for rod in set_out(a_job(*frames), Shop()).rods:
        for member in rod.members:
            shape = shape_of(member)

            assert shape.turned().turned() == shape
            assert shape.mirrored().mirrored() == shape
            assert shape.turned().at_rest() == shape.at_rest()


def test_every_piece_is_in_one_pattern_and_on_one_line_of_the_cutting_list() -> None:
    dice = random.Random(12)
    frames = [frame for number in range(so_many(60)) if can_be_made(frame := a_random_frame(dice, number), 9)]
    rods = set_out(a_job(*frames), Shop())
    names = sorted(member.name for rod in rods.rods for member in rod.members)

    assert sorted(piece.member.name for pattern in patterns(rods) for piece in pattern.pieces) == names
    assert sorted(name for line in cutting_list(rods) for name in line.members) == names


def test_a_frame_and_its_mirror_image_have_each_other_s_mirrors() -> None:
    left = a_frame(a_row(an_opening("drawer", 200), an_opening("door", hung=Side.RIGHT)))
    right = a_frame(a_row(an_opening("door", hung=Side.LEFT), an_opening("drawer", 200)), id="K2")
    found = patterns_of(left, right)

    assert found["K1-RS"].mirror == found["K2-LS"].mark
    assert found["K1-TR"].mirror in ("", found["K2-TR"].mark)


def test_the_cutting_list_has_a_line_for_each_section_and_length() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")), quantity=2)

    lines = cutting_list(set_out(a_job(frame), Shop()))

    assert [(x.width, x.thickness, x.beads, x.length, x.quantity, x.members) for x in lines] == [
        (60, 22, 1, 528, 2, ("K1-TR",)),
        (45, 22, 1, 720, 4, ("K1-LS", "K1-RS")),
        (45, 22, 1, 528, 2, ("K1-BR",)),
        (38, 22, 2, 528, 2, ("K1-R1",)),
    ]


def test_marks_are_sorted_as_a_joiner_reads_them() -> None:
    marks = ["K10-LS", "K2-RS", "K2-LS", "K2-R10", "K2-R9", "B1-TR", "K2.10", "K2.9"]

    assert sorted(marks, key=shop_order) == [
        "B1-TR",
        "K2-LS",
        "K2-R9",
        "K2-R10",
        "K2-RS",
        "K2.9",
        "K2.10",
        "K10-LS",
    ]


def test_one_row_for_two_frames_and_two_rows_for_one_each_need_the_same_timber() -> None:
    layout = a_stack(an_opening("drawer", 140), an_opening("pair"))
    together = set_out(a_job(a_frame(layout, quantity=2)), Shop())
    apart = set_out(a_job(a_frame(layout), a_frame(layout, id="K2")), Shop())

    def timber(rods: Rods) -> list[tuple[object, ...]]:
        return [(x.width, x.thickness, x.beads, x.length, x.quantity) for x in cutting_list(rods)]

    assert timber(together) == timber(apart)
    assert [p.quantity for p in patterns(together)] == [p.quantity for p in patterns(apart)]
