"""Where a store may stand, what is made sure of when it is opened, and who may write in it."""

import os
import sqlite3
import subprocess
import sys
import threading
from pathlib import Path, PurePosixPath, PureWindowsPath

import psycopg
import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Folder,
    Server,
    last_seq,
    open_store,
    place_of,
    record,
    roll_at,
    save,
    verify,
)
from pinchrod.store.drives import network_kind, synchronised
from pinchrod.store.soundness import unsound
from pinchrod.store.sqlite import ROLL_BACK, WRITE_AHEAD, Sqlite, connect, settings_for, settle
from tests.store.conftest import emptied
from tests.store.shop import MORNING, PANTRY, a_request, a_saving

MOUNTS = """\
/dev/sda1 / ext4 rw 0 0
proc /proc proc rw 0 0
nas:/shop /mnt/nas nfs4 rw 0 0
//box/shop /mnt/box\\040two cifs rw 0 0
/dev/sdb1 /mnt/nas/local ext4 rw 0 0
sshfs#host: /mnt/far fuse.sshfs rw 0 0
/dev/sdc1 /mnt/stick fuseblk rw 0 0
"""


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def refusal(place, **said):
    with pytest.raises(NotYetRight) as trouble:
        open_store(place, **said)
    return codes(trouble)


@pytest.mark.parametrize(
    ("version", "settings"),
    [
        ((3, 37, 0), ROLL_BACK),
        ((3, 40, 1), ROLL_BACK),
        ((3, 44, 5), ROLL_BACK),
        ((3, 44, 6), WRITE_AHEAD),
        ((3, 45, 0), ROLL_BACK),
        ((3, 50, 6), ROLL_BACK),
        ((3, 50, 7), WRITE_AHEAD),
        ((3, 51, 2), ROLL_BACK),
        ((3, 51, 3), WRITE_AHEAD),
        ((3, 52, 0), ROLL_BACK),
        ((3, 53, 0), WRITE_AHEAD),
    ],
)
def test_the_log_is_used_only_where_its_fault_is_mended(version, settings):
    assert settings_for(version) == settings


@pytest.mark.parametrize("settings", [ROLL_BACK, WRITE_AHEAD])
def test_every_safe_setting_stands_after_opening(tmp_path, settings):
    base = connect(tmp_path / "x.db")

    settle(base, settings)

    asked = (
        "journal_mode",
        "synchronous",
        "foreign_keys",
        "trusted_schema",
        "busy_timeout",
        "cell_size_check",
    )
    found = [base.rows(f"PRAGMA {name}")[0][0] for name in asked]
    assert found == [settings.journal, settings.synchronous, 1, 0, 10_000, 1]
    assert base.rows("PRAGMA mmap_size") in ([], [(0,)])
    base.close()


def test_readers_have_safe_settings_too_and_write_nothing(folder):
    with open_store(folder, now=MORNING) as store, store.reading() as base:
        assert base.rows("PRAGMA foreign_keys") == [(1,)]
        assert base.rows("PRAGMA synchronous")[0][0] in (2, 3)
        with pytest.raises(OSError, match="EROFS"):
            base.do("UPDATE head SET seq = 9")


def test_a_setting_that_does_not_take_stops_the_opening():
    in_memory = Sqlite(sqlite3.connect(":memory:", isolation_level=None), "memory")  # where no log can be

    with pytest.raises(RuntimeError, match="journal_mode"):
        settle(in_memory, WRITE_AHEAD)

    in_memory.close()


def test_two_programs_never_write_one_store(place):
    with open_store(place, now=MORNING):
        assert refusal(place) == ["store-in-use"]

    open_store(place, now=MORNING).close()


