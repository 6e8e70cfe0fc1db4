"""A layout phrase taken apart by its grammar.

    phrase  := item ( over item )*  |  item ( beside item )*
    over    := "over" [ "[" length "]" ]                      beside likewise
    item    := [ count ] kind { length | side }  |  "(" phrase ")" [ length ]
    kind    := "door" | "pair" | "drawer" | "panel" | "open"
    side    := "left" | "right"

There is a function for each line. It takes the words and the number of the word to begin at, and gives
what it read with the number of the word behind. What is wrong stays with the part it was found in, and
reading goes on at the next over, beside or bracket, so that one pass finds every fault.
"""

from itertools import takewhile

from pinchrod.job.phrases import faults as wrong
from pinchrod.job.phrases.details import (
    above_nothing,
    count_of,
    counts_the_next,
    is_count,
    side_of,
    size_of,
    uncounted,
)
from pinchrod.job.phrases.faults import DEEPEST, Fault
from pinchrod.job.phrases.said import Blank, Bracket, Chain, Divider, Faults, Item, Said, faults_of
from pinchrod.job.phrases.words import Sort, Word, Words
from pinchrod.job.records import Kind, Way


def read_chain(words: Words, i: int = 0, depth: int = 0, before: Word | None = None) -> tuple[Chain, int]:
    """The phrase that begins there, inside so many brackets; `before` is the bracket that opened it."""
    first, i = read_item(words, i, depth, before)
    items, dividers = [first], []
    while (way := words[i].way) is not None:
        before = words[i]
        divider, i = read_divider(words, i, way)
        item, i = read_item(words, i, depth, before)
        dividers.append(divider)
        items.append(item)
    return Chain(items=tuple(items), dividers=tuple(dividers)), i


def read_divider(words: Words, i: int, way: Way) -> tuple[Divider, int]:
    """The over or beside that stands there, with its width."""
    width, found, behind = read_width(words, i + 1)
    return Divider(at=words[i].at, end=words[behind - 1].end, way=way, width=width, faults=found), behind


def read_width(words: Words, i: int) -> tuple[Word | None, Faults, int]:
    """A divider's width in square brackets, if they stand there."""
    if words[i].sort is not Sort.OPENING_SQUARE:
        return None, (), i
    inside = tuple(takewhile(_may_be_width, words[i + 1 :]))
    behind = i + 1 + len(inside)
    if words[behind].sort is not Sort.CLOSING_SQUARE:
        # Most likely only the ] was forgotten: read on behind the width.
        past = i + 2 if words[i + 1].sort is Sort.LENGTH else i + 1
        return None, (wrong.square_not_closed(words[i].at),), past
    if [word.sort for word in inside] != [Sort.LENGTH]:
        said = " ".join(word.text for word in inside)
        return None, (wrong.width_not_read(words[i].at, f"[{said}]"),), behind + 1
    width, found = above_nothing(inside[0], wrong.width_of_nothing(inside[0].at, inside[0].text))
    return width, found, behind + 1


def _may_be_width(word: Word) -> bool:
    """Whether a word can still belong to square brackets that were opened before it."""
    return word.sort in {Sort.LETTERS, Sort.LENGTH, Sort.STRANGE} and word.way is None


def read_item(words: Words, i: int, depth: int, before: Word | None) -> tuple[Said, int]:
    """The item that begins there, with all that stands before the next divider."""
    # The last word marks the end: nothing stands behind it.
    word, behind = words[i], words[min(i + 1, len(words) - 1)]
    if word.sort is Sort.OPENING:
        return read_bracket(words, i, depth)
    if word.kind:
        return read_kind(words, i, i, word.kind, depth)
    if is_count(word) and behind.kind:
        return read_kind(words, i, i + 1, behind.kind, depth)
    found = (uncounted(word, behind),) if is_count(word) else _no_item(words, i, before)
    return read_blank(words, i, depth, found)


def read_kind(words: Words, start: int, i: int, kind: Kind, depth: int) -> tuple[Item, int]:
    """So many of the kind that stands at i, its size and the side it hangs on."""
    kind_word, number = words[i], words[start].text if start < i else ""
    count, wrong_count = count_of(words[start], kind_word) if number else (1, ())
    details, i = read_details(words, i + 1)
    size, wrong_size = size_of(details)
    hung, wrong_side = side_of(kind, details)
    wrong_rest, i = read_rest(words, i, depth)
    found = wrong_count + wrong_size + wrong_side + wrong_rest
    return Item(
        at=words[start].at,
        end=words[i - 1].end,
        kind=kind,
        word=kind_word.name,
        number=number,
        count=count,
        size=size,
        hung=hung,
        faults=found,
    ), i


def read_details(words: Words, i: int) -> tuple[Words, int]:
    """The sizes and sides that stand behind an item."""
    behind = i
    while words[behind].side or (words[behind].sort is Sort.LENGTH and not counts_the_next(words, behind)):
        behind += 1
    return words[i:behind], behind


