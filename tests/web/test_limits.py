"""How much is taken at once: what is as large as may be goes in, what is one more is told of in a line."""

import asyncio

import pytest

from pinchrod.web import Floor, Role, Route, guard, visits
from pinchrod.web.answers import Answer, Sent
from pinchrod.web.guard import MOST_BODY
from pinchrod.web.roles import ANYBODY
from pinchrod.web.visit import Visit
from pinchrod.web.visits import MOST_FIELDS, MOST_FILES, MOST_PART
from tests.web.knocking import OUR_PAGE, _scope, app_on, digest_of, knock, let_in
from tests.web.serving import HOST, a_floor

JSON = [*OUR_PAGE[:3], ("Content-Type", "application/json")]
MANY = [*OUR_PAGE[:3], ("Content-Type", "multipart/form-data; boundary=cut")]


@pytest.fixture(scope="module")
def floor(tmp_path_factory):
    with a_floor(tmp_path_factory.mktemp("limits")) as made:
        yield made


def _counted(visit: Visit) -> Answer:
    told = f"{len(visit.form)} fields, {len(visit.files)} files, {len(visit.body)} bytes, {max((len(v) for _, v in visit.form), default=0)} longest"
    return Sent(content=told.encode(), media="text/plain")


@pytest.fixture
def app(floor: Floor):
    return app_on(floor, (Route(path="/count", does=_counted, may=ANYBODY, method="POST"),))


def in_pieces(size: int, of: int = 1_000_000) -> list[bytes]:
    return [b"x" * min(of, size - start) for start in range(0, size, of)]


def parts(*, fields: int = 0, files: int = 0, size: int = 1) -> bytes:
    said = "x" * size
    lines = [f'--cut\r\nContent-Disposition: form-data; name="f{n}"\r\n\r\n{said}\r\n' for n in range(fields)]
    lines += [
        f'--cut\r\nContent-Disposition: form-data; name="g"; filename="a{n}.csv"\r\n\r\n{said}\r\n'
        for n in range(files)
    ]
    return "".join([*lines, "--cut--\r\n"]).encode()


def test_a_body_as_large_as_may_be_is_taken_and_one_byte_more_is_not(app):
    most = knock(app, "POST", "/count", JSON, in_pieces(MOST_BODY))
    more = knock(app, "POST", "/count", JSON, in_pieces(MOST_BODY + 1))

    assert most.body.startswith(b"0 fields, 0 files, 11000000 bytes")
    assert more.status == 413
    assert b"larger than 10 MB" in more.body


def test_a_body_that_is_too_large_is_noted(app, caplog):
    knock(app, "POST", "/count", JSON, in_pieces(MOST_BODY + 1))

    assert [each.getMessage() for each in caplog.records] == [
        "refused with 413 at /count, asked from 127.0.0.1"
    ]


def test_a_body_that_lies_about_its_size_is_counted_all_the_same(app):
    answer = knock(app, "POST", "/count", [*JSON, ("Content-Length", "10")], in_pieces(MOST_BODY + 1))

    assert answer.status == 413


def test_a_body_that_comes_too_slowly_is_broken_off(app, monkeypatch):
    monkeypatch.setattr(guard, "SLOWEST", 0.5)

    slow = knock(app, "POST", "/count", JSON, [b"x"] * 40, pause=0.05)
    quick = knock(app, "POST", "/count", JSON, [b"x"] * 4, pause=0.001)

    assert slow.status == 408
    assert quick.status == 200


@pytest.mark.parametrize("headers", [JSON, MANY, OUR_PAGE])
def test_a_body_that_never_ends_is_broken_off(app, monkeypatch, headers):
    monkeypatch.setattr(guard, "SLOWEST", 0.1)

    answer = knock(app, "POST", "/count", headers, [b"x"] * 5_000, pause=0.005)

    assert answer.status in (400, 408)


def test_a_form_has_as_many_fields_as_may_be_and_one_more_is_told_of(app):
    most = knock(app, "POST", "/count", OUR_PAGE, ["&".join(f"f{n}=x" for n in range(MOST_FIELDS)).encode()])
    more = knock(
        app, "POST", "/count", OUR_PAGE, ["&".join(f"f{n}=x" for n in range(MOST_FIELDS + 1)).encode()]
    )

    assert most.body.startswith(b"2000 fields")
    assert more.status == 400
    assert "more fields or files" in more.body.decode()


