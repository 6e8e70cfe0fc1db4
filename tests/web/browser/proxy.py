"""A proxy before the pages, as a workshop has one for its certificate: it passes all on, or the line to it is bad."""

import base64
import datetime
import hashlib
import http
import select
import socket
import ssl
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from enum import Enum, auto
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

LONGEST = 120.0  # seconds of silence, then the line breaks


class Fate(Enum):
    """What becomes of a request."""

    PASSED = auto()
    NOT_THERE = auto()  # the proxy does not hear the server, or not in time
    SILENT = auto()  # nothing comes back: a radio that is out of reach


def all_passed(_path: str) -> Fate:
    """As long as all is well."""
    return Fate.PASSED


class Proxy(ThreadingHTTPServer):
    """It listens by HTTPS at a free port of this computer."""

    daemon_threads = True

    def __init__(self, certificate: Path) -> None:
        super().__init__(("127.0.0.1", 0), _Passing)
        self.port = self.server_address[1]
        self.server = 0
        self.fate: Callable[[str], Fate] = all_passed
        self.over = threading.Event()
        lock = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        lock.load_cert_chain(certificate)
        self.socket = lock.wrap_socket(self.socket, server_side=True, do_handshake_on_connect=False)

    def stand_before(self, server: int) -> None:
        """Pass on to the server at that port from now on."""
        self.server = server

    def handle_error(self, request, client_address) -> None:
        """Browsers break lines off as they like."""


class _Passing(BaseHTTPRequestHandler):
    """One request on one line."""

    server: Proxy

    def log_message(self, *_args) -> None:
        """Say nothing of what is passed on."""

    def do_GET(self) -> None:
        self._meet()

    def do_POST(self) -> None:
        self._meet()

    def _meet(self) -> None:
        fate = self.server.fate(self.path)
        if fate is Fate.SILENT:
            self.server.over.wait(LONGEST)
        elif fate is Fate.NOT_THERE:
            self.send_error(http.HTTPStatus.GATEWAY_TIMEOUT)
        else:
            with suppress(OSError):
                self._pass_on()

    def _pass_on(self) -> None:
        """Ask the server, and hand what it says on as it comes, until either of them hangs up."""
        self.headers.replace_header("Connection", "close")
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        with socket.create_connection(("127.0.0.1", self.server.server)) as line:
            line.sendall(f"{self.requestline}\r\n{self.headers}".encode("latin-1") + body)
            while self.connection not in select.select([line, self.connection], [], [])[0]:
                piece = line.recv(1 << 16)
                if not piece:
                    return
                self.wfile.write(piece)


@contextmanager
def proxy_of(certificate: Path) -> Iterator[Proxy]:
    """A proxy, while the block lasts."""
    with Proxy(certificate) as proxy:
        thread = threading.Thread(target=proxy.serve_forever, daemon=True)
        thread.start()
        try:
            yield proxy
        finally:
            proxy.over.set()
            proxy.shutdown()
            thread.join()


def certificate_for(name: str, folder: Path) -> tuple[Path, str]:
    """A certificate with its key, good for a day; and the mark of its public key, by which a browser can be told to believe it."""
    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    now = datetime.datetime.now(datetime.UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(called)
        .issuer_name(called)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - datetime.timedelta(hours=1))
        .not_valid_after(now + datetime.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(name)]), critical=False)
        .sign(key, hashes.SHA256())
    )
    path = folder / "certificate.pem"
    path.write_bytes(
        key.private_bytes(
            serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
        )
        + made.public_bytes(serialization.Encoding.PEM)
    )
    public = key.public_key().public_bytes(
        serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo
    )
    return path, base64.b64encode(hashlib.sha256(public).digest()).decode()
