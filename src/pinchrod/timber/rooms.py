"""Where members that lost their wood may go: sticks not yet cut, room behind them, strips not ripped yet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.timber.bench import Bench, Marked, Run, Strip
from pinchrod.timber.clear import clear_runs, faults_that_count, places, sides, touched
from pinchrod.timber.loose import Loose, Way, largest
from pinchrod.timber.records import Board, Fault, Question
from pinchrod.timber.sizes import Kind, kind_of, strip_width


@dataclass(frozen=True, slots=True)
class Room:
    """A stretch of a strip, what is left in it, and the stick that stands there and may grow."""

    board: Board
    run: Run
    left: Mm
    most: Mm  # no longer member can come here
    grows: Marked | None = None

    def ways(self, question: Question, loose: Loose) -> list[Way | None]:
        """How any of the loose members would lie here; None for those that cannot."""
        limit = _limit(question, self.board, loose.kind)
        if limit is None:
            return [None] * (loose.whole + 1)
        left, held = loose.units(self.left), loose.held(self.grows.pieces) if self.grows else 0
        ways = loose.ways(loose.units(limit), held)
        return [way if way is not None and way.room <= left else None for way in ways]

    def takes(self, question: Question, loose: Loose) -> list[int]:
        """Which of the loose members it takes together, as many as can be."""
        held = loose.held(self.grows.pieces) if self.grows else 0
        if loose.units(self.left) < loose.least_more(held):
            return []
        ways = self.ways(question, loose)
        return largest(choice for choice, way in enumerate(ways) if way is not None)

    def put(self, question: Question, loose: Loose, choice: int) -> None:
        """Mark the chosen members here, in the way that takes least."""
        way = self.ways(question, loose)[choice]
        assert way is not None  # noqa: S101 - what takes more members takes these
        if self.grows is not None:
            self.grows.pieces += loose.of(way.grown)
        self.run.sticks += [Marked(loose.of(stick)) for stick in way.sticks]


@dataclass(frozen=True, slots=True)
class Spot:
    """Loose members in one stretch of a strip that is still to be ripped."""

    offset: Mm
    run: Span
    choice: int


@dataclass(frozen=True, slots=True)
class Beside:
    """A board with strips still to be ripped: each place for one, and its clear stretches."""

    board: Board
    width: Mm
    step: Mm
    places: tuple[tuple[Mm, tuple[Span, ...]], ...]

    def takes(self, question: Question, loose: Loose) -> dict[int, tuple[Spot, ...]]:
        """Which of the loose members it takes together, and where: strip by strip, every place tried."""
        reached: dict[int, tuple[Mm, tuple[Spot, ...]]] = {0: (Mm(-1), ())}
        for offset, runs in self.places:
            strip = self._strip(question, loose, offset, runs)
            for choice, (free, spots) in list(reached.items()):
                for more, lie in strip.items() if free <= offset else ():
                    behind = (offset + self.width + self.step, (*spots, *lie))
                    if (choice | more) not in reached or behind[0] < reached[choice | more][0]:
                        reached[choice | more] = behind
        return {choice: reached[choice][1] for choice in largest(reached)}

    def _strip(
        self, question: Question, loose: Loose, offset: Mm, runs: Sequence[Span]
    ) -> dict[int, tuple[Spot, ...]]:
        found: dict[int, tuple[Spot, ...]] = {0: ()}
        for run in runs:
            takes = empty_room(question, self.board, Run(run)).takes(question, loose)
            more: dict[int, tuple[Spot, ...]] = {
                choice | other: (*spots, Spot(offset, run, other & ~choice))
                for choice, spots in found.items()
                for other in takes
                if other & ~choice
            }
            found = more | found
        return {choice: found[choice] for choice in largest(found)}

    def put(self, bench: Bench, loose: Loose, spots: Sequence[Spot], choice: int) -> None:
        """Rip the strips that the chosen members need, and mark them there."""
        strips: dict[Mm, Strip] = {}
        for spot in spots:
            here, choice = spot.choice & choice, choice & ~spot.choice
            if not here:
                continue
            if spot.offset not in strips:
                band = Span(spot.offset, spot.offset + self.width)
                strips[spot.offset] = Strip(self.board, band, dict(self.places)[spot.offset])
            [run] = [run for run in strips[spot.offset].runs if run.span == spot.run]
            empty_room(bench.question, self.board, run).put(bench.question, loose, here)
        bench.strips.setdefault(self.board.name, []).extend(strips.values())


def rooms(bench: Bench, kind: Kind) -> Iterator[Room]:
    """What is left in every strip of that width."""
    width = strip_width(bench.question, kind)
    for strips in bench.strips.values():
        for strip in strips:
            for run in strip.runs if strip.band.length == width else ():
                yield _room(bench, strip.board, run, kind)


def empty_room(question: Question, board: Board, run: Run) -> Room:
    """A stretch in which nothing stands, or where what stands there is taken up again."""
    kerf, ends = question.machines.crosscut_saw.kerf, 2 * question.practice.stick_end
    return Room(board, run, run.span.length + kerf, run.span.length - ends)


def _room(bench: Bench, board: Board, run: Run, kind: Kind) -> Room:
    """A stretch with what stands in it; a stick shorter than the shortest may take a member and not grow."""
    left, ends = bench.left_in(run), 2 * bench.question.practice.stick_end
    last = run.sticks[-1] if run.sticks else None
    if last is None or last.done or kind_of(last.pieces[0].wanted) != kind:
        return Room(board, run, left, left - bench.kerf - ends)
    held = ends + sum((piece.wanted.length + bench.kerf for piece in last.pieces), Mm(0))
    return Room(board, run, left, left + bench.room(last.pieces) - held - bench.kerf, last)


def beside(bench: Bench, board: Board, kind: Kind) -> Beside:
    """The places on a board for strips of that width, beside those that are ripped already."""
    width, rip = strip_width(bench.question, kind), bench.question.machines.rip_saw.kerf
    taken = [Span(one.band.low - rip, one.band.high + rip) for one in bench.strips.get(board.name, ())]
    between, faults = sides(bench.question, board), faults_that_count(board)
    kept_off = [*faults, *(Fault(along=Span(Mm(0), board.length), across=band) for band in taken)]
    found = []
    for offset in places(between, kept_off, (width + rip,)):
        band = Span(offset, offset + width)
        if band.high <= between.high and not any(band.meets(other) for other in taken):
            found.append((offset, clear_runs(board.length, touched(faults, band))))
    return Beside(board, width, rip, tuple(found))


def _limit(question: Question, board: Board, kind: Kind) -> Mm | None:
    """The longest stick of that board that cleans up and that the shop can handle; None if there is none."""
    longest = board.longest_clean(board.thickness - question.practice.skim - kind.thickness)
    return None if longest is None else min(longest, question.practice.longest_stick)
