"""A whole job set out: every frame's rod, or every fault that keeps the job from one."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from pinchrod.ground import Problem, doubts_of
from pinchrod.job import Job, Shop
from pinchrod.setting_out.frame import set_out_frame
from pinchrod.setting_out.rod import Rod, Rods


def set_out(job: Job, shop: Shop) -> Rods:
    """The rods of a job, with what is doubtful in it; NotYetRight if anything must be mended first."""
    rods: list[Rod] = []
    problems: list[Problem] = list(job.doubts)
    for frame in job.frames:
        rod, found = set_out_frame(frame, job, shop)
        problems.extend(found)
        if rod:
            rods.append(rod)
    problems.extend(_marks_twice(rods))
    return Rods(rods=tuple(rods), joint=job.joint, doubts=doubts_of(problems))


def _marks_twice(rods: Sequence[Rod]) -> Iterator[Problem]:
    """Refuse two pieces with one mark: a frame named like another's opening can bring it about."""
    owners: dict[str, list[Rod]] = defaultdict(list)
    for rod in rods:
        for mark in _marks(rod):
            owners[mark.casefold()].append(rod)
    for mark, found in owners.items():
        for rod in found[1:]:
            yield Problem(
                where=rod.frame.where.called(rod.frame.id),
                code="mark-twice",
                what=f"a piece of it is marked {mark.upper()}, and so is one of {found[0].frame.id}",
                mend="give one of the two frames another id",
            )


def _marks(rod: Rod) -> Iterator[str]:
    yield from (member.name for member in rod.members)
    for front in rod.fronts:
        yield from (part.name for part in front.parts)
        yield front.name
