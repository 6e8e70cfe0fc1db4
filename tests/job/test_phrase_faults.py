"""Phrases that are refused or doubted: what for, and at which letter."""

import pytest

from pinchrod.ground import Where
from pinchrod.job import read_phrase
from tests.job.phrase_builders import IN_A_FILE, faults

WORDS = {
    "": [("empty-phrase", 1)],
    " \t\u00a0": [("empty-phrase", 1)],
    "dor": [("unknown-word", 1)],
    "door over drwer": [("unknown-word", 11)],
    "door ovr drawer": [("unknown-word", 6)],
    "dooroverdoor": [("unknown-word", 1)],
    "door lft over pair": [("unknown-word", 6)],
    "door and door": [("unknown-word", 6)],
    "(door) lft": [("unknown-word", 8)],
    "door\u017f": [("foreign-letter", 5)],
    "door over d\u043eor": [("foreign-letter", 12)],
    "door \u043ever door": [("foreign-letter", 6)],
    "# door": [("strange-letter", 1)],
    "door, over door": [("strange-letter", 5)],
    "door over door.": [("strange-letter", 15)],
    "door\u202e over door": [("strange-letter", 5)],
    "door\x00": [("strange-letter", 5)],
    "door\x1cover door": [("strange-letter", 5)],
    "door\x85over door": [("strange-letter", 5)],
    "door\u200b over door": [("strange-letter", 5)],
    "left door": [("side-alone", 1)],
    "door over right": [("side-alone", 11)],
}

COUNTS = {
    "two doors": [("count-in-words", 1)],
    "door over Twenty drawers": [("count-in-words", 11)],
    "door over one": [("count-in-words", 11)],
    "0 doors": [("count-out-of-range", 1)],
    "201 doors": [("count-out-of-range", 1)],
    "1.5 doors": [("count-not-whole", 1)],
    "2.0 doors": [("count-not-whole", 1)],
    "½ door": [("count-not-whole", 1)],
    "-2 doors": [("count-not-whole", 1)],
    "1,234 doors": [("count-not-whole", 1)],
    "٣ doors": [("count-not-whole", 1)],
    f"{'9' * 500} doors": [("count-not-whole", 1)],
    "140mm drawer over door": [("count-not-whole", 1)],
    "0 panels": [("count-out-of-range", 1)],
    "1.5 panels": [("count-not-whole", 1)],
    "2 (door over door)": [("count-of-brackets", 1)],
    "two (doors)": [("count-of-brackets", 1)],
    "door over 80": [("number-alone", 11)],
    "door over (80) door": [("number-alone", 12), ("no-divider", 16)],
    "door over 80 over door": [("number-alone", 11)],
    "3 4 doors": [("number-alone", 1)],
    "door over 1,234": [("length-ambiguous", 11)],
}

SIZES_AND_SIDES = {
    "door 140 150": [("two-sizes", 10)],
    "door 140 left 150": [("two-sizes", 15)],
    "door 140 150 160": [("two-sizes", 10)],
    "door 0 150": [("size-of-nothing", 6), ("two-sizes", 8)],
    "(door over door) 300 400": [("two-sizes", 22)],
    "(door 500) 300": [("two-sizes", 12)],
    "((door over door) 500) 300": [("two-sizes", 24)],
    "((door 400) 500) 300": [("two-sizes", 13), ("two-sizes", 18)],
    "((door 400)) 300": [("two-sizes", 14)],
    "door 0": [("size-of-nothing", 6)],
    "door over (door over door) 0 mm": [("size-of-nothing", 28)],
    "door 14O": [("length-letters", 6)],
    "door 1,234 big over pair": [("length-ambiguous", 6)],
    "drawer 3 1/8 over door": [("length-ambiguous", 8)],
    "drawer -140 over door": [("length-negative", 8)],
    "(door over door) 1.234,5 tall": [("length-ambiguous", 18)],
    "door left right": [("two-sides", 11)],
    "door left 500 LEFT": [("two-sides", 15)],
    "pair left": [("side-without-door", 6)],
    "drawer 140 right": [("side-without-door", 12)],
    "panel left right": [("side-without-door", 7)],
    "open left": [("side-without-door", 6)],
    "2 openings left": [("unclear-way", 1), ("side-without-door", 12)],
    "(door) left": [("side-of-brackets", 8)],
    "(door over door) left 300 right": [("side-of-brackets", 18), ("side-of-brackets", 27)],
}

DIVIDERS = {
    "over": [("nothing-before", 1), ("nothing-after", 1)],
    "over door": [("nothing-before", 1)],
    "door over (beside door)": [("nothing-before", 12)],
    "door over": [("nothing-after", 6)],
    "(door beside) over door": [("nothing-after", 7)],
    "door over over door": [("two-dividers", 11)],
    "door over beside door": [("two-dividers", 11)],
    "door door": [("no-divider", 6)],
    "door 2 doors": [("no-divider", 6)],
    "drawer 140 door": [("no-divider", 12)],
    "drawer 140 3 drawers": [("no-divider", 12)],
    "door two drawers": [("no-divider", 6)],
    "door (door) over (dor)": [("no-divider", 6), ("unknown-word", 19)],
    "(door)(door)": [("no-divider", 7)],
    "(door) 3 doors": [("no-divider", 8)],
    "door over [80 door": [("square-not-closed", 11)],
    "door over [80": [("nothing-after", 6), ("square-not-closed", 11)],
    "door over [door over door": [("square-not-closed", 11)],
    "door over[80 over[90] door": [("square-not-closed", 10), ("two-dividers", 14)],
    "door over [] door": [("width-not-read", 11)],
    "door over [wide] door": [("width-not-read", 11)],
    "door over [80 90] door": [("width-not-read", 11)],
    "door over [#] door": [("width-not-read", 11)],
    "door over [0] door": [("width-of-nothing", 12)],
    "door over [1,234] door": [("length-ambiguous", 12)],
    "door over[80][90] door": [("square-out-of-place", 14)],
    "door [80] over door": [("square-out-of-place", 6)],
    "door] over door": [("square-out-of-place", 5)],
    "door over ] door": [("square-out-of-place", 11)],
}

