"""The judge sees what is wrong with a break-out, from the wood alone."""

from dataclasses import replace

import pytest

from pinchrod.ground import Mm, Span
from pinchrod.timber import Board, Breakout, Fault, Question, Stick, Wanted, flaws

BOARD = Board(
    name="B1",
    thickness=Mm(27),
    width=Mm(150),
    length=Mm(3000),
    price=Mm(10),
    bow=Mm(4),
    spring=Mm(3),
    faults=(Fault(along=Span(Mm(1000), Mm(1040)), across=Span(Mm(0), Mm(30))),),
)
STILE = Wanted(marks=("K1-LS", "K1-RS"), width=Mm(45), thickness=Mm(22), length=Mm(720), beads=1)
QUESTION = Question(wanted=(STILE,), boards=(BOARD,))


def a_stick(**said: object) -> Stick:
    ordinary = {
        "name": "S1",
        "board": "B1",
        "start": Mm(0),
        "length": Mm(770),
        "offset": Mm(61),
        "width": Mm(49),
        "thickness": Mm(27),
        "members": ("K1-LS",),
    }
    return Stick(**(ordinary | said))  # type: ignore[arg-type] # each field is said with its own type


def an_answer(*sticks: Stick, **said: Mm) -> Breakout:
    marks = {mark for stick in sticks for mark in stick.members}
    finished = STILE.volume * sum(len(stick.members) for stick in sticks)
    sums = {"used": BOARD.volume, "finished": finished, "cost": Mm(10), "bound": Mm(10)} | said
    return Breakout(sticks=sticks, short=tuple(m for m in STILE.marks if m not in marks), **sums)  # type: ignore[arg-type]  # all are sizes


def test_a_good_break_out_has_no_flaw():
    beside = a_stick(name="S2", offset=Mm(8), members=("K1-RS",))

    assert list(flaws(QUESTION, an_answer(a_stick(), beside))) == []


@pytest.mark.parametrize(
    ("said", "what"),
    [
        ({"board": "B9"}, "there is no board"),
        ({"length": Mm(769)}, "its members need 770"),
        ({"length": Mm(771)}, "its members need 770"),
        ({"width": Mm(48)}, "not its members' width"),
        ({"thickness": Mm(26)}, "not its board's thickness"),
        ({"start": Mm("-0.1")}, "runs off the end"),
        ({"start": Mm(2231)}, "runs off the end"),
        ({"offset": Mm("7.9")}, "too near the sprung edge"),
        ({"offset": Mm(97)}, "too near the far edge"),
        ({"offset": Mm(29), "start": Mm(1039)}, "has the fault of B1 at 1000"),
        ({"members": ("K1-LS", "K1-LS"), "length": Mm("1493.2")}, "made or named short 2"),
        ({"members": ()}, "carries no member"),
    ],
)
def test_a_stick_that_cannot_be_is_seen(said, what):
    assert any(what in flaw for flaw in flaws(QUESTION, an_answer(a_stick(**said))))


def test_a_fault_that_only_the_back_shows_is_let_pass():
    back = replace(BOARD, faults=(replace(BOARD.faults[0], back_only=True),))

    found = flaws(replace(QUESTION, boards=(back,)), an_answer(a_stick(offset=Mm(29), start=Mm(700))))

    assert list(found) == []


def test_a_stick_that_ends_where_a_fault_begins_does_not_touch_it():
    assert list(flaws(QUESTION, an_answer(a_stick(offset=Mm(8), start=Mm(230))))) == []
    assert any(
        "fault" in flaw for flaw in flaws(QUESTION, an_answer(a_stick(offset=Mm(8), start=Mm("230.1"))))
    )


@pytest.mark.parametrize(
    ("place", "what"),
    [
        ({"start": Mm("773.1")}, "along the strip"),
        ({"offset": Mm(60)}, "strips are less than a saw cut apart"),
        ({"offset": Mm("8.1")}, "strips are less than a saw cut apart"),
        ({"offset": Mm(60), "start": Mm(1500)}, "strips are less than a saw cut apart"),
    ],
)
def test_sticks_in_each_others_way_are_seen(place, what):
    beside = a_stick(name="S2", members=("K1-RS",), **place)

    assert any(what in flaw for flaw in flaws(QUESTION, an_answer(a_stick(), beside)))


def test_a_bow_that_leaves_too_little_thickness_is_seen():
    bowed = replace(BOARD, bow=Mm(54))  # 3.5 mm to spare: 3000·√(3.5/54) = 763.8

    found = flaws(replace(QUESTION, boards=(bowed,)), an_answer(a_stick()))

    assert list(found) == ["S1: bowed too far to clean up to 22 thick"]


@pytest.mark.parametrize("wrong", [{"used": Mm(1)}, {"finished": Mm(1)}, {"cost": Mm(11)}, {"bound": Mm(11)}])
def test_sums_are_counted_again(wrong):
    assert len(list(flaws(QUESTION, an_answer(a_stick(), **wrong)))) == 1


def test_members_of_different_beads_may_not_share_a_stick():
    rail = replace(STILE, marks=("K1-R1",), beads=2, length=Mm(300))
    stick = a_stick(members=("K1-LS", "K1-R1"), length=Mm("1073.2"))

    found = flaws(replace(QUESTION, wanted=(STILE, rail)), an_answer(stick))

    assert "S1: its members differ in section or beads" in list(found)
