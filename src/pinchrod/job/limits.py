"""How much is read, and between which sizes a size must lie. `docs/limits.md` lists them all."""

from dataclasses import dataclass

from pinchrod.ground import Mm, show

MEGABYTE = 1024 * 1024
LARGEST_LIST = 10 * MEGABYTE  # a list of frames
LARGEST_WORDS = 2 * MEGABYTE  # a job file or a workshop file
MOST_LINES = 100_000  # of a job file or a workshop file
MOST_NESTING = 32  # tables and lists inside each other
MOST_DIGITS = 20  # of one number
MOST_FRAMES = 2_000
MOST_PIECES = 40_000  # members of all frames together, alike ones counted each
MOST_ROWS = 20_000
MOST_COLUMNS = 64
MOST_CELLS = 60_000  # filled cells of a workbook's sheet
MOST_CELLS_OF_TEXT = 240_000  # of a list saved as text, blank ones too
MOST_CELL_TEXT = 1_000  # characters
MOST_BOARDS = 2_000
MOST_FAULTS = 100  # of one board
MOST_OFFERS = 100  # of one file
MOST_NAME = 80
MOST_NOTE = 2_000
MOST_UNPACKED = 50 * MEGABYTE  # of a workbook
MOST_PARTS = 200  # files inside a workbook
MOST_RATIO = 100  # of a workbook's unpacked size to its size


@dataclass(frozen=True, slots=True)
class Between:
    """The least and the most that a size may be. Only what is counted in mm may be said in inches."""

    low: Mm
    high: Mm
    unit: str = "mm"

    def __str__(self) -> str:
        """The two ends, with the unit: `5 to 100 mm`."""
        return f"{in_unit(self.low, '')} to {in_unit(self.high, self.unit)}"


def between(low: str | int, high: str | int, unit: str = "mm") -> Between:
    """The two ends as written."""
    return Between(Mm(low), Mm(high), unit)


def in_unit(size: Mm, unit: str) -> str:
    """A size with its unit, exact if its decimals end: `9 mm`, `0.95`."""
    return f"{show(size, Mm('0.00001'))} {unit}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """A size that stands when the job says nothing, and how the papers own up to it."""

    table: str
    key: str
    size: Mm
    between: Between
    saying: str  # {} is the size


ALIKE = between(1, 999, "")  # frames of one row
MEMBER = between(1, 300)
GAP = between(0, 20)

USUAL = (
    Usual(table="job", key="thickness", size=Mm(22), between=between(5, 100), saying="members {} thick"),
    Usual(table="bead", key="width", size=Mm(9), between=between(0, 100), saying="bead {} wide"),
    Usual(table="bead", key="quirk", size=Mm(2), between=between(0, 100), saying="quirk {} wide"),
    Usual(table="members", key="stile", size=Mm(45), between=MEMBER, saying="stiles {} wide"),
    Usual(table="members", key="top_rail", size=Mm(60), between=MEMBER, saying="top rails {} wide"),
    Usual(table="members", key="mid_rail", size=Mm(38), between=MEMBER, saying="rails between {} wide"),
    Usual(
        table="members",
        key="bottom_rail",
        size=Mm(45),
        between=between(0, 300),
        saying="bottom rails {} wide",
    ),
    Usual(table="members", key="muntin", size=Mm(38), between=MEMBER, saying="muntins {} wide"),
    Usual(
        table="gaps", key="edge", size=Mm(2), between=GAP, saying="gap of {} round doors and drawer fronts"
    ),
    Usual(table="gaps", key="meeting", size=Mm(3), between=GAP, saying="gap of {} where two leaves meet"),
)
"""The contract's example values; its bead, members and gaps are common practice, no source."""

DOORS = (
    Usual(table="doors", key="stile", size=Mm(60), between=MEMBER, saying="door stiles {} wide"),
    Usual(table="doors", key="top_rail", size=Mm(60), between=MEMBER, saying="door top rails {} wide"),
    Usual(table="doors", key="bottom_rail", size=Mm(80), between=MEMBER, saying="door bottom rails {} wide"),
    Usual(table="doors", key="groove", size=Mm(10), between=between(1, 50), saying="door grooves {} deep"),
    Usual(table="doors", key="panel", size=Mm(6), between=between(1, 50), saying="door panels {} thick"),
    Usual(table="doors", key="side_room", size=Mm(3), between=GAP, saying="{} beside each door panel"),
    Usual(table="doors", key="end_room", size=Mm(1), between=GAP, saying="{} at each end of a door panel"),
)
"""Once the job has a table [doors]. Common practice, no source."""

FRONT_THICKNESS = between(5, 100)
FRAME_SIDE = between(20, 6000)
FRAME_SIZES = {
    "width": FRAME_SIDE,
    "height": FRAME_SIDE,
    "left_stile": MEMBER,
    "right_stile": MEMBER,
    "top_rail": MEMBER,
    "bottom_rail": between(0, 300),
    "mid_rail": MEMBER,
    "muntin": MEMBER,
    "foot": between(0, 6000),
}
RACK_SIZES = {
    "thickness": between(3, 300),
    "width": between(20, 2000),
    "length": between(100, 20000),
    "bow": between(0, 500),
    "spring": between(0, 500),
    "price": between(0, 1_000_000, ""),
}
OFFER_SIZES = {
    "thickness": RACK_SIZES["thickness"],
    "width": RACK_SIZES["width"],
    "length": RACK_SIZES["length"],
    "price": between("0.01", 1_000_000, ""),
}
SMALL_SIDE = Mm(100)  # a frame's side below this may have been meant in inches

TIMBER_FIGURES = {
    "density": between(50, 1500, "kg/m3"),
    "radial": between(0, "0.02", "per % of moisture"),
    "tangential": between(0, "0.02", "per % of moisture"),
}

TITLE_WORDS = {"owner": MOST_NAME, "number": 16, "revision": 2, "drawn_by": 20, "approved_by": 20}
"""Most characters of each field of the title block: ISO 7200, as a help page of a drawing program lists
its fields (the standard itself was not read); it gives no length for the owner, so that one is ours."""
