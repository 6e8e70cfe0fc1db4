"""The bench: scan or type a mark, glue frames up, tape their diagonals, say what is spoiled."""

from dataclasses import replace
from itertools import chain

from pinchrod.fit import Diagonals
from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.setting_out import Rod
from pinchrod.store import Deed, Entry, Said, Standing
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.bench_frame import DIAGONALS, FramePage, frame_page, may_stay, read_diagonals, verdict_words
from pinchrod.web.bench_frames import rod_of
from pinchrod.web.bench_jobs import jobs_at_hand
from pinchrod.web.bench_pages import Box, bench_page, frame_address
from pinchrod.web.bench_piece import REASONS, SpoilPage, piece_page
from pinchrod.web.in_force import plan_in_force
from pinchrod.web.known import Known
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.scans_answers import piece_address, refusal
from pinchrod.web.scans_reading import find_piece
from pinchrod.web.scans_touches import counted, last_touch, say
from pinchrod.web.trouble import slips_of
from pinchrod.web.visit import Visit
from pinchrod.web.within import within

OF_FRAMES = {"glued": Deed.GLUED, "checked": Deed.CHECKED, "delivered": Deed.DELIVERED}


def look(visit: Visit) -> Answer:
    """The bench across all jobs."""
    return _bench(visit, Box(deed=visit.said("deed")))


def look_at_job(visit: Visit) -> Answer:
    """The bench of one job."""
    job = visit.place("job")
    return _bench(visit, Box(job=job, back=f"/jobs/{job}/bench", deed=visit.said("deed")))


def _bench(visit: Visit, box: Box) -> Answer:
    undo = last_touch(visit.floor, visit.by.device)
    return Page(template="bench/bench.html", page=bench_page(jobs_at_hand(visit.floor, box.job), box, undo))


def look_at_piece(visit: Visit) -> Answer:
    """One piece."""
    known, entry, standing = _piece(visit)
    undo = last_touch(visit.floor, visit.by.device)
    page = piece_page(known, entry, standing, visit.said("label"), undo)
    return Page(template="bench/piece.html", page=page)


def spoil(visit: Visit) -> Answer:
    """Where it is said why a piece is spoiled."""
    known, entry, _ = _piece(visit)
    page = SpoilPage(
        within=within(known.revision, "bench"),
        piece=entry.mark,
        reasons=REASONS,
        back=piece_address(known.name, entry.mark),
    )
    return Page(template="bench/spoil.html", page=page)


def say_spoiled(visit: Visit) -> Answer:
    """Say that a piece is spoiled: a reason is chosen or typed."""
    known, entry, _ = _piece(visit)
    reason = " ".join((visit.said("more") or visit.said("reason")).split())
    spot, back = visit.said("spot").strip(), piece_address(known.name, entry.mark)
    try:
        say(visit, known, [Said(deed=Deed.SPOILED, piece=entry.mark, reason=reason, spot=spot)])
    except NotYetRight as trouble:
        page = SpoilPage(
            within=within(known.revision, "bench"),
            piece=entry.mark,
            reasons=REASONS,
            back=back,
            slips=slips_of(trouble.problems, "more"),
            spot=visit.said("spot"),
            more=visit.said("more"),
        )
        return Page(template="bench/spoil.html", page=page, status=422)
    return Go(to=back, told=Told(words=f"{entry.mark} spoiled: {reason}"))


def look_at_frame(visit: Visit) -> Answer:
    """One frame."""
    return Page(template="bench/frame.html", page=_frame_page(visit))


def say_of_frame(visit: Visit) -> Answer:
    """Say that a frame is glued, taped or delivered: of every piece of it for which that was not said yet."""
    known, rod, entries = _frame(visit)
    deed = OF_FRAMES.get(visit.said("do"))
    if deed is None:
        raise _amiss("scan-form", "what is to be said of the frame is none of its steps", "choose a button")
    try:
        taped = read_diagonals(visit.said("rising"), visit.said("falling")) if deed is Deed.CHECKED else None
        if taped is not None and not (may_stay(known, rod, taped) or visit.said("sure")):
            return _out_of_square(visit, verdict_words(known, rod, taped))
        _say_of_all(visit, known, entries, deed, taped)
    except NotYetRight as trouble:
        return _refused(visit, trouble, deed)
    told = Told(words=f"{entries[0].frame} {deed}")
    return Go(to=frame_address(known.name, entries[0].frame), told=told)


