"""The pages' own server, killed again and again under tablets that scan.

The server is the one that `pinchrod serve` runs, started by a fork from a process that has loaded it, so that a start
takes no seconds. Tablets are processes of their own and speak HTTP. They send each scan until it is answered;
now and then twice, at once, or without waiting for the answer. Whoever looks afterwards must find each exactly once.
"""

import contextlib
import http.client
import json
import os
import random
import socket
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from pinchrod.store import SHAPING, Folder, Request, events_after, open_store, replay, roll_at, save
from pinchrod.store.soundness import unsound
from pinchrod.web import Doors, Floor, Site, app_of
from pinchrod.web.command import server_of
from tests.store.crash.crowd import FAULTY, dealt, kill
from tests.store.crash.kills import carry_out, requests_for
from tests.store.shop import PANTRY, a_job, a_roll, a_saving, later, let_in

BUSY = 0.2  # seconds until it sends again, where the server asks it to wait
PATIENCE = 20.0  # seconds that a tablet waits for an answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What came of it."""

    clients: int
    sent: int
    killed: int
    lost: int
    doubled: int
    phantom: int  # in the ledger, and never sent
    unlike: int  # answered twice, and not alike
    unsound: int
    seconds: float

    @property
    def clean(self) -> bool:
        return not (self.lost or self.doubled or self.phantom or self.unlike or self.unsound)

    def __str__(self) -> str:
        return (
            f"{self.clients} tablets, {self.sent} scans, {self.killed} servers killed in {self.seconds:.0f} s:"
            f" {self.lost} lost, {self.doubled} doubled, {self.phantom} never sent,"
            f" {self.unlike} answered otherwise, {self.unsound} unsound"
        )


def killed_under_load(folder: Path, clients: int, scans: int, seed: int, *, longest: float = 0.6) -> Found:
    """So many tablets with so many scans each, until all are answered."""
    dice, kills = random.Random(seed), 0
    with contextlib.closing(_Shop(folder, clients, scans)) as shop:
        running = shop.tablets(partial(_tablet, seed=seed))
        while running:
            time.sleep(0.1 + longest * dice.random())
            running = [client for client in running if not _ended(client)]
            if running:
                shop.kill_and_start()
                kills += 1
    return _judge(shop, kills)


def repeated(folder: Path, clients: int, scans: int, times: int) -> Found:
    """So many tablets that say each of their scans so many times, the last two at once; nothing is killed."""
    with contextlib.closing(_Shop(folder, clients, scans)) as shop:
        for running in shop.tablets(partial(_says_again, times=times)):
            os.waitpid(running, 0)
    return _judge(shop, kills=0)


class _Shop:
    """A store, the line to its pages' server, which outlives it, and what each tablet says."""

    def __init__(self, folder: Path, clients: int, scans: int) -> None:
        self.folder, self.place, self.began = folder, Folder(folder / "shop"), time.monotonic()
        self.shares = _shares(self.place, clients, scans)
        self.line = socket.create_server(("127.0.0.1", 0), backlog=256)
        self.server = self._served()

    def tablets(self, does: Callable[..., None]) -> list[int]:
        """Each tablet a process of its own."""
        port = self.line.getsockname()[1]
        return [
            _start(partial(does, self.folder, number, share, port=port))
            for number, share in enumerate(self.shares)
        ]

    def kill_and_start(self) -> None:
        """Kill the server, and have another on the same line."""
        kill(self.server)
        self.server = self._served()

    def close(self) -> None:
        """Kill the server."""
        kill(self.server)
        self.line.close()

    def _served(self) -> int:
        return _start(partial(_serve, self.place, self.line))


def _says_again(folder: Path, number: int, share: list[Request], times: int, port: int) -> None:
    """Send each scan so many times; note whether all answers were alike."""
    line = _Line(port, tablet(number))
    with (folder / f"answers-{number}").open("w", encoding="utf-8") as notes:
        for request in share:
            answers = {line.until_answered(request) for _ in range(times - 2)} | {*_at_once(line, request)}
            notes.write(f"{request.key} {'same' if len(answers) == 1 else 'unlike'}\n")


def _shares(place: Folder, clients: int, scans: int) -> list[list[Request]]:
    """A job with pieces enough, a tablet that is let in, and what each tablet says."""
    a_piece = len(SHAPING)
    frames = 1 + clients * scans // (len(a_roll(1).entries) * (a_piece - 2))
    with open_store(place) as store:
        save(store, a_saving(a_job(quantity=frames)), now=later(0))
        for number in range(clients):
            let_in(store, tablet(number))
        roll = roll_at(store, PANTRY)
    requests = [request for request in requests_for(roll) if request.said[0].deed in SHAPING]
    return dealt(requests, clients, scans)


