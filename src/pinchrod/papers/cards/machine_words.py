"""What a machine's card says of the machine as it is set: the marks that the cutter leaves, and the feed."""

from collections.abc import Iterator

from pinchrod.ground import Mm, show
from pinchrod.machining import Machining, Moulding, Passes, Step
from pinchrod.setting_out import Edge

CENT, THOUSANDTH = Mm("0.01"), Mm("0.001")


def machine_words(step: Step, machining: Machining) -> Iterator[str]:
    """What is to be known at that step, beside its settings."""
    if any(setting.back_up for setting in step.settings):
        yield "Every piece lies with its back up."
    if _in_notches(step, machining):
        yield "The depth counts from the floor of the notch."
    if step.machine == "moulder" and machining.moulding:
        yield from moulder_words(machining.moulding)
    for passes in machining.passes:
        if step.machine == "thicknesser" and passes.of in step.title:
            yield from _shallow(passes)


def _in_notches(step: Step, machining: Machining) -> bool:
    """Whether the recesses go down from the floors of notches: so do all in edges that joints are cut in.

    Those in the back are as deep as they lie under it.
    """
    deep = any(setting.of == "depth" for setting in step.settings)
    in_edges = any(
        isinstance(stroke.side, Edge)
        for setting in step.settings
        if setting.stop and not setting.back_up
        for stroke in setting.stop.strokes
    )
    return step.machine == "slotter" and deep and in_edges and machining.notching.strokes > 0


def moulder_words(moulding: Moulding) -> Iterator[str]:
    """Rim speed and cutter marks, how good that is, and the feeds between which finished joinery is stuck."""
    marks, advice = moulding.marks, moulding.advice
    yield (
        f"Rim speed {show(marks.rim_speed)} m/s. Cutter marks {show(marks.pitch, CENT)} mm apart and"
        f" {show(marks.wave, THOUSANDTH)} mm deep."
    )
    good = advice.good_for
    quality = f"Good enough for {good.name} ({good.source})." if good else "Coarser than any finished work."
    yield f"{quality} Finished joinery: feed {show(advice.slowest)} to {show(advice.fastest)} m/min."


def _shallow(passes: Passes) -> Iterator[str]:
    if passes.shallow:
        yield (
            f"So little comes off {', '.join(passes.shallow)} that marks of the feed rollers may stay:"
            " scrape or sand them."
        )
