"""The rack as it is typed: changed and written again, it says the same but for what was changed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import NotYetRight
from pinchrod.job import (
    RACK_COLUMNS,
    Files,
    RackWords,
    Source,
    boards_as_said,
    rack_cell_of,
    read_job,
    read_what_stands,
    with_boards,
    with_fault,
)
from tests.job.workbooks import a_sheet, parts_of_a_workbook, zipped

JOB = """pinchrod = 1

[job]
name = "Pantry"
timber = "yellow-poplar"   # as ordered

# The frames.
[[frame]]
id = "P1"
width = 900
height = 800
layout = "drawer 140 over pair"
"""
BOARD = ("B1", "27", "160", "3050", "3", "2", "15.55", "0-60; 840-905@30-60")


def job_file(text=JOB, name="job.toml"):
    return Source(name=name, content=text.encode())


def rack_file(text, name="rack.csv"):
    return Source(name=name, content=text.encode())


def racked(text, job=None):
    job = job or JOB.replace("# as ordered", "# as ordered\nrack = 'rack.csv'")
    return Files(main=job_file(job), joined=(rack_file(text),))


def test_a_job_without_a_rack_is_made_to_name_one_and_says_all_else_as_before():
    files = with_boards(Files(main=job_file()), RackWords(boards=(BOARD,)))

    text = files.main.content.decode()
    assert text.replace('rack = "rack.csv"\n', "") == JOB
    job, _ = read_job(files.main, files.joined)
    assert [board.name for board in job.rack] == ["B1"]
    assert len(job.rack[0].faults) == 2


@pytest.mark.parametrize(
    "text",
    [
        'job.name = "Pantry"\n[[frame]]\nid = "P1"\nwidth = 900\nheight = 800\nlayout = "pair"\n',
        'job = {name = "Pantry"}\n[[frame]]\nid = "P1"\nwidth = 900\nheight = 800\nlayout = "pair"\n',
        '[job]\n\n[[frame]]\nid = "P1"\nwidth = 900\nheight = 800\nlayout = "pair"\n',
        '[[frame]]\nid = "P1"\nwidth = 900\nheight = 800\nlayout = "pair"\n',
        JOB.replace("\n", "\r\n"),
        "\ufeff" + JOB,
    ],
)
def test_in_whatever_shape_job_is_written_the_rack_is_named_in_it(text):
    files = with_boards(Files(main=job_file(text)), RackWords(boards=(BOARD,)))

    job, _ = read_job(files.main, files.joined)
    assert [board.name for board in job.rack] == ["B1"]
    assert [frame.id for frame in job.frames] == ["P1"]


def test_a_list_of_frames_alone_can_name_no_rack_and_is_told_so():
    with pytest.raises(NotYetRight) as trouble:
        with_boards(Files(main=job_file("id,width\nK1,600\n", "frames.csv")), RackWords(boards=(BOARD,)))

    assert [problem.code for problem in trouble.value.problems] == ["rack-nowhere"]


def test_cells_come_as_they_were_typed_and_what_is_not_changed_is_written_so_again():
    files = racked(
        'length;board;width;thickness;price\n8 ft 6 in;B1;6 1/4 in;5/4;12,50\n3000;"B""2";150;27;\n'
    )

    said = boards_as_said(files)

    assert said.boards[0] == ("B1", "5/4", "6 1/4 in", "8 ft 6 in", "", "", "12,50", "")
    assert said.boards[1][0] == 'B"2'
    again = with_boards(files, said)
    assert boards_as_said(again) == said
    before, after = (read_job(each.main, each.joined)[0].rack for each in (files, again))
    assert before == after


def test_a_workbook_becomes_a_list_and_the_job_names_that():
    sheet = a_sheet(("board", "thickness", "width", "length"), ("B1", 27, 160, 3050))
    book = zipped(parts_of_a_workbook(sheet))
    main = JOB.replace("# as ordered", "\nrack = 'boards.xlsx'")
    files = Files(main=job_file(main), joined=(Source(name="boards.xlsx", content=book),))

    again = with_boards(files, boards_as_said(files))

    assert [each.name for each in again.joined] == ["boards.csv"]
    job, _ = read_job(again.main, again.joined)
    assert [(board.name, board.length) for board in job.rack] == [("B1", 3050)]


@pytest.mark.parametrize(
    ("cell", "words", "code"),
    [
        ("board", "", "missing"),
        ("thickness", "", "missing"),
        ("width", "", "missing"),
        ("length", "", "missing"),
        ("length", "long", "length-not-a-number"),
        ("length", "-3", "too-small"),
        ("width", "1", "too-small"),
        ("price", "dear", "not-a-number"),
        ("bow", "60 kg", "length-unit"),
        ("faults", "knot", "fault-form"),
        ("faults", '0-60; 90-80@"', "fault-form"),
        ("faults", "0-60; 90-80", "fault-backwards"),
        ("faults", "4000-4100", "fault-off-board"),
    ],
)
def test_what_is_wrong_is_found_in_the_cell_that_it_is_about(cell, words, code):
    good = ("B0", *BOARD[1:])
    at = RACK_COLUMNS.index(cell)
    rack = RackWords(boards=(good, ("",) * 8, (*BOARD[:at], words, *BOARD[at + 1 :])))
    files = with_boards(Files(main=job_file()), rack)

    _, _, problems = read_what_stands(files.main, files.joined)

    stops = [problem for problem in problems if problem.stops]
    assert {rack_cell_of(rack, problem) for problem in stops} == {(2, cell)}
    assert {problem.code for problem in stops} == {code}


def test_of_two_boards_of_one_name_the_second_is_told():
    rack = RackWords(boards=(BOARD, BOARD))
    files = with_boards(Files(main=job_file()), rack)

    _, _, problems = read_what_stands(files.main, files.joined)

    assert [rack_cell_of(rack, problem) for problem in problems if problem.stops] == [(1, "board")]


def test_a_fault_more_is_said_behind_the_others():
    assert with_fault(BOARD, "2100-2160 back")[-1] == "0-60; 840-905@30-60; 2100-2160 back"
    assert with_fault((*BOARD[:-1], ""), "2100-2160")[-1] == "2100-2160"
    assert with_fault((*BOARD[:-1], "0-60; "), "2100-2160")[-1] == "0-60; 2100-2160"


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), max_size=6)


@given(cells=st.lists(st.tuples(*[WORDS] * 8), max_size=4), separator=st.sampled_from(",;\t"))
def test_whatever_is_typed_stands_in_its_own_cell(cells, separator):
    boards = tuple((f"B{at}", *cell[1:]) for at, cell in enumerate(cells))
    files = with_boards(Files(main=job_file()), RackWords(boards=boards, separator=separator))

    said = boards_as_said(files)

    kept = {board[0]: board for board in said.boards}
    assert all(kept.get(board[0], board) == board for board in boards)
