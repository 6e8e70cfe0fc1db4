"""What is written through to the disk before anything is said of it, and who may read what is made there."""

import os
from contextlib import suppress
from pathlib import Path

OWN_FOLDER, OWN_FILE = 0o700, 0o600  # their user may do all with them, and nobody else anything


def make_sure(path: Path) -> None:
    """Have a file's content, or the names in a folder, written through to the disk."""
    if os.name == "nt" and path.is_dir():
        return  # Windows opens no folder to be written through
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def own_folder(path: Path) -> None:
    """Make a folder that its user alone may enter; one that is there stays as it is.

    Those above it are made as usual. Windows goes by the rights of the folder above.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    path.mkdir(mode=OWN_FOLDER, exist_ok=True)


def own_file(path: Path) -> None:
    """Make an empty file that its user alone may read; one that is there is left as it is.

    What SQLite puts beside a database has that database's rights.
    """
    with suppress(FileExistsError):
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWN_FILE))
