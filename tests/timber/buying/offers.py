"""Offers and small jobs made up for trials of buying."""

from pinchrod.ground import Mm, Span
from pinchrod.job import Board, Offer, Per
from pinchrod.timber import Wanted
from pinchrod.timber.buying import Pains, ToBuy

FEW = Pains(deliveries=60, looks=10, tries=3)
Size = float | tuple[float, float]


def a_span(size: Size) -> Span:
    low, high = size if isinstance(size, tuple) else (size, size)
    return Span(Mm(str(low)), Mm(str(high)))


def an_offer(
    name: str = "sawn",
    thickness: float = 27,
    width: Size = (120, 260),
    length: Size = (2400, 4200),
    price: float = 800,
    per: Per = Per.CUBIC_METRE,
    history: tuple[Board, ...] = (),
) -> Offer:
    return Offer(
        name=name,
        thickness=Mm(str(thickness)),
        width=a_span(width),
        length=a_span(length),
        price=Mm(str(price)),
        per=per,
        history=history,
    )


def planed(name: str, length: float, price: float = 2, width: float = 45) -> Offer:
    return an_offer(name, 22, width, length, price, Per.METRE)


def some(number: int, length: float, width: float = 45, beads: int = 1, called: str = "M") -> Wanted:
    marks = tuple(f"{called}{place}" for place in range(1, number + 1))
    return Wanted(marks=marks, width=Mm(str(width)), thickness=Mm(22), length=Mm(str(length)), beads=beads)


STILES, RAILS = some(12, 860, called="S"), some(14, 521, 38, 2, called="R")


def to_buy(*offers: Offer, wanted: tuple[Wanted, ...] = (STILES, RAILS), **more: object) -> ToBuy:
    return ToBuy(wanted=wanted, offers=offers, **more)  # type: ignore[arg-type]  # each by its name