def _say_of_all(
    visit: Visit, known: Known, entries: tuple[Entry, ...], deed: Deed, taped: Diagonals | None
) -> None:
    standings = visit.floor.standings.of(known.name)
    lengths = (taped.rising, taped.falling) if taped else ()
    left = [entry.mark for entry in entries if not _is_done(standings.get(entry.mark), deed)]
    if left and not counted(visit.floor.store, visit.key):
        said = [Said(deed=deed, piece=piece, diagonals=lengths) for piece in left]
        say(visit, known, said, despite=visit.all_said("despite"))


def _is_done(standing: Standing | None, deed: Deed) -> bool:
    return standing is not None and standing.when(deed) is not None


def _page_again(visit: Visit) -> FramePage:
    """The frame's page with the lengths as they were typed."""
    return replace(_frame_page(visit), rising=visit.said("rising"), falling=visit.said("falling"))


def _out_of_square(visit: Visit, verdict: tuple[str, ...]) -> Answer:
    """The frame's page with what its diagonals say: nothing is noted until they are let stand."""
    page = replace(_page_again(visit), verdict=verdict, again="checked")
    return Page(template="bench/frame.html", page=page, status=422)


def _refused(visit: Visit, trouble: NotYetRight, deed: Deed) -> Answer:
    """The frame's page with why; what was typed stays."""
    page = _page_again(visit)
    answered = refusal(trouble)
    if answered.despite:
        page = replace(page, again=str(deed), despite=answered.despite, doubt=answered.words)
    else:
        slips = (slips_of([each], _field(each.where.name, deed)) for each in trouble.problems)
        page = replace(page, slips=tuple(chain.from_iterable(slips)))
    return Page(template="bench/frame.html", page=page, status=422)


def _field(name: str, deed: Deed) -> str:
    """The field that a problem is about; of two lengths that do not go together, the first."""
    fields = {words: field for field, words in DIAGONALS}
    return fields.get(name, DIAGONALS[0][0] if deed is Deed.CHECKED else "")


def _frame_page(visit: Visit) -> FramePage:
    known, rod, entries = _frame(visit)
    plan = plan_in_force(visit.floor, known)
    if plan is None and not visit.floor.planner.state(known).problems:
        visit.floor.planner.ask(known)
    undo = last_touch(visit.floor, visit.by.device)
    return frame_page(known, (rod, entries), plan, visit.floor.standings.of(known.name), undo)


def _frame(visit: Visit) -> tuple[Known, Rod, tuple[Entry, ...]]:
    known, frame = visit.floor.job(visit.place("job")), visit.place("frame")
    rod, entries = rod_of(known.rods, frame), known.roll.of_frame(frame)
    if rod is None or not entries:
        what = f"revision {known.number} has no frame {quoted(frame)}"
        raise _amiss("frame-missing", what, "choose one from the page Bench")
    return known, rod, entries


def _piece(visit: Visit) -> tuple[Known, Entry, Standing]:
    known = visit.floor.job(visit.place("job"))
    found = find_piece(visit.floor, visit.place("piece"), known.name)
    usual = Standing(job=known.name, piece=found.entry.mark)
    return known, found.entry, visit.floor.standings.of(known.name).get(found.entry.mark, usual)


def _amiss(code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(name="frame"), code=code, what=what, mend=mend)])


ROUTES = (
    Route(path="/bench", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}/bench", does=look_at_job, may=WORKSHOP),
    Route(path="/jobs/{job}/bench/pieces/{piece:path}", does=look_at_piece, may=WORKSHOP),
    Route(path="/jobs/{job}/bench/spoil/{piece:path}", does=spoil, may=WORKSHOP),
    Route(path="/jobs/{job}/bench/spoil/{piece:path}", does=say_spoiled, may=WORKSHOP, method="POST"),
    Route(path="/jobs/{job}/bench/frames/{frame:path}", does=look_at_frame, may=WORKSHOP),
    Route(path="/jobs/{job}/bench/frames/{frame:path}", does=say_of_frame, may=WORKSHOP, method="POST"),
)
