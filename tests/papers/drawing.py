"""Builders of marks for the tests of sheets and writers."""

from itertools import pairwise

from pinchrod.papers import (
    CENTRE,
    HIDDEN,
    WIDE,
    Arc,
    Chain,
    Circle,
    Dimension,
    Line,
    Mark,
    Papers,
    Path,
    Rows,
    RunningDimension,
    Sheet,
    Spot,
    Squares,
    Words,
    placed,
    qr_rows,
)

WIDTH, HEIGHT = 900.0, 720.0
POINTS_PER_MM = 72 / 25.4


def a_sheet(*marks: Mark, width: float = 210, height: float = 297, title: str = "K1") -> Sheet:
    return Sheet(width=width, height=height, marks=marks, title=title)


def some_papers(*sheets: Sheet, title: str = "Saltmarsh Row, plot 7") -> Papers:
    return Papers(title=title, sheets=sheets)


def a_level_chain(*stops: float, y: float = 0.0, away: float = 10.0) -> Chain:
    texts = tuple(f"{b - a:g}" for a, b in pairwise(stops))
    return Chain(tuple(Spot(x, y) for x in stops), texts, away=away)


def a_frame() -> tuple[Mark, ...]:
    """A frame drawn true, with two rows of dimensions over it and two to its right."""
    corners = (Spot(0, 0), Spot(WIDTH, 0), Spot(WIDTH, HEIGHT), Spot(0, HEIGHT))
    along = (0, 45, 436, 474, 855, WIDTH)
    upright = Chain(
        tuple(Spot(WIDTH, y) for y in (0, 45, 480, 518, 660, HEIGHT)),
        ("45", "435", "38", "142", "60"),
        axis="y",
    )
    overall = Dimension(Spot(0, HEIGHT), Spot(WIDTH, HEIGHT), "900")
    overall_height = Dimension(Spot(WIDTH, 0), Spot(WIDTH, HEIGHT), "720", axis="y", auxiliary=True)
    return (
        Path(corners, pen=WIDE),
        Path((Spot(45, 45), Spot(855, 45), Spot(855, 660), Spot(45, 660)), pen=HIDDEN, layer="hidden"),
        Line(Spot(455, -30), Spot(455, 750), pen=CENTRE, layer="centre"),
        Words(Spot(200, 250), "K1.1 pair", anchor="middle"),
        Rows((a_level_chain(*along, y=HEIGHT), overall)),
        Rows((upright, overall_height)),
        RunningDimension(
            Spot(0, 0), tuple(Spot(x, 0) for x in (45, 50, 54, 474)), ("45", "50", "54", "474"), away=-10
        ),
    )


def a_page() -> Sheet:
    """A page with every kind of mark."""
    return a_sheet(
        *placed(a_frame(), scale=0.1, dx=50, dy=150),
        Circle(Spot(30, 30), 8, fill="tint"),
        Words(Spot(30, 28.25), "tint", anchor="middle"),
        Arc(Spot(30, 30), 12, 10, 170, pen=HIDDEN),
        Path((Spot(60, 20), Spot(70, 20), Spot(65, 28)), fill="black"),
        Words(Spot(20, 280), "Saltmarsh Row, plot 7", size=5, bold=True),
        Words(Spot(205, 200), "turned", size=2.5, turn=90, anchor="middle"),
        Squares(Spot(100, 20), 0.5, qr_rows("J1000/K1-LS")),
    )
