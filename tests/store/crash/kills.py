"""Processes that end at any moment, by kill -9, while things are said at the bench or copies are taken."""

import os
import random
import signal
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from itertools import count
from pathlib import Path
from typing import NoReturn

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Folder,
    Request,
    Roll,
    back_up,
    copies_in,
    events_after,
    look_over,
    open_store,
    record,
    save,
)
from pinchrod.store.soundness import unsound
from tests.store.shop import MORNING, a_job, a_request, a_roll, a_saving, later, said_in_turn

ROUNDS_A_STORE = 25  # then another is begun, so that looking one over does not take longer and longer
FRAMES = 60
BEGUN = 0.8  # share of kills that come after the first thing was done
LONGEST = 0.25  # seconds until the kill


@dataclass
class Kills:
    """What came of many kills."""

    kills: int = 0
    acknowledged: int = 0
    unanswered: int = 0  # in the ledger though nobody was told: sent again, it must not be doubled
    lost: int = 0
    doubled: int = 0
    unsound: int = 0

    @property
    def clean(self) -> bool:
        return not (self.lost or self.doubled or self.unsound)

    def __str__(self) -> str:
        return (
            f"{self.kills} kills, {self.acknowledged} acknowledged: {self.lost} lost, {self.doubled} doubled,"
            f" {self.unsound} stores unsound ({self.unanswered} kept and never answered)"
        )


def many_kills(folder: Path, number: int, seed: int) -> Kills:
    """So many processes killed while they take down one request after another."""
    dice, found = random.Random(seed), Kills()
    while found.kills < number:
        rounds = min(ROUNDS_A_STORE, number - found.kills)
        _one_store(Folder(folder / f"shop-{found.kills}"), rounds, dice, found)
    return found


def _one_store(place: Folder, rounds: int, dice: random.Random, found: Kills) -> None:
    roll = a_roll(FRAMES)
    with open_store(place, now=MORNING) as store:
        save(store, a_saving(a_job(quantity=FRAMES)), now=MORNING)
    requests = requests_for(roll)
    told = b""
    for _ in range(rounds):
        told += killed(partial(_work, place, roll, requests[len(told) :]), dice, begun=dice.random() < BEGUN)
        found.kills += 1
        _judge(place, [request.key for request in requests[: len(told)]], found)
    found.acknowledged += len(told)


def requests_for(roll: Roll) -> tuple[Request, ...]:
    """Everything that can be said of a roll, one request each, in turn."""
    return tuple(
        replace(a_request(key=f"tap-{number}"), said=(said,))
        for number, said in enumerate(said_in_turn(roll))
    )


def _work(place: Folder, roll: Roll, requests: tuple[Request, ...], say: Callable[[], object]) -> None:
    with open_store(place) as store:
        for request in requests:
            record(store, request, roll, now=MORNING)
            say()


def killed(work: Callable[[Callable[[], object]], None], dice: random.Random, *, begun: bool) -> bytes:
    """A letter for each time the work said that something was done, until it was killed at some moment.

    The moment is counted from its start, or from the first time that it said so, where it is to have `begun`:
    on a busy computer it would else be killed before it did anything.
    """
    hear, tell = os.pipe()
    child = os.fork()
    if child == 0:
        carry_out(partial(work, partial(os.write, tell, b".")))
    os.close(tell)
    first = os.read(hear, 1) if begun else b""
    time.sleep(dice.random() * LONGEST)
    os.kill(child, signal.SIGKILL)
    _, ended = os.waitpid(child, 0)
    assert ended in (0, signal.SIGKILL), "it ended by itself, and not well"
    with os.fdopen(hear, "rb") as said:
        return first + said.read()


def carry_out(work: Callable[[], object]) -> NoReturn:
    """Do the work of a child, and end it here, whatever happens: it must not go on as a second parent."""
    try:
        work()
        os._exit(0)
    except BaseException:  # noqa: BLE001 -- told on the screen and by how the child ends
        traceback.print_exc()
        os._exit(1)


def _judge(place: Folder, acknowledged: list[str], found: Kills) -> None:
    """Whether the store is sound, and each key that was acknowledged is there once."""
    with open_store(place) as store:
        with store.reading() as base:
            found.unsound += bool(list(unsound(base)))
        keys = [event.key for event in events_after(store, 1, most=100_000)]
    found.lost += len(set(acknowledged) - set(keys))
    found.doubled += len(keys) - len(set(keys))
    found.unanswered += len(set(keys) - set(acknowledged))


def kills_while_copying(folder: Path, number: int, seed: int) -> tuple[int, int]:
    """How many copies bore a copy's name after so many kills, and how many of those were not sound."""
    dice, place = random.Random(seed), Folder(folder / "shop")
    with open_store(place, now=MORNING) as store:
        save(store, a_saving(a_job(quantity=FRAMES)), now=MORNING)
        for request in requests_for(a_roll(FRAMES))[:200]:
            record(store, request, a_roll(FRAMES), now=MORNING)
    seconds = count()

    def copy(say: Callable[[], object]) -> None:
        with open_store(place, writing=False) as store:
            for second in range(1000):
                back_up(store, place.backups, now=later((next(seconds) * 1000 + second) / 60))
                say()

    bad = looked = 0
    for _ in range(number):
        killed(copy, dice, begun=True)
        next(seconds)
        for path in copies_in(place.backups):
            looked += 1
            try:
                look_over(path)
            except NotYetRight:
                bad += 1
            path.unlink()
        for rest in place.backups.glob(".new-*"):
            rest.unlink()
    return looked, bad
