"""`recut.json`: what a fault found in a stick has changed, and the sticks as they now are."""

from collections.abc import Iterable

from pinchrod.ground import Span
from pinchrod.papers.data.plan_json import FORM, Json, in_lines
from pinchrod.papers.data.plan_timber import exact, near, timber_json
from pinchrod.timber import Breakout, Recut, Stick


def recut_json(
    fingerprint: str, *, stick: str, fault: Span, done: Iterable[str], before: Breakout, after: Recut
) -> bytes:
    """The bytes of the file; `changed` are the sticks that are not as they were, gone ones by their ids."""
    old, new = before.sticks, after.breakout.sticks
    timber = timber_json(after.question, after.breakout, done)
    changed = {one.name for one in unlike(new, old)}
    told: Json = {
        "pinchrod": FORM,
        "job": {"fingerprint": fingerprint},
        "stick": stick,
        "fault": [exact(fault.low), exact(fault.high)],
        "changed": [one for one in timber["sticks"] if one["id"] in changed],
        "gone": [one.name for one in old if one.name not in {other.name for other in new}],
        "dearer": near(after.dearer),
        "timber": timber,
    }
    return in_lines(told).encode()


def unlike(sticks: Iterable[Stick], others: Iterable[Stick]) -> tuple[Stick, ...]:
    """The sticks that are not among the others just as they are."""
    known = set(others)
    return tuple(stick for stick in sticks if stick not in known)
