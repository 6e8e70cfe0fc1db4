#!/usr/bin/env python3
"""Runs the one-length chooser on instances in a folder of text files and prints a line for each.

A record is a line `name capacity kinds pieces lower upper`, then a line of `size:wanted` pairs.
    python benchmarks/one_length.py FOLDER [seconds an instance] [files to take, as a pattern]
"""

import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from pinchrod.ground import Mm
from pinchrod.timber.one_length import Answer, Budget, Piece, Question, Stock, cut, flaws


class Instance(NamedTuple):
    """A published instance, and the least number of bars it is known to need."""

    kind: str
    name: str
    question: Question
    least: int


def read(path: Path) -> Iterator[Instance]:
    """The instances of one file."""
    lines = [line for line in path.read_text().splitlines() if line.strip() and not line.startswith("#")]
    for head, pairs in zip(lines[::2], lines[1::2], strict=True):
        name, capacity, _, _, _, upper = head.split()
        sizes = [pair.split(":") for pair in pairs.split()]
        pieces = tuple(
            Piece(mark=str(at), length=Mm(int(s)), wanted=int(n)) for at, (s, n) in enumerate(sizes)
        )
        bar = Stock(mark="bar", length=Mm(int(capacity)), price=Mm(1))
        yield Instance(path.stem, name, Question(pieces=pieces, stocks=(bar,)), int(upper))


def run(instance: Instance, seconds: float) -> tuple[Answer, float, float]:
    """The answer, and the seconds it took: of the processor, and on the wall."""
    end = time.process_time() + seconds
    started, wall = time.process_time(), time.monotonic()
    answer = cut(instance.question, Budget(seconds_left=lambda: end - time.process_time()))
    return answer, time.process_time() - started, time.monotonic() - wall


def main(folder: str, seconds: str = "60", pattern: str = "*") -> None:
    """Print a line for each instance."""
    for path in sorted(Path(folder).glob(f"{pattern}.txt")):
        for instance in read(path):
            answer, took, wall = run(instance, float(seconds))
            wrong = list(flaws(instance.question, answer))
            state = "proven" if answer.proven else "found" if answer.cost == instance.least else "open"
            if wrong or answer.bound > instance.least or answer.cost < instance.least:
                state = f"WRONG {wrong}"
            print(
                f"{instance.kind} {instance.name} {took:.3f} {wall:.3f} {instance.least} {answer.cost}"
                f" {answer.bound} {answer.proof.name} {state}",
                flush=True,
            )


if __name__ == "__main__":
    main(*sys.argv[1:])
