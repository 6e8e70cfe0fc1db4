"""The set-ups, in order, and the pieces that go through each."""

from pinchrod.machining.arrange import Machining, arrange, notch_question
from pinchrod.machining.cautions import WHO_DECIDES
from pinchrod.machining.check import check_machining
from pinchrod.machining.fewest import by_eye, fewest_settings
from pinchrod.machining.judge import flaws_of_stops, flaws_of_strokes
from pinchrod.machining.judge_all import flaws
from pinchrod.machining.judge_passes import flaws_of_passes
from pinchrod.machining.lengths import LengthStop, StickCuts
from pinchrod.machining.moulder import (
    Beaded,
    BeadRun,
    CutterMarks,
    FeedAdvice,
    Finish,
    Moulding,
    cutter_marks,
    feed_advice,
    feed_for,
)
from pinchrod.machining.passes import Pass, Passes, Planing, fewest_heights, passes_of
from pinchrod.machining.pieces import Wood, woods_of
from pinchrod.machining.recesses import Recessing, Tool
from pinchrod.machining.roughs import Rough, roughs_of
from pinchrod.machining.steps import Step, StepSetting
from pinchrod.machining.stops import Hand, PieceEnd, StopQuestion, Stops, StopSetting, Stroke
from pinchrod.machining.strokes import notch_strokes

__all__ = [
    "WHO_DECIDES",
    "BeadRun",
    "Beaded",
    "CutterMarks",
    "FeedAdvice",
    "Finish",
    "Hand",
    "LengthStop",
    "Machining",
    "Moulding",
    "Pass",
    "Passes",
    "PieceEnd",
    "Planing",
    "Recessing",
    "Rough",
    "Step",
    "StepSetting",
    "StickCuts",
    "StopQuestion",
    "StopSetting",
    "Stops",
    "Stroke",
    "Tool",
    "Wood",
    "arrange",
    "by_eye",
    "check_machining",
    "cutter_marks",
    "feed_advice",
    "feed_for",
    "fewest_heights",
    "fewest_settings",
    "flaws",
    "flaws_of_passes",
    "flaws_of_stops",
    "flaws_of_strokes",
    "notch_question",
    "notch_strokes",
    "passes_of",
    "roughs_of",
    "woods_of",
]
