"""The papers of the break-out: every stick findable, every number right, nothing crowded, the rack readable."""

from dataclasses import replace
from itertools import pairwise

import pytest

from pinchrod.ground import Mm, Span, show_fixed
from pinchrod.job import Practice, Source
from pinchrod.job.rack import read_rack
from pinchrod.papers.boards.board_page import board_page, board_pages
from pinchrod.papers.boards.rack_csv import rack_csv
from pinchrod.papers.boards.rip_list import rip_list
from pinchrod.papers.boards.sawn import Sawn, sawn_from
from pinchrod.papers.boards.stick_list import stick_list
from pinchrod.papers.boards.timber_page import timber_page
from pinchrod.papers.boards.timber_pages import timber_pages
from pinchrod.papers.boards.where_from import where_from
from pinchrod.papers.marks.boxes import extent
from pinchrod.papers.marks.sheet import Line, Path
from pinchrod.timber import Board, Fault, Question, Wanted, by_eye, rack_after
from tests.builders import a_frame
from tests.papers.data_builders import set_out_job
from tests.papers.page_builders import a_shop, flaws, rows_of, texts_of
from tests.timber.racks import a_question

SHOP = a_shop()
JOB, _ = set_out_job(a_frame())


def sawn_by_eye(question: Question) -> Sawn:
    """A question answered by eye, which is quick."""
    return sawn_from(question, by_eye(question))


def a_board(name="B1", **said):
    usual = {"thickness": Mm(27), "width": Mm(200), "length": Mm(3000), "price": Mm(30)}
    return Board(name=name, **{**usual, **said})


def one_board(*lengths, **said) -> Sawn:
    """A board of 200 with a member of each length, 40 wide, sawn by eye."""
    wanted = tuple(
        Wanted(marks=(f"M{n}",), width=Mm(40), thickness=Mm(22), length=Mm(length), beads=1)
        for n, length in enumerate(lengths, start=1)
    )
    return sawn_by_eye(Question(wanted=wanted, boards=(a_board(**said),)))


def read_again(content: bytes, narrowest=Mm(10)):
    """The boards that the rack's own reader finds in a list, and the problems it has with it."""
    reading = read_rack(Source(name="rack-after.csv", content=content), Mm(22), narrowest, Practice())
    problems = []
    while True:
        try:
            problems.append(next(reading))
        except StopIteration as end:
            return end.value, problems


@pytest.mark.parametrize(("members", "boards", "seed"), [(12, 6, 1), (40, 30, 2), (120, 60, 3), (20, 1, 4)])
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_no_page_of_the_timber_is_crowded(members, boards, seed, size):
    shop, question = a_shop(size), a_question(members, boards, seed)

    pages = timber_pages(question, by_eye(question), shop)

    assert flaws(pages, JOB, shop) == []


def test_every_stick_is_on_its_board_s_page_and_in_the_list_with_all_its_members():
    sawn = sawn_by_eye(a_question(60, 40, 5))

    listed = [" ".join(row) for page in stick_list(sawn, SHOP) for row in rows_of(page)]
    on_boards = " ".join(texts_of(board_pages(sawn, SHOP)))

    for stick in sawn.breakout.sticks:
        [row] = [row for row in listed if row.split()[0] == stick.name]
        assert row.split()[1] == stick.board
        assert show_fixed(stick.length, Mm("0.1")) in row
    said = " ".join(texts_of(stick_list(sawn, SHOP))).replace(",", " ").split()
    for stick in sawn.breakout.sticks:
        assert set(stick.members) <= set(said)
        assert stick.name in on_boards.split()


def test_every_member_leads_to_its_stick_and_its_board():
    sawn = sawn_by_eye(a_question(60, 40, 6))

    said = [text for page in where_from(sawn, SHOP) for row in rows_of(page) for text in row]
    found = {mark: place for mark, place in pairwise(said) if ", B" in place}

    expected = {mark: f"{it.name}, {it.board}" for it in sawn.breakout.sticks for mark in it.members}
    assert found == expected


def test_a_member_without_wood_is_named_on_the_summary_and_where_it_would_come_from():
    sawn = sawn_by_eye(a_question(60, 3, 7))

    assert sawn.breakout.short
    said = " ".join(texts_of(timber_page(sawn, SHOP))).replace(",", " ").split()
    assert set(sawn.breakout.short) <= set(said)
    assert "no wood" in texts_of(where_from(sawn, SHOP))


