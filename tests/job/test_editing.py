"""A frame said otherwise: that frame says the new words, and every other letter of the files stays."""

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import (
    Source,
    frames_as_said,
    moved,
    read_job,
    read_what_stands,
    with_frame,
    with_frames,
    without_frame,
)
from tests.job.edits import a_job, frames_of, ids, the_demo, words_of_all
from tests.job.workbooks import Raw, a_workbook

MAIN, JOINED = the_demo()
DEMO_IDS = ids(MAIN, JOINED)
NEW = (("id", "X1"), ("width", "23 5/8 in"), ("height", "720"), ("layout", "pair"))

JOB = """\
pinchrod = 1   # the form

# Two frames.
[[frame]]
id = 'K1'
  width = 600  # as taped
height = "28 3/8 in"
layout = "drawer 140 over pair"

# The last one.

[[frame]]
id = "K2"
width = 600
height = 720
layout = "pair"
"""

LIST = "id;Width;layout;height\nK1;600,5;pair;720\n\nK2; 700 ;door;720\n"


def refusals(edit, *args, **named):
    with pytest.raises(NotYetRight) as refused:
        edit(*args, **named)
    return [problem.code for problem in refused.value.problems]


def lines_changed(old, new):
    """Lines that only the one or only the other has, each marked by which."""
    before, after = (source.content.decode().splitlines() for source in (old, new))
    return [
        *(f"-{line}" for line in before if line not in after),
        *(f"+{line}" for line in after if line not in before),
    ]


def remarks_of(source):
    return [line.partition("#")[2] for line in source.content.decode().splitlines() if "#" in line]


def test_a_frame_is_given_back_with_every_word_as_it_was_typed():
    first, second = frames_as_said(a_job(JOB))

    assert first.words == (
        ("id", "K1"),
        ("width", "600"),
        ("height", "28 3/8 in"),
        ("layout", "drawer 140 over pair"),
    )
    assert (first.id, first.where.line, second.where.line) == ("K1", 5, 13)
    assert second.word("foot") == ""


def test_a_row_of_a_list_is_given_back_by_the_names_we_use():
    [first, _] = frames_as_said(a_job(LIST, "frames.csv"))

    assert dict(first.words) == {"id": "K1", "width": "600,5", "layout": "pair", "height": "720"}


def test_frames_stand_where_the_job_has_them():
    job, _ = read_job(MAIN, JOINED)

    assert [frame.where for frame in frames_as_said(MAIN, JOINED)] == [frame.where for frame in job.frames]


def test_what_stands_of_a_faulty_job_is_given_back_too():
    text = 'pinchrod = 1\n[[frame]]\nid = 7\nwidth = "6OO"\nlefty = 4\n[[frame]]\nheight = true\n'

    assert words_of_all(a_job(text)) == [{"id": "7", "width": "6OO", "lefty": "4"}, {"height": "true"}]


@pytest.mark.parametrize("text", ["", "[", "\x00", "pinchrod = 2\n[[frame]]\nid = 'K1'\n", "frame = 3\n"])
def test_of_a_file_that_cannot_be_read_nothing_stands(text):
    assert frames_as_said(a_job(text)) == ()


def test_of_a_list_without_names_above_its_columns_nothing_stands():
    assert frames_as_said(a_job("K1,600\nK2,600\n", "frames.csv")) == ()


def test_a_changed_value_takes_the_old_ones_place_and_the_remark_stays():
    new = with_frame(a_job(JOB), (), "K1", (("width", "620"), *frames_as_said(a_job(JOB))[0].words[2:]))

    assert lines_changed(a_job(JOB), new.main) == ["-  width = 600  # as taped", "+  width = 620  # as taped"]


def test_a_number_is_written_bare_and_all_else_in_quotes():
    words = (("width", "600.5"), ("height", '28 3/8"'), ("layout", "2 doors"), ("foot", "007"))

    text = with_frame(a_job(JOB), (), "K2", words).main.content.decode()

    assert text.endswith('id = "K2"\nwidth = 600.5\nheight = \'28 3/8"\'\nlayout = "2 doors"\nfoot = "007"\n')


def test_what_is_left_blank_is_taken_out():
    new = with_frame(a_job(JOB), (), "K2", (("width", "  "), ("height", "720"), ("layout", "pair")))

    assert lines_changed(a_job(JOB), new.main) == ["-width = 600"]
    assert new.main.content.decode().endswith('id = "K2"\nheight = 720\nlayout = "pair"\n')


