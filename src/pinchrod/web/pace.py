"""How many requests one device may send: far more than work ever does, and no more than the server bears."""

import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock

AT_ONCE = 300  # requests: a browser with a dozen pages open, each asking for its parts
PER_SECOND = 50  # as many again each second
MOST_KNOWN = 1_000  # devices and addresses that are counted; of more, whoever was quiet longest is forgotten


class TooOften(Exception):
    """A request of a device that has sent too many."""

    def __init__(self, *, noted: bool) -> None:
        """Say whether the log has it already: it is written once, not for every request that follows."""
        super().__init__("too often")
        self.noted = noted


@dataclass(frozen=True, slots=True)
class _Left:
    """What a device may still send at once, and as of when."""

    requests: float
    at: float
    refused: bool = False


class Pace:
    """Counts requests by who sends them."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Begin with nobody known."""
        self._clock = clock
        self._left: OrderedDict[str, _Left] = OrderedDict()
        self._turn = Lock()

    def count(self, who: str) -> None:
        """One request more of a device or, for nobody, of an address; TooOften if it is one too many."""
        with self._turn:
            now = self._clock()
            left = self._left.pop(who, _Left(AT_ONCE, now))
            there = min(AT_ONCE, left.requests + (now - left.at) * PER_SECOND)
            taken = there >= 1
            self._left[who] = _Left(there - 1 if taken else there, now, refused=not taken)
            if len(self._left) > MOST_KNOWN:
                self._left.popitem(last=False)
        if not taken:
            raise TooOften(noted=left.refused)

    def __len__(self) -> int:
        """How many are known."""
        return len(self._left)
