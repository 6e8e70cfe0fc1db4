"""Lengths are rounded once, where people read them."""

import pytest

from pinchrod.ground import INCH, Mm, quoted, rounded, show, show_fixed, show_inches, spell


@pytest.mark.parametrize(
    ("length", "step", "shown", "fixed"),
    [
        ("482.5", "0.1", "482.5", "482.5"),
        ("38", "0.1", "38", "38.0"),
        ("100", "0.1", "100", "100.0"),
        ("0", "0.1", "0", "0.0"),
        ("0.05", "0.1", "0.1", "0.1"),
        ("0.049", "0.1", "0", "0.0"),
        ("-0.05", "0.1", "-0.1", "-0.1"),
        ("-0.04", "0.1", "0", "0.0"),
        ("-0.5", "0.1", "-0.5", "-0.5"),
        ("-12.34", "0.1", "-12.3", "-12.3"),
        ("482.25", "0.5", "482.5", "482.5"),
        ("482.2", "0.5", "482", "482.0"),
        ("482.5", "1", "483", "483"),
        ("482.5", "5", "485", "485"),
        ("3.14159", "0.01", "3.14", "3.14"),
        ("3.009", "0.01", "3.01", "3.01"),
        ("500/3", "0.1", "166.7", "166.7"),
        ("600.075", "0.001", "600.075", "600.075"),
    ],
)
def test_a_length_is_shown_to_the_nearest_step(length, step, shown, fixed):
    assert show(Mm(length), Mm(step)) == shown
    assert show_fixed(Mm(length), Mm(step)) == fixed


def test_a_tenth_is_the_usual_step():
    assert show(Mm("482.46")) == "482.5"
    assert show_fixed(Mm("482.96")) == "483.0"


def test_half_a_step_is_rounded_away_from_zero():
    assert rounded(Mm("2.5"), Mm(1)) == 3
    assert rounded(Mm("-2.5"), Mm(1)) == -3
    assert rounded(Mm("-0.4"), Mm(1)) == 0


def test_a_step_without_an_end_as_a_decimal_is_a_fault_of_ours():
    with pytest.raises(ValueError, match=r"^1/3 has no end as a decimal$"):
        show_fixed(Mm(1), Mm(1, 3))


@pytest.mark.parametrize(
    ("inches", "denominator", "shown"),
    [
        ("189/8", 64, '23 5/8"'),
        ("5/8", 64, '5/8"'),
        ("24", 64, '24"'),
        ("0", 64, '0"'),
        ("1/129", 64, '0"'),
        ("1/128", 64, '1/64"'),
        ("23.999", 64, '24"'),
        ("23.99", 64, '23 63/64"'),
        ("2.5", 16, '2 1/2"'),
        ("2.34", 16, '2 5/16"'),
        ("-2.5", 16, '-2 1/2"'),
        ("-0.001", 16, '0"'),
    ],
)
def test_inches_are_shown_as_reduced_fractions(inches, denominator, shown):
    assert show_inches(Mm(inches) * INCH, denominator) == shown


def test_a_sixty_fourth_is_the_usual_fraction():
    assert show_inches(INCH * Mm(1, 64)) == '1/64"'


@pytest.mark.parametrize(
    ("length", "spelled"),
    [
        ("600", "600 mm"),
        ("0", "0 mm"),
        ("600.075", "600.075 mm"),
        ("0.396875", "0.396875 mm"),
        ("0.05", "0.05 mm"),
        ("500/3", "166 2/3 mm"),
        ("1/3", "1/3 mm"),
        ("1/6", "1/6 mm"),
        ("-2.5", "-2.5 mm"),
        ("-7/3", "-2 1/3 mm"),
        ("1/1024", "0.0009765625 mm"),
        ("1/625", "0.0016 mm"),
        ("1/30", "1/30 mm"),
    ],
)
def test_a_length_is_spelled_exactly(length, spelled):
    assert spell(Mm(length)) == spelled


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("600", '"600"'),
        ("", '""'),
        ('5"', "'5\"'"),
        ("5' 3\"", "'5' 3\"'"),
        ("a\x1b[31mb", '"a<U+001B>[31mb"'),
        ("1\n2\t3", '"1<U+000A>2<U+0009>3"'),
        ("\u202e600", '"<U+202E>600"'),
        ("\u2028", '"<U+2028>"'),
        ("\ud800", '"<U+D800>"'),
        ("1\u00a02\u20093", '"1 2 3"'),
        ("6½″", '"6½″"'),
        ("9" * 40, f'"{"9" * 40}"'),
        ("9" * 41, f'"{"9" * 40}…"'),
        ("\x00" * 41, '"' + "<U+0000>" * 40 + '…"'),
    ],
)
def test_a_text_is_quoted_so_that_it_can_do_no_harm(text, shown):
    assert quoted(text) == shown


def test_a_text_is_quoted_as_short_as_asked():
    assert quoted("a long story", 6) == '"a long…"'
