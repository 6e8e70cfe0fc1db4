"""A job's rack put in the place of the one that it had, or named where it named none."""

from dataclasses import replace
from pathlib import PurePath

import tomlkit

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job.editing.files import Files
from pinchrod.job.editing.rewriting import Patch, rewritten
from pinchrod.job.editing.toml_frames import framed
from pinchrod.job.editing.toml_words import in_quotes, named
from pinchrod.job.joined import found
from pinchrod.job.rack_words import RackWords, rack_list, rack_words
from pinchrod.job.reading import job_said, joined_files
from pinchrod.job.said import gathered
from pinchrod.job.source import Source
from pinchrod.job.words import words_of

USUAL_RACK = "rack.csv"


def rack_of(files: Files) -> Source | None:
    """The list of boards that the job names, if it names one."""
    said, _ = gathered(job_said(files.main))
    place = said.table("job").get("rack") if said is not None else None
    return None if place is None else found(place.shown, files.joined)


def boards_as_said(files: Files) -> RackWords:
    """The boards of a job as they were typed; none if it names no rack."""
    source = rack_of(files)
    return RackWords() if source is None else rack_words(source)


def with_boards(files: Files, rack: RackWords) -> Files:
    """The files with these boards on the rack; a job without one names it, and a workbook becomes a list.

    NotYetRight if the job is a bare list of frames, which can name no rack.
    """
    old = rack_of(files)
    name = _list_name(files, old)
    new = rack_list(name, rack)
    if old is None:
        return replace(files, main=_named_in(files.main, name), joined=(*files.joined, new))
    main = files.main if name == old.name else _named_in(files.main, name)
    return replace(files.with_source(old, new), main=main)


def _list_name(files: Files, old: Source | None) -> str:
    """What the list is called: as it was; after its workbook; or a name that no other file has."""
    if old is not None and old.ending == ".csv":
        return old.name
    stem = old.stem if old is not None else PurePath(USUAL_RACK).stem
    taken = {each.name for each in (files.main, *files.joined)}
    names = (f"{stem}{number or ''}.csv" for number in range(len(taken) + 2))
    return next(name for name in names if name not in taken)


def _named_in(main: Source, name: str) -> Source:
    """The job file with `rack = "rack.csv"` in [job], every other letter as it was."""
    if main.ending != ".toml":
        raise NotYetRight([_no_job_file(main)])
    text, _ = gathered(words_of(main))
    changed = rewritten(main, [_patch(text or "", name)])
    if name not in joined_files(changed):
        raise RuntimeError(f"{name} was not named in {main.name}")
    return changed


def _patch(text: str, name: str) -> Patch:
    pairs = framed(text).pairs
    told = next((pair.value for pair in pairs if pair.names == ("rack",)), None)
    if told is not None:
        return Patch(told.start, told.end, in_quotes(name))
    if pairs:
        end = pairs[-1].whole.end
        return Patch(end, end, f"\n{named('rack', in_quotes(name))}")
    return Patch(0, len(text), _in_another_shape(text, name))


def _in_another_shape(text: str, name: str) -> str:
    """The text of a job whose [job] has no lines of its own: it is left out, in braces or in dotted names."""
    told = tomlkit.parse(text)
    job = told.setdefault("job", tomlkit.table())
    job["rack"] = name
    return tomlkit.dumps(told)


def _no_job_file(main: Source) -> Problem:
    what = "the job is a bare list of frames, which cannot name a rack"
    mend = 'write a job file, job.toml, that names the list: frames = "frames.csv" in [job]'
    return Problem(where=main.whole, code="rack-nowhere", what=what, mend=mend)
