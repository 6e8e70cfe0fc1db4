"""The real server killed under tablets that scan, and scans said over and over: benchmarks/pages.py in small."""

import os
import re
import subprocess
import sys

import pytest

import dev

if os.name == "nt":
    pytest.skip("servers are begun and killed by what only Linux has", allow_module_level=True)

AT_MOST = 300  # seconds


def tried(*words: str) -> str:
    """What a trial says, in a process of its own: it begins others by forks, and here are threads."""
    command = [sys.executable, "-m", "benchmarks.pages", *words]
    done = subprocess.run(command, cwd=dev.ROOT, capture_output=True, text=True, timeout=AT_MOST, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_every_scan_is_in_the_ledger_once_however_often_the_server_is_killed():
    told = tried("kills", "--clients", "3", "--times", "60", "--seed", "2")

    assert re.match(r"3 tablets, 180 scans, [1-9]\d* servers killed", told)
    assert "0 lost, 0 doubled" in told


def test_a_scan_said_over_and_over_counts_once_and_is_answered_alike():
    told = tried("repeats", "--clients", "2", "--times", "6", "--each", "20")

    assert told.startswith("20 times each: 2 tablets, 12 scans, 0 servers killed")
    assert "0 lost, 0 doubled, 0 never sent, 0 answered otherwise" in told
