"""What an account on a PostgreSQL server needs, and no more: as docs/store.md says it, tried with such accounts."""

import re
from pathlib import Path

import psycopg
import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Deed,
    Server,
    back_up,
    draft_of,
    drop_draft,
    events_after,
    issue,
    keep_draft,
    open_store,
    record,
    restore,
    revoke,
    roll_at,
    save,
    verify,
)
from tests.store.shop import MORNING, OFFICE, PANTRY, a_draft, a_request, a_saving, an_issue, later, let_in

PAGE = (Path(__file__).parents[2] / "docs" / "store.md").read_text(encoding="utf-8")
OF_OWNER, OF_WORKER = re.findall(r"```sql\n(.*?)```", PAGE, re.DOTALL)
OWNER, WORKER = "pinchrod_owner", "pinchrod"


@pytest.fixture
def given(server):
    """A server set up as the page says, down to the first opening; the addresses of the two accounts."""
    with psycopg.connect(server, autocommit=True) as raw:
        raw.execute(b"DROP DATABASE IF EXISTS workshop")
        for role in (OWNER, WORKER):
            raw.execute(f"DROP ROLE IF EXISTS {role}".encode())
        before, _, after = OF_OWNER.partition("\\c workshop\n")
        for each in filter(str.strip, before.split(";")):
            raw.execute(each.encode())
    in_it = re.sub(r"/\w+$", "/workshop", server)
    _run(in_it, after)
    yield tuple(re.sub(r"//\w+@", f"//{role}@", in_it) for role in (OWNER, WORKER))
    with psycopg.connect(server, autocommit=True) as raw:
        raw.execute(b"DROP DATABASE workshop WITH (FORCE)")
        for role in (OWNER, WORKER):
            raw.execute(f"DROP ROLE {role}".encode())


def _run(url: str, words: str) -> None:
    with psycopg.connect(url, autocommit=True) as raw:
        for each in filter(str.strip, words.split(";")):
            raw.execute(each.encode())


def refusal(does, *words, **more):
    with pytest.raises(NotYetRight) as trouble:
        does(*words, **more)
    return [problem.code for problem in trouble.value.problems]


def worked(store) -> None:
    """Every kind of work there is."""
    save(store, a_saving(), now=MORNING)
    record(store, a_request(), roll_at(store, PANTRY), now=later(1))
    device = let_in(store, "Tablet 7")
    keep_draft(store, a_draft(device=device.id))
    drop_draft(store, PANTRY, "frame K1", device.id)
    keep_draft(store, a_draft(device=device.id))
    issue(store, an_issue(), now=later(2))
    revoke(store, device.id, OFFICE, "away-1", now=later(3))
    assert draft_of(store, PANTRY, "frame K1", device.id)


def test_the_owner_s_account_makes_the_store_works_in_it_and_may_do_nothing_beside_it(given, tmp_path):
    owner, _ = given

    with open_store(Server(owner), now=MORNING) as store:
        worked(store)
        verify(store)
        copy = back_up(store, tmp_path)

    assert copy.jobs == 1
    with psycopg.connect(owner, autocommit=True) as raw:
        for words in ("CREATE SCHEMA other", "CREATE TABLE public.other (x int)", "CREATE ROLE other"):
            with pytest.raises(psycopg.errors.InsufficientPrivilege):
                raw.execute(words.encode())


def test_the_account_of_every_day_works_all_day_and_cannot_loosen_a_guard(given, tmp_path):
    owner, worker = given
    open_store(Server(owner), now=MORNING).close()
    _run(owner, OF_WORKER)

    with open_store(Server(worker), now=MORNING) as store:
        worked(store)
        verify(store)
        assert [event.deed for event in events_after(store, 1)][:1] == [Deed.BROKEN_OUT]
        back_up(store, tmp_path)

    forbidden = (
        "ALTER TABLE pinchrod.events DISABLE TRIGGER ALL",
        "DROP TRIGGER events_no_change ON pinchrod.events",
        "UPDATE pinchrod.events SET reason = 'x'",
        "DELETE FROM pinchrod.events",
        "TRUNCATE pinchrod.events CASCADE",
        "DELETE FROM pinchrod.head",
        "DROP TABLE pinchrod.drafts",
        "CREATE TABLE pinchrod.other (x int)",
        "CREATE SCHEMA other",
        "SET session_replication_role = replica",
    )
    with psycopg.connect(worker, autocommit=True) as raw:
        for words in forbidden:
            with pytest.raises(psycopg.errors.InsufficientPrivilege):
                raw.execute(words.encode())


def test_an_account_that_may_make_nothing_is_told_so_and_makes_nothing(given):
    owner, worker = given

    assert refusal(open_store, Server(worker), now=MORNING) == ["server-rights"]

    with open_store(Server(owner), now=MORNING) as store:
        worked(store)


def test_putting_a_copy_back_over_a_store_needs_the_right_to_make_schemas_for_that_long(
    given, server, tmp_path
):
    owner, _ = given
    with open_store(Server(owner), now=MORNING) as store:
        worked(store)
        copy = back_up(store, tmp_path)

    assert refusal(restore, copy.path, Server(owner), over=True) == ["server-rights"]
    _run(server, f"GRANT CREATE ON DATABASE workshop TO {OWNER}")
    restore(copy.path, Server(owner), over=True)

    with open_store(Server(owner), writing=False) as store:
        assert verify(store).digest == copy.digest
