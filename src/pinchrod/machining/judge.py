"""The judge: what is wrong with set-ups, seen from the wood alone. Shares no code with a chooser."""

from collections import Counter
from collections.abc import Iterable, Iterator

from pinchrod.ground import Mm, show
from pinchrod.machining.stops import Hand, StopQuestion, Stops, StopSetting, Stroke
from pinchrod.setting_out import Edge, Member, Notch


def flaws_of_stops(question: StopQuestion, answer: Stops) -> Iterator[str]:
    """Say what is wrong with the settings of a machine: what they miss, miss-cut or do not prove."""
    yield from _strokes_not_once(question, answer)
    yield from _settings_twice(answer.settings)
    for setting in answer.settings:
        yield from _setting_flaws(question, setting)
    for stroke in answer.unreached:
        if _ways(question, stroke):
            yield f"{stroke.piece}: said to be out of reach at {show(stroke.at)}, and it is not"
    yield from _proof_flaws(question, answer)


def _strokes_not_once(question: StopQuestion, answer: Stops) -> Iterator[str]:
    wanted = Counter(question.strokes)
    made = Counter(answer.unreached)
    for setting in answer.settings:
        made.update(setting.strokes)
    for stroke in wanted.keys() | made.keys() if wanted != made else ():
        if wanted[stroke] != made[stroke]:
            yield f"{stroke.piece} at {show(stroke.at)}: wanted {wanted[stroke]}, made {made[stroke]} times"


def _settings_twice(settings: tuple[StopSetting, ...]) -> Iterator[str]:
    order = [(setting.hand is Hand.RIGHT, setting.distance) for setting in settings]
    if order != sorted(set(order)):
        yield "the stops do not move one way only"


def _setting_flaws(question: StopQuestion, setting: StopSetting) -> Iterator[str]:
    name = f"the {setting.hand} stop at {show(setting.distance)}"
    reach = question.reach_left if setting.hand is Hand.LEFT else question.reach_right
    if not 0 <= setting.distance <= reach:
        yield f"{name} is beyond its reach of {show(reach)}"
    if not setting.strokes:
        yield f"{name} serves nothing"
    for stroke in setting.strokes:
        ends_there = stroke.from_left is (setting.hand is Hand.LEFT)
        cut_at = setting.distance if ends_there else stroke.length - setting.distance
        if abs(cut_at - stroke.at) * 2 > question.step:
            yield f"{name} cuts {stroke.piece} at {show(cut_at)}, not at {show(stroke.at)}"


def _proof_flaws(question: StopQuestion, answer: Stops) -> Iterator[str]:
    """A proof holds if its strokes are among those asked for and no two can be made at one setting."""
    asked = set(question.strokes)
    used = Counter(way for stroke in answer.proof for way in _ways(question, stroke))
    if any(stroke not in asked or not _ways(question, stroke) for stroke in answer.proof):
        yield "the proof rests on strokes that are not asked for, or out of reach"
    if any(times > 1 for times in used.values()):
        yield "two strokes of the proof can be made at one setting"
    if len(answer.proof) != len(answer.settings):
        yield f"{len(answer.settings)} settings, and the proof is of {len(answer.proof)}"


def _ways(question: StopQuestion, stroke: Stroke) -> tuple[tuple[str, int | Mm], ...]:
    """Each stop that can make the stroke, with the number of steps (or the length) it is set to."""
    left, right = stroke.at, stroke.length - stroke.at
    if not stroke.from_left:
        left, right = right, left
    found: list[tuple[str, int | Mm]] = []
    for name, distance, reach in (("L", left, question.reach_left), ("R", right, question.reach_right)):
        steps = _steps(distance, question.step) if question.step else distance
        if 0 <= steps * (question.step or 1) <= reach:
            found.append((name, steps))
    return tuple(found)


def _steps(distance: Mm, step: Mm) -> int:
    """The nearest whole number of steps, a half going away from zero."""
    doubled = abs(distance) * 2 // step
    nearest = int(doubled + 1) // 2
    return nearest if distance >= 0 else -nearest


def flaws_of_strokes(members: Iterable[Member], strokes: Iterable[Stroke], flat: Mm) -> Iterator[str]:
    """Say where strokes of the knife would leave wood in a notch, or cut into what must stand."""
    cut: dict[tuple[str, str], list[Mm]] = {}
    for stroke in strokes:
        cut.setdefault((stroke.piece.split("/")[0], str(stroke.side)), []).append(stroke.at)
    for member in members:
        for edge in Edge:
            notches = [notch for notch in member.notches if notch.edge is edge]
            found = sorted(set(cut.pop((member.name, str(edge)), ())))
            yield from _edge_flaws(member, notches, found, flat)
    for name, edge_name in cut:
        yield f"{name}: strokes in its {edge_name} edge, where no notch is"


def _edge_flaws(member: Member, notches: list[Notch], found: list[Mm], flat: Mm) -> Iterator[str]:
    for notch in notches:
        low, high = notch.mouth.low - member.datum, notch.mouth.high - member.datum
        floor = notch.floor.low - member.datum, notch.floor.high - member.datum
        open_low, open_high = low == floor[0], high == floor[1]  # beyond lies the piece's end
        inside = [at for at in found if (low <= at or open_low) and (at <= high or open_high)]
        found = [at for at in found if at not in inside]
        cleared = floor[0]
        for at in inside:
            if (at - flat / 2 < floor[0] and not open_low) or (at + flat / 2 > floor[1] and not open_high):
                yield f"{member.name}: a stroke at {show(at)} cuts beyond the notch for {notch.takes}"
            if at - flat / 2 > cleared:
                yield f"{member.name}: wood is left in the notch for {notch.takes} at {show(cleared)}"
            cleared = max(cleared, at + flat / 2)
        if cleared < floor[1]:
            yield f"{member.name}: wood is left in the notch for {notch.takes} at {show(cleared)}"
    yield from (f"{member.name}: a stroke at {show(at)} meets no notch" for at in found)
