"""What boards count for in board feet, as every line that was found in print has it; and what they cost."""

import csv
import re
from io import StringIO
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import FOOT, INCH, Mm, Span, show, show_fixed
from pinchrod.job import (
    BOARD_FOOT,
    Board,
    Offer,
    Per,
    Source,
    Tallying,
    board_feet_of,
    measure,
    measure_of_delivery,
    price_of,
    price_of_delivery,
    read_job,
    tally_of,
)
from pinchrod.job.quarters import DRESSED, QUARTER, SOLD, quarters_of
from tests.job.bad_inputs import a_frame_saying

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "tallies.md").read_text("utf-8")
SURFACE, EXPORT, UNROUNDED = Tallying


def a_board(width, length, thickness=1, name="B"):
    """A board of inches by feet by inches."""
    return Board(
        name=name,
        thickness=Mm(thickness) * INCH,
        width=Mm(width) * INCH,
        length=Mm(length) * FOOT,
        price=Mm(0),
    )


def surfaces(boards, tallying=SURFACE):
    return [line.surface for line in tally_of(boards, tallying)]


def an_offer(price, per=Per.BOARD_FOOT, tallying=SURFACE):
    size = Span(Mm(100), Mm(300))
    return Offer(
        name="ash", thickness=INCH, width=size, length=size, price=Mm(price), per=per, tallying=tallying
    )


def test_a_board_foot_is_a_foot_by_a_foot_by_an_inch():
    """American hardwood export body, measurement page; in cubic metres by arithmetic."""
    assert a_board(12, 1).volume == BOARD_FOOT == Mm("0.002359737216")
    assert show(1 / BOARD_FOOT, Mm("0.001")) == "423.776"


@pytest.mark.parametrize(
    ("width", "length", "thickness", "unrounded", "surface", "feet"),
    [
        ("6.25", 8, 2, "4.1667", 4, 8),  # American hardwood export body, measurement page
        ("6.5", 8, 1, "4.3333", 4, 4),  # a timber importer's page on NHLA measurement, as are the next two
        ("8", 12, 1, "8", 8, 8),
        ("10", 13, 1, "10.8333", 11, 11),
    ],
)
def test_surface_measure_is_as_printed(width, length, thickness, unrounded, surface, feet):
    board = a_board(width, length, thickness)

    [exact], [line] = tally_of([board], UNROUNDED), tally_of([board], SURFACE)

    assert show(exact.surface, Mm("0.0001")) == unrounded
    assert (line.surface, line.board_feet) == (surface, feet)


def test_a_seller_of_single_boards_does_not_round():
    """An unrounded retail example: 8 in by 8 ft of 4/4 is 5.33 board feet."""
    [line] = tally_of([a_board(8, 8)], UNROUNDED)

    assert (show(line.surface, Mm("0.0001")), show(line.board_feet, Mm("0.01"))) == ("5.3333", "5.33")
    assert measure(a_board(8, 8), Per.BOARD_FOOT, UNROUNDED) == Mm(16, 3)


def test_an_export_tally_has_the_nearest_inch_and_the_foot_below():
    """American hardwood export body: 5 1/4 in by 8 1/2 ft is tallied 5 in by 8 ft."""
    [line] = tally_of([a_board("5.25", "8.5")], EXPORT)

    assert (line.width, line.length, line.surface) == (5, 8, 3)


def test_widths_of_an_exact_half_go_up_one_time_and_down_the_next_in_an_export_tally():
    """American hardwood export body: on the half inch alternately up or down."""
    boards = [a_board(width, 12) for width in ("5.5", "6.25", "5.5", "6.75", "5.5", "7.5")]

    assert [line.width for line in tally_of(boards, EXPORT)] == [6, 6, 5, 7, 6, 7]


def test_surfaces_of_an_exact_half_go_up_one_time_and_down_the_next():
    """G. Wengert, in a thread on rounding: up one time, down the next."""
    boards = [a_board(*size) for size in ((6, 9), (8, 8), (6, 9), (6, 11), (9, 10))]

    assert [measured.surface for measured in tally_of(boards, UNROUNDED)][2:] == [4.5, 5.5, 7.5]
    assert surfaces(boards) == [5, 5, 4, 6, 7]


def test_where_export_and_surface_measure_disagree_it_is_the_width_that_was_rounded_first():
    """NHLA Rules Corner: the surface measure tally governs; rounding widths first gives another total."""
    board = a_board("6.5", 8)

    assert (surfaces([board]), surfaces([board], EXPORT)) == ([4], [5])


@pytest.mark.parametrize(
    ("thickness", "quarters"),
    [("0.75", 4), ("1", 4), ("1.2", 4), ("1.25", 5), ("1.5", 6), ("1.75", 6), ("2", 8), ("2.5", 10), ("3", 12), ("4", 16), ("6", 16)],
)  # fmt: skip
def test_a_board_counts_for_the_quarters_it_is_no_thinner_than_and_for_an_inch_at_least(thickness, quarters):
    assert quarters_of(Mm(thickness) * INCH) == quarters


def test_metric_boards_count_for_the_quarters_below():
    assert [quarters_of(Mm(size)) for size in (20, 27, 32, 38, 40, 52, 80)] == [4, 4, 5, 5, 6, 8, 12]


def test_dressed_thicknesses_are_those_of_the_table():
    """US hardwood thickness tables, in mm as two web pages print them: S2S."""
    printed = {4: "20.6", 5: "27", 6: "33.3", 8: "44.5", 12: "69.9", 16: "95.3"}

    assert {quarters: show(size) for quarters, size in DRESSED.items()} == printed
    assert all(DRESSED[quarters] < quarters * QUARTER for quarters in DRESSED)
    assert set(DRESSED) <= set(SOLD)


