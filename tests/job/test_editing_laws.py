"""What holds of every edit, however the files were written."""

from collections import Counter

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pinchrod.ground import NotYetRight
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
from pinchrod.job.frames import FRAME_KEYS
from tests.job.bad_inputs import GROUPS
from tests.job.edits import frames_of, ids, sizes, words_of_all

SIZES = st.sampled_from(["600", "720.5", "23 5/8 in", '28 3/8"', "60 cm", "1400", "999,5"])
LAYOUTS = st.sampled_from(
    ["pair", "drawer 140 over pair", "2 doors", "open", 'drawer 5 1/2" over door', "door beside pair"]
)
ODD = {
    "quantity": st.sampled_from(["1", "2", "30"]),
    "left_stile": st.sampled_from(["50", "2 in", "61.5"]),
    "foot": st.sampled_from(["0", "80"]),
    "muntin": st.sampled_from(["30", "4 cm"]),
}
SAID = st.fixed_dictionaries({"width": SIZES, "height": SIZES, "layout": LAYOUTS}, optional=ODD)
REMARKS = st.sampled_from(["", "  # as taped", " # ° ö", '\t# "quoted" = 3'])
ABOVE = st.sampled_from(["", "# Kitchen.\n", "# Kitchen.\n\n", "\n\n", "   \n# two\n# lines\n"])
INDENTS = st.sampled_from(["", "  ", "\t"])
ENDS = st.sampled_from(["\n", "\r\n"])
FEWER = settings(max_examples=max(settings().max_examples // 3, 1))  # each reads several files several times
NAMES = [f"K{number}" for number in range(1, 6)]


def spelled(data, key, words):
    """The words as one of the ways in which TOML writes them."""
    ways = (
        [f'"{words}"']
        if '"' not in words
        else [f"'{words}'", '"' + words.replace('"', '\\"') + '"', f'"""{words} """']
    )
    ways += [f"'{words}'", f'"""{words}"""'] if '"' not in words else []
    ways += [words] if key not in ("layout", "id") and words.replace(".", "").isdigit() else []
    return data.draw(st.sampled_from(ways))


def a_toml_frame(data, name, said):
    indent, lines = data.draw(INDENTS), list({"id": name, **said}.items())
    pairs = [
        f"{indent}{key} = {spelled(data, key, words)}{data.draw(REMARKS)}\n"
        for key, words in data.draw(st.permutations(lines))
    ]
    return f"{data.draw(ABOVE)}[[frame]]{data.draw(REMARKS)}\n{''.join(pairs)}"


def in_cell(data, words, separator):
    if separator in words or '"' in words or data.draw(st.booleans()):
        return '"' + words.replace('"', '""') + '"'
    return data.draw(st.sampled_from([words, f" {words} "]))


def a_list(data, frames):
    """The text of a list with these frames, one way or another."""
    separator = data.draw(st.sampled_from(",;\t"))
    keys = data.draw(st.permutations(list(dict.fromkeys(key for said in frames.values() for key in said))))
    header = ["id", *(data.draw(st.sampled_from([key, key.replace("_", " ").title()])) for key in keys)]
    rows = [[name, *(said.get(key, "") for key in keys)] for name, said in frames.items()]
    lines = [
        separator.join(header),
        *(separator.join(in_cell(data, words, separator) for words in row) for row in rows),
    ]
    return (
        data.draw(st.sampled_from(["", f"sep={separator}\n", "\n"]))
        + "\n".join(lines)
        + data.draw(st.sampled_from(["", "\n", "\n\n"]))
    )


@st.composite
def jobs(draw):
    """A job with some frames in its own file and some in a list, and what each of them says."""
    data = Drawn(draw)
    said = {name: draw(SAID) for name in NAMES[: draw(st.integers(1, 5))]}
    cut = draw(st.integers(0, len(said)))
    own, listed = dict(list(said.items())[:cut]), dict(list(said.items())[cut:])
    joins = 'frames = "list.csv"  # joined\n' if listed else ""
    end = draw(ENDS)
    text = f'pinchrod = 1 # form\n[job]\nname = "A" # ä\n{joins}[members]\nstile = 46\n' + "".join(
        a_toml_frame(data, name, own[name]) for name in own
    )
    text += draw(st.sampled_from(["", "\n# the end", "\n[gaps]\nedge = 3\n"]))
    main = Source(name="job.toml", content=text.replace("\n", end).encode())
    code = draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]))
    joined = (
        (Source(name="list.csv", content=a_list(data, listed).replace("\n", end).encode(code)),)
        if listed
        else ()
    )
    return main, joined, said


class Drawn:
    """What `st.data()` offers, inside a composite strategy."""

    def __init__(self, draw):
        self.draw = draw


def alone(said, name="K1"):
    """The frame that these words make, read from a file of its own that has the same usual sizes."""
    lines = "".join(f"{key} = '{words}'\n" for key, words in {"id": name, **said}.items())
    job, _ = read_job(
        Source(name="job.toml", content=f"pinchrod = 1\n[members]\nstile = 46\n[[frame]]\n{lines}".encode())
    )
    return sizes(job.frames[0])


def readable(main, joined):
    job, _, problems = read_what_stands(main, joined)
    return job is not None and not any(problem.stops for problem in problems)


def remarks_in(source):
    return Counter(
        line.strip() for line in source.content.decode().splitlines() if line.strip().startswith("#")
    )


def by_words(refused):
    """Whether an edit was refused for a reason, and not because it went wrong."""
    assert refused.problems
    assert "frames-by-hand" not in {problem.code for problem in refused.problems}


