"""pinchrod buy: what to order so that a job is covered, and how sure that is."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import click

from pinchrod.cli.check import job_argument, json_option, workshop_option
from pinchrod.cli.files import as_shown
from pinchrod.cli.plan import file_name
from pinchrod.cli.planning import asked_from
from pinchrod.cli.telling import clean, tell_problems
from pinchrod.cli.writing import check_order_folder, put
from pinchrod.ground import Mm, NotALength, NotYetRight, Problem, Where, must_be_right, read_length, show
from pinchrod.papers import ORDER_NAMES, Ordered, order_papers, promise_words, quantity_words
from pinchrod.timber import Buying, ToBuy, buying_flaws
from pinchrod.timber import buy as buy_timber

CENT = Mm("0.01")


def share(_context: click.Context, _option: click.Parameter, said: str | None) -> Mm | None:
    """The share that was said; click says so if it is none that can be promised."""
    if said is None:
        return None
    try:
        found = read_length(said)
    except NotALength:
        found = Mm(0)
    if not Mm("0.5") <= found <= Mm("0.99"):
        raise click.BadParameter(f"{said!r} is not from 0.5 to 0.99; 0.95 is enough in 95 deliveries of 100")
    return found


@click.command()
@job_argument
@workshop_option
@click.option("--confidence", callback=share, metavar="SHARE", help="How sure: 0.5 to 0.99 [the workshop's].")
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the order [<job name>-order].")
@json_option
def buy(job: Path, workshop: Path | None, confidence: Mm | None, out: Path | None, *, machine: bool) -> None:
    """Say what to order for JOB, and write the order: a sheet to send, and how sure it is.

    What is offered is said as [[offer]] in the job or the workshop file. The rack, if the job names one,
    is cut first, so that only what it lacks is bought.

    \b
    pinchrod buy job.toml
    pinchrod buy job.toml --confidence 0.9
    """
    found = asked_from(job, workshop)
    asked = replace(found.asked, confidence=confidence or found.asked.confidence)
    bought = _bought(asked, job)
    doubts = (*as_shown(found.rods.doubts, found.shown), *_doubts(job, bought, asked.confidence))
    if bought.unsure:
        raise NotYetRight(doubts)
    ordered = Ordered(job=found.job, shop=found.shop, asked=asked, bought=bought)
    papers = {paper.name: paper.content for paper in order_papers(ordered)}
    folder = out or Path(f"{file_name(found.job.name)}-order")
    _write(papers, folder)
    tell_problems(doubts)
    if machine:
        click.echo(papers["buying.json"].decode(), nl=False)
        return
    for said in (*_told(ordered), f"wrote into {folder}: {', '.join(papers)}"):
        click.echo(clean(said))
    if "order.pdf" in papers:
        click.echo(f"Send {folder / 'order.pdf'}")


def _bought(asked: ToBuy, job: Path) -> Buying:
    """What to order, looked over by the judge before any paper is made of it."""
    if not asked.offers:
        raise NotYetRight([_nothing_offered(job)])
    bought = buy_timber(asked)
    must_be_right("the order is", buying_flaws(asked, bought))
    return bought


def _write(papers: Mapping[str, bytes], folder: Path) -> None:
    """The papers of the order, in a folder of their own; what an older order left there is taken away."""
    check_order_folder(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in papers.items():
        put(folder / name, content)
    for name in ORDER_NAMES:
        if name not in papers:
            (folder / name).unlink(missing_ok=True)


def _told(ordered: Ordered) -> Iterator[str]:
    bought = ordered.bought
    if not bought.amounts:
        yield "nothing has to be bought" if not bought.refused else "nothing that is offered helps"
        return
    for offer, amount in ordered.lines:
        cost = show(amount.cost, CENT)
        yield f"order {quantity_words(offer, amount.quantity)} of {offer.name}, about {cost}"
    yield f"in all about {show(bought.cost, CENT)}"
    yield from promise_words(ordered)


def _doubts(job: Path, bought: Buying, confidence: Mm) -> Iterator[Problem]:
    where = Where(file=str(job))
    for one in bought.refused:
        marks = f"{one.marks[0]} and {len(one.marks) - 1} more" if len(one.marks) > 1 else one.marks[0]
        what = f"neither the rack nor an offer gives {marks}: {'; '.join(one.why)}"
        mend = "ask for other sizes, and say them as an offer"
        yield Problem(where=where, code="nobody-offers", what=what, mend=mend, stops=False)
    if bought.unsure:
        what = f"no amount that was tried is enough in {show(100 * confidence)} % of deliveries"
        mend = "ask for wider, longer or straighter boards, or say a lower --confidence"
        yield Problem(where=where, code="not-so-sure", what=what, mend=mend)


def _nothing_offered(job: Path) -> Problem:
    what = "neither the job nor its workshop says what can be bought"
    mend = "write what the merchant offers as [[offer]]: thickness, width, length, price and per"
    return Problem(where=Where(file=str(job)), code="nothing-offered", what=what, mend=mend)
