"""How far wood moves across its grain as its moisture changes.

USDA Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2: change of size = size x C x change of moisture, with C the
coefficient of Table 13-5 in share of size per per cent of moisture; it holds from 6 to 14 % moisture.
"""

from pinchrod.ground import Mm

DRIEST_KNOWN, WETTEST_KNOWN = Mm(6), Mm(14)


def change_across(size: Mm, coefficient: Mm, moisture: Mm, later: Mm) -> Mm:
    """By how many mm a size across the grain grows (or, below 0, shrinks) between two moistures in per cent.

    `coefficient` is C_T for flat-sawn wood, C_R for quarter-sawn. Moistures outside 6 to 14 % raise
    ValueError: the equation does not hold there.
    """
    if not all(DRIEST_KNOWN <= each <= WETTEST_KNOWN for each in (moisture, later)):
        raise ValueError(f"Eq. 13-2 holds from 6 to 14 % moisture, not from {moisture} to {later}")
    return size * coefficient * (later - moisture)