@given(job=jobs())
def test_every_frame_is_given_back_in_the_words_it_was_said_in(job):
    main, joined, said = job

    found = words_of_all(main, joined)

    assert [{key: words.strip() for key, words in frame.items()} for frame in found] == [
        {"id": name, **words} for name, words in said.items()
    ]


@given(job=jobs())
def test_saying_the_same_again_changes_no_byte(job):
    main, joined, _ = job

    for frame in frames_as_said(main, joined):
        new = with_frame(main, joined, frame.id, frame.words)
        assert (new.main, new.joined, new.notes) == (main, joined, ())


@FEWER
@given(job=jobs(), new=SAID, data=st.data())
def test_only_the_changed_frame_changes_and_it_reads_as_the_words_say(job, new, data):
    main, joined, said = job
    assume(readable(main, joined))
    name = data.draw(st.sampled_from(list(said)))
    before = frames_of(main, joined)

    edited = with_frame(main, joined, name, tuple(new.items()))

    after = frames_of(edited.main, edited.joined)
    assert after == {**before, name: alone(new, name)}
    assert list(after) == list(before)
    assert remarks_in(edited.main) == remarks_in(main)


@FEWER
@given(job=jobs(), new=st.lists(SAID, min_size=1, max_size=3), data=st.data())
def test_frames_added_and_taken_out_again_leave_the_frames_as_they_were(job, new, data):
    main, joined, said = job
    assume(readable(main, joined))
    after = data.draw(st.sampled_from(["", *said]))
    rows = [(("id", f"N{at}"), *words.items()) for at, words in enumerate(new)]

    added = with_frames(main, joined, rows, after=after)
    both = frames_of(added.main, added.joined)
    edited = added
    for at in range(len(new)):
        edited = without_frame(edited.main, edited.joined, f"N{at}")

    before = frames_of(main, joined)
    assert both == {**before, **{f"N{at}": alone(words, f"N{at}") for at, words in enumerate(new)}}
    assert frames_of(edited.main, edited.joined) == before
    place = list(said).index(after) + 1 if after else len(said)
    assert ids(added.main, added.joined) == [
        *list(said)[:place],
        *(f"N{at}" for at in range(len(new))),
        *list(said)[place:],
    ]


@FEWER
@given(job=jobs(), data=st.data())
def test_a_job_file_that_had_a_frame_added_and_taken_out_is_the_same_to_the_byte(job, data):
    main, _, _ = job
    own = ids(main)
    assume(own)
    after = data.draw(st.sampled_from(own))

    added = with_frames(main, (), [(("id", "N1"), ("width", "600"))], after=after)

    assert without_frame(added.main, (), "N1").main == main


@FEWER
@given(job=jobs(), data=st.data())
def test_a_moved_frame_stands_before_the_other_and_all_frames_read_as_they_did(job, data):
    main, joined, said = job
    assume(readable(main, joined))
    name, before = data.draw(st.sampled_from(list(said))), data.draw(st.sampled_from(["", *said]))

    edited = moved(main, joined, name, before)

    rest = [other for other in said if other != name]
    place = (
        len(rest)
        if not before
        else list(said).index(before) - (list(said).index(name) < list(said).index(before))
    )
    assert ids(edited.main, edited.joined) == [*rest[:place], name, *rest[place:]]
    assert frames_of(edited.main, edited.joined) == frames_of(main, joined)


@given(
    job=jobs(),
    words=st.dictionaries(st.sampled_from(FRAME_KEYS), st.text(max_size=12), max_size=5),
    data=st.data(),
)
def test_whatever_is_typed_is_kept_to_the_letter_or_refused(job, words, data):
    main, joined, said = job
    name = data.draw(st.sampled_from(list(said)))
    at = list(said).index(name)
    try:
        edited = with_frame(main, joined, name, tuple(words.items()))
    except NotYetRight as refused:
        by_words(refused)
        return

    found = words_of_all(edited.main, edited.joined)
    typed = {
        key: value.replace("\r\n", "\n").replace("\r", "\n").strip()
        for key, value in {"id": name, **words}.items()
    }
    typed["id"] = typed["id"] or name
    assert found[at] == {key: value for key, value in typed.items() if value}
    assert found[:at] + found[at + 1 :] == [
        *words_of_all(main, joined)[:at],
        *words_of_all(main, joined)[at + 1 :],
    ]


CASES = [case for group in GROUPS.values() for case in group]


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_no_bad_input_keeps_a_frame_from_being_edited_or_refused_in_words(case):
    for frame in frames_as_said(case.source, case.joined)[:1]:
        for words in ((("width", "700"), ("layout", "pair")), (*frame.words, ("foot", "81"))):
            try:
                edited = with_frame(case.source, case.joined, frame.where, words)
            except NotYetRight as refused:
                by_words(refused)
            else:
                assert len(frames_as_said(edited.main, edited.joined)) == len(
                    frames_as_said(case.source, case.joined)
                )


@given(
    content=st.one_of(
        st.binary(max_size=60), st.text(alphabet="frame[]{}=\"'\n#.,;id1 \\", max_size=60).map(str.encode)
    ),
    name=st.sampled_from(["job.toml", "list.csv", "list.xlsx"]),
)
def test_no_bytes_bring_an_edit_down(content, name):
    source = Source(name=name, content=content)
    for edit in (lambda: with_frames(source, (), [(("id", "K1"),)]), lambda: without_frame(source, (), "K1")):
        try:
            assert edit().main != source
        except NotYetRight as refused:
            by_words(refused)
