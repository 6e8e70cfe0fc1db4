"""pinchrod serve: the workshop's pages on this computer."""

import gc
import logging
import signal
import socket
from contextlib import closing, suppress
from pathlib import Path
from threading import Thread

import click
import uvicorn
from starlette.types import ASGIApp

from pinchrod.store import Folder, Place, Store, open_store, place_of
from pinchrod.web.app import Site, app_of
from pinchrod.web.copying import Copying
from pinchrod.web.floor import Floor
from pinchrod.web.guard import Doors
from pinchrod.web.own_faults import dated
from pinchrod.web.own_names import BY_HTTPS, LAST_PORT, addresses_of, host_under, hosts_of
from pinchrod.web.roles import Role

USUAL_PORT = 8737
USUAL_DATA = "pinchrod-data"
LEAVE_WITHIN = 2  # seconds: an open live feed would keep the server for ever
MOST_AT_ONCE = 128
WARM_WITHIN = 3.0  # seconds before the first page may be asked for, though not every job is set out yet
MOST_RUBBISH = 100_000  # objects made before it is looked whether any may go; 500 frames make a million
LONGEST_HEAD = 16_384  # bytes of a request's first line and headers


@click.command()
@click.option("--data", default=USUAL_DATA, show_default=True, help="The folder, or server, of the store.")
@click.option("--port", type=click.IntRange(1, LAST_PORT), default=USUAL_PORT, show_default=True)
@click.option("--lan", is_flag=True, help="Let tablets of the workshop's network in, each by a code.")
@click.option("--address", help="Where a proxy with a certificate serves these pages: https://bench.example")
@click.option("--backups", type=click.Path(path_type=Path), help="Where copies go [in the data folder].")
def serve(data: str, port: int, address: str | None, backups: Path | None, *, lan: bool) -> None:
    r"""Serve the workshop's pages from this computer until Ctrl-C.

    Without --lan only this computer is served. With it, so are tablets on the same network, each once it
    was let in by a code that the office gives out.

    \b
    pinchrod serve
    pinchrod serve --lan --data D:/workshop
    pinchrod serve --address https://bench.example
    """
    place, doors = place_of(data), _doors(address, hosts_of(port, lan=lan))
    with open_store(place) as store:
        _serve(store, _backups(place, backups), port, doors, lan=lan)


def _doors(address: str | None, own: frozenset[str]) -> Doors:
    """Our own names, and the one under which a proxy serves the pages by HTTPS, if one does."""
    if address is None:
        return Doors(hosts=own)
    host = host_under(address)
    if host is None:
        raise click.ClickException(
            f"--address {address}: it begins with https:// and is a name, with a port if need be: https://bench.example"
        )
    if {host, f"{host}:{BY_HTTPS}"} & own:
        raise click.ClickException(
            f"--address {address}: these pages stand under that name themselves, without a certificate;"
            " serve them by another --port, and let the proxy ask there"
        )
    return Doors(hosts=own, covered=frozenset({host}))


def _serve(store: Store, backups: Path, port: int, doors: Doors, *, lan: bool) -> None:
    addresses = (*(f"https://{host}" for host in doors.covered), *(addresses_of(port) if lan else ()))
    floor = Floor(store, backups, addresses=addresses)
    line = _line(port, lan=lan)
    line.listen()  # whoever asks from now on waits, and is not turned away
    _tell(floor, port, addresses, lan=lan)
    warming = Thread(target=floor.warm_up, daemon=True)
    warming.start()
    warming.join(WARM_WITHIN)
    gc.set_threshold(MOST_RUBBISH)
    gc.enable()  # a short run goes without; this one lasts
    signal.signal(signal.SIGTERM, signal.default_int_handler)  # told to end by the system: the same as Ctrl-C
    with closing(floor.planner), Copying(floor), suppress(KeyboardInterrupt):
        _begin_log()
        server_of(app_of(Site(floor=floor, doors=doors))).run(sockets=[line])


def _begin_log() -> None:
    """What was refused and what went wrong is written to standard error; who runs the program keeps it."""
    screen = logging.StreamHandler()
    screen.setFormatter(dated())
    logging.basicConfig(level=logging.WARNING, handlers=[screen])


def server_of(app: ASGIApp) -> uvicorn.Server:
    """The server of the pages: one process, nothing written down of who asks, nothing too long let in."""
    return uvicorn.Server(
        uvicorn.Config(
            app,
            log_config=None,  # its lines go where ours go, with their moment
            log_level="warning",
            access_log=False,
            server_header=False,
            date_header=True,
            proxy_headers=False,
            ws="none",
            lifespan="off",
            limit_concurrency=MOST_AT_ONCE,
            h11_max_incomplete_event_size=LONGEST_HEAD,
            timeout_keep_alive=30,
            timeout_graceful_shutdown=LEAVE_WITHIN,
        )
    )


def _backups(place: Place, said: Path | None) -> Path:
    if said is not None:
        return said
    return place.backups if isinstance(place, Folder) else Path("pinchrod-backups")


def _line(port: int, *, lan: bool) -> socket.socket:
    """The line to listen at: this computer's own, unless the network is let in on purpose."""
    line = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    line.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        line.bind(("0.0.0.0" if lan else "127.0.0.1", port))  # noqa: S104 -- only where --lan asks for it
    except OSError as trouble:
        line.close()
        raise click.ClickException(
            f"port {port} cannot be had ({trouble.strerror}): another program has it; say --port {port + 1}"
        ) from None
    return line


def _tell(floor: Floor, port: int, addresses: tuple[str, ...], *, lan: bool) -> None:
    """Where the pages are, and the link that lets the office's own browser in: good once, for ten minutes."""
    code = floor.letting_in.invite(Role.OFFICE).code
    click.echo(f"The pages are at http://127.0.0.1:{port}")
    click.echo(f"The first time, let this computer's browser in: http://127.0.0.1:{port}/enter?code={code}")
    for address in addresses:
        click.echo(f"Tablets find them at {address}; let each in from the page Tablets")
    if lan:
        click.echo("The network is not encrypted: use a workshop network that strangers are not on.")
    click.echo("Ctrl-C ends it.")
