"""What a machine is set to, setting under setting, each with all that goes through before it is changed."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from pinchrod.bench import Spares
from pinchrod.ground import Mm, show
from pinchrod.machining import StepSetting
from pinchrod.papers.cards.at_the_stop import (
    ROOM_HIGH,
    ROOM_WIDE,
    Lie,
    lying_picture,
    lying_words,
    ways_of_lying,
)
from pinchrod.papers.cards.spares_bands import capital, spares_with, with_spares
from pinchrod.papers.cards.ticked import ROW, columns_of, ticked
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import WIDE, Line, Mark, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import (
    LARGE,
    PLAIN,
    Band,
    blank,
    broken,
    heading,
    height_of,
    paragraph,
    tick_box,
)

NUMBER = 10.0  # what a machine is set to: read from across the bench
TO_NUMBER = 19.5  # from a setting's top to the number's baseline
BOX = 8.0  # to tick that it is set
TO_WORDS = BOX + 2.5
NUMBER_ROOM = 54.0  # from the left to what goes through
CLEAR = 5.0  # from a number to what stands beside it
PITCH = 4.9  # from line to line of the words above a number
UNDER = 4.5  # from a number to the next setting
BESIDE = 5.0  # from a picture to the words beside it
SAID = 12.6  # from a picture's top to the first pieces beside it, under two lines of words
ROWS_BESIDE = 3  # so many rows of pieces stand beside a number, and the rest under it
ONCE, ONCE_NUMBER, TO_UNIT = 16.0, 7.0, 2.0  # what is set once: its band, its number, from that to the unit
IN_FULL = 6  # so many names are written out even if everything goes through


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A setting in its turn: which of how many.

    `whole` is there if everything there is goes through: it is counted then, and not listed. `spares` are
    made with the pieces that they are like, while the setting stands.
    """

    setting: StepSetting
    number: int
    of: int
    whole: int = 0
    spares: Mapping[str, Spares] = field(default_factory=dict)
    called: Mapping[str, str] = field(default_factory=dict)  # what says more than a piece's mark alone


def once_bands(settings: Sequence[StepSetting], step: Mm, width: float) -> Iterator[Band]:
    """What is set once for the whole step: side by side, each with its number large."""
    if settings:
        yield Band(height=ONCE, marks=tuple(_once(settings, step, width)))
        yield blank(2.0)


def _once(settings: Sequence[StepSetting], step: Mm, width: float) -> Iterator[Mark]:
    rooms = [_room_of(setting, step) for setting in settings]
    wide = width / max(len(settings), 3)
    if max(rooms) > wide:  # then each gets what it needs, and an equal share of the rest
        wide, rest = 0.0, (width - sum(rooms)) / len(settings)
        rooms = [room + rest for room in rooms]
    left = 0.0
    for setting, room in zip(settings, rooms, strict=True):
        number = show(setting.to, step)
        yield tick_box(Spot(left, -12.5), BOX, WIDE)
        yield Words(Spot(left + TO_WORDS, -3.5), setting.of, size=PLAIN)
        yield Words(Spot(left + TO_WORDS, -12.5), number, size=ONCE_NUMBER, bold=True)
        after = left + TO_WORDS + words_width(number, ONCE_NUMBER, bold=True) + TO_UNIT
        yield Words(Spot(after, -12.5), setting.unit, size=PLAIN)
        left += wide or room


def _room_of(setting: StepSetting, step: Mm) -> float:
    """How wide a box, its number with the unit and the words above them are, with white after them."""
    number = words_width(show(setting.to, step), ONCE_NUMBER, bold=True)
    words = max(number + TO_UNIT + words_width(setting.unit, PLAIN), words_width(setting.of, PLAIN))
    return TO_WORDS + words + CLEAR


