"""What is no length, or more than one, is refused with its reason and what would mend it."""

import re
from contextlib import suppress

import pytest

from pinchrod.ground import NotALength, Unit, length_at, read_length

WRITE_FIGURES = "write the length in figures, as 600 or 23 5/8 in"
WRITE_ONE = "write one length, as 600 or 23 5/8 in"
WRITE_A_FRACTION = "write a fraction as 5/8"
WRITE_A_UNIT = "write mm, cm, m, in or ft after the number"
TWO = """write one, or feet and then inches with their marks, as 5' 3 1/2\""""
FEET = """write it as 5' 3 1/2", or in inches alone"""

REFUSED = [
    ("", "length-empty", "there is no length here", "write one, as 600 or 23 5/8 in"),
    ("   ", "length-empty", "there is no length here", "write one, as 600 or 23 5/8 in"),
    ("9" * 1001, "length-too-long", f'"{"9" * 40}…" runs on for more than 1000 characters', WRITE_ONE),
    ("600" + " " * 998, "length-too-long", f'"600{" " * 37}…" runs on for more than 1000 characters', WRITE_ONE),
    # two readings
    ("1,234", "length-ambiguous", '"1,234" is 1234 if the comma parts the thousands, 1.234 if not', "write 1234 or 1.234"),
    ("999,000 mm", "length-ambiguous", '"999,000" is 999000 if the comma parts the thousands, 999.000 if not', "write 999000 or 999.000"),
    ("1.234,5", "length-ambiguous", '"1.234,5" is 1234.5 if the point parts the thousands, and more than one number if not', "write 1234.5"),
    ("1,234.5", "length-ambiguous", '"1,234.5" is 1234.5 if the comma parts the thousands, and more than one number if not', "write 1234.5"),
    ("1,234,567", "length-ambiguous", '"1,234,567" is 1234567 if the comma parts the thousands, and more than one number if not', "write 1234567"),
    ("1 234", "length-ambiguous", '"1 234" is 1234 if the space parts the thousands, and more than one number if not', "write 1234"),
    ("12 345 678 mm", "length-ambiguous", '"12 345 678" is 12345678 if the space parts the thousands, and more than one number if not', "write 12345678"),
    ("1\u2009234", "length-ambiguous", '"1 234" is 1234 if the space parts the thousands, and more than one number if not', "write 1234"),
    ("23 5/8", "length-ambiguous", '"23 5/8" has no unit: 600.1 mm if inches are meant, 23.6 mm if not', "write 23 5/8 in or 23.625 mm"),
    ("1-1/2", "length-ambiguous", '"1-1/2" has no unit: 38.1 mm if inches are meant, 1.5 mm if not', "write 1 1/2 in or 1.5 mm"),
    ("½", "length-ambiguous", '"½" has no unit: 12.7 mm if inches are meant, 0.5 mm if not', "write 1/2 in or 0.5 mm"),
    # fractions
    ('19/16"', "length-fraction", '"19/16" is a fraction of 1 or more', "write 1 3/16 or 1 9/16, whichever is meant"),
    ("19/16", "length-fraction", '"19/16" is a fraction of 1 or more', "write 1 3/16 or 1 9/16, whichever is meant"),
    ('235/8"', "length-fraction", '"235/8" is a fraction of 1 or more', "write 29 3/8 or 23 5/8, whichever is meant"),
    ('123/64"', "length-fraction", '"123/64" is a fraction of 1 or more', "write 1 59/64 or 1 23/64 or 12 3/64, whichever is meant"),
    ('100/16"', "length-fraction", '"100/16" is a fraction of 1 or more', "write 6 1/4"),
    ('4/4"', "length-fraction", '"4/4" is a fraction of 1 or more', "write 1"),
    ('18/8"', "length-fraction", '"18/8" is a fraction of 1 or more', "write 2 1/4"),
    ("7/8/2", "length-fraction", '"7/8/2" is not one whole number over another', WRITE_A_FRACTION),
    ("5/8/2024", "length-fraction", '"5/8/2024" is not one whole number over another', WRITE_A_FRACTION),
    ('7/8.5"', "length-fraction", '"7/8.5" is not one whole number over another', WRITE_A_FRACTION),
    ('7.5/8"', "length-fraction", '"7.5/8" is not one whole number over another', WRITE_A_FRACTION),
    ("7/", "length-fraction", '"7/" is not one whole number over another', WRITE_A_FRACTION),
    ("3/0", "length-fraction", '"3/0" is a fraction over 0', WRITE_A_FRACTION),
    ("3/00", "length-fraction", '"3/00" is a fraction over 0', WRITE_A_FRACTION),
    # signs
    ("-5", "length-negative", '"-5" is less than 0', "write a length of 0 or more"),
    ("- 5 mm", "length-negative", '"- 5 mm" is less than 0', "write a length of 0 or more"),
    ("\u2212.5", "length-negative", '"-.5" is less than 0', "write a length of 0 or more"),
    ("--5", "length-sign", '"--5" has a sign before its number', "write the number alone"),
    ("+5", "length-sign", '"+5" has a sign before its number', "write the number alone"),
    ("-+5", "length-sign", '"-+5" has a sign before its number', "write the number alone"),
    ("5-", "length-sign", '"5-" has a sign after its number', "write the one length that is meant"),
    ("5+3", "length-sign", '"5+3" has a sign after its number', "write the one length that is meant"),
    ("600 - 3", "length-sign", '"600 - 3" has a sign after its number', "write the one length that is meant"),
    # digits and decimal marks
    ("5..0", "length-digits", '"5..0" has more than one decimal mark', "leave one, as in 600.5"),
    ("1.2.3", "length-digits", '"1.2.3" has more than one decimal mark', "leave one, as in 600.5"),
    ("12,34,567", "length-digits", '"12,34,567" has more than one decimal mark', "leave one, as in 600.5"),
    ("0,234,567", "length-digits", '"0,234,567" has more than one decimal mark', "leave one, as in 600.5"),
    ("600.", "length-digits", '"600." ends in its decimal mark', "write 600"),
    ("600,", "length-digits", '"600," ends in its decimal mark', "write 600"),
    ("1,2345", "length-digits", '"1,2345" has more than two digits after its comma', "write 1.2345 if the comma is the decimal mark"),
    ("0,234", "length-digits", '"0,234" has more than two digits after its comma', "write 0.234 if the comma is the decimal mark"),
    ("123456789012345678901", "length-digits", '"123456789012345678901" has 21 digits', "write a number of 20 digits at most"),
    ("123456789012345678901 1/2 in", "length-digits", '"123456789012345678901" has 21 digits', "write a number of 20 digits at most"),
    ("1/123456789012345678901 in", "length-digits", '"123456789012345678901" has 21 digits', "write a number of 20 digits at most"),
    ("123456789012345678901/2 in", "length-digits", '"123456789012345678901" has 21 digits', "write a number of 20 digits at most"),
    ("\uff16\uff10\uff10", "length-digits", '"\uff16\uff10\uff10" has digits other than 0 to 9', 'write "600"'),
    ("\u0663 mm", "length-digits", '"\u0663 mm" has digits other than 0 to 9', 'write "3 mm"'),
    ("6\u00b2", "length-digits", '"6\u00b2" has digits other than 0 to 9', 'write "62"'),
    # letters
    ("6OO", "length-letters", '"6OO" has the letter O where a 0 may be meant', "write 600"),
    ("6oo mm", "length-letters", '"6oo" has the letter o where a 0 may be meant', "write 600"),
    ("6OOmm", "length-letters", '"6OO" has the letter O where a 0 may be meant', "write 600"),
    ("l200", "length-letters", '"l200" has the letter l where a 1 may be meant', "write 1200"),
    ("I2.5", "length-letters", '"I2.5" has the letter I where a 1 may be meant', "write 12.5"),
    ("23 5/l6 in", "length-letters", '"5/l6" has the letter l where a 1 may be meant', "write 5/16"),
    ("1e3", "length-letters", '"1e3" is a calculator\'s way to write', "write 1000"),
    ("1.5E-3 mm", "length-letters", '"1.5E-3" is a calculator\'s way to write', "write 0.0015"),
    ("2E+2", "length-letters", '"2E+2" is a calculator\'s way to write', "write 200"),
    # no number at all
    ("NaN", "length-not-a-number", '"NaN" does not begin with a number', WRITE_FIGURES),
    ("inf", "length-not-a-number", '"inf" does not begin with a number', WRITE_FIGURES),
    ("O", "length-not-a-number", '"O" does not begin with a number', WRITE_FIGURES),
    ("six", "length-not-a-number", '"six" does not begin with a number', WRITE_FIGURES),
    ('mm"', "length-not-a-number", "'mm\"' does not begin with a number", WRITE_FIGURES),
    ('"', "length-not-a-number", "'\"' does not begin with a number", WRITE_FIGURES),
    ("X600", "length-not-a-number", '"X600" does not begin with a number', WRITE_FIGURES),
    ("£600", "length-not-a-number", '"£600" does not begin with a number', WRITE_FIGURES),
    ("-", "length-not-a-number", '"-" does not begin with a number', WRITE_FIGURES),
    (".", "length-not-a-number", '"." does not begin with a number', WRITE_FIGURES),
    ("/8", "length-not-a-number", '"/8" does not begin with a number', WRITE_FIGURES),
    # units
    ('600mm"', "length-unit", "'600mm\"' has a unit too many", "write one unit after the number"),
    ("600 mm mm", "length-unit", '"600 mm mm" has a unit too many', "write one unit after the number"),
    ("5'''", "length-unit", "\"5'''\" has a unit too many", "write one unit after the number"),
    ("600 furlongs", "length-unit", '"furlongs" is no unit of length', WRITE_A_UNIT),
    ("600X", "length-unit", '"X" is no unit of length', WRITE_A_UNIT),
    ("600 mmé", "length-unit", '"é" is no unit of length', WRITE_A_UNIT),
    ("2 off", "length-unit", '"off" is no unit of length', WRITE_A_UNIT),
    ("600 %", "length-unit", '"%" is no unit of length', WRITE_A_UNIT),
    ("600;", "length-unit", '";" is no unit of length', WRITE_A_UNIT),
    # more than one length
    ("12 x 3", "length-two", '"12 x 3" is more than one length', TWO),
    ("600 5 in", "length-two", '"600 5 in" is more than one length', TWO),
    ("12345 234", "length-two", '"12345 234" is more than one length', TWO),
    ("1 2345", "length-two", '"1 2345" is more than one length', TWO),
    ("600 mm 234", "length-two", '"600 mm 234" is more than one length', TWO),
    ("23.5 5/8 in", "length-two", '"23.5 5/8 in" is more than one length', TWO),
    ("5½½", "length-two", '"5½½" is more than one length', TWO),
    ("5' 3", "length-two", '"5\' 3" is more than one length', TWO),
    ("5' 3 mm", "length-two", '"5\' 3 mm" is more than one length', TWO),
    ("5 in 3 in", "length-two", '"5 in 3 in" is more than one length', TWO),
    ("5' X3\"", "length-two", "'5' X3\"' is more than one length", TWO),
    ("5' -X3\"", "length-sign", "'5' -X3\"' has a sign after its number", "write the one length that is meant"),
    ("5' 14\"", "length-two", "'5' 14\"' is not whole feet and then less than 12 inches", FEET),
    ("5' 12\"", "length-two", "'5' 12\"' is not whole feet and then less than 12 inches", FEET),
    ("2.5' 3\"", "length-two", "'2.5' 3\"' is not whole feet and then less than 12 inches", FEET),
    ("2 1/2' 3\" wide", "length-two", "'2 1/2' 3\"' is not whole feet and then less than 12 inches", FEET),
    # what cannot be seen
    ("5\x1b[0m", "length-unseen", '"5<U+001B>[0m" has something in it that cannot be seen', "type it afresh instead of copying it"),
    ("600\u202e", "length-unseen", '"600<U+202E>" has something in it that cannot be seen', "type it afresh instead of copying it"),
    ("600\x1f", "length-unseen", '"600<U+001F>" has something in it that cannot be seen', "type it afresh instead of copying it"),
    ("5' \x1f3\"", "length-unseen", "'5' <U+001F>3\"' has something in it that cannot be seen", "type it afresh instead of copying it"),
    ("5'\x1f-3\"", "length-unseen", "'5'<U+001F>-3\"' has something in it that cannot be seen", "type it afresh instead of copying it"),
    ("\u200b600", "length-unseen", '"<U+200B>600" has something in it that cannot be seen', "type it afresh instead of copying it"),
    ("\ud800", "length-unseen", '"<U+D800>" has something in it that cannot be seen', "type it afresh instead of copying it"),
    ("6\x0000", "length-unseen", '"6<U+0000>00" has something in it that cannot be seen', "type it afresh instead of copying it"),
]  # fmt: skip

