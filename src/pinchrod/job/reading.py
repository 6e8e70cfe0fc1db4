"""A job read from its files: every problem of all of them at once, or the job and the workshop."""

from dataclasses import replace

from pinchrod.ground import Problem, doubts_of
from pinchrod.job.job_file import Head, read_head
from pinchrod.job.job_frames import read_frames
from pinchrod.job.joined import file_name, given
from pinchrod.job.offer_tables import histories, history_files, merged, read_offers
from pinchrod.job.offers_fit import check_useful, narrowest
from pinchrod.job.rack import by_volume, read_rack
from pinchrod.job.records import Frame, Job
from pinchrod.job.said import NOTHING, Reading, Table, gathered, in_file_order
from pinchrod.job.shop import Shop
from pinchrod.job.source import LISTS, Form, Source, fingerprint, form_of
from pinchrod.job.toml.toml_file import read_toml
from pinchrod.job.version import read_version
from pinchrod.job.workshop_file import JOB_TABLES, shop_of, usual_figures, with_tables

JOINED = {
    "frames": LISTS,
    "workshop": (Form.TOML,),
    "rack": LISTS,
}  # names in [job] that point at files, and of what form

BY_VOLUME = "boards without prices, so that each costs what it measures in cubic metres"


def joined_files(source: Source) -> tuple[str, ...]:
    """The names of the files that a job or workshop file points at; none if it cannot be read.

    They stand in its own folder. A workshop file's are handed on as what stands `beside` it.
    """
    said, _ = gathered(job_said(source))
    named, _ = gathered(_named(said or NOTHING))
    return tuple(dict.fromkeys((*named.values(), *histories(said or NOTHING))))


def read_job(
    source: Source, joined: tuple[Source, ...] = (), *, workshop: Source | None = None
) -> tuple[Job, Shop]:
    """The job and the workshop, or NotYetRight with every problem of every file.

    `joined` are the files that `joined_files` names. A `workshop` given here counts before the one
    that the job names. The files that a workshop names stand `beside` it, or among the joined.
    """
    job, shop, problems = read_what_stands(source, joined, workshop=workshop)
    doubts_of(problems)
    assert job is not None  # noqa: S101 - only what stops the work leaves nothing
    return job, shop


def read_what_stands(
    source: Source, joined: tuple[Source, ...] = (), *, workshop: Source | None = None
) -> tuple[Job | None, Shop, tuple[Problem, ...]]:
    """The job made of all frames with nothing wrong, the workshop, and every problem of every file.

    So that a fault in reading one frame hides none in setting out the others. There is no job where
    what all frames share, such as a usual size or the timber, could not be read. What could not be
    read of the workshop is as usual. The job's `doubts` are those among the problems.
    """
    (job, shop), found = gathered(_job(source, joined, workshop))
    problems = in_file_order(found)
    doubts = tuple(problem for problem in problems if not problem.stops)
    return None if job is None else replace(job, doubts=doubts), shop, problems


def read_workshop(source: Source) -> tuple[Shop, tuple[Problem, ...]]:
    """The workshop that a file describes, and its doubts; or NotYetRight with every problem."""
    (shop, _), problems = gathered(_shop(NOTHING, source))
    return shop, doubts_of(in_file_order(problems))


def _job(
    source: Source, joined: tuple[Source, ...], workshop: Source | None
) -> Reading[tuple[Job | None, Shop]]:
    said = yield from job_said(source)
    if said is None:
        shop, _ = yield from _shop(NOTHING, workshop, joined)
        return None, shop
    files = yield from _files(said, joined)
    if workshop is not None:
        files["workshop"] = workshop
    head, problems = gathered(read_head(said, source.stem))
    yield from problems
    frames = yield from read_frames(said, source, files.get("frames"), head.members)
    shop, shop_said = yield from _shop(said, files.get("workshop"), joined)
    rack = files.get("rack")
    boards = (
        () if rack is None else (yield from read_rack(rack, head.thickness, narrowest(frames), shop.practice))
    )
    own = yield from read_offers(said, joined, "offer")
    yield from check_useful(own, head.thickness, frames, shop.practice)
    offers = yield from merged(own, shop.offers)
    if any(problem.stops for problem in problems):
        return None, shop
    sent = _sent(said, joined, shop_said, files.get("workshop"))
    read = (("job", source), *files.items(), *(("history", file) for file in sent))
    told = _told(head, frames, fingerprint(read), tuple(usual_figures(head.joint, (said, shop_said))))
    volume = (BY_VOLUME,) if by_volume(boards) else ()
    return replace(told, rack=boards, offers=offers, assumed=(*told.assumed, *volume)), shop


def _sent(
    said: Table, joined: tuple[Source, ...], shop_said: Table, workshop: Source | None
) -> tuple[Source, ...]:
    """The files of what merchants sent before: the job's offers', then the workshop's."""
    return (*history_files(said, joined), *history_files(shop_said, _beside(workshop, joined)))


def _beside(workshop: Source | None, joined: tuple[Source, ...]) -> tuple[Source, ...]:
    """The files among which those are looked up that the workshop file names: its own folder's first."""
    return (*workshop.beside, *joined) if workshop is not None else joined


def _told(head: Head, frames: tuple[Frame, ...], seal: str, figures: tuple[str, ...]) -> Job:
    """The job of these parts."""
    return Job(
        name=head.name,
        customer=head.customer,
        timber=head.timber,
        thickness=head.thickness,
        joint=head.joint,
        bead=head.bead,
        gaps=head.gaps,
        front_thickness=head.front_thickness,
        doors=head.doors,
        frames=frames,
        issue=head.issue,
        fingerprint=seal,
        assumed=(*head.assumed, *figures),
    )


def job_said(source: Source) -> Reading[Table | None]:
    """What the job file says; nothing at all for a bare list of frames; None if it cannot be read."""
    form = yield from form_of(source, tuple(Form))
    if form is not Form.TOML:
        return None if form is None else NOTHING
    said = yield from read_toml(source)
    readable = said is not None and (yield from read_version(said, source.whole))
    return said if readable else None


def _shop(
    said: Table, workshop: Source | None, joined: tuple[Source, ...] = ()
) -> Reading[tuple[Shop, Table]]:
    """The workshop, with what the job file changes in it; and what its own file says."""
    shop, shop_said = Shop(), None
    if workshop is not None and (yield from form_of(workshop, (Form.TOML,))):
        shop_said = yield from read_toml(workshop)
        if shop_said is not None:
            shop = yield from shop_of(shop_said, workshop.whole)
            offers = yield from read_offers(shop_said, _beside(workshop, joined), "workshop offer")
            shop = replace(shop, offers=offers)
    return (yield from with_tables(shop, said, JOB_TABLES)), shop_said or NOTHING


def _named(said: Table) -> Reading[dict[str, str]]:
    """The files that the job file points at, by their part in the job."""
    names = {}
    for part, forms in JOINED.items():
        place = said.table("job").get(part)
        name = None if place is None else (yield from file_name(place, part, forms))
        if name is not None:
            names[part] = name
    return names


def _files(said: Table, joined: tuple[Source, ...]) -> Reading[dict[str, Source]]:
    """The joined files by their part in the job; one that is not there is told where it is named."""
    files = {}
    for part, name in (yield from _named(said)).items():
        source = yield from given(said.table("job").said[part], name, joined)
        if source is not None:
            files[part] = source
    return files
