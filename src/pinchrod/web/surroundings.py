"""What stands round every page: where one is, what else there is, what was just done."""

from dataclasses import dataclass

from pinchrod import VERSION
from pinchrod.web.answers import Told
from pinchrod.web.roles import Role
from pinchrod.web.visit import Visit, new_key

OFFICE_PLACES = (("/", "Jobs"), ("/bench", "Bench"), ("/tablets", "Tablets"), ("/help", "Help"))
TABLET_PLACES = (("/bench", "Bench"), ("/", "Jobs"), ("/help", "Help"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What every template may use beside its own record."""

    path: str
    role: Role
    device: str
    person: str
    theme: str
    told: Told | None
    places: tuple[tuple[str, str], ...]
    key: str
    news: int
    version: str = VERSION

    @property
    def is_office(self) -> bool:
        """Whether the office looks."""
        return self.role is Role.OFFICE


def around(visit: Visit, told: Told | None) -> Around:
    """The surroundings of a page for whoever looks at it."""
    places = {Role.OFFICE: OFFICE_PLACES, Role.TABLET: TABLET_PLACES}
    return Around(
        path=visit.path,
        role=visit.role,
        device=visit.device.name if visit.device else "",
        person=visit.person,
        theme=visit.theme,
        told=told,
        places=places.get(visit.role, ()),
        key=new_key(),
        news=visit.news,
    )
