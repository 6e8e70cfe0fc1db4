"""The pages about job files, lists, workshop files and limits: what they show is what is read."""

import re
from pathlib import Path

import pytest

from pinchrod.job import Shop, Source, limits, read_job, read_workshop
from pinchrod.job.limits import in_unit
from pinchrod.job.offer_tables import OFFER_KEYS
from pinchrod.job.shop_sizes import SHOP_SIZES
from tests.job.test_workshops import FIGURES

DOCS = Path(__file__).resolve().parents[2] / "docs"
JOB_PAGE, SHOP_PAGE, LIMITS_PAGE = (
    (DOCS / name).read_text("utf-8") for name in ("job-file.md", "workshop-file.md", "limits.md")
)


def blocks(page, sort):
    """Every block of this sort, as it stands on the page."""
    return re.findall(rf"^```{sort}\n(.*?)^```", page, flags=re.MULTILINE | re.DOTALL)


def read(text, name="job.toml"):
    return read_job(Source(name=name, content=text.encode()))[0]


@pytest.mark.parametrize("text", blocks(JOB_PAGE, "job"))
def test_a_job_file_shown_is_read_without_a_doubt(text):
    assert read(text).doubts == ()


def test_the_full_job_file_says_all_that_could_be_assumed_of_a_job_and_says_it_as_usual():
    short, full = (read(text) for text in blocks(JOB_PAGE, "job"))

    assert [size for size in full.assumed if size in short.assumed[: len(limits.USUAL) + 3]] == []
    for name in ("timber", "thickness", "joint", "bead", "gaps", "front_thickness"):
        assert getattr(full, name) == getattr(short, name)


def test_the_full_job_file_names_every_name_there_is():
    [_, full] = blocks(JOB_PAGE, "job")
    names = [usual.key for usual in (*limits.USUAL, *limits.DOORS)] + [
        *limits.TITLE_WORDS,
        *limits.TIMBER_FIGURES,
    ]

    assert [name for name in (*names, *limits.FRAME_SIZES) if name not in full] == []


def test_a_list_shown_is_read_with_the_doubt_it_deserves():
    [text] = blocks(JOB_PAGE, "list")

    assert [doubt.code for doubt in read(text, "frames.csv").doubts] == ["mixed-units"]


def test_the_workshop_shown_is_the_built_in_one_to_the_last_figure():
    [text] = blocks(SHOP_PAGE, "workshop")

    assert read_workshop(Source(name="workshop.toml", content=text.encode())) == (Shop(), ())
    assert [
        path for path in FIGURES if not re.search(rf"^{path.rpartition('.')[2]} = ", text, re.MULTILINE)
    ] == []


def sizes_shown(sort):
    table = LIMITS_PAGE.split(f"<!-- sizes: {sort} -->\n")[1].split("\n\n")[0]
    rows = [[cell.strip(" `") for cell in row.strip("|").split("|")] for row in table.splitlines()[2:]]
    return {row[0]: row[1:] for row in rows}


def test_the_workshops_ranges_shown_are_those_that_are_kept():
    kept = {path: [in_unit(b.low, ""), in_unit(b.high, ""), b.unit] for path, b in SHOP_SIZES.items()}

    assert sizes_shown("workshop") == kept


def test_the_racks_ranges_shown_are_those_that_are_kept():
    kept = {name: [in_unit(b.low, ""), in_unit(b.high, ""), b.unit] for name, b in limits.RACK_SIZES.items()}

    assert sizes_shown("rack") == kept


def test_the_rack_shown_is_read_without_a_doubt():
    [boards] = blocks(JOB_PAGE, "rack")
    [job, _] = blocks(JOB_PAGE, "job")
    named = job.replace("[job]", '[job]\nrack = "rack.csv"')

    read_from, _ = read_job(
        Source(name="job.toml", content=named.encode()), (Source(name="rack.csv", content=boards.encode()),)
    )

    assert read_from.doubts == ()
    assert len(read_from.rack) == boards.count("\nB")


def test_the_offers_ranges_shown_are_those_that_are_kept():
    kept = {name: [in_unit(b.low, ""), in_unit(b.high, ""), b.unit] for name, b in limits.OFFER_SIZES.items()}

    assert sizes_shown("offer") == kept


def test_the_offers_shown_are_read_without_a_doubt_and_name_every_name_there_is():
    [shown] = blocks(JOB_PAGE, "offers")
    [job, _] = blocks(JOB_PAGE, "job")
    sent = Source(name="deliveries.csv", content=b"board,thickness,width,length\nD1,27,180,3000\n")

    read_from, _ = read_job(Source(name="job.toml", content=(job + shown).encode()), (sent,))

    assert read_from.doubts == ()
    assert [offer.name for offer in read_from.offers] == ["yellow-poplar, random", "offer 2", "offer 3"]
    assert [key for key in OFFER_KEYS if f"\n{key} = " not in shown] == []


def test_the_jobs_ranges_shown_are_those_that_are_kept():
    shown = sizes_shown("job")

    for usual in (*limits.USUAL, *limits.DOORS):
        ends = [in_unit(usual.between.low, ""), in_unit(usual.between.high, ""), in_unit(usual.size, "")]
        assert shown[f"{usual.table}.{usual.key}"] == ends
    for name, between in {**limits.FRAME_SIZES, "quantity": limits.ALIKE}.items():
        assert shown[f"frame.{name}"][:2] == [in_unit(between.low, ""), in_unit(between.high, "")]
    for name, between in limits.TIMBER_FIGURES.items():
        assert shown[f"timber.{name}"][:2] == [in_unit(between.low, ""), in_unit(between.high, between.unit)]
    assert len(shown) == len(limits.USUAL) + len(limits.DOORS) + len(limits.FRAME_SIZES) + 5


@pytest.mark.parametrize(
    "figure",
    [
        f"{limits.LARGEST_WORDS // limits.MEGABYTE} MB, {limits.MOST_LINES:,} lines",
        f"{limits.LARGEST_LIST // limits.MEGABYTE} MB",
        f"| {limits.MOST_NESTING} |",
        f"| {limits.MOST_FRAMES:,} |",
        f"boards on a rack | {limits.MOST_BOARDS:,} |",
        f"faults of a board | {limits.MOST_FAULTS:,} |",
        f"offers in a file | {limits.MOST_OFFERS} |",
        f"boards in a history | {limits.MOST_BOARDS:,} |",
        f"| {limits.MOST_PIECES:,} |",
        f"| {limits.MOST_ROWS:,} |",
        f"| {limits.MOST_COLUMNS} |",
        f"{limits.MOST_CELLS_OF_TEXT:,}; {limits.MOST_CELLS:,}",
        f"| {limits.MOST_CELL_TEXT:,} |",
        f"| {limits.MOST_NAME} |",
        f"| {limits.MOST_NOTE:,} |",
        f"| {limits.MOST_DIGITS} |",
        f"| {limits.MOST_PARTS} |",
        f"{limits.MOST_UNPACKED // limits.MEGABYTE} MB, and {limits.MOST_RATIO} times its size",
    ],
)
def test_how_much_is_read_is_shown_as_it_is(figure):
    assert figure in LIMITS_PAGE
