"""The page of a piece: every place along it, where it stands in its drawing, and what it may be taken for."""

import random
from dataclasses import replace
from itertools import cycle

import pytest

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Joint, Side
from pinchrod.papers import WIDE, Content, Path, Spot, Words
from pinchrod.papers.pieces.lying import SCALES, scale_to_fit
from pinchrod.papers.pieces.piece_drawing import LEFT, RIGHT
from pinchrod.papers.pieces.piece_page import piece_pages
from pinchrod.setting_out import Edge, Face, Member, patterns
from tests.builders import a_frame, a_row, a_stack, an_opening
from tests.papers.data_builders import a_random_job, set_out_job
from tests.papers.page_builders import a_kitchen, a_shop, awkward_jobs, flaws, rows_of, texts, texts_of

SHOP = a_shop()
WIDTH = 174.0  # of the body of an A4 page


def pages_of(job, rods, shop=SHOP):
    """The job's patterns, and for each the contents of its pages."""
    found = patterns(rods)
    pages: dict[str, list[Content]] = {pattern.mark: [] for pattern in found}
    for content in piece_pages(found, job, shop):
        pages[content.title.split(":")[0]].append(content)
    return [(pattern, pages[pattern.mark]) for pattern in found]


def outline_on(page) -> Path:
    """The outline of the piece, as drawn to scale."""
    [outline] = [
        mark for mark in page.marks if isinstance(mark, Path) and mark.pen is WIDE and mark.layer == "outline"
    ]
    return outline


def notch_places(member: Member) -> list[Mm]:
    return [
        place - member.datum
        for notch in member.notches
        for place in (notch.mouth.low, notch.mouth.high, notch.floor.low, notch.floor.high)
    ]


@pytest.mark.parametrize("seed", range(5))
def test_every_place_along_a_piece_is_in_its_drawing_and_in_its_tables(seed):
    job, rods = a_random_job(random.Random(seed), frames=3)

    for pattern, pages in pages_of(job, rods):
        member, said = pattern.drawn, texts_of(pages)
        seats = [seat.at for seat in member.hinge_seats]
        centres = [fixing.at for fixing in member.fixings if fixing.face is not Face.END]
        listed = [show_fixed(at) for at in (*notch_places(member), *seats)]
        listed += [show_fixed(fixing.at) for fixing in member.fixings]

        if len(pages) > 1 or any(": notches, mouth" in text for text in said):
            assert {show(at) for at in notch_places(member)} <= set(said)
        if len(pages) > 1 or any("centres of" in text for text in said):
            assert {show(at) for at in (*seats, *centres)} <= set(said)
        assert all(said.count(at) >= listed.count(at) for at in listed)


def a_ladder(drawers):
    """A job of one frame of doors beside so many drawers; the muntin between carries both."""
    layout = a_row(an_opening("door", hung=Side.RIGHT), a_stack(*[an_opening("drawer")] * drawers))
    return set_out_job(a_frame(layout, id="K1", width=1200, height=1000))


@pytest.mark.parametrize("drawers", range(1, 9))
def test_a_piece_keeps_to_one_page_by_leaving_out_of_its_drawing_what_its_tables_say(drawers):
    job, rods = a_ladder(drawers)

    for pattern, pages in pages_of(job, rods):
        listed = {show_fixed(at) for at in notch_places(pattern.drawn)}
        numbers = [mark for mark in pages[0].marks if isinstance(mark, Words) and mark.text in listed]
        assert len(pages) == 1, pattern.mark
        assert listed <= {mark.text for mark in numbers if mark.size >= 5}


def test_lanes_for_centres_go_before_those_for_notches():
    named = {}
    for drawers in range(2, 16):
        [(_, pages)] = [it for it in pages_of(*a_ladder(drawers)) if it[0].drawn.name == "K1-M1"]
        said = " ".join(texts_of(pages[:1]))
        named[drawers] = len(pages), "notches, mouth" in said, "centres of" in said

    assert named[2] == (1, True, True)
    assert (1, True, False) in named.values()
    assert (1, False, True) not in named.values()


def test_the_table_says_of_a_notch_its_edge_mouth_floor_and_what_it_takes():
    job, rods = set_out_job(
        a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")), id="K1", width=800)
    )

    [(_, pages)] = [it for it in pages_of(job, rods) if it[0].drawn.name == "K1-LS"]

    # 720 less 60 and 140: the rail stands from 482 to 520, its floor narrower by the bead on both sides
    rows = [line for page in pages for line in rows_of(page)]
    assert ["right", "482.0", "520.0", "491.0", "511.0", "K1-R1"] in rows
    assert ["right", "660.0", "720.0", "669.0", "720.0", "K1-TR"] in rows


