"""What was typed of a frame and not saved: kept for the device, and offered when somebody comes back."""

from dataclasses import replace

from pinchrod.web import begun
from pinchrod.web.begun import Begun
from pinchrod.web.frames_form import LABELS
from pinchrod.web.visit import Visit

NEW = "new frame"


def begun_frame(visit: Visit, frame: str) -> Begun | None:
    """What was begun of a frame on this device, if anything was; without an id, of a new one."""
    found = begun.begun_at(visit, place_of(frame))
    if found is None:
        return None
    return replace(found, words=tuple(pair for pair in found.words if pair[0] in LABELS))


def place_of(frame: str) -> str:
    """What is typed: that frame, or a new one."""
    return f"frame {frame}" if frame else NEW
