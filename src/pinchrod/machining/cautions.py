"""The two or three cautions that belong on each card, and the words that stand under all of them.

General practice; the machine's manual, local law (in Great Britain PUWER and its approved code for
woodworking machines) and trained practice decide.
"""

from pinchrod.ground import show
from pinchrod.job import Machines, Practice

WHO_DECIDES = (
    "This advises. The machine's manual, local law (in Great Britain PUWER and its approved code for"
    " woodworking machines) and trained practice decide."
)

ISOLATE = "Isolate the machine before setting it."
DUST = "Extraction on, and a mask; the national authority's current limits for dust decide."
HEARING = "Wear hearing protection."
BRAKE = "A tool that does not stop within 10 seconds wants mending before it is used."


def too_short(practice: Practice) -> str:
    """Nothing shorter than the shop's shortest stick goes through."""
    return f"Nothing shorter than {show(practice.shortest_stick)} mm goes through."


def at_rip_saw() -> tuple[str, ...]:
    """At the rip saw."""
    return ("Guard and riving knife on; push stick for the end of each cut.", BRAKE, DUST)


def at_crosscut_saw() -> tuple[str, ...]:
    """At the crosscut saw."""
    return ("Guard down, and hands clear of the line of cut.", ISOLATE, HEARING)


def at_planer(practice: Practice) -> tuple[str, ...]:
    """At the planer."""
    return (
        "Bridge guard over the block; push blocks, never a hand over the cutters.",
        too_short(practice),
        DUST,
    )


def at_changing_over() -> tuple[str, ...]:
    """When one machine is changed over from planing to thicknessing."""
    return (ISOLATE, "Guards and extraction hood back in place before it runs.")


def at_thicknesser(practice: Practice) -> tuple[str, ...]:
    """At the thicknesser."""
    return (too_short(practice), "Stand to one side of the wood, and never reach into the machine.", HEARING)


def at_moulder(machines: Machines, practice: Practice, *, pieces_cut: bool) -> tuple[str, ...]:
    """At the moulder: back cutting is for a power feed and a light cut only."""
    if not machines.moulder.power_feed:
        return (
            "Feed against the cutter: never climb cut by hand.",
            "Guards, pressure pads and push sticks; chip-limited tools only, marked MAN (EN 847-1).",
            _short_pieces(practice, pieces_cut=pieces_cut),
        )
    return (
        "Set the power feed so that it presses to the fence.",
        "Climb cut only with the power feed and a light cut, never by hand.",
        _short_pieces(practice, pieces_cut=pieces_cut),
    )


def _short_pieces(practice: Practice, *, pieces_cut: bool) -> str:
    """Sticks are long enough; pieces cut to length already may not be."""
    if not pieces_cut:
        return ISOLATE
    return f"Pieces shorter than {show(practice.shortest_stick)} mm go past the cutter in a holder only."


def at_notcher(*, router_table: bool) -> tuple[str, ...]:
    """At the notching machine, or the router table that does its work."""
    if router_table:
        return (
            "Feed against the cutter, the piece clamped in a carriage: never climb cut by hand.",
            "Isolate the router before moving a stop.",
            DUST,
        )
    return ("Hands clear of the knives; guard on.", "Isolate the machine before moving a stop.")


def at_slotter() -> tuple[str, ...]:
    """Where slots, mortices and holes are cut."""
    return ("Clamp the piece; hold none by hand.", "Isolate the machine before changing the cutter.", DUST)
