"""What of the store outlives a crash: python -m benchmarks.store_crash [trial] [--times N] [--seed N].

Trials: cuts, steps, failures, control, kills, copies, crowd, repeats, drills; with no word each, small.
Ends with 1 if anything acknowledged was lost, doubled or damaged, or if the control, which must lose,
did not. Cuts, steps, failures and the control run on a disk in memory; the others in a folder under --folder.
"""

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from tests.store.crash.crowd import a_crowd
from tests.store.crash.cuts import SAFE, UNSAFE, every_step, every_step_of_making, many_cuts
from tests.store.crash.drills import many_drills
from tests.store.crash.failures import every_failure
from tests.store.crash.kills import kills_while_copying, many_kills
from tests.store.crash.repeats import many_repeats


@dataclass(frozen=True, slots=True)
class Asked:
    """How much is tried."""

    times: int
    seed: int
    folder: Path
    clients: int


def cuts(asked: Asked) -> bool:
    """Power cuts at steps drawn by chance, under each of the two safe settings."""
    tallies = [tell(name, many_cuts(settings, asked.times, asked.seed)) for name, settings in SAFE.items()]
    return all(tally.clean for tally in tallies)


def steps(asked: Asked) -> bool:
    """A power cut at each step of each way of writing, so many times over."""
    tallies = []
    for name, settings in SAFE.items():
        for seed in range(asked.seed, asked.seed + asked.times):
            tallies.append(tell(f"{name}, working", every_step(settings, seed)))
            tallies.append(tell(f"{name}, new store", every_step_of_making(settings, seed)))
    return all(tally.clean for tally in tallies)


def control(asked: Asked) -> bool:
    """The same cuts under settings that are not safe: each must lose something, or the trial sees nothing."""
    tallies = [tell(name, many_cuts(settings, asked.times, asked.seed)) for name, settings in UNSAFE.items()]
    return all(tally.lost or tally.damaged for tally in tallies)


def failures(_asked: Asked) -> bool:
    """A full or broken disk at each step of each way of writing, once and for good."""
    found = [tell(name, every_failure(settings)) for name, settings in SAFE.items()]
    return all(each.clean for each in found)


def kills(asked: Asked) -> bool:
    """Processes killed while they take down requests."""
    return tell("kill -9", many_kills(asked.folder, asked.times, asked.seed)).clean


def copies(asked: Asked) -> bool:
    """Processes killed while they take copies: what bears a copy's name must be one."""
    looked, bad = kills_while_copying(asked.folder, asked.times, asked.seed)
    tell("copying", f"{asked.times} kills: {looked} files bore a copy's name, {bad} of them were not sound")
    return not bad and bool(looked)


def crowd(asked: Asked) -> bool:
    """Tablets at once: servers killed, answers lost and late, things sent twice, a clock that jumps."""
    return tell(f"seed {asked.seed}", a_crowd(asked.folder, asked.clients, asked.times, asked.seed)).clean


def repeats(asked: Asked) -> bool:
    """Requests sent once to five times."""
    return tell("repeats", many_repeats(asked.folder, asked.times, asked.seed)).clean


def drills(asked: Asked) -> bool:
    """Copies put back while the bench works on."""
    return tell("drills", many_drills(asked.folder, asked.times)).clean


SMALL = {
    cuts: 30,
    steps: 1,
    control: 30,
    failures: 1,
    kills: 10,
    copies: 5,
    crowd: 60,
    repeats: 300,
    drills: 5,
}  # so that all of it takes about a minute


Found = TypeVar("Found")


def tell(name: str, found: Found) -> Found:
    """Print what came of a trial, and hand it on."""
    print(f"{name:<32} {found}", flush=True)
    return found


def tried(trial: Callable[[Asked], bool], said: argparse.Namespace) -> bool:
    """Whether a trial ended as it must."""
    start, used = time.monotonic(), time.process_time()
    with tempfile.TemporaryDirectory(dir=said.folder) as folder:
        times = said.times or SMALL[trial]
        good = trial(Asked(times, said.seed, Path(folder), said.clients))
    took, used = time.monotonic() - start, time.process_time() - used
    print(
        f"{'':<32} {'as it must be' if good else 'NOT AS IT MUST BE'} ({took:.0f} s, {used:.0f} s processor)"
    )
    return good


def main() -> int:
    """0 if every trial asked for ended as it must."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    named = {trial.__name__: trial for trial in SMALL}
    asked.add_argument("trial", nargs="*", choices=[*named, []])
    asked.add_argument("--times", type=int, default=0)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--clients", type=int, default=8)
    asked.add_argument("--folder", default=None)
    said = asked.parse_args()
    ended = [tried(named[name], said) for name in said.trial or named]
    return 0 if all(ended) else 1


if __name__ == "__main__":
    sys.exit(main())
