"""Copies put back again and again while the bench works on: each must say all that the store said."""

import shutil
import threading
from dataclasses import dataclass
from pathlib import Path

from pinchrod.papers import Paper, cutting_csv
from pinchrod.setting_out import set_out
from pinchrod.store import (
    Folder,
    JobFiles,
    back_up,
    files_at,
    issue,
    issued,
    open_store,
    paper_as_issued,
    record,
    restore,
    save,
    verify,
)
from tests.store.crash.kills import FRAMES, requests_for
from tests.store.shop import MORNING, PANTRY, a_job, a_roll, a_saving, an_issue, later


@dataclass
class Drills:
    """What came of many drills."""

    drills: int = 0
    said_meanwhile: int = 0
    unlike: int = 0  # put back, and not what was copied
    paper_unlike: int = 0  # drawn again from what was put back, and not as it went out

    @property
    def clean(self) -> bool:
        return bool(self.drills) and not (self.unlike or self.paper_unlike)

    def __str__(self) -> str:
        return (
            f"{self.drills} drills while {self.said_meanwhile} things were said: {self.unlike} put back otherwise,"
            f" {self.paper_unlike} papers drawn otherwise"
        )


def many_drills(folder: Path, number: int) -> Drills:
    """So many copies put back into an empty folder and looked over, while somebody goes on saying things."""
    place, found, enough = Folder(folder / "shop"), Drills(), threading.Event()
    roll = a_roll(FRAMES)
    with open_store(place, now=MORNING) as store:
        save(store, a_saving(a_job(quantity=FRAMES)), now=MORNING)
        paper = Paper(name="cutting-list.csv", content=drawn(files_at(store, PANTRY)))
        issue(store, an_issue(papers=(paper,)))

        def bench() -> None:
            for request in requests_for(roll):
                if enough.wait(0.02):
                    return
                record(store, request, roll)
                found.said_meanwhile += 1

        working = threading.Thread(target=bench)
        working.start()
        try:
            for drill in range(number):
                copy = back_up(store, place.backups, now=later(drill / 60))
                _drill(copy.path, copy.digest, Folder(folder / "drill"), paper, found)
        finally:
            enough.set()
            working.join()
    return found


def _drill(copy: Path, digest: str, place: Folder, paper: Paper, found: Drills) -> None:
    restore(copy, place)
    with open_store(place) as store:
        found.unlike += verify(store).digest != digest
        kept = [paper_as_issued(store, each.seq) for each in issued(store, PANTRY)]
        found.paper_unlike += kept != [paper] or drawn(files_at(store, PANTRY)) != paper.content
    found.drills += 1
    shutil.rmtree(place.path)


def drawn(files: JobFiles) -> bytes:
    """A paper of the job, drawn afresh."""
    job, shop = files.read()
    return cutting_csv(set_out(job, shop), shop)
