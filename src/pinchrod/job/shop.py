"""The workshop: what it has and how it works. Every figure has the built-in small workshop's default.

Defaults are common practice, no source, unless a line says otherwise.
"""

from dataclasses import dataclass, field

from pinchrod.ground import Mm
from pinchrod.job.bench_habits import Glue, Spoiled, Taping
from pinchrod.job.offers import Offer


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice:
    """Habits of the workshop."""

    resolution: Mm = Mm("0.1")  # what a tape and a stop can be set to
    settings_as_shown: bool = False  # take stop settings that show the same at that resolution for one
    least_web: Mm = Mm(15)  # doubt a member with less wood than this behind a notch
    width_allowance: Mm = Mm(4)
    stick_end: Mm = Mm(25)
    shortest_stick: Mm = Mm(300)
    longest_stick: Mm = Mm(3600)
    board_edge: Mm = Mm(5)
    skim: Mm = Mm("1.5")
    confidence: Mm = Mm("0.95")


@dataclass(frozen=True, slots=True, kw_only=True)
class Notcher:
    """A machine whose knife has a flat between flanks at 45 degrees."""

    have: bool = True
    router_table: bool = False  # a router table does its work: it must notch before the bead is stuck
    flat: Mm = Mm(20)
    reach_left: Mm = Mm(1500)
    reach_right: Mm = Mm(1500)
    notches_before_bead: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """A saw and what its blade takes away."""

    kerf: Mm
    have: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Planer:
    """A surface planer (US: jointer)."""

    have: bool = True
    combined: bool = False  # one machine with the thicknesser, changed over between the two


@dataclass(frozen=True, slots=True, kw_only=True)
class Thicknesser:
    """A thickness planer: deepest pass, and the shallowest and deepest last pass."""

    have: bool = True
    deepest_pass: Mm = Mm("2.5")
    final_pass: tuple[Mm, Mm] = (Mm("0.75"), Mm(1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Moulder:
    """A spindle moulder: cutting circle, speed in rev/min, knives, feed in m/min."""

    have: bool = True
    diameter: Mm = Mm(125)
    speed: Mm = Mm(6000)
    knives: int = 2
    jointed: bool = False  # trued while they turn, so that all knives cut; else one does
    feed: Mm = Mm(6)
    power_feed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Slotter:
    """What cuts slots, mortices, holes and hinge seats against stops, and how far those stand."""

    have: bool = True
    reach_left: Mm = Mm(1500)
    reach_right: Mm = Mm(1500)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tenoner:
    """What cuts tenons: a tenoning machine, or a carriage that does its work."""

    have: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Machines:
    """The machines there are."""

    rip_saw: Saw = Saw(kerf=Mm(4))
    crosscut_saw: Saw = Saw(kerf=Mm("3.2"))
    planer: Planer = Planer()
    thicknesser: Thicknesser = Thicknesser()
    moulder: Moulder = Moulder()
    notcher: Notcher = Notcher()
    slotter: Slotter = Slotter()
    tenoner: Tenoner = Tenoner()


@dataclass(frozen=True, slots=True, kw_only=True)
class DovetailKey:
    """A key let into the back across the joint, half in each piece."""

    one_up_to: Mm = Mm(60)  # member width; two above
    deep: Mm = Mm(10)
    reach: Mm = Mm(8)  # of the slot into each piece, square from the joint; two leave 4 in a 38 mm muntin
    wide: Mm = Mm(15)  # of the slot, along the joint


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseTenon:
    """A tenon glued into a mortice in each piece."""

    one_up_to: Mm = Mm(80)  # member width; two above
    deep: Mm = Mm(25)
    thick: Mm = Mm(10)
    wide: Mm = Mm(50)  # cut down where the joint is too narrow for it
    wall: Mm = Mm(5)  # least wood left beside a mortice at each end of the joint


@dataclass(frozen=True, slots=True, kw_only=True)
class Dowel:
    """Dowels, half in each piece."""

    number: int = 2
    diameter: Mm = Mm(8)
    long: Mm = Mm(40)
    wall: Mm = Mm(1)  # least wood left between a hole and the end of the joint


@dataclass(frozen=True, slots=True, kw_only=True)
class MorticeAndTenon:
    """A tenon worked on the arriving member, in shares of the frame's thickness and the joint's width.

    At a frame's corner the tenon is set in from the end by a haunch, so that the mortice stays closed.
    """

    long: Mm = Mm(40)
    thickness_share: Mm = Mm("1/3")
    haunch_share: Mm = Mm("1/3")


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketScrew:
    """Screws from the back of the arriving member, in pockets bored at a slope."""

    number: int = 2
    diameter: Mm = Mm(10)
    from_end: Mm = Mm(38)  # where the pocket begins, back from the joint


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixings:
    """How each joint is drawn together."""

    dovetail_key: DovetailKey = DovetailKey()
    loose_tenon: LooseTenon = LooseTenon()
    dowel: Dowel = Dowel()
    mortice_and_tenon: MorticeAndTenon = MorticeAndTenon()
    pocket_screw: PocketScrew = PocketScrew()


@dataclass(frozen=True, slots=True, kw_only=True)
class HingeStep:
    """Up to this measure (mm of height, or kg), so many hinges."""

    up_to: Mm
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Hinges:
    """Butt hinges: size, and how many by height and by weight; the greater number counts.

    By height: 40, 60, 80 and 85 in; by weight: 6 and 12 kg. Both were read in
    hardware pages that disagree with others, so they are settings.
    """

    long: Mm = Mm(63)
    clear_of_notch: Mm = Mm(10)
    by_height: tuple[HingeStep, ...] = (
        HingeStep(up_to=Mm(1016), number=2),
        HingeStep(up_to=Mm(1524), number=3),
        HingeStep(up_to=Mm(2032), number=4),
        HingeStep(up_to=Mm(2159), number=5),
    )
    by_weight: tuple[HingeStep, ...] = (
        HingeStep(up_to=Mm(6), number=2),
        HingeStep(up_to=Mm(12), number=3),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Moisture:
    """Moisture of the timber when made, and what it will meet in the room, in per cent.

    Driest and wettest: EN 942 Table B.1, internal joinery heated to 12-21 C, as cited by a door maker.
    """

    made: Mm = Mm(11)
    driest: Mm = Mm(9)
    wettest: Mm = Mm(13)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSheet:
    """A sheet of labels by its numbers, in mm: columns and rows, label size, margins and pitch."""

    page_width: Mm = Mm(210)
    page_height: Mm = Mm(297)
    columns: int = 2
    rows: int = 7
    width: Mm = Mm("99.1")
    height: Mm = Mm("38.1")
    left: Mm = Mm("4.65")
    top: Mm = Mm("15.15")
    column_pitch: Mm = Mm("101.6")
    row_pitch: Mm = Mm("38.1")
    first: int = 1  # label to start at, on a sheet partly used


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperChoices:
    """What papers are printed on."""

    size: str = "A4"  # A4 | Letter
    printer_dots_per_inch: int = 203


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """One workshop, for all its jobs."""

    practice: Practice = Practice()
    machines: Machines = Machines()
    fixings: Fixings = Fixings()
    hinges: Hinges = Hinges()
    moisture: Moisture = Moisture()
    labels: LabelSheet = field(default_factory=LabelSheet)
    papers: PaperChoices = PaperChoices()
    spoiled: Spoiled = field(default_factory=Spoiled)
    glue: Glue = field(default_factory=Glue)
    taping: Taping = field(default_factory=Taping)
    offers: tuple[Offer, ...] = ()  # what its merchants sell
