"""Slots, mortices, dowel holes, pockets and hinge seats: each kind with the settings of its stops.

A recess in an edge lies along the piece, and one in an end across it; either way it is a choice between the
stop on the left and the one on the right, as for notches. Recesses in the back are cut with the piece's back
up.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.machining.fewest import fewest_settings
from pinchrod.machining.pieces import Wood
from pinchrod.machining.stops import PieceEnd, StopQuestion, Stops, Stroke
from pinchrod.machining.strokes import stroke_along
from pinchrod.setting_out import Face, Fixing, HingeSeat, Member

HINGE_SEAT = "hinge seat"


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Tool:
    """A cutter set up for recesses of one kind and size, in edges or in ends.

    `long` is the recess's size along the stops, `wide` square to that, `deep` into the wood, `fence` where
    its middle lies: from the worked edge or end if it is in the back, else from the face. 0: as the hinge is.
    """

    recess: str
    face: str  # in which it is cut
    in_end: bool
    long: Mm
    wide: Mm = Mm(0)
    deep: Mm = Mm(0)
    fence: Mm = Mm(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Recessing:
    """One tool, and the settings of its stops."""

    tool: Tool
    stops: Stops


def recessing_of(
    woods: Iterable[Wood], reach_left: Mm, reach_right: Mm, step: Mm = Mm(0)
) -> tuple[Recessing, ...]:
    """Every tool with its settings: in edges before in ends, hinge seats last."""
    strokes: dict[Tool, list[Stroke]] = defaultdict(list)
    for wood in woods:
        for mark in wood.marks:
            for tool, stroke in recess_strokes(wood.member, mark):
                strokes[tool].append(stroke)
    return tuple(
        Recessing(
            tool=tool,
            stops=fewest_settings(
                StopQuestion(
                    strokes=tuple(strokes[tool]), reach_left=reach_left, reach_right=reach_right, step=step
                )
            ),
        )
        for tool in sorted(strokes, key=lambda tool: (tool.recess == HINGE_SEAT, tool.in_end, tool))
    )


def recess_strokes(member: Member, mark: str) -> Iterator[tuple[Tool, Stroke]]:
    """Every recess of a piece: the tool it needs, and where."""
    for fixing in member.fixings:
        yield _tool(member, fixing), _stroke(member, mark, fixing)
    for seat in member.hinge_seats:
        yield _seat_tool(seat), stroke_along(member, mark, seat.edge, seat.at)


def _tool(member: Member, fixing: Fixing) -> Tool:
    return Tool(
        recess=str(fixing.recess),
        face=str(fixing.face),
        in_end=fixing.edge is None,
        long=fixing.long,
        wide=fixing.wide,
        deep=fixing.deep,
        fence=_inward(member, fixing) if fixing.face is Face.BACK else member.thickness / 2,
    )


def _inward(member: Member, fixing: Fixing) -> Mm:
    """How far the middle of a recess lies from the edge or end that is worked."""
    if fixing.edge is None:
        return min(fixing.at, member.length - fixing.at)
    return fixing.across if fixing.edge.low else member.width - fixing.across


def _seat_tool(seat: HingeSeat) -> Tool:
    return Tool(recess=HINGE_SEAT, face=str(Face.EDGE), in_end=False, long=seat.long)


def _stroke(member: Member, mark: str, fixing: Fixing) -> Stroke:
    face_up = fixing.face is not Face.BACK
    if fixing.edge is not None:
        return stroke_along(member, mark, fixing.edge, fixing.at, face_up=face_up)
    end = PieceEnd.DATUM if fixing.at * 2 < member.length else PieceEnd.FAR
    return stroke_across(member, mark, end, fixing.across, face_up=face_up)


def stroke_across(member: Member, mark: str, end: PieceEnd, across: Mm, *, face_up: bool) -> Stroke:
    """A stroke in one end of a piece that lies with that end towards the tool.

    Face up, an upright's left edge lies to the left with its top towards the tool, and to the right with its
    bottom; a level member's lower edge lies to the right with its right end towards the tool, and to the left
    with its left end.
    """
    low_edge_to_the_left = member.upright == (end is PieceEnd.FAR)
    return Stroke(
        piece=mark, side=end, at=across, length=member.width, from_left=low_edge_to_the_left == face_up
    )
