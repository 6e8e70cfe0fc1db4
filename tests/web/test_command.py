"""pinchrod serve, by the program that set-up writes: where it is, who is let in, what runs beside it."""

import gc
import http.client
import re
import signal
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from types import SimpleNamespace

import pytest

import dev
from pinchrod.cli import main
from pinchrod.store import Folder, Saving, open_store, save
from pinchrod.web import command
from tests.store.shop import PANTRY, a_saving, let_in
from tests.web.serving import JOB, demo_files
from tests.web.test_planner import until

DESK = "Desk-1"  # its name is its secret: no real one's is


def a_port() -> int:
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        port: int = line.getsockname()[1]
        return port


@contextmanager
def served(folder, port):
    program = folder / "pinchrod"
    program.write_text(dev.POSIX_PROGRAM.format(python=sys.executable))
    program.chmod(0o755)
    words = [program, "serve", "--data", folder / "data", "--port", str(port)]
    with (
        (folder / "told.txt").open("w") as told,
        subprocess.Popen(words, stdout=subprocess.PIPE, stderr=told, text=True) as server,
    ):
        try:
            yield server
        finally:
            server.terminate()
            server.wait(60)


def get(port, path):
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
    line.request("GET", path, headers={"Cookie": f"pinchrod={DESK}"})
    answer = line.getresponse()
    words = answer.read().decode()
    line.close()
    return answer.status, words


def is_there(port):
    try:
        return get(port, "/health")[0] == 200
    except ConnectionRefusedError:
        return False


@pytest.mark.skipif(dev.WINDOWS, reason="its program is another file")
def test_the_program_serves_and_works_plans_out_beside_the_pages(tmp_path):
    with open_store(Folder(tmp_path / "data")) as store:
        save(store, a_saving())
        let_in(store, DESK, "office")
    port = a_port()

    with served(tmp_path, port) as server:
        told = [server.stdout.readline() for _ in range(2)]
        assert f"http://127.0.0.1:{port}" in told[0]
        assert re.search(r"/enter\?code=[0-9A-Z]{8}$", told[1].strip())
        until(lambda: is_there(port))

        page = until(lambda: "/machines/1" in (words := get(port, f"/jobs/{PANTRY}/machines")[1]) and words)

        assert "the fault is the program" not in page


@pytest.mark.skipif(dev.WINDOWS, reason="its program is another file")
def test_it_ends_quietly_when_the_system_ends_it_and_so_does_what_runs_beside_it(tmp_path):
    with open_store(Folder(tmp_path / "data")) as store:
        save(store, Saving(key="first", by=a_saving().by, job=JOB, after=0, files=demo_files(rack=True)))
        let_in(store, DESK, "office")
    port = a_port()

    with served(tmp_path, port) as server:
        until(lambda: is_there(port))
        until(lambda: "being worked out" in get(port, f"/jobs/{JOB}/machines")[1])
        time.sleep(1)  # the work beside it is under way

    assert server.returncode == 0
    assert (tmp_path / "told.txt").read_text() == ""


def test_what_is_no_longer_used_is_let_go_while_it_serves(tmp_path, monkeypatch):
    seen = []

    def run(sockets):
        seen.append(gc.isenabled())
        sockets[0].close()

    monkeypatch.setattr(command, "server_of", lambda _app: SimpleNamespace(run=run))
    before = signal.getsignal(signal.SIGTERM)

    try:
        main(["serve", "--data", str(tmp_path / "data"), "--port", str(a_port())])
    finally:
        signal.signal(signal.SIGTERM, before)
        gc.enable()

    assert seen == [True]


def test_an_address_of_a_proxy_that_is_none_is_told_and_nothing_begun(tmp_path, capsys):
    data = tmp_path / "data"

    assert main(["serve", "--data", str(data), "--address", "http://bench.example"]) != 0

    assert "--address http://bench.example: it begins with https://" in capsys.readouterr().err
    assert not data.exists()


@pytest.mark.parametrize(
    ("address", "port"),
    [("https://localhost:8750", "8750"), ("https://localhost", "80"), ("https://localhost", "443")],
)
def test_an_address_of_a_proxy_where_the_pages_stand_themselves_is_told(tmp_path, capsys, address, port):
    data = tmp_path / "data"

    assert main(["serve", "--data", str(data), "--address", address, "--port", port]) != 0

    assert f"--address {address}: these pages stand under that name themselves" in capsys.readouterr().err
    assert not data.exists()


def test_a_port_that_another_program_has_is_told_with_one_to_try(tmp_path):
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        line.listen()
        port = line.getsockname()[1]
        words = [sys.executable, "-m", "pinchrod", "serve", "--data", tmp_path / "data", "--port", str(port)]

        ended = subprocess.run(words, capture_output=True, text=True, timeout=300, check=False)

    assert ended.returncode == 2
    assert f"--port {port + 1}" in ended.stderr
    assert "Traceback" not in ended.stderr
