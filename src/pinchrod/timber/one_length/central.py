"""Worths from the middle of all the best ones: they leave the fewest bars to choose from.

The simplex method gives worths at a corner, where many bars lose nothing by accident. An interior
point gives worths at which only those bars lose nothing that some best plan in parts could use.
"""

from pinchrod.timber.one_length.counted import Counted
from pinchrod.timber.one_length.master import Master, in_whole_numbers, middle
from pinchrod.timber.one_length.worths import Worths, price_out

ROUNDS = 20
NEAR_ENOUGH = 1e-6  # of the cost
MANY = 100


def central(counted: Counted, master: Master, corner: Worths, scale: int) -> Worths:
    """Fair worths from the middle, with nearly the corner's bound; the corner itself if that fails."""
    aim = corner.total(counted) / corner.scale
    master.want(counted)
    best = corner
    for _ in range(ROUNDS):
        priced = price_out(counted, in_whole_numbers(*middle(master), scale), MANY)
        short = aim - priced.fair.total(counted) / priced.fair.scale
        if short <= NEAR_ENOUGH * aim:
            best = priced.fair
        if not master.add(priced.bars):
            break
    return best
