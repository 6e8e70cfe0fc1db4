"""Nothing stands in the tree that belongs to one machine or one registry."""

import re
import subprocess
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]

# Put together here, so that this file does not find itself.
HOSTS = [
    ".".join(parts)
    for parts in [
        ("pypi", "org"),
        ("pythonhosted", "org"),
        ("npmjs", "org"),
        ("npmjs", "com"),
        ("crates", "io"),
        ("proxy", "golang", "org"),
        ("anaconda", "org"),
        ("rubygems", "org"),
    ]
]
FOLDERS = ["work", "root", "home", "opt", "tmp/brief", "Users"]
FORBIDDEN = {
    "a registry's host": re.compile("|".join(map(re.escape, HOSTS)), re.IGNORECASE),
    "an index setting": re.compile("(--|extra[-_])" + "index-url|--find" + "-links"),
    "a path of one machine": re.compile(rf"(?<![\w.~/-])/({'|'.join(FOLDERS)})/"),
    "a promise without its issue": re.compile(r"\b(TO" + r"DO|FIX" + r"ME|XX" + r"X)\b(?!\(#\d+\): \S)"),
}
BINARY = {".pdf", ".png", ".ttf", ".xlsx"}


def tracked():
    """Every file that is, or is about to be, in the repository."""
    names = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=TOP,
        capture_output=True,
        check=True,
    ).stdout.decode()
    return [TOP / name for name in names.split("\0") if name and (TOP / name).is_file()]


def found(text):
    """What is forbidden in a text."""
    return {what for what, pattern in FORBIDDEN.items() if pattern.search(text)}


@pytest.mark.parametrize(
    ("planted", "what"),
    [
        ("see https://" + HOSTS[0] + "/project", "a registry's host"),
        ("files." + HOSTS[1].upper(), "a registry's host"),
        ("extra-" + "index-url = file", "an index setting"),
        ("in /" + "work/main", "a path of one machine"),
        ("'/" + "root/.cache'", "a path of one machine"),
        ("# TO" + "DO mend this", "a promise without its issue"),
        ("# TO" + "DO(someone): mend this", "a promise without its issue"),
    ],
)
def test_a_planted_one_is_found(planted, what):
    assert found(planted) == {what}


@pytest.mark.parametrize(
    "fair", ["docs/work/", "../work/x", "# TO" + "DO(#12): notch before bead", "homework"]
)
def test_fair_words_are_let_pass(fair):
    assert found(fair) == set()


def test_nothing_forbidden_stands_in_the_tree():
    texts = {
        path: path.read_bytes().decode("utf-8", "replace") for path in tracked() if path.suffix not in BINARY
    }

    faults = {f"{path.relative_to(TOP)}: {what}" for path, text in texts.items() for what in found(text)}

    assert len(texts) > 20
    assert faults == set()
