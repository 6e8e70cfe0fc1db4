"""How a label is laid out: its code to the right, mark, role, picture and size beside it, the job below.

Letters are as high as fit, in the steps of ISO 3098 (from memory). Mark and size are 5 mm high or more, so
that they are read at arm's length, unless the mark is too long for its label.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate, groupby, product, takewhile

from pinchrod.papers.labels.label_code import Code, codes
from pinchrod.papers.marks.boxes import DESCENT
from pinchrod.papers.marks.type import shown, words_width

INSET = 2.0  # left free along a label's edge: a printer's feed strays (common practice, no source)
QUIET_EDGE = 1.0  # from a label's edge to a code's quiet zone: being white, it may lie nearer than print
READABLE = 5.0  # mm: what is read at arm's length
LEAST = 2.5  # mm: no letter is smaller
UNDER_CODE = LEAST + 0.3  # the content mark, and white above it
COLUMN_GAP = 1.0
UNDER_TAILS = 0.3  # least white between two rows where the upper one keeps room for tails
AIR = 1.2  # and where it has none
MOST_AIR = 4.0  # on a tall label
SHARES = 5  # of what is left over: two for white, three for the picture
TALLEST_PICTURE = 10.0
BREAKS = frozenset("-./ ")  # behind which a long mark is best broken


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a label says."""

    mark: str
    sizes: tuple[str, str, str]  # length, width, thickness
    role: str
    pattern: str
    job: str
    revision: str
    content_mark: str
    code: str


@dataclass(frozen=True, slots=True)
class Lettering:
    """Heights of capitals, and of the lowest picture that goes with them; 0: none."""

    mark: float
    size: float
    rest: float
    picture: float

    @property
    def least(self) -> float:
        """No label with these letters is less high."""
        return self.mark + self.size + 2 * self.rest + self.picture


LETTERINGS = (
    Lettering(14.0, 10.0, 5.0, 9.0),
    Lettering(10.0, 10.0, 5.0, 8.0),
    Lettering(10.0, 7.0, 5.0, 7.0),
    Lettering(7.0, 5.0, 3.5, 5.0),
    Lettering(READABLE, READABLE, 3.5, 5.0),
    Lettering(READABLE, READABLE, LEAST, 4.0),
    Lettering(READABLE, 3.5, LEAST, 4.0),
    Lettering(3.5, READABLE, LEAST, 4.0),
    Lettering(3.5, 3.5, LEAST, 4.0),
    Lettering(LEAST, READABLE, LEAST, 4.0),
    Lettering(LEAST, 3.5, LEAST, 3.5),
    Lettering(LEAST, LEAST, LEAST, 3.5),
    Lettering(LEAST, LEAST, LEAST, 0.0),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The rows of one label, and the white between them."""

    lettering: Lettering
    code: Code
    below: bool  # whether the size stands below the code, not beside it
    beside: float  # width of what stands beside the code
    mark: tuple[str, ...]  # its lines
    size: str
    role: float  # height of its letters
    foot: float  # the same
    pattern: str
    air: float = AIR

    @property
    def readable(self) -> bool:
        """Whether mark and size are as high, and the code as sound, as they should be."""
        return min(self.lettering.mark, self.lettering.size) >= READABLE and self.code.sound


def lay_out(said: Said, width: float, height: float, modules: tuple[float, ...]) -> Layout | None:
    """The layout with the soundest code, the largest letters and squares that there is room for; or None.

    Only a very long mark makes do with a weaker code, or none. The size stands beside the code, or, if it is
    too long for that, below it.
    """
    across, up = width - 2 * INSET, height - 2 * INSET
    letterings = [lettering for lettering in LETTERINGS if lettering.least <= up]
    for _, group in groupby(codes(said.code, modules), key=lambda code: (code.squares, code.correction)):
        small_enough = [code for code in group if code.side < min(width, height)]
        for lettering, code, below in product(letterings, small_enough, (False, True)):
            found = _tried(said, lettering, code, across, below=below)
            if found and (spare := up - _height(found, said)) >= 0:
                return replace(found, air=min(MOST_AIR, AIR + spare / SHARES))
    return None


def _tried(said: Said, lettering: Lettering, code: Code, width: float, *, below: bool) -> Layout | None:
    """A layout with letters of these heights, if its rows are not too wide."""
    column = max(code.side - (INSET - QUIET_EDGE), words_width(said.content_mark, LEAST))
    beside = width - column - COLUMN_GAP
    size = _size_text(said.sizes, lettering.size, width if below else beside)
    mark = tuple(broken(shown(said.mark), lettering.mark, beside)) if size else ()
    if not mark or (len(mark) > 1 and lettering.mark > READABLE):
        return None
    role, pattern = _role_row(said, lettering.rest, beside)
    return Layout(
        lettering=lettering,
        code=code,
        below=below,
        beside=beside,
        mark=mark,
        size=size,
        role=role,
        foot=_foot_row(said, lettering.rest, width),
        pattern=pattern,
    )


def _size_text(sizes: tuple[str, str, str], height: float, width: float) -> str:
    """The finished size as a line no wider than that; empty if it cannot be: a number is never shortened."""
    texts = (times.join(sizes) for times in (" × ", "×"))
    return next((text for text in texts if words_width(text, height, bold=True) <= width), "")


def _role_row(said: Said, most: float, width: float) -> tuple[float, str]:
    """Height of the role's letters, and the pattern as it is said after it: the word `pattern` goes first."""
    for height, word in ((most, "pattern "), (LEAST, "pattern "), (LEAST, "")):
        pattern = f"{word}{said.pattern}" if said.pattern else ""
        if words_width(f"{said.role}  {pattern}", height) <= width:
            break
    return height, pattern


def _foot_row(said: Said, most: float, width: float) -> float:
    return most if words_width(f"{said.job}  {said.revision}", most) <= width else LEAST


def broken(text: str, size: float, width: float) -> Iterator[str]:
    """A mark in lines no wider than that; in a line's second half they break behind a gap or hyphen.

    No lines at all where not even a letter has room.
    """
    while text:
        ends = accumulate(words_width(letter, size, bold=True) for letter in text)
        fits = len(tuple(takewhile(width.__ge__, ends)))
        if not fits:
            return
        if fits < len(text):
            breaks = [place for place in range(fits // 2, fits) if text[place] in BREAKS]
            fits = breaks[-1] + 1 if breaks else fits
        yield text[:fits]
        text = text[fits:]


def rise(text: str, size: float) -> float:
    """How far a line of text stands up above its baseline: further with an accent on a capital."""
    return size * (1 + DESCENT * any(letter > "\x7f" and letter.isupper() for letter in text))


def row(text: str, size: float) -> float:
    """How high a row of such text is, from the tails below its baseline to the accents on its capitals."""
    return rise(text, size) + DESCENT * size


def _height(layout: Layout, said: Said) -> float:
    """How high the rows are with the least white between them, and the lowest picture."""
    mark = sum(row(line, layout.lettering.mark) for line in layout.mark)
    beside = mark + row(said.role, layout.role) + 2 * UNDER_TAILS + layout.lettering.picture
    code = layout.code.side - (INSET - QUIET_EDGE) + UNDER_CODE
    size = layout.lettering.size + layout.air
    upper = max(beside, code) + size if layout.below else max(beside + size, code)
    return upper + layout.air + row(said.job, layout.foot)
