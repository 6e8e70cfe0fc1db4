"""What the joiner said of a job: its files whole, as they were given, and the job read from them afresh."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from hashlib import sha256

from pinchrod.job import Job, Shop, Source, read_job
from pinchrod.store.base import Base, insert

JOB, JOINED, WORKSHOP, BESIDE = "job", "joined", "workshop", "beside"


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFiles:
    """A job's own file, those it names, and the workshop's where one counts before the job's."""

    main: Source
    joined: tuple[Source, ...] = ()
    workshop: Source | None = None

    def read(self) -> tuple[Job, Shop]:
        """The job and the workshop; NotYetRight with everything wrong in any file."""
        return read_job(self.main, self.joined, workshop=self.workshop)


@dataclass(frozen=True, slots=True)
class Placed:
    """A file with its place in a revision, from 1, and the place of the file that it stands beside, or 0."""

    place: int
    beside: int
    part: str
    source: Source

    @property
    def mark(self) -> str:
        """The sha256, in hex, of what is in it."""
        return mark_of(self.source.content)


def mark_of(content: bytes) -> str:
    """The sha256, in hex, under which a content is kept: once, however often it comes."""
    return sha256(content).hexdigest()


def placed(files: JobFiles) -> tuple[Placed, ...]:
    """Every file in its place: the job's own, those it names, the workshop's, each before those beside it."""
    tops = [(JOB, files.main), *((JOINED, each) for each in files.joined)]
    if files.workshop is not None:
        tops.append((WORKSHOP, files.workshop))
    found: list[Placed] = []
    for part, source in tops:
        _place(found, part, source, beside=0)
    return tuple(found)


def _place(found: list[Placed], part: str, source: Source, beside: int) -> None:
    place = len(found) + 1
    found.append(Placed(place, beside, part, source))
    for each in source.beside:
        _place(found, BESIDE, each, beside=place)


def keep_files(base: Base, job: str, revision: int, files: tuple[Placed, ...]) -> None:
    """Write down the files of a revision."""
    for file in files:
        keep_content(base, file.source.content)
        insert(
            base,
            "files",
            job=job,
            revision=revision,
            place=file.place,
            beside=file.beside,
            part=file.part,
            name=file.source.name,
            content=file.mark,
        )


def keep_content(base: Base, content: bytes) -> str:
    """The mark under which a content is kept now; nothing is written if it was kept before."""
    mark = mark_of(content)
    if not base.rows("SELECT 1 FROM contents WHERE mark = :mark", mark=mark):
        insert(base, "contents", mark=mark, content=content)
    return mark


def kept_files(base: Base, job: str, revision: int) -> tuple[Placed, ...]:
    """The files of a revision in their places; none if there is no such revision."""
    rows = base.rows(
        "SELECT f.place, f.beside, f.part, f.name, c.content FROM files f"
        " JOIN contents c ON c.mark = f.content WHERE f.job = :job AND f.revision = :revision"
        " ORDER BY f.place",
        job=job,
        revision=revision,
    )
    return tuple(_placed_again(*row) for row in rows)


def _placed_again(place: object, beside: object, part: object, name: object, content: object) -> Placed:
    held = content if isinstance(content, bytes) else b""
    return Placed(int(str(place)), int(str(beside)), str(part), Source(name=str(name), content=held))


def job_files(files: tuple[Placed, ...]) -> JobFiles:
    """The files as they were given, each with those that stand beside it."""
    tops = [(file.part, _whole(file, files)) for file in files if not file.beside]
    return JobFiles(
        main=next(source for part, source in tops if part == JOB),
        joined=tuple(source for part, source in tops if part == JOINED),
        workshop=next((source for part, source in tops if part == WORKSHOP), None),
    )


def _whole(file: Placed, files: tuple[Placed, ...]) -> Source:
    beside = tuple(_whole(each, files) for each in files if each.beside == file.place)
    return replace(file.source, beside=beside)


def said_of(files: tuple[Placed, ...]) -> Iterator[object]:
    """What a revision's seal is made of, file by file."""
    yield from ([file.place, file.beside, file.part, file.source.name, file.mark] for file in files)
