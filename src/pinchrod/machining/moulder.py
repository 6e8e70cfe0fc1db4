"""The moulder: how fast it cuts, what marks it leaves, and the bead stuck on all that needs it, set once.

Rim speed pi.D.n/60000 m/s; pitch of cutter marks 1000.f/(n.z) mm; their height p2/(4D). Textbook formulas; z
counts only knives that really cut: one, unless they are jointed (common practice, no source).
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import INCH, Mm
from pinchrod.job import Moulder
from pinchrod.machining.pieces import Wood
from pinchrod.machining.roughs import Rough
from pinchrod.setting_out import Edge

PI = Mm("3.14159265358979")


@dataclass(frozen=True, slots=True, kw_only=True)
class CutterMarks:
    """What a moulder's speed, feed and knives come to."""

    rim_speed: Mm  # m/s
    pitch: Mm  # mm from mark to mark
    wave: Mm  # mm from crest to hollow

    @property
    def to_the_inch(self) -> Mm:
        """Marks in an inch, as American tables count."""
        return INCH / self.pitch


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """A quality of work and the widest pitch of marks it allows, with where that is from."""

    name: str
    pitch: Mm
    source: str


FINISHES = (
    Finish(
        name="fine detail in hardwood",
        pitch=INCH / 50,
        source="50 marks an inch: FDMC, Feed rates, cutter marks and finish quality",
    ),
    Finish(
        name="finished joinery",
        pitch=INCH / 20,
        source="20 marks an inch at least: FDMC, January 2009, Knife marks per inch",
    ),
    Finish(
        name="simple shallow profiles in softwood",
        pitch=INCH / 16,
        source="16 to 20 marks an inch: FDMC, Feed rates, cutter marks and finish quality",
    ),
    Finish(
        name="low grade",
        pitch=INCH / 12,
        source="12 marks an inch: a maker of moulding knives",
    ),
)
"""From fine to coarse. The articles differ, and a British workshop would say 1.0 to 1.5 mm for good joinery
(from memory); so they advise, and refuse nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedAdvice:
    """What the feed as set is good enough for, and between which feeds finished joinery is stuck.

    Below the slowest, marks are finer than any work asks for, and knives only rub (common practice, no
    source).
    """

    good_for: Finish | None  # None: coarser than any
    slowest: Mm  # m/min
    fastest: Mm  # m/min
    source: str  # of the marks that the two feeds leave


@dataclass(frozen=True, slots=True, kw_only=True)
class Beaded:
    """A piece and the edges of it that are beaded."""

    piece: str
    edges: tuple[Edge, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadRun:
    """All of one section and number of beads. With two, each goes through again, turned end for end."""

    width: Mm
    thickness: Mm
    beads: int
    through: tuple[str, ...]  # sticks, or pieces where each goes through by itself
    pieces: tuple[Beaded, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moulding:
    """The bead of a job: one setting of cutter and fence, and the runs in their order."""

    bead: Mm
    quirk: Mm
    marks: CutterMarks
    advice: FeedAdvice
    runs: tuple[BeadRun, ...]


def cutter_marks(moulder: Moulder) -> CutterMarks:
    """Rim speed, pitch and wave height of a moulder as the workshop runs it."""
    pitch = 1000 * moulder.feed / (moulder.speed * knives_that_cut(moulder))
    return CutterMarks(
        rim_speed=PI * moulder.diameter * moulder.speed / 60000,
        pitch=pitch,
        wave=pitch**2 / (4 * moulder.diameter),
    )


def knives_that_cut(moulder: Moulder) -> int:
    """How many knives leave a mark: all if they are jointed, else only the one that stands out furthest."""
    return moulder.knives if moulder.jointed else 1


def feed_advice(moulder: Moulder) -> FeedAdvice:
    """The finest work that the feed as set is good enough for, and the feeds for finished joinery."""
    pitch = cutter_marks(moulder).pitch
    fine, finished = FINISHES[:2]
    return FeedAdvice(
        good_for=next((finish for finish in FINISHES if pitch <= finish.pitch), None),
        slowest=feed_for(moulder, fine.pitch),
        fastest=feed_for(moulder, finished.pitch),
        source=f"{finished.source}; {fine.source}",
    )


def feed_for(moulder: Moulder, pitch: Mm) -> Mm:
    """The feed in m/min that leaves marks so far apart."""
    return pitch * moulder.speed * knives_that_cut(moulder) / 1000


def bead_runs(roughs: Iterable[Rough], woods: Iterable[Wood]) -> tuple[BeadRun, ...]:
    """Runs of one section and number of beads: thick before thin, wide before narrow, two beads before one.

    A bead stands against fence and table in the same way on either edge: the second one is stuck with the
    stick turned end for end, its face on the same side. So cutter and fence are set once for the job.
    """
    edges = {mark: wood.member.beads for wood in woods for mark in wood.marks}
    runs: dict[tuple[Mm, Mm, int], list[Rough]] = defaultdict(list)
    for rough in roughs:
        if rough.beads:
            runs[rough.finished_thickness, rough.finished_width, rough.beads].append(rough)
    return tuple(
        BeadRun(
            width=width,
            thickness=thickness,
            beads=beads,
            through=tuple(rough.name for rough in runs[thickness, width, beads]),
            pieces=tuple(
                Beaded(piece=mark, edges=edges[mark])
                for rough in runs[thickness, width, beads]
                for mark in rough.pieces
            ),
        )
        for thickness, width, beads in sorted(runs, reverse=True)
    )
