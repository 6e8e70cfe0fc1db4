"""Rough sizes: how long a stick must be, how long it may be, and which members may share one."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.timber.records import Board, Question, Wanted


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Kind:
    """What the members of one stick have in common."""

    width: Mm
    thickness: Mm
    beads: int


def kind_of(wanted: Wanted) -> Kind:
    """The section and beads of a member."""
    return Kind(width=wanted.width, thickness=wanted.thickness, beads=wanted.beads)


def strip_width(question: Question, kind: Kind) -> Mm:
    """How wide its strip is ripped: the members' width and the allowance."""
    return kind.width + question.practice.width_allowance


def room_needed(question: Question, lengths: Iterable[Mm]) -> Mm:
    """What members need of a strip as one stick, and the crosscut behind it; at least the shortest stick."""
    kerf = question.machines.crosscut_saw.kerf
    needed = 2 * question.practice.stick_end + sum((length + kerf for length in lengths), Mm(0))
    return max(needed, question.practice.shortest_stick + kerf)


def cells_of_longest(question: Question, board: Board, kind: Kind, cell: Mm) -> int:
    """The longest stick that board lets clean up, with the crosscut behind it, in whole cells; 0 if none.

    What the thickness has to spare over the skim and the finished member is what bow may take.
    """
    longest = board.longest_clean(board.thickness - question.practice.skim - kind.thickness)
    if longest is None:
        return 0
    kerf = question.machines.crosscut_saw.kerf
    longest = min(question.practice.longest_stick, longest)
    return int((longest + kerf) // cell) if longest >= question.practice.shortest_stick else 0


def members_by_kind(question: Question) -> dict[Kind, list[Wanted]]:
    """Members gathered by kind: wide before narrow, and in each kind long before short."""
    kinds: dict[Kind, list[Wanted]] = {}
    for wanted in sorted(question.wanted, key=lambda one: (-one.length, one.marks)):
        kinds.setdefault(kind_of(wanted), []).append(wanted)
    return {kind: kinds[kind] for kind in sorted(kinds, reverse=True)}
