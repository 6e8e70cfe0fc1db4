"""All set-ups of a job, in order: what the machines are set to, and the pieces that go through each."""

from collections.abc import Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.job import Job, Shop
from pinchrod.machining.fewest import fewest_settings
from pinchrod.machining.lengths import LengthStop, StickCuts, length_stops, stick_cuts
from pinchrod.machining.moulder import Moulding, bead_runs, cutter_marks, feed_advice
from pinchrod.machining.passes import Passes, Planing, passes_of
from pinchrod.machining.pieces import Wood, woods_of
from pinchrod.machining.recesses import Recessing, recessing_of
from pinchrod.machining.roughs import Rough, roughs_of, usual_sawn
from pinchrod.machining.steps import Step, Work, notches_first, steps_of
from pinchrod.machining.stops import StopQuestion, Stops
from pinchrod.machining.strokes import notch_strokes
from pinchrod.setting_out import Rods
from pinchrod.timber import Breakout


@dataclass(frozen=True, slots=True, kw_only=True)
class Machining:
    """The set-ups of a job. `sawn` is the thickness taken for granted where no rack is named."""

    steps: tuple[Step, ...]
    roughs: tuple[Rough, ...]  # what goes over the planer
    notching: Stops
    recessing: tuple[Recessing, ...]
    lengths: tuple[LengthStop, ...]
    stick_cuts: tuple[StickCuts, ...]
    passes: tuple[Passes, ...]  # to thickness, then to width
    moulding: Moulding | None  # None: nothing is beaded
    sawn: Mm | None


def arrange(job: Job, shop: Shop, rods: Rods, breakout: Breakout | None = None) -> Machining:
    """The set-ups of a job that is set out, and broken out if it names a rack."""
    woods = woods_of(rods)
    roughs = roughs_of(woods, breakout, shop.practice)
    work = Work(
        job=job,
        shop=shop,
        woods=woods,
        roughs=roughs,
        sticks_known=breakout is not None,
        passes=_passes(roughs, shop),
        moulding=_moulding(job, shop, woods, roughs),
        lengths=length_stops(woods),
        notching=fewest_settings(notch_question(woods, shop)),
        recessing=_recessing(woods, shop),
    )
    return Machining(
        steps=steps_of(work),
        roughs=roughs,
        notching=work.notching,
        recessing=work.recessing,
        lengths=work.lengths,
        stick_cuts=stick_cuts(breakout.sticks, woods) if breakout else (),
        passes=work.passes,
        moulding=work.moulding,
        sawn=None if breakout else usual_sawn(job.thickness, shop.practice.skim),
    )


def notch_question(woods: Sequence[Wood], shop: Shop) -> StopQuestion:
    """What the notching of a job asks of the notcher's stops."""
    notcher = shop.machines.notcher
    return StopQuestion(
        strokes=tuple(notch_strokes(woods, notcher.flat)),
        reach_left=notcher.reach_left,
        reach_right=notcher.reach_right,
        step=setting_step(shop),
    )


def setting_step(shop: Shop) -> Mm:
    """Settings that show the same at this step are one; 0: only those exactly equal."""
    return shop.practice.resolution if shop.practice.settings_as_shown else Mm(0)


def _recessing(woods: Sequence[Wood], shop: Shop) -> tuple[Recessing, ...]:
    slotter = shop.machines.slotter
    return recessing_of(woods, slotter.reach_left, slotter.reach_right, setting_step(shop))


def _passes(roughs: Sequence[Rough], shop: Shop) -> tuple[Passes, ...]:
    """First everything to thickness, then everything on edge to width."""
    flat = tuple(Planing(name=it.name, sawn=it.thickness, finished=it.finished_thickness) for it in roughs)
    on_edge = tuple(Planing(name=it.name, sawn=it.width, finished=it.finished_width) for it in roughs)
    machine, step = shop.machines.thicknesser, shop.practice.resolution
    return passes_of("thickness", flat, machine, step), passes_of("width", on_edge, machine, step)


def _moulding(job: Job, shop: Shop, woods: Sequence[Wood], roughs: Sequence[Rough]) -> Moulding | None:
    """The bead, on sticks; or on pieces cut to length, where these are notched first."""
    by_piece = notches_first(shop.machines)
    runs = bead_runs(roughs_of(woods, None, shop.practice) if by_piece else roughs, woods)
    if not runs:
        return None
    return Moulding(
        bead=job.bead.width,
        quirk=job.bead.quirk,
        marks=cutter_marks(shop.machines.moulder),
        advice=feed_advice(shop.machines.moulder),
        runs=runs,
    )