BRACKETS = {
    "()": [("empty-brackets", 1)],
    "door over ( )": [("empty-brackets", 11)],
    "(": [("bracket-not-closed", 1)],
    "((door over door) beside door": [("bracket-not-closed", 1)],
    "(door over": [("bracket-not-closed", 1), ("nothing-after", 7)],
    ")": [("bracket-not-opened", 1)],
    "door over door)": [("bracket-not-opened", 15)],
    "door) over door)": [("bracket-not-opened", 5), ("bracket-not-opened", 16)],
    "door over ) door": [("nothing-after", 6), ("bracket-not-opened", 11)],
    "dor (drwer) over door": [("unknown-word", 1), ("unknown-word", 6)],
    "dor (door": [("unknown-word", 1), ("bracket-not-closed", 5)],
}

TWO_MEANINGS = {
    "door over door beside door": [("mixed-ways", 16)],
    "door beside (door over door beside door)": [("mixed-ways", 29)],
    "door over dor beside door": [("unknown-word", 11), ("mixed-ways", 15)],
    "door over over door beside door": [("two-dividers", 11)],
    "2 panels": [("unclear-way", 1)],
    "door over (3 open 80)": [("unclear-way", 12)],
    "((2 panels)) beside door": [("unclear-way", 3)],
    "door beside 3 drawers 140": [("size-reading", 23)],
    "door beside (3 drawers 140 beside door)": [("size-reading", 24)],
    "door over 3 drawers 140 beside door": [("mixed-ways", 25)],
    "door beside 3 drawers 140 over door": [("mixed-ways", 27)],
}

LIKELY_SLIPS = {
    "doors": [("plural-alone", 1)],
    "drawer over (pairs beside Doors 300)": [("plural-alone", 14), ("plural-alone", 27)],
    "1 doors over 1 pairs": [],
    "drawer over 9 door": [],
    "drawer over 10 door": [("count-or-width", 13)],
    "drawer over 10 doors": [],
    "drawer beside (door beside 80 door 300)": [("count-or-width", 28)],
    "drawer over[38] 10 door": [],
    "drawer over[38] 20 door": [("count-or-width", 17)],
    "19 drawer over pair": [],
    "20 drawer over pair": [("count-or-width", 1)],
    "140 drawers over pair": [],
    "door over twelve drawer": [("count-in-words", 11)],
}

SEVERAL_AT_ONCE = {
    "dor over drawer left over (pair over) over 0 doors": [
        ("unknown-word", 1),
        ("side-without-door", 17),
        ("nothing-after", 33),
        ("count-out-of-range", 44),
    ],
    "two dors 14O over (door #) lft": [
        ("count-in-words", 1),
        ("strange-letter", 25),
        ("unknown-word", 28),
    ],
    "1.5 doors 0 left right door": [
        ("count-not-whole", 1),
        ("size-of-nothing", 11),
        ("two-sides", 18),
        ("no-divider", 24),
    ],
}

REFUSED = (
    WORDS | COUNTS | SIZES_AND_SIDES | DIVIDERS | BRACKETS | TWO_MEANINGS | LIKELY_SLIPS | SEVERAL_AT_ONCE
)


@pytest.mark.parametrize("phrase", REFUSED)
def test_every_fault_of_a_phrase_is_told_at_its_letter(phrase):
    assert faults(phrase) == REFUSED[phrase]


@pytest.mark.parametrize(
    ("phrase", "readings"),
    [
        ("drawer over 80 door", ("over[80] door", "over 80 doors")),
        ("drawer beside 80 opening", ("beside[80] opening", "beside 80 openings")),
        ("140 drawer over pair", ("drawer 140", "140 drawers")),
    ],
)
def test_a_count_that_may_be_a_size_is_doubted_with_both_spellings(phrase, readings):
    layout, [problem] = read_phrase(phrase, IN_A_FILE)

    assert layout is not None
    assert problem.mend == 'write "{}" if it is mm, or "{}" if so many are meant'.format(*readings)


def test_a_fault_keeps_the_file_line_and_name_of_its_phrase():
    _, [problem] = read_phrase("door over drwer", IN_A_FILE)

    assert problem.where == Where(name="K1", file="job.toml", line=31, column=21)
    assert str(problem).startswith(
        'job.toml:31:21: K1: "drwer" is no word of a layout; did you mean "drawer"?'
    )


def test_in_a_cell_a_fault_is_told_by_counting_letters():
    cell = Where(name="K1", file="frames.xlsx", cell="Frames!D7")

    _, [problem] = read_phrase("door over drwer", cell)

    assert problem.where == cell
    assert problem.what == '"drwer" is no word of a layout, at letter 11 of the phrase'


@pytest.mark.parametrize("phrase", ["", "door" * 300])
def test_what_is_wrong_with_a_whole_phrase_is_at_no_letter(phrase):
    cell = Where(name="K1", file="frames.xlsx", cell="Frames!D7")

    layout, [problem] = read_phrase(phrase, cell)

    assert layout is None
    assert problem.where == cell
    assert "at letter" not in problem.what