def setting_bands(turn: Turn, step: Mm, width: float) -> Iterator[Band]:
    """A setting: its number, and what goes through beside and under it; overleaf it is said again."""
    setting = turn.setting
    again = (heading(f"{capital(setting.of)} {show(setting.to, step)}, continued", width),)
    first, *rest = _pieces(turn, step, width)
    number = _number(turn, step, width)
    yield Band(height=max(number.height, first.height), marks=(*number.marks, *first.marks))
    yield from (replace(band, head=again) for band in rest)
    yield blank(2.0)


def _pieces(turn: Turn, step: Mm, width: float) -> Iterator[Band]:
    """What goes through, the first of it with room for the number on its left."""
    setting = turn.setting
    if setting.stop is not None:
        for lie in ways_of_lying(setting.stop, back_up=setting.back_up):
            names = with_spares(lie.pieces, turn.spares)
            yield from _lying(replace(lie, pieces=names), show(setting.to, step), width)
    elif turn.whole > IN_FULL:
        text = paragraph(_everything(turn), width - NUMBER_ROOM, LARGE, bold=True)
        yield Band(height=ROW, marks=placed(text.marks, dx=NUMBER_ROOM, dy=ROW - TO_NUMBER))
    else:
        marks = with_spares(setting.through, turn.spares)
        names = tuple(turn.called.get(mark, mark) for mark in marks)
        yield from _beside_and_under(names, ROW, NUMBER_ROOM, width, ROWS_BESIDE - 1)


def _everything(turn: Turn) -> str:
    spare = sum(each.spare for each in spares_with(turn.setting.through, turn.spares))
    return f"everything: all {turn.whole}" + (f", and {spare} spare" if spare else "")


def _lying(lie: Lie, number: str, width: float) -> Iterator[Band]:
    """A picture of how the pieces lie, the same in words, and the pieces."""
    room = Box(NUMBER_ROOM, -ROOM_HIGH - 2.0, NUMBER_ROOM + ROOM_WIDE, -2.0)
    left = room.right + BESIDE
    words = (
        Words(Spot(left, -2.0 - PLAIN - 5.0 * place), line) for place, line in enumerate(lying_words(lie))
    )
    first, *rest = _beside_and_under(lie.pieces, SAID, left, width, 1)
    picture = lying_picture(lie, number, room)
    yield replace(first, height=max(first.height, ROOM_HIGH + 4.0), marks=(*picture, *words, *first.marks))
    yield from rest


def _beside_and_under(
    names: Sequence[str], top: float, left: float, width: float, most: int
) -> Iterator[Band]:
    """The names in at most so many rows beside something, and all others under it at the full width."""
    beside = columns_of(names, width - left) * most
    rows = tuple(ticked(names[:beside], width, left))
    yield Band(height=top + height_of(rows), marks=tuple(_one_under_another(rows, -top)))
    yield from ticked(names[beside:], width)


def _one_under_another(bands: Iterable[Band], top: float) -> Iterator[Mark]:
    for band in bands:
        yield from placed(band.marks, dy=top)
        top -= band.height


def _number(turn: Turn, step: Mm, width: float) -> Band:
    """The rule above a setting, what is set, a box to tick, and the number."""
    room, number = NUMBER_ROOM - CLEAR, show(turn.setting.to, step)
    lines = broken(f"{capital(turn.setting.of)}, {turn.number} of {turn.of}", PLAIN, room)
    down = TO_NUMBER + PITCH * (len(lines) - 1)
    size = min(NUMBER, NUMBER * (room - TO_WORDS) / words_width(number, NUMBER, bold=True))
    marks: tuple[Mark, ...] = (
        Line(Spot(0, 0), Spot(width, 0), pen=WIDE, layer="table"),
        *(Words(Spot(0, -2.0 - PLAIN - PITCH * place), line) for place, line in enumerate(lines)),
        tick_box(Spot(0, -down), BOX, WIDE),
        Words(Spot(TO_WORDS, -down), number, size=size, bold=True),
    )
    return Band(height=down + UNDER, marks=marks)
