"""A frame seen from its face, drawn true: members, beads, fixings, hinges, fronts, and the marks of them."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from pinchrod.job import Job
from pinchrod.papers.frames.elevation_lines import (
    FINE_HIDDEN,
    bead_insets,
    bead_lines,
    corners_of,
    fixing_outlines,
    front_lines,
    hinge_bar,
    hinge_box,
    member_outline,
)
from pinchrod.papers.frames.elevation_words import (
    CLEAR,
    TIGHT,
    Marked,
    Names,
    Scale,
    mark_member,
    mark_opening,
    mark_over_edge,
    names_of,
)
from pinchrod.papers.frames.interrupted import interrupted
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import NARROW, WIDE, Mark, Marks, Path, Pen
from pinchrod.setting_out import Opening, Rod


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of an elevation: what is on it, and the pen most of that is drawn with."""

    name: str
    meaning: str
    pen: Pen


LAYERS = (
    Layer("outline", "members, with their mitres and notches", WIDE),
    Layer("bead", "beads and their quirks", NARROW),
    Layer("fixing", "recesses hidden behind the face", FINE_HIDDEN),
    Layer("hinge", "hinges", WIDE),
    Layer("front", "doors and drawer fronts; dashed lines meet where a door is hung", NARROW),
    Layer("dimension", "dimensions", NARROW),
    Layer("words", "marks and sight sizes", NARROW),
)

SizeOf = Callable[[Opening], str]
"""What is written of an opening's size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Elevation:
    """An elevation, and which members and openings had no room for their marks."""

    marks: Marks
    unmarked: tuple[str, ...]
    shortened: bool  # some marks have the frame's id left off


def elevation(rod: Rod, job: Job, scale: Scale, size_of: SizeOf) -> Elevation:
    """The frame seen from its face, in millimetres of the wood, to be placed at its scale."""
    marked = _all_marked(rod, scale, size_of)
    found = [mark for mark in marked.values() if mark]
    return Elevation(
        marks=(*_lines(rod, job, scale, marked), *_words(found, scale)),
        unmarked=tuple(name for name, mark in marked.items() if mark is None),
        shortened=any(mark.short for mark in found),
    )


def _all_marked(rod: Rod, scale: Scale, size_of: SizeOf) -> Mapping[str, Marked | None]:
    """Every opening's and member's mark; those of slender members last, where there is still room."""
    all_names = [opening.name for opening in rod.openings] + [member.name for member in rod.members]
    named = {name: names_of(name, rod.frame.id) for name in all_names}
    marked = {
        opening.name: mark_opening(opening, named[opening.name], size_of(opening), scale)
        for opening in rod.openings
    }
    marked |= {member.name: mark_member(member, named[member.name], scale) for member in rod.members}
    return marked if scale.letters_shrink else {**marked, **_over_edges(rod, scale, named, marked)}


def _over_edges(
    rod: Rod, scale: Scale, named: Mapping[str, Names], marked: Mapping[str, Marked | None]
) -> Mapping[str, Marked | None]:
    slender = [member for member in rod.members if marked[member.name] is None]
    if not slender:
        return {}
    taken = [mark.stood.box for mark in marked.values() if mark]
    taken.extend(hinge_box(member, seat) for member in rod.members for seat in member.hinge_seats)
    found: dict[str, Marked | None] = {}
    for member in slender:
        mark = found[member.name] = mark_over_edge(member, named[member.name], scale, taken)
        taken.extend([mark.stood.box] if mark else [])
    return found


def _lines(rod: Rod, job: Job, scale: Scale, marked: Mapping[str, Marked | None]) -> Iterator[Mark]:
    insets = bead_insets(job.bead, scale.closest)
    for member in rod.members:
        room = _kept_clear(marked[member.name], scale)
        yield member_outline(member)
        yield from interrupted(bead_lines(member, insets), room)
        yield from interrupted(fixing_outlines(member), room)
    for opening in rod.openings:
        yield from interrupted(front_lines(opening, scale.closest), _kept_clear(marked[opening.name], scale))
    yield from (hinge_bar(member, seat) for member in rod.members for seat in member.hinge_seats)


def _kept_clear(mark: Marked | None, scale: Scale) -> Box | None:
    return mark.stood.box.grown(CLEAR * scale.per) if mark and not mark.over_edge else None


def _words(marked: list[Marked], scale: Scale) -> Iterator[Mark]:
    """The words; those that stand over an edge on a ground of white."""
    for mark in marked:
        if mark.over_edge:
            ground = corners_of(mark.stood.box.grown(TIGHT * scale.per))
            yield Path(ground, pen=None, fill="white", layer="words")
        yield from mark.stood.words
