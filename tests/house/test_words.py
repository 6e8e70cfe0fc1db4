"""Trade words are explained: those the shop must have, and those the program's own lists use."""

import ast
import re
from pathlib import Path

import pytest

from house_sources import read_sources

TOP = Path(__file__).resolve().parents[2]
WORDS = (TOP / "docs" / "words.md").read_text(encoding="utf-8")
MUST = """
    frame, stile, rail, top rail, bottom rail, mid rail, muntin, bead, quirk, arris, sight size, opening, notch,
    mouth, floor, flank, web, mitre, shoulder, tenon, mortice, dovetail key, slot, loose tenon, dowel,
    pocket screw, foot, front, leaf, pair, gap, meeting, hinge seat, datum end, rod, cutting list, stick, set-up,
    fixed panel, five-piece door, groove, piece mark, content mark, doubt, problem, scribe, horn
"""


def headings():
    return {
        word.strip() for line in re.findall(r"^### (.+)$", WORDS, re.MULTILINE) for word in line.split(",")
    }


def listed_words():
    """Every value of the program's lists of trade words (kinds, roles, joints, edges, ...)."""
    for source in read_sources(TOP, "src"):
        if source.room != "setting_out" and source.module != "pinchrod.job.records":
            continue
        for node in ast.walk(source.tree):
            if isinstance(node, ast.ClassDef) and "StrEnum" in map(ast.unparse, node.bases):
                values = (member.value for member in node.body if isinstance(member, ast.Assign))
                yield from (value.value for value in values if isinstance(value, ast.Constant))


@pytest.mark.parametrize("word", re.split(r",\s+", MUST.strip()))
def test_a_word_the_shop_must_have_is_explained(word):
    assert word in headings()


def test_every_word_of_the_programs_lists_stands_among_the_words():
    said = WORDS.lower()

    missing = {word for word in listed_words() if not re.search(rf"\b{re.escape(word)}", said)}

    assert "left stile" in listed_words()
    assert missing == set()


def test_every_word_has_a_sentence():
    undrawn = re.sub(r"^```.*?^```", "", WORDS, flags=re.MULTILINE | re.DOTALL)
    parts = re.split(r"^### ", undrawn, flags=re.MULTILINE)[1:]

    bare = [part.splitlines()[0] for part in parts if not re.search(r"\n\n[A-Z][^#]+\.\s", part)]

    assert len(parts) > 50
    assert bare == []