def test_a_tally_adds_up_each_thickness_and_rounds_it_once():
    """A dealer's page of terms: the sum of surfaces by the thickness, to the closest board foot."""
    boards = [a_board(6, 10, "1.25"), a_board(6, 10, "1.25"), a_board(6, 8, "2"), a_board(6, 10, "1.25")]

    lines = tally_of(boards, SURFACE)

    assert [line.board_feet for line in lines] == [6.25, 6.25, 8, 6.25]
    assert board_feet_of(lines, SURFACE) == 19 + 8


def test_each_price_takes_what_it_is_for():
    board = Board(name="B", thickness=Mm(25), width=Mm(200), length=Mm(4000), price=Mm(0))

    assert price_of(an_offer(600, Per.CUBIC_METRE), board) == 600 * Mm("0.02")
    assert price_of(an_offer(3, Per.METRE), board) == 12
    assert price_of(an_offer(15, Per.BOARD), board) == 15
    assert price_of(an_offer(4), board) == 4 * 9  # 7.874 in by 13 ft: 8.53


def test_a_board_on_an_exact_half_costs_the_mean_of_both():
    half = a_board(6, 9)

    assert price_of(an_offer(2), half) == 9
    assert [price_of_delivery(an_offer(2), [half] * count) for count in (1, 2, 3)] == [10, 18, 28]


def test_an_export_board_on_the_half_inch_costs_the_mean_of_both_widths():
    board = a_board("6.5", 8)  # 6 in: 4; 7 in: 4.67, so 5

    assert price_of(an_offer(2, tallying=EXPORT), board) == 9
    assert price_of_delivery(an_offer(2, tallying=EXPORT), [board] * 2) == 18


SIXTEENTHS = st.integers(min_value=16, max_value=400).map(lambda n: Mm(n, 16))
TWELFTHS = st.integers(min_value=12, max_value=240).map(lambda n: Mm(n, 12))
BOARDS_OF_4_4 = st.lists(st.builds(a_board, SIXTEENTHS, TWELFTHS), min_size=1, max_size=30)


@given(boards=BOARDS_OF_4_4, tallying=st.sampled_from([SURFACE, UNROUNDED]))
def test_a_delivery_costs_what_its_boards_cost_but_for_one_half(boards, tallying):
    """Halves that go up and down cancel out; what is left is one half, and the rounding of the total."""
    alone = sum(measure(board, Per.BOARD_FOOT, tallying) for board in boards)

    assert 0 <= measure_of_delivery(boards, Per.BOARD_FOOT, tallying) - alone <= Mm(1, 2)


@given(boards=BOARDS_OF_4_4, tallying=st.sampled_from(list(Tallying)))
def test_every_line_of_a_tally_is_near_the_board(boards, tallying):
    for board, line in zip(boards, tally_of(boards, tallying), strict=True):
        assert abs(line.width - board.width / INCH) <= Mm(1, 2)
        assert 0 <= board.length / FOOT - line.length < 1
        assert abs(line.surface - line.width * line.length / 12) <= Mm(1, 2)
        if tallying is UNROUNDED:
            assert line.board_feet == board.volume / BOARD_FOOT


@given(boards=BOARDS_OF_4_4)
def test_halves_take_turns(boards):
    ups = [
        line.surface - exact
        for line in tally_of(boards, SURFACE)
        if (exact := line.width * line.length / 12) % 1 == Mm(1, 2)
    ]

    assert all(one == -two for one, two in pairwise(ups))
    assert ups[:1] in ([], [Mm(1, 2)])


def shown():
    """The example of the page: its boards, read as a rack is."""
    [text] = re.findall(r"^```rack\n(.*?)^```", PAGE, flags=re.MULTILINE | re.DOTALL)
    job = a_frame_saying().replace("pinchrod = 1\n", 'pinchrod = 1\n[job]\nrack = "tally.csv"\n', 1)
    files = (Source(name="tally.csv", content=text.encode()),)
    return text, read_job(Source(name="job.toml", content=job.encode()), files)[0].rack


def test_the_example_of_the_page_is_what_its_table_says():
    text, boards = shown()
    tallies = {tallying: tally_of(boards, tallying) for tallying in Tallying}
    rows = list(csv.DictReader(StringIO(text)))

    for number, (said, board) in enumerate(zip(rows, boards, strict=True)):
        export = tallies[EXPORT][number]
        cells = (
            board.name, f"{said['thickness']}, {said['width']} x {said['length']}", show_fixed(board.volume, Mm("0.0001")),
            show_fixed(board.volume / BOARD_FOOT, Mm("0.01")), tallies[SURFACE][number].surface,
            f"{export.width} x {export.length}", export.surface,
        )  # fmt: skip
        assert f"| {' | '.join(str(cell) for cell in cells)} |" in PAGE


def test_the_totals_of_the_page_are_those_of_its_tally():
    _, boards = shown()
    true = sum(board.volume for board in boards) / BOARD_FOOT
    assert f"| true volume | {show_fixed(true, Mm('0.01'))} | |" in PAGE

    for tallying in Tallying:
        feet = board_feet_of(tally_of(boards, tallying), tallying)
        per_mille = show(1000 * (feet - true) / true, Mm(1))
        assert f"| {tallying} | {show_fixed(feet, Mm('0.01'))} | {per_mille} |" in PAGE
