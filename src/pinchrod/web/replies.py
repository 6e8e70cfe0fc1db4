"""How an answer becomes bytes."""

import json
from contextlib import suppress
from urllib.parse import quote, unquote

from starlette.responses import RedirectResponse, Response

from pinchrod.web.answers import Answer, Go, Page, Sent, Told
from pinchrod.web.surroundings import around
from pinchrod.web.templates import environment
from pinchrod.web.visit import Visit, own_page

TOLD = "pinchrod-told"
YEARS = 10 * 365 * 24 * 3600
MOST_TOLD = 3_500
NOT_KEPT = {"Cache-Control": "no-store"}


def reply(answer: Answer, visit: Visit) -> Response:
    """The answer as it goes over the line."""
    match answer:
        case Page():
            return _page(answer, visit)
        case Go():
            return _go(answer)
        case Sent():
            return _sent(answer)


def _page(page: Page, visit: Visit) -> Response:
    told = told_in(dict(visit.cookies).get(TOLD, ""))
    template = environment().get_template(page.template)
    words = template.render(page=page.page, around=around(visit, told))
    made = Response(words, page.status, NOT_KEPT, "text/html")
    if told is not None and not visit.piecemeal:
        made.delete_cookie(TOLD, httponly=True, samesite="strict")
    return made


def _go(go: Go) -> Response:
    made = RedirectResponse(go.to, 303, NOT_KEPT)
    for name, value in go.cookies:
        if value:
            made.set_cookie(name, quote(value), max_age=YEARS, httponly=True, samesite="strict")
        else:
            made.delete_cookie(name, httponly=True, samesite="strict")
    if go.told is not None:
        made.set_cookie(TOLD, _in_cookie(go.told), max_age=60, httponly=True, samesite="strict")
    return made


def _sent(sent: Sent) -> Response:
    headers = {"Cache-Control": "private, max-age=31536000, immutable"} if sent.lasting else dict(NOT_KEPT)
    if sent.name:
        how = "inline" if sent.shown else "attachment"
        headers["Content-Disposition"] = f"{how}; filename*=UTF-8''{quote(sent.name, safe='')}"
    return Response(sent.content, sent.status, headers, sent.media)


def _in_cookie(told: Told) -> str:
    """What is told as a cookie, its words cut down to what browsers keep: 4,096 bytes, RFC 6265."""
    words = told.words
    while len(cookie := quote(json.dumps([words, told.undo, told.undo_words]))) > MOST_TOLD and words:
        words = words[: len(words) * 3 // 4]
    return cookie


def told_in(cookie: str) -> Told | None:
    """What the last action has to say; whatever else another program puts into that cookie is nothing."""
    with suppress(ValueError, TypeError, RecursionError):
        words, undo, undo_words = json.loads(unquote(cookie))
        return Told(words=str(words), undo=own_page(str(undo)) if undo else "", undo_words=str(undo_words))
    return None
