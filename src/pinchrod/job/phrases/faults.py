"""What can be wrong or doubtful in a layout phrase, each fault in its own words.

Every function here gives one fault; `at` counts the phrase's letters from 0. The codes have their
page in docs/problems/phrase.md.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from pinchrod.ground import quoted
from pinchrod.job.records import Kind

LONGEST = 1000  # letters of a phrase
DEEPEST = 32  # brackets within brackets
MOST_OPENINGS = 200

VOCABULARY = ("door", "pair", "drawer", "panel", "open", "over", "beside", "left", "right")
NO_HINGES = {
    Kind.PAIR: "a pair hangs on both its sides",
    Kind.DRAWER: "a drawer slides and hangs on no side",
    Kind.PANEL: "a panel is fixed and hangs on no side",
    Kind.OPEN: "an open place has nothing to hang",
}


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong or doubtful at one letter of a phrase."""

    at: int
    code: str
    what: str
    mend: str
    stops: bool = True


def empty_phrase() -> Fault:
    """There is no phrase."""
    return Fault(
        0, "empty-phrase", "the layout says nothing", 'say what the frame holds, as "door" or "pair"'
    )


def long_phrase(letters: int) -> Fault:
    """The phrase is longer than is read."""
    what = f"the layout is {letters} letters long, and {LONGEST} at most are read"
    return Fault(0, "long-phrase", what, 'say alike parts once with their number, as "3 drawers"')


def strange_letter(at: int, letter: str) -> Fault:
    """A sign stands there that is no part of any phrase."""
    what = f"{quoted(letter)} has no meaning in a layout"
    mend = "take it out; a layout is made of words, numbers, and ( ) or [ ]"
    return Fault(at, "strange-letter", what, mend)


def foreign_letter(at: int, word: str, letter: str) -> Fault:
    """A word has a letter of another alphabet, which may look like one of ours."""
    what = f"{quoted(word)} has the letter {quoted(letter)} (U+{ord(letter):04X}), which is none of a to z"
    return Fault(at, "foreign-letter", what, "type the word afresh, even if it looks right")


def unknown_word(at: int, word: str) -> Fault:
    """A word stands there that no phrase knows; the nearest that it does know is offered."""
    near = get_close_matches(word.lower(), VOCABULARY)
    known = f"{', '.join(VOCABULARY[:-1])} and {VOCABULARY[-1]}"
    mend = f'did you mean "{near[0]}"? The words are {known}' if near else f"use the words {known}"
    return Fault(at, "unknown-word", f"{quoted(word)} is no word of a layout", mend)


def count_in_words(at: int, word: str, count: int, kind: str = "and what there is so many of") -> Fault:
    """A number is written as a word."""
    what = f"the number {quoted(word)} is written as a word"
    return Fault(at, "count-in-words", what, f"write {count} {kind}")


def count_not_whole(at: int, count: str, kind: str) -> Fault:
    """Parts are counted by something that is no whole number."""
    what = f"{quoted(count)} before {quoted(kind)} is no whole number"
    mend = f"write a whole number before {kind}, or a size after it"
    return Fault(at, "count-not-whole", what, mend)


def count_out_of_range(at: int, count: str, kind: str) -> Fault:
    """There are none, or too many, of a part."""
    what = f"{quoted(count)} before {quoted(kind)} is not from 1 to {MOST_OPENINGS}"
    mend = f"write how many there are, or leave out what is not there; a size stands after {kind}"
    return Fault(at, "count-out-of-range", what, mend)


def count_of_brackets(at: int, count: str) -> Fault:
    """A number stands before a bracket."""
    what = f"{quoted(count)} stands before a bracket, and only single things are counted"
    return Fault(
        at, "count-of-brackets", what, "write the bracket as often as it is wanted, over or beside itself"
    )


def number_alone(at: int, number: str) -> Fault:
    """A number begins a part, and nothing says of what."""
    what = f"{quoted(number)} stands where a part begins, without saying what is there"
    mend = f"write what stands there, or if it is the width of a rail or muntin, over[{number}]"
    return Fault(at, "number-alone", what, mend)


def side_alone(at: int, side: str) -> Fault:
    """A side begins a part, and nothing says of what."""
    what = f"{quoted(side)} stands before what it is about"
    return Fault(at, "side-alone", what, f"write it after its door: door {side.lower()}")


def nothing_before(at: int, way: str) -> Fault:
    """Over or beside begins the phrase or bracket."""
    what = f"nothing stands before {quoted(way)}"
    return Fault(
        at, "nothing-before", what, f"write what goes before {way.lower()}, or take {way.lower()} out"
    )


def nothing_after(at: int, way: str) -> Fault:
    """Over or beside ends the phrase or bracket."""
    what = f"nothing stands after {quoted(way)}"
    return Fault(
        at, "nothing-after", what, f"write what comes after {way.lower()}, or take {way.lower()} out"
    )


def two_dividers(at: int, first: str, second: str) -> Fault:
    """Over or beside follow each other at once."""
    what = f"nothing stands between {quoted(first)} and {quoted(second)}"
    return Fault(at, "two-dividers", what, "write what comes between them, or take one of them out")


def no_divider(at: int, first: str, second: str) -> Fault:
    """Two parts follow each other at once."""
    what = f"neither over nor beside stands between {quoted(first)} and {quoted(second)}"
    return Fault(at, "no-divider", what, "write over between them if one is above the other, or else beside")


def empty_brackets(at: int) -> Fault:
    """Brackets have nothing in them."""
    return Fault(
        at, "empty-brackets", "these brackets hold nothing", "write what belongs in them, or take them out"
    )


