"""The templates: each gets one record and the page's own surroundings, and an unknown name is an error."""

from functools import cache
from hashlib import sha256
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from pinchrod.web.lengths import in_both

STATIC = Path(__file__).parent / "static"
TEMPLATES = Path(__file__).parent / "templates"


def unbroken(words: str) -> Markup:
    """Words of which no mark is parted at the end of a line: K1- and LS below it are read as two pieces."""
    kept = Markup('<span class="once">{}</span>')
    return Markup(" ").join(kept.format(word) if "-" in word else word for word in words.split(" "))


@cache
def environment() -> Environment:
    """Where templates are read from, once."""
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.globals["static"] = address_of
    made.filters["unbroken"] = unbroken
    made.filters["in_both"] = in_both
    return made


@cache
def address_of(name: str) -> str:
    """Where a file that pages are made with is found: it has another address when it changes."""
    mark = sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?{mark}"


def drawing(svg: str) -> Markup:
    """A drawing of our own writer, which escapes whatever words stand in it, as a page may hold it."""
    return Markup(svg)  # noqa: S704 -- of write_svg alone
