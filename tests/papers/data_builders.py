"""Builders of jobs set out, for the tests of labels and of lists for other programs."""

import random
from dataclasses import replace
from typing import Any

from pinchrod.ground import NotYetRight
from pinchrod.job import Frame, Issue, Job, Joint, Shop
from pinchrod.setting_out import Rods, set_out
from tests.builders import a_frame, a_job, a_random_frame, a_stack, an_opening, five_pieces

FINGERPRINT = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"  # the sha256 of "test"
SHOP = Shop()


def set_out_job(*frames: Frame, **said: Any) -> tuple[Job, Rods]:
    """A job and its rods."""
    job = a_job(*frames, **{"fingerprint": FINGERPRINT, **said})
    return job, set_out(job, SHOP)


def a_small_job(**said: Any) -> tuple[Job, Rods]:
    """A drawer over a pair, and two alike frames with a door."""
    drawer_over_pair = a_stack(an_opening("drawer", 140), an_opening("pair"))
    return set_out_job(
        a_frame(drawer_over_pair, id="K1"),
        a_frame(id="K2", width=450, height=2100, quantity=2, left_stile=60),
        **said,
    )


def a_random_job(dice: random.Random, frames: int = 5) -> tuple[Job, Rods]:
    """A job of frames of any layout, with any joint, square or beaded, that can be made at all."""
    said: dict[str, Any] = {
        "bead": dice.choice([0, 9, 12]),
        "joint": dice.choice(list(Joint)),
        "doors": dice.choice([None, five_pieces()]),
        "issue": dice.choice([Issue(), Issue(revision="B")]),
    }
    made: list[Frame] = []
    while len(made) < frames:
        frame = replace(a_random_frame(dice, len(made) + 1), quantity=dice.choice([1, 1, 2, 3]))
        try:
            set_out_job(frame, **said)
        except NotYetRight:
            continue
        made.append(frame)
    return set_out_job(*made, **said)
