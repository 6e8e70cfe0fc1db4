"""What a job asks of its rack: every member of its rods, each copy of alike frames by its own mark."""

from collections import defaultdict

from pinchrod.ground import Mm
from pinchrod.job import Job, Shop
from pinchrod.setting_out import Rods
from pinchrod.timber.records import Question, Wanted


def question_of(job: Job, shop: Shop, rods: Rods) -> Question:
    """The members wanted, the boards there are, and how the workshop saws."""
    return Question(wanted=wanted_of(rods), boards=job.rack, practice=shop.practice, machines=shop.machines)


def wanted_of(rods: Rods) -> tuple[Wanted, ...]:
    """The members by section, beads and length, tenons included: thick before thin, wide, then long."""
    alike: dict[tuple[Mm, Mm, Mm, int], list[str]] = defaultdict(list)
    for rod in rods.rods:
        for member in rod.members:
            key = (member.thickness, member.width, member.length, len(member.beads))
            alike[key].extend(f"{member.name}{copy}" for copy in rod.frame.copies)
    return tuple(
        Wanted(marks=tuple(marks), width=width, thickness=thickness, length=length, beads=beads)
        for (thickness, width, length, beads), marks in sorted(alike.items(), reverse=True)
    )
