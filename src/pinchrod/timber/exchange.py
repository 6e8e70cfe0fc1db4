"""A few boards of a plan given back, and others taken in their place. Compiled."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from numba import njit

from pinchrod.timber.kernels import Array, within
from pinchrod.timber.lay_out import Marks, Yard, add_members, handling
from pinchrod.timber.taking import Ceiling, Floats, Taken

NO_CEILING = 1e300
State = npt.NDArray[np.uint64]


class Sheet(NamedTuple):
    """A whole plan: a row for each board of the rack, of size 0 if it is not taken."""

    marks: Marks
    size: Array
    worth: Array  # of its members, at the values of the bound
    short: Array  # how many of each type found no place


class Manner(NamedTuple):
    """How boards are exchanged."""

    odd: float  # the part of the largest loss that does not count
    spares: int  # boards not taken that stand by
    shake: float  # how far values and rates are shaken
    least: int  # boards given back at a time
    most: int
    warm: float  # how much dearer a plan may be and still be gone on from, as a share of the cost: at first
    cool: float  # and at the end


class Standing(NamedTuple):
    """Where a plan stands."""

    short: int
    cost: int
    merit: float  # its cost, less the part of the largest loss that does not count
    handling: int


class Trial(NamedTuple):
    """Room for one exchange: boards given back, then those that stand by; what is left to be cut."""

    boards: Array
    rates: Floats
    values: Array
    left: Array
    taken: Taken


@within
def _draw(state: State) -> np.uint64:
    """The next of a row of numbers that follow from a seed (SplitMix64, as in `draws`)."""
    state[0] += np.uint64(0x9E3779B97F4A7C15)
    mixed = state[0]
    mixed = (mixed ^ (mixed >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    mixed = (mixed ^ (mixed >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    drawn: np.uint64 = mixed ^ (mixed >> np.uint64(31))
    return drawn


@within
def _share(state: State) -> float:
    return (_draw(state) >> np.uint64(11)) / 9007199254740992.0


@within
def _below(state: State, limit: int) -> int:
    drawn: int = np.int64(_draw(state) % np.uint64(limit))  # type: ignore[assignment]  # the same once compiled
    return drawn


@within
def _loss(yard: Yard, plan: Sheet, board: int) -> int:
    """What a board cost more than its members are worth."""
    lost: int = yard.price[board] - plan.worth[board]
    return lost


@njit(cache=True)
def standing(yard: Yard, plan: Sheet, odd: float) -> Standing:
    """Members short, cost, merit and handling of a plan."""
    cost, largest, work, short = 0, 0, 0, 0
    for of in range(plan.short.shape[0]):
        short += plan.short[of]
    for board in range(yard.price.shape[0]):
        if plan.size[board] > 0:
            cost += yard.price[board]
            largest = max(largest, _loss(yard, plan, board))
            work += handling(plan.marks[board], plan.size[board])
    return Standing(short, cost, cost - odd * largest, work)


@njit(cache=True)
def give_back(
    yard: Yard, plan: Sheet, here: Standing, state: State, manner: Manner, warmth: float, trial: Trial
) -> tuple[int, int, Ceiling, float]:
    """Draw boards to be given back, others to stand by, and values; their members are what is left.

    How many boards are given back, how many there are to choose from, what they may lose, and how much dearer
    the plan may be: that is drawn anew each time.
    """
    leeway = here.cost * warmth * _drawn_leeway(_share(state))
    out = _drawn_boards(yard, plan, state, manner, trial.boards)
    every = _stand_by(yard, plan, state, trial.boards, out, out + manner.spares)
    _shake(yard, state, manner.shake, trial.boards[:every], trial.rates, trial.values)
    ceiling = _ceiling(yard, plan, here, leeway, manner.odd, trial.boards[:out], trial.left)
    return out, every, ceiling, leeway


@njit(cache=True)
def take_over(
    yard: Yard,
    plan: Sheet,
    here: Standing,
    best: Standing,
    trial: Trial,
    out: int,
    made: int,
    odd: float,
    leeway: float,
) -> Standing:
    """Write the boards taken into the plan, if it is then hardly dearer or the best so far."""
    anew = _standing_anew(yard, plan, here, trial, out, made, odd)
    near = anew.short < here.short or (anew.short == here.short and anew.merit <= here.merit + leeway)
    better = anew.short < best.short or (anew.short == best.short and anew.cost < best.cost)
    if not near and not better:
        return here
    for at in range(out):
        plan.size[trial.boards[at]] = 0
    plan.short[:] = trial.left
    for at in range(made):
        board, size = trial.taken.board[at], trial.taken.size[at]
        plan.marks[board, :size] = trial.taken.marks[at, :size]
        plan.size[board], plan.worth[board] = size, trial.taken.worth[at]
    return standing(yard, plan, odd)


@within
def _drawn_leeway(share: float) -> float:
    """Often little, seldom much: near -log(1 - share), but by plain sums, so the same on every machine."""
    return share * (6 - share) / (6 - 4 * share)


@within
def _drawn_boards(yard: Yard, plan: Sheet, state: State, manner: Manner, boards: Array) -> int:
    """Draw boards to be given back, those that lost most more often than others; how many they are."""
    weights = np.zeros(plan.size.shape[0], np.float64)
    taken, total = 0, 0.0
    for board in range(plan.size.shape[0]):
        if plan.size[board] > 0:
            weights[board] = max(_loss(yard, plan, board), 0) + yard.price[board] * 0.02 + 1.0
            total += weights[board]
            taken += 1
    number = min(manner.least + _below(state, manner.most - manner.least + 1), taken)
    for at in range(number):
        boards[at] = _drawn(weights, _share(state) * total)
        total -= weights[boards[at]]
        weights[boards[at]] = 0.0
    return number


@within
def _drawn(weights: Floats, goal: float) -> int:
    """Where the sum of the weights goes past the goal; the last that has a weight if it never does."""
    reached, last = 0.0, 0
    for at in range(weights.shape[0]):
        if weights[at] > 0:
            last = at
            reached += weights[at]
            if reached > goal:
                break
    return last


@within
def _among(boards: Array, first: int, last: int, board: int) -> bool:
    found = False
    for at in range(first, last):
        found = found or boards[at] == board
    return found


@within
def _stand_by(yard: Yard, plan: Sheet, state: State, boards: Array, number: int, most: int) -> int:
    """Draw boards not taken to stand by; how many there are then."""
    first = number
    for _ in range(4 * (most - first)):
        if number == most:
            break
        board = yard.likely[_below(state, yard.likely.shape[0])]
        if plan.size[board] == 0 and not _among(boards, first, number, board):
            boards[number] = board
            number += 1
    return number


@within
def _shake(yard: Yard, state: State, shake: float, boards: Array, rates: Floats, values: Array) -> None:
    """Shake what counts for each board and what members are worth, so that others may lead."""
    far = shake * _share(state)
    for at in range(boards.shape[0]):
        rates[at] = (1 + far * (2 * _share(state) - 1)) / max(1.0 * yard.price[boards[at]], 1.0)
    values[:] = shaken(yard, state, 2 * shake * _share(state))


@njit(cache=True)
def shaken(yard: Yard, state: State, far: float) -> Array:
    """Values shaken by no more than that for each kind, and again for each type."""
    values = np.empty_like(yard.values)
    for kind in range(yard.lengths.type_first.shape[0] - 1):
        whole = 1 + far * (2 * _share(state) - 1)
        for of in range(yard.lengths.type_first[kind], yard.lengths.type_first[kind + 1]):
            values[of] = np.int64(yard.values[of] * whole * (1 + far * (2 * _share(state) - 1)))
    return values


@within
def _ceiling(
    yard: Yard, plan: Sheet, here: Standing, leeway: float, odd: float, out: Array, left: Array
) -> Ceiling:
    """What the boards taken instead may lose; the members of those given back go into `left`."""
    left[:] = plan.short
    lost = 0
    for board in out:
        add_members(plan.marks[board], plan.size[board], left)
        lost += _loss(yard, plan, board)
    largest = 0
    for board in range(plan.size.shape[0]):
        if plan.size[board] > 0 and not _among(out, 0, out.shape[0], board):
            largest = max(largest, _loss(yard, plan, board))
    most = here.merit + leeway - here.cost + lost if here.short == 0 else NO_CEILING
    return Ceiling(most, odd, largest)


@within
def _standing_anew(
    yard: Yard, plan: Sheet, here: Standing, trial: Trial, out: int, made: int, odd: float
) -> Standing:
    """Where the plan would stand with the boards taken in the place of those given back."""
    cost, largest, short = here.cost, 0, 0
    for board in range(plan.size.shape[0]):
        if plan.size[board] > 0 and not _among(trial.boards, 0, out, board):
            largest = max(largest, _loss(yard, plan, board))
    for at in range(out):
        cost -= yard.price[trial.boards[at]]
    for at in range(made):
        price = yard.price[trial.taken.board[at]]
        cost, largest = cost + price, max(largest, price - trial.taken.worth[at])
    for of in range(trial.left.shape[0]):
        short += trial.left[of]
    return Standing(short, cost, cost - odd * largest, 0)