def test_a_frame_may_be_called_otherwise():
    new = with_frame(a_job(JOB), (), "K2", (*frames_as_said(a_job(JOB))[1].words, ("id", "K9")))

    assert ids(new.main) == ["K1", "K9"]


def test_a_blank_id_leaves_the_frame_its_own():
    new = with_frame(a_job(JOB), (), "K2", (("id", " "), *frames_as_said(a_job(JOB))[1].words[1:]))

    assert new.main == a_job(JOB)


def test_frames_of_a_workbook_move_into_the_job_file_and_back():
    main = a_job(JOB.replace("[[frame]]", '[job]\nframes = "frames.xlsx"\n[[frame]]', 1))
    book = Source(name="frames.xlsx", content=a_workbook(("K3", 600, 720, "pair"), ("K4", 610, 720, "door")))

    there = moved(main, (book,), "K4", before="K2")
    back = moved(there.main, there.joined, "K4", before="K3")
    into = moved(main, (book,), "K2")

    assert ids(there.main, there.joined) == ["K1", "K4", "K2", "K3"]
    assert back.joined[0].content.decode() == "id,width,height,layout\nK4,610,720,door\nK3,600,720,pair\n"
    assert ids(into.main, into.joined) == ["K1", "K3", "K4", "K2"]
    assert [note.code for note in into.notes] == ["workbook-turned"]


def test_a_row_changes_and_separator_line_ends_and_letters_code_stay():
    source = Source(
        name="frames.csv", content=LIST.replace("pair", "païr").replace("\n", "\r\n").encode("cp1252")
    )

    new = with_frame(
        source, (), "K2", (("width", "700"), ("height", "800"), ("layout", "dôor;"), ("left_stile", "50"))
    )

    assert new.main.content.decode("cp1252") == (
        'id;Width;layout;height;left_stile\r\nK1;600,5;païr;720;\r\n\r\nK2; 700 ;"dôor;";800;50\r\n'
    )


def test_a_list_whose_code_has_no_letter_for_the_new_words_goes_over_to_utf_8():
    source = Source(name="frames.csv", content=LIST.replace("pair", "päir").encode("cp1252"))

    new = with_frame(source, (), "K2", (("width", "24 in"), ("height", "28″"), ("layout", "door")))

    assert "28″" in new.main.content.decode("utf-8-sig")
    assert "päir" in new.main.content.decode("utf-8-sig")


def test_letters_that_would_be_taken_for_another_code_go_over_to_utf_8():
    source = Source(name="frames.csv", content=b"id,width,height,layout\nK1,600,720,p\xe9\n")

    new = with_frame(source, (), "K1", (("width", "600"), ("height", "720"), ("layout", "Ã©")))

    assert words_of_all(new.main)[0]["layout"] == "Ã©"


def test_a_list_in_utf_16_stays_one():
    source = Source(name="frames.csv", content=LIST.encode("utf-16"))

    new = with_frame(source, (), "K2", (("width", "701"), ("height", "720"), ("layout", "door")))

    assert new.main.content.decode("utf-16") == LIST.replace(" 700 ", "701")


def test_a_list_that_names_its_separator_first_is_edited_below_it():
    source = a_job("sep=;\n" + LIST, "frames.csv")

    new = with_frame(source, (), "K1", (("width", "601"), ("height", "720"), ("layout", "pair")))

    assert new.main.content.decode() == ("sep=;\n" + LIST).replace("600,5", "601")


def test_two_frames_of_one_id_are_told_apart_by_their_places():
    source = a_job(JOB.replace("K2", "K1"))
    second = frames_as_said(source)[1]

    new = with_frame(source, (), second.where, (("id", "K2"), *second.words[1:]))

    assert refusals(with_frame, source, (), "K1", second.words) == ["id-twice"]
    assert new.main == a_job(JOB)


def test_a_frame_that_is_not_there_is_told():
    assert refusals(with_frame, MAIN, JOINED, "K99", NEW) == ["no-such-frame"]
    assert refusals(without_frame, MAIN, JOINED, "") == ["no-such-frame"]


