"""Cards for the machines: every cut ticked once, each card with its own cautions, and pictures that lie right."""

from collections import Counter
from dataclasses import replace

import pytest

from pinchrod.bench import order_bench_work
from pinchrod.ground import Mm
from pinchrod.job import Joint
from pinchrod.machining import WHO_DECIDES, Hand, StepSetting, StopSetting, Stroke, arrange
from pinchrod.papers.cards.at_the_stop import Lie, lying_picture, ways_of_lying
from pinchrod.papers.cards.cards import DOCUMENT, cards
from pinchrod.papers.cards.glue_picture import joined_at
from pinchrod.papers.cards.setting_bands import once_bands
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import Dimension, Line, Path, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.setting_out import Edge
from pinchrod.timber import Board, break_out, question_of
from tests.builders import a_frame
from tests.papers.data_builders import set_out_job
from tests.papers.page_builders import LONG_NAME, a_kitchen, a_shop, awkward_frames, flaws, texts_of

SHOP = a_shop()
NOTCHING = "Notch the beaded edges"


def kitchen_cards(shop=SHOP, **said):
    job, rods = a_kitchen(**said)
    machining, bench = arrange(job, shop, rods), order_bench_work(job, shop, rods)
    return job, machining, cards(machining, bench, rods, shop)


def pages_of(contents, title):
    return [page for page in contents if page.title.endswith(f": {title}")]


def all_words(pages) -> str:
    return " ".join(texts_of(pages))


def test_the_order_of_work_names_every_step_once():
    _, machining, pages = kitchen_cards()
    said = texts_of(page for page in pages if page.title == "Order of work")

    numbers = [text for text in said if text.isdigit() and int(text) <= len(machining.steps)]
    assert set(map(str, range(1, len(machining.steps) + 1))) <= set(numbers)
    titles = [page.title for page in pages if page.document_type == DOCUMENT and not page.continued]
    assert titles == [f"{number}: {step.title}" for number, step in enumerate(machining.steps, 1)]


def test_every_notching_cut_has_a_box_of_its_own():
    _, machining, pages = kitchen_cards()
    cuts = Counter(stroke.piece for setting in machining.notching.settings for stroke in setting.strokes)

    words = Counter(texts_of(pages_of(pages, NOTCHING)))

    assert {piece: words[piece] for piece in cuts} == cuts


def test_every_piece_is_ticked_once_at_the_crosscut_saw():
    _, machining, pages = kitchen_cards()

    words = Counter(texts_of(pages_of(pages, "Cut to length")))

    assert all(words[piece] == 1 for stop in machining.lengths for piece in stop.pieces)


def test_a_card_carries_its_own_cautions_and_no_others():
    _, machining, pages = kitchen_cards()
    every = {caution for step in machining.steps for caution in step.cautions}
    for number, step in enumerate(machining.steps, 1):
        words = all_words(page for page in pages if page.title == f"{number}: {step.title}")
        assert [caution for caution in every if caution in words] == [
            caution for caution in every if caution in step.cautions
        ]
        assert WHO_DECIDES in words


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_cards_look_right(size):
    shop = a_shop(size)
    job, _, pages = kitchen_cards(shop)

    assert flaws(pages, job, shop) == []


@pytest.mark.parametrize("frames", list(awkward_frames()))
def test_cards_of_awkward_jobs_look_right(frames):
    few = [replace(frame, quantity=min(frame.quantity, 3)) for frame in frames[:9]]
    job, rods = set_out_job(*few, name=LONG_NAME, customer=LONG_NAME)
    machining, bench = arrange(job, SHOP, rods), order_bench_work(job, SHOP, rods)

    assert flaws(cards(machining, bench, rods, SHOP), job, SHOP) == []


def a_stroke(side=Edge.LEFT, at=200, *, from_left=True) -> Stroke:
    return Stroke(piece="K1-LS", side=side, at=Mm(at), length=Mm(720), from_left=from_left)


def the_lie(hand, stroke) -> Lie:
    (lie,) = ways_of_lying(
        StopSetting(hand=hand, distance=stroke.distance(hand), strokes=(stroke,)), back_up=False
    )
    return lie