def test_the_rip_list_has_a_row_for_every_rip_and_says_set_where_the_fence_moves():
    sawn = sawn_by_eye(a_question(60, 40, 8))

    rows = [row for page in rip_list(sawn, SHOP) for row in rows_of(page)]
    fences = [rip.fence for board in sawn.boards for rip in board.rips]
    moves = sum(one != other for one, other in pairwise([None, *fences]))

    assert sum("set" in row for row in rows) == moves
    assert f"The fence is set {moves} times" in " ".join(texts_of(rip_list(sawn, SHOP)))


def test_sticks_are_drawn_to_scale_where_they_are_cut():
    sawn = one_board(700, 900, 1100)
    [page] = board_page(sawn.boards[0], sawn, SHOP)
    scale = int(page.scale.removeprefix("1:"))

    sticks = [mark for mark in page.marks if isinstance(mark, Path) and mark.fill == "tint"]
    drawn = [extent((mark,)) for mark in sticks]

    long = sum(box.right - box.left for box in drawn) * scale
    assert long == pytest.approx(float(sum(it.length for it in sawn.breakout.sticks)), abs=0.1)
    assert {round((box.top - box.bottom) * scale, 3) for box in drawn} == {44.0}


def test_the_longest_clean_stick_is_explained_from_the_bow():
    # 3000 × √((27 − 1.5 − 22) / 14) = 1500
    sawn = one_board(700, bow=Mm(14))

    said = " ".join(texts_of(board_pages(sawn, SHOP)))

    assert "3000 × √((27 − 1.5 − 22) / 14) = 1500" in said


def test_the_first_edge_is_explained_from_the_spring():
    said = " ".join(texts_of(board_pages(one_board(700, spring=Mm(6)), SHOP)))

    assert "11 off (5 and the spring of 6)" in said


def test_a_fault_is_hatched_and_one_of_the_back_with_broken_lines():
    face = Fault(along=Span(Mm(1500), Mm(1600)), across=Span(Mm(150), Mm(180)))
    for fault, dashed in ((face, False), (replace(face, back_only=True), True)):
        sawn = one_board(700, faults=(fault,))
        [page] = board_page(sawn.boards[0], sawn, SHOP)

        pens = [it.pen for it in page.marks if isinstance(it, Line | Path) and it.layer == "fault"]

        assert pens
        assert all(bool(pen and pen.dashes) == dashed for pen in pens)


def test_faults_are_said_in_words_too_on_which_side_and_how_many_more_there_are():
    knot = Fault(along=Span(Mm(1500), Mm(1600)), across=Span(Mm(150), Mm(180)), back_only=True)
    shakes = tuple(Fault(along=Span(Mm(2000 + n), Mm(2000 + n) + Mm("0.5"))) for n in range(14))

    few = " ".join(texts_of(board_pages(one_board(700, faults=(knot, shakes[0])), SHOP)))
    many = " ".join(texts_of(board_pages(one_board(700, faults=(knot, *shakes)), SHOP)))

    assert "1500–1600 @ 150–180 back; 2000–2000.5." in few
    assert "2010–2010.5; and 3 more, in the picture" in many


def test_members_alike_are_counted_in_the_sum_of_their_stick():
    said = " ".join(texts_of(board_pages(one_board(700, 700, 300), SHOP)))

    assert "2 × 25 ends + 2 × 700 + 300 + 2 × 3.2 saw cuts = 1756.4" in said


def test_the_plan_by_eye_stands_beside_the_plan():
    question = a_question(40, 30, 9)
    plan = by_eye(question)

    rows = {row[0]: row[1:] for page in timber_page(sawn_from(question, plan), SHOP) for row in rows_of(page)}

    assert rows["boards taken"][0] == str(len({it.board for it in plan.sticks}))
    assert rows["cost of the boards taken"] == [show_fixed(plan.cost, Mm("0.01"))] * 2


@pytest.mark.parametrize("seed", range(12))
def test_the_rack_as_it_then_stands_is_read_again_board_for_board(seed):
    question = a_question(40, 30, seed)
    left = rack_after(question, by_eye(question))

    found, problems = read_again(rack_csv(left))

    assert [problem for problem in problems if problem.stops] == []
    assert found == left


def test_a_rack_without_prices_is_read_again_without_prices():
    question = a_question(30, 20, 3)
    bare = replace(question, boards=tuple(replace(it, price=it.volume) for it in question.boards))
    left = rack_after(bare, by_eye(bare))

    found, problems = read_again(rack_csv(left))

    assert [problem for problem in problems if problem.stops] == []
    assert found == left


def test_a_rack_sawn_up_to_the_last_board_says_so():
    sawn = one_board(2900, width=Mm(55))

    assert "Nothing is left for the rack." in texts_of(timber_page(sawn, SHOP))
    assert rack_after(sawn.question, sawn.breakout) == ()
