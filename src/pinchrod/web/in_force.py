"""The plan that the workshop goes by now: what machines, bench and papers ask for."""

from pinchrod.plan import Plan
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known


def plan_in_force(floor: Floor, known: Known) -> Plan | None:
    """The plan that machines and bench go by now; None if it is not made. Without a rack it has no sticks."""
    stands = floor.sticks.of(known)
    return stands.plan if stands else floor.plans.of(known)
