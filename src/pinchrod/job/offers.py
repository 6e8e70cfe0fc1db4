"""What a merchant offers: boards by size, at a price."""

from dataclasses import dataclass, field
from enum import StrEnum

from pinchrod.ground import Mm, Span, Where
from pinchrod.job.boards import Board

__all__ = ["Offer", "Per"]


class Per(StrEnum):
    """What an offer's price is for."""

    CUBIC_METRE = "m3"
    METRE = "m"
    BOARD = "board"
    BOARD_FOOT = "board foot"


class Tallying(StrEnum):
    """How boards sold by the board foot are tallied."""

    SURFACE = "surface measure"  # each board's surface to the nearest square foot
    EXPORT = "export"  # widths to the nearest inch first
    UNROUNDED = "unrounded"  # as some who sell single boards do


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Boards that can be bought: of one size, or of random sizes between a least and a most."""

    name: str  # as the joiner calls it, or "offer 1" by its place
    thickness: Mm  # as sold
    width: Span  # from the least to the most; the same twice where it is fixed
    length: Span
    price: Mm
    per: Per
    tallying: Tallying = Tallying.SURFACE  # counts only where the price is for a board foot
    history: tuple[Board, ...] = ()  # boards this merchant has sent before, as tallied
    where: Where = field(default_factory=Where, compare=False)

    @property
    def is_fixed(self) -> bool:
        """Whether every board of it has the same size."""
        return self.width.length == 0 and self.length.length == 0
