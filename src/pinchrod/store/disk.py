"""What is written through to the disk before anything is said of it."""

import os
from pathlib import Path


def make_sure(path: Path) -> None:
    """Have a file's content, or the names in a folder, written through to the disk."""
    if os.name == "nt" and path.is_dir():
        return  # Windows opens no folder to be written through
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
