"""A stick by itself for a page on a screen: its members in their places, and where each begins and ends."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pinchrod.ground import Mm, Span, show
from pinchrod.papers.boards.stick_words import words_in_middle
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import NARROW, WIDE, Fill, Line, Mark, Path, Pen, Sheet, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.timber import Question, Stick, Wanted

LEFT = RIGHT = 6.0  # mm beside the stick: half a number hangs over either end
TOP = 1.0
NUMBER = 2.5
UNDER = 5.5  # mm under the stick: the numbers
LEAST_CUT = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class StickPicture:
    """The picture, and how places along it and along the stick belong together."""

    sheet: Sheet
    left: float  # mm from the picture's left side to the stick's start
    per: float  # millimetres of stick to one of the picture


@dataclass(frozen=True, slots=True, kw_only=True)
class InStick:
    """A member in its stick: from where to where, counted from the stick's start."""

    mark: str
    along: Span


def in_stick(stick: Stick, question: Question) -> tuple[InStick, ...]:
    """The members of a stick in their places: an end, then a saw cut between each and the next."""
    return tuple(_places(stick, question, question.by_mark()))


def stick_picture(stick: Stick, question: Question, width: float, high: float, step: Mm) -> StickPicture:
    """The stick in a picture so wide: along it to scale, across it as high as a finger needs."""
    per = float(stick.length) / (width - LEFT - RIGHT)
    height = TOP + high + UNDER
    picture = _Drawn(stick, per, height - TOP, height - TOP - high)
    members = in_stick(stick, question)
    kerf = question.machines.crosscut_saw.kerf
    sheet = Sheet(
        width=width,
        height=height,
        marks=(*_members(picture, members, kerf), *_outline(picture), *_numbers(picture, members, step)),
        title=f"Stick {stick.name}",
    )
    return StickPicture(sheet=sheet, left=LEFT, per=per)


@dataclass(frozen=True, slots=True)
class _Drawn:
    stick: Stick
    per: float
    top: float
    bottom: float

    def x(self, along: Mm) -> float:
        return LEFT + float(along) / self.per

    def box(self, along: Span) -> Box:
        return Box(self.x(along.low), self.bottom, self.x(along.high), self.top)


def _places(stick: Stick, question: Question, wanted: Mapping[str, Wanted]) -> Iterator[InStick]:
    at = question.practice.stick_end
    for mark in stick.members:
        end = at + wanted[mark].length
        yield InStick(mark=mark, along=Span(at, end))
        at = end + question.machines.crosscut_saw.kerf


def _members(picture: _Drawn, members: tuple[InStick, ...], kerf: Mm) -> Iterator[Mark]:
    for member in members:
        box = picture.box(member.along)
        yield _filled(box, "tint", "stick")
        yield from words_in_middle(member.mark, box, fill="tint")
        for cut in (
            Span(member.along.low - kerf, member.along.low),
            Span(member.along.high, member.along.high + kerf),
        ):
            if cut.low >= 0 and cut.high <= picture.stick.length:
                place = picture.box(cut)
                right = max(place.right, place.left + LEAST_CUT)
                yield _filled(Box(place.left, place.bottom, right, place.top), "black", "cut")


def _outline(picture: _Drawn) -> Iterator[Mark]:
    box = picture.box(Span(Mm(0), picture.stick.length))
    corners = (Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(box.right, box.top))
    yield Path((*corners, Spot(box.left, box.top)), pen=WIDE)


def _numbers(picture: _Drawn, members: tuple[InStick, ...], step: Mm) -> Iterator[Mark]:
    """Where members begin, from the stick's start, and its length; what has no room is left out."""
    length = picture.stick.length
    last = picture.x(length) - words_width(show(length, step), NUMBER) / 2 - 1.0
    free = -float("inf")
    for at in (Mm(0), *(member.along.low for member in members), length):
        text, x = show(at, step), picture.x(at)
        half = words_width(text, NUMBER) / 2
        if at != length and (x - half < free or x + half > last):
            continue
        free = x + half + 1.0
        yield Line(
            Spot(x, picture.bottom - 0.4), Spot(x, picture.bottom - 1.6), pen=NARROW, layer="dimension"
        )
        spot = Spot(x, picture.bottom - 2.0 - NUMBER)
        yield Words(spot, text, size=NUMBER, anchor="middle", layer="dimension")


def _filled(box: Box, fill: Fill, layer: str) -> Path:
    corners = (Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(box.right, box.top))
    pen: Pen | None = None
    return Path((*corners, Spot(box.left, box.top)), pen=pen, fill=fill, layer=layer)
