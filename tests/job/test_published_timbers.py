"""Every figure of the table of timbers, worked out again from what is printed.

`published/` holds what was read of works of the United States government, which are free to copy: the
Wood Handbook (FPL-GTR-190, 2010), Tables 13-5, 4-3, 4-4 and 5-3a; fact sheets of its laboratory (Alden;
Chudnoff 1984); TM 5-852-4. Of other sources one figure each stands in the table itself, in its words.
"""

import csv
import re
from importlib.resources import files
from pathlib import Path

import pytest

from pinchrod.ground import Mm, rounded
from tests.job.test_timbers import ROWS

PUBLISHED = Path(__file__).parent / "published"
FIFTH = Mm("0.00001")
BY_NAME = {row["name"]: row for row in ROWS}
START = {"western-redcedar": 22, "northern-white-cedar": 22}  # where shrinkage begins, % (from memory)
MADE = 10  # % of moisture, for which the Wood Handbook works its coefficients out
OF_RELATIVES = {"green-ash", "sweet-birch", "cedar-elm"}  # printed with a relative's coefficients
GRAVITY = re.compile(r"1120 x G12 of (0\.[0-9]+)")


def published(name):
    text = (PUBLISHED / f"{name}.csv").read_text("utf-8").splitlines()
    return {row["timber"]: row for row in csv.DictReader(text)}


COEFFICIENTS, SHRINKAGE, GRAVITIES = (
    published(name) for name in ("coefficients", "shrinkage", "specific_gravity")
)


def from_shrinkage(name, per_cent):
    """Eq. 13-3 from 10 %: S / (100 start - (start - 10) S); S / (3000 - 20 S) where it begins at 30 %."""
    start, shrinkage = START.get(name, 30), Mm(per_cent)
    return rounded(shrinkage / (100 * start - (start - MADE) * shrinkage), FIFTH)


def kinds_of(row):
    """How each of the two coefficients is known."""
    one, _, two = row["movement_kind"].partition("/")
    return {"radial": one, "tangential": two or one}


def figures(kind):
    return [(row["name"], way) for row in ROWS for way, known in kinds_of(row).items() if known == kind]


@pytest.mark.parametrize("row", [row for row in ROWS if "Table 13-5" in row["source"] and row["movement_kind"] == "printed"], ids=lambda row: row["name"])  # fmt: skip
def test_a_printed_coefficient_is_the_one_of_table_13_5(row):
    printed = COEFFICIENTS[row["name"]]

    assert (row["radial"], row["tangential"]) == (printed["radial"], printed["tangential"])


def test_no_coefficient_that_is_printed_was_left_for_another():
    assert set(COEFFICIENTS) == {row["name"] for row in ROWS if row["movement_kind"] == "printed"}


@pytest.mark.parametrize(("name", "way"), figures("derived"))
def test_a_derived_coefficient_follows_from_the_shrinkage(name, way):
    if name in {"european-beech", "european-oak"}:
        shrinkage = {"european-beech": ("5.7", "11.6"), "european-oak": ("4.5", "9.7")}[name]
        printed = dict(zip(("radial", "tangential"), shrinkage, strict=True))  # each from a web page
    else:
        printed = SHRINKAGE[name]

    assert Mm(BY_NAME[name][way]) == from_shrinkage(name, printed[way])


@pytest.mark.parametrize("name", START)
def test_where_shrinkage_starts_late_the_coefficient_does_too(name):
    for way in ("radial", "tangential"):
        assert Mm(BY_NAME[name][way]) == from_shrinkage(name, SHRINKAGE[name][way])
    assert BY_NAME[name]["movement_kind"] == "memory"


@pytest.mark.parametrize("name", sorted(set(COEFFICIENTS) & set(SHRINKAGE)))
def test_tables_13_5_and_4_3_agree_but_for_three_printed_with_a_relative(name):
    both = [
        (Mm(COEFFICIENTS[name][way]), from_shrinkage(name, SHRINKAGE[name][way]))
        for way in ("radial", "tangential")
    ]

    assert all(abs(one - two) <= FIFTH for one, two in both) == (name not in OF_RELATIVES)


