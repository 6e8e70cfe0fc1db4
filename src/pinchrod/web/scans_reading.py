"""What a scan says: which piece of which job; and for each scan that says none, why, in its own words."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.store import Entry, Revision, jobs, revisions
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known
from pinchrod.web.scans_keyboards import turned_back

LONGEST = 200  # letters; a label of ours has some 30
MARK = "[0-9A-HJKMNP-TV-Za-hjkmnp-tv-z]{8}"
WHOLE = re.compile(rf"({MARK})/(.*)")
AS_PRINTED = re.compile(r"([0-9A-Za-z]{4}-[0-9A-Za-z]{4})/")
STARTS = re.compile(rf"(?={MARK}/)")
FRONT_LOST = re.compile(r"[0-9A-Za-z]{0,7}/(.+)")
KIND_BEFORE = re.compile(r"\][A-Za-z][0-9A-Za-z]")  # scanners may send what kind of code it was: ]Q1
GOODS = re.compile(r"[0-9]{6,14}")
ADDRESS = re.compile(r"(https?:|www\.)", re.IGNORECASE)
AT_HAND = 24  # jobs that a bare mark is looked for in, the newest first
NAMED = 4
ALIKE = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A piece as it was scanned or typed: its job at its newest revision, and the label's content mark."""

    known: Known
    entry: Entry
    mark: str = ""  # as on the label: KY3D-10C8; empty where only the piece's mark was typed


def find_piece(floor: Floor, said: str, job: str = "") -> Found:
    """The piece that a scan means; NotYetRight if it means none. In a job's own page, a piece of that job."""
    text = _as_coded(floor, _plain(said))
    whole = WHOLE.fullmatch(text)
    if len(list(STARTS.finditer(text))) > 1 or (not whole and STARTS.search(text, 1)):
        raise _glued(text)
    return _of_label(floor, whole[1], whole[2], job) if whole else _of_mark(floor, text, job)


def _as_coded(floor: Floor, text: str) -> str:
    """A content mark that was typed with its dash, as papers print it, as codes have it: without."""
    printed = AS_PRINTED.match(text)
    return text.replace("-", "", 1) if printed and _revision_of(floor, printed[1].upper()) else text


def find_frame(floor: Floor, said: str, job: str = "") -> tuple[Known, str] | None:
    """The frame that was typed, if the words are the mark of one and one only."""
    wanted = said.strip().upper()
    found = [
        (known, entry.frame)
        for known in _at_hand(floor, job)
        for entry in known.roll.entries
        if entry.frame.upper() == wanted
    ]
    return found[0] if len({known.name for known, _ in found}) == 1 else None


def _plain(said: str) -> str:
    """What came, without the end mark and the kind of code."""
    if len(said) > LONGEST:
        what = f"{len(said):,} letters came at once; a label has fewer than {LONGEST}"
        raise _amiss("scan-too-long", what, "clear the field, then scan one label")
    text = KIND_BEFORE.sub("", said.strip(), count=1) if said.startswith("]") else said.strip()
    if not text:
        raise _amiss("scan-empty", "nothing came", "scan a label, or type the mark on it")
    if not text.isprintable():
        what = f"something came that no label has: {quoted(text)}"
        raise _amiss("scan-unseen", what, "scan again; if it stays so, reset the scanner by its booklet")
    return text


def _of_label(floor: Floor, letters: str, piece: str, job: str) -> Found:
    mark = f"{letters[:4]}-{letters[4:]}".upper()
    revision = _revision_of(floor, mark)
    if revision is None:
        raise _mark_unknown(floor, mark, f"{letters}/{piece}", job)
    if job and revision.job != job:
        what = f"the label is of another job: {revision.name}"
        raise _amiss(
            "label-of-other-job", what, f"look at it under {revision.name}, or scan a piece of this job"
        )
    known = floor.job(revision.job)
    entry = known.roll.entry(piece)
    if entry is None:
        raise _not_of(known, piece, floor.job(revision.job, revision.number))
    return Found(known=known, entry=entry, mark=mark)


