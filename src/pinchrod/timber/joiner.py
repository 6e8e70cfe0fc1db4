"""The sensible joiner: longest first, each member where it leaves least, the cheapest wood next."""

from collections.abc import Sequence

from pinchrod.ground import Mm
from pinchrod.timber.bench import Bench, Piece
from pinchrod.timber.records import Board, Breakout, Question, Stick
from pinchrod.timber.sizes import kind_of


def by_eye(question: Question) -> Breakout:
    """A break-out as a joiner would chalk it, without a search; its bound is nothing more than zero."""
    bench = Bench(question)
    short = place(bench, pieces_of(question), cheapest_wood_first(question.boards))
    return answer(question, bench.sticks(), short, bound=Mm(0))


def pieces_of(question: Question) -> list[Piece]:
    """Every member wanted, longest first, then wide before narrow."""
    pieces = [Piece(mark, wanted) for wanted in question.wanted for mark in wanted.marks]
    return sorted(pieces, key=lambda piece: (-piece.wanted.length, -piece.wanted.width, piece.wanted.beads))


def cheapest_wood_first(boards: Sequence[Board]) -> list[Board]:
    """Boards by their price for the volume, then by price, then as they stand on the rack."""
    return sorted(boards, key=lambda board: (board.price / board.volume, board.price))


def place(bench: Bench, pieces: Sequence[Piece], boards: Sequence[Board]) -> list[str]:
    """Those left without a place, each tried on a stick, in a strip, on a board taken, on the next."""
    short, waiting = [], list(pieces)
    while waiting:
        group = _group(bench, waiting)
        del waiting[0]
        if bench.add_to_stick(group[0]):
            continue
        found = _new_stick(bench, group, boards)
        if found is None:
            short.append(group[0].mark)
        for piece in (found or ())[1:]:
            waiting.remove(piece)
    return short


def _group(bench: Bench, waiting: Sequence[Piece]) -> list[Piece]:
    """The next member, with as many after it of its kind as make a stick that the machines take safely."""
    kind, group = kind_of(waiting[0].wanted), [waiting[0]]
    for piece in waiting[1:]:
        if _long_enough(bench, group):
            break
        if kind_of(piece.wanted) == kind:
            group.append(piece)
    return group


def _long_enough(bench: Bench, group: Sequence[Piece]) -> bool:
    return bench.room(group) > bench.question.practice.shortest_stick + bench.kerf


def _new_stick(bench: Bench, group: list[Piece], boards: Sequence[Board]) -> list[Piece] | None:
    """Mark a new stick for the group, or for its first member: who is on it, None if there is no wood."""
    for pieces in (group, group[:1]) if len(group) > 1 else (group,):
        taken = [board for board in boards if board.name in bench.strips]
        fresh = [board for board in boards if board.name not in bench.strips]
        if bench.mark_stick(pieces) or any(bench.rip_strip(board, pieces) for board in [*taken, *fresh]):
            return pieces
    return None


def answer(question: Question, sticks: Sequence[Stick], short: Sequence[str], *, bound: Mm) -> Breakout:
    """The answer with its sums: wood taken, wood finished, cost."""
    names = {stick.board for stick in sticks}
    taken = [board for board in question.boards if board.name in names]
    wanted = question.by_mark()
    made = [wanted[mark] for stick in sticks for mark in stick.members]
    return Breakout(
        sticks=tuple(sticks),
        short=tuple(short),
        used=sum((board.volume for board in taken), Mm(0)),
        finished=sum((one.volume for one in made), Mm(0)),
        cost=sum((board.price for board in taken), Mm(0)),
        bound=bound,
    )
