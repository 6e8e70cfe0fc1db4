"""Every word of our own on the pages: none that blames, begs or says nothing."""

import ast
import re
from collections.abc import Iterator

import pytest

from pinchrod.web.templates import STATIC, TEMPLATES

HERE = STATIC.parent
UNKIND = re.compile(
    r"\b((in)?valid|please|sorry|oops|illegal|forbidden|null|unspecified|error 0x\w*|is required)\b",
    re.IGNORECASE,
)
SCRIPTS = ("live.js", "scan.js", "board.js")


def in_templates() -> Iterator[tuple[str, str]]:
    for file in sorted(TEMPLATES.rglob("*.html")):
        words = re.sub(r"\{#.*?#\}|<[^>]*>", " ", file.read_text(encoding="utf-8"), flags=re.DOTALL)
        yield file.name, words


def in_modules() -> Iterator[tuple[str, str]]:
    """Every text between quotes that is a sentence or a part of one."""
    for file in sorted(HERE.glob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and " " in node.value:
                yield file.name, node.value


def in_scripts() -> Iterator[tuple[str, str]]:
    for name in SCRIPTS:
        for text in re.findall(
            r'"[^"\n]* [^"\n]*"|`[^`\n]* [^`\n]*`', (STATIC / name).read_text(encoding="utf-8")
        ):
            yield name, text


@pytest.mark.parametrize("words", [in_templates, in_modules, in_scripts])
def test_no_page_blames_or_begs(words):
    said = list(words())

    assert len(said) >= 30
    assert [(name, found[0]) for name, text in said if (found := UNKIND.search(text))] == []


def test_such_words_would_be_found():
    assert UNKIND.search("Please enter a valid width")
