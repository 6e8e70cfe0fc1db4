"""The shape of a piece, by hand: the same whether it stood or lay in its frame, and as it lies turned."""

from dataclasses import replace
from typing import Any

from pinchrod.ground import Mm
from pinchrod.job import Joint, Shop, Side
from pinchrod.setting_out import Member, patterns, set_out
from pinchrod.setting_out.alike import Shape, Work, shape_of
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening


def member(name: str, layout: Any = None, joint: Joint = Joint.DOVETAIL_KEY, **said: Any) -> Member:
    [rod] = set_out(a_job(a_frame(layout, **said), joint=joint), Shop()).rods
    return rod.member(name)


def test_a_left_stile_lies_with_its_left_edge_uppermost() -> None:
    shape = shape_of(member("K1-LS"))

    low, high = Mm("-22.5"), Mm("22.5")
    assert shape == Shape(
        thickness=Mm(22),
        width=Mm(45),
        length=Mm(720),
        tenons=(Mm(0), Mm(0)),
        mitred=(False, False),
        beads=(False, True),
        works=(
            Work("hinge seat", (Mm("141.5"),), low, (Mm(63),)),
            Work("hinge seat", (Mm("563.5"),), low, (Mm(63),)),
            # the joint at 36 of 45, the slot's middle at 32: 9.5 below the middle of the width
            Work("key slot in back along", (Mm(18),), Mm("-9.5"), (Mm(15), Mm(8), Mm(10))),
            Work("key slot in back along", (Mm("694.5"),), Mm("-9.5"), (Mm(15), Mm(8), Mm(10))),
            Work("notch", (Mm(0), Mm(0), Mm(36), Mm(45)), low, (Mm(9),)),
            Work("notch", (Mm(660), Mm(669), Mm(720), Mm(720)), low, (Mm(9),)),
        ),
    )
    assert high == shape.width / 2


def test_a_bottom_rail_keeps_its_upper_edge_uppermost() -> None:
    shape = shape_of(member("K1-BR", a_row(an_opening("open"), an_opening("open"))))

    assert shape.beads == (True, False)
    assert shape.mitred == (True, True)
    assert [work for work in shape.works if work.kind == "notch"] == [
        Work("notch", (Mm(245), Mm(254), Mm(274), Mm(283)), Mm("22.5"), (Mm(9),))
    ]
    # its own end slots: the floor from 0 to 36, its middle 18 up, 4.5 below the middle of the width
    assert Work("key slot in back across", (Mm(4),), Mm("-4.5"), (Mm(15), Mm(8), Mm(10))) in shape.works


def test_turned_end_for_end_everything_is_counted_from_the_other_end() -> None:
    shape = shape_of(member("K1-M1", a_row(an_opening("open"), an_opening("open")), bottom_rail=0))
    tenoned = replace(shape, tenons=(Mm(0), Mm(40)))

    turned = tenoned.turned()

    assert shape.mitred == (False, True)
    assert turned.mitred == (True, False)
    assert turned.tenons == (Mm(40), Mm(0))
    assert [work.along for work in turned.works] == [(Mm(4),)]
    assert [work.along for work in shape.works] == [(Mm(665),)]


def test_places_in_a_tenoned_piece_are_counted_from_the_tenon_s_end() -> None:
    layout = a_row(an_opening("open"), a_stack(an_opening("open"), an_opening("open")))
    muntin = member("K1-M1", layout, Joint.MORTICE_AND_TENON)
    shape = shape_of(muntin)

    # the rail's mouth from 333.5 to 371.5; the muntin's face begins at 36, its tenon at -4
    [notch] = [work for work in shape.works if work.kind == "notch"]
    assert notch.along == (Mm("337.5"), Mm("346.5"), Mm("366.5"), Mm("375.5"))
    assert shape.tenons == (Mm(40), Mm(40))
    assert shape.length == 615 + 18 + 80


def test_the_wide_and_the_long_come_first_and_alike_marks_in_order() -> None:
    narrow = a_frame(an_opening("open"), id="K2", width=500, top_rail=45)
    found = patterns(set_out(a_job(narrow, a_frame(an_opening("open"), width=700)), Shop()))

    drawn = [(pattern.drawn.width, pattern.drawn.length) for pattern in found]
    assert drawn == sorted(drawn, reverse=True)
    assert [pattern.mark for pattern in found] == [f"#{number}" for number in range(1, len(found) + 1)]


def test_a_piece_without_its_mirror_in_the_job_names_none() -> None:
    lone = a_frame(a_row(an_opening("drawer", 200), an_opening("door", hung=Side.RIGHT)))
    found = {pattern.drawn.name: pattern for pattern in patterns(set_out(a_job(lone), Shop()))}

    assert found["K1-RS"].mirror == ""
    assert found["K1-M1"].mirror == ""


def test_pieces_exactly_three_millimetres_apart_are_not_taken_for_each_other() -> None:
    frames = [
        a_frame(an_opening("open"), id=f"K{n}", width=Mm(size))
        for n, size in enumerate(("600", "603", "605.9"))
    ]
    found = {pattern.drawn.name: pattern for pattern in patterns(set_out(a_job(*frames), Shop()))}

    assert found["K0-TR"].nearly == ()
    assert found["K1-TR"].nearly == (found["K2-TR"].mark,)


def test_several_nearly_alike_pieces_are_named_in_the_order_of_their_marks() -> None:
    frames = [a_frame(an_opening("open"), id=f"K{n}", width=600 + n) for n in range(3)]
    found = {pattern.drawn.name: pattern for pattern in patterns(set_out(a_job(*frames), Shop()))}

    assert found["K1-TR"].nearly == (found["K2-TR"].mark, found["K0-TR"].mark)
    assert [found[f"K{n}-TR"].mark for n in (2, 1, 0)] == ["#1", "#2", "#3"]
