"""Names: which known one is meant, which are fit for a frame, and which look alike on paper."""

import re
import unicodedata
from collections.abc import Iterable
from difflib import get_close_matches

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.limits import MOST_NAME

CLOSE = 0.6  # house: lengths_are_exact how like two words are is no length
FIT = re.compile(r"[^\W_][\w .+\-]*")  # begins with a letter or a figure
DEVICES = {"CON", "PRN", "AUX", "NUL"} | {f"{port}{n}" for port in ("COM", "LPT") for n in range(1, 10)}
SCIENTIFIC = re.compile(r"[0-9]+(\.[0-9]+)?E\+[0-9]+", re.IGNORECASE)
DAY = re.compile(r"[0-9]{1,2}-[A-Z][a-z]{2}(-[0-9]{2,4})?|[A-Z][a-z]{2}-[0-9]{2}|[0-9]{4}-[0-9]{2}-[0-9]{2}")

# Cyrillic and Greek letters that print as Latin ones (our choice from Unicode's confusables, from memory).
FOREIGN = str.maketrans(
    "\u0410\u0412\u0415\u0405\u0406\u0408\u041a\u041c\u041d\u041e\u0420\u0421"
    "\u0422\u0425\u0423\u0430\u0435\u0456\u0458\u043e\u0440\u0455\u0441\u0443"
    "\u0445"
    "\u0391\u0392\u0395\u0396\u0397\u0399\u039a\u039c\u039d\u039f\u03a1\u03a4"
    "\u03a5\u03a7\u03bf",
    "ABESIJKMHOPCTXYaeijopscyxABEZHIKMNOPTYXo",
)
FIGURES = str.maketrans("OoIl|", "00111")  # letters that pass for figures


def plain(name: str) -> str:
    """A name without what does not matter in a column or key: case, gaps, underscores, hyphens."""
    return re.sub(r"[\s_\-]+", "", name).casefold()


def nearest(word: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The known names that the word is most like, the best first; none if it is like none."""
    by_plain = {plain(name): name for name in known}
    found = get_close_matches(plain(word[:MOST_NAME]), by_plain, n=most, cutoff=CLOSE)
    return tuple(by_plain[name] for name in found)


def meant(word: str, known: Iterable[str], otherwise: str) -> str:
    """What to write instead of an unknown name, or the other advice if none is like it."""
    found = nearest(word, known)
    return f"write {' or '.join(found)}" if found else otherwise


def check_id(name: str, where: Where) -> Iterable[Problem]:
    """What keeps a name from standing on papers and in file names."""
    if len(name) > MOST_NAME:
        yield _unfit(
            where, "id-long", f"the id is {len(name)} characters long", f"make it {MOST_NAME} or shorter"
        )
    elif SCIENTIFIC.fullmatch(name) or DAY.fullmatch(name):
        what = f"the id is {quoted(name)}, as a spreadsheet shows what it took for a number or a date"
        yield _unfit(where, "id-changed", what, "format the column as text and type the id again")
    elif not FIT.fullmatch(name) or name.endswith("."):
        yield _unfit(where, "id-letters", f"the id {quoted(name)} {_offence(name)}", _ID_MEND)
    elif name.partition(".")[0].strip().upper() in DEVICES:
        what = f"the id {quoted(name)} is a device's name on Windows, so no file can bear it"
        yield _unfit(where, "id-device", what, f"call it {quoted('K-' + name)}, say")


_ID_MEND = (
    "begin with a letter or figure; go on with letters, figures, spaces and . _ + -, a full stop not last"
)


def check_unlike(ids: Iterable[tuple[str, Where]]) -> Iterable[Problem]:
    """Frames whose ids are one, or would be taken for one another on paper."""
    exact: dict[str, Where] = {}
    folded: dict[str, tuple[str, Where]] = {}
    glanced: dict[str, tuple[str, Where]] = {}
    for name, where in ids:
        fold, glance = _fold(name), _fold(name.translate(FIGURES))
        if name in exact:
            yield _twice(name, where, exact[name])
        elif fold in folded:
            yield _alike(name, where, folded[fold], stops=True)
        elif glance in glanced:
            yield _alike(name, where, glanced[glance], stops=False)
        exact.setdefault(name, where)
        folded.setdefault(fold, (name, where))
        glanced.setdefault(glance, (name, where))


def _fold(name: str) -> str:
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", name).translate(FOREIGN).casefold())


def _offence(name: str) -> str:
    """What is wrong with the letters of an id."""
    wrong = next((letter for letter in name if not re.match(r"[\w .+\-]", letter)), "")
    if wrong:
        return f"holds {quoted(wrong)}"
    return "ends with a full stop" if name.endswith(".") else f"begins with {quoted(name[:1])}"


def _unfit(where: Where, code: str, what: str, mend: str) -> Problem:
    return Problem(where=where, code=code, what=what, mend=mend)


def _twice(name: str, where: Where, first: Where) -> Problem:
    what = f"the id {quoted(name)} stands already at {first}"
    return Problem(where=where, code="id-twice", what=what, mend="give each frame an id of its own")


def _alike(name: str, where: Where, first: tuple[str, Where], *, stops: bool) -> Problem:
    what = f"the id {quoted(name)} looks like {quoted(first[0])} at {first[1]}"
    mend = "give one of them an id that cannot be taken for the other"
    return Problem(where=where, code="id-alike", what=what, mend=mend, stops=stops)
