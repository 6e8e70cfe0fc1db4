"""What is said of a frame's gluing up: what to have at hand, what a step closes, where clamps stand."""

from collections.abc import Iterator, Sequence

from pinchrod.bench import Clamp, GlueStep, Gluing
from pinchrod.ground import Mm, show
from pinchrod.job import Joint

TENTH = Mm("0.1")


def at_hand_words(gluing: Gluing) -> tuple[str, ...]:
    """What to have at hand, and the glue's times."""
    cure, (least, most) = gluing.cure, gluing.pressure
    joints = sum(len(step.joints) for step in gluing.steps)
    return (
        f"{joints} joints, {gluing.joint}{_fixings(gluing)}.",
        "Fit it up dry, right through, and take it apart again before any glue.",
        f"From the first glue to the last joint closed: {show(cure.open_minutes)} minutes.",
        f"In clamps {show(cure.clamped_minutes)} minutes, pressed with {show(least)} to {show(most)} MPa.",
        f"Leave it {show(cure.cured_hours)} hours before it is worked. The glue's label decides.",
    )


def _fixings(gluing: Gluing) -> str:
    """How many keys, dowels or the like; a tenon is on its member already."""
    worked = gluing.joint is Joint.MORTICE_AND_TENON
    return "" if worked else f": {gluing.fixings} to have at hand"


def closing_words(gluing: Gluing, step: GlueStep) -> str:
    """The joints that a step closes, those at one member said together, and what it makes by itself."""
    into: dict[str, list[str]] = {}
    for joint in step.joints:
        into.setdefault(joint.receiver, []).append(joint.arriving)
    closed = "; ".join(f"{', '.join(arriving)} into {receiver}" for receiver, arriving in into.items())
    made = step.makes.name
    return closed if made in (gluing.frame, step.onto.name) else f"{closed}; this makes {made}"


def clamp_words(clamps: Sequence[Clamp], step: Mm) -> Iterator[str]:
    """Where clamps stand; lines of them that open as wide are said together."""
    if not clamps:
        yield "No clamps: the joints draw themselves together."
    alike: dict[tuple[bool, Mm], list[Clamp]] = {}
    for clamp in clamps:
        alike.setdefault((clamp.level, clamp.opens), []).append(clamp)
    for (level, opens), lines in alike.items():
        places = ", ".join(show(clamp.at, step) for clamp in lines)
        way, where = ("across", "from the lower edge") if level else ("upright", "from the left")
        least = min(clamp.newtons[0] for clamp in lines) / 1000
        most = max(clamp.newtons[1] for clamp in lines) / 1000
        force = f"{show(least, TENTH)} to {show(most, TENTH)} kN each"
        yield f"Clamps {way}, opening {show(opens, step)}: at {places} {where}; {force}."