def tablet(number: int) -> str:
    """A tablet's name, which is its secret: no real one's is."""
    return f"Tablet-{number}"


def _start(work) -> int:
    child = os.fork()
    if child == 0:
        carry_out(work)
    return child


def _ended(child: int) -> bool:
    return os.waitpid(child, os.WNOHANG) != (0, 0)


def _serve(place: Folder, line: socket.socket) -> None:
    """The pages, on a line that outlives this process."""
    port = line.getsockname()[1]
    with open_store(place) as store:
        site = Site(floor=Floor(store, place.backups), doors=Doors(hosts=frozenset({f"127.0.0.1:{port}"})))
        server_of(app_of(site)).run(sockets=[line])


def _tablet(folder: Path, number: int, share: list[Request], seed: int, port: int) -> None:
    """Send each scan until it is answered; note the answer, and whether a second one differed."""
    dice, line = random.Random(seed * 100 + number), _Line(port, tablet(number))
    with (folder / f"answers-{number}").open("w", encoding="utf-8") as notes:
        for request in share:
            if dice.random() < FAULTY:
                line.send_and_go(request)
            answer = line.until_answered(request)
            again = _at_once(line, request) if dice.random() < FAULTY else (answer, answer)
            alike = all(each == answer for each in again)
            notes.write(f"{request.key} {'same' if alike else 'unlike'}\n")
            notes.flush()


def _at_once(line: "_Line", request: Request) -> list[bytes]:
    """What comes when a scan is sent over two lines at the same time."""
    answers: list[bytes] = []
    threads = [
        threading.Thread(target=lambda: answers.append(line.another().until_answered(request)))
        for _ in range(2)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return answers


class _Line:
    """A tablet's line to the server, made anew whenever it breaks."""

    def __init__(self, port: int, secret: str) -> None:
        self.port = port
        self.secret = secret
        self.line = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE)

    def another(self) -> "_Line":
        return _Line(self.port, self.secret)

    def until_answered(self, request: Request) -> bytes:
        while True:
            try:
                self._send(request)
                answer = self.line.getresponse()
                said = answer.read()
                if answer.status == http.HTTPStatus.OK:
                    return said
                if answer.status == http.HTTPStatus.TOO_MANY_REQUESTS:
                    time.sleep(BUSY)
                    continue
                raise AssertionError(f"{request.said[0]}: {answer.status} {said!r}")
            except (OSError, http.client.HTTPException):
                self.line.close()
                time.sleep(0.02)

    def send_and_go(self, request: Request) -> None:
        """Send it, and be gone before the answer comes."""
        with contextlib.suppress(OSError, http.client.HTTPException):
            self._send(request)
        self.line.close()

    def _send(self, request: Request) -> None:
        said = request.said[0]
        body = {"key": request.key, "code": said.piece, "deed": said.deed, "job": PANTRY}
        headers = {
            "Content-Type": "application/json",
            "Origin": f"http://127.0.0.1:{self.port}",
            "Cookie": f"pinchrod={self.secret}",
        }
        self.line.request("POST", "/bench/said", json.dumps(body), headers)


def _judge(shop: _Shop, kills: int) -> Found:
    seconds, shares = time.monotonic() - shop.began, shop.shares
    answered = {}
    for number in range(len(shares)):
        for noted in (shop.folder / f"answers-{number}").read_text(encoding="utf-8").splitlines():
            key, alike = noted.split()
            answered[key] = alike
    with open_store(shop.place) as store:
        with store.reading() as base:
            faults = len(list(unsound(base)))
        events = [event for event in events_after(store, 0, most=10_000_000) if event.piece]
    keys = [event.key for event in events]
    sent = {request.key for share in shares for request in share}
    assert len(replay(events)) == len({request.said[0].piece for share in shares for request in share})
    return Found(
        clients=len(shares),
        sent=len(sent),
        killed=kills,
        lost=len(set(answered) - set(keys)) + len(sent - set(answered)),
        doubled=len(keys) - len(set(keys)),
        phantom=len(set(keys) - sent),
        unlike=sum(alike != "same" for alike in answered.values()),
        unsound=faults,
        seconds=seconds,
    )