def test_frames_come_behind_the_one_they_are_to_follow():
    new = with_frames(MAIN, JOINED, [NEW, (("id", "X2"), *NEW[1:])], after="K5")

    assert new.joined == JOINED
    assert ids(new.main, new.joined) == [*DEMO_IDS[:5], "X1", "X2", *DEMO_IDS[5:]]
    assert lines_changed(MAIN, new.main) == [
        *('+id = "X1"', '+width = "23 5/8 in"', "+height = 720"),
        *('+id = "X2"', '+width = "23 5/8 in"', "+height = 720"),
    ]


def test_frames_come_last_if_nothing_else_is_said():
    new = with_frames(MAIN, JOINED, [NEW])

    assert new.main == MAIN
    assert ids(new.main, new.joined) == [*DEMO_IDS, "X1"]
    assert new.joined[0].content.decode().endswith("\nX1,23 5/8 in,720,pair,,,,,\n")


def test_the_first_frame_goes_into_the_job_file():
    new = with_frames(a_job("pinchrod = 1\n# nothing yet"), (), [NEW])

    assert new.main.content.decode() == (
        'pinchrod = 1\n# nothing yet\n\n[[frame]]\nid = "X1"\nwidth = "23 5/8 in"\nheight = 720\nlayout = "pair"'
    )


def test_a_frame_taken_out_takes_its_own_remark_along_and_no_other():
    new = without_frame(a_job(JOB), (), "K1")

    assert (
        new.main.content.decode()
        == "pinchrod = 1   # the form\n\n# The last one.\n\n" + JOB[JOB.index('[[frame]]\nid = "K2"') :]
    )


def test_a_moved_frame_takes_its_remarks_along():
    new = moved(a_job(JOB), (), "K1")

    assert ids(new.main) == ["K2", "K1"]
    assert "# Two frames.\n[[frame]]\nid = 'K1'\n  width = 600  # as taped\n" in new.main.content.decode()


def test_a_frame_may_move_from_the_job_file_to_its_list_and_back():
    there = moved(MAIN, JOINED, "K1", before="B2")
    back = moved(there.main, there.joined, "K1", before="K2")

    assert ids(there.main, there.joined) == [*DEMO_IDS[1:22], "K1", *DEMO_IDS[22:]]
    assert frames_of(back.main, back.joined) == frames_of(MAIN, JOINED)


def test_frames_in_braces_are_edited_as_well():
    source = a_job(
        'pinchrod = 1\nframe = [\n  { id = "K1", width = 600 },  # first\n  { id = "K2", width = 700 },\n]\n'
    )

    new = with_frame(source, (), "K2", (("width", "710"), ("layout", "pair")))
    new = with_frames(new.main, (), [(("id", "K3"),)])
    new = without_frame(new.main, (), "K1")

    assert new.main.content.decode() == (
        'pinchrod = 1\nframe = [\n  { id = "K2", width = 710, layout = "pair" },\n  { id = "K3" },\n]\n'
    )


@pytest.mark.parametrize(
    "text", ["[]", "[ ]", '[{ id = "K1" }]', '[{ id = "K1" },]', '[\n  { id = "K1" },\n]']
)
def test_frames_in_braces_come_and_go_to_the_last(text):
    source = a_job(f"pinchrod = 1\nframe = {text}\n[gaps]\nedge = 2\n")
    first = ids(source)

    new = with_frames(
        source, (), [(("id", "K2"), ("width", "600")), (("id", "K3"), ("layout", 'door 5" over pair'))]
    )
    moved_up = moved(new.main, (), "K3", before=[*first, "K2"][0])
    emptied = moved_up
    for name in ids(moved_up.main):
        emptied = without_frame(emptied.main, (), name)

    assert ids(new.main) == [*first, "K2", "K3"]
    assert ids(moved_up.main) == ["K3", *first, "K2"]
    assert ids(emptied.main) == []
    assert emptied.main.content.endswith(b"]\n[gaps]\nedge = 2\n")


def test_a_job_file_may_lose_its_last_frame_and_get_another():
    source = a_job("pinchrod = 1\n[[frame]]\nid = 'K1'")

    empty = without_frame(source, (), "K1")

    assert empty.main.content == b"pinchrod = 1"
    assert ids(with_frames(empty.main, (), [NEW]).main) == ["X1"]


def test_the_only_row_of_a_list_goes_and_its_header_stays():
    empty = without_frame(a_job("id,width\nK1,600\n", "frames.csv"), (), "K1")

    new = with_frames(empty.main, (), [(("width", "700"), ("id", "K2"))])

    assert empty.main.content == b"id,width\n"
    assert new.main.content == b"id,width\nK2,700\n"


