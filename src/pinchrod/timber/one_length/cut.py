"""Cutting pieces from bars for the least cost, with the proof of how little it could cost."""

from dataclasses import replace

import numpy as np

from pinchrod.ground import Mm
from pinchrod.timber.one_length.central import central
from pinchrod.timber.one_length.closing import State, close, how_long
from pinchrod.timber.one_length.columns import Converged, Pace, by_length, converge
from pinchrod.timber.one_length.counted import Bar, Counted, Plan, cost_of
from pinchrod.timber.one_length.counting import Counting, certificate, count, in_marks, too_long
from pinchrod.timber.one_length.dive import dive
from pinchrod.timber.one_length.dividing import divide
from pinchrod.timber.one_length.first_plan import longest_first
from pinchrod.timber.one_length.master import Master
from pinchrod.timber.one_length.question import Answer, Budget, Certificate, Proof, Question
from pinchrod.timber.one_length.worths import Worths, price_out

LARGEST = 1 << 60  # that a sum of worths may come to
SECONDS = 4  # steps of a dive at which the second surest bar is tried
MANY = 60  # bars taken in at each round
HOLD = 0.7  # of the best worths, in the next that are tried
SHORT = 350  # bars in the last list, that the solver is done with at once
LONG = 3_000  # bars, that it will be long about


def cut(question: Question, budget: Budget | None = None) -> Answer:
    """A plan for the least cost that the budget allows to find, its bound, and the proof of the bound.

    First the pieces are laid out longest first; if that is not proven to be best, bars are generated
    against worths of the pieces, a plan is sought by diving, and what gap is left is closed by a list.
    """
    counting = count(question)
    counted = counting.counted
    if not counted.size.size:
        return _nothing(question, counting)
    first = _first(counted)
    state, worths = _work(counted, first, budget or Budget())
    return _answer(question, counting, state, worths)


def first_fit(question: Question) -> Answer:
    """The plan laid out longest first, and a bound by length alone: the yardstick."""
    counting = count(question)
    counted = counting.counted
    if not counted.size.size:
        return _nothing(question, counting)
    first = _first(counted)
    state, worths = _start(counted, first, _scale(counted, first))
    return _answer(question, counting, state, worths)


def _first(counted: Counted) -> Plan:
    """The plan laid out longest first; there is always one, for what is missing counts as a bar."""
    plan = longest_first(counted, counted.wanted, counted.supply)
    if plan is None:
        raise AssertionError("no plan, though every kind fits a bar without limit")
    return plan


def _work(counted: Counted, first: Plan, budget: Budget) -> tuple[State, Worths]:
    """The best state the budget leads to, and the worths that prove its bound."""
    scale = _scale(counted, first)
    state, worths = _start(counted, first, scale)
    if state.closed:
        return state, worths
    master = _open(counted, first)
    found = _generate(counted, master, worths, state, budget, fully=False)
    state, worths = _raised(state, worths, found, counted)
    if len(counted.room) > 1:
        state = _halve(counted, master, found, state, budget)
    else:
        state = _dive(counted, master, found, state, budget, range(1))
    if state.closed or budget.over():
        return state, worths
    if not found.optimal:
        master.want(counted)
        found = _generate(counted, master, worths, state, budget, fully=True)
        state, worths = _raised(state, worths, found, counted)
    if not state.closed:
        if len(counted.room) > 1:
            return divide(counted, master, found, state, budget), worths
        state = _narrow(counted, master, found, state, budget)
    return state, worths


def _narrow(counted: Counted, master: Master, found: Converged, state: State, budget: Budget) -> State:
    """The state after the last list, and after more dives before it where it is not short."""
    fair = central(counted, master, found.worths, _scale(counted, state.plan))
    length = how_long(counted, fair, state, budget)
    more = range(budget.dives, budget.dives + budget.more_dives)
    for short, turns in ((SHORT, range(1, budget.dives)), (LONG, more)):
        if length > short:
            state = _dive(counted, master, found, state, budget, turns)
    return close(counted, master, fair, state, budget)


