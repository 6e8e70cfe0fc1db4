"""What the workshop knows of its bench: how often a piece is spoiled, how it glues up, how it tapes.

Defaults are common practice, no source, unless a line says otherwise.
"""

from dataclasses import dataclass

from pinchrod.ground import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What the shop has counted of pieces up to this length: so many made, so many of them spoiled."""

    up_to: Mm
    made: int
    spoiled: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoiled:
    """How often a piece is spoiled between saw and bench, and what that costs.

    Before anything is counted it is reckoned with as if `usual_spoiled` pieces had been spoiled beside
    `usual_good` good ones; what is counted is added to these. A `rate` that is said is taken at its word.
    """

    rate: Mm = Mm(0)  # share of pieces spoiled; 0: not said, so that the tally counts
    usual_spoiled: int = 1
    usual_good: int = 39
    tally: tuple[Tally, ...] = ()
    spare_cost: Mm = Mm(0)  # wood and work of one spare piece; 0: not known
    set_up_cost: Mm = Mm(0)  # of setting up again for one piece spoiled too many; 0: not known


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue:
    """Times from the glue's label, here a usual PVA's, and how hard a joint is pressed.

    Pressures are a glue maker's, quoted in a magazine; a hobby page asks for half to three quarters of
    them, and a glue maker's help line for no more than closes the joint: so they are settings.
    """

    open_minutes: Mm = Mm(5)  # from the first glue spread to the last joint closed; 5 to 10 at 20 C, memory
    clamped_minutes: Mm = Mm(60)  # 30 to 60: a hobby page
    cured_hours: Mm = Mm(24)  # until it may be worked: the same page
    soft_below: Mm = Mm(560)  # kg/m3; wood less dense is pressed as soft wood
    soft_pressure: tuple[Mm, Mm] = (Mm("0.7"), Mm("1.0"))  # MPa
    hard_pressure: tuple[Mm, Mm] = (Mm("1.2"), Mm("1.7"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Taping:
    """How finely a frame is taped, and how much of a door's gap may taper."""

    reading: Mm = Mm("0.5")  # any length taped may be off by this
    taper: Mm = Mm("0.5")  # let pass in a door's gap, from one end to the other
