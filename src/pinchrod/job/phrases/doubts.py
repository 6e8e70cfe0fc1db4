"""Where a layout phrase that follows its grammar still says too much, or what could mean two things."""

from collections.abc import Iterator
from itertools import accumulate

from pinchrod.job.phrases import faults as wrong
from pinchrod.job.phrases.faults import MOST_OPENINGS, Fault
from pinchrod.job.phrases.said import Bracket, Chain, Divider, Item, Said, chains_of
from pinchrod.job.phrases.spelling import LIE, PLURALS
from pinchrod.job.phrases.words import Word
from pinchrod.job.records import Kind, Way

LIKE_A_WIDTH = 10  # so many of one kind are fewer than the widths of rails that may be meant
LIKE_A_SIZE = 20


def doubts_about(phrase: Chain, text: str) -> Iterator[Fault]:
    """Everything in a phrase that has no one meaning, though each of its words has."""
    for chain in chains_of(phrase):
        yield from _mixed_ways(chain, text)
        yield from _unclear_way(chain, text)
        yield from _size_readings(chain)
        yield from _sizes_twice(chain)
        yield from _plurals_alone(chain)
        yield from _counts_like_sizes(chain)
    yield from _too_many(phrase)


def _mixed_ways(chain: Chain, text: str) -> Iterator[Fault]:
    """Over and beside at one level, with what it would mean to read either first."""
    other = [divider for divider in chain.dividers if divider.way is not chain.way]
    # Readings with a hole in them would help nobody; the hole is told of by itself.
    nothing_missing = all(item.end > item.at for item in chain.items)
    if other and nothing_missing:
        over_first, beside_first = (_binding(chain, way, text) for way in Way)
        yield wrong.mixed_ways(other[0].at, over_first, beside_first)


def _binding(chain: Chain, way: Way, text: str) -> str:
    """The chain said again, with whatever lies this way in brackets."""
    runs = [[_said(chain.items[0], text)]]
    between: list[str] = []
    for divider, item in zip(chain.dividers, chain.items[1:], strict=True):
        if divider.way is way:
            runs[-1] += [_said(divider, text), _said(item, text)]
        else:
            between.append(_said(divider, text))
            runs.append([_said(item, text)])
    parts = [f"({' '.join(run)})" if len(run) > 1 else run[0] for run in runs]
    return " ".join([parts[0], *(f"{words} {part}" for words, part in zip(between, parts[1:], strict=True))])


def _said(part: Said | Divider, text: str) -> str:
    """A part in the joiner's own words, with single spaces."""
    return " ".join(text[part.at : part.end].split())


def _unclear_way(chain: Chain, text: str) -> Iterator[Fault]:
    """Several panels or open places with nothing beside or over them to go by."""
    for item in chain.items:
        if chain.way is None and isinstance(item, Item) and item.count > 1 and item.kind not in LIE:
            size = f" {item.size.text}" if item.size else ""
            others = item.kind if item.count == 2 else f"{item.count - 1} {PLURALS[item.kind]}"
            readings = [f"{item.kind}{size} {way} {others}{size}" for way in Way]
            yield wrong.unclear_way(item.at, _said(item, text), readings)


def _size_readings(chain: Chain) -> Iterator[Fault]:
    """A size behind drawers in a row."""
    # Not by the chain's first divider: where ways are mixed it is not known what the size is.
    in_a_row = {divider.way for divider in chain.dividers} == {Way.ROW}
    for item in chain.items:
        if in_a_row and isinstance(item, Item) and item.kind is Kind.DRAWER and item.count > 1 and item.size:
            yield wrong.size_reading(item.size.at, item.count, item.size.text)


def _sizes_twice(chain: Chain) -> Iterator[Fault]:
    """A size behind a bracket that holds one thing, which has its own."""
    for item in chain.items:
        within = _lone_size(item.inside) if isinstance(item, Bracket) else None
        if within and isinstance(item, Bracket) and item.size:
            yield wrong.two_sizes(item.size.at, within.text, item.size.text)


def _lone_size(chain: Chain) -> Word | None:
    """The size of what stands alone in brackets. Several, as `(3 drawers 140)`, have one each."""
    if len(chain.items) > 1:
        return None
    match chain.items[0]:
        case Bracket() as bracket:
            return bracket.size or _lone_size(bracket.inside)
        case Item(count=1) as item:
            return item.size
    return None


def _plurals_alone(chain: Chain) -> Iterator[Fault]:
    """Several of a kind by its word, and nothing says how many."""
    for item in chain.items:
        if isinstance(item, Item) and item.plural and not item.number:
            yield wrong.plural_alone(item.at, item.word, item.kind)


def _counts_like_sizes(chain: Chain) -> Iterator[Fault]:
    """A great number before one of a kind, as where a divider's width or a size was meant."""
    for divider, item in zip((None, *chain.dividers), chain.items, strict=True):
        if not isinstance(item, Item) or item.plural or not item.number.isdigit():
            continue
        many = f"{item.number} {PLURALS[item.kind]}"
        if divider and not divider.width and item.count >= LIKE_A_WIDTH:
            one = f"{divider.way}[{item.number}] {item.word}"
            yield wrong.count_or_width(item.at, item.number, item.word, (one, f"{divider.way} {many}"))
        elif item.count >= LIKE_A_SIZE:
            yield wrong.count_or_width(item.at, item.number, item.word, (f"{item.word} {item.number}", many))


def _too_many(phrase: Chain) -> Iterator[Fault]:
    """More openings than a frame may have, told at the item that goes beyond."""
    items = [item for chain in chains_of(phrase) for item in chain.items if isinstance(item, Item)]
    # In the order they were said, whichever bracket they stand in.
    items.sort(key=lambda item: item.at)
    counted = list(accumulate(item.count for item in items))
    beyond = [item for item, openings in zip(items, counted, strict=True) if openings > MOST_OPENINGS]
    if beyond:
        yield wrong.too_many_openings(beyond[0].at, counted[-1])
