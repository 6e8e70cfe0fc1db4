"""Each request counts once: its key and its answer are kept in the same transaction as its work."""

import json
from collections.abc import Iterator
from hashlib import sha256

from pinchrod.ground import NotYetRight, Problem, quoted
from pinchrod.store.base import Base, insert
from pinchrod.store.deeds import By
from pinchrod.store.telling import amiss

LONGEST_KEY = 80
LONGEST_NAME = 80
LONGEST_NOTE = 2_000


def payload_of(kind: str, by: By, *said: object) -> str:
    """The sha256, in hex, of all that a request says but for its key."""
    whole = [kind, by.person, by.device, *said]
    return sha256(json.dumps(whole, separators=(",", ":")).encode()).hexdigest()


def answer_before(base: Base, key: str, payload: str) -> str | None:
    """The answer that the same request got before; None if it is new.

    NotYetRight if the key was used for another request: two different things cannot be one.
    """
    found = base.rows("SELECT payload, answer FROM requests WHERE key = :key", key=key)
    if not found:
        return None
    if found[0][0] != payload:
        what = f"the key {quoted(key)} was used before, for something else"
        mend = "load the page again, look what stands, say it again"
        raise NotYetRight([amiss("key", "key-used", what, mend)])
    return str(found[0][1])


def keep_answer(base: Base, key: str, payload: str, answer: str) -> None:
    """Note the request and its answer; they stand or fall with what was done for it."""
    insert(base, "requests", key=key, payload=payload, answer=answer)


def odd_words(key: str, by: By, **notes: str) -> Iterator[Problem]:
    """What is wrong with the words of a request: too long, left out, or with something unseen in them."""
    yield from odd_name("key", key, LONGEST_KEY)
    yield from odd_name("person", by.person)
    yield from odd_name("device", by.device)
    for name, said in notes.items():
        yield from _seen_and_short(name, said, LONGEST_NOTE)


def odd_name(name: str, said: str, most: int = LONGEST_NAME) -> Iterator[Problem]:
    """The same of one word that has to be said: who, where, which."""
    if not said.strip():
        yield amiss(name, "words-missing", f"no {name} is given", f"say the {name}")
    yield from _seen_and_short(name, said, most)


def _seen_and_short(name: str, said: str, most: int) -> Iterator[Problem]:
    if len(said) > most:
        what = f"the {name} is {len(said)} letters long"
        yield amiss(name, "words-too-long", what, f"make it {most} or shorter")
    elif not said.replace("\n", " ").isprintable():
        what = f"the {name} has something in it that cannot be seen: {quoted(said)}"
        yield amiss(name, "words-unseen", what, "type it afresh instead of copying it")
