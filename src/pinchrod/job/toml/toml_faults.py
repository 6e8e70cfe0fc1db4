"""What is wrong with a text that is no TOML, in a joiner's words."""

import re
from dataclasses import dataclass

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.source import Source

PLACE = re.compile(r"\(at line (\d+), column (\d+)\)$")
NAME = r"""^\s*[\w."'-]+\s*="""
WHOLE = r"^\s*(.*\S)"
MOST_LOOKED_AT = 300  # letters of the faulty line


@dataclass(frozen=True, slots=True)
class Rule:
    """A slip, known by the reader's complaint and the look of the line; {} is the part that shows it."""

    code: str
    complaint: str  # of the standard library; empty: any
    look: str  # empty: any, and the fault stands where the complaint says
    what: str
    mend: str


# The first rule that fits speaks.
RULES = (
    Rule("table-twice", "Cannot", r"^\s*(\[.*\])", "{} stands here a second time, or its name is taken",
         "bring the two together; frames each begin with [[frame]] in double brackets"),
    Rule("key-twice", "overwrite|Duplicate", r"^\s*([^=]*[^=\s])\s*=", "{} is said a second time here",
         "keep one of the two"),
    Rule("curly-quotes", "", NAME + r"\s*([“”„‟‘’\u201a«»].*)", "{} stands in typographic quotation marks",
         'use plain ones: "..."'),
    Rule("inch-unquoted", "", NAME + r"""\s*([0-9][0-9 ./\-]*["″”'′].*)""",
         "{} is a length with an inch or foot mark, outside quotes", "put it in quotes: {}"),
    Rule("unit-unquoted", "", NAME + r"\s*([0-9][0-9 .,/\-]*(?:mm|cm|m|inches|inch|in|ft)\b.*)",
         "{} is a length with its unit, outside quotes", "put it in quotes: {}"),
    Rule("decimal-comma", "", NAME + r"\s*([0-9]+,[0-9].*)", "{} is written with a comma",
         "write a decimal point, 600.5, or take out a comma that only parts thousands"),
    Rule("fraction-unquoted", "", NAME + r"\s*([0-9][0-9 ]*/.*)", "{} is a fraction, outside quotes",
         'put it in quotes with its unit: "23 5/8 in"'),
    Rule("leading-zero", "", NAME + r"\s*([+-]?0[0-9_]+.*)", "{} begins with a nought", "write it without"),
    Rule("no-value", "Invalid value", NAME + r"\s*(?:#.*)?$", "nothing stands after the equals sign",
         "write the value there, or take the line out"),
    Rule("quote-open", r"Unterminated|Expected \"|Illegal character '.n'", "",
         "a quotation mark is not closed", "close it before the line ends"),
    Rule("control-letter", "Illegal|invalid char", "", "a control character stands here",
         "take it out: a tab or line break inside quotes is written \\t or \\n"),
    Rule("backslash", "Unescaped|hex|scalar", "", "the backslash before this begins nothing we know",
         "write words with a backslash in single quotes"),
    Rule("date-form", "Invalid date", NAME + r"\s*(\S+)", "there is no such day or time as {}",
         "write a date as 2026-05-31"),
    Rule("words-unquoted", "Invalid value", NAME + r"\s*([^\W\d].*)", "{} stands outside quotes",
         "put it in quotes, {}; yes and no are true and false, without"),
    Rule("number-form", "Invalid value|after a statement", NAME + r"\s*([0-9.+-][^\]}\"'=]*)$",
         "{} is not written as a number", 'write it as 600 or 600.5, or a length in quotes: "23 5/8 in"'),
    Rule("name-letters", "Invalid statement|after a key", r"^\s*([^\s=]*[^\x00-\x7f][^\s=]*)\s*=",
         "the name {} has letters that no name here has", "write names with a to z, figures and underscores"),
    Rule("colon", "after a key", r"^\s*([\w-]+\s*:)", "{} ends in a colon",
         "write an equals sign: width = 600"),
    Rule("key-gap", "after a key", r"^\s*([\w-]+(?:\s+[\w-]+)+)\s*=", "the name {} has a gap in it",
         "write names with underscores: left_stile"),
    Rule("bracket-open", "declaration|key part", r"^\s*(\[.*\S|\[)", "the header {} is not closed",
         "write [members], or [[frame]] for each frame"),
    Rule("list-open", "Unclosed array", "", "a list is not closed, or a comma is missing in it",
         "close it with ]"),
    Rule("braces-open", "inline|key part", r"\{",
         "a table in braces is not closed, or a comma too many stands in it",
         "write it as { up_to = 1016, number = 2 }"),
    Rule("after-value", "after a statement", WHOLE, "more stands in {} than one name and its value",
         "put each name on a line of its own"),
)  # fmt: skip

OTHER = Rule("toml-form", "", WHOLE, "{} is no line of the form name = value",
             "write it so, or begin a remark with #")  # fmt: skip
BLANK = Rule("toml-form", "", "", "the file breaks off here", "write lines of the form name = value")


def fault_of(source: Source, text: str, complaint: str) -> Problem:
    """What is wrong, where, and how to mend it, from the reader's complaint about the text."""
    line, column = _place(text, complaint)
    words = text.split("\n")[line - 1][:MOST_LOOKED_AT]
    rule = next(rule for rule in (*RULES, OTHER, BLANK) if _fits(rule, complaint, words))
    shown = re.search(rule.look, words)
    if shown and shown.lastindex:
        column = shown.start(1) + 1
        words = shown[1]
    where = Where(file=source.name, line=line, column=column)
    return Problem(
        where=where,
        code=rule.code,
        what=rule.what.replace("{}", quoted(words)),
        mend=rule.mend.replace("{}", quoted(words)),
    )


def _fits(rule: Rule, complaint: str, words: str) -> bool:
    return bool(re.search(rule.complaint, complaint) and re.search(rule.look, words))


def _place(text: str, complaint: str) -> tuple[int, int]:
    """Line and column of which the reader complains, or the end of the text."""
    found = PLACE.search(complaint)
    if found:
        return int(found[1]), int(found[2])
    lines = text.rstrip("\n").split("\n")
    return len(lines), len(lines[-1]) + 1
