"""plan.json says what was set out, with the keys the contract fixes."""

import json
import random
from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Issue, Joint
from pinchrod.papers import plan_json
from pinchrod.setting_out import Member, cutting_list
from tests.builders import a_frame, a_row, a_stack, an_opening, five_pieces
from tests.papers.data_builders import FINGERPRINT, a_random_job, a_small_job, set_out_job

FIXED = {
    "plan": ["pinchrod", "job", "warnings", "frames", "cutting_list"],
    "job": ["name", "fingerprint"],
    "warning": ["where", "what", "mend"],
    "frame": ["id", "quantity", "width", "height", "openings", "members"],
    "opening": ["id", "kind", "x", "y", "width", "height", "fronts"],
    "front": ["width", "height"],
    "member": [
        *("id", "role", "x", "y", "length", "width", "thickness", "beads", "outline", "notches"),
    ],
    "notch": ["edge", "mouth", "floor", "depth", "takes"],
    "cut_line": ["width", "thickness", "beads", "length", "quantity", "members"],
}
"""The keys and their order, copied by hand from section 5 of the contract."""


def a_plan(*frames: Any, **said: Any) -> dict[str, Any]:
    return read(*set_out_job(*frames, **said))


def read(job: Any, rods: Any) -> dict[str, Any]:
    plan: dict[str, Any] = json.loads(plan_json(job, rods))
    return plan


def member_of(plan: dict[str, Any], name: str) -> dict[str, Any]:
    members: dict[str, dict[str, Any]] = {m["id"]: m for f in plan["frames"] for m in f["members"]}
    return members[name]


def starts_with(thing: dict[str, Any], kind: str) -> bool:
    return list(thing)[: len(FIXED[kind])] == FIXED[kind]


def test_every_fixed_key_stands_in_the_contracts_order():
    plan = read(*a_small_job(joint=Joint.MORTICE_AND_TENON))

    frame = plan["frames"][0]
    assert starts_with(plan, "plan")
    assert starts_with(plan["job"], "job")
    assert starts_with(plan["warnings"][0], "warning")
    assert starts_with(frame, "frame")
    assert starts_with(frame["openings"][0], "opening")
    assert starts_with(frame["openings"][0]["fronts"][0], "front")
    assert starts_with(frame["members"][0], "member")
    assert starts_with(frame["members"][0]["notches"][0], "notch")
    assert starts_with(plan["cutting_list"][0], "cut_line")


def test_a_plan_ends_with_a_line_and_keeps_letters_as_they_are():
    job, rods = a_small_job(name="Möbel, plot 7")

    text = plan_json(job, rods)

    assert text.endswith(b"}\n")
    assert "Möbel".encode() in text


def test_the_contracts_own_example_comes_out_as_it_stands_there():
    plan = a_plan(a_frame(a_stack(an_opening("drawer", 140), an_opening("pair"))))

    [drawer, _] = plan["frames"][0]["openings"]
    stile = member_of(plan, "K1-LS")
    assert (drawer["x"], drawer["y"], drawer["width"], drawer["height"]) == (45, 520, 510, 140)
    assert (drawer["fronts"][0]["width"], drawer["fronts"][0]["height"]) == (506, 136)
    assert stile["beads"] == ["right"]
    assert {"edge": "right", "mouth": [482, 520], "floor": [491, 511], "depth": 9, "takes": "K1-R1"} in [
        {key: notch[key] for key in FIXED["notch"]} for notch in stile["notches"]
    ]
    assert plan["cutting_list"][-1] == {
        "width": 38,
        "thickness": 22,
        "beads": 2,
        "length": 528,
        "quantity": 1,
        "members": ["K1-R1"],
    }


def test_a_whole_length_has_no_decimals_and_a_third_has_six():
    thirds = a_row(an_opening(), an_opening(), an_opening(), muntins=(5, 5))

    plan = json.dumps(a_plan(a_frame(thirds, bottom_rail=45), bead=0)["frames"][0]["openings"])

    assert '"width": 166.666667, "height": 615' in plan


def test_a_number_is_within_a_millionth_of_its_length():
    dice = random.Random(11)
    for _ in range(10):
        job, rods = a_random_job(dice)
        plan = read(job, rods)

        for rod, frame in zip(rods.rods, plan["frames"], strict=True):
            for member, said in zip(rod.members, frame["members"], strict=True):
                pairs = numbers_of(member, said)
                assert all(abs(Fraction(str(mm)) - Fraction(str(n))) <= Fraction(1, 10**6) for mm, n in pairs)


