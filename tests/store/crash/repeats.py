"""Requests that come once to five times, in any order, at once and after a restart: each counts once."""

import random
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from pinchrod.store import Folder, Recorded, Request, events_after, open_store, record, roll_at, save
from pinchrod.store.soundness import unsound
from tests.store.crash.kills import requests_for
from tests.store.shop import MORNING, PANTRY, a_job, a_roll, a_saving, later, said_in_turn


@dataclass
class Repeats:
    """What came of many requests."""

    requests: int = 0
    sent: int = 0
    rows: int = 0
    unlike: int = 0  # answered otherwise than the first time
    unsound: int = 0

    @property
    def clean(self) -> bool:
        return self.rows == self.requests and not (self.unlike or self.unsound)

    def __str__(self) -> str:
        return (
            f"{self.requests} requests sent {self.sent} times: {self.rows} rows, {self.unlike} answered otherwise,"
            f" {self.unsound} unsound"
        )


A_STORE = 10_000  # requests; then another is begun
AT_ONCE = 100  # requests shuffled together, over eight lines
RESTART_AFTER = 20  # such handfuls


def many_repeats(folder: Path, number: int, seed: int) -> Repeats:
    """So many requests, each sent once to five times."""
    dice, found = random.Random(seed), Repeats()
    while found.requests < number:
        wanted = min(A_STORE, number - found.requests)
        _one_store(Folder(folder / f"shop-{found.requests}"), wanted, dice, found)
    return found


def _one_store(place: Folder, wanted: int, dice: random.Random, found: Repeats) -> None:
    frames = 1 + wanted // len(said_in_turn(a_roll(1))) + AT_ONCE // len(a_roll(1).entries)
    with open_store(place, now=MORNING) as store:
        save(store, a_saving(a_job(quantity=frames)), now=MORNING)
        roll = roll_at(store, PANTRY)
    requests = requests_for(roll)[:wanted]
    handfuls = [requests[at : at + AT_ONCE] for at in range(0, wanted, AT_ONCE)]
    answers: dict[str, Recorded] = {}
    for first in range(0, len(handfuls), RESTART_AFTER):
        with open_store(place) as store, ThreadPoolExecutor(8) as lines:
            for handful in handfuls[first : first + RESTART_AFTER]:
                old = dice.sample(sorted(answers), min(2, len(answers)))  # of long ago
                sent = [each for each in handful for _ in range(dice.randint(1, 5))]
                sent += [each for each in requests if each.key in old]
                dice.shuffle(sent)
                got = lines.map(lambda each: record(store, each, roll, now=later(dice.randrange(900))), sent)
                for request, answer in zip(sent, got, strict=True):
                    found.unlike += answers.setdefault(request.key, answer) != answer
                found.sent += len(sent)
    _judge(place, requests, found)


def _judge(place: Folder, requests: tuple[Request, ...], found: Repeats) -> None:
    with open_store(place) as store:
        with store.reading() as base:
            found.unsound += bool(list(unsound(base)))
        keys = [event.key for event in events_after(store, 1, most=10 * A_STORE)]
    found.requests += len(requests)
    found.rows += len(keys)
    found.unlike += sorted(keys) != sorted(request.key for request in requests)
