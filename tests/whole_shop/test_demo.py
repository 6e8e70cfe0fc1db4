"""Saltmarsh Row goes through the whole shop, and every paper of it is read again by another reader."""

import csv
import io
import json
import re
from collections import Counter

import ezdxf
import jsonschema
import openpyxl
import pypdfium2
import pytest
import zxingcpp
from ezdxf import recover
from ezdxf.document import Drawing
from ezdxf.entities.lwpolyline import LWPolyline

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Source, content_mark, read_job
from pinchrod.papers import Margins, bound_pack, label_sheets, overlaps, pack, rod_sheets
from pinchrod.setting_out import cutting_list, patterns
from pinchrod.timber import by_eye, flaws, question_of, rack_after
from tests.setting_out import oracle
from tests.whole_shop.demo_job import the_papers, the_papers_with_its_rack, the_plan, the_plan_with_its_rack

MARGINS = Margins(left=20, right=10, top=10, bottom=10)


def text_of(name: str) -> list[str]:
    """The words of each page of a PDF, as another library reads them."""
    document = pypdfium2.PdfDocument(the_papers()[name].content)
    return [page.get_textpage().get_text_range() for page in document]


def page_titles() -> list[str]:
    """The title in the title block of each page of the pack, continued ones too."""
    return [re.findall(r"Title\s+([^\r\n]+)", text)[-1] for text in text_of("pack.pdf")]


def polylines(document: Drawing, layer: str) -> list[LWPolyline]:
    """The outlines on a layer of a DXF drawing."""
    found = document.modelspace().query("LWPOLYLINE")
    return [line for line in found if isinstance(line, LWPolyline) and line.dxf.layer == layer]


def test_the_demo_is_a_whole_house_of_joinery_with_nothing_to_mend() -> None:
    plan = the_plan()
    frames = plan.job.frames

    assert plan.rods.doubts == ()
    assert len(frames) >= 26
    assert len({frame.phrase for frame in frames}) >= 10
    assert any(frame.quantity > 1 for frame in frames)
    assert max(frame.height for frame in frames) > 2000
    assert any(frame.width > 4 * frame.height for frame in frames)


def test_plan_json_keeps_to_its_schema() -> None:
    papers = the_papers()
    schema = json.loads(papers["plan.schema.json"].content)

    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(json.loads(papers["plan.json"].content), schema)


def test_the_demo_s_rack_has_wood_for_every_piece_near_the_least_cost() -> None:
    plan = the_plan_with_its_rack()
    assert plan.breakout is not None

    question = question_of(plan.job, plan.shop, plan.rods)
    made = Counter(mark for stick in plan.breakout.sticks for mark in stick.members)

    assert list(flaws(question, plan.breakout)) == []
    assert (sum(made.values()), max(made.values())) == (199, 1)
    assert plan.breakout.bound <= plan.breakout.cost <= plan.breakout.bound * Mm("1.05")
    assert plan.breakout.cost < by_eye(question).cost


def test_plan_json_holds_every_stick_of_the_demo() -> None:
    plan = the_plan_with_its_rack()
    [paper, _] = pack(plan.job, plan.shop, plan.rods, ("plan",), breakout=plan.breakout)
    said = json.loads(paper.content)["timber"]
    assert plan.breakout is not None

    assert [stick["id"] for stick in said["sticks"]] == [stick.name for stick in plan.breakout.sticks]
    assert {board["id"] for board in said["boards"]} == {board.name for board in plan.job.rack}
    assert said["cost"] == pytest.approx(float(plan.breakout.cost))


def test_the_pack_of_a_job_with_a_rack_has_a_page_for_each_board_and_lists_for_both_saws() -> None:
    plan = the_plan_with_its_rack()
    assert plan.breakout is not None
    papers = the_papers_with_its_rack()
    pages = [
        page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(papers["pack.pdf"].content)
    ]
    found: dict[str, str] = {}
    for text in pages:
        title = re.findall(r"Title\s+([^\r\n]+)", text)[-1]
        found[title] = found.get(title, "") + text

    assert {"Timber", "Rip list", "Stick list", "Where pieces come from"} <= set(found)
    for stick in plan.breakout.sticks:
        for paper in (f"Board {stick.board}", "Stick list"):
            assert {stick.name, *stick.members} <= set(re.split(r"[\s,]+|Owner", found[paper]))


