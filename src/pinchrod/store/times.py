"""Moments as the store writes them: UTC, so that neither summer time nor a journey changes them."""

from datetime import UTC, datetime

SPELLING = "%Y-%m-%dT%H:%M:%S.%fZ"
IN_NAMES = "%Y%m%dT%H%M%SZ"


def this_moment() -> datetime:
    """The time by this computer's clock, for people to read. Nothing is ordered by it."""
    return datetime.now(UTC)


def spelled(moment: datetime) -> str:
    """A moment as it is written down: 2026-11-25T20:10:00.000000Z."""
    return moment.astimezone(UTC).strftime(SPELLING)


def moment_of(said: str) -> datetime:
    """A moment that was written down."""
    return datetime.strptime(said, SPELLING).replace(tzinfo=UTC)


def in_name(moment: datetime) -> str:
    """A moment as a file's name bears it: 20261125T201000Z."""
    return moment.astimezone(UTC).strftime(IN_NAMES)


def from_name(said: str) -> datetime:
    """The moment that a file's name bears."""
    return datetime.strptime(said, IN_NAMES).replace(tzinfo=UTC)
