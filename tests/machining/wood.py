"""Builders for the machining room's tests: strokes, questions and frames that fill in the ordinary."""

import os
import random
from typing import Any

from pinchrod.ground import Mm
from pinchrod.machining import StopQuestion, Stroke
from pinchrod.setting_out import Edge

DEEP = os.environ.get("PINCHROD_DEPTH") == "deep"


def a_stroke(at: object, length: object = 720, edge: str = "left", piece: str = "K1-LS") -> Stroke:
    """A stroke in an edge of a piece lying face up."""
    side = Edge(edge)
    return Stroke(
        piece=piece,
        side=side,
        at=Mm(str(at)),
        length=Mm(str(length)),
        from_left=side in (Edge.LEFT, Edge.UPPER),
    )


def a_question(*strokes: Stroke, **said: Any) -> StopQuestion:
    """What is asked of a notcher whose stops reach 1500 either way, unless said otherwise."""
    usual: dict[str, Any] = {"reach_left": 1500, "reach_right": 1500, "step": 0}
    lengths = {key: Mm(str(size)) for key, size in {**usual, **said}.items()}
    return StopQuestion(strokes=strokes, **lengths)


def a_small_question(seed: int) -> StopQuestion:
    """At most 14 strokes, places few enough to be shared from both sides; some out of reach."""
    dice = random.Random(f"stops {seed}")
    few = dice.randint(3, 7)
    lefts, rights = ([_a_place(dice) for _ in range(few)] for _ in range(2))
    strokes = []
    for number in range(dice.randint(1, 14)):
        left, right, edge = dice.choice(lefts), dice.choice(rights), dice.choice(("left", "right"))
        at = left if edge == "left" else right
        strokes.append(a_stroke(at, left + right, edge, f"K{number}-M1"))
    reach = [dice.choice((1500, 1500, 700, 420)) for _ in range(2)]
    step = dice.choice((0, 0, Mm("0.5"), 1))
    return a_question(*strokes, reach_left=reach[0], reach_right=reach[1], step=step)


def _a_place(dice: random.Random) -> Mm:
    return dice.choice((100, 101, 200, 500, 900)) + Mm(dice.randrange(12), 3)
