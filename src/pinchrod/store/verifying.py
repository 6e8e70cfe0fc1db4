"""A store looked over where it stands, while others may go on working with it."""

from dataclasses import dataclass

from pinchrod.ground import NotYetRight
from pinchrod.store.copying import digest_of
from pinchrod.store.event_rows import head_of
from pinchrod.store.opening import Store
from pinchrod.store.soundness import found_in, unsound
from pinchrod.store.telling import so_many


@dataclass(frozen=True, slots=True, kw_only=True)
class Verified:
    """What a sound store holds."""

    place: str
    jobs: int
    seq: int  # the number of the ledger's last event
    seal: str  # of that event: written down elsewhere, it shows later whether all before it is as it was
    digest: str  # sha256 of all rows

    def __str__(self) -> str:
        """As it is told."""
        return f"{self.place}: {so_many(self.jobs, self.seq)}"


def verify(store: Store) -> Verified:
    """What the store holds, once it was found sound; NotYetRight with everything wrong in it."""
    with store.reading() as base:
        problems = tuple(unsound(base))
        if problems:
            raise NotYetRight(found_in(store.place, problems))
        [[jobs]] = base.rows("SELECT count(DISTINCT job) FROM revisions")
        head = head_of(base)
        return Verified(
            place=store.place, jobs=int(jobs), seq=head.seq, seal=head.seal, digest=digest_of(base)
        )