def test_another_program_is_named_by_its_process(folder):
    holding = "import sys; from pathlib import Path; from pinchrod.store import *; s = open_store(Folder(Path(sys.argv[1]))); print('open', flush=True); input()"
    with subprocess.Popen(
        [sys.executable, "-c", holding, str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": "src"},
    ) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "open\n"
        with pytest.raises(NotYetRight, match=f"process {other.pid}"):
            open_store(folder)
        other.kill()
        other.wait()

    open_store(folder).close()  # its lock went with it


def test_a_store_is_read_beside_whoever_writes(place):
    with open_store(place, now=MORNING) as writer:
        save(writer, a_saving(), now=MORNING)
        with open_store(place, writing=False) as reader:
            record(writer, a_request(), roll_at(writer, PANTRY))
            assert last_seq(reader) == 2
            with pytest.raises(RuntimeError, match="to be read"), reader.writing():
                pass


def test_a_long_reading_sees_one_moment(place):
    with open_store(place, now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        with store.reading() as base:
            before = base.rows("SELECT count(*) FROM events")
            # with the older journal a writer waits for readers: so the writing ends after the reading
            writer = threading.Thread(target=lambda: record(store, a_request(), roll_at(store, PANTRY)))
            writer.start()
            assert base.rows("SELECT count(*) FROM events") == before
        writer.join()
        assert last_seq(store) == 2


def test_a_store_is_looked_over_while_the_bench_works_on(store, monkeypatch):
    roll, looked = roll_at(store, PANTRY), unsound

    def slowly(base):
        assert base.rows("SELECT seq FROM head") == [(1,)]
        record(store, a_request(), roll)  # whoever looks holds nobody up
        yield from looked(base)

    monkeypatch.setattr("pinchrod.store.verifying.unsound", slowly)

    assert verify(store).seq == 1
    assert last_seq(store) == 2


def test_what_goes_wrong_in_the_middle_leaves_nothing_behind(store):
    def half():
        with store.writing() as base:
            base.do("INSERT INTO requests VALUES ('half', 'p', 'a')")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        half()

    with store.reading() as base:
        assert base.rows("SELECT 1 FROM requests WHERE key = 'half'") == []


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/srv/shop", ""),
        ("/mnt/nas/shop", "nfs4"),
        ("/mnt/nas", "nfs4"),
        ("/mnt/nasty", ""),
        ("/mnt/nas/local/shop", ""),
        ("/mnt/box two/shop", "cifs"),
        ("/mnt/far/shop", "fuse.sshfs"),
        ("/mnt/stick/shop", ""),
        ("//box/shop", "a share of another computer"),
        ("\\\\box\\shop", "a share of another computer"),
    ],
)
def test_network_drives_are_known_by_what_the_system_says_of_them(path, kind):
    assert network_kind(path, MOUNTS, 0) == kind


def test_a_mapped_drive_is_known_by_what_windows_says_of_it():
    assert network_kind("Z:\\shop", "", 4) == "a mapped drive"


@pytest.mark.parametrize(
    "name",
    ["OneDrive", "OneDrive - Workshop", "Dropbox", "Google Drive", "iCloud Drive", "Nextcloud", "Syncthing"],
)
def test_a_folder_that_other_computers_get_copies_of_is_doubted(name, tmp_path):
    with open_store(Folder(tmp_path / name / "shop"), now=MORNING) as store:
        assert [doubt.code for doubt in store.doubts] == ["store-synchronised"]


def test_a_folder_of_an_ordinary_name_is_not_doubted(tmp_path):
    assert synchronised(PurePosixPath("/srv/workshop/boxes")) == ""
    assert synchronised(PureWindowsPath("C:/joinery/asynchronous")) == ""
    with open_store(Folder(tmp_path / "shop"), now=MORNING) as store:
        assert store.doubts == ()


def test_a_network_drive_is_refused_at_opening(tmp_path, monkeypatch):
    mounts = tmp_path / "mounts"
    mounts.write_text(f"nas:/shop {tmp_path} nfs rw 0 0\n", encoding="utf-8")
    monkeypatch.setattr("pinchrod.store.drives.MOUNTS", mounts)

    assert refusal(Folder(tmp_path / "shop")) == ["store-on-network"]
    assert not (tmp_path / "shop").exists()


def test_links_second_names_and_other_things_are_refused(tmp_path):
    true = Folder(tmp_path / "true")
    open_store(true, now=MORNING).close()
    linked, second, odd = (Folder(tmp_path / name) for name in ("linked", "second", "odd"))
    for folder in (linked, second, odd):
        folder.path.mkdir()
    linked.file.symlink_to(true.file)
    odd.file.mkdir()

    assert refusal(linked) == ["store-linked"]
    assert refusal(odd) == ["store-not-a-file"]
    second.file.hardlink_to(true.file)
    assert refusal(second) == ["store-linked"]
    assert refusal(true) == ["store-linked"]


