"""The plans of jobs, kept in the store as well: which stick is which must outlast the server.

A plan follows from what the joiner said, unless its search was told to stop; and seeking it again takes
half a minute in which nobody at a machine knows his stick.
"""

import json
from dataclasses import replace
from threading import Lock

from pinchrod.ground import NotYetRight
from pinchrod.papers import read_timber, timber_json
from pinchrod.plan import Plan, plan_of_sticks
from pinchrod.store import Draft, Store, draft_of, drafts_of, drop_draft, keep_draft
from pinchrod.timber import question_of
from pinchrod.web.known import Known
from pinchrod.web.planner import Planner

MOST_KNOWN = 24
MOST_KEPT = 100  # revisions of one job
LONGEST = 80  # letters of the name under which the store keeps them


class Plans:
    """A revision's plan as it was made: the planner's, or else as it was kept."""

    def __init__(self, store: Store, planner: Planner) -> None:
        """Know none yet."""
        self._store = store
        self._planner = planner
        self._known: dict[tuple[str, int], Plan | None] = {}
        self._turn = Lock()

    def of(self, known: Known) -> Plan | None:
        """The plan, if it was made at any time."""
        made = self._planner.plan_of(known)
        if made is not None or not known.job.rack:
            return made
        place = known.name, known.number
        with self._turn:
            if self._known.get(place) is None:
                self._known[place] = kept_plan(self._store, known)
            while len(self._known) > MOST_KNOWN:
                self._known.pop(next(iter(self._known)))
            return self._known[place]


def keep_plan(store: Store, known: Known, plan: Plan) -> None:
    """Keep the sticks of a plan; nothing where there are none, or more than the store takes."""
    if plan.breakout is None:
        return
    question = question_of(plan.job, plan.shop, plan.rods)
    told = {"stopped": plan.breakout.stopped, "timber": timber_json(question, plan.breakout)}
    device = _device(known.name)
    _make_room(store, device)
    draft = Draft(
        job=known.name,
        place=_place(known),
        device=device,
        after=known.number,
        words=json.dumps(told, separators=(",", ":")),
    )
    keep_draft(store, draft)


def kept_plan(store: Store, known: Known) -> Plan | None:
    """The plan of a revision as it was kept; None if none was, or if it cannot be gone by any more."""
    draft = draft_of(store, known.name, _place(known), _device(known.name))
    if draft is None:
        return None
    try:
        told = json.loads(draft.words)
        _, breakout, _ = read_timber(told["timber"])
        breakout = replace(breakout, stopped=bool(told["stopped"]))
        return plan_of_sticks(known.job, known.shop, breakout)
    except (KeyError, TypeError, ValueError, ZeroDivisionError, RuntimeError, NotYetRight):
        return None


def _make_room(store: Store, device: str) -> None:
    """Let go of the oldest revision's plan where there are too many."""
    kept = sorted(drafts_of(store, device), key=lambda draft: draft.after)
    for draft in kept[: max(len(kept) - MOST_KEPT + 1, 0)]:
        drop_draft(store, draft.job, draft.place, draft.device)


def _device(job: str) -> str:
    return f"sawing of {job}"[:LONGEST]


def _place(known: Known) -> str:
    return f"sawing of revision {known.number}"
