"""The words of a layout phrase, each with its place."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum, auto
from itertools import takewhile

from pinchrod.ground import Mm, NotALength, length_at
from pinchrod.job.phrases.faults import Fault, foreign_letter, strange_letter
from pinchrod.job.records import Kind, Side, Way

KINDS = {
    "door": Kind.DOOR,
    "doors": Kind.DOOR,
    "pair": Kind.PAIR,
    "pairs": Kind.PAIR,
    "drawer": Kind.DRAWER,
    "drawers": Kind.DRAWER,
    "panel": Kind.PANEL,
    "panels": Kind.PANEL,
    "open": Kind.OPEN,
    "opens": Kind.OPEN,
    "opening": Kind.OPEN,
    "openings": Kind.OPEN,
}
WAYS = {"over": Way.STACK, "beside": Way.ROW}
SIDES = {"left": Side.LEFT, "right": Side.RIGHT}
NUMBERS = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
    *("nineteen", "twenty"),
)
COUNTS = {word: count for count, word in enumerate(NUMBERS, start=1)}

# Lengths have words of their own (mm, in, feet), which may stand apart from the number.
KNOWN = "|".join((*KINDS, *WAYS, *SIDES))
NUMBERS_END = re.compile(rf"[()\[\]]|(?<![A-Za-z])(?:{KNOWN})(?![A-Za-z])", re.IGNORECASE)
"""What no number reaches beyond: a bracket, or a word of ours."""


class Sort(Enum):
    """What sort of word it is."""

    LETTERS = auto()
    LENGTH = auto()
    OPENING = auto()
    CLOSING = auto()
    OPENING_SQUARE = auto()
    CLOSING_SQUARE = auto()
    STRANGE = auto()
    END = auto()


BRACKETS = {
    "(": Sort.OPENING,
    ")": Sort.CLOSING,
    "[": Sort.OPENING_SQUARE,
    "]": Sort.CLOSING_SQUARE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """One word, number or bracket of a phrase, from the letter `at` up to `end`.

    A strange sign or letter, and a number that cannot be read as a length, carry the fault they will
    be if nothing better can be said of them.
    """

    sort: Sort
    text: str
    at: int
    end: int
    length: Mm = Mm(0)
    fault: Fault | None = None

    @property
    def name(self) -> str:
        """The word without regard to case; nothing for numbers and brackets."""
        return self.text.lower() if self.sort is Sort.LETTERS else ""

    @property
    def kind(self) -> Kind | None:
        """What it puts in an opening, if it does."""
        return KINDS.get(self.name)

    @property
    def way(self) -> Way | None:
        """How it puts its neighbours, if it does."""
        return WAYS.get(self.name)

    @property
    def side(self) -> Side | None:
        """Where it hangs a door, if it does."""
        return SIDES.get(self.name)


Words = tuple[Word, ...]


def words_of(text: str) -> Words:
    """All words of a phrase in their order, and at last one that marks its end."""
    words = [word_at(text, 0)]
    while words[-1].sort is not Sort.END:
        words.append(word_at(text, words[-1].end))
    return tuple(words)


def word_at(text: str, start: int) -> Word:
    """The first word at or after a place."""
    at = start + _run(text, start, _is_white)
    letters = _run(text, at, str.isalpha)
    if at == len(text):
        return Word(sort=Sort.END, text="", at=at, end=at)
    if letters:
        return _letters(text[at : at + letters], at)
    if text[at] in BRACKETS:
        return Word(sort=BRACKETS[text[at]], text=text[at], at=at, end=at + 1)
    return _number_at(text, at)


def _letters(said: str, at: int) -> Word:
    """A word, with the fault it will be if it has a letter that only looks like one of ours."""
    foreign = [place for place, letter in enumerate(said) if not letter.isascii()]
    fault = foreign_letter(at + foreign[0], said, said[foreign[0]]) if foreign else None
    return Word(sort=Sort.LETTERS, text=said, at=at, end=at + len(said), fault=fault)


def _number_at(text: str, at: int) -> Word:
    """The length that stands there, or the fault of what does."""
    said = NUMBERS_END.split(text[at:], maxsplit=1)[0].rstrip()
    try:
        found = length_at(said, 0)
    except NotALength as trouble:
        negative = trouble.code == "length-negative"
        mend = "write a length of more than 0" if negative else trouble.mend
        fault = Fault(at, trouble.code, trouble.what, mend)
        return Word(sort=Sort.LENGTH, text=_single_spaced(said), at=at, end=at + len(said), fault=fault)
    if found is None:
        letter = text[at]  # one by one: nothing says how many such signs belong together
        return Word(sort=Sort.STRANGE, text=letter, at=at, end=at + 1, fault=strange_letter(at, letter))
    length, end = found
    return Word(sort=Sort.LENGTH, text=_single_spaced(said[:end]), at=at, end=at + end, length=length)


def _single_spaced(said: str) -> str:
    """The words with one plain space between, fit to be said again."""
    return " ".join(said.split())


def _run(text: str, start: int, belongs: Callable[[str], bool]) -> int:
    """How many letters on from there belong together."""
    return sum(1 for _ in takewhile(belongs, text[start:]))


def _is_white(letter: str) -> bool:
    """Whether it is a space of any width, a tab or a new line; not one of the old control signs."""
    return letter in " \t\r\n" or (letter > "\x9f" and letter.isspace())
