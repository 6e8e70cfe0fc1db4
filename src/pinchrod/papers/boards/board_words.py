"""What a board's page says in words: the board, the why of its sizes, and what to take care of."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from pinchrod.ground import Mm, Span, show, show_fixed
from pinchrod.job import by_volume
from pinchrod.papers.boards.sawn import Sawn
from pinchrod.timber import Board, Fault, RippedBoard, Stick

CENT = Mm("0.01")
MOST_FAULTS = 12  # said in words on a board's page

# As taught, and as Great Britain's approved code for woodworking machines has it: from memory.
RIPPING = (
    "Rip with guard and riving knife set, a push stick for the last 300; stop if the cut closes on the blade."
)
CROSSCUTTING = (
    "Crosscut hollow side down, so that nothing rocks. Isolate to set a saw. Extraction, mask, ears covered."
)
WHO_DECIDES = "This page advises. The machine's manual, local law and trained practice decide."
CAUTIONS = (RIPPING, CROSSCUTTING, WHO_DECIDES)


def many(number: int, one: str) -> str:
    """The number and what it counts: `1 stick`, `3 sticks`."""
    return f"{number} {one if number == 1 else one + 's'}"


def size_words(board: Board, step: Mm) -> str:
    """Length, width and thickness of a board as sawn."""
    return " × ".join(show(size, step) for size in (board.length, board.width, board.thickness))


def facts_words(sawn: RippedBoard, all_of_it: Sawn, step: Mm) -> str:
    """What is to be known of the board at a glance: how bent it is, its yield, its price."""
    board = sawn.board
    finished = sum((all_of_it.wanted[mark].volume for it in sawn.sticks for mark in it.members), Mm(0))
    bent = f"bow {show(board.bow, step)} · spring {show(board.spring, step)}"
    cost = "" if by_volume(all_of_it.question.boards) else f" · costs {show_fixed(board.price, CENT)}"
    return f"{bent} · yield {show(100 * finished / board.volume)} %{cost}"


def longest_words(board: Board, all_of_it: Sawn, step: Mm) -> Iterator[str]:
    """For each thickness wanted, the longest stick that the bow lets clean up, with the sum that gives it."""
    most = all_of_it.question.practice.longest_stick
    for finished in sorted({wanted.thickness for wanted in all_of_it.question.wanted}, reverse=True):
        why = _longest(board, finished, all_of_it.question.practice.skim, step)
        longest = board.longest_clean(board.thickness - finished - all_of_it.question.practice.skim)
        shop = f"; the shop handles {show(most)}" if longest and longest > most else ""
        yield f"Longest clean stick, {show(finished)} finished: {why}{shop}."


def _longest(board: Board, finished: Mm, skim: Mm, step: Mm) -> str:
    """The rule with its numbers: length × √((thickness − skim − finished) / bow)."""
    spare = board.thickness - skim - finished
    left = f"{show(board.thickness)} − {show(skim)} − {show(finished)}"
    longest = board.longest_clean(spare)
    if longest is None:
        return f"none, since {left} is less than nothing"
    if board.bow <= 0:
        return f"the whole board, {_down(longest, step)}: it has no bow"
    if longest == board.length:
        bow = f"{left} = {show(spare)} holds its bow of {show(board.bow)}"
        return f"the whole board, {_down(longest, step)}: {bow}"
    return f"{show(board.length)} × √(({left}) / {show(board.bow)}) = {_down(longest, step)}"


def _down(size: Mm, step: Mm) -> str:
    """A length that must not be shown longer than it is."""
    return show(size // step * step, step)


def stick_words(stick: Stick, all_of_it: Sawn, step: Mm) -> str:
    """Why a stick is as long as it is."""
    question, wanted = all_of_it.question, all_of_it.wanted
    practice, kerf = question.practice, question.machines.crosscut_saw.kerf
    lengths = " + ".join(_times(show(wanted[mark].length, step) for mark in stick.members))
    number = len(stick.members) - 1
    cuts = f" + {number} × {show(kerf)} saw cuts" if number else ""
    needed = f"2 × {show(practice.stick_end)} ends + {lengths}{cuts}"
    made = sum((wanted[mark].length for mark in stick.members), 2 * practice.stick_end)
    made += (len(stick.members) - 1) * kerf
    if made < stick.length:
        least = f"made {show(stick.length, step)}: no stick is shorter"
        return f"{stick.name}: {needed} = {show(made, step)}, {least}."
    return f"{stick.name}: {needed} = {show(stick.length, step)}."


def _times(sizes: Iterable[str]) -> Iterator[str]:
    """The sizes as they follow each other, like ones at once: `2 × 426.7`, as it is chalked."""
    for size, alike in groupby(sizes):
        number = len(list(alike))
        yield f"{number} × {size}" if number > 1 else size


def faults_words(board: Board, step: Mm) -> str:
    """The faults as the rack's file says them: a small one is hard to see in the picture among the marks."""
    said = [fault_words(fault, step) for fault in board.faults[:MOST_FAULTS]]
    more = len(board.faults) - len(said)
    rest = f"; and {more} more, in the picture" if more else ""
    return f"Faults, along the board @ across it from the sprung edge: {'; '.join(said)}{rest}."


def fault_words(fault: Fault, step: Mm) -> str:
    """A fault as the list of the rack says it, with a dash between its ends."""
    across = f" @ {_stretch(fault.across, step)}" if fault.across else ""
    return f"{_stretch(fault.along, step)}{across}{' back' if fault.back_only else ''}"


def _stretch(span: Span, step: Mm) -> str:
    return f"{show(span.low, step)}–{show(span.high, step)}"


def width_words(sawn: RippedBoard, all_of_it: Sawn) -> str:
    """Why its strips are as wide as they are."""
    allowance = all_of_it.question.practice.width_allowance
    widths = sorted({rip.fence for rip in sawn.rips if rip.sticks}, reverse=True)
    sums = "; ".join(f"{show(width - allowance)} + {show(allowance)} = {show(width)}" for width in widths)
    return f"Strips, with what is planed off them: {sums}."