def test_the_end_from_which_the_distance_counts_is_the_one_at_the_stop():
    """A left edge lies with the datum end to the left, a right one with it to the right."""
    assert the_lie(Hand.LEFT, a_stroke()).against == "datum end"
    assert the_lie(Hand.RIGHT, a_stroke()).against == "far end"
    assert the_lie(Hand.LEFT, a_stroke(Edge.RIGHT, from_left=False)).against == "far end"
    assert the_lie(Hand.RIGHT, a_stroke(Edge.RIGHT, from_left=False)).against == "datum end"


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize("from_left", [True, False])
def test_the_picture_shows_stop_datum_and_tool_where_they_are(hand, from_left):
    stroke = a_stroke(Edge.LEFT if from_left else Edge.RIGHT, from_left=from_left)
    lie = the_lie(hand, stroke)

    marks = lying_picture(lie, "200", Box(0, -20, 52, 0))
    tool, stop = (mark for mark in marks if isinstance(mark, Path) and mark.fill == "black")
    (bar,) = (mark for mark in marks if isinstance(mark, Line))
    (number,) = (mark for mark in marks if isinstance(mark, Dimension))

    def middle(path):
        return sum(spot.x for spot in path.points) / len(path.points)

    assert (middle(stop) < middle(tool)) == (hand is Hand.LEFT)
    assert (bar.a.x < 26) == from_left  # the datum end lies to the left, whichever stop is used
    ends = sorted((number.a.x, number.b.x))
    assert min(abs(end - middle(tool)) for end in ends) < 0.01


def test_pieces_that_lie_differently_have_pictures_of_their_own():
    left, right = a_stroke(), a_stroke(Edge.RIGHT, 520, from_left=False)
    setting = StopSetting(
        hand=Hand.LEFT, distance=Mm(200), strokes=(left, right, replace(left, piece="K2-LS"))
    )

    found = ways_of_lying(setting, back_up=False)

    assert [(lie.side, lie.against, lie.pieces) for lie in found] == [
        ("left edge", "datum end", ("K1-LS", "K2-LS")),
        ("right edge", "far end", ("K1-LS",)),
    ]


def test_every_frame_has_a_card_that_closes_every_joint_once():
    _, rods = a_kitchen()
    _, _, pages = kitchen_cards()
    for rod in rods.rods:
        card = [page for page in pages if page.title == f"Glue up {rod.frame.id}"]
        words = all_words(card)
        joints = [
            (member.name, end.meets)
            for member in rod.members
            for end in (member.low_end, member.high_end)
            if end.meets
        ]
        assert f"{len(joints)} joints" in words
        assert all(receiver in words and arriving in words for arriving, receiver in joints)


def test_the_picture_of_a_frame_numbers_its_members_as_the_table_does():
    job, rods = a_kitchen()
    rod = rods.rods[0]
    (gluing,) = (each for each in order_bench_work(job, SHOP, rods).gluings if each.frame == rod.frame.id)

    numbers = joined_at(gluing)

    last = gluing.steps[-1]
    assert set(numbers) == {member.name for member in rod.members}
    assert numbers[last.part.members[0]] == str(len(gluing.steps))


def test_only_what_is_made_to_spare_is_listed_as_spare():
    job, rods = set_out_job(a_frame(quantity=40))
    bench = order_bench_work(job, SHOP, rods)
    pages = cards(arrange(job, SHOP, rods), bench, rods, SHOP)

    words = texts_of(page for page in pages if page.title == "Order of work")

    assert [text for text in words if text.startswith("+")] == [
        f"+{each.spare}" for each in bench.spares if each.spare
    ]
    assert any(each.spare for each in bench.spares)


def test_spares_are_ticked_wherever_the_pieces_that_they_are_like_are():
    job, rods = set_out_job(a_frame(quantity=40))
    bench, machining = order_bench_work(job, SHOP, rods), arrange(job, SHOP, rods)
    pages = cards(machining, bench, rods, SHOP)
    made = {each.like[0]: f"+{each.spare} {each.like[0]}" for each in bench.spares if each.spare}
    cuts = Counter(
        (stroke.piece, stroke.side) for each in machining.notching.settings for stroke in each.strokes
    )

    at_the_saw = Counter(texts_of(pages_of(pages, "Cut to length")))
    at_the_notcher = Counter(texts_of(pages_of(pages, NOTCHING)))

    assert made
    for first, words in made.items():
        assert at_the_saw[words] == 1
        assert at_the_notcher[words] == sum(
            number for (piece, _), number in cuts.items() if piece == f"{first}/1"
        )


