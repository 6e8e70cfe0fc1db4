"""Every address of the pages, who may go there, and what answers. What is not listed is not there."""

from collections.abc import Callable
from dataclasses import dataclass

from pinchrod.web.answers import Answer
from pinchrod.web.roles import Role
from pinchrod.web.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """One address: `/jobs/{job}/frames`; a POST changes something, a GET never does."""

    path: str
    does: Callable[[Visit], Answer]
    may: frozenset[Role]
    method: str = "GET"
