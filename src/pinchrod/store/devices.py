"""The devices that were let in: office computers and tablets. A device is sent away by a row of its own."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha3_256

from pinchrod.ground import NotYetRight, Problem, quoted
from pinchrod.store.base import Base, Row, insert, words_of
from pinchrod.store.copying import rows_of
from pinchrod.store.deeds import By
from pinchrod.store.opening import Store
from pinchrod.store.requests import answer_before, keep_answer, odd_name, odd_words, payload_of
from pinchrod.store.tables import DEVICES, REVOCATIONS
from pinchrod.store.telling import amiss
from pinchrod.store.times import spelled, this_moment

ROLES = ("office", "tablet")
EVERY_DEVICE = (
    "SELECT d.number, d.name, d.role, d.at, coalesce(r.at, ''), coalesce(r.device, '') FROM devices d"
    " LEFT JOIN revocations r ON r.number = d.number"
)
KEEP = "restore the newest copy that is sound; keep this one aside, to see what happened"


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A computer or a tablet that was let in: `revoked` is when it was sent away, or empty."""

    id: str  # D1, D2: never used again
    name: str
    role: str  # "office" or "tablet"
    at: str
    revoked: str = ""
    sent_by: str = ""  # the device at which it was sent away: its own name, if it left by itself


def enrol(  # noqa: PLR0913 -- each is said by its name
    store: Store, *, name: str, role: str, token_mark: str, by: By, key: str, now: datetime | None = None
) -> Device:
    """The device that is let in from now on. The same request again gets the same device.

    `token_mark` is the sha256, in hex, of the secret that the device shows: the secret itself is kept
    nowhere, so that nobody who reads a copy of the store can show it.
    """
    _check(name, role, by, key)
    payload = payload_of("enrol", by, name, role, token_mark)
    with store.writing() as base:
        answer = answer_before(base, key, payload)
        found = _found(base)
        if answer is not None:
            return replace(found[int(answer) - 1], revoked="", sent_by="")
        _check_free(base, found, name, token_mark)
        number, at = len(found) + 1, spelled(now or this_moment())
        keep_answer(base, key, payload, str(number))
        insert(
            base,
            DEVICES.name,
            number=number,
            key=key,
            name=name,
            role=role,
            token_mark=token_mark,
            person=by.person,
            device=by.device,
            at=at,
        )
        return Device(id=id_of(number), name=name, role=role, at=at)


def revoke(store: Store, device: str, by: By, key: str, *, now: datetime | None = None) -> Device:
    """The device of that id, sent away: from now on it is not let in, and its name is free again."""
    _told_if_any(odd_words(key, by))
    payload = payload_of("revoke", by, device)
    with store.writing() as base:
        answer = answer_before(base, key, payload)
        found = next((each for each in _found(base) if each.id == device), None)
        if found is None:
            what = f"no device has the number {quoted(device)}"
            raise NotYetRight([amiss("device", "device-missing", what, "choose one from the list")])
        if answer is None:
            found = _sent_away(base, found, by, key, payload, spelled(now or this_moment()))
        return found


def let_back_in(store: Store, device: str, by: By, key: str, *, now: datetime | None = None) -> Device:
    """A device that was sent away, let in again with the secret that it still has: under a new number.

    What was sent away stays so for good. The new row bears the mark of the old one's mark, so that each
    mark is of one row, and whoever shows the secret is found by it.
    """
    with store.reading() as base:
        mark = _mark_of(base, device)
        found = next((each for each in _found(base) if each.id == device), None)
    if found is None or not found.revoked:
        what = f"no device with the number {quoted(device)} was sent away"
        raise NotYetRight([amiss("device", "device-missing", what, "choose one from the list")])
    again = mark_again(mark)
    return enrol(store, name=found.name, role=found.role, token_mark=again, by=by, key=key, now=now)


def mark_again(token_mark: str) -> str:
    """The mark of a device that is let in once more: the SHA3-256, in hex, of the mark it had.

    Were it a sha256 as well, the mark that stands in the store would be a secret that lets one in.
    """
    return sha3_256(token_mark.encode()).hexdigest()


