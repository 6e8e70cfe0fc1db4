"""The devices that were let in: letting in another, sending one away."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import timedelta

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.papers import qr_rows
from pinchrod.store import Device, devices, let_back_in, moment_of, revoke, this_moment
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.letting_in import Invitation
from pinchrod.web.roles import OFFICE_ONLY, Role
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit

BACK_WITHIN = timedelta(minutes=10)


@dataclass(frozen=True, slots=True, kw_only=True)
class TabletsPage:
    """Every device, and the code for a new one if it was asked for."""

    devices: tuple[Device, ...]
    back: frozenset[str]  # those sent away a moment ago, by number
    own: str
    addresses: tuple[str, ...]
    code: str = ""
    as_what: str = ""
    link: str = ""
    squares: tuple[tuple[int, int], ...] = ()
    side: int = 0


def look(visit: Visit) -> Answer:
    """The list."""
    return Page(template="tablets/list.html", page=_page(visit))


def invite(visit: Visit) -> Answer:
    """The list, with a code that lets one device in."""
    role = Role.OFFICE if visit.said("role") == Role.OFFICE else Role.TABLET
    return Page(template="tablets/list.html", page=_page(visit, visit.floor.letting_in.invite(role)))


def send_away(visit: Visit) -> Answer:
    """The list, without that device: what it shows from now on is the door."""
    gone = revoke(visit.floor.store, visit.said("device"), visit.by, visit.key)
    told = Told(
        words=f"{gone.name} is no longer let in.",
        undo=f"/tablets/back?device={gone.id}",
        undo_words=f"Undo: let {gone.name} back in",
    )
    return Go(to="/tablets", told=told)


def let_back(visit: Visit) -> Answer:
    """The list, with a device in it again that was sent away a moment ago: it needs no new code."""
    store, asked = visit.floor.store, visit.said("device")
    every = devices(store)
    gone = next((each for each in every if each.id == asked), None)
    if gone is not None and any(not each.revoked and each.name == gone.name for each in every):
        return Go(to="/tablets", told=Told(words=f"{gone.name} is let in."))
    if gone is None or not may_come_back(gone, every):
        raise NotYetRight([_too_late()])
    back = let_back_in(store, asked, visit.by, visit.key)
    return Go(to="/tablets", told=Told(words=f"{back.name} is let in again."))


def may_come_back(device: Device, every: Iterable[Device]) -> bool:
    """Whether a device that was sent away from another is let in again by one press.

    One that left by itself has forgotten its secret. After ten minutes a secret is good no more, so that
    nobody opens the door to a tablet that was lost long ago.
    """
    if not device.revoked or device.sent_by == device.name:
        return False
    taken = any(not each.revoked and each.name.upper() == device.name.upper() for each in every)
    return not taken and this_moment() - moment_of(device.revoked) <= BACK_WITHIN


def _too_late() -> Problem:
    what = "it was sent away more than ten minutes ago, left by itself, or is let in again already"
    mend = "let it in with a new code: Tablets, Let a tablet in"
    return Problem(where=Where(name="device"), code="device-not-back", what=what, mend=mend)


def _page(visit: Visit, invitation: Invitation | None = None) -> TabletsPage:
    floor, every = visit.floor, devices(visit.floor.store)
    page = TabletsPage(
        devices=every,
        back=frozenset(each.id for each in every if may_come_back(each, every)),
        own=visit.device.id if visit.device else "",
        addresses=floor.addresses,
    )
    if invitation is None:
        return page
    address = floor.addresses[0] if floor.addresses else f"http://{visit.host}"
    link = f"{address}/enter?code={invitation.code}"
    rows = qr_rows(link, "m")
    return replace(
        page,
        code=invitation.shown,
        as_what=str(invitation.role),
        link=link,
        squares=tuple((x, y) for y, row in enumerate(rows) for x, dark in enumerate(row) if dark == "1"),
        side=len(rows),
    )


ROUTES = (
    Route(path="/tablets", does=look, may=OFFICE_ONLY),
    Route(path="/tablets", does=invite, may=OFFICE_ONLY, method="POST"),
    Route(path="/tablets/back", does=let_back, may=OFFICE_ONLY, method="POST"),
    Route(path="/tablets/away", does=send_away, may=OFFICE_ONLY, method="POST"),
)