def test_no_frames_more_is_no_change():
    assert with_frames(MAIN, JOINED, []).main == MAIN


def test_a_row_that_ends_too_soon_is_made_whole():
    source = a_job("id,width,height,layout\nK1,600\nK2\n", "frames.csv")

    new = with_frame(source, (), "K1", (("width", "601"), ("layout", "pair")))

    assert new.main.content == b"id,width,height,layout\nK1,601,,pair\nK2\n"


def test_a_workbook_alone_becomes_a_list():
    book = Source(name="frames.xlsx", content=a_workbook(("K1", 600, 720, "pair")))

    new = with_frames(book, (), [NEW])

    assert (new.main.name, new.main.content) == (
        "frames.csv",
        b"id,width,height,layout\nK1,600,720,pair\nX1,23 5/8 in,720,pair\n",
    )


def test_a_job_file_with_the_line_ends_of_windows_keeps_them():
    source = a_job(JOB.replace("\n", "\r\n"))

    new = with_frame(
        source, (), "K2", (("width", "610"), ("height", "720"), ("layout", "pair"), ("foot", "80"))
    )

    *before, last = JOB.replace("\n", "\r\n").rpartition("width = 600")
    assert new.main.content.decode() == f"{before[0]}width = 610{last}foot = 80\r\n"


def test_a_row_put_last_and_taken_out_leaves_the_list_without_its_last_line_end():
    source = a_job("id,width\nK1,600", "frames.csv")

    new = with_frames(source, (), [(("id", "K2"),)])

    assert new.main.content == b"id,width\nK1,600\nK2,"
    assert without_frame(new.main, (), "K2").main == source


def test_a_phrase_over_two_lines_stays_one_cell():
    new = with_frame(
        a_job("id,layout\nK1,pair\n", "frames.csv"), (), "K1", (("layout", "drawer\r\nover pair"),)
    )

    assert new.main.content == b'id,layout\nK1,"drawer\nover pair"\n'


def test_an_id_that_is_all_figures_is_no_number():
    new = with_frames(a_job(JOB), (), [(("id", "7"), ("width", "7"))])

    assert new.main.content.endswith(b'[[frame]]\nid = "7"\nwidth = 7\n')


def test_a_blank_word_that_was_said_stays():
    source = a_job('pinchrod = 1\n[[frame]]\nid = "K1"\nlayout = ""\nwidth = 600\n')

    new = with_frame(source, (), "K1", (("layout", ""), ("width", "610")))

    assert lines_changed(source, new.main) == ["-width = 600", "+width = 610"]


def test_a_line_of_words_that_looks_like_a_remark_is_none():
    source = a_job('pinchrod = 1\n[job]\ncustomer = """\n# a\n# b"""\n[[frame]]\nid = "K1"\n')

    assert without_frame(source, (), "K1").main.content.endswith(b'# b"""\n')


def test_an_edit_that_would_take_more_along_is_not_made():
    source = a_job('pinchrod = 1\n[[frame]]\nid = "K1"\n[gaps]\nedge = 2\n[frame.foot]\nx = 3\n')

    assert refusals(without_frame, source, (), "K1") == ["frames-by-hand"]


def test_a_workbook_becomes_a_list_of_the_same_words_and_a_note_says_so():
    main = a_job('pinchrod = 1\n[job]\nframes = "frames.xlsx"  # the list\n')
    book = Source(
        name="frames.xlsx", content=a_workbook(("K1", 600.5, 720, "pair"), ("K2", 600, '28 3/8"', "door"))
    )

    new = with_frame(main, (book,), "K2", (("width", "610"), ("height", '28 3/8"'), ("layout", "door")))

    assert b'frames = "frames.csv"  # the list' in new.main.content
    assert [note.code for note in new.notes] == ["workbook-turned"]
    assert new.joined[0].name == "frames.csv"
    assert new.joined[0].content.decode() == (
        'id,width,height,layout\nK1,600.5,720,pair\nK2,610,"28 3/8""",door\n'
    )


def test_a_workbook_in_which_nothing_changes_stays_a_workbook():
    book = Source(name="frames.xlsx", content=a_workbook(("K1", 600, 720, "pair")))

    new = with_frame(book, (), "K1", frames_as_said(book)[0].words)

    assert (new.main, new.notes) == (book, ())


