"""A store to try things on: each test runs on SQLite and, where there is a server, on PostgreSQL too."""

import os
from pathlib import Path

import psycopg
import pytest

from pinchrod.store import Folder, Place, Server, open_store, save
from tests.store.postgresql import NAMED, a_server, programs
from tests.store.shop import MORNING, a_saving

NONE_THERE = "no PostgreSQL on this computer: install the distribution's package postgresql"


@pytest.fixture(scope="session")
def server():
    """The address of a PostgreSQL server."""
    if os.environ.get(NAMED):
        yield os.environ[NAMED]
    elif programs() is None:
        pytest.skip(NONE_THERE)
    else:
        with a_server() as running:
            yield running.url


@pytest.fixture(params=["SQLite", "PostgreSQL"])
def place(request, tmp_path: Path) -> Place:
    """A place where no store stands yet."""
    if request.param == "SQLite":
        return Folder(tmp_path / "shop")
    return emptied(request.getfixturevalue("server"))


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """A folder where no store stands yet."""
    return Folder(tmp_path / "shop")


@pytest.fixture
def store(place):
    """A store with the pantry wall in it, open for writing."""
    with open_store(place, now=MORNING) as opened:
        save(opened, a_saving(), now=MORNING)
        yield opened


def emptied(url: str) -> Server:
    """The server without any store of ours in it."""
    with psycopg.connect(url, autocommit=True) as raw:
        names = raw.execute("SELECT nspname FROM pg_namespace WHERE nspname LIKE 'pinchrod%'").fetchall()
        for [name] in names:
            raw.execute(f'DROP SCHEMA "{name}" CASCADE'.encode())
    return Server(url)


def pytest_terminal_summary(terminalreporter) -> None:
    """Say aloud that half of the store's tests did not run."""
    if programs() is None and not os.environ.get(NAMED):
        terminalreporter.write_line(f"STORE NOT TRIED ON POSTGRESQL: {NONE_THERE}", yellow=True, bold=True)
