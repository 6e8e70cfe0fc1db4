"""Phrases that are read, and the openings they give."""

import pytest

from pinchrod.ground import INCH, Mm
from pinchrod.job import Group, read_phrase
from tests.job.phrase_builders import (
    IN_A_FILE,
    door,
    drawer,
    opening,
    pair,
    panel,
    read,
    row,
    stack,
)

ONE_THING = {
    "door": door(),
    "pair": pair(),
    "drawer": drawer(),
    "panel": panel(),
    "open": opening(),
    "opening": opening(),
    "1 door": door(),
    "1 pairs": pair(),
    "001 drawers": drawer(),
    "door 500": door(500),
    "1 door 500": door(500),
    "drawer 5 1/2 in": drawer(Mm("5.5") * INCH),
    'drawer 5½"': drawer(Mm("5.5") * INCH),
    "drawer 140,5 mm": drawer("140.5"),
    "door left": door(hung="left"),
    "door right": door(hung="right"),
    "door 500 left": door(500, "left"),
    "door left 500": door(500, "left"),
    "(door)": door(),
    "((door left)) 500": door(500, "left"),
}

SEVERAL = {
    "drawer 140 over pair": stack(drawer(140), pair()),
    "door beside door 300": row(door(), door(300)),
    "drawer over door over panel": stack(drawer(), door(), panel()),
    "3 drawers": stack(drawer(), drawer(), drawer()),
    "3 drawers 140": stack(drawer(140), drawer(140), drawer(140)),
    "2 doors": row(door(), door()),
    "2 doors 400": row(door(400), door(400)),
    "2 doors left": row(door(hung="left"), door(hung="left")),
    "2 pairs": row(pair(), pair()),
    "3 drawers over door": stack(drawer(), drawer(), drawer(), door()),
    "door over 2 drawers 140": stack(door(), drawer(140), drawer(140)),
    "2 doors beside pair": row(door(), door(), pair()),
    "2 pairs 700 beside door": row(pair(700), pair(700), door()),
    "2 panels over door": stack(panel(), panel(), door()),
    "2 panels 300 over door": stack(panel(300), panel(300), door()),
    "2 panels beside door": row(panel(), panel(), door()),
    "door over 2 openings": stack(door(), opening(), opening()),
    "door beside 2 open 90": row(door(), opening(90), opening(90)),
    "3 drawers over 2 drawers": stack(*[drawer()] * 5),
}

LYING_ACROSS = {
    "2 doors over drawer": stack(row(door(), door()), drawer()),
    "drawer 140 over 2 doors 560": stack(drawer(140), row(door(), door(), size=560)),
    "drawer over 2 doors 560 right": stack(drawer(), row(door(hung="right"), door(hung="right"), size=560)),
    "3 drawers beside door": row(stack(drawer(), drawer(), drawer()), door()),
    "1 drawer 140 beside door": row(drawer(140), door()),
    "2 doors over 2 doors": stack(row(door(), door()), row(door(), door())),
}

BRACKETED = {
    "(drawer over door) 300 beside door": row(stack(drawer(), door(), size=300), door()),
    "door beside (drawer over drawer)": row(door(), stack(drawer(), drawer())),
    "(door) over (door)": stack(door(), door()),
    "(door) 500 over door": stack(door(500), door()),
    "(drawer over drawer)": stack(drawer(), drawer()),
    "(drawer over drawer) 500": stack(drawer(), drawer(), size=500),
    "((drawer over drawer) 500)": stack(drawer(), drawer(), size=500),
    "((drawer over drawer)) over door": stack(stack(drawer(), drawer()), door()),
    "(3 drawers) over door": stack(stack(drawer(), drawer(), drawer()), door()),
    "(3 drawers) 600 over door": stack(stack(drawer(), drawer(), drawer(), size=600), door()),
    "(2 drawers 140) beside door": row(stack(drawer(140), drawer(140)), door()),
    "(2 drawers 140) 300 beside door": row(stack(drawer(140), drawer(140), size=300), door()),
    "(2 doors) beside door": row(row(door(), door()), door()),
    "(2 panels over door) beside door": row(stack(panel(), panel(), door()), door()),
}

DIVIDED = {
    "door over[80] door": stack(door(), door(), rails=[80]),
    "door over [ 80 mm ] door": stack(door(), door(), rails=[80]),
    'door beside[3 1/8"]door': row(door(), door(), muntins=[Mm("3.125") * INCH]),
    "drawer over door over[80] door": stack(drawer(), door(), door(), rails=[None, 80]),
    "2 drawers over[80] 3 drawers": stack(*[drawer()] * 5, rails=[None, 80, None, None]),
    "3 drawers beside[50] door": row(stack(*[drawer()] * 3), door(), muntins=[50]),
    "(door beside[50] door) over[80] door": stack(row(door(), door(), muntins=[50]), door(), rails=[80]),
}

AS_IT_COMES = {
    "DRAWER 140 Over Pair": stack(drawer(140), pair()),
    "  drawer\t140\r\nover\u00a0\u2009pair\u3000": stack(drawer(140), pair()),
    "2doors": row(door(), door()),
    "door 500left": door(500, "left"),
    "drawer140over pair": stack(drawer(140), pair()),
    "(door)over(door)": stack(door(), door()),
    "drawer 140 MM over pair": stack(drawer(140), pair()),
}

READ = ONE_THING | SEVERAL | LYING_ACROSS | BRACKETED | DIVIDED | AS_IT_COMES


@pytest.mark.parametrize("phrase", READ)
def test_a_phrase_gives_the_openings_that_it_says(phrase):
    layout = read(phrase)

    assert layout == READ[phrase]


def test_an_opening_knows_where_its_words_begin():
    layout, _ = read_phrase(" drawer 140 over 2 drawers", IN_A_FILE)

    assert isinstance(layout, Group)
    assert [layout.at, *(part.at for part in layout.parts)] == [1, 1, 17, 17]


def test_a_group_begins_at_its_bracket_and_a_lone_thing_in_brackets_at_its_word():
    layout, _ = read_phrase("((door over door)) beside ( panel ) beside 2 drawers", IN_A_FILE)

    assert isinstance(layout, Group)
    assert [[part.at, *places_in(part)] for part in layout.parts] == [[0, 2, 12], [28], [43, 43, 43]]


def places_in(part):
    return [place.at for place in part.parts] if isinstance(part, Group) else []


def test_a_size_behind_drawers_in_a_row_is_their_width_but_doubted():
    layout, [problem] = read_phrase("door beside 3 drawers 140", IN_A_FILE)

    assert layout is not None
    assert not problem.stops
    assert (problem.code, problem.where.column) == ("size-reading", IN_A_FILE.column + 22)
    assert read("door beside (3 drawers) 140") == row(door(), stack(*[drawer()] * 3, size=140))
    assert '"(3 drawers) 140"' in problem.mend
    assert '"(3 drawers 140)"' in problem.mend
