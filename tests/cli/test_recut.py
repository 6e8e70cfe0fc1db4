"""Sticks from the rack, and a fault found at the saw, as a joiner at a keyboard meets them."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from pinchrod.cli import main
from tests.cli.test_commands import JOB, names, run

RACK = """board,thickness,width,length,price,faults
B1,27,125,2400,10,0-60
B2,27,140,3000,14,1200-1240@30-60; 2100-2160@0-20 back
B3,27,160,3000,16,
"""
PACK = Path("pantry-wall-pack")


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """A folder with a job and its rack in it, where the joiner stands."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB.replace("[job]", '[job]\nrack = "rack.csv"'), "utf-8")
    (tmp_path / "rack.csv").write_text(RACK, "utf-8")
    return tmp_path


@pytest.fixture
def planned(bench, capsys):
    """The same with its pack."""
    assert main(["plan", "job.toml", "--only", "plan"]) == 0
    capsys.readouterr()
    return bench


def the_plan(name="plan.json"):
    return json.loads((PACK / name).read_text("utf-8"))


def test_a_plan_says_the_boards_taken_what_they_cost_and_how_near_that_is(bench, capsys):
    assert main(["plan", "job.toml", "--only", "plan"]) == 0

    said = capsys.readouterr()
    timber = the_plan()["timber"]
    assert f"{len(timber['sticks'])} sticks out of 2 of 3 boards, yield" in said.out
    assert f"cost {timber['cost']}, and no plan costs less" in said.out
    assert timber["bound"] == timber["cost"] == 24
    assert said.err == ""


def test_a_member_without_wood_is_a_doubt_that_names_it_and_the_rack(bench, capsys):
    (bench / "rack.csv").write_text(RACK.replace("B2,27", "B2,20").replace("B3,27", "B3,20"), "utf-8")
    (bench / "job.toml").write_text(
        (bench / "job.toml").read_text("utf-8").replace("width = 600", "width = 2800"), "utf-8"
    )

    assert main(["plan", "job.toml", "--only", "plan"]) == 0

    told = capsys.readouterr()
    said = told.err
    assert "members without wood" in told.out
    assert (
        "job.toml:12:6: to look at: K1, top rail K1-TR: no board left on the rack gives a stick for it"
        in said
    )
    assert "[no-wood]" in said
    assert "K1-TR" in the_plan()["timber"]["short"]


def marks_told(what):
    """Every mark that a message names, rows of them written out: `K1-TR/2, K1-TR/5 to K1-TR/9`."""
    for row in what.partition(": ")[2].split(", "):
        first, _, last = row.partition(" to ")
        name, _, low = first.partition("/")
        high = last.partition("/")[2] or low
        yield from (f"{name}/{copy}" for copy in range(int(low), int(high) + 1))


def test_copies_of_a_frame_without_wood_are_said_in_one_line_for_each_member(bench, capsys):
    words = (bench / "job.toml").read_text("utf-8")
    (bench / "job.toml").write_text(f"{words}quantity = 12\n", "utf-8")

    assert main(["plan", "job.toml", "--only", "plan", "--seconds", "1"]) == 0

    lines = [line for line in capsys.readouterr().err.splitlines() if "[no-wood]" in line]
    told = the_plan()
    short, members = told["timber"]["short"], [one["id"] for one in told["frames"][0]["members"]]
    said = [next(what for what in members if f" {what}: no board" in line) for line in lines]
    assert len(said) > 1
    assert said == [member for member in members if f"{member}/12" in short]
    assert all(line.startswith("job.toml:12:6: to look at: K1, ") for line in lines)
    whats = [one["what"] for one in told["warnings"] if "no board left" in one["what"]]
    assert sorted(mark for what in whats for mark in marks_told(what)) == sorted(short)


def test_where_no_stick_can_be_long_enough_no_boards_are_asked_for(bench, capsys):
    (bench / "workshop.toml").write_text("pinchrod = 1\n[practice]\nlongest_stick = 700\n", "utf-8")

    assert main(["plan", "job.toml", "--only", "plan", "--workshop", "workshop.toml"]) == 0

    lines = [line for line in capsys.readouterr().err.splitlines() if "[no-wood]" in line]
    assert [line.split(": ")[2] for line in lines] == ["K1, left stile K1-LS", "K1, right stile K1-RS"]
    assert all("longest_stick" in line and "buy some" not in line for line in lines)


def test_of_a_rack_read_in_part_no_member_is_called_short(bench, capsys):
    rows = RACK.replace("B2,27", "B2,x").replace("B3,27", "B3,x").replace("2400", "600").replace(",0-60", ",")
    (bench / "rack.csv").write_text(rows, "utf-8")

    assert main(["plan", "job.toml"]) == 2

    said = capsys.readouterr().err
    assert "rack.csv:3:4: B2: thickness" in said
    assert "rack.csv:4:4: B3: thickness" in said
    assert "[no-wood]" not in said
    assert said.endswith("2 things to mend; nothing was written\n")