def device_of(store: Store, token_mark: str) -> Device | None:
    """The device that shows the secret of that mark; None if none does, or it was sent away."""
    with store.reading() as base:
        while True:
            rows = base.rows(f"{EVERY_DEVICE} WHERE d.token_mark = :mark", mark=token_mark)
            found = next(map(_device, rows), None)
            if found is None or not found.revoked:
                return found
            token_mark = mark_again(token_mark)  # sent away; it may have been let in again since


def devices(store: Store) -> tuple[Device, ...]:
    """Every device there ever was, also those sent away, the oldest first."""
    with store.reading() as base:
        return _found(base)


def id_of(number: int) -> str:
    """What the device of that number is called for good."""
    return f"D{number}"


def changed_devices(base: Base) -> Iterator[Problem]:
    """Devices that are not as they were let in, or sent away: the request that did it says otherwise."""
    payloads = {str(key): str(payload) for key, payload in base.rows("SELECT key, payload FROM requests")}
    for number, row in enumerate(rows_of(base, DEVICES), start=1):
        key, name, role, mark, person, device = words_of(row, *range(1, 7))
        said = payload_of("enrol", By(person=person, device=device), name, role, mark)
        if row[0] != number or payloads.get(key) != said:
            yield amiss(id_of(number), "device-changed", "it is not as it was let in, or is gone", KEEP)
    for row in rows_of(base, REVOCATIONS):
        key, person, device = words_of(row, 1, 2, 3)
        which = id_of(int(row[0]))
        if payloads.get(key) != payload_of("revoke", By(person=person, device=device), which):
            yield amiss(which, "device-changed", "it is not as it was sent away", KEEP)


def _mark_of(base: Base, device: str) -> str:
    rows = base.rows("SELECT number, token_mark FROM devices")
    return next((str(mark) for number, mark in rows if id_of(int(number)) == device), "")


def _found(base: Base) -> tuple[Device, ...]:
    return tuple(map(_device, base.rows(f"{EVERY_DEVICE} ORDER BY d.number")))


def _device(row: Row) -> Device:
    name, role, at, revoked, sent_by = words_of(row, 1, 2, 3, 4, 5)
    return Device(id=id_of(int(row[0])), name=name, role=role, at=at, revoked=revoked, sent_by=sent_by)


def _sent_away(base: Base, device: Device, by: By, key: str, payload: str, at: str) -> Device:
    if device.revoked:
        what = f"{device.name} was sent away at {device.revoked[:16].replace('T', ' ')} UTC"
        raise NotYetRight([amiss("device", "device-revoked", what, "nothing is left to do here")])
    number = int(device.id[1:])
    keep_answer(base, key, payload, str(number))
    insert(base, REVOCATIONS.name, number=number, key=key, person=by.person, device=by.device, at=at)
    return replace(device, revoked=at, sent_by=by.device)


def _check(name: str, role: str, by: By, key: str) -> None:
    problems = [*odd_words(key, by), *odd_name("name", name)]
    if role not in ROLES:
        what, mend = f"{quoted(role)} is no kind of device", f"choose {' or '.join(ROLES)}"
        problems.append(amiss("role", "device-role", what, mend))
    _told_if_any(problems)


def _check_free(base: Base, found: tuple[Device, ...], name: str, token_mark: str) -> None:
    """NotYetRight if another device bears the name now, or anyone ever showed the same secret."""
    taken = next((each for each in found if not each.revoked and each.name.upper() == name.upper()), None)
    if taken is not None:
        what = f"a device is called {quoted(taken.name)} already"
        mend = "choose another name, or send that one away first"
        raise NotYetRight([amiss("name", "device-exists", what, mend)])
    if base.rows("SELECT 1 FROM devices WHERE token_mark = :mark", mark=token_mark):
        what = "another device showed the same secret"
        raise NotYetRight([amiss("device", "device-secret", what, "let it in once more, with a new one")])


def _told_if_any(problems: Iterator[Problem] | list[Problem]) -> None:
    found = list(problems)
    if found:
        raise NotYetRight(found)
