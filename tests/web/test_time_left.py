"""How long work takes yet: a rough word, and none where it would be a guess."""

import pytest

from pinchrod.web.beside import Work
from pinchrod.web.planner import State
from pinchrod.web.timber_page import most_ways
from pinchrod.web.time_left import time_left
from tests.web.serving import a_floor, browser, keep
from tests.web.small_job import SMALL, small_files


@pytest.mark.parametrize(
    ("done", "of", "seconds", "said"),
    [
        (0, 100, 30, ""),
        (4, 100, 30, ""),  # too early to say
        (50, 100, 4, ""),  # 8 seconds in all: nobody asks
        (50, 100, 30, "about 30 seconds"),
        (25, 100, 15, "about 50 seconds"),
        (90, 100, 30, "a few seconds"),
        (10, 100, 60, "about 9 minutes"),
        (100, 100, 60, ""),
        (120, 100, 60, ""),
        (1, 0, 60, ""),
    ],
)
def test_the_rest_takes_as_long_as_it_did_so_far(done, of, seconds, said):
    assert time_left(done, of, seconds) == said


@pytest.mark.parametrize(
    ("place", "work", "state", "said"),
    [
        ("papers", Work.PACK, {"made": 5, "seconds": 90, "making": 20}, "90 s so far; about 40 seconds left"),
        (
            "papers",
            Work.PACK,
            {"tried": "half"},
            "about 60 seconds left for the plan at most, then the papers",
        ),
        ("machines", Work.PLAN, {"tried": "half"}, "about 60 seconds left at most"),
        ("timber", Work.PLAN, {"tried": "half"}, "about 60 seconds left at most"),
    ],
)
def test_planning_and_papers_say_how_long_they_take_yet(tmp_path, monkeypatch, place, work, state, said):
    with a_floor(tmp_path) as floor:
        keep(floor, small_files(), job=SMALL)
        half = most_ways(floor.job(SMALL)) // 2
        far = {"seconds": 60, **state, **({"tried": half} if state.get("tried") else {})}
        running = State(running=True, **far)
        monkeypatch.setattr(
            floor.planner, "state", lambda _known, asked=Work.PLAN: running if asked is work else State()
        )

        page = browser(floor).get(f"/jobs/{SMALL}/{place}")

        assert said in " ".join(page.text.split())
