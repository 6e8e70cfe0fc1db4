"""`plan.json`: the whole job set out, for other programs. The contract fixes its keys and their order.

Keys of our own follow the fixed ones. What lies along a member is counted from its datum end; all else is
in frame coordinates.
"""

import json
from collections.abc import Iterable, Iterator

from pinchrod.ground import Mm, Point, Problem, Span
from pinchrod.job import Job, Joint, content_mark
from pinchrod.setting_out import (
    CutLine,
    DoorPart,
    Edge,
    Fixing,
    Front,
    HingeSeat,
    Member,
    Notch,
    Opening,
    Pattern,
    Rod,
    Rods,
    cutting_list,
    patterns,
)

FORM = 1
"""The version of the file's form."""

LAID_OUT = {"sticks", "steps", "settings"}
"""What has one of these keys has a line for each of its parts."""

Json = dict[str, object]
Number = int | float


def plan_json(job: Job, rods: Rods, timber: Json | None = None, machining: Json | None = None) -> bytes:
    """The plan as the bytes of a JSON file; `timber` is there if the job has a rack.

    Lengths are exact to a millionth of a millimetre; whole ones have no decimals.
    """
    alike = patterns(rods)
    mark_of = {piece.member.name: pattern.mark for pattern in alike for piece in pattern.pieces}
    plan = {
        "pinchrod": FORM,
        "job": _job(job),
        "warnings": [_warning(doubt) for doubt in rods.doubts],
        "frames": [_frame(rod, rods.joint, mark_of) for rod in rods.rods],
        "cutting_list": [_cut_line(line) for line in cutting_list(rods)],
        "patterns": [_pattern(pattern) for pattern in alike],
        **({"timber": timber} if timber is not None else {}),
        **({"machining": machining} if machining is not None else {}),
    }
    return in_lines(plan).encode()


def in_lines(plan: Json) -> str:
    """The plan with a line for each of its warnings, frames, sections, sticks, settings and the like."""
    return _parts(plan) + "\n"


def _parts(plan: Json) -> str:
    return "{" + ",\n".join(f"{_compact(key)}: {_list(value)}" for key, value in plan.items()) + "}"


def _list(value: object) -> str:
    if isinstance(value, dict) and not LAID_OUT.isdisjoint(value):
        return _parts(value)
    if not isinstance(value, list):
        return _compact(value)
    return "[\n" + ",\n".join(map(_compact, value)) + "]" if value else "[]"


def _compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def number(length: Mm) -> Number:
    """The length as JSON writes numbers: whole if it is whole, else to a millionth."""
    if length.denominator == 1:
        return int(length)
    near = round(float(length), 6)
    return int(near) if near.is_integer() else near


def _numbers(lengths: Iterable[Mm]) -> list[Number]:
    return [number(length) for length in lengths]


def _span(span: Span) -> list[Number]:
    return [number(span.low), number(span.high)]


def _spot(point: Point) -> list[Number]:
    return [number(point.x), number(point.y)]


def _job(job: Job) -> Json:
    return {
        "name": job.name,
        "fingerprint": job.fingerprint,
        "mark": content_mark(job.fingerprint),
        "revision": job.issue.revision,
        "date": job.issue.date.isoformat() if job.issue.date else None,
        "timber": job.timber.name,
        "thickness": number(job.thickness),
        "joint": str(job.joint),
        "assumed": list(job.assumed),
    }


def _warning(doubt: Problem) -> Json:
    return {"where": doubt.where.name, "what": doubt.what, "mend": doubt.mend, "code": doubt.code}


def _frame(rod: Rod, joint: Joint, mark_of: dict[str, str]) -> Json:
    frame = rod.frame
    return {
        "id": frame.id,
        "quantity": frame.quantity,
        "width": number(frame.width),
        "height": number(frame.height),
        "openings": [_opening(opening) for opening in rod.openings],
        "members": [_member(member, joint, mark_of[member.name]) for member in rod.members],
    }


def _opening(opening: Opening) -> Json:
    return {
        "id": opening.name,
        "kind": str(opening.kind),
        "x": number(opening.x.low),
        "y": number(opening.y.low),
        "width": number(opening.x.length),
        "height": number(opening.y.length),
        "fronts": [_front(front) for front in opening.fronts],
    }


def _front(front: Front) -> Json:
    return {
        "width": number(front.width),
        "height": number(front.height),
        "id": front.name,
        "x": number(front.corner.x),
        "y": number(front.corner.y),
        "thickness": number(front.thickness),
        "hung": str(front.hung) if front.hung else None,
        "hinges": _numbers(front.hinges),
        "parts": [_part(part) for part in front.parts],
    }


def _part(part: DoorPart) -> Json:
    return {
        "id": part.name,
        "role": str(part.role),
        "length": number(part.length),
        "width": number(part.width),
        "thickness": number(part.thickness),
    }


def _member(member: Member, joint: Joint, pattern: str) -> Json:
    corner = member.corner
    return {
        "id": member.name,
        "role": str(member.role),
        "x": number(corner.x),
        "y": number(corner.y),
        "length": number(member.length),
        "width": number(member.width),
        "thickness": number(member.thickness),
        "beads": [str(edge) for edge in sorted(member.beads, key=_low_first)],
        "outline": [_spot(point) for point in member.outline],
        "notches": [_notch(notch, member.datum) for notch in member.notches],
        **({"tenons": list(_tenons(member))} if joint is Joint.MORTICE_AND_TENON else {}),
        "pattern": pattern,
        "fixings": [_fixing(fixing) for fixing in member.fixings],
        "hinge_seats": [_hinge_seat(seat) for seat in member.hinge_seats],
    }


def _low_first(edge: Edge) -> bool:
    return not edge.low


def _tenons(member: Member) -> Iterator[Number]:
    return (number(end.tenon) for end in (member.low_end, member.high_end) if end.tenon)


def _notch(notch: Notch, datum: Mm) -> Json:
    places = (notch.mouth.low, notch.floor.low, notch.floor.high, notch.mouth.high)
    return {
        "edge": str(notch.edge),
        "mouth": _span(notch.mouth),
        "floor": _span(notch.floor),
        "depth": number(notch.depth),
        "takes": notch.takes,
        "from_datum": _numbers(place - datum for place in places),
    }


def _fixing(fixing: Fixing) -> Json:
    return {
        "recess": str(fixing.recess),
        "face": str(fixing.face),
        "at": number(fixing.at),
        "across": number(fixing.across),
        "long": number(fixing.long),
        "wide": number(fixing.wide),
        "deep": number(fixing.deep),
        "edge": str(fixing.edge) if fixing.edge else None,
        "to": fixing.to,
    }


def _hinge_seat(seat: HingeSeat) -> Json:
    return {"edge": str(seat.edge), "at": number(seat.at), "long": number(seat.long), "front": seat.front}


def _cut_line(line: CutLine) -> Json:
    return {
        "width": number(line.width),
        "thickness": number(line.thickness),
        "beads": line.beads,
        "length": number(line.length),
        "quantity": line.quantity,
        "members": list(line.members),
    }


def _pattern(pattern: Pattern) -> Json:
    return {
        "mark": pattern.mark,
        "pieces": [{"id": piece.member.name, "turned": piece.turned} for piece in pattern.pieces],
        "mirror": pattern.mirror or None,
        "nearly": list(pattern.nearly),
    }
