"""How long set-ups take to arrange, and how that grows: python benchmarks/machining.py.

Ready before the clock starts: the rods, or the strokes. The clock is the processor's own, the least of
several goes. Rubbish collection is off, as it is in every command (see cli/main.py). `structured` frames are
of a few sizes, as a kitchen's are; of `scattered` ones no two are of one size; `crowded` are pieces of any
length with four strokes each anywhere on a tenth of a millimetre, so that most share a setting by chance.
"""

import gc
import random
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import pairwise
from math import log
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from pinchrod.ground import Mm
from pinchrod.job import Frame, Shop
from pinchrod.machining import (
    StopQuestion,
    Stops,
    Stroke,
    arrange,
    by_eye,
    check_machining,
    fewest_settings,
    flaws,
    flaws_of_stops,
    notch_question,
    woods_of,
)
from pinchrod.setting_out import Edge, Rods, set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening

DRAWERS = a_stack(*(an_opening("drawer") for _ in range(5)))
DOORS = a_row(an_opening("door"), an_opening("door"))
LAYOUTS = (
    a_stack(an_opening("drawer", 140), DOORS),
    a_row(DRAWERS, an_opening("pair")),
    a_stack(DOORS, DOORS),
)
GOES = 5


def frames(number: int, *, scattered: bool) -> tuple[Frame, ...]:
    """So many frames of three layouts."""
    dice = random.Random(f"machining {number} {scattered}")
    return tuple(_a_frame(each, dice, scattered=scattered) for each in range(number))


def _a_frame(number: int, dice: random.Random, *, scattered: bool) -> Frame:
    frame = a_frame(LAYOUTS[number % len(LAYOUTS)], id=f"F{number}")
    if scattered:
        sizes = Mm(9000 + dice.randrange(6000)) / 10, Mm(8000 + dice.randrange(14000)) / 10
    else:
        sizes = Mm(dice.randrange(800, 1500, 50)), Mm(dice.choice((720, 860, 1200, 2150)))
    return replace(frame, width=sizes[0], height=sizes[1])


def rods_of(number: int, *, scattered: bool) -> Rods:
    """So many frames set out."""
    return set_out(a_job(*frames(number, scattered=scattered)), Shop())


def crowded(pieces: int) -> tuple[Stroke, ...]:
    """So many pieces, with four strokes each."""
    dice = random.Random(f"crowded {pieces}")
    found = []
    for number in range(pieces):
        length = Mm(dice.randrange(3000, 24000)) / 10
        edge = dice.choice((Edge.LEFT, Edge.RIGHT))
        for _ in range(4):
            at = Mm(dice.randrange(int(length * 10))) / 10
            found.append(
                Stroke(piece=f"P{number}", side=edge, at=at, length=length, from_left=edge is Edge.LEFT)
            )
    return tuple(found)


def clocked(*works: Callable[[], object]) -> list[float]:
    """For each the least seconds of processor time; by turns, so that a busy machine slows all alike."""
    spent: list[list[float]] = [[] for _ in works]
    for _ in range(GOES):
        for work, its in zip(works, spent, strict=True):
            start = time.process_time()
            work()
            its.append(time.process_time() - start)
    return [min(its) for its in spent]


def question_of(kind: str, number: int) -> tuple[int, Callable[[], StopQuestion]]:
    """Pieces, and what asks for their strokes, from the rods if there are any."""
    if kind == "crowded":
        asked = StopQuestion(strokes=crowded(number), reach_left=Mm(1500), reach_right=Mm(1500))
        return number, lambda: asked
    rods = rods_of(number, scattered=kind == "scattered")
    pieces = sum(len(rod.members) for rod in rods.rods)
    return pieces, lambda: notch_question(woods_of(rods), Shop())


def growth(kind: str, numbers: tuple[int, ...]) -> None:
    """Seconds for each number, and the ratio from each to the next beside that of n log n."""
    found = [question_of(kind, number) for number in numbers]
    asks = [ask for _, ask in found]
    times = clocked(*(partial(_settle, ask) for ask in asks))
    sizes = [
        _say(f"{kind:10} {pieces:>6} pieces", ask(), each)
        for (pieces, ask), each in zip(found, times, strict=True)
    ]
    for (few, many), (quick, slow) in zip(pairwise(sizes), pairwise(times), strict=True):
        print(
            f"           {many / few:.2f} times the strokes: {slow / quick:.2f} times as long"
            f" (n log n: {many * log(many) / (few * log(few)):.2f})"
        )


def _settle(ask: Callable[[], StopQuestion]) -> Stops:
    return fewest_settings(ask())


def _say(what: str, asked: StopQuestion, spent: float) -> int:
    answer = fewest_settings(asked)
    start = time.process_time()
    found = list(flaws_of_stops(asked, answer))
    judged = time.process_time() - start
    eye = f"(by eye {len(by_eye(asked).settings)})" if len(asked.strokes) < 2500 else ""
    print(
        f"{what} {len(asked.strokes):>6} strokes: {answer.fewest:>5} settings {eye:14} {spent:6.2f} s,"
        f" judged in {judged:.2f} s, flaws {len(found)}"
    )
    return len(asked.strokes)


def whole(*, scattered: bool) -> None:
    """All set-ups of 5,000 pieces: passes, bead, lengths, notches, recesses."""
    job = a_job(*frames(680, scattered=scattered))
    rods, shop = set_out(job, Shop()), Shop()
    made = arrange(job, shop, rods)
    pieces = sum(len(rod.members) for rod in rods.rods)
    strokes = made.notching.strokes + sum(each.stops.strokes for each in made.recessing)
    times = clocked(
        lambda: arrange(job, shop, rods),
        lambda: list(check_machining(rods, shop)),
        lambda: list(flaws(made, shop, rods)),
    )
    print(
        f"everything {pieces:>6} pieces {strokes:>6} strokes: arranged in {times[0]:.2f} s, checked in"
        f" {times[1]:.2f} s, judged in {times[2]:.2f} s"
    )


if __name__ == "__main__":
    gc.disable()
    for each in ("structured", "scattered"):
        growth(each, (100, 620, 1240, 2480))
    growth("crowded", (500, 2500, 5000, 10000))
    whole(scattered=False)
    whole(scattered=True)
