"""The roll of a job: each piece that its revision wants, and the steps the piece goes through."""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.setting_out import Member, Rod, Rods
from pinchrod.store.deeds import STEPS, Deed


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One piece: its mark, the frame it goes into, and its steps in the order in which they are done."""

    mark: str
    frame: str
    steps: tuple[Deed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Roll:
    """Every piece of one revision of a job."""

    job: str
    revision: int
    mark: str  # the revision's content mark
    entries: tuple[Entry, ...]

    def entry(self, piece: str) -> Entry | None:
        """The piece of that mark, however its letters are written: no job has two that differ by capitals."""
        as_written = next((entry for entry in self.entries if entry.mark == piece), None)
        wanted = piece.upper()
        return as_written or next((entry for entry in self.entries if entry.mark.upper() == wanted), None)

    def of_frame(self, frame: str) -> tuple[Entry, ...]:
        """The pieces that go into one frame: `K1`, or `K1/2` for the second of frames made alike."""
        return tuple(entry for entry in self.entries if entry.frame.upper() == frame.upper())


def roll_of(rods: Rods, job: str, revision: int, mark: str) -> Roll:
    """The roll of the stiles, rails and muntins of a job as it is set out, alike frames counted each."""
    entries = tuple(entry for rod in rods.rods for entry in _entries(rod))
    return Roll(job=job, revision=revision, mark=mark, entries=entries)


def _entries(rod: Rod) -> Iterator[Entry]:
    """A frame made once has pieces K1-LS, K1-RS; of a frame made twice they are K1-LS/1 and K1-LS/2."""
    for copy in rod.frame.copies:
        for member in rod.members:
            yield Entry(mark=f"{member.name}{copy}", frame=f"{rod.frame.id}{copy}", steps=_steps(member))


def _steps(member: Member) -> tuple[Deed, ...]:
    """All steps but those for which there is nothing to do on this member."""
    idle = {
        Deed.MOULDED: not member.beads,
        Deed.NOTCHED: not member.notches,
        Deed.SLOTTED: not member.fixings,
    }
    return tuple(step for step in STEPS if not idle.get(step, False))
