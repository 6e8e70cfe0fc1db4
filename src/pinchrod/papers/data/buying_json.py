"""`buying.json`: what to order, its promise, and what other confidences would cost."""

from pinchrod.ground import Mm
from pinchrod.papers.data.plan_json import FORM, Json, in_lines
from pinchrod.papers.data.plan_timber import near
from pinchrod.timber import Amount, Buying, Level, Planed, Promise, Refused, Weighed


def buying_json(fingerprint: str, confidence: Mm, bought: Buying) -> bytes:
    """The bytes of the file; millimetres, cubic metres, and quantities in what each price is for."""
    told: Json = {
        "pinchrod": FORM,
        "job": {"fingerprint": fingerprint},
        "confidence": near(confidence),
        "cost": near(bought.cost),
        "at_most": near(bought.at_most),
        "promise": _promise(bought.promise),
        "left_over": near(bought.left_over),
        "missing": near(bought.missing),
        "amounts": [_amount(one) for one in bought.amounts],
        "planed": [_planed(one) for one in bought.planed],
        "levels": [_level(one) for one in bought.levels],
        "curve": [{"share": near(one.share), "cost": near(one.cost)} for one in bought.curve],
        "refused": [_refused(one) for one in bought.refused],
        "weighed": [_weighed(one) for one in bought.weighed],
    }
    return in_lines(told).encode()


def _promise(promise: Promise | None) -> Json | None:
    if promise is None:
        return None
    return {
        "enough": promise.enough,
        "deliveries": promise.deliveries,
        "low": near(promise.low),
        "high": near(promise.high),
    }


def _amount(one: Amount) -> Json:
    sizes = {"quantity": one.quantity, "boards": one.boards, "volume": one.volume, "cost": one.cost}
    return {"offer": one.offer, **{name: near(size) for name, size in sizes.items()}}


def _level(one: Level) -> Json:
    return {
        "confidence": near(one.confidence),
        "share": near(one.share),
        "amounts": [{"offer": each.offer, "quantity": near(each.quantity)} for each in one.amounts],
        "cost": near(one.cost),
        "at_most": near(one.at_most),
    }


def _planed(one: Planed) -> Json:
    lengths = {piece.mark: piece.length for piece in one.question.pieces}
    bars = [
        {
            "offer": each.stock,
            "times": each.times,
            "lengths": [near(lengths[it.mark]) for it in each.shares for _ in range(it.count)],
        }
        for each in one.answer.patterns
    ]
    section = {"width": near(one.kind.width), "thickness": near(one.kind.thickness), "beads": one.kind.beads}
    return {**section, "cost": near(one.answer.cost), "bound": near(one.answer.bound), "bars": bars}


def _refused(one: Refused) -> Json:
    return {"members": list(one.marks), "length": near(one.length), "why": list(one.why)}


def _weighed(one: Weighed) -> Json:
    planed = [{"width": near(kind.width), "beads": kind.beads} for kind in one.planed]
    return {"sawn": list(one.sawn), "planed": planed, "cost": near(one.cost)}
