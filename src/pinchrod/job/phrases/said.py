"""A layout phrase as it was said: its parts in their order, each with what is wrong with it."""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.job.phrases.faults import Fault
from pinchrod.job.phrases.words import Word
from pinchrod.job.records import Kind, Side, Way

Faults = tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """So many of a kind: `3 drawers 140`. It was said from the letter `at` up to `end`."""

    at: int
    end: int
    kind: Kind
    word: str  # that names the kind: "door" or "doors"
    number: str = ""  # how many, as said
    count: int = 1
    size: Word | None = None
    hung: Side | None = None
    faults: Faults = ()

    @property
    def plural(self) -> bool:
        """Whether its word says that there are several."""
        return self.word.endswith("s")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bracket:
    """A phrase in brackets: `(drawer over door) 300`."""

    at: int
    end: int
    inside: "Chain"
    size: Word | None = None
    faults: Faults = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """Where an item should stand, and none could be read."""

    at: int
    end: int
    faults: Faults = ()


Said = Item | Bracket | Blank


@dataclass(frozen=True, slots=True, kw_only=True)
class Divider:
    """Over or beside: `over[80]`."""

    at: int
    end: int
    way: Way
    width: Word | None = None
    faults: Faults = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Items with a divider between each. If nothing is wrong, every divider puts them one way."""

    items: tuple[Said, ...]
    dividers: tuple[Divider, ...] = ()

    @property
    def way(self) -> Way | None:
        """How its items lie, by its first divider; None if one item stands alone."""
        return self.dividers[0].way if self.dividers else None


def chains_of(chain: Chain) -> Iterator[Chain]:
    """The chain and all those in its brackets."""
    yield chain
    for item in chain.items:
        if isinstance(item, Bracket):
            yield from chains_of(item.inside)


def faults_of(chain: Chain) -> Faults:
    """Every fault that was found in reading the chain and what its brackets hold, in no order."""
    parts = [part for each in chains_of(chain) for part in (*each.items, *each.dividers)]
    return tuple(fault for part in parts for fault in part.faults)