def numbers_of(member: Member, said: dict[str, Any]) -> list[tuple[Mm, float]]:
    sizes = [(member.length, said["length"]), (member.width, said["width"])]
    corners = zip(member.outline, said["outline"], strict=True)
    notches = zip(member.notches, said["notches"], strict=True)
    flat = [(mm, n) for spot, pair in corners for mm, n in zip(spot, pair, strict=True)]
    places = [
        (place, n)
        for notch, its in notches
        for place, n in (
            (notch.mouth.low, its["mouth"][0]),
            (notch.mouth.high, its["mouth"][1]),
            (notch.floor.low, its["floor"][0]),
            (notch.floor.high, its["floor"][1]),
            (notch.mouth.low - member.datum, its["from_datum"][0]),
            (notch.mouth.high - member.datum, its["from_datum"][3]),
        )
    ]
    return [*sizes, *flat, *places]


def test_a_members_corner_is_the_lower_left_of_its_outline():
    plan = read(*a_random_job(random.Random(3)))

    for frame in plan["frames"]:
        for member in frame["members"]:
            across, up = zip(*member["outline"], strict=True)
            assert (member["x"], member["y"]) == (min(across), min(up))


def test_only_worked_tenons_are_told_and_only_the_ends_that_have_one():
    layout = a_row(an_opening(), an_opening())
    morticed = a_plan(a_frame(layout, bottom_rail=0), joint=Joint.MORTICE_AND_TENON)
    keyed = a_plan(a_frame(layout, bottom_rail=0))

    muntin, rail = member_of(morticed, "K1-M1"), member_of(morticed, "K1-TR")
    assert rail["tenons"] == [40, 40]
    assert muntin["tenons"] == [40]
    assert member_of(morticed, "K1-LS")["tenons"] == []
    assert rail["length"] == 510 + 2 * 9 + 2 * 40
    assert rail["x"] == 45 - 9
    assert "tenons" not in member_of(keyed, "K1-TR")


def test_a_square_frame_has_neither_beads_nor_notches():
    plan = a_plan(a_frame(a_stack(an_opening("drawer"), an_opening("pair"))), bead=0)

    members = plan["frames"][0]["members"]
    assert all(member["beads"] == [] and member["notches"] == [] for member in members)
    assert plan["cutting_list"][0]["beads"] == 0


@pytest.mark.parametrize(
    ("kind", "fronts"), [("panel", 0), ("open", 0), ("door", 1), ("pair", 2), ("drawer", 1)]
)
def test_a_panel_and_an_open_place_have_no_fronts(kind, fronts):
    [opening] = a_plan(a_frame(an_opening(kind)))["frames"][0]["openings"]

    assert len(opening["fronts"]) == fronts


def test_alike_frames_are_counted_in_the_cutting_list_and_named_once():
    plan = a_plan(a_frame(quantity=3))

    [rails, *_, stiles] = sorted(plan["cutting_list"], key=lambda line: line["length"])
    assert (stiles["quantity"], stiles["members"]) == (6, ["K1-LS", "K1-RS"])
    assert rails["quantity"] == 3


def test_the_cutting_list_is_the_one_set_out():
    job, rods = a_random_job(random.Random(8))

    said = read(job, rods)["cutting_list"]

    assert [line["members"] for line in said] == [list(line.members) for line in cutting_list(rods)]


def test_every_doubt_is_a_warning_with_its_place_and_mend():
    job, rods = a_small_job(joint=Joint.MORTICE_AND_TENON)

    warnings = read(job, rods)["warnings"]

    assert len(warnings) == len(rods.doubts) > 0
    assert warnings[0]["where"] == rods.doubts[0].where.name
    assert warnings[0]["code"] == rods.doubts[0].code


def test_the_job_tells_its_mark_and_issue():
    job = a_plan(issue=Issue(revision="C", date=date(2031, 3, 4)))["job"]

    assert (job["fingerprint"], job["mark"]) == (FINGERPRINT, "KY3D-10C8")
    assert (job["revision"], job["date"]) == ("C", "2031-03-04")


def test_what_hangs_on_a_member_is_counted_from_its_datum_end():
    plan = read(*a_small_job())

    stile = member_of(plan, "K2-LS")
    [low, *_] = stile["hinge_seats"]
    assert low == {"edge": "right", "at": 47 + 94.5, "long": 63, "front": "K2.1"}
    assert {"recess", "face", "at", "across", "long", "wide", "deep", "edge", "to"} == set(
        stile["fixings"][0]
    )


def test_a_five_piece_door_tells_its_pieces():
    plan = a_plan(doors=five_pieces())

    [front] = plan["frames"][0]["openings"][0]["fronts"]
    assert [part["id"] for part in front["parts"]] == [f"K1.1-{end}" for end in ("LS", "RS", "TR", "BR", "P")]


def test_a_member_names_the_pattern_that_names_it():
    plan = read(*a_small_job())

    for pattern in plan["patterns"]:
        for piece in pattern["pieces"]:
            assert member_of(plan, piece["id"])["pattern"] == pattern["mark"]


def test_the_same_job_gives_the_same_plan():
    assert plan_json(*a_small_job()) == plan_json(*a_small_job())


def test_a_difference_between_plans_can_be_read_by_lines():
    lines = plan_json(*a_small_job()).decode().splitlines()

    assert sum(line.startswith('{"id":"K') for line in lines) == 2
