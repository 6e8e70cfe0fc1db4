"""An independent reckoning that tries everything, with Python's own fractions: shares no code with the room."""

from fractions import Fraction

from pinchrod.machining import StopQuestion

Way = tuple[str, Fraction]


def fewest_by_trying(question: StopQuestion) -> int:
    """The fewest settings that reach all strokes that can be reached, found by trying every choice."""
    step = Fraction(str(question.step))
    offered: list[list[Way]] = []
    for stroke in question.strokes:
        at, length = Fraction(str(stroke.at)), Fraction(str(stroke.length))
        from_left, from_right = at, length - at
        if str(stroke.side) in ("right", "lower"):
            from_left, from_right = from_right, from_left
        ways = []
        for hand, distance, reach in (
            ("left", from_left, question.reach_left),
            ("right", from_right, question.reach_right),
        ):
            shown = (distance / step + Fraction(1, 2)) // 1 * step if step else distance
            if 0 <= shown <= Fraction(str(reach)):
                ways.append((hand, shown))
        if ways:
            offered.append(ways)
    return _fewest(offered, frozenset(), len(offered))


def _fewest(offered: list[list[Way]], chosen: frozenset[Way], most: int) -> int:
    """The fewest settings, given some; not looked for beyond `most`."""
    if len(chosen) >= most:
        return most
    for ways in offered:
        if not chosen.intersection(ways):
            for way in ways:
                most = min(most, _fewest(offered, chosen | {way}, most))
            return most
    return len(chosen)
