"""The cover: the job in figures, every doubt and assumption, and what is on which sheet."""

import random
from dataclasses import replace

import pytest

from pinchrod.ground import Problem, Where
from pinchrod.papers.cover import bound_pack, cover, facts
from pinchrod.papers.lists.cut_list import cut_list
from pinchrod.papers.lists.fronts_list import fronts_list
from pinchrod.papers.pieces.piece_page import piece_pages
from pinchrod.setting_out import patterns
from tests.builders import a_frame, five_pieces
from tests.papers.data_builders import a_random_job, set_out_job
from tests.papers.page_builders import (
    LONG_NAME,
    a_kitchen,
    a_shop,
    bound,
    flaws,
    rows_of,
    texts,
    texts_of,
)

SHOP = a_shop()


def a_doubt(number: int) -> Problem:
    return Problem(
        where=Where(name=f"K{number}, left stile", file="job.toml", line=number + 1, column=7),
        code="thin-web",
        what=f"a notch 9 deep in 22 leaves 13 behind it, the {number}th time this was seen in the job",
        mend="make the left stile 24 wide, or the bead narrower",
        stops=False,
    )


def cover_of(job, rods, shop=SHOP):
    """The cover of a pack of the job's lists and pieces, and those."""
    found = patterns(rods)
    contents = (*cut_list(rods, job, shop), *fronts_list(rods, job, shop), *piece_pages(found, job, shop))
    return cover(job, rods, found, contents, shop), contents


def said_on(contents) -> str:
    """All that is written, as one text."""
    return " ".join(texts_of(contents))


def test_the_cover_gives_the_job_in_figures():
    job, rods = a_kitchen(doors=five_pieces())

    said = dict(facts(job, rods, patterns(rods), SHOP))

    assert said["Frames"] == "7, of 5 kinds"
    assert said["Pieces"].startswith("42, of ")
    assert said["Joint"] == "dovetail key"
    assert said["Bead"] == "9 wide, its quirk of 2 included"
    assert said["Gaps"] == "2 at edges, 3 where leaves meet"
    assert said["Fronts"] == "21, 22 thick, five-piece doors"


def test_the_finished_wood_is_summed_exactly():
    job, rods = set_out_job(a_frame(quantity=2))

    said = dict(facts(job, rods, patterns(rods), SHOP))

    # twice: two stiles 720 × 45, a top rail 528 × 60, a bottom rail 528 × 45, all 22 thick
    assert said["Finished wood"] == "5.0 m, 0.0053 m³"


@pytest.mark.parametrize("number", [0, 1, 5, 120])
def test_no_doubt_is_hidden(number):
    job, rods = a_kitchen()
    doubts = tuple(map(a_doubt, range(number)))

    pages, _ = cover_of(job, replace(rods, doubts=doubts))

    said = said_on(pages)
    for doubt in doubts:
        assert f"{doubt.where.name} – {doubt.where}" in said
        assert f"{doubt.what}; {doubt.mend}" in said
    assert {0: "No doubts", 1: "1 doubt,"}.get(number, f"{number} doubts,") in said
    assert "doubt" in " ".join(texts(pages[0].marks))


def test_no_assumption_is_hidden():
    assumed = tuple(f"the {number}th usual figure of the workshop: {number} mm" for number in range(60))
    job, rods = a_kitchen(assumed=assumed)

    pages, _ = cover_of(job, rods)

    assert all(each in said_on(pages) for each in assumed)
    assert assumed[0] in texts(pages[0].marks)


def test_the_contents_name_the_sheet_that_each_paper_is_on():
    job, rods = a_kitchen(assumed=("a thing",) * 60)

    pages, contents = cover_of(job, rods)

    sheets = bound((*pages, *contents), job, SHOP)
    told = {
        title: int(number)
        for page in pages
        for line in rows_of(page)
        for title, number in zip(line[::2], line[1::2], strict=False)
        if number.isdigit()
    }
    wanted = {
        sheet.title.partition(":")[0]: number for number, sheet in enumerate(sheets, start=1) if sheet.title
    }
    del wanted["Contents and doubts"]
    assert wanted.items() <= told.items()
    assert [content.continued for content in pages] == [False] + [True] * (len(pages) - 1)


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_no_words_touch_on_a_cover_with_much_to_say(size):
    job, rods = a_random_job(random.Random(3), frames=3)
    job = replace(job, name=LONG_NAME, customer="W" * 80, assumed=("x" * 200, *["a usual figure"] * 45))
    rods = replace(rods, doubts=tuple(map(a_doubt, range(30))))
    shop = a_shop(size)

    pages, _ = cover_of(job, rods, shop)

    assert flaws(pages, job, shop) == []
    assert "x" * 200 in "".join(texts_of(pages))


def test_a_hundred_pieces_take_up_no_more_of_the_contents_than_a_page():
    frames = [
        a_frame(id=f"K{number}", width=600 + 3 * number, height=700 + 3 * number) for number in range(30)
    ]
    job, rods = set_out_job(*frames)

    pages, contents = cover_of(job, rods)

    assert sum(content.document_type == "Piece drawing" for content in contents) >= 100
    assert len(pages) == 2


def test_a_pack_is_bound_with_its_cover_first_and_counted_through():
    job, rods = a_kitchen()

    sheets = bound_pack(job, SHOP, rods)

    titles = [sheet.title for sheet in sheets if sheet.title]
    assert titles[0] == "Contents and doubts"
    assert titles.index("Cutting list") < titles.index("Fronts and panels") < len(titles) - 1
    assert f"{len(sheets)} of {len(sheets)}" in texts(sheets[-1].marks)