def test_a_workbook_whose_words_cannot_be_told_is_left_alone():
    book = Source(
        name="frames.xlsx",
        content=a_workbook(("K1", 600, 720, "pair"), ("K2", Raw('<c r="{at}"><f>1+1</f></c>'), 720, "pair")),
    )

    assert refusals(with_frame, book, (), "K1", NEW) == ["formula-unsaved"]


def test_the_lists_name_is_not_one_that_is_taken():
    main = a_job('pinchrod = 1\n[job]\nframes = "frames.xlsx"\nrack = "frames.csv"\n')
    book = Source(name="frames.xlsx", content=a_workbook(("K1", 600, 720, "pair")))

    new = without_frame(main, (book, a_job("board\n", "frames.csv")), "K1")

    assert b'frames = "frames-2.csv"' in new.main.content
    assert [source.name for source in new.joined] == ["frames-2.csv", "frames.csv"]


@pytest.mark.parametrize(
    ("word", "code"),
    [
        (("widht", "3"), "unknown-name"),
        (("layout", "pair\x00"), "hidden-letter"),
        (("layout", "\ud800"), "hidden-letter"),
        (("layout", "\u200bpair"), "hidden-letter"),
        (("layout", "x" * 1001), "words-long"),
    ],
)
def test_words_that_no_frame_can_say_are_refused(word, code):
    for which in ("K1", "B1"):
        assert refusals(with_frame, MAIN, JOINED, which, (word,)) == [code]


def test_words_that_are_only_wrong_are_written_and_told_by_reading():
    new = with_frame(MAIN, JOINED, "B2", (("width", "6OO"), ("height", "720"), ("layout", "pear")))
    _, _, problems = read_what_stands(new.main, new.joined)

    assert [(problem.code, problem.where.line) for problem in problems] == [
        ("length-letters", 3),
        ("unknown-word", 3),
    ]


@pytest.mark.parametrize(
    ("frame", "words"),
    [
        ('[[frame]]\nid = "K1"\n[frame.foot]\nx = 3\n', (("foot", "3"),)),
        ('[[frame]]\nid = "K1"\nfoot.x = 3\nfoot.y = 4\n', (("foot", "3"),)),
    ],
)
def test_frames_written_as_no_page_can_change_are_left_to_the_hand(frame, words):
    assert refusals(with_frame, a_job(f"pinchrod = 1\n{frame}"), (), "K1", words) == ["frames-by-hand"]


@pytest.mark.parametrize(
    ("text", "name", "codes"),
    [
        ("[", "job.toml", ["bracket-open"]),
        ("", "frames.csv", ["empty-file"]),
        ("\n\n", "frames.csv", ["no-frames"]),
        ("a,b\n1,2\n", "frames.csv", ["no-header"]),
        ('id,width\nK1,600\nK2,"6', "frames.csv", ["quote-open"]),
        ("id,width\n", "frames.xlsx", ["misnamed"]),
        ("id,width\n", "frames.doc", ["file-kind"]),
        (
            'pinchrod = 1\n[job]\nframes = "frames.csv"\n[[frame]]\nid = "K2"\n',
            "job.toml",
            ["file-not-given"],
        ),
    ],
)
def test_a_file_that_cannot_be_edited_is_refused_with_the_reason(text, name, codes):
    assert refusals(with_frame, a_job(text, name), (), "K1", NEW) == codes


def test_a_list_that_is_missing_keeps_no_frame_of_the_job_file_from_being_changed():
    new = with_frame(MAIN, (), "K1", NEW[1:])

    assert frames_as_said(new.main)[0].words[1:] == (
        ("width", "23 5/8 in"),
        ("height", "720"),
        ("layout", "pair"),
    )


def test_every_frame_of_the_demo_can_be_changed_in_turn():
    before = frames_of(MAIN, JOINED)
    for frame in frames_as_said(MAIN, JOINED):
        new = with_frame(MAIN, JOINED, frame.id, (*frame.words, ("width", "1999.5")))

        after = frames_of(new.main, new.joined)
        assert after.pop(frame.id) == {**before[frame.id], "width": Mm("1999.5")}
        assert after == {name: other for name, other in before.items() if name != frame.id}


def test_remarks_survive_the_change_of_every_frame():
    main, joined = MAIN, JOINED
    for frame in frames_as_said(MAIN, JOINED):
        new = with_frame(main, joined, frame.id, (*frame.words, ("width", "1111"), ("mid_rail", "39")))
        main, joined = new.main, new.joined

    assert remarks_of(main) == remarks_of(MAIN)
