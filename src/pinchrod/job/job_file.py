"""What a job file says before its frames: names, usual sizes, doors, the title block."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from pinchrod.ground import Mm, Problem
from pinchrod.job.fields import choice, day, words
from pinchrod.job.frames import FRAME_KEYS, Members
from pinchrod.job.keys import not_yet_used, part, unknown_names
from pinchrod.job.limits import DOORS, FRONT_THICKNESS, MOST_NAME, TITLE_WORDS, USUAL, Usual, in_unit
from pinchrod.job.offer_tables import OFFER_KEYS
from pinchrod.job.records import Bead, Doors, Gaps, Issue, Joint, Timber
from pinchrod.job.said import Reading, Table
from pinchrod.job.sizes import length
from pinchrod.job.timbers import TIMBER_KEYS, USUAL_TIMBER, read_own_timbers, read_timber
from pinchrod.job.workshop_file import JOB_TABLES, SHOP_TABLES

JOINTS = tuple(joint.value for joint in Joint)
USUAL_JOINT = Joint.DOVETAIL_KEY
NAMES = ("name", "customer", "timber", "thickness", "joint", "front_thickness", "frames", "workshop", "rack")
OUTERMOST = (
    "pinchrod",
    "job",
    "bead",
    "members",
    "gaps",
    "doors",
    "timber",
    "frame",
    *JOB_TABLES,
    "run",
    "offer",
)
KNOWN = {
    "": OUTERMOST,
    "job": (*NAMES, *TITLE_WORDS, "date"),
    **{
        table: tuple(usual.key for usual in USUAL if usual.table == table)
        for table in ("bead", "members", "gaps")
    },
    "doors": tuple(usual.key for usual in DOORS),
    "[frame]": FRAME_KEYS,
    "[timber]": TIMBER_KEYS,
    "[offer]": OFFER_KEYS,
    "the workshop file": tuple(name for name in SHOP_TABLES if name not in JOB_TABLES),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """All that a job says but its frames; `assumed` is what stands because nothing was said."""

    name: str
    customer: str
    timber: Timber
    thickness: Mm
    joint: Joint
    bead: Bead
    gaps: Gaps
    members: Members
    front_thickness: Mm
    doors: Doors | None
    issue: Issue
    assumed: tuple[str, ...]


def read_head(said: Table, stem: str) -> Reading[Head]:
    """The job's names and sizes, as said or as usual. `stem` names a job that has no other name."""
    yield from unknown_names(said, "", KNOWN)
    yield from not_yet_used(said, ("run",))
    job = yield from part(said, "job", KNOWN)
    own = yield from read_own_timbers(said)
    timber = yield from read_timber(job.get("timber"), own)
    sizes = yield from _sizes(said, job)
    doors = yield from _doors(said)
    front = job.get("front_thickness")
    front_thickness = (
        None if front is None else (yield from length(front, "front_thickness", FRONT_THICKNESS))
    )
    return Head(
        name=(yield from _text(job, "name", MOST_NAME)) or stem,
        customer=(yield from _text(job, "customer", MOST_NAME)),
        timber=timber,
        thickness=sizes["job.thickness"],
        joint=(yield from _joint(job)),
        bead=Bead(width=sizes["bead.width"], quirk=sizes["bead.quirk"]),
        gaps=Gaps(edge=sizes["gaps.edge"], meeting=sizes["gaps.meeting"]),
        members=Members(**{key: sizes[f"members.{key}"] for key in KNOWN["members"]}),
        front_thickness=front_thickness or sizes["job.thickness"],
        doors=doors,
        issue=(yield from _issue(job)),
        assumed=tuple(_assumed(said, job, stem, sizes)),
    )


