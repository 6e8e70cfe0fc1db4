"""What people write for a length is read exactly."""

from fractions import Fraction

import pytest

from pinchrod.ground import Mm, Unit, read_length

INCH = Fraction(254, 10)

MILLIMETRES = [
    ("600", "600"),
    ("0", "0"),
    ("0600", "600"),
    ("600mm", "600"),
    ("600 mm", "600"),
    ("600MM", "600"),
    ("600 Mm", "600"),
    ("600 mm.", "600"),
    ("  600  ", "600"),
    ("\t600\n", "600"),
    ("\u00a0600\u00a0", "600"),
    ("600\u00a0mm", "600"),  # the space that does not break a line
    ("600\u2009mm", "600"),  # the thin space of print
    ("600\u202fmm", "600"),
    ("600     mm", "600"),
    ("600 millimetres", "600"),
    ("1 millimetre", "1"),
    ("600 millimeters", "600"),
    ("1 millimeter", "1"),
    ("60 cm", "600"),
    ("60cm", "600"),
    ("60 centimetres", "600"),
    ("1 centimetre", "10"),
    ("60 centimeters", "600"),
    ("1 centimeter", "10"),
    ("1.2m", "1200"),
    ("1.2 M", "1200"),
    ("1,2 m", "1200"),
    ("2 metres", "2000"),
    ("1 metre", "1000"),
    ("2 meters", "2000"),
    ("1 meter", "1000"),
    ("600.5", "600.5"),
    ("600.125", "600.125"),
    ("1234.567", "1234.567"),
    ("95,5", "95.5"),
    ("95,25", "95.25"),
    ("95,25 mm", "95.25"),
    (".5", "0.5"),
    (",5", "0.5"),
    ("0.5 mm", "0.5"),
    ("12345678901234567890", "12345678901234567890"),
    ("166 2/3 mm", Fraction(500, 3)),
    ("½ mm", "0.5"),
    ("2½ cm", "25"),
]

INCHES = [
    ('23 5/8"', Fraction(189, 8)),
    ('23-5/8"', Fraction(189, 8)),
    ('23 - 5/8"', Fraction(189, 8)),
    ('23\u20115/8"', Fraction(189, 8)),  # the dash that does not break a line
    ('23\u20135/8"', Fraction(189, 8)),
    ("23⅝\u201d", Fraction(189, 8)),
    ('23⅝"', Fraction(189, 8)),
    ('23 ⅝"', Fraction(189, 8)),
    ('23-⅝"', Fraction(189, 8)),
    ("23 5/8 in", Fraction(189, 8)),
    ("23 5/8in", Fraction(189, 8)),
    ("23 5/8 in.", Fraction(189, 8)),
    ("23 5/8 ins", Fraction(189, 8)),
    ("23 5/8 inches", Fraction(189, 8)),
    ("23 5/8 INCHES", Fraction(189, 8)),
    ("23\u00a05/8\u00a0in", Fraction(189, 8)),
    ('23 5\u20448"', Fraction(189, 8)),  # the fraction stroke of print
    ('23 5 / 8"', Fraction(189, 8)),
    ("23.625 in", Fraction(189, 8)),
    ('23,5"', Fraction(47, 2)),
    ("23\u2033", Fraction(23)),
    ("23\u201d", Fraction(23)),
    ("23\u201c", Fraction(23)),
    ("23''", Fraction(23)),
    ("23\u2032\u2032", Fraction(23)),
    ("1 inch", Fraction(1)),
    ('5/8"', Fraction(5, 8)),
    ('10/16"', Fraction(5, 8)),
    ('0/8"', Fraction(0)),
    ('⅝"', Fraction(5, 8)),
    ('½"', Fraction(1, 2)),
    ('.5"', Fraction(1, 2)),
    ('1-1/2"', Fraction(3, 2)),
    ('1 1/2"', Fraction(3, 2)),
    ("2' 3 1/2\"", Fraction(55, 2)),
    ("5' 3 1/2\"", Fraction(127, 2)),
    ("5'3 1/2\"", Fraction(127, 2)),
    ("5'-3 1/2\"", Fraction(127, 2)),
    ("5' - 3 1/2 in", Fraction(127, 2)),
    ("5\u2032 3\u00bd\u2033", Fraction(127, 2)),
    ("5\u2019 3 1/2\u201d", Fraction(127, 2)),
    ("5 ft 3 1/2 in", Fraction(127, 2)),
    ("5 ft. 3 in.", Fraction(63)),
    ("5 feet 3 inches", Fraction(63)),
    ("5ft3in", Fraction(63)),
    ("5' 0\"", Fraction(60)),
    ("5' 11 63/64\"", Fraction(60 + 11) + Fraction(63, 64)),
    ("5'", Fraction(60)),
    ("1 foot", Fraction(12)),
    ("5 1/2 ft", Fraction(66)),
    ("2.5'", Fraction(30)),
]

UNMARKED_INCHES = [
    ("23 5/8", Fraction(189, 8)),
    ("23-5/8", Fraction(189, 8)),
    ("23.625", Fraction(189, 8)),
    ("23⅝", Fraction(189, 8)),
    ("5/8", Fraction(5, 8)),
    ("½", Fraction(1, 2)),
    ("24", Fraction(24)),
    ("24 ft", Fraction(288)),
    ("508 mm", Fraction(20)),
]

WHERE_COMMAS_ARE_THE_RULE = [
    ("1,234", "1.234"),
    ("1,2345", "1.2345"),
    ("95,5", "95.5"),
    ("95.5", "95.5"),
    ("0.234", "0.234"),
    ("1234.567", "1234.567"),
    ("1.2345", "1.2345"),
    ("600", "600"),
]


@pytest.mark.parametrize(("typed", "millimetres"), MILLIMETRES)
def test_a_length_in_metric_units_is_read_exactly(typed, millimetres):
    assert read_length(typed) == Mm(millimetres)


@pytest.mark.parametrize(("typed", "inches"), INCHES)
def test_a_length_marked_in_inches_or_feet_is_read_exactly(typed, inches):
    assert read_length(typed) == inches * INCH


@pytest.mark.parametrize(("typed", "inches"), UNMARKED_INCHES)
def test_a_number_without_a_mark_is_in_inches_where_inches_are_usual(typed, inches):
    assert read_length(typed, unit=Unit.INCH) == inches * INCH


@pytest.mark.parametrize(("typed", "millimetres"), WHERE_COMMAS_ARE_THE_RULE)
def test_a_comma_is_a_decimal_mark_where_commas_are_the_rule(typed, millimetres):
    assert read_length(typed, decimal_comma=True) == Mm(millimetres)


PRINTED = dict(
    zip(
        "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞",
        [
            "1/4",
            "1/2",
            "3/4",
            "1/7",
            "1/9",
            "1/10",
            "1/3",
            "2/3",
            "1/5",
            "2/5",
            "3/5",
            "4/5",
            "1/6",
            "5/6",
            "1/8",
            "3/8",
            "5/8",
            "7/8",
        ],
        strict=True,
    )
)


@pytest.mark.parametrize("sign", PRINTED)
def test_every_fraction_of_print_is_read(sign):
    assert read_length(f'7{sign}"') == (7 + Fraction(PRINTED[sign])) * INCH


def test_a_length_may_be_as_long_as_a_thousand_characters():
    assert read_length("600" + " " * 997) == 600
