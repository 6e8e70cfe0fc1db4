"""How pieces stand, held against a plain reckoning that keeps a table instead of going through the ledger."""

import tempfile
from pathlib import Path

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
GLUED = STEPS.index(Deed.GLUED)


class Wood:
    """One mark as a careful person would keep it in a notebook: what is done, and what each line replaced."""

    def __init__(self):
        self.done, self.spoiled, self.made, self.pages = [], False, 1, []

    def may(self, deed):
        """Whether it can be, by the words alone."""
        if deed is Deed.MADE_AGAIN:
            return self.spoiled
        if self.spoiled:
            return False
        if deed is Deed.SPOILED:
            return True
        shaped_late = STEPS.index(deed) < GLUED and Deed.GLUED in self.done
        return deed not in self.done and Deed.DELIVERED not in self.done and not shaped_late

    def say(self, deed, seq):
        """Write it down, remembering how the page looked before."""
        self.pages.append((seq, list(self.done), self.spoiled, self.made))
        if deed is Deed.SPOILED:
            self.spoiled = True
        elif deed is Deed.MADE_AGAIN:
            self.done, self.spoiled, self.made = [], False, self.made + 1
        else:
            self.done.append(deed)

    def take_back(self):
        """Turn back to how the page looked."""
        _, self.done, self.spoiled, self.made = self.pages.pop()


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

    def send(self, deed, piece, undoes=0):
        """What came of it: the number of its event, or None if it was refused."""
        self.count += 1
        diagonals = (Mm(937), Mm(938)) if deed is Deed.CHECKED else ()
        said = Said(deed=deed, piece=piece, reason="split", diagonals=diagonals, undoes=undoes)
        request = Request(key=f"tap-{self.count}", by=BENCH, said=(said,), despite=DOUBTS)
        try:
            seq = record(self.store, request, self.roll, now=MORNING).events[0].seq
        except NotYetRight:
            return None
        self.sent.append((request, seq))
        return seq

    @rule(deed=st.sampled_from([*STEPS, Deed.SPOILED, Deed.MADE_AGAIN]), piece=st.sampled_from(PIECES))
    def said(self, deed, piece):
        wood = self.notebook[piece]
        allowed = wood.may(deed)

        seq = self.send(deed, piece)

        assert (seq is not None) == allowed
        if seq is not None:
            wood.say(deed, seq)

    @rule(piece=st.sampled_from(PIECES), back=st.integers(0, 3))
    def taken_back(self, piece, back):
        wood = self.notebook[piece]
        pages = wood.pages[-1 - back :] if len(wood.pages) > back else []

        seq = self.send(Deed.UNDONE, piece, undoes=pages[0][0] if pages else 10_000)

        assert (seq is not None) == (bool(pages) and back == 0)
        if seq is not None:
            wood.take_back()

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
            if standing is None:
                assert not wood.pages
            else:
                assert [event.deed for event in standing.done] == wood.done
                assert (standing.spoiled is not None, standing.made) == (wood.spoiled, wood.made)

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