def _revision_of(floor: Floor, mark: str) -> Revision | None:
    """The revision with that content mark: among the newest of each job first."""
    newest = jobs(floor.store)
    current = (revision for revision in newest if revision.mark == mark)
    older = (
        each for one in newest for each in reversed(revisions(floor.store, one.job)) if each.mark == mark
    )
    return next(current, None) or next(older, None)


def _of_mark(floor: Floor, text: str, job: str) -> Found:
    at_hand = _at_hand(floor, job)
    found = [(known, entry) for known in at_hand if (entry := known.roll.entry(text)) is not None]
    if not found:
        raise NotYetRight([_why_none(floor, text, at_hand, job)])
    if len(found) > 1:
        names = ", ".join(known.revision.name for known, _ in found)
        raise _amiss(
            "piece-in-several",
            f"{found[0][1].mark} is in several jobs: {names}",
            "scan its label, or open its job first",
        )
    [(known, entry)] = found
    return Found(known=known, entry=entry)


def _at_hand(floor: Floor, job: str) -> tuple[Known, ...]:
    if job:
        return (floor.job(job),)
    newest = sorted(jobs(floor.store), key=lambda revision: revision.at, reverse=True)[:AT_HAND]
    return tuple(floor.job(revision.job) for revision in newest)


def _why_none(floor: Floor, text: str, at_hand: Sequence[Known], job: str) -> Problem:
    """Why a scan without a content mark means no piece: the first reason that fits."""
    return next(
        problem
        for problem in (
            _keyboard(floor, text, job),
            _half(floor, text, at_hand),
            _two_marks(text, at_hand),
            _of_a_front(text, at_hand),
            _foreign(text),
            _unknown(text, at_hand),
        )
        if problem is not None
    )


def _keyboard(floor: Floor, text: str, job: str) -> Problem | None:
    for meant, keyboard in turned_back(text):
        if _is_a_piece(floor, meant, job):
            what = f"{quoted(text)} looks like {meant}, but {keyboard.how}"
            mend = (
                "set the scanner to this computer's keyboard, as its booklet says; until then type the mark"
            )
            return _problem("scan-keyboard", what, mend)
    return None


def _is_a_piece(floor: Floor, text: str, job: str) -> bool:
    whole = WHOLE.fullmatch(text)
    if whole:
        revision = _revision_of(floor, f"{whole[1][:4]}-{whole[1][4:]}".upper())
        return revision is not None and floor.job(revision.job).roll.entry(whole[2]) is not None
    return any(known.roll.entry(text) for known in _at_hand(floor, job))


def _half(floor: Floor, text: str, at_hand: Sequence[Known]) -> Problem | None:
    """Part of a label: the front without the rest, the rest without the front, or a mark cut short."""
    front = FRONT_LOST.fullmatch(text)
    only_mark = f"{text[:4]}-{text[4:]}".upper() if "/" not in text else ""
    begun = [known for known in at_hand if any(_starts(entry.mark, text) for entry in known.roll.entries)]
    lost = front is not None and any(known.roll.entry(front[1]) for known in at_hand)
    if not (lost or begun or (len(text) == len("KY3D10C8") and _revision_of(floor, only_mark))):
        return None
    return _problem("scan-half", f"only part of a label came: {quoted(text)}", _which(text, at_hand))


def _starts(mark: str, text: str) -> bool:
    return "-" in text and mark.upper().startswith(text.upper())


def _which(text: str, at_hand: Sequence[Known]) -> str:
    marks = [entry.mark for known in at_hand for entry in known.roll.entries if _starts(entry.mark, text)]
    if not marks:
        return "scan it again, nearer and straight on"
    more = f" and {len(marks) - NAMED} more" if len(marks) > NAMED else ""
    return f"scan it again, or type all of the mark: {', '.join(marks[:NAMED])}{more}"


