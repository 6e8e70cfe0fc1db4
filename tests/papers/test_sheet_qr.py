"""Codes that a scanner reads."""

import pytest

from pinchrod.papers import qr_rows


def test_a_code_is_square_and_has_its_three_corner_marks():
    rows = qr_rows("J1000/S001")

    assert {len(row) for row in rows} == {len(rows)}
    assert len(rows) >= 21  # never the Micro kind, which has 17 at most
    assert rows[0].startswith("1111111")
    assert rows[0].endswith("1111111")
    assert rows[-1].startswith("1111111")


@pytest.mark.parametrize("error", ["l", "m", "q", "h"])
def test_what_bears_more_damage_is_never_smaller(error):
    text = "J1000/K17-LS/7F3A/REV2"

    assert len(qr_rows(text, error)) >= len(qr_rows(text, "l"))