def read_bracket(words: Words, i: int, depth: int) -> tuple[Bracket | Blank, int]:
    """A phrase in brackets, with its size."""
    at = words[i].at
    inside, found, i = read_inside(words, i, depth)
    details, i = read_details(words, i)
    size, wrong_size = size_of(details)
    wrong_side = tuple(wrong.side_of_brackets(word.at, word.text) for word in details if word.side)
    wrong_rest, i = read_rest(words, i, depth)
    found, end = found + wrong_size + wrong_side + wrong_rest, words[i - 1].end
    if inside is None:
        return Blank(at=at, end=end, faults=found), i
    return Bracket(at=at, end=end, inside=inside, size=size, faults=found), i


def read_inside(words: Words, i: int, depth: int) -> tuple[Chain | None, Faults, int]:
    """What a bracket holds, unless it is too deep, and what is wrong with the bracket itself."""
    start = words[i]
    if depth == DEEPEST:  # keeps the reader's own calls, which nest as brackets do, within bounds
        return None, (wrong.too_deep(start.at),), _behind_bracket(words, i)
    inside, i = read_chain(words, i + 1, depth + 1, start)
    if words[i].sort is Sort.CLOSING:
        return inside, (), i + 1
    return inside, (wrong.bracket_not_closed(start.at),), i


def _behind_bracket(words: Words, i: int) -> int:
    """The number of the word behind a bracket and all it holds, or of the phrase's end."""
    depth = 1
    while depth and words[i + 1].sort is not Sort.END:
        i += 1
        depth += {Sort.OPENING: 1, Sort.CLOSING: -1}.get(words[i].sort, 0)
    return i + 1


def read_blank(words: Words, i: int, depth: int, found: Faults) -> tuple[Blank, int]:
    """What stands where an item should, passed over up to the next divider."""
    passed, behind = pass_over(words, i, depth)
    end = words[behind - 1].end if behind > i else words[i].at
    return Blank(at=words[i].at, end=end, faults=found + passed), behind


def read_rest(words: Words, i: int, depth: int) -> tuple[Faults, int]:
    """What stands between an item and the next divider, where nothing should.

    Its first word is told of; the others most likely belong to that.
    """
    # A closing bracket that was not opened is told of when it is passed over.
    told = words[i].sort is Sort.CLOSING or _is_seam(words[i], depth)
    found: Faults = () if told else (_misplaced(words, i),)
    passed, i = pass_over(words, i, depth)
    return found + passed, i


def pass_over(words: Words, i: int, depth: int) -> tuple[Faults, int]:
    """What is wrong with the brackets that stand before the next divider."""
    found: Faults = ()
    while not _is_seam(words[i], depth):
        passed, i = _pass_over_one(words, i, depth)
        found += passed
    return found, i


def _is_seam(word: Word, depth: int) -> bool:
    """Whether an item ends before this word."""
    # Outside all brackets a closing one ends nothing.
    closes = word.sort is Sort.CLOSING and depth > 0
    return closes or word.way is not None or word.sort is Sort.END


def _pass_over_one(words: Words, i: int, depth: int) -> tuple[Faults, int]:
    """What is wrong in a bracket, or with a closing one; nothing for any other word."""
    if words[i].sort is Sort.CLOSING:
        return (wrong.bracket_not_opened(words[i].at),), i + 1
    if words[i].sort is not Sort.OPENING:
        return (), i + 1
    inside, found, behind = read_inside(words, i, depth)
    return found + (faults_of(inside) if inside else ()), behind


def _no_item(words: Words, i: int, before: Word | None) -> Faults:
    """Why no item begins there, after that divider or opening bracket."""
    word = words[i]
    if word.way:
        return (_way_too_early(word, before),)
    if word.sort in {Sort.CLOSING, Sort.END}:
        return _ends_too_early(word, before)
    if word.side:
        return (wrong.side_alone(word.at, word.text),)
    return (_misplaced(words, i),)


def _way_too_early(word: Word, before: Word | None) -> Fault:
    """Over or beside where an item should begin."""
    if before and before.way:
        return wrong.two_dividers(word.at, before.text, word.text)
    return wrong.nothing_before(word.at, word.text)


def _ends_too_early(word: Word, before: Word | None) -> Faults:
    """The end or a closing bracket where an item should begin."""
    if before and before.way:
        return (wrong.nothing_after(before.at, before.text),)
    if before and word.sort is Sort.CLOSING:
        return (wrong.empty_brackets(before.at),)
    return ()  # a bracket that is not closed or not opened is told of by itself


def _misplaced(words: Words, i: int) -> Fault:
    """What is wrong with a word that stands where only a divider may, or that begins no item."""
    word = words[i]
    if word.fault:
        return word.fault
    if word.sort in {Sort.OPENING_SQUARE, Sort.CLOSING_SQUARE}:
        return wrong.square_out_of_place(word.at)
    if is_count(word):
        return wrong.no_divider(word.at, words[i - 1].text, f"{word.text} {words[i + 1].text}")
    if word.kind or word.sort is Sort.OPENING:
        return wrong.no_divider(word.at, words[i - 1].text, word.text)
    return wrong.unknown_word(word.at, word.text)
