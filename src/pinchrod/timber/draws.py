"""Draws that are the same on every machine, for searches that must try one thing and then another."""

MASK = (1 << 64) - 1


class Draws:
    """A row of numbers that follow from a seed (SplitMix64, public domain, constants from memory)."""

    def __init__(self, seed: int) -> None:
        self._state = seed & MASK

    def _next(self) -> int:
        self._state = (self._state + 0x9E3779B97F4A7C15) & MASK
        mixed = self._state
        mixed = ((mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        mixed = ((mixed ^ (mixed >> 27)) * 0x94D049BB133111EB) & MASK
        return mixed ^ (mixed >> 31)

    def share(self) -> float:
        """A number from 0 up to 1."""
        return (self._next() >> 11) / (1 << 53)

    def below(self, limit: int) -> int:
        """A whole number from 0 up to a limit, the limit left out."""
        return self._next() % limit
