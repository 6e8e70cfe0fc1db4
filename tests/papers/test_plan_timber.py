"""The sticks in plan.json: the contract's keys, to its schema, and read again to the last fraction."""

import json
from dataclasses import replace

import pytest
from jsonschema import Draft202012Validator

from pinchrod.ground import Mm, Span
from pinchrod.papers import plan_json, plan_schema, read_timber, recut_json, timber_json
from pinchrod.timber import by_eye, flaws, recut
from tests.papers.data_builders import a_small_job
from tests.timber.racks import a_question


def said_of(question, breakout, done=()):
    """The timber of a plan as another program reads it."""
    return json.loads(json.dumps(timber_json(question, breakout, done)))


def test_the_contract_s_keys_come_first_and_in_its_order():
    question = a_question(20, 20, 31)
    said = said_of(question, by_eye(question))

    assert list(said)[:7] == ["sticks", "short", "used", "finished", "yield", "cost", "bound"]
    assert list(said["sticks"][0])[:8] == [
        "id", "board", "from", "length", "offset", "width", "thickness", "members"
    ]  # fmt: skip


def test_sticks_are_numbered_in_the_order_of_the_boards():
    question = a_question(40, 30, 32)
    sticks = said_of(question, by_eye(question))["sticks"]

    order = [board.name for board in question.boards]
    assert [stick["id"] for stick in sticks] == [f"S{n}" for n in range(1, len(sticks) + 1)]
    assert [order.index(s["board"]) for s in sticks] == sorted(order.index(s["board"]) for s in sticks)


@pytest.mark.parametrize("boards", [1, 20])
def test_a_plan_with_sticks_keeps_to_the_schema(boards):
    question = a_question(20, boards, 33)
    breakout = replace(by_eye(question), given_up=("S99",))
    plan = json.loads(plan_json(*a_small_job(), timber_json(question, breakout)))

    strict = json.loads(plan_schema())
    for name in ("stick", "board", "fault", "wanted"):
        strict["$defs"][name]["additionalProperties"] = False
    strict["properties"]["timber"]["additionalProperties"] = False
    assert [fault.message for fault in Draft202012Validator(strict).iter_errors(plan)] == []
    assert (boards == 1) == bool(plan["timber"]["short"])


def test_a_stick_without_a_member_is_found_by_the_schema():
    question = a_question(20, 20, 34)
    plan = json.loads(plan_json(*a_small_job(), timber_json(question, by_eye(question))))

    plan["timber"]["sticks"][0]["members"] = []

    assert len(list(Draft202012Validator(json.loads(plan_schema())).iter_errors(plan))) == 1


@pytest.mark.parametrize("seed", range(4))
def test_what_was_written_is_read_again_to_the_last_fraction(seed):
    question = a_question(40, 30, 40 + seed)
    breakout = by_eye(question)

    read, again, done = read_timber(said_of(question, breakout, {"S2", "S1"}))

    assert again == breakout
    assert (read.wanted, read.boards) == (question.wanted, question.boards)
    assert list(flaws(read, again)) == []
    assert done == {"S1", "S2"}


def test_sticks_given_up_are_remembered_from_one_recut_to_the_next():
    question = a_question(20, 40, 51)
    before = by_eye(question)
    stick = before.sticks[-1]
    done = {one.name for one in before.sticks} - {stick.name}
    after = recut(question, before, stick=stick.name, fault=Span(Mm(0), stick.length), done=done)

    _, read, _ = read_timber(said_of(after.question, after.breakout, done))

    assert read.given_up == (stick.name,)
    assert "given_up" not in said_of(question, before)


def test_a_recut_says_what_is_not_as_it_was_and_what_is_gone():
    question = a_question(40, 60, 50)
    before = by_eye(question)
    stick, whole = before.sticks[3], Span(Mm(0), before.sticks[3].length)
    done = {one.name for one in before.sticks} - {stick.name}
    after = recut(question, before, stick=stick.name, fault=whole, done=done)

    said = json.loads(
        recut_json("0" * 64, stick=stick.name, fault=whole, done=done, before=before, after=after)
    )

    read, sticks, _ = read_timber(said["timber"])
    known = {one.name: one for one in before.sticks}
    assert sticks == after.breakout
    assert read.boards != question.boards
    assert {one["id"] for one in said["changed"]} == {
        one.name for one in after.breakout.sticks if known.get(one.name) != one
    }
    assert said["gone"] == [stick.name]
    assert said["dearer"] == pytest.approx(float(after.breakout.cost - before.cost))
