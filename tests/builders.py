"""Builders that fill in the ordinary, so that a test says only what matters to it."""

import os
import random
from dataclasses import replace
from typing import Any

from pinchrod.ground import Mm, Where
from pinchrod.job import (
    Bead,
    Doors,
    Frame,
    Gaps,
    Group,
    Issue,
    Job,
    Joint,
    Kind,
    Layout,
    Place,
    Timber,
    Way,
)

POPLAR = Timber(
    name="yellow-poplar",
    density=Mm(470),
    radial=Mm("0.00158"),
    tangential=Mm("0.00289"),
    source="for tests",
)


def so_many(number: int) -> int:
    """How many random cases to try: all, or a few where the same tests are run over many mutants."""
    return max(4, number // 50) if os.environ.get("PINCHROD_DEPTH") == "shallow" else number


def an_opening(kind: str = "door", size: object = None, **said: Any) -> Place:
    """One opening as said."""
    return Place(kind=Kind(kind), size=None if size is None else Mm(str(size)), **said)


def a_stack(*parts: Layout, rails: tuple[object, ...] | None = None, size: object = None) -> Group:
    """Parts one over another, from the top down."""
    return _a_group(Way.STACK, parts, rails, size)


def a_row(*parts: Layout, muntins: tuple[object, ...] | None = None, size: object = None) -> Group:
    """Parts side by side, from the left."""
    return _a_group(Way.ROW, parts, muntins, size)


def _a_group(way: Way, parts: tuple[Layout, ...], dividers: tuple[object, ...] | None, size: object) -> Group:
    said = dividers or (None,) * (len(parts) - 1)
    widths = tuple(None if width is None else Mm(str(width)) for width in said)
    return Group(way=way, parts=parts, dividers=widths, size=None if size is None else Mm(str(size)))


def a_frame(layout: Layout | None = None, **said: Any) -> Frame:
    """A frame 600 x 720 with one door, unless said otherwise; numbers become lengths."""
    usual: dict[str, Any] = {
        "id": "K1",
        "width": 600,
        "height": 720,
        "left_stile": 45,
        "right_stile": 45,
        "top_rail": 60,
        "bottom_rail": 45,
        "mid_rail": 38,
        "muntin": 38,
        "foot": 0,
    }
    given: dict[str, Any] = {**usual, "quantity": 1, "phrase": "", **said}
    lengths: dict[str, Any] = {key: Mm(str(given[key])) for key in usual if key != "id"}
    where = Where(name=given["id"], file="job.toml", line=3, column=1)
    return Frame(
        id=given["id"],
        layout=layout or an_opening(),
        where=where,
        layout_where=replace(where, line=6, column=11),
        quantity=given["quantity"],
        phrase=given["phrase"],
        **lengths,
    )


def a_job(*frames: Frame, bead: object = 9, **said: Any) -> Job:
    """A job of 22 mm poplar, beaded 9 mm, drawn together with dovetail keys, unless said otherwise."""
    usual: dict[str, Any] = {
        "name": "Saltmarsh Row",
        "customer": "Demonstration",
        "timber": POPLAR,
        "thickness": Mm(22),
        "joint": Joint.DOVETAIL_KEY,
        "bead": Bead(width=Mm(str(bead)), quirk=Mm(2)),
        "gaps": Gaps(edge=Mm(2), meeting=Mm(3)),
        "front_thickness": Mm(22),
        "doors": None,
        "frames": frames or (a_frame(),),
        "issue": Issue(),
        "fingerprint": "0" * 64,
    }
    return Job(**{**usual, **said})


def five_pieces() -> Doors:
    """Five-piece doors of the usual sizes."""
    return Doors(
        stile=Mm(60),
        top_rail=Mm(60),
        bottom_rail=Mm(80),
        groove=Mm(10),
        panel=Mm(6),
        side_room=Mm(3),
        end_room=Mm(1),
    )


def a_random_layout(dice: random.Random, depth: int = 3) -> Layout:
    """A layout of any shape whose parts share what there is."""
    if depth == 0 or dice.random() < 0.3:
        return an_opening(dice.choice([kind.value for kind in Kind]))
    parts = tuple(a_random_layout(dice, depth - 1) for _ in range(dice.randint(2, 3)))
    group = a_stack if dice.random() < 0.5 else a_row
    return group(*parts)


def a_random_frame(dice: random.Random, number: int = 1) -> Frame:
    """A frame with room for its layout, its members of any width the notcher can take."""
    members = {
        key: Mm(dice.randint(380, 900)) / 10
        for key in ("left_stile", "right_stile", "top_rail", "mid_rail", "muntin")
    }
    bottom = dice.choice([0, 45, 60, Mm("38.1")])
    foot = dice.choice([0, 0, 100, Mm("79.375")]) if bottom else 0
    return a_frame(
        a_random_layout(dice),
        id=f"F{number}",
        width=Mm(dice.randint(12000, 40000)) / 10,
        height=Mm(dice.randint(12000, 30000)) / 10,
        bottom_rail=bottom,
        foot=foot,
        **members,
    )
