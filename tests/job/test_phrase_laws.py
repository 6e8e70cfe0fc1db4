"""What holds for every phrase."""

import re
from string import ascii_lowercase

from hypothesis import assume, given
from hypothesis import strategies as st

from pinchrod.job import read_phrase, spell_phrase
from tests.job.phrase_builders import IN_A_FILE, anywhere, layouts, read

PIECES = [
    *("door", "doors", "pair", "drawer", "drawers", "panel", "open", "over", "beside", "left"),
    *("right", "two", "dor", "(", ")", "[", "]", "[80]", "3", "140", '3 1/8"', "1,234", "0", "-"),
    *("½", "mm", "140\u00a0mm", '5\n"', "\u202e", "\u00a0", "é", "#"),
]
junk = st.text(max_size=60) | st.lists(st.sampled_from(PIECES), max_size=25).map(" ".join)
junk |= st.lists(st.sampled_from(PIECES), max_size=12).map("".join)
counted = st.builds(
    "{} {}{}".format,
    st.sampled_from(["", "1", "2", "3"]),
    st.sampled_from(["door", "doors left", "pairs", "drawer", "drawers", "panels", "open"]),
    st.sampled_from(["", "", " 140", ' 5 1/2"']),
)


def chained(parts):
    several = st.lists(parts, min_size=1, max_size=4)
    chains = st.builds(str.join, st.sampled_from([" over ", " beside ", " over[80] "]), several)
    return st.builds("({}){}".format, chains, st.sampled_from(["", " 300"]))


loose = st.recursive(counted, chained, max_leaves=8)  # as people say it: more brackets than are needed
phrases = layouts.map(spell_phrase).filter(lambda phrase: len(phrase) <= 500)


@given(layouts)
def test_a_layout_said_again_reads_back_the_same(layout):
    phrase = spell_phrase(layout)
    assume(len(phrase) <= 1000)

    assert read(phrase) == layout


@given(junk)
def test_any_text_is_read_or_refused_with_reasons(phrase):
    layout, problems = read_phrase(phrase, IN_A_FILE)

    assert (layout is None) is any(problem.stops for problem in problems)
    assert all(0 <= problem.where.column - IN_A_FILE.column <= len(phrase) for problem in problems)
    assert all(problem.what.isprintable() and problem.mend.isprintable() for problem in problems)


@given(loose)
def test_what_is_read_can_be_said_again(phrase):
    layout, problems = read_phrase(phrase, IN_A_FILE)

    assert layout or {problem.code for problem in problems if problem.stops} <= {"unclear-way", "two-sizes"}
    assert layout is None or read(spell_phrase(layout)) == anywhere(layout)


@given(phrases, st.data())
def test_case_and_white_space_change_nothing(phrase, data):
    spaces = st.text(" \t\n\r\u00a0\u2009\u3000", min_size=1, max_size=4)
    spread = re.sub(r"(?<=[\[\]()])|(?=[\[\]()])| ", lambda _: data.draw(spaces), phrase)
    assume(len(spread) <= 1000)
    letters = data.draw(st.lists(st.booleans(), min_size=len(spread), max_size=len(spread)))
    shouted = "".join(a.upper() if up else a for a, up in zip(spread, letters, strict=True))

    assert read(shouted) == read(phrase)


@given(phrases, st.data())
def test_a_slip_in_a_word_changes_no_layout(phrase, data):
    word = data.draw(st.sampled_from([w for w in re.finditer("[a-z]+", phrase) if w[0] not in {"mm", "in"}]))
    at = data.draw(st.integers(word.start(), word.end() - 1))
    slip = data.draw(
        st.sampled_from(["", *ascii_lowercase, *(phrase[at] + a for a in ascii_lowercase + " ")])
    )
    slipped = phrase[:at] + slip + phrase[at + 1 :]

    layout, problems = read_phrase(slipped, IN_A_FILE)

    assert problems if layout is None else anywhere(layout) == read(phrase)
