"""A frame's page says what its diagonals should be, and what a difference comes to, where it has the room."""

import re
from dataclasses import replace
from math import hypot

import pytest

from pinchrod.papers.frames import frame_page as module
from pinchrod.papers.frames.frame_facts import facts_lots
from tests.builders import a_stack, an_opening
from tests.papers.data_builders import SHOP
from tests.papers.frame_builders import DRAWER_OVER_PAIR, a_rod, random_rods, written

CROWDED = a_stack(*[an_opening("drawer")] * 30)


def pages_of(rod, job):
    return module.frame_page(rod, job, SHOP, {}, ())


def words_on(rod, job):
    return [text for page in pages_of(rod, job) for text in written(page.marks)]


def rows_under(said, head, columns):
    """The table's cells after the last of its heads, row by row."""
    first = said.index(head) + 1
    cells = said[first : first + 4 * columns]
    return [tuple(cells[start : start + columns]) for start in range(0, len(cells), columns)]


def expected_of(rod):
    """For a small difference a frame leans by it, times diagonal / 2 x width; a gap narrows by its share."""
    width, height = float(rod.frame.width), float(rod.frame.height)
    longest = max(max(front.width, front.height) if front.hung else front.height for front in rod.fronts)
    for differs in (1, 2, 3, 5):
        lean = differs * hypot(width, height) / (2 * width)
        yield differs, lean, lean * float(longest) / height


@pytest.mark.parametrize(("width", "height"), [(600, 860), (700, 1000)])
def test_the_page_has_the_diagonal_and_what_one_longer_than_the_other_means(width, height):
    rod, job = a_rod(DRAWER_OVER_PAIR, width=width, height=height)
    said = words_on(rod, job)

    [diagonal] = [text.partition(": ")[2] for text in said if text.startswith("Both diagonals: ")]
    assert float(diagonal) == pytest.approx(hypot(width, height), abs=0.0501)
    rows = [tuple(map(float, row)) for row in rows_under(said, "a gap narrows", 3)]
    assert rows == [pytest.approx(row, abs=0.06) for row in expected_of(rod)]


def test_where_the_table_has_no_room_it_is_said_in_words():
    rod, job = a_rod(DRAWER_OVER_PAIR, width=400, height=700)
    said = " ".join(words_on(rod, job))

    found = re.search(r"Both diagonals: 806\.2; one longer by 1, 2, 3, 5: a gap narrows ([0-9., ]+)\.", said)
    assert found
    narrows = [float(each) for each in found[1].split(", ")]
    assert narrows == pytest.approx([row[2] for row in expected_of(rod)], abs=0.06)


def test_where_words_have_none_either_they_are_left_to_the_card_at_the_bench():
    said = words_on(*a_rod(DRAWER_OVER_PAIR))  # 600 x 720 fills its page at 1:5

    assert not any("diagonal" in text for text in said)


def test_a_frame_without_fronts_has_no_gap_to_narrow():
    said = words_on(*a_rod(an_opening("open")))

    assert "its top leans" in said
    assert "a gap narrows" not in said


def test_no_drawing_is_smaller_and_no_page_more_for_the_diagonals(monkeypatch):
    found = [*random_rods(17, 12), a_rod(CROWDED, width=600, height=2400)]
    with_them = [pages_of(rod, job) for rod, job in found]

    def without(facts, remarks):
        return (
            lots for lots in facts_lots(facts, remarks) if not any(_is_square(lot, facts) for lot in lots)
        )

    monkeypatch.setattr(module, "facts_lots", without)
    left_off = [pages_of(rod, job) for rod, job in found]

    assert [[page.scale for page in pages] for pages in with_them] == [
        [page.scale for page in pages] for pages in left_off
    ]
    assert any(
        list(map(_marks, one)) != list(map(_marks, two)) for one, two in zip(with_them, left_off, strict=True)
    )


def _is_square(lot, facts):
    said = (text for band in lot.bands(100.0) for text in written(band.marks))
    return any(text.startswith(facts.diagonal) for text in said)


def _marks(page):
    return replace(page, title="").marks
