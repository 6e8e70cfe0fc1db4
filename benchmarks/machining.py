"""How long set-ups take to arrange, and how that grows: python benchmarks/machining.py.

Ready before the clock starts: the rods. The clock is the processor's own. Rubbish collection is off, as it is in
every command (see cli/main.py). `structured` frames are of a few sizes, as a kitchen's are; of `scattered` ones
no two are of one size.
"""

import gc
import random
import sys
import time
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from pinchrod.ground import Mm
from pinchrod.job import Frame, Shop
from pinchrod.machining import (
    StopQuestion,
    by_eye,
    fewest_settings,
    flaws_of_stops,
    notch_strokes,
    woods_of,
)
from pinchrod.setting_out import Rods, set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening

DRAWERS = a_stack(*(an_opening("drawer") for _ in range(5)))
DOORS = a_row(an_opening("door"), an_opening("door"))
LAYOUTS = (
    a_stack(an_opening("drawer", 140), DOORS),
    a_row(DRAWERS, an_opening("pair")),
    a_stack(DOORS, DOORS),
)


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


def clocked(number: int, *, scattered: bool) -> float:
    """Seconds of processor time from rods to proven settings of the notcher."""
    rods, notcher = rods_of(number, scattered=scattered), Shop().machines.notcher
    start = time.process_time()
    strokes = tuple(notch_strokes(woods_of(rods), notcher.flat))
    question = StopQuestion(strokes=strokes, reach_left=notcher.reach_left, reach_right=notcher.reach_right)
    answer = fewest_settings(question)
    spent = time.process_time() - start
    found = list(flaws_of_stops(question, answer))
    judged = time.process_time() - start - spent
    pieces = sum(len(rod.members) for rod in rods.rods)
    eye = len(by_eye(question).settings) if number <= 200 else 0
    kind = "scattered" if scattered else "structured"
    print(
        f"{kind:10} {pieces:>6} pieces {len(strokes):>6} strokes: {answer.fewest:>5} settings"
        f" {f'(by eye {eye})' if eye else '':14} {spent:6.2f} s, judged in {judged:.2f} s, flaws {len(found)}"
    )
    return spent


if __name__ == "__main__":
    gc.disable()
    for each in (False, True):
        clocked(100, scattered=each)
        spent = [min(clocked(number, scattered=each) for _ in range(3)) for number in (620, 1240, 2480)]
        print(
            f"           each doubling takes {spent[1] / spent[0]:.2f}, {spent[2] / spent[1]:.2f} times as long"
        )
