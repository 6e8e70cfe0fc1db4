"""How far each frame is at the bench: what can be done with it now, or what it waits for."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from pinchrod.setting_out import Rod, Rods
from pinchrod.store import SHAPING, Deed, Entry, Roll, Standing


class Stage(StrEnum):
    """Where a frame is, by what was said of its pieces."""

    GLUE = "can be glued now"
    CHECK = "to be taped"
    DELIVER = "to be delivered"
    WAITING = "waiting for pieces"
    GONE = "delivered"


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A piece that a frame waits for, and what is to be done to it next."""

    piece: str
    next: str
    spoiled: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameStands:
    """A frame, how many pieces it has, and which are not ready for the glue."""

    frame: str
    pieces: int
    stage: Stage
    missing: tuple[Missing, ...] = ()

    @property
    def ready(self) -> int:
        """How many of its pieces are ready."""
        return self.pieces - len(self.missing)


def frames_stand(roll: Roll, standings: Mapping[str, Standing]) -> tuple[FrameStands, ...]:
    """Every frame of a job, copies of alike ones each by itself, in the order of the job."""
    frames: dict[str, list[Entry]] = {}
    for entry in roll.entries:
        frames.setdefault(entry.frame, []).append(entry)
    return tuple(frame_stands(frame, entries, standings) for frame, entries in frames.items())


def frame_stands(frame: str, entries: Sequence[Entry], standings: Mapping[str, Standing]) -> FrameStands:
    """How one frame stands."""
    missing = tuple(_missing(entries, standings))
    return FrameStands(
        frame=frame,
        pieces=len(entries),
        stage=Stage.WAITING if missing else _stage(entries, standings),
        missing=missing,
    )


def _missing(entries: Sequence[Entry], standings: Mapping[str, Standing]) -> Iterator[Missing]:
    for entry in entries:
        standing = standings.get(entry.mark)
        if standing is not None and standing.spoiled:
            yield Missing(piece=entry.mark, next="to be made again", spoiled=True)
            continue
        done = {event.deed for event in standing.done} if standing else set()
        undone = [step for step in entry.steps if step in SHAPING and step not in done]
        if undone and Deed.GLUED not in done:
            yield Missing(piece=entry.mark, next=f"to be {undone[0]}")


def _stage(entries: Sequence[Entry], standings: Mapping[str, Standing]) -> Stage:
    """The first of the frame's own steps that was not said of all its pieces."""
    done = [
        {event.deed for event in standings[entry.mark].done} if entry.mark in standings else set()
        for entry in entries
    ]
    for deed, stage in (
        (Deed.GLUED, Stage.GLUE),
        (Deed.CHECKED, Stage.CHECK),
        (Deed.DELIVERED, Stage.DELIVER),
    ):
        if not all(deed in each for each in done):
            return stage
    return Stage.GONE


def rod_of(rods: Rods, frame: str) -> Rod | None:
    """The rod of a frame: `K13` for each of its copies `K13/1` and `K13/2`."""
    wanted = frame.upper()
    return next(
        (rod for rod in rods.rods for copy in rod.frame.copies if f"{rod.frame.id}{copy}".upper() == wanted),
        None,
    )
