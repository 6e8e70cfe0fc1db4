"""The machines: the order of work, each step, and one setting a screen with all that goes through it."""

from dataclasses import replace

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.plan import Plan
from pinchrod.store import said_through
from pinchrod.web.answers import Answer, Go, Page, Sent, Told
from pinchrod.web.beside import Work
from pinchrod.web.in_force import plan_in_force
from pinchrod.web.known import Known
from pinchrod.web.machines_setting import Here, setting_page
from pinchrod.web.machines_steps import planning_page, step_page, steps_page
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.scans_answers import LEDGER, Answered, as_json, refused_as_json
from pinchrod.web.scans_asked import as_form
from pinchrod.web.scans_touches import counted, last_touch, named, say, take_back
from pinchrod.web.visit import Visit, own_page

OUT_OF_TURN = "step-expected"  # shown beside the pieces before they are touched


def look(visit: Visit) -> Answer:
    """The order of work, and how far it is; while there is no plan, how far that is."""
    known = visit.floor.job(visit.place("job"))
    plan = plan_in_force(visit.floor, known)
    if plan is None:
        return _planning(visit, known)
    undo = last_touch(visit.floor, visit.by.device)
    page = steps_page(known, plan, visit.floor.standings.of(known.name), undo)
    return Page(template="machines/steps.html", page=page)


def plan_it(visit: Visit) -> Answer:
    """Have the job planned, or stop that, or take the best plan found so far."""
    known, planner = visit.floor.job(visit.place("job")), visit.floor.planner
    match visit.said("do"):
        case "stop":
            planner.stop(known)
        case "enough":
            planner.enough(known)
        case _:
            planner.ask(known)
    return Go(to=f"/jobs/{known.name}/machines")


def look_at_step(visit: Visit) -> Answer:
    """One step: what is set once, what to take care of, and its settings."""
    known = visit.floor.job(visit.place("job"))
    plan = plan_in_force(visit.floor, known)
    if plan is None:
        return _planning(visit, known)
    step = _number(visit, "step", len(plan.machining.steps), "the order of work has")
    page = step_page(known, plan, step, visit.floor.standings.of(known.name))
    return Page(template="machines/step.html", page=page)


def look_at_setting(visit: Visit) -> Answer:
    """One setting: what to set, how the pieces lie, and what has still to go through."""
    known = visit.floor.job(visit.place("job"))
    plan = plan_in_force(visit.floor, known)
    if plan is None:
        return _planning(visit, known)
    here = _here(visit, plan)
    undo = last_touch(visit.floor, visit.by.device)
    page = setting_page(known, plan, here, visit.floor.standings.of(known.name), undo)
    return Page(template="machines/setting.html", page=page)


def through(visit: Visit) -> Answer:
    """Say that a piece, or all that is left, went through a setting: from a form, or from a page's script."""
    if visit.body:
        return _by_script(visit)
    here = _said_through(visit)
    if here is None:
        return Go(to=f"/jobs/{visit.place('job')}/machines")
    return Go(to=here.after if visit.said("all") else here.address, told=Told(words=_words(visit, here)))


def _by_script(visit: Visit) -> Answer:
    """The same in JSON; while the settings are being worked out the tablet keeps what was said."""
    try:
        visit = as_form(visit)
        here = _said_through(visit)
    except NotYetRight as trouble:
        return refused_as_json(trouble)
    if here is None:
        visit.floor.planner.ask(visit.floor.job(visit.place("job")))
        return Sent(content=b"the settings are being worked out", media="text/plain", status=503)
    page = here.after if visit.said("all") else ""
    return as_json(Answered(state=LEDGER, words=_words(visit, here), page=page, job=here.job))


def _words(visit: Visit, here: Here) -> str:
    """What went through; a stick with its pieces, by which it can be taken back: `S3 (K1-LS) through`."""
    if visit.said("all"):
        return "All through"
    name = visit.said("lot")
    pieces = _pieces(visit, here)
    return f"{name} ({named(pieces)}) through" if pieces and name not in pieces else f"{name} through"


def _said_through(visit: Visit) -> Here | None:
    """Where it was said, once it is safe; None if there are no settings yet."""
    known = visit.floor.job(visit.place("job"))
    plan = plan_in_force(visit.floor, known)
    if plan is None:
        return None
    here = _here(visit, plan)
    turn = here.turn
    if visit.said("spot") != turn.spot:
        raise _amiss("settings-changed", "the settings were planned anew meanwhile", "look at the page again")
    said = said_through(
        turn, _pieces(visit, here), here.turns, known.roll, visit.floor.standings.of(known.name)
    )
    if said and not counted(visit.floor.store, visit.key):
        say(visit, known, said, despite=(OUT_OF_TURN,))
    return here


def _pieces(visit: Visit, here: Here) -> list[str]:
    """Those of the piece or stick that was touched, or of all at this setting."""
    lots = [lot for lot in here.turn.lots if visit.said("all") or lot.name == visit.said("lot")]
    return [piece for lot in lots for piece in lot.pieces]


def undo(visit: Visit) -> Answer:
    """Take back what was said last."""
    words = take_back(visit, visit.said("job"), visit.said("touch"))
    return Go(to=own_page(visit.said("back")), told=Told(words=words))


def _planning(visit: Visit, known: Known) -> Answer:
    """How far the plan is; it is begun by looking, which changes nothing in the store."""
    state = visit.floor.planner.state(known, Work.PLAN)
    if not (state.running or state.stopped or state.problems or state.fault):
        visit.floor.planner.ask(known)
        state = visit.floor.planner.state(known, Work.PLAN)
    return Page(template="machines/planning.html", page=planning_page(known, state))


def _here(visit: Visit, plan: Plan) -> Here:
    job = visit.place("job")
    step = _number(visit, "step", len(plan.machining.steps), "the order of work has")
    here = Here.at(job, plan, step, 1)
    return replace(here, number=_number(visit, "setting", len(here.of_step), f"step {step} has"))


def _number(visit: Visit, name: str, most: int, has: str) -> int:
    said = visit.place(name)
    number = int(said) if said.isascii() and said.isdigit() and len(said) < len("10000") else 0
    if not 1 <= number <= most:
        raise _amiss(
            "setting-missing", f"there is no {name} {said[:20]}: {has} {most}", "choose one from the list"
        )
    return number


def _amiss(code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(name="setting"), code=code, what=what, mend=mend)])


ROUTES = (
    Route(path="/jobs/{job}/machines", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}/machines/plan", does=plan_it, may=WORKSHOP, method="POST"),
    Route(path="/jobs/{job}/machines/{step}", does=look_at_step, may=WORKSHOP),
    Route(path="/jobs/{job}/machines/{step}/{setting}", does=look_at_setting, may=WORKSHOP),
    Route(path="/jobs/{job}/machines/{step}/{setting}", does=through, may=WORKSHOP, method="POST"),
    Route(path="/undo", does=undo, may=WORKSHOP, method="POST"),
)
