"""Laws of lengths that hold for every length and every text."""

from contextlib import suppress
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import (
    INCH,
    Mm,
    NotALength,
    Unit,
    length_at,
    read_length,
    rounded,
    show,
    show_fixed,
    show_inches,
    spell,
)
from tests.ground.test_reading import INCHES, MILLIMETRES

decimals = st.decimals(0, 10**6, places=6).map(Mm)
sixty_fourths = st.integers(0, 64 * 10**4).map(lambda n: n * INCH / 64)
shares = st.builds(Mm, st.integers(0, 10**9), st.integers(1, 10**4))
lengths = decimals | sixty_fourths | shares
steps = st.sampled_from([Mm("0.01"), Mm("0.1"), Mm("0.5"), Mm(1), Mm(5), INCH / 64])
habits = st.fixed_dictionaries({"unit": st.sampled_from(Unit), "decimal_comma": st.booleans()})
typed = st.sampled_from([text for text, _ in MILLIMETRES + INCHES])
keys = st.text("0123456789 .,-+/'\"½⅝minftcOle\u2009\u201d\u2032\uff11\x00x()[]", max_size=30)
spaces = st.text(" \u00a0\u2009\t\n", max_size=4)


@given(lengths, st.sampled_from(Unit))
def test_what_is_spelled_is_read_back_as_the_very_same(length, unit):
    assert read_length(spell(length), unit=unit) == length


@given(lengths, steps)
def test_what_is_shown_is_within_half_a_step(length, step):
    assert abs(Mm(show(length, step)) - length) <= step / 2
    assert Mm(show(length, step)) == Mm(show_fixed(length, step)) == rounded(length, step)
    assert rounded(length, step) % step == 0


@given(lengths, st.sampled_from([2, 8, 16, 32, 64]))
def test_inches_shown_are_read_back_within_half_a_step(length, denominator):
    assert abs(read_length(show_inches(length, denominator)) - length) <= INCH / denominator / 2


@given(sixty_fourths)
def test_sixty_fourths_of_an_inch_are_shown_and_read_back_exactly(length):
    assert read_length(show_inches(length)) == length


def test_a_length_taken_to_inches_and_back_a_thousand_times_does_not_drift():
    length = Mm("600.075")

    for _ in range(1000):
        length = read_length(spell(read_length(show_inches(length))))

    assert length == Mm("600.075")


@given(st.lists(st.integers(1, 10**6).map(lambda n: Mm(n, 7)), max_size=9))
def test_positions_shown_differ_from_their_parts_by_less_than_a_step(parts):
    positions = [sum(parts[:count], Mm(0)) for count in range(len(parts) + 1)]

    shown = [Mm(show(position)) for position in positions]

    gaps = [above - below for below, above in pairwise(shown)]
    assert sum(gaps, Mm(0)) == shown[-1]
    assert all(abs(gap - part) <= Mm("0.1") for gap, part in zip(gaps, parts, strict=True))


@given(typed, spaces, spaces, habits)
def test_spaces_around_a_length_change_nothing(text, before, after, how):
    assert answer(before + text + after, how) == answer(text, how)


@given(typed, st.integers(0, 20), habits)
def test_no_beginning_of_a_length_is_answered_but_with_a_length_or_a_refusal(text, end, how):
    assert answer(text[:end], how)
    assert found(text[:end], 0, how)


@given(keys | st.text(max_size=50), st.integers(0, 50), habits)
def test_any_text_is_answered_with_a_length_or_a_refusal(text, start, how):
    assert answer(text, how)
    assert found(text, start, how)


@given(keys, habits)
def test_what_is_read_alone_is_read_in_a_phrase(text, how):
    with suppress(NotALength):
        length = read_length(text, **how)
        stripped = text.strip(" \u2009")
        assert length_at(f"drawer {stripped} over pair", 7, **how) == (length, 7 + len(stripped))


@given(lengths, st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_a_number_is_read_alike_with_and_without_a_space_before_its_unit(length, unit):
    number = show(length, Mm("0.001"))

    assert read_length(number + unit) == read_length(f"{number} {unit.upper()}")


def answer(text, how):
    """The length or the code of the refusal; anything else is let through to fail the test."""
    try:
        length = read_length(text, **how)
    except NotALength as refusal:
        return refusal.code
    assert isinstance(length, Mm)
    assert length >= 0
    return f"{length} mm"


def found(text, start, how):
    """The same for a length within a phrase, which must end within it."""
    try:
        length = length_at(text, start, **how)
    except NotALength as refusal:
        return refusal.code
    assert length is None or start < length[1] <= len(text)
    return str(length)