def bracket_not_closed(at: int) -> Fault:
    """A bracket is opened and not closed."""
    return Fault(at, "bracket-not-closed", "this bracket is not closed", "write ) where its part ends")


def bracket_not_opened(at: int) -> Fault:
    """A bracket is closed that was not opened."""
    return Fault(
        at, "bracket-not-opened", "this ) closes no bracket", "write ( where its part begins, or take it out"
    )


def too_deep(at: int) -> Fault:
    """Brackets stand in brackets, further than is read."""
    what = f"this is the bracket number {DEEPEST + 1} within one another, and {DEEPEST} at most are read"
    return Fault(at, "too-deep", what, "take out brackets that are not needed, or say it as two frames")


def side_of_brackets(at: int, side: str) -> Fault:
    """A side is said of a whole bracket."""
    what = f"{quoted(side)} stands after a bracket, and only a door hangs"
    return Fault(at, "side-of-brackets", what, f"write {side.lower()} after each door in the bracket")


def two_sizes(at: int, first: str, second: str) -> Fault:
    """A part has two sizes."""
    what = f"one part has two sizes, {quoted(first)} and {quoted(second)}"
    mend = "keep one: the sight height in a stack, the sight width side by side"
    return Fault(at, "two-sizes", what, mend)


def size_of_nothing(at: int, size: str) -> Fault:
    """A size is nothing."""
    what = f"the size {quoted(size)} leaves no opening"
    return Fault(at, "size-of-nothing", what, "write a size above 0, or none to share what is left")


def two_sides(at: int, first: str, second: str) -> Fault:
    """A door has two sides said, or one twice."""
    first, second = first.lower(), second.lower()
    what = f"one door is said to hang {first} {'twice' if first == second else f'and {second}'}"
    return Fault(at, "two-sides", what, "keep the side its hinges are on; two leaves that meet are a pair")


def side_without_door(at: int, side: str, kind: Kind) -> Fault:
    """A side is said of something without hinges, or with hinges on both sides."""
    what = f"{quoted(side)} is said of {quoted(kind)}, and {NO_HINGES[kind]}"
    return Fault(at, "side-without-door", what, f"take {side.lower()} out, or write door for {kind}")


def square_out_of_place(at: int) -> Fault:
    """A square bracket stands where no divider's width is said."""
    what = "a square bracket stands here, and only one width stands in them, straight after over or beside"
    return Fault(
        at,
        "square-out-of-place",
        what,
        "write over[80] for a rail or muntin of 80, and an opening's size bare",
    )


def square_not_closed(at: int) -> Fault:
    """A divider's width has no end."""
    return Fault(at, "square-not-closed", "this square bracket is not closed", "write ] after the width")


def width_not_read(at: int, said: str) -> Fault:
    """What stands in square brackets is no width."""
    what = f"{quoted(said)} is no width of a rail or muntin"
    return Fault(
        at, "width-not-read", what, "write one length in the square brackets, as over[80], or leave them out"
    )


def width_of_nothing(at: int, width: str) -> Fault:
    """A divider's width is nothing."""
    what = f"a rail or muntin {quoted(width)} wide is none"
    return Fault(
        at, "width-of-nothing", what, "write its face width, above 0, or leave the square brackets out"
    )


def mixed_ways(at: int, over_first: str, beside_first: str) -> Fault:
    """Over and beside stand at one level, so that two layouts can be meant."""
    what = "over and beside are mixed, so that two layouts can be meant"
    most = 2 * LONGEST
    mend = f"write {quoted(over_first, most)} or {quoted(beside_first, most)}"
    return Fault(at, "mixed-ways", what, mend)


def unclear_way(at: int, said: str, readings: Iterable[str]) -> Fault:
    """Panels or open places are counted, and nothing says which way they lie."""
    what = f"{quoted(said)} can lie one over another or side by side"
    return Fault(
        at, "unclear-way", what, f"write {' or '.join(quoted(reading, LONGEST) for reading in readings)}"
    )


def too_many_openings(at: int, openings: int) -> Fault:
    """The phrase says more openings than one frame may have."""
    what = f"the layout has {openings} openings, and a frame has {MOST_OPENINGS} at most"
    return Fault(at, "too-many-openings", what, "say it as two frames or more")


def plural_alone(at: int, word: str, kind: Kind) -> Fault:
    """A plural stands without a number; it is read as one, and several may be meant."""
    what = f"{quoted(word)} without a number is read as one"
    mend = f"write {kind} if one is meant, or how many there are: 2 {word}"
    return Fault(at, "plural-alone", what, mend, stops=False)


def count_or_width(at: int, number: str, kind: str, readings: tuple[str, str]) -> Fault:
    """A number before one of a kind is read as how many, and a width or size may be meant."""
    what = f"{number} before {quoted(kind)} is read as how many there are"
    size, count = (quoted(reading) for reading in readings)
    mend = f"write {size} if it is mm, or {count} if so many are meant"
    return Fault(at, "count-or-width", what, mend, stops=False)


def size_reading(at: int, count: int, size: str) -> Fault:
    """A size after drawers in a row is read as the column's width, and each one's height may be meant."""
    what = f"{size} is read as the width of these {count} drawers, being in a row, not as each one's height"
    column, each = (quoted(phrase) for phrase in (f"({count} drawers) {size}", f"({count} drawers {size})"))
    mend = f"write {column} to say so, or {each} if each drawer is {size} high"
    return Fault(at, "size-reading", what, mend, stops=False)
