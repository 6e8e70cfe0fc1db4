"""Power cuts while things are said at the bench: what was acknowledged must be there afterwards, once."""

import contextlib
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import apsw

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Deed,
    DraftAt,
    Request,
    Store,
    drafts_of,
    drop_draft,
    events_after,
    issue,
    keep_draft,
    record,
    record_fault,
    revisions,
    revoke,
    save,
    undo_fault,
)
from pinchrod.store.base import Base
from pinchrod.store.forms import FORMS, Form, bring_up, form_of
from pinchrod.store.soundness import unsound
from pinchrod.store.sqlite import Settings, Sqlite, claim, settle
from tests.store.crash.power import Disk, PowerCut, PowerVfs
from tests.store.shop import (
    MORNING,
    OFFICE,
    PANTRY,
    a_draft,
    a_fault,
    a_job,
    a_paper,
    a_request,
    a_roll,
    a_saving,
    an_issue,
    let_in,
    said_in_turn,
)

FILE = "/shop/pinchrod.db"
SAFE = {"write-ahead log, FULL": Settings("wal", 2), "older journal, EXTRA": Settings("delete", 3)}
UNSAFE = {
    "write-ahead log, NORMAL": Settings("wal", 1),
    "older journal, FULL": Settings("delete", 2),
    "older journal, OFF": Settings("delete", 0),
}
CHECKPOINT_AFTER = 30  # pages, so that the log is written back often while the power may go
SCANS = 24


@dataclass
class Tally:
    """What came of many cuts."""

    cuts: int = 0
    acknowledged: int = 0
    lost: int = 0
    doubled: int = 0
    damaged: int = 0
    cuts_with_loss: int = 0

    def add(self, lost: int, doubled: int, acknowledged: int, *, damaged: bool) -> None:
        self.cuts += 1
        self.acknowledged += acknowledged
        self.lost += lost
        self.doubled += doubled
        self.damaged += damaged
        self.cuts_with_loss += bool(lost or damaged)

    @property
    def clean(self) -> bool:
        return not (self.lost or self.doubled or self.damaged)

    def __str__(self) -> str:
        return (
            f"{self.cuts} cuts, {self.acknowledged} acknowledged: {self.lost} lost in {self.cuts_with_loss} cuts,"
            f" {self.doubled} doubled, {self.damaged} files damaged"
        )


@contextlib.contextmanager
def opened(disk: Disk, settings: Settings, forms: Sequence[Form] = FORMS) -> Iterator[Store]:
    """The store on such a disk, opened as on any other, its own settings in force."""
    vfs = PowerVfs(disk)
    raw = apsw.Connection(FILE, vfs=vfs.called)
    try:
        base = Sqlite(raw, FILE)
        if settings.journal == "wal":
            base.do("PRAGMA locking_mode = EXCLUSIVE")  # such a disk has no memory to share
        settle(base, settings)
        base.do(f"PRAGMA wal_autocheckpoint = {CHECKPOINT_AFTER}")
        claim(base)
        bring_up(base, MORNING, forms)
        yield Store("the disk", base, None)
    finally:
        with contextlib.suppress(PowerCut, apsw.Error):
            raw.close()
        vfs.unregister()


def begun(settings: Settings, forms: Sequence[Form] = FORMS) -> Disk:
    """A disk with a store in which the job is saved."""
    disk = Disk()
    with opened(disk, settings, forms) as store:
        save(store, a_saving(a_job(quantity=2)), now=MORNING)
    return disk.copy()


def scans(number: int = SCANS) -> tuple[Request, ...]:
    """So many things said in turn."""
    said = said_in_turn(a_roll(2))[:number]
    return tuple(replace(a_request(key=f"tap-{n}"), said=(each,)) for n, each in enumerate(said))


def work(store: Store, acknowledged: list[str]) -> None:
    """The bench at work: each key is noted once its answer came."""
    roll = a_roll(2)
    for request in scans():
        record(store, request, roll, now=MORNING)
        acknowledged.append(request.key)


