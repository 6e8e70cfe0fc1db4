"""Little pictures for the bench: a frame with one piece of it blackened, or with its order of gluing."""

from collections.abc import Iterator

from markupsafe import Markup

from pinchrod.bench import Gluing
from pinchrod.papers import NARROW, WIDE, Box, Mark, Path, Sheet, Spot, glue_picture, sheet_around, write_svg
from pinchrod.setting_out import Rod
from pinchrod.web.templates import drawing

ROOM = 90.0  # mm that the longer side of a frame takes
MARGIN = 4.0


def piece_picture(rod: Rod, member: str) -> Markup:
    """The frame from its face, the piece filled."""
    return _svg(sheet_around(tuple(_frame(rod, member)), margin=MARGIN, title=f"Where {member} is"))


def gluing_picture(rod: Rod, gluing: Gluing) -> Markup:
    """The frame with the step at which each member goes on."""
    marks = tuple(glue_picture(rod, gluing, Box(0.0, -ROOM, ROOM, 0.0)))
    return _svg(sheet_around(marks, margin=MARGIN, title=f"Order of gluing {gluing.frame}"))


def _frame(rod: Rod, filled: str) -> Iterator[Mark]:
    scale = ROOM / max(float(rod.frame.width), float(rod.frame.height))
    for member in rod.members:
        corners = tuple(Spot(float(x) * scale, float(y) * scale) for x, y in member.outline)
        mine = member.name == filled
        yield Path(corners, pen=WIDE if mine else NARROW, fill="black" if mine else "white")


def _svg(sheet: Sheet) -> Markup:
    return drawing(write_svg(sheet))
