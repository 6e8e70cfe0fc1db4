"""How long setting out takes, and how it grows: python benchmarks/setting_out.py.

Ready before the clock starts: the frames as records, of ten layouts, all of different sizes. The clock is
the processor's own. Rubbish collection is off, as it is in every command (see cli/main.py).
"""

import gc
import random
import sys
import time
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from pinchrod.ground import Mm
from pinchrod.job import Frame, Layout, Shop
from pinchrod.setting_out import cutting_list, patterns, set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening

DOOR, DRAWER, PAIR, OPEN = (an_opening(kind) for kind in ("door", "drawer", "pair", "open"))
LAYOUTS: tuple[Layout, ...] = (
    PAIR,
    a_row(DOOR, DOOR),
    a_stack(DRAWER, DRAWER, DRAWER),
    a_stack(an_opening("drawer", 140), PAIR),
    a_stack(a_row(DOOR, DOOR), OPEN),
    a_row(a_stack(DRAWER, DRAWER, DRAWER), DOOR),
    a_stack(PAIR, OPEN, DRAWER),
    a_row(DOOR, OPEN, DOOR),
    a_stack(a_row(DRAWER, DRAWER), a_row(PAIR, PAIR)),
    DOOR,
)


def frames(number: int) -> tuple[Frame, ...]:
    """So many frames, no two of one size."""
    dice = random.Random(7)
    return tuple(
        replace(
            a_frame(LAYOUTS[each % len(LAYOUTS)], id=f"F{each}"),
            width=Mm(9000 + dice.randrange(6000)) / 10,
            height=Mm(8000 + dice.randrange(14000)) / 10,
        )
        for each in range(number)
    )


def clocked(number: int) -> float:
    """Seconds of processor time to set out so many frames."""
    job = a_job(*frames(number))
    start = time.process_time()
    rods = set_out(job, Shop())
    spent = time.process_time() - start
    pieces = sum(len(rod.members) for rod in rods.rods)
    print(f"{number:>6} frames, {pieces:>6} pieces: {spent:6.2f} s")
    if number <= 1000:
        start = time.process_time()
        print(f"       {len(patterns(rods))} patterns: {time.process_time() - start:.2f} s")
        start = time.process_time()
        print(f"       {len(cutting_list(rods))} lines to cut: {time.process_time() - start:.2f} s")
    return spent


if __name__ == "__main__":
    gc.disable()
    clocked(100)
    thousand = min(clocked(1000) for _ in range(3))
    print(f"10,000 frames take {clocked(10_000) / thousand:.1f} times as long as 1,000")
