"""The table of timbers: figures within reason, each with its kind and its source."""

import csv
from importlib.resources import files

import pytest

from pinchrod.ground import Mm
from pinchrod.job.limits import TIMBER_FIGURES
from pinchrod.job.timbers import known_timbers

ROWS = list(csv.DictReader(files("pinchrod.job").joinpath("timbers.csv").read_text("utf-8").splitlines()))
KINDS = {"printed", "derived", "memory"}


def test_every_timber_has_a_name_of_its_own_and_a_figure():
    assert len(ROWS) == len(known_timbers()) > 100
    assert [row["name"] for row in ROWS if not (row["density"] or row["tangential"])] == []
    assert [row["name"] for row in ROWS] == sorted(row["name"] for row in ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_a_figure_of_a_timber_is_within_reason_and_says_how_it_is_known(row):
    timber = known_timbers()[row["name"]]

    for name, between in TIMBER_FIGURES.items():
        figure = getattr(timber, name)
        assert figure is None or between.low < figure < between.high
    assert bool(row["density"]) == bool(row["density_kind"])
    assert bool(row["tangential"]) == bool(row["movement_kind"])
    assert {*row["density_kind"].split("/"), *row["movement_kind"].split("/")} - {""} <= KINDS
    for kind in {*row["density_kind"].split("/"), *row["movement_kind"].split("/")} - {""}:
        assert kind in row["source"]


@pytest.mark.parametrize("row", [row for row in ROWS if row["radial"]], ids=lambda row: row["name"])
def test_wood_moves_more_along_the_rings_than_across_them(row):
    assert Mm(row["radial"]) < Mm(row["tangential"])


@pytest.mark.parametrize(
    ("name", "density", "radial", "tangential"),
    [
        ("yellow-poplar", 470, "0.00158", "0.00289"),
        ("white-oak", 762, "0.00180", "0.00365"),
        ("hard-maple", 706, "0.00165", "0.00353"),
        ("sitka-spruce", 448, "0.00148", "0.00263"),
        ("teak", None, "0.00101", "0.00186"),
    ],
)
def test_well_known_timbers_have_their_published_figures(name, density, radial, tangential):
    timber = known_timbers()[name]

    assert (timber.density, timber.radial, timber.tangential) == (density, Mm(radial), Mm(tangential))
