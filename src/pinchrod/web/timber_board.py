"""One board by itself: drawn large, its faults added at the rack by tapping or typing; a board more."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from pinchrod.ground import NotALength, NotYetRight, read_length, show, spell
from pinchrod.job import RACK_COLUMNS, BoardWords, RackWords, with_fault
from pinchrod.papers import BoardPicture, board_rows, write_svg
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.jobs_saving import is_nothing_new
from pinchrod.web.known import Known
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.templates import drawing
from pinchrod.web.timber_drawn import board_address, board_missing, rack_of_page
from pinchrod.web.timber_grid import HEADS
from pinchrod.web.timber_page import BoardShown, board_shown
from pinchrod.web.timber_rack import told_rack
from pinchrod.web.timber_saving import Judged, boards_of_job, judged, saved, why_not
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within

HOME = "/jobs/{job}/timber"
LARGE, NARROW = 190.0, 80.0  # mm: how wide a picture to tap on is, on a phone the second
ENDS = ("from", "to", "near", "far")
KINDS = (
    ("knot", "Knot", False),
    ("split", "Split or shake", True),
    ("wane", "Wane", False),
    ("stain", "Rot or stain", False),
)
"""What a fault may be called, and whether a tap takes it over the whole width."""
ASKED = ("board", "length", "width", "thickness", "price", "bow", "spring")


@dataclass(frozen=True, slots=True, kw_only=True)
class LaneTapped:
    """Where a lane lies in the picture, in the picture's own millimetres, for whoever taps on it."""

    left: float
    top: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tapped:
    """A picture on which places are tapped: its size, the millimetres of wood to one of it, and its lanes."""

    svg: Markup
    wide: float
    high: float
    per: float
    across: float  # width of the board; 0 where only the place along it counts
    lanes: tuple[LaneTapped, ...]
    size: str = "large"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of fault, and whether it is the one that was chosen."""

    key: str
    word: str
    whole: bool
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultTyped:
    """A fault as typed: from-to along the board, from-to across it, and whether only the back shows it."""

    low: str
    high: str
    near: str
    far: str
    back: bool

    def __str__(self) -> str:
        """As the list of the rack says it."""
        low, high, near, far = map(in_millimetres, (self.low, self.high, self.near, self.far))
        across = f"@{near}-{far}" if near or far else ""
        return f"{low}-{high}{across}{' back' if self.back else ''}"


def in_millimetres(said: str) -> str:
    """A length as the list of the rack writes faults: a number of millimetres; as typed if it is none."""
    try:
        return spell(read_length(said)).removesuffix(" mm")
    except NotALength:
        return said


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPage:
    """A board, its table of cuts if it is planned, and the form for a fault more."""

    within: Within
    board: BoardShown
    tapped: tuple[Tapped, ...]
    rows: tuple[tuple[str, ...], ...]
    kinds: tuple[Kind, ...]
    said: FaultTyped
    slips: tuple[Slip, ...]
    length: str
    width: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AddField:
    """A field of the form for a board more."""

    key: str
    label: str
    value: str
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPage:
    """The form for a board more."""

    within: Within
    fields: tuple[AddField, ...]
    slips: tuple[Slip, ...]


def look(visit: Visit) -> Answer:
    """The board."""
    known = visit.floor.job(visit.place("job"))
    return _shown(_page(visit, known, ()))


def fault(visit: Visit) -> Answer:
    """A fault more on the board, saved with the job; said twice it is there once."""
    known = visit.floor.job(visit.place("job"))
    rack = boards_of_job(known.files)
    board = rack.named(visit.place("board"))
    if board is None:
        raise NotYetRight([board_missing(visit.place("board"))])
    words = str(fault_typed(visit))
    address = board_address(known.name, board[0])
    if words in (each.strip() for each in board[-1].split(";")):
        return Go(to=address)
    at = rack.boards.index(board)
    boards = (*rack.boards[:at], with_fault(board, words), *rack.boards[at + 1 :])
    made = judged(known.files, RackWords(boards=boards, separator=rack.separator))
    if made.stops:
        return _shown(_page(visit, known, tuple(_on_board(made))), status=422)
    note = f"Fault in {board[0]}: {visit.said('kind') or 'fault'} {words}"
    revision = saved(visit, known, made, note)
    return Go(to=address, told=told_rack(known, revision, note))


def fault_typed(visit: Visit) -> FaultTyped:
    """The fault that was typed."""
    low, high, near, far = (visit.said(end).strip() for end in ENDS)
    return FaultTyped(low=low, high=high, near=near, far=far, back=visit.said("side") == "back")


def form(visit: Visit) -> Answer:
    """The form for a board more, its name proposed."""
    known = visit.floor.job(visit.place("job"))
    rack = boards_of_job(known.files)
    return _form(known, {"board": next_name(rack), "thickness": _usual_thickness(rack)}, ())


def add(visit: Visit) -> Answer:
    """A board more on the rack; then its faults are tapped."""
    known = visit.floor.job(visit.place("job"))
    rack = boards_of_job(known.files)
    said = {key: visit.said(key).strip() for key in ASKED}
    board: BoardWords = tuple(said.get(key, "") for key in RACK_COLUMNS)
    if rack.named(said["board"]) == board:
        return Go(to=board_address(known.name, said["board"]))
    changed = RackWords(boards=(*rack.boards, board), separator=rack.separator)
    try:
        made = judged(known.files, changed)
        if made.stops or not any(board):
            return _form(known, said, _of_new(made, len(rack.boards)), status=422)
        note = f"Rack: {said['board']} entered"
        revision = saved(visit, known, made, note)
    except NotYetRight as trouble:
        if is_nothing_new(trouble):
            return Go(to=f"/jobs/{known.name}/timber")
        return _form(known, said, why_not(trouble), status=422)
    return Go(to=board_address(known.name, said["board"]), told=told_rack(known, revision, note))


def next_name(rack: RackWords) -> str:
    """The name after the last: B73 after B72; B1 on an empty rack."""
    last = rack.boards[-1][0] if rack.boards else "B0"
    stem = last.rstrip("0123456789")
    number = last[len(stem) :]
    names = {board[0] for board in rack.boards}
    numbers = range(int(number or 0) + 1, int(number or 0) + len(names) + 2)
    return next(name for name in (f"{stem}{each}" for each in numbers) if name not in names)


def _usual_thickness(rack: RackWords) -> str:
    return rack.boards[-1][RACK_COLUMNS.index("thickness")] if rack.boards else ""


def _page(visit: Visit, known: Known, slips: tuple[Slip, ...]) -> BoardPage:
    rack = rack_of_page(visit, known)
    board = rack.board(visit.place("board"))
    if board is None:
        raise NotYetRight([board_missing(visit.place("board"))])
    on_rack = rack.on_rack(board)
    rows = board_rows(on_rack.sawn, on_rack.kept, rack.step) if on_rack.sawn else ()
    kind = visit.said("kind", KINDS[0][0])
    return BoardPage(
        within=within(known.revision, "timber"),
        board=board_shown(visit, known, rack, board),
        tapped=(
            tapped(rack.large(board, LARGE), float(board.width)),
            replace(tapped(rack.large(board, NARROW), float(board.width)), size="narrow"),
        ),
        rows=tuple(row[:-1] for row in rows),
        kinds=tuple(Kind(key=key, word=word, whole=whole, chosen=key == kind) for key, word, whole in KINDS),
        said=fault_typed(visit),
        slips=slips,
        length=show(board.length, rack.step),
        width=show(board.width, rack.step),
    )


def tapped(picture: BoardPicture, across: float) -> Tapped:
    """The picture with what a tap needs to know of it."""
    return Tapped(
        svg=drawing(write_svg(picture.sheet)),
        wide=picture.sheet.width,
        high=picture.sheet.height,
        per=picture.scale,
        across=across,
        lanes=tuple(
            LaneTapped(left=lane.left, top=lane.top, low=float(lane.along.low), high=float(lane.along.high))
            for lane in picture.lanes
        ),
    )


def _on_board(made: Judged) -> Iterator[Slip]:
    """What is wrong, beside the field where the fault begins; what is wrong elsewhere beside none."""
    for each in made.stops:
        yield each.beside("from" if each.column == "faults" else "")


def _of_new(made: Judged, row: int) -> tuple[Slip, ...]:
    """What is wrong, beside the fields of the new board."""
    found = tuple(each.beside(each.column if each.row == row else "") for each in made.stops)
    return found or (Slip(words="The board's name is not said; give it one, such as B1", field="board"),)


def _form(known: Known, said: Mapping[str, str], slips: tuple[Slip, ...], status: int = 200) -> Page:
    page = AddPage(
        within=within(known.revision, "timber"),
        fields=tuple(_field(key, said.get(key, "")) for key in ASKED),
        slips=slips,
    )
    return Page(template="timber/add.html", page=page, status=status)


def _field(key: str, value: str) -> AddField:
    label, _, unit = HEADS[key].partition(", ")
    return AddField(key=key, label=label, value=value, unit=unit)


def _shown(page: BoardPage, status: int = 200) -> Page:
    return Page(template="timber/board.html", page=page, status=status)


ROUTES = (
    Route(path=f"{HOME}/add", does=form, may=WORKSHOP),
    Route(path=f"{HOME}/add", does=add, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/board/{{board:path}}", does=look, may=WORKSHOP),
    Route(path=f"{HOME}/board/{{board:path}}", does=fault, may=WORKSHOP, method="POST"),
)
