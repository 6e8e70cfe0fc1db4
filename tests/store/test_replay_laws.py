"""How pieces stand, held against a plain reckoning that keeps a table instead of going through the ledger."""

import tempfile
from pathlib import Path
from typing import Any

import hypothesis.strategies as st
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from pinchrod.ground import Mm, NotYetRight
from pinchrod.store import (
    STEPS,
    Deed,
    Folder,
    Request,
    Said,
    events_after,
    last_seq,
    open_store,
    record,
    replay,
    roll_at,
    save,
    standing_of,
)
from pinchrod.store.soundness import unsound
from tests.store.shop import BENCH, MORNING, PANTRY, a_saving, quick_folder

PIECES = ("K1-LS", "K1-RS", "K1-TR")
DOUBTS = ("not-its-step", "step-expected")
SETTINGS = ("step 3 setting 1", "step 4 setting 7")
GLUED = STEPS.index(Deed.GLUED)


class Wood:
    """One mark as a careful person would keep it in a notebook: the lines that stand, told afresh each time."""

    def __init__(self):
        self.lines = []  # number, deed, setting

    def told(self, lines):
        """What is done, gone through, spoiled and made when all of it is said in turn; None if it cannot be."""
        page: Any = ([], [], False, 1)
        for _, deed, spot in lines:
            page = turned(page, deed, spot) if page else None
        return page

    def may(self, deed, spot):
        """Whether it can be said now, by the words alone."""
        return self.told([*self.lines, (0, deed, spot)]) is not None

    def without(self, seq):
        """The lines once that one is taken back; None if it may not be."""
        places = [place for place, line in enumerate(self.lines) if line[0] == seq]
        if not places:
            return None
        [place] = places
        rest = [*self.lines[:place], *self.lines[place + 1 :]]
        in_turn = all(deed is Deed.THROUGH for _, deed, _ in self.lines[place + 1 :])
        if self.lines[place][1] is Deed.THROUGH:
            assert self.told(rest) is not None  # nothing rests on a setting
            return rest
        return rest if in_turn and self.told(rest) is not None else None


def turned(page, deed, spot):
    """How the page looks with one more line; None if that cannot be."""
    done, through, spoiled, made = page
    if spoiled != (deed is Deed.MADE_AGAIN):
        return None
    if deed is Deed.MADE_AGAIN:
        return [], [], False, made + 1
    if deed is Deed.SPOILED:
        return done, through, True, made
    too_late = Deed.DELIVERED in done or (deed in STEPS[:GLUED] and Deed.GLUED in done)
    if too_late or (spot in through if deed is Deed.THROUGH else deed in done):
        return None
    if deed is Deed.THROUGH:
        return done, [*through, spot], False, made
    return [*done, deed], through, False, made


class Bench(RuleBasedStateMachine):
    """A bench at which anything is said in any order, now and then twice."""

    def __init__(self):
        super().__init__()
        self.place = tempfile.TemporaryDirectory(dir=quick_folder())
        self.store = open_store(Folder(Path(self.place.name)), now=MORNING)
        save(self.store, a_saving(), now=MORNING)
        self.roll = roll_at(self.store, PANTRY)
        self.notebook = {piece: Wood() for piece in PIECES}
        self.sent = []
        self.count = 0

    def send(self, deed, piece, *, spot="", undoes=0):
        """What came of it: the number of its event, or None if it was refused."""
        self.count += 1
        diagonals = (Mm(937), Mm(938)) if deed is Deed.CHECKED else ()
        said = Said(deed=deed, piece=piece, reason="split", spot=spot, diagonals=diagonals, undoes=undoes)
        request = Request(key=f"tap-{self.count}", by=BENCH, said=(said,), despite=DOUBTS)
        try:
            seq = record(self.store, request, self.roll, now=MORNING).events[0].seq
        except NotYetRight:
            return None
        self.sent.append((request, seq))
        return seq

    @rule(
        deed=st.sampled_from([*STEPS, Deed.SPOILED, Deed.MADE_AGAIN, Deed.THROUGH, Deed.THROUGH]),
        piece=st.sampled_from(PIECES),
        spot=st.sampled_from(SETTINGS),
    )
    def said(self, deed, piece, spot):
        wood = self.notebook[piece]
        allowed = wood.may(deed, spot)

        seq = self.send(deed, piece, spot=spot)

        assert (seq is not None) == allowed
        if seq is not None:
            wood.lines.append((seq, deed, spot))

    @rule(piece=st.sampled_from(PIECES), spot=st.sampled_from(SETTINGS))
    def started_afresh(self, piece, spot):
        for deed in (Deed.SPOILED, Deed.MADE_AGAIN, Deed.THROUGH):
            self.said(deed, piece, spot)

    @rule(piece=st.sampled_from(PIECES), back=st.integers(0, 5))
    def taken_back(self, piece, back):
        wood = self.notebook[piece]
        seq = wood.lines[-1 - back][0] if len(wood.lines) > back else 10_000
        rest = wood.without(seq)

        answer = self.send(Deed.UNDONE, piece, undoes=seq)

        assert (answer is not None) == (rest is not None)
        wood.lines = wood.lines if rest is None else rest

    @rule(choice=st.integers(0, 10_000))
    def sent_again(self, choice):
        if self.sent:
            request, seq = self.sent[choice % len(self.sent)]
            before = last_seq(self.store)

            assert record(self.store, request, self.roll).events[0].seq == seq
            assert last_seq(self.store) == before

    @rule()
    def opened_again(self):
        self.store.close()
        self.store = open_store(Folder(Path(self.place.name)), now=MORNING)

    @invariant()
    def the_pieces_stand_as_the_notebook_says(self):
        standings = {standing.piece: standing for standing in standing_of(self.store, PANTRY)}
        for piece, wood in self.notebook.items():
            standing = standings.get(piece)
            done, through, spoiled, made = wood.told(wood.lines)
            if standing is None:
                assert not wood.lines
            else:
                assert [event.deed for event in standing.done] == done
                assert list(standing.through) == through
                assert (standing.spoiled is not None, standing.made) == (spoiled, made)

    def teardown(self):
        with self.store.reading() as base:
            assert list(unsound(base)) == []
        whole = replay(events_after(self.store, 0, most=10_000))
        assert whole == standing_of(self.store, PANTRY)
        self.store.close()
        self.place.cleanup()


TestBench = Bench.TestCase
TestBench.settings = settings(
    settings(),
    stateful_step_count=50,
    max_examples=max(5, settings().max_examples // 5),
    suppress_health_check=[HealthCheck.too_slow],
)
