#!/usr/bin/env python3
"""Runs the one-length chooser on instances in a folder of text files and prints a line for each.

A record is a line `name capacity kinds pieces lower upper`, then a line of `size:wanted` pairs.
    python benchmarks/one_length.py FOLDER [seconds an instance] [files to take, as a pattern]
    python benchmarks/one_length.py FOLDER SECONDS PATTERN EVERY beside
The second puts HiGHS alone beside it, told of bars and pieces directly, on one instance in EVERY of a file;
and CP-SAT likewise, where OR-Tools happens to be installed, which nothing here needs. All times are of the
processor; each is told to stop after as many seconds.
"""

import sys
import time
from collections.abc import Iterator
from importlib import import_module
from importlib.util import find_spec
from itertools import chain
from pathlib import Path
from threading import Thread
from typing import NamedTuple

import highspy

from pinchrod.ground import Mm
from pinchrod.timber.one_length import Answer, Budget, Piece, Question, Stock, cut, first_fit, flaws


class Instance(NamedTuple):
    """A published instance, and the least number of bars it is known to need."""

    kind: str
    name: str
    question: Question
    least: int


class Found(NamedTuple):
    """The fewest bars a library found by itself, counted again here; whether it is sure; processor time."""

    bars: int | None
    proven: bool
    seconds: float


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


def in_bars(instance: Instance, values: list[int], bars: int) -> int | None:
    """How many bars the values use, if they make all that is wanted and no bar is over full.

    First whether each bar is used, then bar by bar how many of each piece are on it.
    """
    pieces, room = instance.question.pieces, instance.question.stocks[0].length
    if len(values) < bars:
        return None
    many = len(pieces)
    cuts = [values[bars + b * many : bars + (b + 1) * many] for b in range(bars)]
    fits = all(sum(p.length * n for p, n in zip(pieces, cut, strict=True)) <= room for cut in cuts)
    enough = all(sum(cut[k] for cut in cuts) >= p.wanted for k, p in enumerate(pieces))
    return sum(any(cut) for cut in cuts) if fits and enough else None


def by_highs(instance: Instance, seconds: float, bars: int) -> Found:
    """What HiGHS finds, told of bars and pieces directly.

    A number of pieces of each kind on each bar, and whether the bar is used, in the order of the bars; of no
    more bars than laying out longest first needs.
    """
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    pieces, room = instance.question.pieces, int(instance.question.stocks[0].length)
    used = [solver.addBinary(obj=1.0) for _ in range(bars)]
    on = [[solver.addIntegral(lb=0, ub=p.wanted) for p in pieces] for _ in range(bars)]
    for b in range(bars):
        solver.addConstr(sum(int(p.length) * n for p, n in zip(pieces, on[b], strict=True)) <= room * used[b])
        if b:
            solver.addConstr(used[b] <= used[b - 1])
    for k, piece in enumerate(pieces):
        solver.addConstr(sum(on[b][k] for b in range(bars)) >= piece.wanted)
    started = time.process_time()
    end = started + seconds
    solver.cbMipInterrupt += lambda event: event.interrupt() if time.process_time() > end else None
    solver.run()
    took = time.process_time() - started
    proven = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    values = [round(v) for v in solver.getSolution().col_value]
    return Found(in_bars(instance, values, bars), proven, took)


def by_cp_sat(instance: Instance, seconds: float, bars: int) -> Found:
    """What CP-SAT of OR-Tools finds, told the same, with one worker."""
    cp = import_module("ortools.sat.python.cp_model")
    model, solver = cp.CpModel(), cp.CpSolver()
    pieces, room = instance.question.pieces, int(instance.question.stocks[0].length)
    used = [model.new_bool_var("") for _ in range(bars)]
    on = [[model.new_int_var(0, p.wanted, "") for p in pieces] for _ in range(bars)]
    for b in range(bars):
        model.add(sum(int(p.length) * n for p, n in zip(pieces, on[b], strict=True)) <= room * used[b])
        if b:
            model.add_implication(used[b], used[b - 1])
    for k, piece in enumerate(pieces):
        model.add(sum(on[b][k] for b in range(bars)) >= piece.wanted)
    model.minimize(sum(used))
    solver.parameters.num_workers = 1
    started = time.process_time()
    status: list[object] = []
    search = Thread(target=lambda: status.append(solver.solve(model)))
    search.start()
    while search.is_alive():
        search.join(0.02)
        if time.process_time() > started + seconds:
            solver.stop_search()
    took = time.process_time() - started
    there = status[0] in (cp.OPTIMAL, cp.FEASIBLE)
    values = [solver.value(n) for n in (*used, *chain(*on))] if there else []
    return Found(in_bars(instance, values, bars), status[0] == cp.OPTIMAL, took)


def beside(folder: str, seconds: str, pattern: str, every: str) -> None:
    """Print a line for one instance in so many: ours, then each of the others that is at hand."""
    others = (by_highs, by_cp_sat) if find_spec("ortools") else (by_highs,)
    for path in sorted(Path(folder).glob(f"{pattern}.txt")):
        for at, instance in enumerate(list(read(path))[:: int(every)]):
            if not at:
                run(instance, float(seconds))  # which loads the compiled loops, and does not count
            answer, took, _ = run(instance, float(seconds))
            bars = int(first_fit(instance.question).cost)
            line = (
                f"{instance.kind} {instance.name} {instance.least} | {answer.cost} {answer.proven} {took:.2f}"
            )
            for other in others:
                found = other(instance, float(seconds), bars)
                line += f" | {found.bars} {found.proven} {found.seconds:.2f}"
            print(line, flush=True)


def main(folder: str, seconds: str = "60", pattern: str = "*") -> None:
    """Print a line for each instance, once a run that does not count has loaded the compiled loops."""
    files = sorted(Path(folder).glob(f"{pattern}.txt"))
    run(next(read(files[0])), float(seconds))
    for path in files:
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
    if sys.argv[5:] == ["beside"]:
        beside(*sys.argv[1:5])
    else:
        main(*sys.argv[1:])
