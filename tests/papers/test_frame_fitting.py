"""Fitting facts into what a drawing leaves free: none on another, none outside, found where there is a way."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.papers import Box
from pinchrod.papers.frames.frame_fitting import BESIDE, UNDER, Lot, fitted
from pinchrod.papers.pages.bands import Band, paragraph
from tests.papers.page_builders import texts

sizes = st.tuples(st.floats(5, 120), st.floats(5, 120))
free_places = st.lists(
    st.sampled_from([Box(20, 50, 120, 200), Box(130, 50, 194, 120)]), min_size=1, unique=True
)


def a_table(width: float, height: float) -> Lot:
    """A lot of one size, with nothing in it."""
    return Lot(lambda _: (Band(height=height, marks=()),), width, width)


@settings(deadline=None)
@given(st.lists(sizes, max_size=4), free_places)
def test_what_is_fitted_lies_in_a_free_place_and_on_nothing_else(tables, free):
    stood = fitted([a_table(*size) for size in tables], free)

    boxes = [each.box for each in stood or ()]
    assert stood is None or len(boxes) == len(tables)
    assert all(any(place.grown(1e-6).holds(box) for place in free) for box in boxes)
    assert not any(one.meets(other) for one, other in combinations(boxes, 2))


@settings(deadline=None)
@given(st.lists(sizes, min_size=1, max_size=4))
def test_a_place_made_for_a_row_or_a_column_of_lots_takes_them_all(tables):
    wide, high = [width for width, _ in tables], [height for _, height in tables]
    row = Box(0, 0, sum(wide) + BESIDE * (len(tables) - 1) + 1e-3, max(high) + 1e-3)
    column = Box(0, 0, max(wide) + 1e-3, sum(high) + UNDER * (len(tables) - 1) + 1e-3)

    for place in (row, column):
        assert fitted([a_table(*size) for size in tables], [place]) is not None


def test_words_go_under_the_shorter_of_two_tables():
    words = Lot(lambda width: (paragraph("door over drawer", width),), 45, 300)

    laid = fitted([a_table(60, 20), a_table(50, 60), words], [Box(0, 0, 118, 62)])

    assert laid
    _, _, said = laid
    assert (said.box.left, said.box.right) == (0, 60)
    assert said.box.top == 62 - 20 - UNDER
    assert texts(said.marks) == ["door over drawer"]


def test_what_has_no_room_is_not_squeezed():
    assert fitted([a_table(60, 20)], [Box(0, 0, 59, 100), Box(0, 0, 100, 19)]) is None
    assert fitted([a_table(60, 20)] * 2, [Box(0, 0, 100, 41)]) is None
