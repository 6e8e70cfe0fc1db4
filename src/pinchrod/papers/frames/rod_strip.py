"""What a rod shows along its length: lines, and what stands between them; and how a long one is parted."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from pinchrod.ground import Mm, Span, show
from pinchrod.papers.frames.sections import Cut, along
from pinchrod.setting_out import Member, Rod

LONGEST = Mm(4800)  # mm on one sheet: a PDF page ends at 5,080, and words stand beyond the rod's ends
OVERLAP = Mm(100)  # how far each part of a longer rod runs on past the match mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Members with one and the same place across the rod: a section, and the marks it has."""

    drawn: Member
    marks: tuple[str, ...]

    @property
    def place(self) -> Span:
        """Where along the rod the section stands."""
        return self.drawn.across


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One rod of a frame: its width rod or its height rod, through some of its openings."""

    rod: Rod
    cut: Cut

    @property
    def kind(self) -> str:
        """What it is called."""
        return "width rod" if self.cut.axis == "x" else "height rod"

    @property
    def ends(self) -> tuple[str, str]:
        """The names of its two ends."""
        return ("left", "right") if self.cut.axis == "x" else ("bottom", "top")

    @property
    def sections(self) -> tuple[Standing, ...]:
        """The members it cuts, those in one place together."""
        places: dict[Span, list[Member]] = {}
        for member in self.cut.members:
            places.setdefault(member.across, []).append(member)
        return tuple(
            Standing(drawn=members[0], marks=tuple(member.name for member in members))
            for members in places.values()
        )

    @property
    def lines(self) -> tuple[Mm, ...]:
        """Every line that has its figure: edges of members and openings, and shoulders."""
        return tuple(sorted({*self.cut.stops, *self.cut.shoulders}))

    @property
    def lying(self) -> tuple[Member, ...]:
        """The members that lie along the rod and end on its lines."""
        lines = set(self.lines)
        return tuple(
            member
            for member in self.rod.members
            if member.upright != (self.cut.axis == "x") and {member.along.low, member.along.high} <= lines
        )

    def marks_in(self, span: Span) -> tuple[str, ...]:
        """The openings that have that span."""
        return tuple(o.name for o in self.cut.openings if along(o, self.cut.axis) == span)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one sheet shows of a rod: from where to where, and where the match marks are."""

    strip: Strip
    shown: Span
    matches: tuple[Mm, ...]
    number: int
    count: int

    @property
    def first(self) -> bool:
        """Whether it begins at the rod's first end."""
        return self.number == 1

    @property
    def last(self) -> bool:
        """Whether it ends at the rod's other end."""
        return self.number == self.count


def parts_of(strip: Strip) -> tuple[Part, ...]:
    """The rod in one part, or in as few as the sheets allow, each running on past its match marks."""
    total = strip.cut.total
    count = ceil(total / LONGEST)
    marks = tuple(_clear_place(strip, total * number / count) for number in range(1, count))
    bounds = (Mm(0), *marks, total)
    return tuple(
        Part(
            strip=strip,
            shown=_running_on(strip, Span(bounds[number], bounds[number + 1])),
            matches=tuple(mark for mark in bounds[number : number + 2] if mark in marks),
            number=number + 1,
            count=count,
        )
        for number in range(count)
    )


def _clear_place(strip: Strip, wanted: Mm) -> Mm:
    """The place nearest to the wanted one that is the middle of an opening."""
    return min((span.middle for span in strip.cut.spans), key=lambda middle: abs(middle - wanted))


def _running_on(strip: Strip, span: Span) -> Span:
    """The span with its overlaps, moved out so that they cut through no member."""
    low = max(span.low - OVERLAP, Mm(0)) if span.low else Mm(0)
    high = min(span.high + OVERLAP, strip.cut.total)
    for member in strip.cut.members:
        if member.across.low < low < member.across.high:
            low = member.across.low
        if member.across.low < high < member.across.high:
            high = member.across.high
    return Span(low, high)


def end_to_end(member: Member, step: Mm) -> str:
    """A member that lies along the rod, and its length there."""
    tenons = member.low_end.tenon or member.high_end.tenon
    whole = f", {show(member.length, step)} with tenons" if tenons else ""
    return f"{member.name} {show(member.along.length, step)}{whole}"


def in_words(marks: Sequence[str], most: int) -> str:
    """Some marks, and how many more."""
    more = f" and {len(marks) - most} more" if len(marks) > most else ""
    return ", ".join(marks[:most]) + more


def kept(values: Sequence[Mm], span: Span) -> Iterator[Mm]:
    """The values that lie in the span."""
    return (value for value in values if span.low <= value <= span.high)
