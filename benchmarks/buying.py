"""Whether an order is enough as often as promised, in deliveries that it was not planned on.

    python -m benchmarks.buying            the demo job, and two smaller ones
    python -m benchmarks.buying --demo     the demo job alone

Each order is planned on 400 deliveries and then tried on 200 others (another seed). The share they come to
must lie within the binomial 99 % interval (Clopper and Pearson 1934) of what was promised. Processor time.
"""

import sys
import time
from dataclasses import replace
from pathlib import Path

import pinchrod.cli
from pinchrod.cli.planning import asked_from
from pinchrod.ground import Mm, show
from pinchrod.timber import Buying, ToBuy, buy, buying_flaws
from pinchrod.timber.buying import Pains
from pinchrod.timber.buying.bets import Fixed, Mix
from pinchrod.timber.buying.binomial import interval
from pinchrod.timber.buying.ways import Scales

HELD_OUT, OTHER_SEED, SURE = 200, 2, Mm("0.99")
DEMO = Path(pinchrod.cli.__file__).parent / "saltmarsh_row" / "job.toml"


def main() -> None:
    """Print a line for each job and confidence."""
    asked = asked_from(DEMO, None).asked
    tried = [("demo", asked, Mm("0.95"))]
    if "--demo" not in sys.argv:
        sawn = replace(asked, offers=tuple(offer for offer in asked.offers if not offer.is_fixed))
        half = replace(sawn, wanted=sawn.wanted[::2])
        tried += [("sawn boards only", sawn, Mm("0.95")), ("half, 80 %", half, Mm("0.8"))]
    print("job; promised; enough in 200 others, 99 % interval; holds; planed proven; s of processor")
    for name, one, share in tried:
        print(_line(name, replace(one, confidence=share)), flush=True)


def _line(name: str, asked: ToBuy) -> str:
    start = time.process_time()
    bought = buy(asked)
    spent = time.process_time() - start
    assert not list(buying_flaws(asked, bought))
    enough = _held_out(asked, bought)
    low, high = interval(enough, HELD_OUT, SURE)
    promised = bought.promise.share if bought.promise else Mm(1)
    proven = all(one.answer.proven and one.answer.cost == one.answer.bound for one in bought.planed)
    between = f"{show(100 * low)} to {show(100 * high)} %"
    holds = asked.confidence <= high
    within = low <= promised <= high
    return (
        f"{name}; {show(100 * promised)} %; {enough}, {between};"
        f" {'as asked' if holds else 'LESS THAN ASKED'}, {'as promised' if within else 'NOT AS PROMISED'};"
        f" {proven if bought.planed else '-'}; {spent:.1f}"
    )


def _held_out(asked: ToBuy, bought: Buying) -> int:
    """For how many of the deliveries held out the order is enough."""
    scales = Scales(asked, Pains(seed=OTHER_SEED))
    marks = {mark for stick in bought.samples[0].breakout.sticks for mark in stick.members}
    sawn = tuple(one for one in asked.wanted if marks.issuperset(one.marks))
    offers = {offer.name: offer for offer in asked.offers}
    ordered = [Fixed(offer=offers[one.offer], quantity=one.quantity) for one in bought.amounts]
    boards = [one for one in ordered if one.offer in scales.sawn]
    bet = scales.table(sawn).bet(Mix(fixed=tuple(boards[:-1]), open=boards[-1].offer), range(HELD_OUT))
    return bet.enough(boards[-1].quantity)


if __name__ == "__main__":
    main()
