"""A small job, its pieces and what is said of them at the bench: the ordinary, filled in."""

import shutil
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from pinchrod.ground import Mm
from pinchrod.job import Source
from pinchrod.papers import Paper
from pinchrod.store import (
    STEPS,
    By,
    Deed,
    Device,
    Draft,
    FaultFound,
    Folder,
    Issuing,
    JobFiles,
    Request,
    Roll,
    Said,
    Saving,
    Store,
    enrol,
    open_store,
    roll_at,
    save,
)

MORNING = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)
BENCH = By(person="Bench", device="tablet 2")
OFFICE = By(person="Office", device="desk")
PANTRY = "pantry-wall"
MOST_ALIKE = 999
MEMORY, ROOM = Path("/dev/shm"), 1_000_000_000


def quick_folder() -> str | None:
    """Memory that looks like a folder, where it has room: what is synced there is synced at once."""
    there = MEMORY.is_dir() and shutil.disk_usage(MEMORY).free > ROOM
    return str(MEMORY) if there else None


def later(minutes: float) -> datetime:
    """So many minutes into the morning."""
    return MORNING + timedelta(minutes=minutes)


def a_job(*, width: object = 600, name: str = "Pantry wall", quantity: int = 1) -> str:
    """A job file with one frame, or so many alike: from a thousand on, a frame K2 is needed, and so on."""
    head = (
        f'pinchrod = 1\n\n[job]\nname = "{name}"\ntimber = "yellow-poplar"\nthickness = 22\n'
        'joint = "dovetail key"\n'
    )
    counts = [min(MOST_ALIKE, quantity - before) for before in range(0, quantity, MOST_ALIKE)]
    return head + "".join(
        f'\n[[frame]]\nid = "K{number}"\nwidth = {width}\nheight = 720\nquantity = {count}\n'
        'layout = "drawer 140 over pair"\n'
        for number, count in enumerate(counts, start=1)
    )


def files_of(text: str) -> JobFiles:
    """The job file alone."""
    return JobFiles(main=Source(name="job.toml", content=text.encode()))


def a_saving(text: str | None = None, **said: Any) -> Saving:
    """A job to be saved as new, unless said otherwise."""
    files = files_of(a_job() if text is None else text)
    usual = Saving(key="save-1", by=OFFICE, job=PANTRY, after=0, files=files)
    return replace(usual, **said)


def a_request(deed: Deed = Deed.BROKEN_OUT, piece: str = "K1-LS", **said: Any) -> Request:
    """One thing said of one piece."""
    of_request = {name: said.pop(name) for name in ("key", "by", "mark", "despite") if name in said}
    usual = Request(key="tap-1", by=BENCH, said=(Said(deed=deed, piece=piece, **said),))
    return replace(usual, **of_request)


def checked(piece: str, first: object = 937, second: object = 937) -> Said:
    """A frame's check with its diagonals, said of one of its pieces."""
    return Said(deed=Deed.CHECKED, piece=piece, diagonals=(Mm(str(first)), Mm(str(second))))


def said_in_turn(roll: Roll) -> list[Said]:
    """Every step of every piece of a roll in the order in which it is done."""
    return [
        checked(entry.mark) if step is Deed.CHECKED else Said(deed=step, piece=entry.mark)
        for step in STEPS
        for entry in roll.entries
        if step in entry.steps
    ]


@cache
def a_roll(quantity: int = 1) -> Roll:
    """The roll of the pantry wall's first revision, as a store of its own gives it."""
    with TemporaryDirectory() as folder, open_store(Folder(Path(folder))) as store:
        save(store, a_saving(a_job(quantity=quantity)), now=MORNING)
        return roll_at(store, PANTRY)


def a_paper(name: str = "labels.pdf", content: bytes = b"%PDF-1.4 labels") -> Paper:
    """A paper of a pack."""
    return Paper(name=name, content=content)


def an_issue(**said: Any) -> Issuing:
    """A pack of one paper that goes out."""
    usual = Issuing(key="issue-1", by=OFFICE, job=PANTRY, revision=1, papers=(a_paper(),))
    return replace(usual, **said)


def let_in(store: Store, name: str = "Tablet 2", role: str = "tablet", **said: Any) -> Device:
    """A device that is let in; its secret is its name, which no real one's is."""
    usual: dict[str, Any] = {"by": OFFICE, "key": f"let-in-{name}", "now": MORNING}
    return enrol(store, name=name, role=role, **{**usual, "token_mark": mark_of_secret(name), **said})


def mark_of_secret(secret: str) -> str:
    """What the store keeps of a device's secret."""
    return sha256(secret.encode()).hexdigest()


def a_fault(low: object = 412, high: object = 440, **said: Any) -> FaultFound:
    """A knot found at the saw in the stick S14, two sticks being done."""
    span = {"low": Mm(str(low)), "high": Mm(str(high))}
    usual = FaultFound(
        key="fault-1",
        by=BENCH,
        job=PANTRY,
        revision=1,
        stick="S14",
        done=("S1", "S2"),
        proof="plan 1",
        **span,
    )
    return replace(usual, **said)


def a_draft(words: str = "drawer 140 over", **said: Any) -> Draft:
    """Half a layout, typed at the first frame of the pantry wall."""
    usual = Draft(job=PANTRY, place="frame K1", device="D1", after=1, words=words)
    return replace(usual, **said)
