"""The devices that were let in: letting in another, sending one away."""

from dataclasses import dataclass

from pinchrod.papers import qr_rows
from pinchrod.store import Device, devices, revoke
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.letting_in import Invitation
from pinchrod.web.roles import OFFICE_ONLY, Role
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class TabletsPage:
    """Every device, and the code for a new one if it was asked for."""

    devices: tuple[Device, ...]
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
    name = next((each.name for each in devices(visit.floor.store) if each.id == visit.said("device")), "")
    revoke(visit.floor.store, visit.said("device"), visit.by, visit.key)
    return Go(to="/tablets", told=Told(words=f"{name} is no longer let in."))


def _page(visit: Visit, invitation: Invitation | None = None) -> TabletsPage:
    floor = visit.floor
    page = TabletsPage(
        devices=devices(floor.store),
        own=visit.device.id if visit.device else "",
        addresses=floor.addresses,
    )
    if invitation is None:
        return page
    address = floor.addresses[0] if floor.addresses else f"http://{visit.host}"
    link = f"{address}/enter?code={invitation.code}"
    rows = qr_rows(link, "m")
    return TabletsPage(
        devices=page.devices,
        own=page.own,
        addresses=page.addresses,
        code=invitation.shown,
        as_what=str(invitation.role),
        link=link,
        squares=tuple((x, y) for y, row in enumerate(rows) for x, dark in enumerate(row) if dark == "1"),
        side=len(rows),
    )


ROUTES = (
    Route(path="/tablets", does=look, may=OFFICE_ONLY),
    Route(path="/tablets", does=invite, may=OFFICE_ONLY, method="POST"),
    Route(path="/tablets/away", does=send_away, may=OFFICE_ONLY, method="POST"),
)
