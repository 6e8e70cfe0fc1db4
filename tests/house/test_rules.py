"""Each hard rule finds a fault planted for it, and leaves good work alone."""

import pytest

from house_rules import (
    PACKAGE_RULES,
    faults,
    imports_at_the_top,
    lengths_are_exact,
    reach_inside,
    records_are_frozen,
    sees_no_world,
    waivers_have_reasons,
)
from tests.house.planted import a_file


@pytest.mark.parametrize(
    "planted",
    [
        "import time",
        "import random",
        "import os.path",
        "from pathlib import Path",
        "from subprocess import run",
        "open('rack.csv')",
        "print('K1')",
        "date.today()",
        "datetime.now(UTC)",
        "page.write_text('K1')",
        "page.read_text()",
        "drawing.saveas('K1.dxf')",
    ],
)
def test_an_inner_room_that_looks_at_the_world_is_found(planted):
    room = a_file(f"import datetime\n{planted}\n")

    [fault] = sees_no_world(room)

    assert fault.line == 2


@pytest.mark.parametrize("room", ["cli", "web", "store"])
def test_the_edge_may_read_write_and_print(room):
    edge = a_file("import time\nprint(open('job.toml').read())\n", room=room)

    assert not list(sees_no_world(edge))


def test_an_inner_room_may_read_a_table_that_comes_with_us_but_not_write_one():
    reading = a_file(
        "from importlib.resources import files\nfiles('pinchrod.job').joinpath('t.csv').read_text()\n"
    )
    writing = a_file(
        "from importlib.resources import files\nfiles('pinchrod.job').joinpath('t.csv').write_text('')\n"
    )

    assert not list(sees_no_world(reading))
    assert len(list(sees_no_world(writing))) == 1


def test_an_inner_room_may_take_a_path_apart():
    assert not list(sees_no_world(a_file("from pathlib import PurePosixPath\n")))


def test_a_room_used_from_inside_is_found():
    phrase = a_file("LIMIT = 3\n")
    reached = a_file("from pinchrod.job.phrase import LIMIT\n", room="fit")
    fetched = a_file("from pinchrod.job import phrase\n", room="fit")
    dotted = a_file("import pinchrod.job.phrase\n", room="fit")

    found = list(reach_inside([phrase, reached, fetched, dotted]))

    assert [fault.path for fault in found] == [reached.path, fetched.path, dotted.path]


def test_a_room_used_through_its_door_is_left_alone():
    door = a_file("__all__ = ['phrase']\n", name="__init__")
    phrase = a_file("from pinchrod.job.words import WORDS\n")
    user = a_file(
        "import pinchrod.job\nfrom pinchrod import job\nfrom pinchrod.job import phrase\n", room="fit"
    )

    assert not list(reach_inside([door, phrase, user]))


def test_an_import_hidden_in_a_function_is_found():
    hidden = a_file("def plan():\n    from pinchrod.ground import Mm\n")

    [fault] = imports_at_the_top(hidden)

    assert fault.line == 2


def test_a_library_slow_to_load_may_come_late_and_types_may_come_for_the_checker_alone():
    late = a_file("""
        if TYPE_CHECKING:
            from openpyxl import Workbook
        else:
            from gmpy2 import mpq
        def write():
            from openpyxl.styles import Font
    """)

    assert not list(imports_at_the_top(late))


@pytest.mark.parametrize(
    ("mark", "field", "faults_found"),
    [
        ("@dataclass", "width: Mm", 2),
        ("@dataclass(frozen=True)", "width: Mm", 1),
        ("@dataclass(slots=True, frozen=False)", "width: Mm", 1),
        ("@dataclass(frozen=True, slots=True)", "notches: list[Notch]", 1),
        ("@dataclass(frozen=True, slots=True)", "notches: 'tuple[dict[str, Mm], ...] | None'", 1),
        ("@dataclass(frozen=True, slots=True)", "seen: set[str] = field(default_factory=set)", 1),
        ("@dataclass(frozen=True, slots=True, kw_only=True)", "notches: tuple[Notch, ...]", 0),
    ],
)
def test_a_record_that_can_change_is_found(mark, field, faults_found):
    record = a_file(f"{mark}\nclass Member:\n    {field}\n")

    assert len(list(records_are_frozen(record))) == faults_found


@pytest.mark.parametrize("planted", ["width = 44.5", "width = float('44.5')", "half = Mm(width * 0.5)"])
def test_a_float_where_lengths_are_exact_is_found(planted):
    assert len(list(lengths_are_exact(a_file(planted, room="setting_out")))) == 1
    assert not list(lengths_are_exact(a_file(planted, room="papers")))


@pytest.mark.parametrize(
    "waiver", ["# noqa: S101", "# type: ignore[arg-type]", "# pragma: no cover", "# noqa"]
)
def test_a_waiver_has_to_say_why(waiver):
    assert len(list(waivers_have_reasons(a_file(f"x = 1  {waiver}\n")))) == 1
    assert not list(waivers_have_reasons(a_file(f"x = 1  {waiver} -- the library's types are wrong\n")))


def test_a_waiver_quoted_in_text_waives_nothing():
    assert not list(waivers_have_reasons(a_file("x = '# noqa'\n")))


def test_every_rule_is_asked_and_a_fault_is_printed_as_linters_do():
    room = a_file("import time\n@dataclass\nclass Stick: ...\nlength = 1.5\n")

    found = [str(fault) for fault in faults([room], PACKAGE_RULES)]

    assert found[0].startswith("src/pinchrod/job/phrase.py:1: an inner room imports time")
    assert len(found) == 4


def test_a_rule_may_be_broken_where_the_line_says_why():
    why = a_file("length = float(cell)  # house: a cell holds a float\n")
    bare = a_file("length = float(cell)  # house:\n")

    assert not list(faults([why], PACKAGE_RULES))
    assert len(list(faults([bare], PACKAGE_RULES))) == 1
