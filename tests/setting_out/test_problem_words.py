"""Every problem of setting out in its own words, held against a page that can be read.

To renew the page after changing words on purpose: PINCHROD_BLESS=1, never in CI.
"""

import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from pinchrod.ground import Mm, NotYetRight, Problem
from pinchrod.job import Group, Job, Joint, Machines, Notcher, Shop
from pinchrod.setting_out import set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening, five_pieces

PAGE = Path(__file__).parent / "golden" / "problems.txt"
SHARP = Shop(machines=Machines(notcher=Notcher(flat=Mm(1))))
CROSS = a_row(
    a_stack(an_opening("open"), an_opening("open")), a_stack(an_opening("open"), an_opening("open"))
)
MADE = five_pieces()


def later(group: Group) -> Group:
    return replace(group, at=21)


def jobs() -> Iterator[tuple[str, Job, Shop]]:  # noqa: PLR0915 -- a table, read by the row
    """Each fault or doubt with the least that brings it about."""
    usual = Shop()

    def one(words: str, layout: Any = None, shop: Shop = usual, **said: Any) -> tuple[str, Job, Shop]:
        of_frame = {key: said.pop(key) for key in list(said) if key in FRAME_KEYS}
        return words, a_job(a_frame(layout, **of_frame), **said), shop

    yield one("stiles as wide as the frame", width=90)
    yield one("rails and a foot higher than the frame", height=150, foot=100)
    yield one("sizes too large", a_stack(an_opening("drawer", 300), an_opening("drawer", 300)))
    yield one("sizes too small", a_stack(an_opening("drawer", 200), an_opening("drawer", 300)))
    yield one(
        "sizes half a millimetre too large", a_stack(an_opening("drawer", 277.5), an_opening("open", 300))
    )
    yield one(
        "a group inside that leaves half a millimetre",
        a_stack(an_opening("open"), later(a_row(an_opening("open", 471.5), an_opening("open")))),
    )
    yield one(
        "a group inside that leaves nothing",
        a_stack(an_opening("open"), later(a_row(an_opening("open", 472), an_opening("open")))),
    )
    yield one("one opening with a size of its own", an_opening("drawer", 600))
    yield one("a thin web behind a notch", an_opening("open"), left_stile=22)
    yield one("a thin web between notches", CROSS, SHARP, muntin=32)
    yield one("no web between notches", CROSS, SHARP, muntin=18)
    yield one("less than no web between notches", CROSS, SHARP, muntin=10)
    yield one("a floor narrower than the flat", a_stack(an_opening("open"), an_opening("open")), mid_rail=37)
    yield one("a rail as narrow as its bead", an_opening("open"), bottom_rail=9)
    yield one("slots as deep as the frame", an_opening("open"), thickness=Mm(10))
    yield one("mortices as wide as the frame", thickness=Mm(10), joint=Joint.LOOSE_TENON)
    yield one("tenons through a stile", an_opening("open"), joint=Joint.MORTICE_AND_TENON)
    yield one(
        "tenons that just reach through", an_opening("open"), joint=Joint.MORTICE_AND_TENON, left_stile=49
    )
    yield one("mortices that meet", CROSS, joint=Joint.DOWEL)
    yield one("tenons cut down", an_opening("open"), joint=Joint.LOOSE_TENON, top_rail=69)
    yield one("tenons cut down to a half", an_opening("open"), joint=Joint.LOOSE_TENON, bottom_rail=19.5)
    yield one("no room for a tenon", an_opening("open"), joint=Joint.LOOSE_TENON, bottom_rail=18.5)
    yield one("no height for a drawer", a_stack(an_opening("drawer", 3), an_opening("open")))
    yield one("no width for a leaf", a_row(an_opening("pair", 6), an_opening("open")))
    yield one(
        "no width for a five-piece door", a_row(an_opening("door", 123), an_opening("open")), doors=MADE
    )
    yield one("no height for its panel", a_stack(an_opening("door", 145), an_opening("open")), doors=MADE)
    yield one("a door too low for its hinges", a_stack(an_opening("door", 120), an_opening("open")))
    yield one("a door too tall for the table", height=2300)
    yield one("a hinge near a notch", a_stack(an_opening("door", 150), an_opening("open")))


FRAME_KEYS = {
    "width",
    "height",
    "foot",
    "left_stile",
    "right_stile",
    "top_rail",
    "bottom_rail",
    "mid_rail",
    "muntin",
}


def problems_of(job: Job, shop: Shop) -> tuple[Problem, ...]:
    try:
        return set_out(job, shop).doubts
    except NotYetRight as trouble:
        return trouble.problems


def told(words: str, job: Job, shop: Shop) -> str:
    problems = problems_of(job, shop)
    lines = [f"    {'stops' if p.stops is True else 'doubt'} [{p.code}] {p}" for p in problems]
    return "\n".join([f"{words}:", *lines])


def test_every_problem_is_told_in_its_own_words() -> None:
    page = "\n".join(told(*case) for case in jobs()) + "\n"

    if os.environ.get("PINCHROD_BLESS") and not os.environ.get("CI"):
        PAGE.write_text(page, encoding="utf-8")
    assert page.splitlines() == PAGE.read_text(encoding="utf-8").splitlines()


def test_every_doubt_is_a_plain_yes_or_no() -> None:
    for _, job, shop in jobs():
        assert all(isinstance(problem.stops, bool) for problem in problems_of(job, shop))
