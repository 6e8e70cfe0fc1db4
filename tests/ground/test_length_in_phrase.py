"""A length within a layout phrase is read up to its last letter, and no further."""

import pytest

from pinchrod.ground import Mm, NotALength, Unit, length_at

FOUND = [
    ("140 over pair", "140", "140"),
    ("140 2 doors", "140", "140"),
    ("140 200 doors", "140", "140"),
    ("140mm 2 doors", "140", "140mm"),
    ("140 mm over", "140", "140 mm"),
    ("140 pair", "140", "140"),
    ("140 middle", "140", "140"),
    ("5 inside", "5", "5"),
    ("5 in over", "127", "5 in"),
    ("5 in. over", "127", "5 in."),
    ('5 1/2" over pair', "139.7", '5 1/2"'),
    ("5½” over pair", "139.7", "5½”"),
    ("5-1/2 inches over", "139.7", "5-1/2 inches"),
    ("1' 2 doors", "304.8", "1'"),
    ("1' 2\" doors", "355.6", "1' 2\""),
    ("1' 2 mm", "304.8", "1'"),
    ("80]", "80", "80"),
    ("80)", "80", "80"),
    ("80(door)", "80", "80"),
    ("80[3]", "80", "80"),
    ("80;", "80", "80"),
    ("80", "80", "80"),
    ("80 ", "80", "80"),
    ("80 -", "80", "80"),
    ("95,5 over", "95.5", "95,5"),
    ("2 off", "2", "2"),
    ("12 x 3", "12", "12"),
]

REFUSED = [
    ("140over pair", "length-unit", '"over" is no unit of length'),
    ("140x", "length-unit", '"x" is no unit of length'),
    ("140mm2 doors", "length-two", '"140mm2" is more than one length'),
    ('140mm" over', "length-unit", "'140mm\"' has a unit too many"),
    ("140mm' over", "length-unit", '"140mm\'" has a unit too many'),
    ("14\uff10 over", "length-digits", '"14\uff10" has digits other than 0 to 9'),
    ("\uff14 over", "length-digits", '"\uff14" has digits other than 0 to 9'),
    ("\uff14x over", "length-digits", '"\uff14x" has digits other than 0 to 9'),
    ("1O0] over", "length-letters", '"1O0" has the letter O where a 0 may be meant'),
    ("-5 over", "length-negative", '"-5" is less than 0'),
    ("-5] over", "length-negative", '"-5" is less than 0'),
    ("-5) over", "length-negative", '"-5" is less than 0'),
    ("+5 over", "length-sign", '"+5" has a sign before its number'),
    ("140- over", "length-sign", '"140-" has a sign after its number'),
    ("140+20(over", "length-sign", '"140+20" has a sign after its number'),
    ("7/8/2 over", "length-fraction", '"7/8/2" is not one whole number over another'),
    ("5 1/2 over", "length-ambiguous", '"5 1/2" has no unit: 139.7 mm if inches are meant, 5.5 mm if not'),
    ("1,234 over", "length-ambiguous", '"1,234" is 1234 if the comma parts the thousands, 1.234 if not'),
    ("140..", "length-digits", '"140.." has more than one decimal mark'),
    ("140mm.. over", "length-unit", '"." is no unit of length'),
    ("1'2 doors", "length-two", '"1\'2" is more than one length'),
    ("1' 14\" over", "length-two", "'1' 14\"' is not whole feet and then less than 12 inches"),
]


@pytest.mark.parametrize(("words", "millimetres", "said"), FOUND)
def test_a_length_in_a_phrase_ends_with_its_own_last_letter(words, millimetres, said):
    phrase = f"drawer {words}"

    assert length_at(phrase, 7) == (Mm(millimetres), 7 + len(said))


@pytest.mark.parametrize("words", ["over", "", " 140", "]", "-", "- 5", "O", ".", "/8", '"', "pair 140"])
def test_where_no_number_begins_there_is_no_length(words):
    assert length_at(f"drawer {words}", 7) is None


@pytest.mark.parametrize(("words", "code", "what"), REFUSED)
def test_a_number_that_is_no_length_is_refused_in_a_phrase(words, code, what):
    with pytest.raises(NotALength) as caught:
        length_at(f"drawer {words}", 7)

    assert (caught.value.code, caught.value.what) == (code, what)


def test_habits_hold_in_a_phrase_too():
    assert length_at("5 1/2 over", 0, unit=Unit.INCH) == (Mm("139.7"), 5)
    assert length_at("1,234 over", 0, decimal_comma=True) == (Mm("1.234"), 5)


def test_letters_further_on_in_a_phrase_are_not_looked_at():
    assert length_at("140 over 6OO\x00", 0) == (Mm(140), 3)


def test_a_length_in_a_phrase_may_be_as_long_as_a_thousand_letters():
    assert length_at("1" + " " * 997 + "mm over", 0) == (Mm(1), 1000)


@pytest.mark.parametrize("words", ["1" + " " * 998 + "mm over", "1" + "0" * 1000, "1" + "x" * 1000])
def test_a_longer_one_is_refused_and_never_cut_short(words):
    with pytest.raises(NotALength) as caught:
        length_at(words, 0)

    assert caught.value.code in {"length-too-long", "length-digits"}
