"""Faults of our own: kept whole in the log, under a number that is all a page shows of them."""

import logging
import traceback
from secrets import token_hex

LOG = logging.getLogger("pinchrod.web")


def log_fault(place: str) -> str:
    """The number under which the fault that is being dealt with stands in the log."""
    return log_told(place, traceback.format_exc())


def log_told(place: str, told: str) -> str:
    """The number under which what is told of a fault stands in the log."""
    number = token_hex(4)
    LOG.error("fault %s at %s\n%s", number, _seen(place), _indented(told))
    return number


def _indented(told: str) -> str:
    """What is written in a log can forge no other line of it."""
    return "\n".join(f"    {_seen(line)}" for line in told.splitlines())


def _seen(said: str) -> str:
    return said.encode("unicode_escape").decode()
