"""Who may do what: the office everything, a tablet what is done at machines and bench."""

from enum import StrEnum


class Role(StrEnum):
    """What a device was let in as."""

    OFFICE = "office"
    TABLET = "tablet"
    NOBODY = "nobody"


OFFICE_ONLY = frozenset({Role.OFFICE})
WORKSHOP = frozenset({Role.OFFICE, Role.TABLET})
ANYBODY = frozenset(Role)
