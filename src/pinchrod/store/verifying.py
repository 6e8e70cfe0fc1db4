"""A store looked over where it stands, while others may go on working with it."""

from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from pinchrod.ground import NotYetRight, Problem
from pinchrod.store.base import Base, Kind, transaction
from pinchrod.store.copying import digest_of
from pinchrod.store.event_rows import head_of
from pinchrod.store.opening import Store
from pinchrod.store.soundness import found_in, unsound, unsound_outwardly
from pinchrod.store.sqlite import connect_to_look
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
    """What the store holds, once it was found sound; NotYetRight with everything wrong in it.

    A file is looked at itself only as long as SQLite takes; its rows are gone through in a copy that is
    thrown away, since with the older journal nothing can be written while somebody reads.
    """
    with store.reading() as base:
        if base.kind is not Kind.SQLITE:
            return _looked_over(store.place, base)
        _told_if_any(store.place, tuple(unsound_outwardly(base)))
    with TemporaryDirectory(prefix="pinchrod-") as folder:
        path = Path(folder) / "rows.db"
        store.copy_to(path)
        copy = connect_to_look(path)
        try:
            with transaction(copy, writing=False):
                return _looked_over(store.place, copy)
        finally:
            copy.close()


def _looked_over(place: str, base: Base) -> Verified:
    _told_if_any(place, tuple(unsound(base)))
    [[jobs]] = base.rows("SELECT count(DISTINCT job) FROM revisions")
    head = head_of(base)
    return Verified(place=place, jobs=int(jobs), seq=head.seq, seal=head.seal, digest=digest_of(base))


def _told_if_any(place: str, problems: tuple[Problem, ...]) -> None:
    if problems:
        raise NotYetRight(found_in(place, problems))
