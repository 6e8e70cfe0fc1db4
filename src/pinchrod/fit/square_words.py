"""What two diagonals say of a frame, in words for the bench."""

from pinchrod.fit.squareness import Squareness, Taper, Verdict
from pinchrod.ground import show


def leaning_words(found: Squareness) -> str:
    """How the frame stands, and how surely the tape can tell."""
    side = "right" if found.lean > 0 else "left"
    lean = (
        f"its top stands {show(abs(found.lean))} too far {side}" if found.lean else "its diagonals are alike"
    )
    return f"{lean}, give or take {show(found.give_or_take)}"


def tapering_words(worst: Taper) -> str:
    """What the front whose gap narrows most shows of it."""
    level = f"{show(worst.over_height)} over the front's height"
    true = f" if it is set level, by {show(worst.over_width)} over its width if it hangs true to its stile"
    binds = ": it binds" if worst.binds else ""
    return (
        f"The gap of {worst.front}, {show(worst.gap)}, narrows by {level}{true if worst.hung else ''}{binds}."
    )


def advice_words(found: Squareness) -> str:
    """What to do about it."""
    if found.verdict is Verdict.PULL:
        return f"Pull it square: {found.pull}, the longer diagonal."
    if found.verdict is Verdict.CANNOT_TELL:
        return "The tape cannot tell whether that is so: tape it again more finely, or use pinch rods."
    gap = "no gap narrows by more" if found.tapers else "it leans no more"
    return f"Leave it: {gap} than the workshop lets pass."
