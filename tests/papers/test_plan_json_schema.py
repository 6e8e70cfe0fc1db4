"""The schema of plan.json holds for every plan, explains all its keys, and finds faults planted in one."""

import copy
import json
import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from pinchrod.job import Joint
from pinchrod.papers import plan_json, plan_schema
from tests.builders import five_pieces
from tests.papers.data_builders import a_random_job, a_small_job

DOCS = Path(__file__).parents[2] / "docs"
Json = dict[str, Any]


def the_schema() -> Json:
    schema: Json = json.loads(plan_schema())
    return schema


def a_plan() -> Json:
    plan: Json = json.loads(plan_json(*a_small_job(doors=five_pieces(), joint=Joint.MORTICE_AND_TENON)))
    return plan


def faults(plan: Json, schema: Json | None = None) -> list[str]:
    return [fault.message for fault in Draft202012Validator(schema or the_schema()).iter_errors(plan)]


def objects(schema: Any) -> Iterator[Json]:
    """Every place in a schema that says what an object holds."""
    if isinstance(schema, dict):
        if "properties" in schema and "type" in schema:
            yield schema
        for value in schema.values():
            yield from objects(value)


def test_the_schema_is_a_schema():
    Draft202012Validator.check_schema(the_schema())


def test_the_docs_hold_the_same_schema():
    assert (DOCS / "plan.schema.json").read_text(encoding="utf-8") == plan_schema()


def test_every_key_is_described():
    for thing in objects(the_schema()):
        assert all(said.get("description") for said in thing["properties"].values())


def test_plans_of_any_job_satisfy_the_schema_and_have_no_key_it_leaves_out():
    strict = the_schema()
    for thing in objects(strict):
        thing["additionalProperties"] = False
    dice = random.Random(5)

    for _ in range(40):
        assert faults(json.loads(plan_json(*a_random_job(dice, frames=3))), strict) == []


def test_more_keys_may_come():
    plan = a_plan()
    plan["survey"] = {}
    plan["frames"][0]["members"][0]["stick"] = "S1"

    assert faults(plan) == []


def no_fingerprint(plan: Json) -> None:
    del plan["job"]["fingerprint"]


def another_form(plan: Json) -> None:
    plan["pinchrod"] = 2


def a_length_as_text(plan: Json) -> None:
    plan["frames"][0]["members"][0]["length"] = "720"


def no_length(plan: Json) -> None:
    plan["cutting_list"][0]["length"] = 0


def half_a_piece(plan: Json) -> None:
    plan["cutting_list"][0]["quantity"] = 1.5


def a_marks_spelling(plan: Json) -> None:
    plan["job"]["mark"] = "KY3D10C8"


def an_unknown_role(plan: Json) -> None:
    plan["frames"][0]["members"][0]["role"] = "mullion"


def an_unknown_edge(plan: Json) -> None:
    plan["frames"][0]["members"][0]["notches"][0]["edge"] = "top"


def a_notch_without_a_floor(plan: Json) -> None:
    del plan["frames"][0]["members"][0]["notches"][0]["floor"]


def a_corner_in_space(plan: Json) -> None:
    plan["frames"][0]["members"][0]["outline"][0].append(0)


def a_member_twice(plan: Json) -> None:
    plan["cutting_list"][0]["members"] *= 2


def a_warning_without_a_mend(plan: Json) -> None:
    del plan["warnings"][0]["mend"]


def a_third_leaf(plan: Json) -> None:
    plan["frames"][0]["openings"][1]["fronts"] *= 2


def a_part_of_no_door(plan: Json) -> None:
    plan["frames"][0]["openings"][1]["fronts"][0]["parts"][0]["role"] = "left stile"


PLANTED = (
    no_fingerprint,
    another_form,
    a_length_as_text,
    no_length,
    half_a_piece,
    a_marks_spelling,
    an_unknown_role,
    an_unknown_edge,
    a_notch_without_a_floor,
    a_corner_in_space,
    a_member_twice,
    a_warning_without_a_mend,
    a_third_leaf,
    a_part_of_no_door,
)


@pytest.mark.parametrize("plant", PLANTED, ids=lambda plant: plant.__name__)
def test_a_planted_fault_is_found(plant: Callable[[Json], None]):
    plan = a_plan()
    sound = copy.deepcopy(plan)

    plant(plan)

    assert faults(sound) == []
    assert len(faults(plan)) == 1
