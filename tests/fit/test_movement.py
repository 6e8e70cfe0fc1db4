"""Movement against the handbook's own worked example and a trade page's; panels held against their grooves."""

from dataclasses import replace

import pytest

from pinchrod.fit import change_across, check_panels
from pinchrod.ground import Mm
from pinchrod.job import Doors, Moisture, Shop
from pinchrod.setting_out import set_out
from tests.builders import POPLAR, a_frame, a_job, an_opening, five_pieces

MADE = five_pieces()


@pytest.mark.parametrize(
    ("size", "coefficient", "moisture", "later", "printed"),
    [
        # white fir, flat-sawn, 232 mm from 8 to 11 %: 1.7 mm. Wood Handbook FPL-GTR-190 (2010) p. 13-17 to 13-19;
        # change and final size read in a copy, start, coefficient and moistures from memory
        ("232", "0.00245", "8", "11", 1.7),
        # a mesquite floor strip of 5 in from 6 to 9 %: 0.019 in. A flooring trade's page, read in a copy
        ("127", "0.00129", "6", "9", 0.019 * 25.4),
    ],
)
def test_wood_moves_as_the_published_examples_say(
    size: str, coefficient: str, moisture: str, later: str, printed: float
) -> None:
    change = change_across(Mm(size), Mm(coefficient), Mm(moisture), Mm(later))

    assert float(change) == pytest.approx(printed, abs=0.01)


def test_wood_shrinks_as_it_dries() -> None:
    assert change_across(Mm(100), Mm("0.002"), Mm(12), Mm(8)) == Mm("-0.8")


@pytest.mark.parametrize(("moisture", "later"), [("5.9", "8"), ("8", "14.1")])
def test_outside_six_to_fourteen_per_cent_the_equation_is_not_used(moisture: str, later: str) -> None:
    with pytest.raises(ValueError, match="6 to 14"):
        change_across(Mm(100), Mm("0.002"), Mm(moisture), Mm(later))


def doubts(doors: Doors, shop: Shop | None = None, width: object = 600) -> list[str]:
    shop = shop or Shop()
    job = a_job(a_frame(an_opening(), width=width), doors=doors, timber=POPLAR)
    return [problem.code for problem in check_panels(set_out(job, shop), job, shop)]


def test_a_panel_with_room_is_let_pass() -> None:
    assert doubts(MADE) == []


def test_a_panel_that_would_swell_past_its_room_is_doubted_with_the_room_it_needs() -> None:
    tight = replace(MADE, side_room=Mm(1))
    job = a_job(a_frame(an_opening()), doors=tight)
    [problem] = check_panels(set_out(job, Shop()), job, Shop())

    # 404 mm of panel x 0.00289 x 2 % = 2.3 mm, and 2 mm of room
    assert (problem.code, problem.stops) == ("panel-swells", False)
    assert "404 of panel swells 2.3 from 11 to 13 % moisture, and has room for 2" in problem.what
    assert problem.mend == "make side_room under [doors] 1.5 or more"


def test_a_panel_that_would_slip_out_of_its_groove_is_doubted() -> None:
    assert doubts(replace(MADE, groove=Mm(5))) == ["panel-slips-out"]


def test_slab_doors_have_no_panels_to_look_at() -> None:
    job = a_job(a_frame(an_opening()))

    assert list(check_panels(set_out(job, Shop()), job, Shop())) == []


def test_moisture_outside_the_equation_casts_no_doubt() -> None:
    dry = Shop(moisture=Moisture(made=Mm(11), driest=Mm(5), wettest=Mm(13)))

    assert doubts(replace(MADE, side_room=Mm(0)), dry) == []


def test_a_timber_without_a_published_figure_casts_no_doubt() -> None:
    job = a_job(
        a_frame(an_opening()), doors=replace(MADE, side_room=Mm(0)), timber=replace(POPLAR, tangential=None)
    )

    assert list(check_panels(set_out(job, Shop()), job, Shop())) == []
