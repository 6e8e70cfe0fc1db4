"""The workshop's pages: words in, one call of the rooms below, words out. `pinchrod serve` serves them."""

from pinchrod.web.app import Site, app_of
from pinchrod.web.floor import Floor
from pinchrod.web.guard import Doors
from pinchrod.web.roles import Role
from pinchrod.web.routes import Route
from pinchrod.web.subjects import ROUTES

__all__ = ["ROUTES", "Doors", "Floor", "Role", "Route", "Site", "app_of"]
