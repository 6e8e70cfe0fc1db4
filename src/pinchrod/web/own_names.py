"""Under which names this computer is found on its network."""

import re
import socket

BY_HTTP, BY_HTTPS, LAST_PORT = 80, 443, 65_535
NOWHERE = "192.0.2.1"  # set aside for documentation (RFC 5737): nothing is ever sent there


def own_address() -> str:
    """This computer's address on the network that leads out, or its own loop if there is none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as line:
        try:
            line.connect((NOWHERE, 9))
            found: str = line.getsockname()[0]
        except OSError:
            return "127.0.0.1"
    return found


def addresses_of(port: int) -> tuple[str, ...]:
    """Where tablets find the pages, the surest first."""
    return tuple(f"http://{_at(host, port)}" for host in _lan_hosts())


def hosts_of(port: int, *, lan: bool) -> frozenset[str]:
    """Every name under which a request may ask for us, as browsers write them."""
    own = ("127.0.0.1", "localhost", "[::1]")
    return frozenset(_at(host, port).lower() for host in (*own, *(_lan_hosts() if lan else ())))


def host_under(address: str) -> str | None:
    """The name in a proxy's address, as browsers write it; None if it is no address by HTTPS.

    `https://bench.example/` is `bench.example`; a port other than 443 stays with it.
    """
    found = re.fullmatch(
        r"https://([a-z0-9](?:[a-z0-9.-]*[a-z0-9])?)(:[0-9]{1,5})?/?", address.strip().lower()
    )
    if not found:
        return None
    name, port = found[1], int((found[2] or ":443")[1:])
    if not 0 < port <= LAST_PORT:
        return None
    return _at(name, port, BY_HTTPS)


def _lan_hosts() -> tuple[str, ...]:
    name = socket.gethostname().lower()
    names = (own_address(), name, f"{name}.local") if name.isascii() else (own_address(),)
    return tuple(dict.fromkeys(names))


def _at(host: str, port: int, usual: int = BY_HTTP) -> str:
    """Host and port, the port left out where a browser leaves it out."""
    return host if port == usual else f"{host}:{port}"
