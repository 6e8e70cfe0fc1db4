"""What a page or an action answers with; how it becomes bytes is said elsewhere, once."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A template and the one record that holds all it may use."""

    template: str
    page: object
    status: int = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the next page says on top: what was done, and how it is taken back."""

    words: str
    undo: str = ""  # where a form that takes it back is sent
    undo_words: str = ""  # what is on its button: "Undo: K1-LS notched"


@dataclass(frozen=True, slots=True, kw_only=True)
class Go:
    """Go on to another page: what follows every change, so that loading a page again repeats nothing."""

    to: str
    told: Told | None = None
    cookies: tuple[tuple[str, str], ...] = ()  # name and value; an empty value takes the cookie away


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """A file, or another answer that is no page; with a name it is saved rather than shown, unless said."""

    content: bytes
    media: str
    name: str = ""
    shown: bool = False  # under its name, in the browser; that is what it is saved as from there
    status: int = 200
    lasting: bool = False  # whether it may be kept by the browser: it never changes under its address


Answer = Page | Go | Sent
