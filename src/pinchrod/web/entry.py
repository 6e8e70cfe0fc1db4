"""The door: a device that comes with a code is let in, and keeps the secret it is given."""

from contextlib import suppress
from dataclasses import dataclass
from itertools import chain, count

from pinchrod.ground import NotYetRight
from pinchrod.store import By, devices, enrol, revoke
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.letting_in import mark_of_secret, new_secret, plain_code
from pinchrod.web.own_faults import log_refused
from pinchrod.web.roles import ANYBODY, WORKSHOP, Role
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit, new_key, own_page
from pinchrod.web.visits import DEVICE, PERSON

USUAL = {Role.OFFICE: "Office", Role.TABLET: "Tablet"}


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorPage:
    """The form by which a device is let in."""

    typed: str
    name: str
    known: bool  # whether the code is good
    slips: tuple[Slip, ...] = ()


def door(visit: Visit) -> Answer:
    """The form; with the code in it already, if one came by a link or a scanned code."""
    if visit.role is not Role.NOBODY:
        return Go(to="/")
    code = visit.said("code")
    if not code:
        return Page(template="entry/door.html", page=DoorPage(typed="", name="", known=False))
    try:
        invitation = visit.floor.letting_in.look(code)
    except NotYetRight as trouble:
        log_refused("a code", visit.path, visit.asks_from)
        slips = slips_of(trouble.problems, "code")
        return Page(
            template="entry/door.html",
            page=DoorPage(typed=code, name="", known=False, slips=slips),
            status=422,
        )
    page = DoorPage(typed=invitation.shown, name=_free_name(visit, invitation.role), known=True)
    return Page(template="entry/door.html", page=page)


def _free_name(visit: Visit, role: Role) -> str:
    """A name that no other device bears: Office, Office 2, Office 3."""
    taken = {device.name.casefold() for device in devices(visit.floor.store)}
    names = chain([USUAL[role]], (f"{USUAL[role]} {number}" for number in count(2)))
    return next(name for name in names if name.casefold() not in taken)


def come_in(visit: Visit) -> Answer:
    """Let the device in under the name that was given, once."""
    code, name = visit.said("code"), " ".join(visit.said("name").split())
    secret = new_secret()
    try:
        with visit.floor.letting_in.using(code) as invitation:
            enrol(
                visit.floor.store,
                name=name,
                role=str(invitation.role),
                token_mark=mark_of_secret(secret),
                by=By(person=name or "nobody", device=name or "nobody"),
                key=f"enrol-{plain_code(code)}-{visit.key}",
            )
    except NotYetRight as trouble:
        field = "code" if trouble.problems[0].code == "code-refused" else "name"
        if field == "code":
            log_refused("a code", visit.path, visit.asks_from)
        slips = slips_of(trouble.problems, field)
        page = DoorPage(typed=code, name=name, known=bool(code), slips=slips)
        return Page(template="entry/door.html", page=page, status=422)
    _end_what_was(visit)
    return Go(to="/", cookies=((DEVICE, secret),))


def _end_what_was(visit: Visit) -> None:
    """A device that comes in anew is let in once: the secret it had until now is good no more."""
    if visit.device is not None:
        with suppress(NotYetRight):  # it was sent away meanwhile
            revoke(visit.floor.store, visit.device.id, visit.by, new_key())


def go_out(visit: Visit) -> Answer:
    """The device is let in no more, not even with the secret it had: it needs a new code."""
    if visit.device is not None:
        revoke(visit.floor.store, visit.device.id, visit.by, visit.key)
    return Go(to="/enter", cookies=((DEVICE, ""), (PERSON, "")))


def who(visit: Visit) -> Answer:
    """Whoever works at the device now; it stays so until another name is said."""
    name = " ".join(visit.said("person").split())[:80]
    return Go(to=own_page(visit.said("back")), cookies=((PERSON, name),))


ROUTES = (
    Route(path="/enter", does=door, may=ANYBODY),
    Route(path="/enter", does=come_in, may=ANYBODY, method="POST"),
    Route(path="/leave", does=go_out, may=WORKSHOP, method="POST"),
    Route(path="/who", does=who, may=WORKSHOP, method="POST"),
)