def test_everything_is_said_only_where_all_of_the_job_goes_through():
    """A rail is mitred and a stile is not: so the card for mitres names its pieces."""
    _, machining, pages = kitchen_cards()
    (mitre,) = (step for step in machining.steps if step.title == "Mitre the bead")

    words = texts_of(pages_of(pages, mitre.title))

    assert set(mitre.settings[0].through) <= set(words)
    assert not any("everything" in text for text in words)
    pieces = sum(len(stop.pieces) for stop in machining.lengths)
    assert len(mitre.settings[0].through) < pieces
    thick = all_words(pages_of(pages, "Plane to thickness"))
    assert f"everything: all {pieces}" in thick


def test_no_machine_is_broken_in_two_in_the_order_of_work():
    _, machining, pages = kitchen_cards()
    said = texts_of(page for page in pages if page.title == "Order of work")

    assert {word for step in machining.steps for word in step.machine.split()} <= {
        word for text in said for word in text.split()
    }


@pytest.mark.parametrize("speed", [900, 6000, 12000])
def test_what_is_set_once_keeps_clear_of_the_next_box(speed):
    settings = (
        StepSetting(of="bead", to=Mm("9.5")),
        StepSetting(of="speed", to=Mm(speed), unit="rev/min"),
        StepSetting(of="feed", to=Mm(6), unit="m/min"),
    )

    marks = next(once_bands(settings, Mm("0.1"), 174.0)).marks
    boxes = sorted(min(spot.x for spot in mark.points) for mark in marks if isinstance(mark, Path))
    ends = [
        (mark.at.x, mark.at.x + words_width(mark.text, mark.size, bold=mark.bold))
        for mark in marks
        if isinstance(mark, Words)
    ]

    assert len(boxes) == len(settings)
    for box, following in zip(boxes, (*boxes[1:], 174.0), strict=True):
        assert all(end < following - 2.0 for start, end in ends if box < start < following)


def test_the_moulder_is_told_which_have_one_bead_and_which_two():
    _, machining, pages = kitchen_cards()
    words = " ".join(texts_of(pages_of(pages, "Stick the bead")))

    assert machining.moulding is not None
    runs = machining.moulding.runs
    for number, run in enumerate(runs, start=1):
        beads = "two beads" if run.beads == 2 else "one bead"
        assert f"Width, {beads}, {number} of {len(runs)}" in words
    assert {run.beads for run in runs} == {1, 2}


def a_board(name: str) -> Board:
    sizes = {"thickness": 27, "width": 200, "length": 3600, "bow": 0, "spring": 0, "price": 20}
    lengths = {key: Mm(size) for key, size in sizes.items()}
    return Board(name=name, faults=(), where=a_frame().where, **lengths)


def test_at_the_saw_each_piece_is_named_with_the_stick_that_it_is_cut_from():
    job, rods = set_out_job(a_frame(quantity=12), rack=tuple(a_board(f"B{number}") for number in range(1, 9)))
    machining = arrange(job, SHOP, rods, break_out(question_of(job, SHOP, rods)))
    bench = order_bench_work(job, SHOP, rods)
    pages = cards(machining, bench, rods, SHOP)

    at_the_saw = Counter(texts_of(pages_of(pages, "Cut to length")))

    cuts = [(piece, each.stick) for each in machining.stick_cuts for piece in each.pieces]
    assert cuts
    assert all(at_the_saw[f"{piece} · {stick}"] == 1 for piece, stick in cuts)
    assert sum(each.spare for each in bench.spares) > 0
    assert "No stick holds them" in all_words(page for page in pages if page.title == "Order of work")
    assert flaws(pages, job, SHOP) == []


@pytest.mark.parametrize("joint", [Joint.MORTICE_AND_TENON, Joint.DOWEL, Joint.DOVETAIL_KEY])
def test_a_depth_from_the_notch_s_floor_is_called_so_and_no_tenon_is_to_have_at_hand(joint):
    _, machining, pages = kitchen_cards(joint=joint)

    for number, step in enumerate(machining.steps, 1):
        words = all_words(page for page in pages if page.title == f"{number}: {step.title}")
        in_edges = step.title.startswith(("Mortices in the edges", "Dowel holes in the edges"))
        assert ("from the floor of the notch" in words) == in_edges
    glued = all_words(page for page in pages if page.document_type == "Bench card")
    assert ("to have at hand" in glued) == (joint is not Joint.MORTICE_AND_TENON)