def test_numbers_to_cut_by_are_large_and_the_length_is_read_across_the_bench():
    job, rods = a_kitchen()

    for pattern, pages in pages_of(job, rods):
        words = [mark for mark in pages[0].marks if isinstance(mark, Words) and mark.turn == 0]
        [length] = [mark for mark in words if mark.text == show_fixed(pattern.drawn.length) and mark.size > 9]
        table = {show_fixed(at) for at in notch_places(pattern.drawn)}

        assert length.size == 12
        assert f"make {pattern.quantity}" in texts(pages[0].marks)
        assert all(mark.size >= 5 for mark in words if mark.text in table and mark.bold and mark.size < 9)


@pytest.mark.parametrize("role", ["stile", "rail"])
def test_a_piece_lies_face_up_with_its_datum_end_to_the_left(role):
    job, rods = a_kitchen()
    [(pattern, pages)] = [
        it for it in pages_of(job, rods) if it[0].drawn.name == {"stile": "K1-LS", "rail": "K1-TR"}[role]
    ]
    member = pattern.drawn

    words = {mark.text: mark.at for mark in pages[0].marks if isinstance(mark, Words)}
    outline = outline_on(pages[0])

    upper, lower, far = {"stile": ("left", "right", "top"), "rail": ("upper", "lower", "right")}[role]
    assert words[upper].y > words["datum"].y > words[lower].y
    assert words[far].x > max(spot.x for spot in outline.points)
    assert len(outline.points) == len(member.outline)
    # both have their one bead on the edge that lies lowermost: there the outline is cut into
    assert member.beads == ((Edge.RIGHT,) if role == "stile" else (Edge.LOWER,))
    low = min(spot.y for spot in outline.points)
    assert sum(spot.y == low for spot in outline.points) < sum(spot.y > low for spot in outline.points)


def test_the_drawing_is_true_to_its_scale_along_and_across():
    job, rods = a_kitchen()

    for pattern, pages in pages_of(job, rods):
        member = pattern.drawn
        long = int(pages[0].scale.removeprefix("1:"))
        note = next(text for text in texts(pages[0].marks) if text.startswith("All from the datum end"))
        wide = int(note.split("across 1:")[1].split(";")[0]) if "across" in note else long
        xs, ys = zip(*outline_on(pages[0]).points, strict=True)

        assert (max(xs) - min(xs)) * long == pytest.approx(float(member.along.length))
        assert (max(ys) - min(ys)) * wide == pytest.approx(float(member.width))
        assert pages[0].true_scale


def test_the_largest_scale_that_fits_is_chosen():
    for length in (20, 144, 145, 720, 721, 2400, 6000):
        scale = scale_to_fit(Mm(length), WIDTH - LEFT - RIGHT)
        larger = [other for other in SCALES if other < scale]

        assert length / scale <= WIDTH - LEFT - RIGHT
        assert all(length / other > WIDTH - LEFT - RIGHT for other in larger)


def test_mirrored_pieces_warn_of_each_other():
    job, rods = a_kitchen()

    found = pages_of(job, rods)

    mirrored = [(pattern, pages) for pattern, pages in found if pattern.mirror]
    assert mirrored
    for pattern, pages in found:
        warned = [text for text in texts_of(pages) if text.startswith("Mirror of")]
        wanted = [f"Mirror of {pattern.mirror}: do not mix them up."] if pattern.mirror else []
        assert warned == wanted


def test_nearly_alike_pieces_warn_of_each_other_with_the_difference():
    job, rods = a_kitchen()  # K1 is 800 wide and K4 802

    pages = {pattern.drawn.name: (pattern, texts_of(pages)) for pattern, pages in pages_of(job, rods)}

    short, said_of_short = pages["K1-TR"]
    long, said_of_long = pages["K4-TR"]
    assert f"Nearly like {long.mark}: 2.0 longer. Look twice." in said_of_short
    assert f"Nearly like {short.mark}: 2.0 shorter. Look twice." in said_of_long


def test_pieces_alike_when_turned_end_for_end_are_named_so():
    job, rods = set_out_job(a_frame(a_stack(an_opening("open"), an_opening("open")), top_rail=45))
    [(pattern, pages)] = [it for it in pages_of(job, rods) if it[0].drawn.name == "K1-LS"]

    said = texts_of(pages)

    assert [piece.member.name for piece in pattern.pieces if piece.turned] == ["K1-RS"]
    place = said.index("Turned end for end, datum end to the right:")
    assert said[place + 1] == "K1-RS"
    assert said[said.index("Made to it:") + 1] == "K1-LS"


