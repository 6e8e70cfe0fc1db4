"""The layout phrase: `drawer 140 over pair` read as openings, or refused with every reason.

    phrase  := item ( over item )*  |  item ( beside item )*
    over    := "over" [ "[" length "]" ]                      beside likewise
    item    := [ count ] kind { length | side }  |  "(" phrase ")" [ length ]
    kind    := "door" | "pair" | "drawer" | "panel" | "open"
    side    := "left" | "right"

Said from the top down and from left to right. The way from letters to openings:

    phrase_words     the phrase's words, each with its place
    phrase_grammar   what was said (phrase_said), and what is wrong with it (phrase_faults)
    phrase_doubts    what was said well, and means two things or too much
    phrase_meaning   the openings
    phrase_spelling  openings said again as a phrase
"""

from dataclasses import replace

from pinchrod.ground import Problem, Where
from pinchrod.job.phrases import faults as wrong
from pinchrod.job.phrases.doubts import doubts_about
from pinchrod.job.phrases.faults import LONGEST, Fault
from pinchrod.job.phrases.grammar import read_chain
from pinchrod.job.phrases.meaning import layout_of
from pinchrod.job.phrases.said import faults_of
from pinchrod.job.phrases.words import Sort, word_at, words_of
from pinchrod.job.records import Layout

__all__ = ["read_phrase"]


def read_phrase(text: str, where: Where) -> tuple[Layout | None, tuple[Problem, ...]]:
    """The layout a phrase says, and its doubts; or no layout, and everything wrong with it.

    `where` is the place of the phrase's first letter.
    """
    if len(text) > LONGEST:  # before anything is read, so that a huge text costs nothing
        return None, (_problem(wrong.long_phrase(len(text)), where),)
    if word_at(text, 0).sort is Sort.END:
        return None, (_problem(wrong.empty_phrase(), where),)
    said, _ = read_chain(words_of(text))
    found = sorted((*faults_of(said), *doubts_about(said, text)), key=lambda fault: fault.at)
    problems = tuple(_problem_at(fault, where) for fault in found)
    return None if any(fault.stops for fault in found) else layout_of(said), problems


def _problem_at(fault: Fault, where: Where) -> Problem:
    """The fault at its letter: by column if the phrase has one, else in words."""
    if where.column:
        return _problem(fault, replace(where, column=where.column + fault.at))
    return _problem(replace(fault, what=f"{fault.what}, at letter {fault.at + 1} of the phrase"), where)


def _problem(fault: Fault, where: Where) -> Problem:
    """The fault at this place."""
    return Problem(where=where, code=fault.code, what=fault.what, mend=fault.mend, stops=fault.stops)
