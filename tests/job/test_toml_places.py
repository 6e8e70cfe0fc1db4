"""Places in TOML: every value that the standard library reads has one, and it is where the value stands."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.job import Source
from pinchrod.job.said import Table, gathered
from pinchrod.job.toml.positions import spots_of
from pinchrod.job.toml.toml_file import read_toml

KEYS = st.sampled_from(["a", "b", '"c d"', "'é'", "e-f", "a.b", '"x.y".z'])
SIMPLE = st.sampled_from(
    ["1", "0.5", '"wörds"', "'raw'", "true", "2026-05-31", '"""two\nlines"""', "'''one'''"]
)
VALUES = st.recursive(
    SIMPLE,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: f"[ {', '.join(items)} ]"),
        st.lists(inner, max_size=3).map(
            lambda items: f"[\n{''.join(f'{item}, # é' + chr(10) for item in items)}]"
        ),
        st.lists(inner, max_size=2).map(
            lambda items: f"{{ {', '.join(f'k{at} = {item}' for at, item in enumerate(items))} }}"
        ),
    ),
    max_leaves=6,
)
PAIRS = st.tuples(KEYS, VALUES).map(lambda pair: f"{pair[0]} = {pair[1]}  # ü\n")
HEADERS = st.sampled_from(
    ["[t]\n", "[[list]]\n", "[t.deep]\n", "[[list.inner]]\n", '["q r"]\n', "\n", "# remark é\n"]
)
TEXTS = st.lists(st.one_of(PAIRS, HEADERS), max_size=12).map("".join)


def readable(text):
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return None


def paths(value, path=()):
    if path:
        yield path
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, one in inside:
        yield from paths(one, (*path, key))


@given(text=TEXTS)
def test_every_value_of_a_readable_text_has_a_place_that_begins_with_it(text):
    said = readable(text)
    if said is None:
        return
    lines = text.split("\n")

    spots = spots_of(text)

    assert set(paths(said)) <= set(spots)
    for spot in spots.values():
        line, column = spot.value
        assert lines[line - 1][column - 1 :].startswith(spot.typed.split("\n")[0])


@given(text=TEXTS)
def test_what_is_handed_on_is_what_the_standard_library_reads(text):
    said = readable(text)
    found, problems = gathered(read_toml(Source(name="job.toml", content=text.encode())))

    if said is None or not text.strip():
        assert found is None
        assert len(problems) == 1
    else:
        assert plain(found) == {key: simple(value) for key, value in said.items()}


def plain(value):
    if isinstance(value, Table):
        return {key: plain(said.value) for key, said in value.said.items()}
    return (
        [plain(one.value) for one in value]
        if isinstance(value, tuple)
        else str(getattr(value, "text", value))
    )


def simple(value):
    if isinstance(value, dict):
        return {key: simple(one) for key, one in value.items()}
    return [simple(one) for one in value] if isinstance(value, list) else str(value)


@pytest.mark.parametrize(
    "text",
    [
        "[",
        "= 1",
        "a = [1, 2",
        "[[x]\ny = {",
        "a.b. = 1",
        "[a.]\nb = 1",
        "\x00",
        "[]\na=1",
        "]]]]a{]]=1} ",
        "]a={]]},",
    ],
)
def test_a_text_that_is_no_toml_has_places_or_none_but_never_a_failure(text):
    assert isinstance(spots_of(text), dict)


def test_columns_count_letters_and_not_bytes():
    [problem] = gathered(read_toml(Source(name="job.toml", content='"ö" = "ü" x\n'.encode())))[1]
    spots = spots_of('"ö" = "ü"\n[[é1]]\n')

    assert problem.where.line == 1
    assert spots[("ö",)].value == (1, 7)


def test_a_value_whose_place_is_not_known_stands_where_the_thing_around_it_does():
    many = ", ".join(["1"] * 2001)

    found, _ = gathered(read_toml(Source(name="job.toml", content=f"a = [{many}]".encode())))

    assert found is not None
    many_said = found.said["a"].value
    assert isinstance(many_said, tuple)
    assert many_said[1999].at.column > 4000
    assert many_said[2000].at.column == 5
