"""Layouts in few words, for tables of phrases and what they mean."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from pinchrod.ground import Mm, Where
from pinchrod.job import Group, Kind, Layout, Place, Side, Way, read_phrase

IN_A_FILE = Where(name="K1", file="job.toml", line=31, column=11)


def place(kind, size=None, hung=None):
    return Place(kind=Kind(kind), size=_mm(size), hung=hung and Side(hung))


def door(size=None, hung=None):
    return place("door", size, hung)


def pair(size=None):
    return place("pair", size)


def drawer(size=None):
    return place("drawer", size)


def panel(size=None):
    return place("panel", size)


def opening(size=None):
    return place("open", size)


def stack(*parts, size=None, rails=None):
    return _group(Way.STACK, parts, size, rails)


def row(*parts, size=None, muntins=None):
    return _group(Way.ROW, parts, size, muntins)


def read(phrase: str) -> Layout:
    """The layout of a phrase that nothing is wrong with, wherever its words stand."""
    layout, problems = read_phrase(phrase, IN_A_FILE)
    assert problems == ()
    assert layout is not None
    return anywhere(layout)


def faults(phrase: str):
    """Code and letter of everything wrong with a phrase, counted from 1."""
    layout, problems = read_phrase(phrase, IN_A_FILE)
    assert (layout is None) is any(problem.stops for problem in problems)
    return [(problem.code, problem.where.column - IN_A_FILE.column + 1) for problem in problems]


def anywhere(layout: Layout) -> Layout:
    """The layout without the places of its words."""
    if isinstance(layout, Place):
        return replace(layout, at=0)
    return replace(layout, at=0, parts=tuple(anywhere(part) for part in layout.parts))


def _mm(size):
    return None if size is None else Mm(size)


def _group(way, parts, size, widths):
    dividers = tuple(_mm(width) for width in widths or [None] * (len(parts) - 1))
    return Group(way=way, parts=parts, dividers=dividers, size=_mm(size))


sizes = st.none() | st.integers(1, 6000).map(Mm) | st.fractions(Fraction(1, 64), 3000, max_denominator=640)
doors = st.builds(door, sizes, st.none() | st.sampled_from(["left", "right"]))
places = doors | st.builds(place, st.sampled_from(["pair", "drawer", "panel", "open"]), sizes)


@st.composite
def groups(draw, parts):
    several = draw(st.lists(parts, min_size=2, max_size=5))
    if draw(st.booleans()):
        several = several[:1] * len(several)
    widths = draw(st.lists(sizes, min_size=len(several) - 1, max_size=len(several) - 1))
    if draw(st.booleans()):
        widths = [None] * len(widths)
    return _group(draw(st.sampled_from(Way)), tuple(several), draw(sizes), widths)


layouts = st.recursive(places, groups, max_leaves=12)
