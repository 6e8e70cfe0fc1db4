"""What a fault found in a stick has changed, stick by stick, as it is told at the saw."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from pinchrod.ground import show
from pinchrod.timber import Breakout, Stick


class Became(StrEnum):
    """What has become of a stick."""

    GIVEN_UP = "given up"
    NEW = "new"
    CHANGED = "now"


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A stick that is not as it was; `stick` as it is now, or as it was where it is given up."""

    stick: Stick
    became: Became

    @property
    def place(self) -> str:
        """Where it is to be sawn, and what is on it; nothing where it is given up."""
        stick = self.stick
        if self.became is Became.GIVEN_UP:
            return ""
        where = f"board {stick.board} from {show(stick.start)} to {show(stick.start + stick.length)}"
        return f"{where}, {show(stick.offset)} from its edge, {', '.join(stick.members)}"

    def __str__(self) -> str:
        """As it is told: `S14 is now board B7 from 60 to 980, 5 from its edge, K1-LS`."""
        said = f"{self.stick.name} is {self.became}"
        return f"{said} {self.place}".strip() if self.became is not Became.NEW else f"{said}: {self.place}"


def moved(before: Breakout, after: Breakout) -> tuple[Moved, ...]:
    """Every stick that is not as it was: those given up, then the others as they stand."""
    return (*_given_up(before, after), *_changed(before, after))


def _given_up(before: Breakout, after: Breakout) -> Iterator[Moved]:
    stand = {stick.name for stick in after.sticks}
    yield from (Moved(stick=one, became=Became.GIVEN_UP) for one in before.sticks if one.name not in stand)


def _changed(before: Breakout, after: Breakout) -> Iterator[Moved]:
    old = {stick.name: stick for stick in before.sticks}
    for stick in after.sticks:
        if stick.name not in old:
            yield Moved(stick=stick, became=Became.NEW)
        elif stick != old[stick.name]:
            yield Moved(stick=stick, became=Became.CHANGED)
