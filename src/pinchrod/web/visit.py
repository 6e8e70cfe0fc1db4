"""A request as pages see it: who asks, and what was said."""

from dataclasses import dataclass
from secrets import token_urlsafe

from pinchrod.job import Source
from pinchrod.store import By, Device
from pinchrod.web.floor import Floor
from pinchrod.web.roles import Role


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One request: the workshop's floor, the device that asks, the place asked for, and what was typed."""

    floor: Floor
    path: str
    places: tuple[tuple[str, str], ...] = ()  # what the address names: job, frame
    asked: tuple[tuple[str, str], ...] = ()  # what follows the question mark
    form: tuple[tuple[str, str], ...] = ()
    files: tuple[tuple[str, Source], ...] = ()
    cookies: tuple[tuple[str, str], ...] = ()
    body: bytes = b""  # of a request that is no form
    device: Device | None = None
    person: str = ""
    theme: str = ""
    news: int = 0  # how things stood before anything was looked up
    host: str = ""
    asks_from: str = ""  # the network's address of the device
    piecemeal: bool = False  # whether a part of a page is asked for, by the page's own script

    @property
    def role(self) -> Role:
        """What the device was let in as."""
        return role_of(self.device)

    @property
    def by(self) -> By:
        """Who does it, for the ledger: the person named at the device, or else the device itself."""
        name = self.device.name if self.device else "nobody"
        return By(person=self.person or name, device=name)

    def place(self, name: str) -> str:
        """What the address names: `visit.place("job")`."""
        return dict(self.places)[name]

    def said(self, name: str, usual: str = "") -> str:
        """What was typed in a field, as it was typed; else what was asked for by that name."""
        return dict(self.form).get(name, dict(self.asked).get(name, usual))

    def all_said(self, name: str) -> tuple[str, ...]:
        """Everything that was said under one name: boxes ticked, say."""
        return tuple(value for field, value in self.form if field == name)

    def file(self, name: str) -> Source | None:
        """The file that was chosen in a field, if one was."""
        return dict(self.files).get(name)

    @property
    def key(self) -> str:
        """The key of the form that was sent, which makes it count once; a new one if it bears none."""
        return self.said("key") or new_key()


def role_of(device: Device | None) -> Role:
    """What a device was let in as; a browser without one is nobody's."""
    return Role(device.role) if device else Role.NOBODY


def new_key() -> str:
    """A key for a form: nobody guesses it, and it never comes twice."""
    return token_urlsafe(16)


def own_page(said: str) -> str:
    """An address of our own, whatever a form says."""
    return said if said.startswith("/") and not said.startswith(("//", "/\\")) and said.isprintable() else "/"
