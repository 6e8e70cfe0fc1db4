"""A disk that fails: each step of each way of writing in turn, once or from then on, full or broken."""

from dataclasses import dataclass
from itertools import product

import apsw

from pinchrod.ground import NotYetRight
from pinchrod.store.soundness import unsound
from pinchrod.store.sqlite import Settings
from tests.store.crash.cuts import all_sorts, begun, keys_in, opened, steps_of
from tests.store.crash.power import Disk

KINDS = (apsw.FullError, apsw.IOError)


@dataclass
class Failures:
    """What came of many failures."""

    tried: int = 0
    told: int = 0  # the work ended with a message
    unnoticed: int = 0  # the work went on to its end all the same
    gone: int = 0  # acknowledged, and not there afterwards
    unsound: int = 0
    odd: int = 0  # another exception than the edge knows how to tell
    stuck: int = 0  # once the disk was well again, the store that was open could not go on

    @property
    def clean(self) -> bool:
        return not (self.gone or self.unsound or self.odd or self.stuck)

    def __str__(self) -> str:
        return (
            f"{self.tried} failures: {self.told} told, {self.unnoticed} without effect; {self.gone} acknowledged and"
            f" gone, {self.unsound} stores unsound, {self.odd} untold, {self.stuck} stuck afterwards"
        )


def every_failure(settings: Settings, every: int = 1) -> Failures:
    """Each step fails: the disk is full or broken, for this once or for good."""
    start, found = begun(settings), Failures()
    steps = steps_of(start, settings, all_sorts)
    for at, kind, lasting in product(range(1, steps + 1, every), KINDS, (False, True)):
        disk = start.copy()
        disk.fail_at, disk.failing, disk.lasting = at, kind, lasting
        found.tried += 1
        acknowledged = _worked(disk, settings, found)
        _judged(disk, settings, acknowledged, found)
    return found


def _worked(disk: Disk, settings: Settings, found: Failures) -> list[str]:
    """What was acknowledged: on the failing disk, and then by the same store when the disk is well again."""
    acknowledged: list[str] = []
    try:
        with opened(disk, settings) as store:
            try:
                all_sorts(store, acknowledged)
                found.unnoticed += 1
            except (OSError, NotYetRight):
                found.told += 1
                disk.fail_at = 0
                found.stuck += not _goes_on(store, acknowledged)
            disk.fail_at = 0
    except (OSError, NotYetRight):
        found.told += 1  # at the opening
    except Exception:  # noqa: BLE001 -- whatever else comes is what is looked for here
        found.odd += 1
    disk.fail_at = 0
    return acknowledged


def _goes_on(store, acknowledged: list[str]) -> bool:
    try:
        all_sorts(store, acknowledged)
    except (OSError, NotYetRight):
        return False
    return True


def _judged(disk: Disk, settings: Settings, acknowledged: list[str], found: Failures) -> None:
    try:
        with opened(disk.copy(), settings) as store:
            with store.reading() as base:
                found.unsound += bool(list(unsound(base)))
            keys = keys_in(store)
            found.gone += any(key not in keys for key in acknowledged)
    except (OSError, NotYetRight, apsw.Error):
        found.unsound += 1