def test_a_fault_of_the_rack_is_told_where_it_lies_with_the_job_s_own(bench, capsys):
    (bench / "rack.csv").write_text(RACK.replace("10,0-60", "10,60-0"), "utf-8")
    (bench / "job.toml").write_text(
        (bench / "job.toml").read_text("utf-8").replace("600", "6000000"), "utf-8"
    )

    assert main(["check", "job.toml"]) == 2

    said = capsys.readouterr().err.splitlines()
    assert said[0].startswith("job.toml:13:9: K1:")
    assert said[1].startswith("rack.csv:2:19: B1: the fault")
    assert said[-1] == "2 things to mend; nothing was written"


def test_a_changed_rack_changes_the_content_mark(bench):
    main(["plan", "job.toml", "--only", "plan"])
    before = the_plan()["job"]["mark"]
    (bench / "rack.csv").write_text(RACK.replace("2400", "2401"), "utf-8")

    main(["plan", "job.toml", "--only", "plan"])

    assert the_plan()["job"]["mark"] != before


def test_a_job_without_a_rack_has_no_timber_and_loads_no_solver(bench):
    (bench / "job.toml").write_text(JOB, "utf-8")
    main(["plan", "job.toml", "--only", "plan"])
    heavy = "import sys; from pinchrod.cli import main; main(['check', 'job.toml']); sys.exit('numba' in sys.modules)"

    done = subprocess.run(
        [sys.executable, "-c", heavy],
        env={"PYTHONPATH": str(Path(main.__code__.co_filename).parents[2])},
        check=False,
    )

    assert done.returncode == 0
    assert "timber" not in the_plan()


def test_recut_plans_around_a_fault_says_what_changes_and_writes_it(planned, capsys):
    stick = the_plan()["timber"]["sticks"][0]

    status = main(["recut", str(PACK), "--stick", stick["id"], "--fault", "100-140"])

    said = capsys.readouterr().out
    told = the_plan("recut.json")
    assert status == 0
    assert said.startswith(f"{stick['id']} is ")
    assert f"wrote {PACK / 'recut.json'}" in said
    assert told["fault"] == [100, 140]
    assert sorted(mark for one in told["timber"]["sticks"] for mark in one["members"]) == sorted(
        mark for one in the_plan()["timber"]["sticks"] for mark in one["members"]
    )
    assert told["job"]["fingerprint"] == the_plan()["job"]["fingerprint"]


def test_what_is_done_stays_and_the_next_recut_goes_on_from_the_last(planned):
    first, second = (stick["id"] for stick in the_plan()["timber"]["sticks"][:2])
    before = the_plan()["timber"]["sticks"]

    main(["recut", str(PACK), "--stick", first, "--fault", "100-140", "--done", second])
    again = main(["recut", str(PACK), "--stick", second, "--fault", "10-20"])

    assert again == 2
    assert the_plan("recut.json")["timber"]["done"] == [second]
    assert before[1] in the_plan("recut.json")["timber"]["sticks"]


def along(one):
    return one["from"], one["from"] + one["length"]


def across(one):
    return one["offset"], one["offset"] + one["width"]


def meet(one, other):
    return one[0] < other[1] - 1e-6 and other[0] < one[1] - 1e-6


def test_a_fault_in_any_stick_is_planned_round_as_the_file_shows(planned):
    before = the_plan()["timber"]["sticks"]
    done = before[::3]
    prices = {board["id"]: board["price"] for board in the_plan()["timber"]["boards"]}

    for stick in (one for one in before if one not in done):
        (PACK / "recut.json").unlink(missing_ok=True)
        names_done = ",".join(one["id"] for one in done)
        assert (
            main(["recut", str(PACK), "--stick", stick["id"], "--fault", "150-180", "--done", names_done])
            == 0
        )
        told = the_plan("recut.json")
        after = told["timber"]["sticks"]

        fault = (stick["from"] + 150, stick["from"] + 180)
        assert all(one in after for one in done)
        for one in after:
            if one["board"] == stick["board"] and meet(across(one), across(stick)):
                assert not meet(along(one), fault)
        members = [mark for one in after for mark in one["members"]] + told["timber"]["short"]
        assert sorted(members) == sorted(mark for one in before for mark in one["members"])
        new = {one["board"] for one in after} - {one["board"] for one in before}
        assert told["dearer"] == sum(prices[board] for board in new)


def test_a_whole_stick_can_be_given_up_and_what_that_costs_is_said(planned, capsys):
    stick = max(the_plan()["timber"]["sticks"], key=lambda one: one["length"])
    others = ",".join(one["id"] for one in the_plan()["timber"]["sticks"] if one != stick)
    fault = f"0-{stick['length']}"

    status = main(["recut", str(PACK), "--stick", stick["id"], "--fault", fault, "--done", others])

    said, told = capsys.readouterr().out, the_plan("recut.json")
    assert (status, told["gone"]) == (0, [stick["id"]])
    assert f"{stick['id']} is given up" in said
    assert (f"it costs {told['dearer']} more" if told["dearer"] else "it costs nothing more") in said


