"""A job read from its files: every problem of all of them at once, or the job and the workshop."""

from dataclasses import replace

from pinchrod.ground import Problem, doubts_of, quoted
from pinchrod.job.fields import words
from pinchrod.job.job_file import Head, read_head
from pinchrod.job.job_frames import read_frames
from pinchrod.job.limits import MOST_NAME
from pinchrod.job.rack import by_volume, read_rack
from pinchrod.job.records import Frame, Job
from pinchrod.job.said import NOTHING, Reading, Table, gathered, in_file_order
from pinchrod.job.shop import Shop
from pinchrod.job.source import ENDINGS, LISTS, Form, Source, fingerprint, form_of
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
    """The names of the files that a job file points at; none if it cannot be read."""
    said, _ = gathered(_job_said(source))
    named, _ = gathered(_named(said or NOTHING))
    return tuple(named.values())


def read_job(
    source: Source, joined: tuple[Source, ...] = (), *, workshop: Source | None = None
) -> tuple[Job, Shop]:
    """The job and the workshop, or NotYetRight with every problem of every file.

    `joined` are the files that `joined_files` names. A `workshop` given here counts before the one
    that the job names.
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
    said = yield from _job_said(source)
    if said is None:
        shop, _ = yield from _shop(NOTHING, workshop)
        return None, shop
    files = yield from _files(said, joined)
    if workshop is not None:
        files["workshop"] = workshop
    head, problems = gathered(read_head(said, source.stem))
    yield from problems
    frames = yield from read_frames(said, source, files.get("frames"), head.members)
    shop, shop_said = yield from _shop(said, files.get("workshop"))
    rack = files.get("rack")
    boards = () if rack is None else (yield from read_rack(rack, head.thickness, shop.practice))
    if any(problem.stops for problem in problems):
        return None, shop
    read = (("job", source), *files.items())
    told = _told(head, frames, fingerprint(read), tuple(usual_figures(head.joint, (said, shop_said))))
    volume = (BY_VOLUME,) if by_volume(boards) else ()
    return replace(told, rack=boards, assumed=(*told.assumed, *volume)), shop


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


def _job_said(source: Source) -> Reading[Table | None]:
    """What the job file says; nothing at all for a bare list of frames; None if it cannot be read."""
    form = yield from form_of(source, tuple(Form))
    if form is not Form.TOML:
        return None if form is None else NOTHING
    said = yield from read_toml(source)
    readable = said is not None and (yield from read_version(said, source.whole))
    return said if readable else None


def _shop(said: Table, workshop: Source | None) -> Reading[tuple[Shop, Table]]:
    """The workshop, with what the job file changes in it; and what its own file says."""
    shop, shop_said = Shop(), None
    if workshop is not None and (yield from form_of(workshop, (Form.TOML,))):
        shop_said = yield from read_toml(workshop)
        if shop_said is not None:
            shop = yield from shop_of(shop_said, workshop.whole)
    return (yield from with_tables(shop, said, JOB_TABLES)), shop_said or NOTHING


def _named(said: Table) -> Reading[dict[str, str]]:
    """The files that the job file points at, by their part in the job."""
    names = {}
    for part, forms in JOINED.items():
        found = said.table("job").get(part)
        name = None if found is None else (yield from words(found, part, MOST_NAME))
        if found is None or name is None:
            continue
        if any(name.lower().endswith(ending) for ending, form in ENDINGS.items() if form in forms):
            names[part] = name
        else:
            endings = " or ".join(ending for ending, form in ENDINGS.items() if form in forms)
            what = f"{part} is {quoted(name)}, no file that is read here"
            mend = f"name a file ending in {endings}"
            yield Problem(where=found.at, code="file-kind", what=what, mend=mend)
    return names


def _files(said: Table, joined: tuple[Source, ...]) -> Reading[dict[str, Source]]:
    """The joined files by their part in the job; one that is not there is told where it is named."""
    files = {}
    for part, name in (yield from _named(said)).items():
        found = next((source for source in joined if _is(source, name)), None)
        if found is not None:
            files[part] = found
        else:
            place = said.table("job").said[part]
            what = f"the file {quoted(name)} is not there"
            mend = "put it beside the job file, or write its name as it is"
            yield Problem(where=place.at, code="file-not-given", what=what, mend=mend)
    return files


def _is(source: Source, name: str) -> bool:
    """Whether a file is the one of that name, perhaps told with the folders that lead to it."""
    return source.name == name or source.name.replace("\\", "/").endswith(f"/{name}")
