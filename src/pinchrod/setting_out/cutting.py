"""The cutting list: every member of a job by section and length, taken from the rods."""

import re
from collections import defaultdict
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.setting_out.rod import Rods

WORDS_AND_NUMBER = re.compile(r"([^0-9]*)([0-9]*)")


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    """Members of one section and length; `quantity` counts pieces, alike frames included."""

    width: Mm
    thickness: Mm
    beads: int
    length: Mm
    quantity: int
    members: tuple[str, ...]


def cutting_list(rods: Rods) -> tuple[CutLine, ...]:
    """One line for each section and length: thick before thin, wide before narrow, long before short."""
    lines: dict[tuple[Mm, Mm, int, Mm], list[tuple[str, int]]] = defaultdict(list)
    for rod in rods.rods:
        for member in rod.members:
            key = (member.thickness, member.width, len(member.beads), member.length)
            lines[key].append((member.name, rod.frame.quantity))
    return tuple(
        CutLine(
            thickness=thickness,
            width=width,
            beads=beads,
            length=length,
            quantity=sum(quantity for _, quantity in named),
            members=tuple(sorted((name for name, _ in named), key=shop_order)),
        )
        for (thickness, width, beads, length), named in sorted(
            lines.items(), key=lambda line: tuple(-size for size in line[0])
        )
    )


def shop_order(mark: str) -> tuple[tuple[str, int], ...]:
    """A key that sorts marks as a joiner reads them: K2 before K10."""
    return tuple((words, int(number or -1)) for words, number in WORDS_AND_NUMBER.findall(mark))