def test_what_is_left_of_the_demo_s_rack_can_be_named_by_the_next_job() -> None:
    plan = the_plan_with_its_rack()
    assert plan.breakout is not None
    papers = the_papers_with_its_rack()
    said = (
        b'pinchrod = 1\n[job]\nname = "next"\nthickness = 22\nrack = "rack-after.csv"\n'
        b'[[frame]]\nid = "K1"\nwidth = 600\nheight = 700\nlayout = "door"\n'
    )

    job, _ = read_job(
        Source(name="job.toml", content=said),
        (Source(name="rack-after.csv", content=papers["rack-after.csv"].content),),
    )

    assert plan.breakout.sticks
    assert job.rack == rack_after(question_of(plan.job, plan.shop, plan.rods), plan.breakout)


def test_plan_json_agrees_with_an_independent_reckoning() -> None:
    said = json.loads(the_papers()["plan.json"].content)
    for frame, rod in zip(said["frames"], the_plan().rods.rods, strict=True):
        boxes = oracle.mosaic(rod.frame)

        openings = [
            (o["kind"], o["x"], o["y"], o["x"] + o["width"], o["y"] + o["height"]) for o in frame["openings"]
        ]
        assert [pytest.approx(list(box[1:]), abs=1e-3) for box in oracle.openings(boxes)] == [
            list(box[1:]) for box in openings
        ]
        lengths = sorted((m["length"], m["width"]) for m in frame["members"])
        assert lengths == [
            pytest.approx((float(a), float(b)), abs=1e-3) for a, b in oracle.lengths(boxes, oracle.exact(9))
        ]


def test_every_sheet_is_clear_of_overlaps_and_within_its_margins() -> None:
    plan = the_plan()
    sheets = bound_pack(plan.job, plan.shop, plan.rods)

    assert [(sheet.title, found) for sheet in sheets if (found := overlaps(sheet, MARGINS))] == []


def test_every_frame_and_every_piece_has_a_page_and_all_but_one_no_more_than_one() -> None:
    plan = the_plan()
    titles = Counter(
        re.findall(r"^(?:Frame [A-Z]+[0-9]+|#[0-9]+: .*)$", "\n".join(page_titles()), re.MULTILINE)
    )

    frames = {f"Frame {frame.id}" for frame in plan.job.frames}
    assert {title for title in titles if title.startswith("Frame")} == frames
    assert len(titles) == len(frames) + len(patterns(plan.rods))
    # P1 has two doors, an open bay and six drawers: its tables go overleaf rather than its marks off the drawing
    assert {title for title, pages in titles.items() if pages > 1} == {"Frame P1"}


def test_the_contents_take_up_no_more_than_a_page_after_the_cover() -> None:
    assert page_titles().count("Contents and doubts") <= 2


def test_rods_and_labels_are_clear_of_overlaps() -> None:
    plan = the_plan()
    sheets = (
        *rod_sheets(plan.rods, plan.job, plan.shop),
        *label_sheets(plan.rods, plan.job, plan.shop),
    )

    edge = Margins(left=0, right=0, top=0, bottom=0)
    assert [(sheet.title, found) for sheet in sheets if (found := overlaps(sheet, edge))] == []


def test_the_cutting_list_s_numbers_are_all_on_paper() -> None:
    pages = " ".join(text_of("pack.pdf"))
    words = Counter(re.findall(r"[0-9]+\.[0-9]+|[A-Z0-9]+-[A-Z]+[0-9]*", pages))

    for line in cutting_list(the_plan().rods):
        assert words[show_fixed(line.length)] >= 1, show(line.length)
        assert all(words[name] >= 1 for name in line.members), line.members


def test_each_distinct_piece_has_a_page_with_every_distance_on_it() -> None:
    plan = the_plan()
    pages = text_of("pack.pdf")
    for pattern in patterns(plan.rods):
        drawn = pattern.drawn
        own = " ".join(page for page in pages if re.search(rf"{pattern.mark}[:,]", page))

        wanted = {drawn.length}
        wanted |= {
            place - drawn.datum
            for notch in drawn.notches
            for place in (notch.mouth.low, notch.mouth.high, notch.floor.low, notch.floor.high)
        }
        wanted |= {fixing.at for fixing in drawn.fixings} | {seat.at for seat in drawn.hinge_seats}
        numbers = set(re.findall(r"[0-9]+\.[0-9]+", own))
        assert [show_fixed(each) for each in wanted if show_fixed(each) not in numbers] == [], pattern.mark


