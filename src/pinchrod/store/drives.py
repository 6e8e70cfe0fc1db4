"""Drives that SQLite must not stand on, since others reach them too, and files that are no plain ones."""

import ctypes
import re
import sys
from collections.abc import Iterator
from pathlib import Path, PurePath

from pinchrod.ground import Problem
from pinchrod.store.places import Folder
from pinchrod.store.telling import amiss_in

MOUNTS = Path("/proc/mounts")
OF_NETWORK = re.compile(
    r"nfs[0-9]*|cifs|smb[0-9a-z]*|afs|9p|ceph|glusterfs|lustre|ncpfs|davfs2?|beegfs"
    r"|fuse\.(sshfs|rclone|davfs2?|glusterfs|ceph|smbnetfs|curlftpfs|gvfsd-fuse|s3fs)"
)
SYNCHRONISED = re.compile(
    r"onedrive( - .*)?|dropbox( \(.*\))?|google ?drive|googledrive.*|my drive|icloud ?drive"
    r"|mobile documents|nextcloud|owncloud|pclouddrive|box( sync)?|syncthing|sync",
    re.IGNORECASE,
)
MAPPED = 4  # what Windows calls DRIVE_REMOTE (from memory)


def doubts_of_place(folder: Folder) -> Iterator[Problem]:
    """What is wrong or doubtful in a folder as the place of a store."""
    full = folder.path.absolute()
    kind = network_kind(str(full), _mounts(), _drive_type(full))
    if kind:
        what = f"the folder is on a network drive ({kind}), where no lock can be relied on"
        yield amiss_in(folder.path, "store-on-network", what, "choose a folder on this computer's own disk")
    shared = synchronised(full)
    if shared:
        what = f"a program seems to copy this folder to other computers ({shared})"
        mend = "choose a folder that nothing synchronises, and let backups go there instead"
        yield amiss_in(folder.path, "store-synchronised", what, mend, stops=False)
    yield from _of_file(folder.file)


def network_kind(path: str, mounts: str, drive_type: int) -> str:
    """What kind of network drive the folder is on; empty if it is on none.

    `mounts` is the list that Linux keeps, one a line: what, where, kind. The longest place that the folder
    lies under is the one it is on.
    """
    if path.startswith(("\\\\", "//")):
        return "a share of another computer"
    if drive_type == MAPPED:
        return "a mapped drive"
    kind, longest = "", -1
    for line in mounts.splitlines():
        _, place, found, *_ = [*line.split(" "), "", "", ""]
        place = place.replace("\\040", " ")
        if PurePath(path).is_relative_to(place or "?") and len(place) > longest:
            kind, longest = found, len(place)
    return kind if OF_NETWORK.fullmatch(kind) else ""


def synchronised(path: PurePath) -> str:
    """The folder on the way that looks like one that a program copies to other computers; empty if none."""
    return next((part for part in path.parts if SYNCHRONISED.fullmatch(part)), "")


def _of_file(file: Path) -> Iterator[Problem]:
    """What is wrong with the file itself: another name for it would have its own journal beside it."""
    if file.is_symlink():
        what = "the store is a link to a file elsewhere: its journal would stand in the wrong place"
        yield amiss_in(file, "store-linked", what, "name the folder in which the file itself stands")
    elif file.exists() and not file.is_file():
        what = "where the store should be stands no file"
        yield amiss_in(file, "store-not-a-file", what, "choose another folder")
    elif file.exists() and file.stat().st_nlink > 1:
        what = "the file has a second name: opened by both, it would be damaged"
        yield amiss_in(file, "store-linked", what, "take the other name away, or copy the file")


def _mounts() -> str:
    return MOUNTS.read_text(encoding="utf-8", errors="replace") if MOUNTS.exists() else ""


def _drive_type(path: Path) -> int:
    """What Windows says of the drive; 0 elsewhere."""
    if sys.platform == "win32":
        return int(ctypes.windll.kernel32.GetDriveTypeW(f"{path.drive}\\"))
    return 0