def test_boards_that_are_taken_for_a_fault_are_paid_for(planned, capsys):
    (planned / "rack.csv").write_text(
        "board,thickness,width,length,price\nB1,27,173,2400,10\nB2,27,300,2400,14\n", "utf-8"
    )
    main(["plan", "job.toml", "--only", "plan"])
    sticks = the_plan()["timber"]["sticks"]
    widest = max(sticks, key=lambda one: one["length"] * one["width"])
    others = ",".join(one["id"] for one in sticks if one != widest)
    capsys.readouterr()

    main(["recut", str(PACK), "--stick", widest["id"], "--fault", f"0-{widest['length']}", "--done", others])

    said = capsys.readouterr().out
    assert {one["board"] for one in sticks} == {"B1"}
    assert "S4 is new: board B2" in said
    assert "it costs 14 more" in said
    assert the_plan("recut.json")["dearer"] == 14


def test_a_recut_of_an_older_plan_is_not_gone_on_from(planned, capsys):
    stick = the_plan()["timber"]["sticks"][0]["id"]
    main(["recut", str(PACK), "--stick", stick, "--fault", "100-140"])
    (planned / "rack.csv").write_text(RACK.replace("2400", "2390"), "utf-8")
    main(["plan", "job.toml", "--only", "plan"])
    capsys.readouterr()

    main(["recut", str(PACK), "--stick", stick, "--fault", "5-9", "--json"])

    told = json.loads(capsys.readouterr().out)
    known = [fault["along"] for board in told["timber"]["boards"] for fault in board["faults"]]
    start = the_plan()["timber"]["sticks"][0]["from"]
    assert [start + 5, start + 9] in known
    assert [start + 100, start + 140] not in known


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--stick", "S99", "--fault", "1-2"], "there is no stick S99"),
        (["--stick", "S1", "--fault", "1-2", "--done", "S98"], "there is no stick S98"),
        (["--stick", "S1", "--fault", "1-2", "--done", "S1"], "S1 is done"),
        (["--stick", "S1", "--fault", "1-99999"], "long; 99999 is beyond it"),
        (["--stick", "S1", "--fault", "20-10"], "'20-10' is no stretch"),
        (["--stick", "S1", "--fault", "knot"], "'knot' is no stretch"),
        (["--stick", "S1"], "--fault"),
        (["--fault", "1-2"], "--stick"),
    ],
)
def test_a_slip_in_a_recut_is_told_and_writes_nothing(planned, capsys, words, told):
    assert main(["recut", str(PACK), *words]) == 2

    said = capsys.readouterr().err
    assert told in said
    assert "Traceback" not in said
    assert "pantry-wall-pack/recut.json" not in names(planned)


def test_a_folder_without_a_pack_is_told(bench, capsys):
    assert main(["recut", "no-pack", "--stick", "S1", "--fault", "1-2"]) == 2

    assert "[file-missing]" in capsys.readouterr().err


def test_a_pack_without_sticks_is_told(bench, capsys):
    (bench / "job.toml").write_text(JOB, "utf-8")
    main(["plan", "job.toml", "--only", "plan"])

    assert main(["recut", str(PACK), "--stick", "S1", "--fault", "1-2"]) == 2

    assert "[pack-no-timber]" in capsys.readouterr().err


@pytest.mark.parametrize(
    "damage",
    [
        lambda _: b"{",
        lambda _: b"[]",
        lambda _: json.dumps({"timber": {}}).encode(),
        lambda plan: json.dumps({**plan, "timber": {"sticks": []}}).encode(),
        lambda plan: json.dumps(plan).replace('"stick_end": 25', '"stick_end": "wide"').encode(),
        lambda plan: json.dumps(plan).replace('"stick_end": 25', '"stick_end": "1/0"').encode(),
        lambda plan: json.dumps(plan).replace('"board": "B', '"board": "lost').encode(),
        lambda plan: json.dumps(plan).replace('"rip_kerf": 4', '"rip_kerf": 40').encode(),
    ],
)
def test_a_pack_that_was_changed_is_told(planned, capsys, damage):
    (PACK / "plan.json").write_bytes(damage(the_plan()))

    assert main(["recut", str(PACK), "--stick", "S1", "--fault", "1-2"]) == 2

    assert "[pack-changed]" in capsys.readouterr().err


def test_a_stick_s_mark_cannot_drive_the_terminal(planned, capsys):
    text = (PACK / "plan.json").read_text("utf-8")
    (PACK / "plan.json").write_text(text.replace('"B1"', '"B\\u001b[2J"'), "utf-8")

    main(["recut", str(PACK), "--stick", "S1", "--fault", "100-140"])

    assert "\x1b" not in capsys.readouterr().out


def test_sticks_are_the_same_whatever_the_hash_seed(bench):
    run(bench, "plan", "job.toml", "--out", "one", "--only", "plan", PYTHONHASHSEED="1")
    run(bench, "plan", "job.toml", "--out", "two", "--only", "plan", PYTHONHASHSEED="2")

    assert (bench / "one/plan.json").read_bytes() == (bench / "two/plan.json").read_bytes()
