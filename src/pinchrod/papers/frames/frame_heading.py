"""The heading of a frame's page: its id, large enough to find it from across the bench, and its makings."""

from collections.abc import Sequence

from pinchrod.ground import Mm, show
from pinchrod.job import Bead, Job
from pinchrod.papers.marks.sheet import Mark, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import Band, filled, pitch_of
from pinchrod.setting_out import Rod

ID_SIZES = (10.0, 7.0, 5.0, 3.5, 2.5)
LETTERS = 3.5
BESIDE = 6.0  # from the id to the words beside it
UNDER = 4.0  # from the heading to what follows
ORIENTATION = "seen from the face, top upwards ↑"


def makings(rod: Rod, job: Job, step: Mm) -> tuple[str, ...]:
    """How many frames, their size, timber, joint and bead."""
    frame = rod.frame
    return (
        f"{frame.quantity} off",
        f"{show(frame.width, step)} × {show(frame.height, step)}",
        f"{show(job.thickness, step)} thick",
        job.timber.name,
        f"{job.joint} joints",
        _bead(job.bead, step),
    )


def _bead(bead: Bead, step: Mm) -> str:
    if not bead.width:
        return "no bead"
    quirk = f" with its quirk of {show(bead.quirk, step)}" if bead.quirk else ""
    return f"bead {show(bead.width, step)}{quirk}"


def frame_heading(frame_id: str, items: Sequence[str], width: float) -> Band:
    """The heading as a band of that width: the items beside the id if it is short, else under it."""
    wide = words_width(frame_id, 1, bold=True)
    size = next((size for size in ID_SIZES if wide * size <= width), ID_SIZES[-1])
    at = Spot(0, -size)
    name = Words(at, frame_id, size=size, bold=True, max_width=width)
    left, top = (wide * size + BESIDE, 0.0) if wide * size < width / 2 else (0.0, -size * 1.5)
    lines = (*filled(items, LETTERS, width - left, between=" · "), ORIENTATION)
    pitch = pitch_of(lines, LETTERS)
    marks: list[Mark] = [
        Words(Spot(left, top - LETTERS - pitch * place), line, size=LETTERS)
        for place, line in enumerate(lines)
    ]
    deep = max(size * 1.35, LETTERS + pitch * (len(lines) - 1) - top)
    return Band(height=deep + UNDER, marks=(name, *marks))
