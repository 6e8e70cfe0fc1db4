"""Boards as they stand on the bench: strips ripped, sticks marked, and the room that is left. Exact."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.timber.clear import clear_runs, faults_that_count, places, sides, touched
from pinchrod.timber.records import Board, Question, Stick, Wanted
from pinchrod.timber.sizes import Kind, kind_of, room_needed, strip_width


@dataclass(frozen=True, slots=True)
class Piece:
    """One member to be cut, by its mark."""

    mark: str
    wanted: Wanted


class Marked:
    """A stick marked on a strip: its members may still be added to, unless it is done."""

    def __init__(self, pieces: Iterable[Piece], name: str = "", *, done: bool = False) -> None:
        self.pieces = list(pieces)
        self.name = name
        self.done = done


class Run:
    """A clear stretch of a strip, and the sticks marked in it from its start."""

    def __init__(self, span: Span, sticks: Iterable[Marked] = ()) -> None:
        self.span = span
        self.sticks = list(sticks)


class Strip:
    """A strip of a board, fence to fence."""

    def __init__(self, board: Board, band: Span, runs: Iterable[Span]) -> None:
        self.board = board
        self.band = band
        self.runs = [Run(run) for run in runs]


class Bench:
    """The boards taken so far, and how members find a place on them."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.kerf = question.machines.crosscut_saw.kerf
        self.strips: dict[str, list[Strip]] = {}
        self.widths = sorted({strip_width(question, kind_of(wanted)) for wanted in question.wanted})

    def room(self, pieces: Sequence[Piece]) -> Mm:
        """What these members need of a strip as one stick, the cut behind it counted."""
        return room_needed(self.question, [piece.wanted.length for piece in pieces])

    def left_in(self, run: Run) -> Mm:
        """What a run has left, one saw cut more than the wood itself."""
        return run.span.length + self.kerf - sum((self.room(stick.pieces) for stick in run.sticks), Mm(0))

    def cleans_up(self, board: Board, kind: Kind, room: Mm) -> bool:
        """Whether so long a stick of that board cleans up to thickness, and the shop can handle it."""
        length, practice = room - self.kerf, self.question.practice
        spare = board.thickness - practice.skim - kind.thickness
        bowed = spare < 0 or board.bow * length * length > spare * board.length * board.length
        return length <= practice.longest_stick and not bowed

    def add_to_stick(self, piece: Piece) -> bool:
        """Put a member on the marked stick that it fills best; whether there was one."""
        best: tuple[Mm, Marked] | None = None
        for left, stick in self._sticks_with_room(piece):
            if best is None or left < best[0]:
                best = left, stick
        if best is None:
            return False
        best[1].pieces.append(piece)
        return True

    def _sticks_with_room(self, piece: Piece) -> Iterator[tuple[Mm, Marked]]:
        kind = kind_of(piece.wanted)
        for strip, run in self._runs(kind):
            left = self.left_in(run)
            for stick in run.sticks:
                if stick.done or kind_of(stick.pieces[0].wanted) != kind:
                    continue
                room = self.room([*stick.pieces, piece])
                more = room - self.room(stick.pieces)
                if more <= left and self.cleans_up(strip.board, kind, room):
                    yield left - more, stick

    def _runs(self, kind: Kind) -> Iterator[tuple[Strip, Run]]:
        width = strip_width(self.question, kind)
        for strips in self.strips.values():
            for strip in strips:
                if strip.band.length == width:
                    for run in strip.runs:
                        yield strip, run

    def mark_stick(self, pieces: Sequence[Piece]) -> bool:
        """Mark a new stick in the run that it fills best; whether there was one."""
        kind, room = kind_of(pieces[0].wanted), self.room(pieces)
        best: tuple[Mm, Run] | None = None
        for strip, run in self._runs(kind):
            left = self.left_in(run) - room
            if left >= 0 and (best is None or left < best[0]) and self.cleans_up(strip.board, kind, room):
                best = left, run
        if best is None:
            return False
        best[1].sticks.append(Marked(pieces))
        return True

    def rip_strip(self, board: Board, pieces: Sequence[Piece]) -> bool:
        """Rip the first free strip of a board that takes these members as a stick; whether there was one."""
        kind, room = kind_of(pieces[0].wanted), self.room(pieces)
        if not self.cleans_up(board, kind, room):
            return False
        width = strip_width(self.question, kind)
        for offset in self._free_places(board, width):
            band = Span(offset, offset + width)
            runs = clear_runs(board.length, touched(faults_that_count(board), band))
            if any(run.length + self.kerf >= room for run in runs):
                self.strips.setdefault(board.name, []).append(Strip(board, band, runs))
                return self.mark_stick(pieces)
        return False

    def _free_places(self, board: Board, width: Mm) -> Iterator[Mm]:
        rip = self.question.machines.rip_saw.kerf
        bands = [strip.band for strip in self.strips.get(board.name, ())]
        between = sides(self.question, board)
        behind = [band.high + rip for band in bands]
        for offset in sorted({*places(between, faults_that_count(board), ()), *behind}):
            clear = all(offset + width + rip <= band.low or band.high + rip <= offset for band in bands)
            if clear and offset + width <= between.high:
                yield offset

    def sticks(self) -> tuple[Stick, ...]:
        """The sticks as marked, board by board from the first edge; new ones get the next free numbers."""
        found = [stick for strips in self.strips.values() for strip in strips for stick in self._of(strip)]
        order = {board.name: at for at, board in enumerate(self.question.boards)}
        found.sort(key=lambda stick: (order[stick.board], stick.offset, stick.start))
        return numbered(found)

    def _of(self, strip: Strip) -> Iterator[Stick]:
        for run in strip.runs:
            start = run.span.low
            for stick in run.sticks:
                room = self.room(stick.pieces)
                yield Stick(
                    name=stick.name,
                    board=strip.board.name,
                    start=start,
                    length=room - self.kerf,
                    offset=strip.band.low,
                    width=strip.band.length,
                    thickness=strip.board.thickness,
                    members=tuple(piece.mark for piece in stick.pieces),
                )
                start += room


def numbered(sticks: Sequence[Stick]) -> tuple[Stick, ...]:
    """The sticks, those without a name named S1, S2, and so on, past the numbers in use."""
    used = {stick.name for stick in sticks}
    free = (f"S{number}" for number in range(1, len(sticks) + len(used) + 1))
    names = (name for name in free if name not in used)
    return tuple(stick if stick.name else _named(stick, next(names)) for stick in sticks)


def _named(stick: Stick, name: str) -> Stick:
    return Stick(
        name=name,
        board=stick.board,
        start=stick.start,
        length=stick.length,
        offset=stick.offset,
        width=stick.width,
        thickness=stick.thickness,
        members=stick.members,
    )