def _two_marks(text: str, at_hand: Sequence[Known]) -> Problem | None:
    for place in range(1, len(text)):
        for known in at_hand:
            if known.roll.entry(text[:place]) and known.roll.entry(text[place:]):
                return _glued_problem(text)
    return None


def _of_a_front(text: str, at_hand: Sequence[Known]) -> Problem | None:
    """Fronts and the parts of doors bear labels too; the ledger has stiles, rails and muntins."""
    said = text.upper()
    fronts = (front.name.upper() for known in at_hand for rod in known.rods.rods for front in rod.fronts)
    if not any(said.startswith(front) for front in fronts):
        return None
    what = f"{quoted(text)} is a front, or a part of one: only the frames' own pieces are followed"
    return _problem("piece-not-followed", what, "scan a stile, rail or muntin of the frame")


def _foreign(text: str) -> Problem | None:
    if ADDRESS.match(text):
        what = f"that is the address of a page, not a label of ours: {quoted(text)}"
    elif GOODS.fullmatch(text):
        what = f"that is the code of some goods, not a label of ours: {quoted(text)}"
    else:
        return None
    return _problem("scan-foreign", what, "scan the label that pinchrod printed for the piece")


def _unknown(text: str, at_hand: Sequence[Known]) -> Problem:
    marks = {entry.mark.upper(): entry.mark for known in at_hand for entry in known.roll.entries}
    near = get_close_matches(text.upper(), marks, n=1, cutoff=ALIKE)
    mend = f"did you mean {marks[near[0]]}?" if near else "look at the label: its mark is like K1-LS"
    where = at_hand[0].revision.name if len(at_hand) == 1 else "no job here"
    what = (
        f"{where} has no piece {quoted(text)}" if len(at_hand) == 1 else f"{where} has a piece {quoted(text)}"
    )
    return _problem("not-a-piece", what, mend)


def _not_of(known: Known, piece: str, as_labelled: Known) -> NotYetRight:
    """Why a label of ours means no piece of its job now."""
    if as_labelled.roll.entry(piece) is not None:
        what = (
            f"revision {known.number} has no {piece} any more; the label is of revision {as_labelled.number}"
        )
        return _amiss("piece-gone", what, "keep the piece aside, and ask the office what becomes of it")
    two = _two_marks(piece, (known,))
    begun = not piece or any(_starts(entry.mark, piece) for entry in known.roll.entries)
    if two is None and begun:
        return _amiss("scan-half", f"only part of a label came: {quoted(piece)}", _which(piece, (known,)))
    return NotYetRight([two or _of_a_front(piece, (known,)) or _unknown(piece, (known,))])


def _mark_unknown(floor: Floor, mark: str, text: str, job: str) -> NotYetRight:
    """A content mark that is not ours: misread by a letter, set wrongly, or of another workshop."""
    keyboard = _keyboard(floor, text, job)
    if keyboard is not None:
        return NotYetRight([keyboard])
    ours = {revision.mark: revision.name for revision in jobs(floor.store)}
    near = get_close_matches(mark, ours, n=1, cutoff=ALIKE)
    mend = (
        f"{near[0]} is {ours[near[0]]}: if it is meant, scan again"
        if near
        else "the label may be another workshop's, or its job was never saved here"
    )
    return _amiss("label-unknown", f"no job here has the content mark {mark}", mend)


def _glued(text: str) -> NotYetRight:
    return NotYetRight([_glued_problem(text)])


def _glued_problem(text: str) -> Problem:
    what = f"two scans came as one: {quoted(text)}"
    return _problem(
        "scan-glued", what, "clear the field and scan one label; the scanner must send Enter after each"
    )


def _amiss(code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([_problem(code, what, mend)])


def _problem(code: str, what: str, mend: str) -> Problem:
    return Problem(where=Where(name="scan"), code=code, what=what, mend=mend)
