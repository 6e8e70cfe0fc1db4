"""The outside of a frame: its stiles, its top and bottom rails, and the space they leave."""

from pinchrod.ground import Mm, Problem, Span, show
from pinchrod.job import Frame
from pinchrod.setting_out.divide import Bar, Space
from pinchrod.setting_out.member import Role


def carcase(frame: Frame) -> tuple[Space, tuple[Bar, ...]]:
    """The clear space of a frame that `carcase_faults` passes, and the bars round it."""
    tall, wide = Span(Mm(0), frame.height), Span(Mm(0), frame.width)
    left = Bar(role=Role.LEFT_STILE, along=tall, across=Span(Mm(0), frame.left_stile))
    right = Bar(role=Role.RIGHT_STILE, along=tall, across=Span(wide.high - frame.right_stile, wide.high))
    between = Span(left.across.high, right.across.low)
    top = _rail(Role.TOP_RAIL, between, Span(tall.high - frame.top_rail, tall.high), left, right)
    bottom = None
    if frame.bottom_rail:
        across = Span(frame.foot, frame.foot + frame.bottom_rail)
        bottom = _rail(Role.BOTTOM_RAIL, between, across, left, right)
    clear = Span(bottom.across.high if bottom else Mm(0), top.across.low)
    space = Space(x=between, y=clear, left=left, right=right, lower=bottom, upper=top)
    return space, (left, right, top, *((bottom,) if bottom else ()))


def carcase_faults(frame: Frame) -> tuple[Problem, ...]:
    """Why the members round a frame leave no space in it, if they do not."""
    across = (("left stile", frame.left_stile), ("right stile", frame.right_stile))
    up = (("top rail", frame.top_rail), ("bottom rail", frame.bottom_rail), ("foot", frame.foot))
    found = (
        _no_space(frame, "width", frame.width, across),
        _no_space(frame, "height", frame.height, up),
    )
    return tuple(problem for problem in found if problem)


def _rail(role: Role, along: Span, across: Span, left: Bar, right: Bar) -> Bar:
    return Bar(role=role, along=along, across=across, low=left, high=right)


def _no_space(frame: Frame, side: str, room: Mm, parts: tuple[tuple[str, Mm], ...]) -> Problem | None:
    taken = sum((size for _, size in parts), Mm(0))
    if taken < room:
        return None
    said = " + ".join(f"{name} {show(size)}" for name, size in parts if size)
    return Problem(
        where=frame.where.called(frame.id),
        code="no-opening-left",
        what=f"{said} come to {show(taken)}, and the frame's {side} is {show(room)}: no opening is left",
        mend=f"make the frame's {side} more than {show(taken)}, or those members smaller",
    )
