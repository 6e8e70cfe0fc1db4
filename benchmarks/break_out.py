"""How near the bound break-outs come, how long they take and how much room: one line for each question asked.

python -m benchmarks.break_out 340:260 170:260 70:260 --seeds 501 502
python -m benchmarks.break_out 100:80 300:230 1000:760 3000:2300   how it grows
python -m benchmarks.break_out 170:260 --rack narrow                boards hardly wider than a strip or two

CPU s is of both searches together, which run beside each other.
"""

import argparse
import resource
import time
from collections.abc import Callable
from functools import partial

from pinchrod.timber import Effort, Question, break_out, by_eye, flaws
from tests.timber.racks import a_faulty_rack, a_narrow_rack, a_question, just_enough

RACKS: dict[str, Callable[[int, int, int], Question]] = {
    "usual": a_question,
    "narrow": a_narrow_rack,
    "faulty": a_faulty_rack,
    "enough": partial(just_enough, effort=Effort()),
}
HEADING = "members boards seed |   cost  bound  gap %  yield  short | by eye + % | CPU s wall s   MB | flaws"


def line(question: Question, seed: int, effort: Effort) -> str:
    """One question, answered and judged."""
    members, boards = len(question.by_mark()), len(question.boards)
    start, began = time.process_time(), time.monotonic()
    answer = break_out(question, effort)
    took, waited = time.process_time() - start, time.monotonic() - began
    gap = 100 * (answer.cost / answer.bound - 1) if answer.bound else 0
    eye = 100 * (by_eye(question).cost / answer.cost - 1)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return (
        f"{members:7} {boards:6} {seed:4} | {float(answer.cost):6.1f} {float(answer.bound):6.1f} "
        f"{float(gap):6.2f} {float(answer.share):6.3f} {len(answer.short):6} | {float(eye):10.1f} | "
        f"{took:5.1f} {waited:6.1f} {memory:4.0f} | {len(list(flaws(question, answer)))}"
    )


def main() -> None:
    """Read what is to be tried from the command line, and print it line by line."""
    said = argparse.ArgumentParser(description=__doc__)
    said.add_argument("sizes", nargs="+", help="members:boards")
    said.add_argument("--seeds", nargs="+", type=int, default=[501])
    said.add_argument("--rack", choices=RACKS, default="usual")
    said.add_argument("--passes", type=int, default=Effort().passes)
    said.add_argument("--tries", type=int, default=Effort().tries)
    asked = said.parse_args()
    print(HEADING)
    for size in asked.sizes:
        members, boards = (int(number) for number in size.split(":"))
        for seed in asked.seeds:
            effort = Effort(passes=asked.passes, tries=asked.tries)
            print(line(RACKS[asked.rack](members, boards, seed), seed, effort), flush=True)


if __name__ == "__main__":
    main()