def _scale(counted: Counted, first: Plan) -> int:
    most = max(cost_of(first, counted), int(counted.price.max()))
    return max(1, min(1 << 40, LARGEST // (4 * most + 1)))


def _start(counted: Counted, first: Plan, scale: int) -> tuple[State, Worths]:
    """The first plan, with the bound by length."""
    fair = price_out(counted, by_length(counted, scale), 0).fair
    bound = counted.up(fair.total(counted), fair.scale)
    return State(plan=first, cost=cost_of(first, counted), bound=bound), fair


def _open(counted: Counted, first: Plan) -> Master:
    """A master that knows the first plan and, for each kind, a bar of it alone."""
    master = Master(counted)
    widest = int(counted.room.argmax())
    one = np.ones(1, np.int64)
    for stock in range(len(counted.room)):
        fit = np.flatnonzero(counted.size <= counted.room[stock])
        if stock not in {widest, int(counted.supply.argmax()), len(counted.room) - 1}:
            fit = fit[-1:]
        master.add([Bar(stock, fit[k : k + 1], one) for k in range(len(fit))])
    master.add([c.bar for c in first])
    return master


def _generate(
    counted: Counted, master: Master, start: Worths, state: State, budget: Budget, *, fully: bool
) -> Converged:
    """Column generation, until nothing is left to find or, unless fully, until no bound can rise."""

    def enough(now: Converged) -> bool:
        if now.bound >= state.cost or budget.over():
            return True
        hoped = -(-(now.solved.cost - 1e-6) // counted.step) * counted.step
        return not fully and now.bound >= hoped

    scale = _scale(counted, state.plan)
    pace = Pace(rounds=budget.rounds, many=MANY, hold=HOLD)
    worths = replace(start, scale=scale)
    if not fully:
        worths = replace(converge(counted, master, worths, pace, enough=enough).worths, scale=scale)
        master.strictly()
    return converge(counted, master, worths, pace, enough=enough)


def _raised(state: State, worths: Worths, found: Converged, counted: Counted) -> tuple[State, Worths]:
    """With the better of two bounds."""
    if counted.up(found.worths.total(counted), found.worths.scale) <= state.bound:
        return state, worths
    return replace(state, bound=found.bound), found.worths


def _dive(
    counted: Counted, master: Master, found: Converged, state: State, budget: Budget, turns: range
) -> State:
    """The best plan after some dives, aimed at the bound."""
    for turn in turns:
        if state.closed or budget.over():
            break
        state = state.better(dive(counted, master, found.worths, state.bound, second_at=turn - 1), counted)
    return state


def _halve(counted: Counted, master: Master, found: Converged, state: State, budget: Budget) -> State:
    """The best plan after dives aimed half way to the bound, and half way again.

    Where prices are uneven the bound may be out of reach; then a dive aimed at it comes to nothing.
    """
    low = state.bound
    for _ in range(budget.halvings):
        aim = low + (state.cost - low) // 2 // counted.step * counted.step
        if aim >= state.cost or low >= state.cost or budget.over():
            break
        before = state.cost
        for second_at in range(-1, SECONDS):
            state = state.better(dive(counted, master, found.worths, aim, second_at=second_at), counted)
            if state.cost < before:
                break
        low = low if state.cost < before else aim + counted.step
    return state


def _answer(question: Question, counting: Counting, state: State, worths: Worths) -> Answer:
    """What was found, in the joiner's marks."""
    patterns, missing = in_marks(question, counting, state.plan)
    price = {stock.mark: stock.price for stock in question.stocks}
    cost = sum((price[p.stock] * p.times for p in patterns), start=Mm(0))
    proof = Proof.NONE if missing or not state.closed else Proof.SEARCH if state.searched else Proof.WORTHS
    bound = Mm(0) if missing else min(cost, Mm(state.bound) / counting.money)
    return Answer(
        patterns=patterns,
        missing=(*too_long(question, counting), *missing),
        cost=cost,
        bound=bound,
        proof=proof,
        certificate=certificate(question, counting, worths),
    )


def _nothing(question: Question, counting: Counting) -> Answer:
    """Nothing to cut, or nothing to cut it from."""
    none = Certificate(worths=(0,) * len(question.pieces), scarcity=(0,) * len(question.stocks), scale=1)
    return Answer(
        patterns=(), missing=too_long(question, counting), cost=Mm(0), bound=Mm(0), proof=Proof.WORTHS,
        certificate=none,
    )  # fmt: skip
