"""The marks on an elevation: as large as there is room for, never too small to read, never lost unsaid."""

import pytest

from pinchrod.papers import Path, Words, plain_marks
from pinchrod.papers.frames.elevation_words import LEAST, length_between
from pinchrod.papers.marks.boxes import mark_box
from tests.builders import a_row, a_stack, an_opening
from tests.papers.frame_builders import (
    DRAWER_OVER_PAIR,
    TENTH,
    a_rod,
    random_rods,
    seen,
    written,
)


def marked(rod, drawn):
    """Which of the frame's members and openings have their mark, whole or without the frame's id."""
    texts = set(written(drawn.marks))
    return [name for name in names_in(rod) if {name, name[len(rod.frame.id) + 1 :]} & texts]


def names_in(rod):
    return [member.name for member in rod.members] + [opening.name for opening in rod.openings]


def sizes_of(drawn):
    return {mark.size for mark in plain_marks(drawn.marks) if isinstance(mark, Words)}


def test_openings_and_members_carry_their_marks_and_openings_their_kind_and_sight_size():
    rod, job = a_rod(DRAWER_OVER_PAIR, width=1200)

    texts = written(seen(rod, job).marks)

    assert {"K1.1", "K1.2", "K1-LS", "K1-RS", "K1-TR", "K1-R1", "K1-BR"} <= set(texts)
    assert {"drawer", "pair"} <= {text.split(" ")[0] for text in texts}
    assert any("1110 × 437" in text for text in texts)


@pytest.mark.parametrize("kind", ["door", "pair", "drawer", "panel", "open"])
def test_what_stands_in_an_opening_is_named(kind):
    rod, job = a_rod(an_opening(kind), width=900)

    assert kind in " ".join(written(seen(rod, job).marks)).split(" ")


def test_marks_on_a_large_drawing_are_large_and_those_on_a_small_one_still_readable():
    rod, job = a_rod(DRAWER_OVER_PAIR)

    assert {5.0} <= sizes_of(seen(rod, job, per=2))
    assert min(sizes_of(seen(rod, job, per=20))) >= LEAST


def test_a_mark_too_long_for_its_place_leaves_the_frames_id_off_and_says_so():
    rod, job = a_rod(DRAWER_OVER_PAIR, id="Kitchen, the long wall by the window")

    drawn = seen(rod, job)

    assert drawn.shortened
    assert {"1", "2", "LS", "TR", "R1"} <= set(written(drawn.marks))


@pytest.mark.parametrize("per", [5, 10, 20, 50])
def test_a_mark_is_on_the_drawing_or_named_as_having_no_room(per):
    layout = a_row(*[a_stack(*[an_opening("drawer")] * 6)] * 4)
    rod, job = a_rod(layout, width=1800, height=1500)

    drawn = seen(rod, job, per=per)

    assert set(marked(rod, drawn)) | set(drawn.unmarked) == set(names_in(rod))
    assert not set(marked(rod, drawn)) & set(drawn.unmarked)


def test_the_mark_of_a_slender_rail_stands_over_its_edges_on_white():
    rod, job = a_rod(DRAWER_OVER_PAIR)

    drawn = seen(rod, job, per=20)

    grounds = [mark for mark in drawn.marks if isinstance(mark, Path) and mark.fill == "white"]
    label = next(mark for mark in drawn.marks if isinstance(mark, Words) and mark.text in ("K1-R1", "R1"))
    assert any(mark_box(ground).left < label.at.x < mark_box(ground).right for ground in grounds)


@pytest.mark.parametrize("seed", range(3))
def test_in_a_true_size_drawing_no_letters_stand_over_an_edge_and_none_are_missing(seed):
    for rod, job in random_rods(seed + 10, 5):
        drawn = seen(rod, job, per=10, letters_shrink=True)

        assert not [mark for mark in drawn.marks if getattr(mark, "fill", None) == "white"]
        assert not drawn.unmarked


def test_sight_sizes_and_rails_as_printed_add_up_to_the_frame():
    rod, _ = a_rod(a_stack(*[an_opening("drawer")] * 7), height=2000)

    sights = [float(length_between(opening.y, TENTH)) for opening in rod.openings]

    assert abs(sum(sights) + 6 * 38 + 60 + 45 - 2000) < 1e-9
    assert len(set(sights)) > 1  # equal shares that no tenth can show
