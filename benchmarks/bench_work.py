"""How long the bench work of many frames takes to order: python benchmarks/bench_work.py.

Ready before the clock starts: the rods. The clock is the processor's own, the least of several goes. Rubbish
collection is off, as it is in every command (see cli/main.py). `random` frames are of any layout three deep;
`kitchen` ones of three layouts; `deep` is one frame of many members, for how an order grows.
"""

import gc
import random
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from pinchrod.bench import order_bench_work
from pinchrod.ground import NotYetRight
from pinchrod.job import Frame, Shop
from pinchrod.setting_out import Rod, Rods, set_out
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening

FRAMES = 1000
GOES = 3
SHOP = Shop()
DRAWERS = a_stack(*(an_opening("drawer") for _ in range(5)))
DOORS = a_row(an_opening("door"), an_opening("door"))
LAYOUTS = (
    a_stack(an_opening("drawer", 140), DOORS),
    a_row(DRAWERS, an_opening("pair")),
    a_stack(DOORS, DOORS),
)


def random_rods() -> Rods:
    """So many random frames that can be set out."""
    dice, found = random.Random("bench"), list[Rod]()
    while len(found) < FRAMES:
        try:
            found += set_out(a_job(a_random_frame(dice, len(found))), SHOP).rods
        except NotYetRight:
            continue
    return Rods(rods=tuple(found), joint=a_job().joint)


def kitchen_rods() -> Rods:
    """So many frames of three layouts."""
    frames = [a_frame(LAYOUTS[each % 3], id=f"F{each}", width=900, height=1200) for each in range(FRAMES)]
    return set_out(a_job(*frames), SHOP)


def deep_frame(sides: int) -> Frame:
    """A frame of so many rows of so many doors."""
    row = a_row(*(an_opening() for _ in range(sides)))
    return a_frame(a_stack(*(row for _ in range(sides))), width=sides * 300 + 45, height=sides * 300 + 45)


def seconds(work: Callable[[], object]) -> float:
    """Processor time of the quickest of several goes."""
    least = float("inf")
    for _ in range(GOES):
        before = time.process_time()
        work()
        least = min(least, time.process_time() - before)
    return least


def main() -> None:
    """Every case, a line each."""
    gc.disable()
    cases = {f"random {FRAMES}": random_rods(), f"kitchen {FRAMES}": kitchen_rods()}
    for sides in (3, 6, 12):
        cases[f"deep {sides} x {sides}"] = set_out(a_job(deep_frame(sides)), SHOP)
    for name, rods in cases.items():
        job = a_job(*(rod.frame for rod in rods.rods))
        taken = seconds(lambda job=job, rods=rods: order_bench_work(job, SHOP, rods))  # type: ignore[misc]
        members = sum(len(rod.members) for rod in rods.rods)
        print(f"{name:<16}{members:>7} members{taken:>9.2f} s")


if __name__ == "__main__":
    main()
