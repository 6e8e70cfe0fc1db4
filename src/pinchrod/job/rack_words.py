"""A rack as it is typed: a row of words for each board, to be changed and written as a list again."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Problem, Where
from pinchrod.job.board_faults import faults_said
from pinchrod.job.board_list import BOARDS
from pinchrod.job.boards import Fault
from pinchrod.job.said import Number, Said, Table, gathered
from pinchrod.job.source import Source
from pinchrod.job.tables.csv_cells import cells_of
from pinchrod.job.tables.csv_file import separator_of
from pinchrod.job.tables.list_file import read_list
from pinchrod.job.words import words_of

RACK_COLUMNS = BOARDS.keys
"""What may be said of a board, in the order in which its words stand in a row."""

BoardWords = tuple[str, ...]
"""What is said of one board, a word for each of `RACK_COLUMNS`; an empty one where nothing is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackWords:
    """What is said of every board, and what parts the cells: with ";" between them a comma may be decimal."""

    boards: tuple[BoardWords, ...] = ()
    separator: str = ","

    def named(self, name: str) -> BoardWords | None:
        """The board of that name, if there is one."""
        return next((board for board in self.boards if board[0] == name), None)


def rack_words(source: Source) -> RackWords:
    """The boards of a list that was read before, each cell as it was typed."""
    rows, _ = gathered(read_list(source, BOARDS))
    text = gathered(words_of(source, western=True))[0] if source.ending == ".csv" else None
    separator = "," if text is None else separator_of(text, BOARDS.keys)[0]
    return RackWords(boards=tuple(_words(row) for _, row in rows), separator=separator)


def rack_words_pasted(text: str, order: tuple[str, ...] = RACK_COLUMNS) -> tuple[BoardWords, ...]:
    """Rows copied from a spreadsheet, by the names in their first row; without such, in that order."""
    lines = [[cell.words.strip() for cell in line] for line in cells_of(_lines(text), _parted_by(text))]
    rows = [line for line in lines if any(line)]
    keys = [BOARDS.named(cell) for cell in rows[0]] if rows else []
    if any(keys):
        return tuple(_by_name(keys, row) for row in rows[1:])
    return tuple(_by_name(order, row) for row in rows)


def rack_list(name: str, rack: RackWords) -> Source:
    """The boards as a list of that name; a row in which nothing is said is left out."""
    lines = (RACK_COLUMNS, *filter(any, map(_tidied, rack.boards)))
    text = "".join(f"{rack.separator.join(_written(row, rack.separator))}\n" for row in lines)
    return Source(name=name, content=text.encode())


def rack_cell_of(rack: RackWords, problem: Problem) -> tuple[int, str] | None:
    """The row, from 0, and the column that a problem is about, if its list was written from these words.

    What is not said at all is told where its row begins: it belongs into the cell that was left blank.
    """
    filled = [place for place, board in enumerate(rack.boards) if any(_tidied(board))]
    at = problem.where.line - 2  # the header stands in line 1
    if not 0 <= at < len(filled):
        return None
    board = _tidied(rack.boards[filled[at]])
    return filled[at], _left_blank(board, problem) or _column_at(board, rack.separator, problem.where.column)


def faults_in(words: str) -> tuple[Fault, ...]:
    """The faults that can be read in a cell of the rack; the list's reader tells of all else in it."""
    nowhere = Where()
    said = Said(value=words, at=nowhere, key_at=nowhere, words_at=nowhere)
    return tuple(one.fault for one in gathered(faults_said(said))[0])


def with_fault(board: BoardWords, fault: str) -> BoardWords:
    """The board with a fault more, as its list says it: `840-905@30-60 back`."""
    before = board[-1].strip().rstrip(";")
    return (*board[:-1], f"{before}; {fault}" if before else fault)


def _lines(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n").strip("\n")


def _parted_by(text: str) -> str:
    """What parts the cells: a spreadsheet copies with tabs, a list saved as text has its own."""
    return "\t" if "\t" in text else separator_of(text, BOARDS.keys)[0]


def _by_name(keys: Sequence[str | None], row: Sequence[str]) -> BoardWords:
    """The cells of a row under their names, in the order of a board's words."""
    said = {key: words for key, words in zip(keys, row, strict=False) if key}
    return tuple(said.get(key, "") for key in RACK_COLUMNS)


def _left_blank(board: BoardWords, problem: Problem) -> str:
    wanted = (
        key for key, words in zip(RACK_COLUMNS, board, strict=True) if key in BOARDS.needed and not words
    )
    name = {key: "the board's name" if key == "board" else f"the {key}" for key in RACK_COLUMNS}
    return next((key for key in wanted if problem.what.startswith(f"{name[key]} is not said")), "")


def _column_at(board: BoardWords, separator: str, column: int) -> str:
    """The column in which a line's letter of that number stands. Faults with marks in them have no number."""
    if not column:
        return "faults"
    end = 0
    for key, cell in zip(RACK_COLUMNS, _written(board, separator), strict=True):
        end += len(cell) + 1
        if column <= end:
            return key
    return RACK_COLUMNS[-1]


def _words(row: Table) -> BoardWords:
    return tuple(_typed(key, row.get(key)) for key in RACK_COLUMNS)


def _typed(key: str, said: Said | None) -> str:
    """A cell's words as the joiner would type them: a number of a workbook by its digits."""
    if said is None:
        return ""
    if isinstance(said.value, Number) and key not in BOARDS.words:
        return said.value.text
    return said.shown


def _tidied(board: BoardWords) -> BoardWords:
    """The words without blanks at their ends, each on one line."""
    return tuple(" ".join(words.split()) for words in board)


def _written(board: BoardWords, separator: str) -> Iterator[str]:
    """The cells as a list writes them, in quotes where they hold what parts cells, or a quotation mark."""
    for words in board:
        marked = set(words) & {separator, '"'}
        yield '"' + words.replace('"', '""') + '"' if marked else words