NOT_OUR_WORDS = re.compile(
    r"\b(in)?valid|please|sorry|oops|illegal|forbidden|must not|unspecified|error", re.IGNORECASE
)


def refusal(typed, **how):
    with pytest.raises(NotALength) as caught:
        read_length(typed, **how)
    return caught.value


@pytest.mark.parametrize(("typed", "code", "what", "mend"), REFUSED)
def test_what_is_not_one_length_is_refused_in_words(typed, code, what, mend):
    said = refusal(typed)

    assert (said.code, said.what, said.mend) == (code, what, mend)
    assert str(said) == f"{what}; {mend}"


@pytest.mark.parametrize(("typed", "code", "what", "mend"), REFUSED)
def test_the_words_of_a_refusal_blame_nobody(typed, code, what, mend):
    assert not NOT_OUR_WORDS.search(f"{what} {mend}")


def test_a_point_may_part_thousands_where_commas_are_the_rule():
    said = refusal("1.234", decimal_comma=True)

    assert said.code == "length-ambiguous"
    assert said.what == '"1.234" is 1234 if the point parts the thousands, 1.234 if not'
    assert said.mend == "write 1234 or 1,234"


def test_decimal_commas_change_nothing_about_two_marks():
    assert refusal("1.234,5", decimal_comma=True).mend == "write 1234.5"
    assert refusal("1.234 in", decimal_comma=True).code == "length-ambiguous"
    assert refusal("5' 1.234\"", decimal_comma=True).code == "length-ambiguous"


def test_what_a_refusal_tells_to_write_is_read():
    for typed, code, _, mend in REFUSED:
        if code in ("length-ambiguous", "length-letters", "length-digits") and mend.startswith("write "):
            for advice in mend.removeprefix("write ").split(" or "):
                if advice.replace(".", "").isdigit():
                    assert read_length(advice) >= 0, typed


def test_inches_being_usual_does_not_let_a_slip_through():
    for typed in ("19/16", "7/8/2", "3/0", "1,234", "-5", "1 234", "12 x 3"):
        assert refusal(typed, unit=Unit.INCH).code == refusal(typed).code


@pytest.mark.parametrize(
    "piece",
    [
        "9",
        " ",
        "/",
        "1/",
        "1 ",
        "-",
        "1-",
        ".",
        ",",
        "O",
        "l.",
        "'",
        "1'",
        '"',
        "½",
        "e",
        "mm",
        "\x00",
        "1' 1",
    ],
)
def test_a_text_of_a_hundred_thousand_letters_is_refused_at_once(piece):
    nasty = piece * (100_000 // len(piece))

    assert refusal(nasty).code == "length-too-long"
    with suppress(NotALength):
        length_at(nasty, 1)
