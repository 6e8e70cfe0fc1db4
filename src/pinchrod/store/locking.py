"""The lock that only one writing program holds, so that two never serve one store."""

import os
import sys
from pathlib import Path
from typing import BinaryIO

from pinchrod.ground import NotYetRight, Problem, Where

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

FAR = 1 << 20  # the place that is locked: beyond what is written, so that it can be read meanwhile


class WriterLock:
    """The lock of a folder. The system lets go of it when the program ends, however it ends."""

    def __init__(self, path: Path) -> None:
        """Take the lock, or NotYetRight with who has it."""
        self.path = path
        self.file: BinaryIO = path.open("a+b")
        try:
            _lock(self.file)
        except OSError:
            holder = _holder(path)
            self.file.close()
            what = f"another program has the store open for writing{holder}"
            problem = Problem(
                where=Where(file=str(path.parent)),
                code="store-in-use",
                what=what,
                mend="use its pages, or stop it first",
            )
            raise NotYetRight([problem]) from None
        self.file.truncate(0)
        self.file.write(f"process {os.getpid()}\n".encode())
        self.file.flush()

    def close(self) -> None:
        """Let go. The file stays: taking it away would let two lock two files of one name."""
        self.file.close()


def _holder(path: Path) -> str:
    try:
        said = path.read_text(encoding="utf-8").strip()
    except OSError:
        said = ""
    return f" ({said})" if said else ""


def _lock(file: BinaryIO) -> None:
    if sys.platform == "win32":
        file.seek(FAR)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        file.seek(0)
    else:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