def test_every_piece_made_to_a_pattern_is_named_with_how_many():
    job, rods = a_kitchen()

    for pattern, pages in pages_of(job, rods):
        words = {word.rstrip(",") for text in texts_of(pages) for word in text.split()}
        assert {piece.member.name for piece in pattern.pieces} <= words
        assert all(f"×{piece.quantity}" in words for piece in pattern.pieces if piece.quantity > 1)


def test_a_tenon_is_placed_by_the_mortice_that_takes_it():
    job, rods = set_out_job(
        a_frame(id="K1", left_stile=70, right_stile=70, top_rail=70), joint=Joint.MORTICE_AND_TENON
    )
    [(pattern, pages)] = [it for it in pages_of(job, rods) if it[0].drawn.name == "K1-TR"]

    rows = [line for page in pages for line in rows_of(page)]

    # joint 61 between the floor's lower end and the frame's top; haunched by a third, so 40.7 wide,
    # its middle 9 + 61 / 3 up from the rail's lower edge; a third of 22 thick; 40 long
    assert pattern.drawn.length == 600 - 2 * 70 + 2 * 9 + 2 * 40
    assert ["left shoulder", "40.0", "29.3", "40.7 × 7.3", "40.0", "K1-LS"] in rows
    assert [
        "right shoulder",
        show_fixed(pattern.drawn.length - 40),
        "29.3",
        "40.7 × 7.3",
        "40.0",
        "K1-RS",
    ] in rows


def test_a_lane_holds_its_ticks_where_its_places_are_and_spreads_its_numbers():
    drawers = [an_opening("drawer")] * 12
    job, rods = set_out_job(a_frame(a_row(a_stack(*drawers), an_opening()), id="K1", width=1200, height=2400))
    [(pattern, pages)] = [it for it in pages_of(job, rods) if it[0].drawn.name == "K1-M1"]
    member, scale = pattern.drawn, int(pages[0].scale.removeprefix("1:"))

    ticks = {
        round(mark.a.x, 4)
        for page in pages
        for mark in page.marks
        if getattr(mark, "layer", "") == "dimension" and isinstance(getattr(mark, "a", None), Spot)
        if mark.a.x == mark.b.x
    }

    zero = 23 + LEFT
    assert all(round(zero + float(at) / scale, 4) in ticks for at in notch_places(member))
    assert flaws(pages, job, SHOP) == []


@pytest.mark.parametrize("joint", list(Joint))
def test_no_words_touch_on_any_page_of_an_awkward_piece(joint):
    for size, (job, rods) in zip(cycle(["A4", "Letter"]), awkward_jobs(joint), strict=False):
        found = sorted(patterns(rods), key=lambda it: len(it.drawn.notches) + len(it.drawn.fixings))
        shop = a_shop(size)

        assert flaws(first_pages(found[-1:], found, job, shop), job, shop) == []


def first_pages(wanted, found, job, shop):
    """The first two pages of each of these patterns, of all that were found."""
    marks = {pattern.mark: 2 for pattern in wanted}
    for page in piece_pages(found, job, shop):
        mark = page.title.split(":")[0]
        marks[mark] = marks.get(mark, 0) - 1
        if marks[mark] >= 0:
            yield page


@pytest.mark.parametrize("seed", range(4))
def test_no_words_touch_on_any_page_of_a_random_job(seed):
    job, rods = a_random_job(random.Random(100 + seed), frames=3)
    shop = a_shop(
        random.Random(seed).choice(["A4", "Letter"]), random.Random(seed).choice(["0.1", "0.396875"])
    )

    pages = piece_pages(patterns(rods), job, shop)

    assert flaws(pages, job, shop) == []


def test_a_piece_on_more_than_one_page_says_that_it_goes_on():
    job, rods = next(awkward_jobs())

    for pattern, pages in pages_of(job, rods):
        assert [page.continued for page in pages] == [False] + [True] * (len(pages) - 1)
        assert all(texts(page.marks)[0] == f"{pattern.mark}, continued" for page in pages[1:])


def test_a_hinge_seat_is_drawn_on_its_edge_where_its_door_has_its_hinge():
    job, rods = a_kitchen()
    [(pattern, pages)] = [it for it in pages_of(job, rods) if it[0].drawn.name == "K3-LS"]
    scale = int(pages[0].scale.removeprefix("1:"))

    seats = [
        mark
        for mark in pages[0].marks
        if isinstance(mark, Path) and mark.fill == "black" and mark.layer == "outline"
    ]

    lengths = [(max(p.x for p in it.points) - min(p.x for p in it.points)) * scale for it in seats]
    assert len(pattern.drawn.hinge_seats) == 2
    assert sum(length == pytest.approx(63) for length in lengths) == 2


def test_the_same_job_gives_the_same_pages():
    job, rods = a_kitchen()

    assert piece_pages(patterns(rods), job, SHOP) == piece_pages(patterns(replace(rods)), job, SHOP)