def test_a_file_where_the_folder_should_be_is_told(tmp_path):
    (tmp_path / "shop").write_text("", encoding="utf-8")

    assert refusal(Folder(tmp_path / "shop")) == ["store-not-a-folder"]


@pytest.mark.skipif(
    os.name == "nt" or not hasattr(os, "geteuid") or os.geteuid() == 0,
    reason="whoever may do all is refused nothing",
)
def test_a_folder_that_may_not_be_written_is_told(tmp_path):
    tmp_path.chmod(0o500)
    try:
        assert refusal(Folder(tmp_path)) == ["store-read-only"]
    finally:
        tmp_path.chmod(0o700)


def test_a_store_that_is_not_there_is_told_to_whoever_would_read_it(place):
    assert refusal(place, writing=False) == ["store-missing"]


def test_another_program_s_database_is_left_as_it_is(folder):
    folder.path.mkdir()
    with sqlite3.connect(folder.file) as raw:
        raw.execute("CREATE TABLE songs (name TEXT)")
    raw.close()
    before = folder.file.read_bytes()

    assert refusal(folder) == ["store-not-ours"]
    assert folder.file.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"not a database, only words" * 40, b"SQLite format 3\x00" + b"\xff" * 4000]
)
def test_a_damaged_file_is_told_and_left_as_it_is(folder, content):
    folder.path.mkdir()
    folder.file.write_bytes(content)

    assert refusal(folder) == ["store-damaged"]
    assert folder.file.read_bytes() == content


def test_a_password_is_never_told():
    place = place_of("postgresql://app:se/cret@box:5432/shop?password=again&sslmode=require")

    assert isinstance(place, Server)
    assert "cret" not in str(place)
    assert "again" not in str(place)


@pytest.mark.parametrize(
    "said", ["postgresql://app@box/shop", "postgres://app@box/shop", "POSTGRESQL://app@box/shop"]
)
def test_a_server_is_known_by_its_address(said):
    assert isinstance(place_of(said), Server)


def test_anything_else_is_a_folder():
    assert place_of("shop/postgresql") == Folder(Path("shop/postgresql"))


def test_a_server_that_does_not_answer_is_told():
    assert refusal(Server("postgresql://app@127.0.0.1:1/none")) == ["server-away"]


@pytest.mark.parametrize("said", ["postgresql://app@[broken", "postgresql://a?odd=1"])
def test_an_address_that_is_none_is_told(said):
    assert refusal(Server(said)) == ["server-address"]


def test_a_server_started_anew_is_found_again_by_whoever_writes(server):
    with open_store(emptied(server), now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        roll = roll_at(store, PANTRY)
        with psycopg.connect(server, autocommit=True) as other:
            other.execute(
                "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'pinchrod'"
            )

        with pytest.raises(NotYetRight) as trouble:
            record(store, a_request(), roll)
        assert codes(trouble) == ["server-away"]
        assert record(store, a_request(), roll).events[0].seq == 2
        assert refusal(Server(server)) == ["store-in-use"]


def test_a_server_that_would_lose_what_it_acknowledged_is_refused(server):
    place = emptied(server)
    unsafe = Server(f"{place.url}?options=-csynchronous_commit%3Doff")

    assert refusal(unsafe) == ["server-unsafe"]


def test_without_the_package_for_servers_it_is_told_how_to_get_it(monkeypatch):
    monkeypatch.setitem(sys.modules, "pinchrod.store.postgresql", None)

    assert refusal(Server("postgresql://app@box/shop")) == ["postgresql-missing"]


def test_a_store_is_closed_only_when_whoever_writes_has_done(tmp_path):
    store, began, closing = open_store(Folder(tmp_path)), threading.Event(), threading.Event()
    kept = []

    def write():
        with store.writing() as base:
            began.set()
            closing.wait(10)
            kept.extend(base.rows("SELECT 1"))

    writer, closer = threading.Thread(target=write), threading.Thread(target=store.close)
    writer.start()
    began.wait(10)
    closer.start()
    closer.join(0.2)
    assert closer.is_alive()
    closing.set()
    writer.join(10)
    closer.join(10)

    assert kept == [(1,)]
    with pytest.raises(RuntimeError, match="closed"), store.writing():
        pass
    with pytest.raises(RuntimeError, match="closed"), store.reading():
        pass
    store.close()  # twice does no harm
