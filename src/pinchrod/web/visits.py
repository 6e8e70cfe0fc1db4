"""How a request of the web becomes a visit: its form read within limits, its device looked up."""

from collections.abc import Iterator
from urllib.parse import unquote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request

from pinchrod.job import Source
from pinchrod.store import Device, device_of
from pinchrod.web.floor import Floor
from pinchrod.web.letting_in import mark_of_secret
from pinchrod.web.pace import Pace
from pinchrod.web.visit import Visit

DEVICE, PERSON, THEME = "pinchrod", "pinchrod-person", "pinchrod-theme"
MOST_FIELDS = 2_000  # a rack entered by hand: 200 boards of ten fields
MOST_FILES = 20
MOST_PART = 2_000_000  # bytes of one field: a spreadsheet pasted whole
THEMES = ("", "light", "dark")


async def visit_of(request: Request, floor: Floor, pace: Pace) -> Visit:
    """The request as pages see it; TooOften, before its form is read, if the device sends too many."""
    device = await device_at(request, floor)
    asks_from = request.client.host if request.client else ""
    pace.count(device.id if device else f"from {asks_from}")
    form = await _form(request)
    files = [(name, value) for name, value in form.multi_items() if isinstance(value, UploadFile)]
    sources = tuple([(name, await _source(file)) for name, file in files if file.filename])
    await form.close()
    theme, news = request.cookies.get(THEME, ""), floor.feed.number
    return Visit(
        floor=floor,
        path=request.url.path,
        places=tuple((name, str(value)) for name, value in request.path_params.items()),
        asked=tuple(request.query_params.multi_items()),
        form=tuple((name, value) for name, value in form.multi_items() if isinstance(value, str)),
        files=sources,
        cookies=tuple(request.cookies.items()),
        body=await request.body() if _is_json(request) else b"",
        device=device,
        person=_seen(unquote(request.cookies.get(PERSON, ""))),
        news=news,
        theme=theme if theme in THEMES else "",
        host=request.headers.get("host", ""),
        asks_from=asks_from,
        piecemeal=request.headers.get("hx-request") == "true",
    )


async def device_at(request: Request, floor: Floor) -> Device | None:
    """The device that asks, if it was let in and not sent away."""
    return await run_in_threadpool(_device, request, floor)


def _is_json(request: Request) -> bool:
    kind = request.headers.get("content-type", "")
    return request.method == "POST" and kind.split(";")[0].strip().lower() == "application/json"


async def _form(request: Request) -> FormData:
    if request.method != "POST" or _is_json(request):
        return FormData()
    try:
        return await request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS, max_part_size=MOST_PART)
    except HTTPException:
        raise
    except ValueError as trouble:
        raise HTTPException(400) from trouble


async def _source(file: UploadFile) -> Source:
    """A file that was chosen: its name without folders, and what is in it."""
    name = (file.filename or "").replace("\\", "/").rsplit("/", 1)[-1]
    return Source(name=_seen(name) or "file", content=await file.read())


def _device(request: Request, floor: Floor) -> Device | None:
    secret = request.cookies.get(DEVICE, "")
    return device_of(floor.store, mark_of_secret(secret)) if secret else None


def _seen(said: str) -> str:
    """The words without what cannot be seen."""
    return "".join(_printable(said))[:80].strip()


def _printable(said: str) -> Iterator[str]:
    yield from (letter for letter in said if letter.isprintable())
