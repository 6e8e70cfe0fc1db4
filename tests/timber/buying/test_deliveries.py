"""Deliveries made up: as offered, as the merchant's history has them, the same every time."""

from itertools import islice
from math import log
from statistics import mean

from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import Mm, Span
from pinchrod.job import Board, Fault
from pinchrod.timber.buying.chances import ln
from pinchrod.timber.buying.deliveries import delivery
from tests.timber.buying.offers import an_offer


def sent(offer, deliveries: int = 20, boards: int = 20) -> list[Board]:
    return [
        board
        for number in range(deliveries)
        for board in islice(delivery(offer, seed=1, number=number), boards)
    ]


def seen(number: int, faults: int, bow: int = 0) -> tuple[Board, ...]:
    spots = tuple(
        Fault(along=Span(Mm(200 + 150 * n), Mm(240 + 150 * n)), across=Span(Mm(60), Mm(90)))
        for n in range(faults)
    )
    return tuple(
        Board(
            name=f"H{n}",
            thickness=Mm(27),
            width=Mm(150),
            length=Mm(3000),
            price=Mm(0),
            bow=Mm(bow),
            faults=spots,
        )
        for n in range(number)
    )


def test_boards_come_within_the_sizes_offered_and_faults_on_the_board():
    for board in sent(an_offer(width=(120, 260), length=(2400, 4200))):
        assert 120 <= board.width <= 260
        assert 2400 <= board.length <= 4200
        for fault in board.faults:
            assert 0 <= fault.along.low < fault.along.high <= board.length
            assert fault.across is None or 0 <= fault.across.low < fault.across.high <= board.width


def test_the_nth_board_is_the_same_however_many_come():
    offer = an_offer()

    few, many = (list(islice(delivery(offer, seed=3, number=5), count)) for count in (4, 30))

    assert many[:4] == few
    assert list(islice(delivery(offer, seed=4, number=5), 4)) != few


def test_a_merchant_whose_boards_were_bad_is_believed_to_send_bad_ones():
    def faults(boards: list[Board]) -> float:
        return mean(sum(1 for fault in board.faults if fault.across) for board in boards)

    good, bad = an_offer(history=seen(30, 0)), an_offer(history=seen(30, 9))

    assert faults(sent(good)) < faults(sent(an_offer())) < faults(sent(bad))


def test_bowed_boards_are_believed_of_whoever_sent_them():
    straight, bowed = (
        mean(float(board.bow) for board in sent(an_offer(history=seen(40, 0, bow)))) for bow in (0, 20)
    )

    assert straight < 3 < 8 < bowed


def test_sizes_follow_what_was_sent_before():
    near = [abs(board.width - 150) <= 20 for board in sent(an_offer(history=seen(80, 0)))]

    assert sum(near) > 0.85 * len(near)


@given(st.floats(1e-12, 1e12))
def test_the_logarithm_is_the_logarithm(number):
    assert abs(ln(number) - log(number)) < 1e-9
