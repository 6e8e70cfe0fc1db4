"""The page of one frame: its drawing, its fields, and the ways to the frames beside it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from markupsafe import Markup

from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.job import Change, FrameWords, Words, changes_between
from pinchrod.store import Revision
from pinchrod.web.begun import Begun
from pinchrod.web.frames_drawn import drawn
from pinchrod.web.frames_form import FrameForm, form_of
from pinchrod.web.jobs_saving import frame_address
from pinchrod.web.known import Known
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Overtaken:
    """What somebody else saved while this was typed."""

    by: str
    at: str
    mine: int  # the revision that was being changed
    theirs: int
    changes: tuple[Change, ...]
    gone: bool  # the frame is not there any more under that id


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePage:
    """One frame, or one that is yet to be added if it has no id."""

    within: Within
    id: str
    address: str  # where its form is sent
    revision: int
    form: FrameForm
    svg: Markup | None
    back: str = ""
    on: str = ""
    like: str = ""  # the frame behind which a new one is added
    before: str = ""
    following: str = ""
    sent: bool = False  # whether these words were to be saved
    begun: Begun | None = None
    taken_up: bool = False
    overtaken: Overtaken | None = None


def frame_said(known: Known, frame: str) -> FrameWords:
    """What the revision says of that frame; NotYetRight if it has none of that id."""
    found = next((each for each in known.said if each.id == frame), None)
    if found is None:
        what = f"revision {known.number} has no frame {quoted(frame)}"
        mend = "go back to the frames: somebody may have renamed it or taken it out"
        raise NotYetRight([Problem(where=Where(name="frame"), code="no-such-frame", what=what, mend=mend)])
    return found


def frame_page(
    known: Known, frame: str, words: Words, slips: Iterable[Slip] = (), *, sent: bool = False
) -> FramePage:
    """The page of that frame with these words in its fields; of a new frame, if no id is given."""
    found = drawn(known, words)
    ids = tuple(each.id for each in known.said)
    at = ids.index(frame) if frame in ids else -1
    before, after = ("".join(ids[at - 1 : at]), "".join(ids[at + 1 : at + 2])) if at >= 0 else ("", "")
    return FramePage(
        within=within(known.revision, "frames"),
        id=frame,
        address=frame_address(known.name, frame) if frame else f"/jobs/{known.name}/new-frame",
        revision=known.number,
        form=form_of(words, found, slips, sent=sent),
        sent=sent,
        svg=found.svg or _as_saved(known, frame),
        back=frame_address(known.name, before) if before else "",
        on=frame_address(known.name, after) if after else "",
        before=before,
        following=after,
    )


def with_begun(page: FramePage, begun: Begun | None, *, taken_up: bool) -> FramePage:
    """The page that offers what was begun here, or has it in its fields already."""
    if begun is None:
        return page
    return replace(page, begun=begun, taken_up=taken_up, revision=begun.after if taken_up else page.revision)


def _as_saved(known: Known, frame: str) -> Markup | None:
    """The drawing of the frame as the revision has it, if it has it."""
    found = next((each for each in known.said if frame and each.id == frame), None)
    return None if found is None else drawn(known, found.words).svg


def overtaken_page(visit: Visit, frame: str, words: Words, mine: int) -> FramePage:
    """The newest revision's page with what was typed kept in its fields, and what was changed meanwhile."""
    newest, old = visit.floor.job(visit.place("job")), visit.floor.job(visit.place("job"), mine)
    there = any(each.id == frame for each in newest.said)
    overtaken = Overtaken(
        by=str(newest.revision.by),
        at=_clock(newest.revision),
        mine=mine,
        theirs=newest.number,
        changes=changes_between(old.job, newest.job),
        gone=bool(frame) and not there,
    )
    return replace(frame_page(newest, frame if there else "", words), overtaken=overtaken)


def _clock(revision: Revision) -> str:
    return f"{revision.at[:16].replace('T', ' ')} UTC"