def all_sorts(store: Store, acknowledged: list[str]) -> None:
    """Every way of writing: scans, devices, drafts, faults found, a paper going out, a new revision.

    All of it may be said again to the same store, as it is where the disk failed and is well again.
    """
    roll = a_roll(2)
    for request in scans(4):
        record(store, request, roll, now=MORNING)
        acknowledged.append(request.key)
    for key, write in ENTRIES.items():
        write(store)
        acknowledged.append(key)
    issue(store, an_issue(papers=(a_paper(content=bytes(20_000)),)), now=MORNING)
    acknowledged.append("issue-1")
    if len(revisions(store, PANTRY)) == 1:
        keep_draft(store, a_draft("610", place=WIDER.place), now=MORNING)
    wider = a_saving(a_job(quantity=2, width=610), key="save-2", after=1, typed=WIDER)
    save(store, wider, now=MORNING)
    acknowledged.append("save-2")


def kept_and_dropped(store: Store) -> None:
    """A draft that is there only for a moment."""
    keep_draft(store, a_draft("pair", place="frame K2"), now=MORNING)
    drop_draft(store, PANTRY, "frame K2", "D1")


WIDER = DraftAt(job=PANTRY, place="frame K1 wider", device="D1")
"""A draft that is forgotten by the saving: afterwards it is there, or the revision is, and never both."""
SETTING = a_request(Deed.THROUGH, "K1-RS/1", key="through-1", spot="step 4 setting 7")
ENTRIES: dict[str, Callable[[Store], object]] = {
    "let-in-Tablet 1": lambda store: let_in(store, "Tablet 1"),
    "let-in-Tablet 2": lambda store: let_in(store, "Tablet 2"),
    "away-1": lambda store: revoke(store, "D1", OFFICE, "away-1", now=MORNING),
    "through-1": lambda store: record(store, SETTING, a_roll(2), now=MORNING),
    "fault-1": lambda store: record_fault(store, a_fault(), now=MORNING),
    "fault-2": lambda store: record_fault(store, a_fault(key="fault-2"), now=MORNING),
    "back-2": lambda store: undo_fault(store, "fault-2", key="back-2", by=OFFICE, now=MORNING),
    "draft drawer": lambda store: keep_draft(store, a_draft("drawer"), now=MORNING),
    "draft drawer 140": lambda store: keep_draft(store, a_draft("drawer 140"), now=MORNING),
    "draft dropped": kept_and_dropped,
}
"""What else is kept, by the key that says afterwards whether it is there."""
Work = Callable[[Store, list[str]], None]


def cut(
    start: Disk, settings: Settings, at: int, dice: random.Random, working: Work = work
) -> tuple[list[str], Disk]:
    """What was acknowledged before the power went at that step, and the disk as it is found afterwards."""
    disk = start.copy()
    disk.cut_at = at
    acknowledged: list[str] = []
    with contextlib.suppress(PowerCut, apsw.Error, OSError, NotYetRight), opened(disk, settings) as store:
        working(store, acknowledged)
    return acknowledged, disk.after_a_cut(dice)


def steps_of(start: Disk, settings: Settings, working: Work = work) -> int:
    """How many steps all the work takes when nothing happens."""
    disk = start.copy()
    with opened(disk, settings) as store:
        working(store, [])
    return disk.steps


def judge(tally: Tally, acknowledged: list[str], found: Disk, settings: Settings) -> None:
    """Look at a store after a cut: is it sound, is all there, and does a request sent again count once?"""
    try:
        with opened(found, settings) as store:
            with store.reading() as base:
                damaged = bool(list(unsound(base)))
            keys = [] if damaged else keys_in(store)
            damaged = damaged or _both(store, keys)
            again = next((each for each in scans() if each.key not in acknowledged), None)
            if again is not None and not damaged and "save-2" not in keys:
                record(store, again, a_roll(2), now=MORNING)
                keys = keys_in(store)
    except (apsw.Error, NotYetRight, OSError):
        tally.add(len(acknowledged), 0, len(acknowledged), damaged=True)
        return
    lost = sum(key not in keys for key in acknowledged)
    tally.add(lost, len(keys) - len(set(keys)), len(acknowledged), damaged=damaged)