def test_the_lists_for_the_office_hold_what_the_rods_hold() -> None:
    lines = cutting_list(the_plan().rods)
    rows = list(csv.DictReader(io.StringIO(the_papers()["cutting-list.csv"].content.decode())))
    book = openpyxl.load_workbook(io.BytesIO(the_papers()["cutting-list.xlsx"].content))

    assert len(rows) == len(lines)
    assert [float(row["length"]) for row in rows] == pytest.approx(
        [float(line.length) for line in lines], abs=0.05
    )
    assert sum(int(row["quantity"]) for row in rows) == sum(line.quantity for line in lines)
    assert book.sheetnames[0] == "Cutting list"


def test_every_drawing_is_audited_clean_and_true_to_size() -> None:
    for rod in the_plan().rods.rods:
        content = the_papers()[f"drawings/{rod.frame.id}.dxf"].content
        document, auditor = recover.read(io.BytesIO(content))

        assert (auditor.errors, auditor.fixes) == ([], [])
        assert document.header["$INSUNITS"] == ezdxf.units.MM
        outlines = polylines(document, "OUTLINE")
        assert all(line.closed for line in outlines)
        across = [x for line in outlines for x, _ in line.get_points("xy")]
        up = [y for line in outlines for _, y in line.get_points("xy")]
        assert max(across) - min(across) == pytest.approx(float(rod.frame.width), abs=1e-6)
        assert max(up) - min(up) == pytest.approx(float(rod.frame.height), abs=1e-6)


def test_every_outline_of_a_drawing_is_a_member_s() -> None:
    for rod in the_plan().rods.rods:
        document, _ = recover.read(io.BytesIO(the_papers()[f"drawings/{rod.frame.id}.dxf"].content))
        drawn = {
            frozenset((round(x, 3), round(y, 3)) for x, y in line.get_points("xy"))
            for line in polylines(document, "OUTLINE")
        }

        for member in rod.members:
            corners = frozenset((round(float(p.x), 3), round(float(p.y), 3)) for p in member.outline)
            assert corners in drawn, member.name


def test_every_label_s_code_is_read_at_203_dots_an_inch_and_has_its_words_beside_it() -> None:
    plan = the_plan()
    document = pypdfium2.PdfDocument(the_papers()["labels.pdf"].content)
    codes: list[str] = []
    for page in document:
        picture = page.render(scale=203 / 72, grayscale=True).to_pil()
        codes += [found.text for found in zxingcpp.read_barcodes(picture)]
    words = " ".join(text_of("labels.pdf"))

    marks = {
        f"{member.name}/{each}" if rod.frame.quantity > 1 else member.name
        for rod in plan.rods.rods
        for member in rod.members
        for each in range(1, rod.frame.quantity + 1)
    }
    read = [code.partition("/")[2] for code in codes]
    assert marks <= set(read)
    assert max(Counter(read).values()) == 1
    assert all(mark in words for mark in marks)


def test_every_frame_s_rod_is_longer_than_the_frame_and_hardly_more() -> None:
    document = pypdfium2.PdfDocument(the_papers()["rods.pdf"].content)
    pages = [(page.get_width() / 72 * 25.4, page.get_textpage().get_text_range()) for page in document]
    for rod in the_plan().rods.rods:
        longest = float(max(rod.frame.width, rod.frame.height))
        own = [width for width, words in pages if words.split()[0] == rod.frame.id]

        assert own
        assert longest < max(own) < longest + 100


def test_everything_assumed_is_said_on_the_cover() -> None:
    plan = the_plan()
    cover = re.sub(r"\s+", " ", " ".join(text_of("pack.pdf")[:3]))

    assert plan.job.assumed
    for words in plan.job.assumed:
        assert words in cover, words


def test_the_pack_opens_with_contents_that_name_every_frame() -> None:
    cover = " ".join(text_of("pack.pdf")[:2])

    assert all(re.search(rf"Frame {rod.frame.id}\b", cover) for rod in the_plan().rods.rods)


def test_every_sheet_says_its_unit_its_scale_and_its_content_mark() -> None:
    mark = content_mark(the_plan().job.fingerprint)
    for page in text_of("pack.pdf"):
        words = re.split(r"\s+", page)
        assert "Unit" in words
        assert "mm" in words
        assert "Scale" in words
        assert mark in words
