"""Who may read a store in a folder: its user alone, whatever the computer usually gives to files."""

import os
import stat

import pytest

from pinchrod.store import Folder, back_up, keep_draft, open_store, restore, save
from pinchrod.store.forms import FORMS
from pinchrod.store.sqlite import WRITE_AHEAD, connect, settle
from tests.store.shop import MORNING, a_draft, a_saving, later

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows goes by the rights of the folder above")


@pytest.fixture(params=[0o022, 0o000], ids=["usual", "open to all"])
def free_and_easy(request):
    """A computer that lets others read, or even write, whatever is made on it."""
    before = os.umask(request.param)
    yield
    os.umask(before)


def rights(folder):
    """The rights of everything in a folder, and of itself, by name."""
    every = [folder, *folder.rglob("*")]
    return {path.name: oct(stat.S_IMODE(path.stat().st_mode)) for path in every}


def too_open(folder):
    return [name for name, mode in rights(folder).items() if mode not in ("0o700", "0o600")]


@pytest.mark.usefixtures("free_and_easy")
def test_a_store_its_copies_and_all_beside_it_are_its_users_alone(tmp_path):
    place = Folder(tmp_path / "shop")
    with open_store(place, now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        with store.writing() as base:
            base.do("DELETE FROM drafts")
            during = rights(place.path)
        copy = back_up(store, place.backups, now=later(15))
    restore(copy.path, place, over=True, now=later(20))

    assert place.beside("-journal").name in during or place.beside("-wal").name in during
    assert {*during.values()} == {"0o700", "0o600"}
    assert {"pinchrod.db", "writer.lock", "backups", copy.path.name} < {*rights(place.path)}
    assert too_open(place.path) == []


@pytest.mark.usefixtures("free_and_easy")
def test_so_is_the_log_of_a_newer_sqlite_and_the_copy_before_a_change_of_form(tmp_path):
    place = Folder(tmp_path / "shop")
    open_store(place, now=MORNING, forms=FORMS[:1]).close()

    with open_store(place, now=MORNING) as store:
        keep_draft(store, a_draft())
    base = connect(place.file)
    settle(base, WRITE_AHEAD)
    base.do("DELETE FROM drafts")
    beside = rights(place.path)
    base.close()

    assert {"pinchrod.db-wal", "pinchrod.db-shm"} <= {*beside}
    assert any(name.startswith("form-1-") for name in beside)
    assert [name for name, mode in beside.items() if mode not in ("0o700", "0o600")] == []


@pytest.mark.usefixtures("free_and_easy")
def test_a_folder_that_was_there_keeps_the_rights_that_its_owner_gave_it(tmp_path):
    place = Folder(tmp_path / "shop")
    place.path.mkdir()
    place.path.chmod(0o750)
    (place.path / "notes.txt").touch()
    (place.path / "notes.txt").chmod(0o644)

    open_store(place, now=MORNING).close()
    place.file.chmod(0o640)
    open_store(place, now=MORNING).close()

    found = rights(place.path)
    assert [found[name] for name in ("shop", "notes.txt", "pinchrod.db", "writer.lock")] == [
        "0o750",
        "0o644",
        "0o640",
        "0o600",
    ]


@pytest.mark.usefixtures("free_and_easy")
def test_folders_above_the_store_are_made_as_usual(tmp_path):
    open_store(Folder(tmp_path / "joinery" / "shop"), now=MORNING).close()

    assert rights(tmp_path / "joinery")["joinery"] in ("0o755", "0o777")
    assert rights(tmp_path / "joinery")["shop"] == "0o700"
