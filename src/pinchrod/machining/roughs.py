"""What goes over the planer: sticks as broken out, or pieces as they would be sawn where no rack is named."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.job import Practice
from pinchrod.machining.pieces import Wood
from pinchrod.timber import Breakout, Stick

SAWN = tuple(Mm(size) for size in (16, 19, 22, 25, 32, 38, 47, 50, 63, 75, 100, 150, 250, 300))
"""Thicknesses softwood and hardwood are sawn to in the UK: EN 1313-1:1997 with its UK annex, as a page on
building construction lists them (its Table 4.1); the standard itself was not read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """A stick, or a piece whose stick is not known yet, from sawn to finished."""

    name: str
    pieces: tuple[str, ...]
    thickness: Mm  # as sawn
    width: Mm  # as ripped
    finished_thickness: Mm
    finished_width: Mm
    length: Mm
    beads: int


def roughs_of(woods: Sequence[Wood], breakout: Breakout | None, practice: Practice) -> tuple[Rough, ...]:
    """The sticks of a breakout, or each piece by itself: thick before thin, wide before narrow.

    Without a rack a piece is taken to be sawn from the thinnest usual board that leaves the skim, its stick
    as long as the machines must have it.
    """
    found = _sticks(woods, breakout.sticks) if breakout else _pieces(woods, practice)
    return tuple(sorted(found, key=lambda rough: (-rough.finished_thickness, -rough.finished_width)))


def _sticks(woods: Iterable[Wood], sticks: Iterable[Stick]) -> Iterator[Rough]:
    known = {mark: wood.member for wood in woods for mark in wood.marks}
    for stick in sticks:
        member = known[stick.members[0]]  # all of a stick are of one section and number of beads
        yield Rough(
            name=stick.name,
            pieces=stick.members,
            thickness=stick.thickness,
            width=stick.width,
            finished_thickness=member.thickness,
            finished_width=member.width,
            length=stick.length,
            beads=len(member.beads),
        )


def _pieces(woods: Iterable[Wood], practice: Practice) -> Iterator[Rough]:
    for wood in woods:
        member = wood.member
        for mark in wood.marks:
            yield Rough(
                name=mark,
                pieces=(mark,),
                thickness=usual_sawn(member.thickness, practice.skim),
                width=member.width + practice.width_allowance,
                finished_thickness=member.thickness,
                finished_width=member.width,
                length=max(member.length + 2 * practice.stick_end, practice.shortest_stick),
                beads=len(member.beads),
            )


def usual_sawn(finished: Mm, skim: Mm) -> Mm:
    """The thinnest usual sawn thickness that leaves the skim over a finished one."""
    return next((size for size in SAWN if size >= finished + skim), finished + skim)
