"""A layout said again as a phrase."""

from dataclasses import replace

from pinchrod.ground import Mm, spell
from pinchrod.job.records import Group, Kind, Layout, Way

LIE = {Kind.DRAWER: Way.STACK, Kind.DOOR: Way.ROW, Kind.PAIR: Way.ROW}
"""Which way several of a kind lie; panels and open places lie as what is round them."""

PLURALS = {
    Kind.DOOR: "doors",
    Kind.PAIR: "pairs",
    Kind.DRAWER: "drawers",
    Kind.PANEL: "panels",
    Kind.OPEN: "openings",
}


def spell_phrase(layout: Layout) -> str:
    """The phrase that reads back as this layout, in few words: alike neighbours are counted.

    If it is longer than is read, or the layout deeper, only people can read it.
    """
    if isinstance(layout, Group) and layout.size is None:
        return _spell_group(layout)
    return _spell_part(layout, 1)


def spell_size(size: Mm) -> str:
    """A size as short as it is exact: bare if it is whole millimetres."""
    return str(size) if size.denominator == 1 else spell(size)


def _spell_group(group: Group) -> str:
    """The parts of a group from first to last, with over or beside between."""
    runs = _runs_of(group)
    words = [_spell_part(part, count) for _, part, count in runs]
    between = ["" if width is None else f"[{spell_size(width)}]" for width, _, _ in runs]
    return words[0] + "".join(
        f" {group.way}{width} {part}" for width, part in zip(between[1:], words[1:], strict=True)
    )


def _runs_of(group: Group) -> list[tuple[Mm | None, Layout, int]]:
    """Alike neighbours that can be said as one, with their number and the divider before them."""
    runs: list[tuple[Mm | None, Layout, int]] = []
    for width, part in zip((None, *group.dividers), group.parts, strict=True):
        alike = replace(part, at=0)  # wherever it was said
        if runs and width is None and runs[-1][1] == alike and _may_be_counted(group, part, len(runs)):
            runs[-1] = (*runs[-1][:2], runs[-1][2] + 1)
        else:
            runs.append((width, alike, 1))
    return runs


def _may_be_counted(group: Group, part: Layout, runs: int) -> bool:
    """Whether a part says which way several of it lie, or over and beside before it do."""
    if isinstance(part, Group):
        return False
    # `panel over 2 panels` is the shortest for three: `3 panels` alone would not say which way.
    return LIE[part.kind] is group.way if part.kind in LIE else runs > 1


def _spell_part(part: Layout, count: int) -> str:
    """One part, or so many of it, with its size."""
    size = "" if part.size is None else f" {spell_size(part.size)}"
    if isinstance(part, Group):
        return f"({_spell_group(part)}){size}"
    side = f" {part.hung}" if part.hung else ""
    return f"{f'{count} {PLURALS[part.kind]}' if count > 1 else part.kind}{size}{side}"
