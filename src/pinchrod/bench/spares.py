"""How many spare pieces are made of each kind, while the stop is set."""

from collections.abc import Iterable
from itertools import islice

from pinchrod.bench.chances import chances, odds_of
from pinchrod.bench.records import Spares
from pinchrod.ground import Mm, show
from pinchrod.job import Shop, Spoiled
from pinchrod.setting_out import Pattern, Rods, patterns

MOST = Mm("0.9999")  # no chance asked for is nearer to certain than this
MOST_BESIDE = 100  # spares that are thought of beside ten for each piece needed: then something else is wrong
NEVER = "pieces are spoiled so often that even so many are not as sure as is asked: mend that first"


def spares_of(rods: Rods, shop: Shop) -> tuple[Spares, ...]:
    """The spares of each kind of piece: thick before thin, wide before narrow, long before short."""
    asked = asked_for(shop)
    return tuple(_spares(pattern, shop, asked) for pattern in patterns(rods))


def asked_for(shop: Shop) -> Mm:
    """The chance of enough good pieces that is asked for: by the costs if both are known, else as set."""
    if _costed(shop.spoiled):
        return min(critical_ratio(short=shop.spoiled.set_up_cost, over=shop.spoiled.spare_cost), MOST)
    return shop.practice.confidence


def critical_ratio(*, short: Mm, over: Mm) -> Mm:
    """The chance of enough at which one more costs as much as it saves: the newsvendor's rule.

    `short` is what a piece too few costs, `over` what a piece too many does.
    """
    return short / (short + over)


def fewest(needed: int, spoiled: Spoiled, length: Mm, asked: Mm) -> tuple[int, Mm]:
    """The smallest number of spares that makes enough good pieces as likely as asked; and how likely."""
    tried = islice(chances(needed, odds_of(spoiled, length)), 10 * needed + MOST_BESIDE)
    return first_enough(tried, asked)


def first_enough(chances: Iterable[Mm], asked: Mm) -> tuple[int, Mm]:
    """The first of these chances, of 0, 1, 2 and so on, that is as great as asked; if none is, the last."""
    found = 0, Mm(0)
    for found in enumerate(chances):
        if found[1] >= asked:
            break
    return found


def _spares(pattern: Pattern, shop: Shop, asked: Mm) -> Spares:
    spare, sure = fewest(pattern.quantity, shop.spoiled, pattern.drawn.length, asked)
    return Spares(
        pattern=pattern.mark,
        like=tuple(piece.member.name for piece in pattern.pieces),
        needed=pattern.quantity,
        spare=spare,
        sure=sure,
        asked=asked,
        why=_why(pattern, shop.spoiled, asked) if sure >= asked else NEVER,
    )


def _why(pattern: Pattern, spoiled: Spoiled, asked: Mm) -> str:
    """Where the number comes from, in a joiner's words."""
    odds = odds_of(spoiled, pattern.drawn.length)
    rate = _hundredths(odds.rate)
    known = f"{rate} of 100 are spoiled" if odds.known else f"about {rate} of 100 are spoiled, by the tally"
    reason = "as the costs ask" if _costed(spoiled) else "as the workshop asks"
    return f"{known}; enough are good in {_hundredths(asked)} of 100 such batches or more, {reason}"


def _costed(spoiled: Spoiled) -> bool:
    return bool(spoiled.spare_cost and spoiled.set_up_cost)


def _hundredths(share: Mm) -> str:
    return show(100 * share, Mm("0.1"))
