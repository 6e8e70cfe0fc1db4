"""What the log tells: faults of our own, whole, each under the number that a page shows; what was refused."""

import logging
import time
import traceback
from secrets import token_hex

LOG = logging.getLogger("pinchrod.web")
MOST_OF_A_PLACE = 200  # letters: an address may be sixteen thousand


def log_fault(place: str) -> str:
    """The number under which the fault that is being dealt with stands in the log."""
    return log_told(place, traceback.format_exc())


def log_told(place: str, told: str) -> str:
    """The number under which what is told of a fault stands in the log."""
    number = token_hex(4)
    LOG.error("fault %s at %s\n%s", number, _seen(place), _indented(told))
    return number


def log_refused(what: str, place: str, who: str) -> None:
    """Note what was refused, and to whom: what they sent can forge no line. No code or secret is named."""
    LOG.warning("refused %s at %s, asked from %s", what, _seen(place)[:MOST_OF_A_PLACE], _seen(who))


def dated() -> logging.Formatter:
    """How a line of the log begins: with its moment in UTC, so that no change of the clocks muddles it."""
    made = logging.Formatter("%(asctime)s %(name)s: %(message)s", "%Y-%m-%dT%H:%M:%SZ")
    made.converter = time.gmtime
    return made


def _indented(told: str) -> str:
    """What is written in a log can forge no other line of it."""
    return "\n".join(f"    {_seen(line)}" for line in told.splitlines())


def _seen(said: str) -> str:
    return said.encode("unicode_escape").decode()
