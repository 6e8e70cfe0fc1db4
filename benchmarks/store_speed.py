"""How long a store with a long ledger takes: python -m benchmarks.store_speed [events] [folder].

A ledger of 100,000 events, unless said otherwise, on this computer's disk; wall seconds, since what is waited
for is the disk, and processor seconds where it is not.
"""

import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from statistics import median, quantiles

from pinchrod.store import (
    Folder,
    Request,
    Roll,
    Store,
    back_up,
    events_of,
    open_store,
    record,
    replay,
    save,
    verify,
)
from tests.store.shop import MORNING, PANTRY, a_job, a_request, a_roll, a_saving, later, said_in_turn

SINGLE = 300  # scans that are timed one by one
AT_ONCE = 1_000


def requests_for(roll: Roll, events: int) -> tuple[list[Request], list[Request]]:
    """Everything but the last scans, many at a time; and those, one by one."""
    said = said_in_turn(roll)[: events + SINGLE]
    many = [
        replace(a_request(key=f"many-{at}"), said=tuple(said[at : min(at + AT_ONCE, events)]))
        for at in range(0, events, AT_ONCE)
    ]
    return many, [replace(a_request(key=f"one-{n}"), said=(each,)) for n, each in enumerate(said[events:])]


def clocked(name: str, work: Callable[[], object]) -> None:
    """Do a thing once and print how long it took."""
    start, used = time.monotonic(), time.process_time()
    work()
    took, used = time.monotonic() - start, time.process_time() - used
    print(f"{name:<40} {took:7.2f} s, {used:7.2f} s processor", flush=True)


def scans(store: Store, roll: Roll, requests: list[Request]) -> None:
    """Print how long one scan takes, until it is safe on the disk."""
    times = []
    for request in requests:
        start = time.monotonic()
        record(store, request, roll)
        times.append(1000 * (time.monotonic() - start))
    print(
        f"{'one scan: median, 95th of 100':<40} {median(times):7.1f} ms, {quantiles(times, n=20)[-1]:.1f} ms"
    )


def main(events: int, folder: str | None) -> None:
    """Fill a store, then time what is done with it."""
    frames = 1 + (events + SINGLE) // len(said_in_turn(a_roll(1)))
    with tempfile.TemporaryDirectory(dir=folder) as name:
        place = Folder(Path(name) / "shop")
        with open_store(place, now=MORNING) as store:
            save(store, a_saving(a_job(quantity=frames)), now=MORNING)
            roll = a_roll(frames)
            many, single = requests_for(roll, events)
            clocked(
                f"{events} events, {AT_ONCE} at once", lambda: [record(store, each, roll) for each in many]
            )
            scans(store, roll, single)
            clocked("how all pieces stand, from the first line", lambda: replay(events_of(store, PANTRY)))
            clocked("looked over whole", lambda: verify(store))
            clocked("copied and looked over", lambda: back_up(store, place.backups, now=later(1)))
        clocked("opened", lambda: open_store(place).close())
        print(f"{'size':<40} {place.file.stat().st_size / 1e6:7.1f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 100_000, sys.argv[2] if sys.argv[2:] else None)
