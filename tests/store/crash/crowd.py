"""A workshop full of tablets: clients that send again when no answer comes, and a server that is killed under them.

The server is a process of its own that takes requests over sockets, each client in a thread, as the pages'
server will. It delays answers, drops them, and its clock jumps. Clients send things twice, now and then at
once. Whoever looks afterwards must find each thing that was said exactly once.
"""

import contextlib
import os
import random
import signal
import threading
import time
from dataclasses import dataclass, replace
from functools import partial
from multiprocessing.connection import Client, Connection, Listener
from pathlib import Path

from pinchrod.store import (
    Folder,
    Request,
    Roll,
    Said,
    events_after,
    open_store,
    record,
    replay,
    roll_at,
    save,
)
from pinchrod.store.soundness import unsound
from tests.store.crash.kills import carry_out
from tests.store.shop import PANTRY, a_job, a_request, a_roll, a_saving, later, said_in_turn

FAULTY = 0.02  # share of answers that are delayed or dropped, and of requests sent twice


@dataclass
class Found:
    """What came of a crowd."""

    clients: int
    sent: int
    killed: int
    lost: int
    doubled: int
    phantom: int  # in the ledger, and never sent
    unlike: int  # answered twice, and not alike
    unsound: int

    @property
    def clean(self) -> bool:
        return not (self.lost or self.doubled or self.phantom or self.unlike or self.unsound)

    def __str__(self) -> str:
        return (
            f"{self.clients} clients, {self.sent} scans, {self.killed} servers killed: {self.lost} lost,"
            f" {self.doubled} doubled, {self.phantom} never sent, {self.unlike} answered otherwise,"
            f" {self.unsound} unsound"
        )


def a_crowd(folder: Path, clients: int, scans: int, seed: int, *, kill_every: float = 1.0) -> Found:
    """So many clients with so many scans each, all sent until answered."""
    place, dice = Folder(folder / "shop"), random.Random(seed)
    frames = 1 + clients * (1 + scans // len(said_in_turn(a_roll(1))))
    with open_store(place) as store:
        save(store, a_saving(a_job(quantity=frames)), now=later(0))
        roll = roll_at(store, PANTRY)
    requests = [
        replace(a_request(key=f"tap-{number}"), said=(said,))
        for number, said in enumerate(said_in_turn(roll))
    ]
    shares = dealt(requests, clients, scans)
    server = start_server(place, roll, dice.random())
    running = [_start(tablet, folder, number, share, seed) for number, share in enumerate(shares)]
    killed = 0
    while running:
        time.sleep(kill_every * dice.random())
        running = [client for client in running if os.waitpid(client, os.WNOHANG) == (0, 0)]
        if running:
            kill(server)
            killed += 1
            server = start_server(place, roll, dice.random())
    kill(server)
    return _judge(place, folder, shares, killed)


def dealt(requests: list[Request], clients: int, scans: int) -> list[list[Request]]:
    """Each client's requests: whole pieces, so that what each says can be, whatever the others do."""
    by_piece: dict[str, list[Request]] = {}
    for request in requests:
        by_piece.setdefault(request.said[0].piece, []).append(request)
    shares: list[list[Request]] = [[] for _ in range(clients)]
    for number, said in enumerate(by_piece.values()):
        shares[number % clients] += said
    return [share[:scans] for share in shares]


def kill(process: int) -> None:
    os.kill(process, signal.SIGKILL)
    os.waitpid(process, 0)


def start_server(place: Folder, roll: Roll, seed: float) -> int:
    child = os.fork()
    if child == 0:
        carry_out(partial(serve, place, roll, seed))
    return child


def serve(place: Folder, roll: Roll, seed: float) -> None:
    """Take down what comes, for good."""
    address = place.path / "socket"
    address.unlink(missing_ok=True)
    with open_store(place) as store, Listener(str(address), "AF_UNIX", backlog=64) as door:
        dice = random.Random(seed)

        def attend(line: Connection) -> None:
            with line, contextlib.suppress(EOFError, OSError):
                while True:
                    key, piece, deed, diagonals = line.recv()
                    said = Said(deed=deed, piece=piece, diagonals=diagonals)
                    minutes = dice.randrange(-10_000, 10_000)  # a clock that jumps
                    answer = record(
                        store, replace(a_request(key=key), said=(said,)), roll, now=later(minutes)
                    )
                    if dice.random() < FAULTY:
                        time.sleep(dice.random() / 50)
                    if dice.random() < FAULTY:
                        return  # the answer is lost on its way
                    line.send([(event.seq, event.seal) for event in answer.events])

        while True:
            with contextlib.suppress(OSError):
                threading.Thread(target=attend, args=(door.accept(),), daemon=True).start()


def _start(work, *words) -> int:
    child = os.fork()
    if child == 0:
        carry_out(partial(work, *words))
    return child


def tablet(folder: Path, number: int, share: list[Request], seed: int) -> None:
    """Send each thing until it is answered; note the answer, and whether a second one differed."""
    dice = random.Random(seed * 100 + number)
    with (folder / f"answers-{number}").open("w", encoding="utf-8") as notes:
        line = None
        for request in share:
            answer, line = _until_answered(folder, request, line)
            twice = dice.random() < FAULTY
            again = at_once(folder, request) if twice else answer
            notes.write(f"{request.key} {answer[0][0]} {'same' if again == answer else 'unlike'}\n")


def at_once(folder: Path, request: Request):
    """What comes when a request is sent over two lines at the same time: one answer, or two that differ."""
    answers: list[object] = [None, None]

    def send(place: int) -> None:
        answers[place] = _until_answered(folder, request, None)[0]

    threads = [threading.Thread(target=send, args=(place,)) for place in (0, 1)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return answers[0] if answers[0] == answers[1] else answers


def _until_answered(folder: Path, request: Request, line: Connection | None):
    said = request.said[0]
    while True:
        try:
            line = line or Client(str(folder / "shop" / "socket"), "AF_UNIX")
            line.send((request.key, said.piece, said.deed, said.diagonals))
            if line.poll(5):
                return line.recv(), line
        except (OSError, EOFError):
            time.sleep(0.01)
        if line is not None:
            line.close()
        line = None


def _judge(place: Folder, folder: Path, shares: list[list[Request]], killed: int) -> Found:
    answered = {}
    for number in range(len(shares)):
        for noted in (folder / f"answers-{number}").read_text(encoding="utf-8").splitlines():
            key, seq, alike = noted.split()
            answered[key] = (int(seq), alike)
    with open_store(place) as store:
        with store.reading() as base:
            faults = len(list(unsound(base)))
        events = events_after(store, 1, most=10_000_000)
    keys = [event.key for event in events]
    by_key = {event.key: event.seq for event in events}
    sent = {request.key for share in shares for request in share}
    assert len(replay(events)) == len({request.said[0].piece for share in shares for request in share})
    return Found(
        clients=len(shares),
        sent=len(sent),
        killed=killed,
        lost=sum(by_key.get(key) != answered.get(key, (0,))[0] for key in sent),
        doubled=len(keys) - len(set(keys)),
        phantom=len(set(keys) - sent),
        unlike=sum(alike != "same" for _, alike in answered.values()),
        unsound=faults,
    )
