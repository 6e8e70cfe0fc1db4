"""What the words round a kind say of it: how many, how large, hung where."""

from pinchrod.job.phrases import faults as wrong
from pinchrod.job.phrases.faults import MOST_OPENINGS, Fault
from pinchrod.job.phrases.said import Faults
from pinchrod.job.phrases.words import COUNTS, Sort, Word, Words
from pinchrod.job.records import Kind, Side


def is_count(word: Word) -> bool:
    """Whether a number is meant, in figures or in letters."""
    return word.sort is Sort.LENGTH or word.name in COUNTS


def counts_the_next(words: Words, i: int) -> bool:
    """Whether a number belongs to a plural that follows it: not `140 pair`, but `2 pairs`."""
    # In `door 3 drawers` an over is missing before the 3, in `drawer 140 pair` behind the 140.
    return words[i + 1].kind is not None and words[i + 1].name.endswith("s")


def count_of(number: Word, counted: Word) -> tuple[int, Faults]:
    """How many of the counted thing there are by the number before it."""
    if number.name in COUNTS:
        count = COUNTS[number.name]
        # Counted all the same, so that too many openings are told of as well.
        return count, (wrong.count_in_words(number.at, number.text, count, counted.text),)
    if number.fault or not (number.text.isascii() and number.text.isdigit()):
        return 1, (wrong.count_not_whole(number.at, number.text, counted.text),)
    if not 1 <= number.length <= MOST_OPENINGS:
        return 1, (wrong.count_out_of_range(number.at, number.text, counted.text),)
    return int(number.text), ()


def uncounted(number: Word, behind: Word) -> Fault:
    """What is wrong with a number that is followed by nothing that is counted."""
    if behind.sort is Sort.OPENING:
        return wrong.count_of_brackets(number.at, number.text)
    if number.name in COUNTS:
        return wrong.count_in_words(number.at, number.text, COUNTS[number.name])
    return number.fault or wrong.number_alone(number.at, number.text)


def size_of(details: Words) -> tuple[Word | None, Faults]:
    """The size among an item's sizes and sides."""
    sizes = [word for word in details if word.sort is Sort.LENGTH]
    if not sizes:
        return None, ()
    size, found = above_nothing(sizes[0], wrong.size_of_nothing(sizes[0].at, sizes[0].text))
    for second in sizes[1:2]:  # a third says nothing new
        found += (wrong.two_sizes(second.at, sizes[0].text, second.text),)
    return size, found


def above_nothing(number: Word, fault: Fault) -> tuple[Word | None, Faults]:
    """The number, if it is a length of more than 0; else what is wrong with it, or this fault."""
    if number.fault:
        return None, (number.fault,)
    return (number, ()) if number.length > 0 else (None, (fault,))


def side_of(kind: Kind, details: Words) -> tuple[Side | None, Faults]:
    """The side among an item's sizes and sides."""
    sides = [word for word in details if word.side]
    if not sides:
        return None, ()
    if kind is not Kind.DOOR:
        return None, (wrong.side_without_door(sides[0].at, sides[0].text, kind),)
    if len(sides) > 1:
        return None, (wrong.two_sides(sides[1].at, sides[0].text, sides[1].text),)
    return sides[0].side, ()
