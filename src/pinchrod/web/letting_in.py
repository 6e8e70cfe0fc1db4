"""How a device is let in: by a code that the office gives out, good once and for a while."""

import secrets
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from threading import Lock

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.web.roles import Role

LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford's 32: no I, L, O, U
ALIKE = str.maketrans("OIL", "011")
LENGTH = 8
GOOD_FOR = 600.0  # seconds
MISSES = 5
WAIT = 60.0  # seconds after so many misses


@dataclass(frozen=True, slots=True, kw_only=True)
class Invitation:
    """A code that lets one device in, as what, and until when by the server's own clock."""

    code: str
    role: Role
    until: float

    @property
    def shown(self) -> str:
        """The code in groups of four, as it is read out."""
        return f"{self.code[:4]}-{self.code[4:]}"


class LettingIn:
    """The codes that are out. They are forgotten when the server stops: ask for another."""

    def __init__(self) -> None:
        """None is out."""
        self._turn = Lock()
        self._out: dict[str, Invitation] = {}
        self._missed: tuple[float, ...] = ()

    def invite(self, role: Role) -> Invitation:
        """A new code for one device."""
        code = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
        made = Invitation(code=code, role=role, until=time.monotonic() + GOOD_FOR)
        with self._turn:
            self._out = {**self._standing(), code: made}
        return made

    def look(self, said: str) -> Invitation:
        """The invitation of that code, which stays good; NotYetRight if there is none."""
        code, now = plain_code(said), time.monotonic()
        with self._turn:
            self._missed = tuple(at for at in self._missed if now - at < WAIT)
            if len(self._missed) >= MISSES:
                raise _refused("five wrong codes were tried within a minute", "wait a minute, then try again")
            found = self._standing().get(code)
            if found is None:
                self._missed = (*self._missed, now)
                raise _refused(
                    "no device is let in with that code: it was used, is too old, or was misread",
                    "ask the office for another: Tablets, Let a tablet in",
                )
            return found

    @contextmanager
    def using(self, said: str) -> Iterator[Invitation]:
        """The same, while nobody else can use the code; good again if what is done with it fails."""
        found = self.look(said)
        with self._turn:
            if self._out.pop(found.code, None) is None:
                raise _refused("the code was used a moment ago", "ask the office for another")
        try:
            yield found
        except BaseException:
            with self._turn:
                self._out = {**self._out, found.code: found}
            raise

    def _standing(self) -> dict[str, Invitation]:
        now = time.monotonic()
        return {code: each for code, each in self._out.items() if each.until > now}


def plain_code(said: str) -> str:
    """A code as it was typed: small letters, gaps and look-alike letters do not matter."""
    return "".join(said.upper().split()).replace("-", "").translate(ALIKE)


def new_secret() -> str:
    """What a device shows from then on: 256 bits."""
    return secrets.token_urlsafe(32)


def mark_of_secret(secret: str) -> str:
    """What the store keeps of it: from this nobody finds the secret."""
    return sha256(secret.encode()).hexdigest()


def _refused(what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(name="code"), code="code-refused", what=what, mend=mend)])