@pytest.mark.parametrize("row", [row for row in ROWS if GRAVITY.search(row["source"])], ids=lambda row: row["name"])  # fmt: skip
def test_density_at_12_per_cent_is_1120_times_the_gravity_of_dry_weight_on_volume_at_12(row):
    [gravity] = GRAVITY.findall(row["source"])

    assert Mm(row["density"]) == rounded(1120 * Mm(gravity), Mm(1))
    assert row["density_kind"] in ("derived", "memory")
    if row["name"] in GRAVITIES:
        assert Mm(GRAVITIES[row["name"]]["at_12"]) == Mm(gravity)


def test_the_worked_example_of_that_rule():
    """G of 0.4 at 12 %: 448 kg/m3, on a page that reproduces the Wood Handbook's chapter 4."""
    assert rounded(1120 * Mm("0.4"), Mm(1)) == 448


@pytest.mark.parametrize(("name", "pounds"), [("sapele", 42), ("utile", 41)])
def test_a_weight_that_holds_its_water_is_not_multiplied_again(name, pounds):
    """Chudnoff 1984 gives air-dry pounds to the cubic foot; a pound is 0.45359237 kg, a foot 0.3048 m."""
    cubic_foot = Mm("0.3048") ** 3

    assert Mm(BY_NAME[name]["density"]) == rounded(pounds * Mm("0.45359237") / cubic_foot, Mm(1))
    assert BY_NAME[name]["density_kind"] == "printed"


def test_european_oak_and_beech_hold_their_water_already():
    """Their pages give 0.74 and 0.71 with the water in it: no 1120, and no G of dry weight is that high."""
    assert (BY_NAME["european-oak"]["density"], BY_NAME["european-beech"]["density"]) == ("740", "710")
    assert not GRAVITY.search(BY_NAME["european-oak"]["source"] + BY_NAME["european-beech"]["source"])


def test_a_gravity_that_falls_as_the_wood_dries_is_a_misprint_and_is_not_taken():
    """Wood shrinks as it dries, so that the same weight fills less: G at 12 % is more than G green."""
    misprinted = {
        name for name, row in GRAVITIES.items() if row["green"] and Mm(row["at_12"]) <= Mm(row["green"])
    }

    assert misprinted == {"western-white-pine"}
    assert [BY_NAME[name]["density"] for name in misprinted] == [""]


@pytest.mark.parametrize("name", SHRINKAGE)
def test_shrinkage_along_and_across_the_rings_agrees_with_that_of_the_volume(name):
    """Volume shrinks by about both together; black ash is furthest from it, by 2.4. A digit misread would show."""
    printed = {key: Mm(SHRINKAGE[name][key]) for key in ("radial", "tangential", "volumetric")}

    assert printed["radial"] < printed["tangential"] < printed["volumetric"]
    assert abs(printed["volumetric"] - printed["radial"] - printed["tangential"]) <= Mm("2.4")


def test_acetylated_wood_has_the_figures_of_the_untreated_and_says_so():
    treated, untreated = BY_NAME["acetylated-radiata-pine"], BY_NAME["radiata-pine"]

    assert (treated["radial"], treated["tangential"]) == (untreated["radial"], untreated["tangential"])
    assert "untreated radiata pine" in treated["source"]


def test_the_excerpts_are_used_to_the_last_row_but_for_one_white_oak():
    """Commercial white oak is in Table 13-5; the single species is left out."""
    used = {row["name"] for row in ROWS}

    assert set(SHRINKAGE) - used == {"white-oak-alone"}
    assert set(GRAVITIES) | set(COEFFICIENTS) <= used


def test_the_table_is_saved_as_it_was_sorted():
    text = files("pinchrod.job").joinpath("timbers.csv").read_text("utf-8")

    assert text.splitlines()[1:] == sorted(text.splitlines()[1:], key=lambda line: line.split(",")[0])
