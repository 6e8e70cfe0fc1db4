"""The set-ups, in order, and the pieces that go through each."""

from pinchrod.machining.fewest import by_eye, fewest_settings
from pinchrod.machining.judge import flaws_of_stops, flaws_of_strokes
from pinchrod.machining.lengths import LengthStop, StickCuts
from pinchrod.machining.pieces import Wood, woods_of
from pinchrod.machining.recesses import Recessing, Tool
from pinchrod.machining.stops import Hand, PieceEnd, StopQuestion, Stops, StopSetting, Stroke
from pinchrod.machining.strokes import notch_strokes

__all__ = [
    "Hand",
    "LengthStop",
    "PieceEnd",
    "Recessing",
    "StickCuts",
    "StopQuestion",
    "StopSetting",
    "Stops",
    "Stroke",
    "Tool",
    "Wood",
    "by_eye",
    "fewest_settings",
    "flaws_of_stops",
    "flaws_of_strokes",
    "notch_strokes",
    "woods_of",
]