def _both(store: Store, keys: Sequence[str]) -> bool:
    """Whether what was typed is saved and a draft at once."""
    return "save-2" in keys and any(draft.place == WIDER.place for draft in drafts_of(store, "D1"))


def keys_in(store: Store) -> list[str]:
    """The key of every row: events, devices let in and sent away, and what became of the draft."""
    events = [event.key for event in events_after(store, 0, most=10_000)]
    with store.reading() as base:
        entries = [
            str(key)
            for table in ("devices", "revocations")
            for [key] in base.rows(f"SELECT key FROM {table}")
        ]
    return [*events, *entries, *drafts_in(store)]


def drafts_in(store: Store) -> list[str]:
    """What was typed on the way to what is kept now, and whether the other draft is gone."""
    typed = {draft.place: draft.words for draft in drafts_of(store, "D1")}
    kept = [words for words in ("drawer", "drawer 140") if typed.get("frame K1", "").startswith(words)]
    return [*(f"draft {words}" for words in kept), *([] if "frame K2" in typed else ["draft dropped"])]


def many_cuts(settings: Settings, number: int, seed: int) -> Tally:
    """So many cuts at steps drawn by chance."""
    dice, start, tally = random.Random(seed), begun(settings), Tally()
    steps = steps_of(start, settings)
    for _ in range(number):
        acknowledged, found = cut(start, settings, dice.randint(1, steps), dice)
        judge(tally, acknowledged, found, settings)
    return tally


def every_step(settings: Settings, seed: int, every: int = 1) -> Tally:
    """A cut at each step of every way of writing, or at each so manieth."""
    dice, start, tally = random.Random(seed), begun(settings), Tally()
    for at in range(1, steps_of(start, settings, all_sorts) + 1, every):
        acknowledged, found = cut(start, settings, at, dice, all_sorts)
        judge(tally, acknowledged, found, settings)
    return tally


def every_step_of_making(settings: Settings, seed: int, every: int = 1) -> Tally:
    """A cut at each step while a new store is made: afterwards it is made whole."""
    dice, tally = random.Random(seed), Tally()
    whole = Disk()
    with opened(whole, settings):
        pass
    for at in range(1, whole.steps + 1, every):
        acknowledged, found = cut(Disk(), settings, at, dice, lambda _store, _keys: None)
        with opened(found, settings) as store:
            save(store, a_saving(a_job(quantity=2)), now=MORNING)
        judge(tally, acknowledged, found.copy(), settings)
    return tally


def every_step_of_a_change(settings: Settings, seed: int, old: Sequence[Form], new: Sequence[Form]) -> Tally:
    """A cut at each step while a store is brought to a newer form: afterwards it has the one or the other, whole."""
    dice, tally = random.Random(seed), Tally()
    start = begun(settings, old)
    whole = start.copy()
    before, after = found_in(start, settings, old), found_in(whole, settings, new)
    assert before != after
    for at in range(1, whole.steps + 1):
        disk = start.copy()
        disk.cut_at = at
        with contextlib.suppress(PowerCut, apsw.Error, OSError), opened(disk, settings, new):
            pass
        found = disk.after_a_cut(dice)
        half_way = found_in(found.copy(), settings, old) not in (before, after)
        tally.add(0, 0, 0, damaged=half_way or found_in(found, settings, new) != after)
    return tally


def found_in(disk: Disk, settings: Settings, forms: Sequence[Form]) -> tuple[int, tuple[object, ...]]:
    """The form that a store says it has, once it was brought to these, and all that was made in it."""
    with opened(disk, settings, forms) as store, store.reading() as base:
        made = base.rows("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name")
        return form_of(base), tuple(made)


def _coloured(base: Base) -> None:
    base.do("ALTER TABLE revisions ADD COLUMN colour TEXT NOT NULL DEFAULT ''")
    base.do("CREATE TABLE colours (name TEXT PRIMARY KEY)")


NEWER = (*FORMS, Form(number=FORMS[-1].number + 1, what="colours", bring=_coloured))
CHANGES = {
    **{f"form {at} to {at + 1}": (FORMS[:at], FORMS[: at + 1]) for at in range(1, len(FORMS))},
    "to a form that is invented": (FORMS, NEWER),
}