def test_the_same_of_a_form_with_files(app):
    assert knock(app, "POST", "/count", MANY, [parts(fields=MOST_FIELDS)]).body.startswith(b"2000 fields")
    assert knock(app, "POST", "/count", MANY, [parts(fields=MOST_FIELDS + 1)]).status == 400
    assert knock(app, "POST", "/count", MANY, [parts(files=MOST_FILES)]).body.startswith(
        b"0 fields, 20 files"
    )
    assert knock(app, "POST", "/count", MANY, [parts(files=MOST_FILES + 1)]).status == 400


def test_one_field_is_as_long_as_a_spreadsheet_pasted_whole_and_no_longer(app):
    most = knock(app, "POST", "/count", MANY, [parts(fields=1, size=MOST_PART)])
    more = knock(app, "POST", "/count", MANY, [parts(fields=1, size=MOST_PART + 1)])

    assert most.body.endswith(b"2000000 longest")
    assert more.status == 400


BROKEN = {
    "no boundary": ("multipart/form-data", b"x=y"),
    "another boundary": ("multipart/form-data; boundary=other", parts(fields=1)),
    "cut short": ("multipart/form-data; boundary=cut", parts(fields=1)[:20]),
    "a head that never ends": ("multipart/form-data; boundary=cut", b"--cut\r\n" + b"X: y" * 40_000),
    "nothing": ("multipart/form-data; boundary=cut", b""),
    "no letters": ("application/x-www-form-urlencoded", b"job=%ff%fe%00&x=%"),
    "no letters either": ("application/x-www-form-urlencoded", bytes(range(256))),
    "an alphabet nobody knows": ("multipart/form-data; boundary=cut; charset=klingon", parts(fields=1)),
    "the same with a form": ("application/x-www-form-urlencoded; charset=klingon", b"a=b"),
    "a very long boundary": (f"multipart/form-data; boundary={'x' * 5_000}", parts(fields=1)),
}


@pytest.mark.parametrize(("kind", "body"), BROKEN.values(), ids=BROKEN)
def test_a_form_that_is_none_is_no_fault_of_ours(floor, app, kind, body):
    before = digest_of(floor)

    answer = knock(app, "POST", "/count", [*OUR_PAGE[:3], ("Content-Type", kind)], [body])

    assert answer.status in (200, 400)
    assert digest_of(floor) == before


def test_a_name_said_at_a_device_is_no_longer_than_a_name(floor):
    [(_, secret)] = let_in(floor, Role.TABLET)
    cookie = ("Cookie", f"{secret}; pinchrod-person={'x' * 2_000}%0A%1b")

    answer = knock(app_on(floor), "GET", "/help", [("Host", HOST), cookie])

    assert answer.body.count(b"x" * 80) == 2
    assert b"x" * 81 not in answer.body


def test_the_limits_are_those_that_are_written_down():
    assert (guard.MOST_BODY, guard.SLOWEST) == (11_000_000, 30.0)
    assert (visits.MOST_FIELDS, visits.MOST_FILES, visits.MOST_PART) == (2_000, 20, 2_000_000)


@pytest.mark.parametrize(
    ("kind", "half"), [(JSON, b'{"a": '), (OUR_PAGE, b"name=La"), (MANY, b"--cut\r\nCon")]
)
def test_whoever_goes_away_in_the_middle_of_a_body_is_no_fault_of_ours(app, caplog, kind, half):
    begun = [half, None]  # the line is broken off behind it

    answered = asyncio.run(_broken_off(app, _scope("POST", "/count", kind), begun))

    assert answered == []
    assert caplog.records == []


async def _broken_off(app, scope, pieces):
    come = []

    async def receive():
        piece = pieces.pop(0)
        if piece is None:
            return {"type": "http.disconnect"}
        return {"type": "http.request", "body": piece, "more_body": True}

    async def send(message):
        come.append(message)

    await app(scope, receive, send)
    return come
