"""The part of `plan.json` about machines: the steps in their order, and what every stop is set to.

The contract fixes `steps`, `notching`, `passes` and `spares`. Ours follow: `proof` names strokes of which no
two can be made at one setting, so that `fewest` can be checked from the file alone.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from pinchrod.machining import (
    BeadRun,
    LengthStop,
    Machining,
    Moulding,
    Passes,
    PieceEnd,
    Recessing,
    Step,
    StepSetting,
    Stops,
    StopSetting,
    Stroke,
)
from pinchrod.papers.data.plan_timber import near

Json = dict[str, Any]


def machining_json(machining: Machining, spares: Sequence[Json] | None = None) -> Json:
    """All set-ups of a job; `spares` is there if they are known."""
    return {
        "steps": [_step(step) for step in machining.steps],
        "notching": _stops(machining.notching),
        "passes": [_passes(passes) for passes in machining.passes],
        **({"spares": list(spares)} if spares is not None else {}),
        "recesses": [_recessing(each) for each in machining.recessing],
        "lengths": [_length(stop) for stop in machining.lengths],
        "moulder": _moulding(machining.moulding) if machining.moulding else None,
    }


def _step(step: Step) -> Json:
    return {
        "machine": step.machine,
        "title": step.title,
        "settings": [_step_setting(setting) for setting in step.settings],
        "cautions": list(step.cautions),
        "why": step.why,
    }


def _step_setting(setting: StepSetting) -> Json:
    return {
        "of": setting.of,
        "to": near(setting.to),
        "unit": setting.unit,
        "through": list(setting.through),
        "back_up": setting.back_up,
    }


def _stops(stops: Stops) -> Json:
    return {
        "strokes": stops.strokes,
        "settings": [_setting(setting) for setting in stops.settings],
        "fewest": stops.fewest,
        "proof": _strokes(stops.proof),
        "unreached": _strokes(stops.unreached),
    }


def _setting(setting: StopSetting) -> Json:
    return {
        "side": str(setting.hand),
        "distance": near(setting.distance),
        "strokes": _strokes(setting.strokes),
    }


def _strokes(strokes: Iterable[Stroke]) -> list[Json]:
    return [_stroke(stroke) for stroke in strokes]


def _stroke(stroke: Stroke) -> Json:
    """In an edge, counted from the datum end; in an end, from the left or lower edge."""
    place = "end" if isinstance(stroke.side, PieceEnd) else "edge"
    return {"piece": stroke.piece, place: str(stroke.side), "at": near(stroke.at)}


def _passes(passes: Passes) -> Json:
    return {
        "of": passes.of,
        "heights": [near(height) for height in passes.heights],
        "through": [list(each.through) for each in passes.passes],
    }


def _recessing(each: Recessing) -> Json:
    tool = each.tool
    return {
        "recess": tool.recess,
        "face": tool.face,
        "in_end": tool.in_end,
        "long": near(tool.long),
        "wide": near(tool.wide),
        "deep": near(tool.deep),
        "fence": near(tool.fence),
        **_stops(each.stops),
    }


def _length(stop: LengthStop) -> Json:
    return {"length": near(stop.length), "pieces": list(stop.pieces)}


def _moulding(moulding: Moulding) -> Json:
    marks, advice = moulding.marks, moulding.advice
    return {
        "rim_speed": near(marks.rim_speed),
        "pitch": near(marks.pitch),
        "wave": near(marks.wave),
        "good_for": advice.good_for.name if advice.good_for else None,
        "source": advice.good_for.source if advice.good_for else None,
        "feeds": [near(advice.slowest), near(advice.fastest)],
        "feeds_source": advice.source,
        "runs": [_run(run) for run in moulding.runs],
    }


def _run(run: BeadRun) -> Json:
    return {
        "width": near(run.width),
        "thickness": near(run.thickness),
        "beads": run.beads,
        "through": list(run.through),
        "edges": {beaded.piece: [str(edge) for edge in beaded.edges] for beaded in run.pieces},
    }
