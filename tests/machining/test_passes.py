"""Bed heights: as few as can be, within the machine's limits, moving one way."""

import random
from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Thicknesser
from pinchrod.machining import Passes, Planing, fewest_heights, flaws_of_passes, passes_of
from tests.builders import so_many
from tests.machining.wood import DEEP

USUAL = Thicknesser()
QUARTER = Mm("0.25")


def a_stick(sawn: object, finished: object, name: str = "S1") -> Planing:
    return Planing(name=name, sawn=Mm(str(sawn)), finished=Mm(str(finished)))


@pytest.mark.parametrize(
    ("sawn", "finished", "heights"),
    [
        (27, 22, ["24.5", "22.8", 22]),  # as the contract has it
        (25, 22, ["22.8", 22]),
        ("22.9", 22, [22]),
        (23, 22, [22]),  # a last pass of 1.0
        ("23.1", 22, ["22.8", 22]),
        ("22.3", 22, [22]),  # too little for a last pass: it is told
        (22, 22, []),
        (32, 22, ["29.5", 27, "24.5", "22.8", 22]),
    ],
)
def test_one_stick_comes_down_in_the_passes_the_rule_says(sawn, finished, heights):
    found = fewest_heights([a_stick(sawn, finished)], USUAL, Mm("0.1"))

    assert found == tuple(Mm(str(height)) for height in heights)


def test_a_stick_with_too_little_to_take_off_is_named():
    passes = passes_of("thickness", [a_stick("22.3", 22, "S1"), a_stick(25, 22, "S2")], USUAL, Mm("0.1"))

    assert passes.shallow == ("S1",)


def test_the_bed_moves_one_way_through_all_widths():
    sticks = [a_stick(wide + 4, wide, f"S{wide}") for wide in (38, 60, 45, 60)]

    heights = fewest_heights(sticks, USUAL, Mm("0.1"))

    assert heights == tuple(sorted(heights, reverse=True))
    assert heights[-1] == 38


def test_a_wide_stick_s_heights_serve_a_narrower_one_where_they_can():
    both = [a_stick(50, 46, "S1"), a_stick(48, 45, "S2")]

    assert len(fewest_heights(both, USUAL)) == 4  # 47.5, 46.75, 46, 45; S2 alone would want 45.75 and 45
    assert sum(len(fewest_heights([stick], USUAL)) for stick in both) == 5


# In quarters of a millimetre, whole numbers alone: where all sizes and limits are whole, some fewest plan is, too,
# since each of its conditions bounds one height or the difference of two.


def a_small_case(seed: int) -> tuple[list[tuple[int, int]], int, tuple[int, int]]:
    """A few sticks, sawn and finished, the deepest pass, and the least and most of the last."""
    dice = random.Random(f"passes {seed}")
    deepest = dice.randint(2, 8)
    least = dice.randint(1, min(deepest, 3))
    most = dice.randint(least, deepest + 1)
    finished = [dice.randint(80, 87) for _ in range(dice.randint(1, 3))]
    sticks = [(size + dice.randint(0, 11), size) for size in finished for _ in range(dice.randint(1, 2))]
    return sticks, deepest, (least, most)


def can_be_planed(sticks, heights, deepest, last) -> bool:
    return all(one_can(sawn, finished, heights, deepest, last) for sawn, finished in sticks)


def one_can(sawn: int, finished: int, heights, deepest: int, last: tuple[int, int]) -> bool:
    """Whether some of the heights, all others skipped, take a stick to its size; looks at every way."""
    least, most = last
    if sawn == finished:
        return True
    if finished not in heights:
        return False
    if sawn - finished <= min(most, deepest):
        return True  # in one pass, however little it takes
    reached = {sawn}
    for height in sorted(heights, reverse=True):
        if height > finished and any(0 < here - height <= deepest for here in reached):
            reached.add(height)
    return any(least <= here - finished <= min(most, deepest) for here in reached)


def some_plan_with(number: int, sticks, deepest: int, last) -> bool:
    """Whether any set of so many heights does: every set is tried."""
    must = {finished for sawn, finished in sticks if sawn > finished}
    highest, lowest = max(sawn for sawn, _ in sticks), min(finished for _, finished in sticks)
    free = [height for height in range(lowest, highest) if height not in must]
    extra = number - len(must)
    return extra >= 0 and any(
        can_be_planed(sticks, must.union(more), deepest, last) for more in combinations(free, extra)
    )


def test_no_schedule_has_fewer_passes_by_trying_every_one():
    longest = 0
    for seed in range(1000 if DEEP else so_many(150)):
        sticks, deepest, last = a_small_case(seed)
        machine = Thicknesser(
            deepest_pass=deepest * QUARTER, final_pass=(last[0] * QUARTER, last[1] * QUARTER)
        )
        planings = [
            Planing(name=f"S{n}", sawn=sawn * QUARTER, finished=finished * QUARTER)
            for n, (sawn, finished) in enumerate(sticks)
        ]

        answer = passes_of("thickness", planings, machine, Mm(0))

        assert list(flaws_of_passes(planings, answer, machine)) == []
        number = len(answer.heights)
        longest = max(longest, number)
        assert not number or not some_plan_with(number - 1, sticks, deepest, last)
    assert longest >= 5 or not DEEP


def test_heights_on_whole_steps_cost_no_pass_and_break_no_limit():
    dice = random.Random(8)
    for _ in range(so_many(400)):
        sticks = [
            a_stick(size + Mm(dice.randint(1, 700)) / 97, size, f"S{n}")
            for n, size in enumerate(dice.choice((22, 38, 45, Mm("45.5"))) for _ in range(dice.randint(1, 6)))
        ]
        step = Mm(dice.choice(("0.1", "0.25", "0.5", "1")))

        answer = passes_of("width", sticks, USUAL, step)

        assert list(flaws_of_passes(sticks, answer, USUAL)) == []
        assert len(answer.heights) == len(fewest_heights(sticks, USUAL))
        assert all(later < earlier for earlier, later in pairwise(answer.heights))


def without_last(passes: Passes) -> Passes:
    return replace(passes, passes=passes.passes[:-1])


def without_first(passes: Passes) -> Passes:
    return replace(passes, passes=passes.passes[1:])


def turned_back(passes: Passes) -> Passes:
    return replace(passes, passes=passes.passes[::-1])


def nearer_the_end(passes: Passes) -> Passes:
    first, *rest = passes.passes
    moved = [replace(each, height=Mm("22.2")) if each.height == Mm("22.8") else each for each in rest]
    return replace(passes, passes=(first, *moved))


def others_through(passes: Passes) -> Passes:
    return replace(passes, passes=tuple(replace(each, through=("S9",)) for each in passes.passes))


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (without_last, "not brought to"),
        (without_first, "a pass takes"),
        (turned_back, "one way only"),
        (nearer_the_end, "last pass takes"),
        (others_through, "is not asked for"),
        (lambda passes: replace(passes, shallow=("S1",)), "too little"),
    ],
)
def test_the_judge_of_passes_sees_a_spoiled_answer(spoil, said):
    sticks = [a_stick(27, 22)]
    good = passes_of("thickness", sticks, USUAL, Mm("0.1"))

    assert said in " ".join(flaws_of_passes(sticks, spoil(good), USUAL))


def test_a_machine_that_cannot_make_its_last_pass_is_not_planned_for_without_end():
    """Read from a file it is refused; and nobody else can ask for heights that there are not."""
    machine = replace(USUAL, deepest_pass=Mm("0.5"))

    with pytest.raises(ValueError, match="last pass"):
        fewest_heights([a_stick(49, 45)], machine)
