"""What a job asks of its rack."""

from pinchrod.ground import Mm
from pinchrod.job import Board, Joint, Shop
from pinchrod.setting_out import set_out
from pinchrod.timber import question_of, wanted_of
from tests.builders import a_frame, a_job


def by_mark(wanted):
    return {mark: one for one in wanted for mark in one.marks}


def test_every_copy_of_alike_frames_is_wanted_by_the_mark_of_its_label():
    rods = set_out(a_job(a_frame(id="K1", quantity=2), a_frame(id="K2")), Shop())

    marks = by_mark(wanted_of(rods))

    assert {"K1-LS/1", "K1-LS/2", "K2-LS"} <= marks.keys()
    assert "K1-LS" not in marks
    assert len(marks) == sum(len(one.marks) for one in wanted_of(rods)) == 12


def test_a_member_is_wanted_as_long_as_it_is_cut_tenons_included():
    rods = set_out(a_job(a_frame(id="K1"), joint=Joint.MORTICE_AND_TENON), Shop())

    rail = by_mark(wanted_of(rods))["K1-TR"]

    member = rods.rods[0].member("K1-TR")
    assert rail.length == member.length == member.along.length + 80
    assert (rail.width, rail.thickness, rail.beads) == (60, 22, 1)


def test_alike_members_stand_together_long_before_short():
    rods = set_out(a_job(a_frame(id="K1"), a_frame(id="K2")), Shop())

    stiles = next(one for one in wanted_of(rods) if "K1-LS" in one.marks)
    lengths = [one.length for one in wanted_of(rods) if one.width == 45]

    assert stiles.marks == ("K1-LS", "K1-RS", "K2-LS", "K2-RS")
    assert lengths == sorted(lengths, reverse=True)


def test_a_question_has_the_job_s_boards_and_the_shop_s_saws():
    board = Board(name="B1", thickness=Mm(27), width=Mm(160), length=Mm(3000), price=Mm(20))
    job = a_job(rack=(board,))

    question = question_of(job, Shop(), set_out(job, Shop()))

    assert question.boards == (board,)
    assert question.practice == Shop().practice
    assert question.machines.rip_saw.kerf == 4
