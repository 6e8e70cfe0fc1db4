"""What a layout phrase means: the openings it gives."""

from dataclasses import replace

from pinchrod.ground import Mm
from pinchrod.job.phrases.said import Blank, Bracket, Chain, Item, Said
from pinchrod.job.phrases.spelling import LIE
from pinchrod.job.phrases.words import Word
from pinchrod.job.records import Group, Layout, Place, Way


def layout_of(chain: Chain) -> Layout:
    """The layout that a phrase without faults gives.

    Things that lie the way of their chain become parts of it, one by one; what a bracket holds stays
    one part.
    """
    first, *others = chain.items
    way = chain.way or _own_way(first)
    parts = _parts_of(first, way)
    dividers = _usual(len(parts) - 1)
    for divider, item in zip(chain.dividers, others, strict=True):
        more = _parts_of(item, way)
        dividers += (_length(divider.width), *_usual(len(more) - 1))
        parts += more
    return parts[0] if len(parts) == 1 else Group(way=way, parts=parts, dividers=dividers, at=first.at)


def _own_way(item: Said) -> Way:
    """Which way several of an item lie of themselves; one lies either way."""
    return LIE.get(item.kind, Way.STACK) if isinstance(item, Item) else Way.STACK


def _usual(dividers: int) -> tuple[Mm | None, ...]:
    """So many dividers of the usual width."""
    return (None,) * dividers


def _length(said: Word | None) -> Mm | None:
    """The length said, if one was."""
    return said.length if said else None


def _parts_of(item: Said, way: Way) -> tuple[Layout, ...]:
    """The parts an item gives to a chain that lies this way."""
    match item:
        case Bracket():
            return (_bracketed(item),)
        case Item():
            return _counted(item, way)
        case Blank():
            raise ValueError("a phrase with a fault in it has no layout")


def _counted(item: Item, way: Way) -> tuple[Layout, ...]:
    """So many places one by one, each of the item's size; or as one part of its size, if they lie across."""
    place = Place(kind=item.kind, size=_length(item.size), hung=item.hung, at=item.at)
    own = LIE.get(item.kind, way)  # panels and open places lie as their chain does
    if own is way or item.count == 1:
        return (place,) * item.count
    # Across the chain, the size is measured the other way: it is the whole part's.
    places = (replace(place, size=None),) * item.count
    return (Group(way=own, parts=places, dividers=_usual(item.count - 1), size=place.size, at=item.at),)


def _bracketed(bracket: Bracket) -> Layout:
    """What a bracket holds, with the size said behind it; a lone thing is as if it stood without."""
    layout = layout_of(bracket.inside)
    if bracket.size:
        layout = replace(layout, size=bracket.size.length)
    return replace(layout, at=bracket.at) if isinstance(layout, Group) else layout
