"""The box of cautions on a card: those of its step and no others, and who decides."""

from collections.abc import Sequence

from pinchrod.machining import WHO_DECIDES
from pinchrod.papers.pages.bands import Band, boxed, broken

LETTERS = 4.2
INSIDE = 5.0  # mm of a box's width that its words leave free


def take_care(cautions: Sequence[str], width: float, decides: str = WHO_DECIDES) -> Band:
    """The box."""
    room = width - INSIDE
    bold = [(line, True) for said in cautions for line in broken(said, LETTERS, room, bold=True)]
    return boxed([*bold, *((line, False) for line in broken(decides, LETTERS, room))], width, LETTERS)
