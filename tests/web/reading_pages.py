"""A page read as a browser reads it: its forms, and every element and attribute that none of our templates has."""

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

from pinchrod.web.templates import TEMPLATES

ELSEWHERE = re.compile(r"^\s*(?!/(?!/)|#|\?|$)", re.IGNORECASE)  # no address of our own
ADDRESSES = frozenset(
    {
        "href",
        "src",
        "action",
        "formaction",
        "data",
        "xlink:href",
        "poster",
        "srcdoc",
        "hx-get",
        "hx-post",
        "srcset",
    }
)


@dataclass
class Form:
    """A form of a page, and what it would send."""

    action: str
    method: str
    fields: list[tuple[str, str, str]] = field(default_factory=list)  # name, kind, value


class Reader(HTMLParser):
    """Gathers forms, and what is not ours."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.forms: list[Form] = []
        self.strange: list[str] = []
        self.words: list[str] = []
        self._text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = {name: value or "" for name, value in attrs}
        if tag not in OUR_TAGS:
            self.strange.append(f"<{tag}>")
        for name, value in said.items():
            if (
                name not in OUR_ATTRIBUTES
                or name.startswith("on")
                or name == "style"
                or (name in ADDRESSES and ELSEWHERE.match(value))
            ):
                self.strange.append(f"<{tag} {name}={value!r}>")
        if tag == "script" and not said.get("src", "").startswith("/static/"):
            self.strange.append("<script> of its own")
        if tag == "form":
            self.forms.append(Form(said.get("action", ""), said.get("method", "get").lower()))
        elif tag in ("input", "textarea", "select", "button") and self.forms and said.get("name"):
            self.forms[-1].fields.append((said["name"], said.get("type", tag), said.get("value", "")))

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def read(page: str) -> Reader:
    """A page, read."""
    reader = Reader()
    reader.feed(page)
    reader.close()
    return reader


class Template(HTMLParser):
    """Gathers every element and attribute of a template."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.names: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.names |= {name for name, _ in attrs}


def _ours() -> tuple[frozenset[str], frozenset[str]]:
    """Every element and attribute that stands in a template of ours, or that our drawings are made of."""
    found = Template()
    for path in sorted(TEMPLATES.rglob("*.html")):
        told = path.read_text(encoding="utf-8")
        found.feed(re.sub(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", " ", told, flags=re.DOTALL))
        found.close()
        found.reset()
    return frozenset(found.tags | DRAWN), frozenset(found.names | OF_DRAWINGS)


DRAWN = frozenset(
    [
        "svg",
        "g",
        "path",
        "text",
        "rect",
        "circle",
        "line",
        "title",
        "desc",
        "tspan",
        "polygon",
        "polyline",
        "defs",
    ]
)
OF_DRAWINGS = frozenset(
    [
        "d",
        "fill",
        "stroke",
        "stroke-width",
        "stroke-dasharray",
        "stroke-linecap",
        "stroke-linejoin",
        "transform",
        "x",
        "y",
        "x1",
        "x2",
        "y1",
        "y2",
        "cx",
        "cy",
        "r",
        "points",
        "viewbox",
        "width",
        "height",
        "font-size",
        "font-weight",
        "font-family",
        "text-anchor",
        "xmlns",
        "version",
        "preserveaspectratio",
        "opacity",
        "dominant-baseline",
        "textlength",
        "lengthadjust",
        "role",
        "xml:space",
        "fill-rule",
        "class",
        "id",
    ]
)
OUR_TAGS, OUR_ATTRIBUTES = _ours()
