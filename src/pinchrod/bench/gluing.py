"""How one frame is glued up: the steps, one part at a time, and what each closes."""

from collections.abc import Iterator

from pinchrod.bench.interlocking import OPPOSITE, bits, interlocking
from pinchrod.bench.joints import closed_by
from pinchrod.bench.records import Direction, GlueJoint, GlueStep, Lot
from pinchrod.bench.taking_apart import Parting, gluing_order
from pinchrod.job import Joint
from pinchrod.setting_out import Member, Rod, Role

WITH_DEPTH = (Joint.LOOSE_TENON, Joint.DOWEL, Joint.MORTICE_AND_TENON)
"""Joints with something standing in them: they close only along the arriving member."""


def glue_steps(rod: Rod, joints: tuple[GlueJoint, ...], joint: Joint) -> tuple[GlueStep, ...] | None:
    """The steps of gluing up; None if there is no order in which the members go together.

    Every joint is closed straight along the member that arrives, if that can be; else, where nothing stands
    in the joints, from any side that is open.
    """
    ranked = _ranked(rod.members)
    order = gluing_order(interlocking(rod, joints, straight_in=True), ranked)
    if order is None and joint not in WITH_DEPTH:
        order = gluing_order(interlocking(rod, joints, straight_in=False), ranked)
    return None if order is None else tuple(_told(rod, joints, order))


def _ranked(members: tuple[Member, ...]) -> tuple[int, ...]:
    """The members as they come off: the right stile, the left one, then the longest, the last read first."""

    def rank(place: int) -> tuple[object, ...]:
        member = members[place]
        stile = member.role in (Role.LEFT_STILE, Role.RIGHT_STILE)
        return not stile, stile or -member.length, *_reading_backwards(member)

    return tuple(sorted(range(len(members)), key=rank))


def _reading_backwards(member: Member) -> tuple[object, ...]:
    """From the lower right corner of the frame back to the upper left."""
    x, y = (member.across, member.along) if member.upright else (member.along, member.across)
    return y.high, -x.low


def _told(rod: Rod, joints: tuple[GlueJoint, ...], order: tuple[Parting, ...]) -> Iterator[GlueStep]:
    """The steps with every lot under its name: a sub-assembly keeps its letter while it grows."""
    names = [member.name for member in rod.members]
    lots = {1 << place: name for place, name in enumerate(names)}
    for parting, name in zip(order, _names(rod, order), strict=True):
        onto, part, way = _as_handled(parting, rod, joints)
        made = onto | part
        step_joints = closed_by(_marks(part, names), _marks(onto, names), joints)
        yield GlueStep(
            onto=_lot(onto, lots[onto], names),
            part=_lot(part, lots[part], names),
            way=way,
            joints=tuple(step_joints),
            makes=_lot(made, name, names),
        )
        lots[made] = name


def _names(rod: Rod, order: tuple[Parting, ...]) -> tuple[str, ...]:
    """The name of what each step makes: the frame's, if it ends as the frame; else its part's letter."""
    parts = [parting.part for parting in order if parting.part & (parting.part - 1)]
    letters = {part: f"{rod.frame.id}-{_letter(number)}" for number, part in enumerate(parts)}
    return tuple(
        next((letters[part] for part in parts if _inside(parting, part)), rod.frame.id) for parting in order
    )


def _inside(parting: Parting, part: int) -> bool:
    """Whether a step is one of those that make this part."""
    made = parting.onto | parting.part
    return made & part == made


def _letter(number: int) -> str:
    return chr(ord("A") + number % 26) + (str(number // 26) if number >= 26 else "")


def _as_handled(parting: Parting, rod: Rod, joints: tuple[GlueJoint, ...]) -> tuple[int, int, Direction]:
    """Of two single members the one that arrives is brought to the other; all else is as it was found."""
    both = parting.onto | parting.part
    if both.bit_count() > 2:
        return parting.onto, parting.part, parting.way
    marks = {rod.members[place].name: 1 << place for place in bits(both)}
    joint = next(each for each in joints if each.arriving in marks and each.receiver in marks)
    if marks[joint.arriving] == parting.part:
        return parting.onto, parting.part, parting.way
    return parting.part, parting.onto, OPPOSITE[parting.way]


def _lot(members: int, name: str, names: list[str]) -> Lot:
    return Lot(name=name, members=tuple(names[place] for place in bits(members)))


def _marks(members: int, names: list[str]) -> set[str]:
    return {names[place] for place in bits(members)}
