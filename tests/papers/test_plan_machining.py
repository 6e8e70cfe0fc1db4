"""The set-ups in plan.json: the contract's keys, to its schema, and enough to check every claim from the file alone."""

import json
import random
from collections import defaultdict
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from pinchrod.job import Joint, Shop
from pinchrod.machining import arrange
from pinchrod.papers import machining_json, plan_json, plan_schema
from tests.papers.data_builders import a_random_job, a_small_job

Json = dict[str, Any]
FLAT = 20  # of the usual notching knife
REACH = 1500


def said_of(job, rods, spares: list[Json] | None = None) -> Json:
    """The plan as another program reads it."""
    machining = machining_json(arrange(job, Shop(), rods), spares)
    plan: Json = json.loads(plan_json(job, rods, None, machining))
    return plan


def test_the_contract_s_keys_come_first_and_in_its_order():
    spares = [{"like": ["K1-LS", "K1-RS"], "needed": 2, "spare": 1}]
    said = said_of(*a_small_job(), spares)["machining"]

    assert list(said)[:4] == ["steps", "notching", "passes", "spares"]
    assert list(said["steps"][0])[:4] == ["machine", "title", "settings", "cautions"]
    assert list(said["notching"])[:3] == ["strokes", "settings", "fewest"]
    assert list(said["notching"]["settings"][0]) == ["side", "distance", "strokes"]
    assert list(said["notching"]["settings"][0]["strokes"][0]) == ["piece", "edge", "at"]
    assert list(said["passes"][0])[:2] == ["of", "heights"]
    assert said["spares"] == spares


def test_spares_that_are_not_known_are_left_out():
    assert "spares" not in said_of(*a_small_job())["machining"]


def strict_schema() -> Json:
    """Ours, with no key allowed that it does not name."""
    schema: Json = json.loads(plan_schema())
    schema["properties"]["machining"]["additionalProperties"] = False
    names = ("step", "step_setting", "stroke", "stops", "stop_setting", "recesses", "passes", "spares")
    for name in (*names, "length_stop", "moulder", "bead_run"):
        schema["$defs"][name]["additionalProperties"] = False
    return schema


@pytest.mark.parametrize("joint", list(Joint))
def test_plans_of_any_job_keep_to_the_schema_and_have_no_key_it_leaves_out(joint):
    schema = strict_schema()
    plans = [said_of(*a_small_job(joint=joint)), said_of(*a_small_job(joint=joint, bead=0))]

    for plan in plans:
        assert [fault.message for fault in Draft202012Validator(schema).iter_errors(plan)] == []
    assert plans[1]["machining"]["moulder"] is None


def test_a_stroke_without_its_piece_is_found_by_the_schema():
    plan = said_of(*a_small_job())

    del plan["machining"]["notching"]["settings"][0]["strokes"][0]["piece"]

    assert len(list(Draft202012Validator(json.loads(plan_schema())).iter_errors(plan))) == 1


def random_plans(number: int) -> list[Json]:
    dice = random.Random("plan.json's set-ups")
    return [said_of(*a_random_job(dice, frames=4)) for _ in range(number)]


def copies(plan: Json) -> dict[str, Json]:
    """Every piece by its mark, those of alike frames each by its own."""
    found: dict[str, Json] = {}
    for frame in plan["frames"]:
        for copy in range(1, frame["quantity"] + 1):
            of_many = f"/{copy}" if frame["quantity"] > 1 else ""
            found |= {member["id"] + of_many: member for member in frame["members"]}
    return found


def ways(stroke: Json, length: float) -> set[tuple[str, float]]:
    """The stops a stroke can be made at, by the rule: left or upper edge to the knives, datum end to the left."""
    from_left = stroke["edge"] in ("left", "upper")
    near, far = stroke["at"], length - stroke["at"]
    sides = (("left", near), ("right", far)) if from_left else (("right", near), ("left", far))
    return {(side, round(distance, 4)) for side, distance in sides if distance <= REACH}


def test_from_the_file_alone_every_setting_reaches_its_strokes_and_the_proof_holds():
    for plan in random_plans(12):
        pieces, notching = copies(plan), plan["machining"]["notching"]
        for setting in notching["settings"]:
            there = setting["side"], round(setting["distance"], 4)
            assert all(there in ways(s, pieces[s["piece"]]["length"]) for s in setting["strokes"])
        used = [way for s in notching["proof"] for way in ways(s, pieces[s["piece"]]["length"])]
        assert len(used) == len(set(used))
        assert notching["fewest"] == len(notching["proof"]) == len(notching["settings"])
        assert notching["strokes"] == sum(len(setting["strokes"]) for setting in notching["settings"])


def test_from_the_file_alone_every_floor_is_cleared_from_flank_to_flank():
    for plan in random_plans(12):
        cut: dict[tuple[str, str], list[float]] = defaultdict(list)
        notching = plan["machining"]["notching"]
        for strokes in (notching["unreached"], *(each["strokes"] for each in notching["settings"])):
            for stroke in strokes:
                cut[stroke["piece"], stroke["edge"]].append(stroke["at"])
        for mark, member in copies(plan).items():
            for notch in member["notches"]:
                _, low, high, _ = notch["from_datum"]
                spots = sorted(at for at in cut[mark, notch["edge"]] if low - FLAT < at < high + FLAT)
                reached = low
                for at in spots:
                    assert at - FLAT / 2 <= reached + 1e-5
                    reached = at + FLAT / 2
                assert reached >= high - 1e-5
        assert sum(map(len, cut.values())) == notching["strokes"] + len(notching["unreached"])


def test_each_setting_and_step_has_a_line_of_its_own():
    job, rods = a_small_job()
    machining = arrange(job, Shop(), rods)
    lines = plan_json(job, rods, None, machining_json(machining)).decode().splitlines()

    assert sum(line.startswith('{"side":') for line in lines) == len(machining.notching.settings)
    assert sum(line.startswith('{"machine":') for line in lines) == len(machining.steps)
