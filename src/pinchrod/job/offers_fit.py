"""Whether what is offered can be used for the job at all."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, Problem, show
from pinchrod.job.offers import Offer
from pinchrod.job.records import Frame
from pinchrod.job.shop import Practice


def check_useful(
    offers: Sequence[Offer], thickness: Mm, frames: Sequence[Frame], practice: Practice
) -> Iterator[Problem]:
    """Offers of which no board gives a single stick. A workshop's are for all its jobs, so are not asked."""
    for offer in offers:
        found = _unfit(offer, thickness, narrowest(frames), practice)
        if found:
            mend = "nothing of it will be bought; look whether its sizes are right"
            yield Problem(
                where=offer.where.called(offer.name), code="offer-unfit", what=found, mend=mend, stops=False
            )


def narrowest(frames: Sequence[Frame]) -> Mm:
    """The narrowest member that a frame of these may have; 0 without frames."""
    widths = [
        width
        for frame in frames
        for width in (
            frame.left_stile,
            frame.right_stile,
            frame.top_rail,
            frame.bottom_rail,
            frame.mid_rail,
            frame.muntin,
        )
        if width
    ]
    return min(widths, default=Mm(0))


def _unfit(offer: Offer, thickness: Mm, width: Mm, practice: Practice) -> str:
    """Why no board of it gives a stick; nothing if one may."""
    thick, wide = thickness + practice.skim, width + practice.width_allowance + 2 * practice.board_edge
    if offer.is_fixed and offer.thickness == thickness and offer.width.low >= width:
        return ""  # planed lengths: nothing is lost cleaning them up
    if offer.thickness < thick:
        return f"{show(offer.thickness)} thick is too thin: the job needs {show(thick)} with the skim"
    if offer.width.high < wide:
        least = f"its narrowest member needs {show(wide)} with its allowance and both edges"
        return f"{show(offer.width.high)} wide is too narrow for the job: {least}"
    if offer.length.high < practice.shortest_stick:
        shortest = f"the shortest stick is {show(practice.shortest_stick)}"
        return f"{show(offer.length.high)} long is too short: {shortest}"
    return ""