def _sizes(said: Table, job: Table) -> Reading[Mapping[str, Mm]]:
    """Every usual size by table and name, as said or as usual."""
    tables = {"job": job}
    for name in ("bead", "members", "gaps"):
        tables[name] = yield from part(said, name, KNOWN)
    sizes = {}
    for usual in USUAL:
        sizes[f"{usual.table}.{usual.key}"] = yield from _size(tables[usual.table], usual)
    width = sizes["bead.width"]
    if tables["bead"].get("quirk") is None:
        sizes["bead.quirk"] = _usual_quirk(width)
    yield from _check_quirk(said, sizes)
    # A square edge has no quirk, whatever was said of one.
    return sizes if width else {**sizes, "bead.quirk": Mm(0)}


def _usual_quirk(width: Mm) -> Mm:
    """The quirk of a bead of which only the width was said: the usual one, or half of a narrow bead."""
    [usual] = [usual.size for usual in USUAL if (usual.table, usual.key) == ("bead", "quirk")]
    return usual if usual < width else width / 2


def _size(table: Table, usual: Usual) -> Reading[Mm]:
    found = table.get(usual.key)
    if found is None:
        return usual.size
    size = yield from length(found, f"{usual.key} in [{usual.table}]", usual.between)
    return usual.size if size is None else size


def _check_quirk(said: Table, sizes: Mapping[str, Mm]) -> Iterator[Problem]:
    """The quirk is part of the bead's width."""
    width, quirk = sizes["bead.width"], sizes["bead.quirk"]
    place = said.table("bead").get("quirk")
    if place is not None and quirk >= width > 0:
        bead = f"a bead {in_unit(width, 'mm')} wide, which includes it"
        what = f"the quirk, {in_unit(quirk, 'mm')}, leaves nothing of {bead}"
        yield Problem(
            where=place.at, code="quirk-wide", what=what, mend="make the quirk narrower than the bead"
        )


def _doors(said: Table) -> Reading[Doors | None]:
    """How five-piece doors are made, once there is a table [doors]."""
    if said.get("doors") is None:
        return None
    table = yield from part(said, "doors", KNOWN)
    sizes = {}
    for usual in DOORS:
        sizes[usual.key] = yield from _size(table, usual)
    return Doors(**sizes)


def _joint(job: Table) -> Reading[Joint]:
    found = job.get("joint")
    name = None if found is None else (yield from choice(found, "joint", JOINTS, _joint_written))
    return USUAL_JOINT if name is None else Joint(name)


def _joint_written(name: str) -> str:
    """A joint's name as we write it: small letters, one of it, spaces between, and mortice with a c."""
    parts = re.split(r"[\s_-]+", name.casefold().replace("mortise", "mortice"))
    return " ".join(part.removesuffix("s") for part in parts if part)


def _text(job: Table, name: str, most: int) -> Reading[str]:
    """The words under that name, or none."""
    found = job.get(name)
    text = None if found is None else (yield from words(found, name, most))
    return text or ""


def _issue(job: Table) -> Reading[Issue]:
    """What goes into the title block."""
    said = {}
    for name, most in TITLE_WORDS.items():
        said[name] = yield from _text(job, name, most)
    found = job.get("date")
    issued: date | None = None if found is None else (yield from day(found, "date"))
    return Issue(date=issued, **said)


def _assumed(said: Table, job: Table, stem: str, sizes: Mapping[str, Mm]) -> Iterator[str]:
    """Everything that stands because the job says nothing of it."""
    if job.get("name") is None:
        yield f"the job called {stem}, after its file"
    if job.get("timber") is None:
        yield f"timber {USUAL_TIMBER}"
    if job.get("joint") is None:
        yield f"joint: {USUAL_JOINT}"
    for usual in USUAL:
        size = sizes[f"{usual.table}.{usual.key}"]
        no_quirk = usual.key == "quirk" and not size
        if said.table(usual.table).get(usual.key) is None and not no_quirk:
            yield _saying(usual, size)
    if job.get("front_thickness") is None:
        yield "doors and drawer fronts as thick as the frame"
    if said.get("doors") is None:
        yield "doors are plain slabs"
    else:
        yield from (
            _saying(usual, usual.size) for usual in DOORS if said.table("doors").get(usual.key) is None
        )


def _saying(usual: Usual, size: Mm) -> str:
    return usual.saying.format(in_unit(size, "mm"))
