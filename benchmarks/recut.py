"""How long a recut takes, and what it saves: the demo job and made-up jobs, a fault in many sticks in turn.

Each time some sticks are done already, at random but the same each time; a fault of 28 mm lies anywhere.
By eye: the members that the fault lies in come out of the cheapest new board that takes them all.

python -m benchmarks.recut
"""

import random
import time
from collections.abc import Sequence, Set

from pinchrod.ground import Mm, Span
from pinchrod.timber import Breakout, Question, Stick, Wanted, by_eye, flaws, question_of, recut
from tests.timber.racks import a_question
from tests.whole_shop.demo_job import the_plan_with_its_rack

FAULT = 28
HEADING = (
    "what            members sticks recuts |   processor ms: median, p95, most |      wall ms |"
    " new boards, their cost, by eye | short, flaws"
)


def line(what: str, question: Question, plan: Breakout, count: int) -> str:
    """So many recuts of a plan, timed and judged."""
    chance = random.Random(f"recut {what}")
    processor, wall, dearer, eye, short, wrong = [], [], [], [], 0, 0
    for stick in chance.choices(plan.sticks, k=count):
        done = {one.name for one in plan.sticks if chance.random() < 0.4} - {stick.name}
        at = Mm(chance.randrange(int(stick.length) - FAULT))
        begin, begun = time.process_time(), time.perf_counter()
        found = recut(question, plan, stick=stick.name, fault=Span(at, at + FAULT), done=done)
        processor.append(1000 * (time.process_time() - begin))
        wall.append(1000 * (time.perf_counter() - begun))
        dearer.append(found.dearer)
        eye.append(_on_a_new_board(question, plan, stick, Span(at, at + FAULT)))
        short += len(found.breakout.short) - len(plan.short)
        wrong += len(list(flaws(found.question, found.breakout)))
    members, needed = sum(len(one.marks) for one in question.wanted), sum(cost > 0 for cost in dearer)
    sizes = f"{what:15} {members:7} {len(plan.sticks):6} {count:6}"
    costs = f"{needed:6} {float(sum(dearer)):8.2f} {float(sum(eye)):8.2f}"
    return f"{sizes} | {_spread(processor)} | {_spread(wall)} | {costs} | {short:3} {wrong:3}"


def _spread(times: Sequence[float]) -> str:
    in_order = sorted(times)
    middle, high = in_order[len(in_order) // 2], in_order[int(0.95 * len(in_order))]
    return f"{middle:8.1f} {high:8.1f} {in_order[-1]:8.1f}"


def _on_a_new_board(question: Question, plan: Breakout, stick: Stick, fault: Span) -> Mm:
    """What a new board costs for the members that the fault lies in, the others left as they are."""
    lost = _lost(question, stick, fault)
    taken = {one.board for one in plan.sticks}
    for board in sorted(question.boards, key=lambda board: board.price):
        if lost and board.name not in taken:
            alone = Question(
                wanted=lost, boards=(board,), practice=question.practice, machines=question.machines
            )
            if not by_eye(alone).short:
                return board.price
    return Mm(0)


def _lost(question: Question, stick: Stick, fault: Span) -> tuple[Wanted, ...]:
    """The members that the fault lies in, as they follow each other in the stick."""
    long = {mark: one for one in question.wanted for mark in one.marks}
    kerf, at, lost = question.machines.crosscut_saw.kerf, question.practice.stick_end, set[str]()
    for mark in stick.members:
        if Span(at, at + long[mark].length).meets(fault):
            lost.add(mark)
        at += long[mark].length + kerf
    return only(question, lost)


def only(question: Question, marks: Set[str]) -> tuple[Wanted, ...]:
    """Those members alone."""
    return tuple(
        Wanted(marks=(mark,), width=one.width, thickness=one.thickness, length=one.length, beads=one.beads)
        for one in question.wanted
        for mark in one.marks
        if mark in marks
    )


def main() -> None:
    """The demo job, and plans by eye of jobs up to a thousand members."""
    print(HEADING)
    demo = the_plan_with_its_rack()
    assert demo.breakout is not None
    print(line("demo", question_of(demo.job, demo.shop, demo.rods), demo.breakout, 200), flush=True)
    for members, boards in ((300, 200), (1000, 600)):
        question = a_question(members, boards, 7)
        print(line(f"{members} members", question, by_eye(question), 200), flush=True)


if __name__ == "__main__":
    main()
