"""Members and openings tile a frame's face, by exact sums and by an independent library of plane geometry."""

import random
from dataclasses import replace
from fractions import Fraction

import pytest
import shapely
from shapely.geometry import Polygon

from pinchrod.ground import Mm, NotYetRight, area
from pinchrod.job import Frame, Group, Layout, Shop, Way
from pinchrod.setting_out import Rod, set_out
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many
from tests.setting_out import oracle

HOW_MANY = so_many(1000)
LENIENT = Shop()


def rods_of(*frames: Frame, bead: object = 9) -> tuple[Rod, ...]:
    return set_out(a_job(*frames, bead=bead), LENIENT).rods


def polygons(rod: Rod) -> list[Polygon]:
    return [Polygon([(float(p.x), float(p.y)) for p in member.outline]) for member in rod.members]


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    return shapely.box(x0, y0, x1, y1)


def voids(rod: Rod) -> list[Polygon]:
    """Openings, and the space under a bottom rail on feet."""
    found = [
        rectangle(float(o.x.low), float(o.y.low), float(o.x.high), float(o.y.high)) for o in rod.openings
    ]
    frame = rod.frame
    if frame.foot:
        right = float(frame.width - frame.right_stile)
        found.append(rectangle(float(frame.left_stile), 0.0, right, float(frame.foot)))
    return found


def random_frames(seed: int, how_many: int = so_many(200), bead: object = 9) -> list[Frame]:
    """Frames of any layout that can be made at all."""
    dice = random.Random(seed)
    found: list[Frame] = []
    while len(found) < how_many:
        frame = a_random_frame(dice, len(found) + 1)
        if can_be_made(frame, bead):
            found.append(frame)
    return found


def can_be_made(frame: Frame, bead: object) -> bool:
    try:
        set_out(a_job(frame, bead=bead), LENIENT)
    except NotYetRight:
        return False
    return True


@pytest.mark.parametrize("bead", [9, 6.5, 0])
def test_members_and_openings_tile_the_face_by_exact_sums(bead: float) -> None:
    for rod in rods_of(*random_frames(1, bead=bead), bead=bead):
        frame = rod.frame

        wood = sum((area(member.outline) for member in rod.members), Mm(0))
        clear = sum((opening.x.length * opening.y.length for opening in rod.openings), Mm(0))
        under = frame.foot * (frame.width - frame.left_stile - frame.right_stile)

        assert wood + clear + under == frame.width * frame.height


def test_members_and_openings_tile_the_face_by_another_library() -> None:
    for rod in rods_of(*random_frames(2, HOW_MANY)):
        pieces = polygons(rod) + voids(rod)

        assert all(piece.is_valid for piece in pieces)
        whole = shapely.union_all(pieces, grid_size=1e-6)
        face = rectangle(0, 0, float(rod.frame.width), float(rod.frame.height))
        assert whole.symmetric_difference(face).area < 1e-3
        assert sum(piece.area for piece in pieces) == pytest.approx(face.area, abs=1e-4)


def test_openings_lengths_and_notches_agree_with_an_independent_reckoning() -> None:
    bead = Fraction(9)
    for rod in rods_of(*random_frames(3, HOW_MANY)):
        boxes = oracle.mosaic(rod.frame)

        expected = [(b.what, b.x0, b.y0, b.x1, b.y1) for b in oracle.openings(boxes)]
        got = [(o.kind.value, o.x.low, o.y.low, o.x.high, o.y.high) for o in rod.openings]
        assert got == expected
        assert sorted((m.length, m.width) for m in rod.members) == oracle.lengths(boxes, bead)
        assert sum(len(m.notches) for m in rod.members) == oracle.notch_count(boxes)


def test_every_notch_is_the_end_of_the_member_it_takes() -> None:
    for rod in rods_of(*random_frames(4)):
        for member in rod.members:
            for notch in member.notches:
                taken = rod.member(notch.takes)

                assert notch.mouth == taken.across
                assert notch.floor.length == taken.width - taken.bead * len(taken.beads)
                assert notch.depth == taken.bead
                assert member.name in (taken.low_end.meets, taken.high_end.meets)


def test_the_outline_of_a_member_turns_anticlockwise_and_repeats_no_corner() -> None:
    for rod in rods_of(*random_frames(5)):
        for member in rod.members:
            outline = member.outline

            assert area(outline) > 0
            assert len(set(outline)) == len(outline)


def test_a_hole_would_be_noticed() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening("pair")))
    [rod] = rods_of(frame)
    pieces = (polygons(rod) + voids(rod))[1:]

    whole = shapely.union_all(pieces)

    face = rectangle(0, 0, 600, 720)
    assert whole.symmetric_difference(face).area > 1000


def mirrored(frame: Frame) -> Frame:
    return replace(
        frame,
        left_stile=frame.right_stile,
        right_stile=frame.left_stile,
        layout=_mirror(frame.layout),
    )


def _mirror(layout: Layout) -> Layout:
    if not isinstance(layout, Group):
        return layout
    parts = tuple(_mirror(part) for part in layout.parts)
    if layout.way is Way.ROW:
        return replace(layout, parts=parts[::-1], dividers=layout.dividers[::-1])
    return replace(layout, parts=parts)


def test_a_mirrored_frame_has_mirrored_members() -> None:
    for frame in random_frames(6):
        there, back = rods_of(frame)[0], rods_of(mirrored(frame))[0]

        def faces(rod: Rod, *, flip: bool) -> set[frozenset[tuple[Mm, Mm]]]:
            return {
                frozenset((rod.frame.width - p.x if flip else p.x, p.y) for p in member.outline)
                for member in rod.members
            }

        assert faces(there, flip=True) == faces(back, flip=False)


def test_frames_said_in_another_order_give_the_same_rods() -> None:
    frames = random_frames(7)

    there = {rod.frame.id: rod for rod in rods_of(*frames)}
    back = {rod.frame.id: rod for rod in rods_of(*frames[::-1])}

    assert there == back


def test_what_is_added_to_the_outside_goes_to_the_openings_without_a_size() -> None:
    layout = a_stack(an_opening("drawer", 140), a_row(an_opening(), an_opening("open"), an_opening("panel")))
    [small] = rods_of(a_frame(layout))
    [large] = rods_of(a_frame(layout, width=630, height=731))

    wider = [large.openings[n].x.length - small.openings[n].x.length for n in range(4)]
    higher = [large.openings[n].y.length - small.openings[n].y.length for n in range(4)]

    assert wider == [30, 10, 10, 10]
    assert higher == [0, 11, 11, 11]


def test_millimetres_and_inches_give_the_same_rod() -> None:
    inch = Mm("25.4")
    [metric] = rods_of(a_frame(width=Mm("600.075"), height=Mm("720.725")))
    [imperial] = rods_of(a_frame(width=Mm("23.625") * inch, height=(28 + Mm(3) / 8) * inch))

    assert metric.members == imperial.members
    assert metric.openings == imperial.openings
