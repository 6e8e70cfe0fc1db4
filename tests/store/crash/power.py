"""A disk in memory that forgets, when the power goes, whatever it was not told to make sure of.

SQLite writes to it through a VFS of its own. Writes that no sync has followed are lost, kept, or torn at
sectors of 512 bytes, each by chance; a file made or taken away since its folder was last made sure of is
there or not, by chance. It can also fail: refuse one operation, or all from one on.
"""

import random
from dataclasses import dataclass, field
from itertools import count, pairwise
from typing import Any

import apsw

SECTOR = 512
WRITE_STEPS = ("write", "truncate", "sync", "delete", "create")
NUMBERS = count(1)
NUMBERS_OF = {apsw.FullError: 13, apsw.IOError: 10}


class PowerCut(Exception):
    """The power went."""


@dataclass
class File:
    """One file: what programs see, what is sure on the disk, and what lies between, in order."""

    now: bytearray = field(default_factory=bytearray)
    sure: bytearray = field(default_factory=bytearray)
    between: list[Any] = field(default_factory=list)  # (offset, bytes) written, or a size cut to

    def change(self, change) -> None:
        apply(self.now, change)
        self.between.append(change)

    def sync(self) -> None:
        for change in self.between:
            apply(self.sure, change)
        self.between.clear()

    def after_a_cut(self, dice: random.Random, odds: float) -> "File":
        """The file as it may be found: each change kept, dropped or torn."""
        found = bytearray(self.sure)
        for change in self.between:
            for part in pieces(change, dice):
                if dice.random() < odds:
                    apply(found, part)
        return File(bytearray(found), found)


def apply(content: bytearray, change) -> None:
    """Have a change done to a content."""
    if isinstance(change, int):
        del content[change:]
        content.extend(bytes(max(0, change - len(content))))
        return
    offset, data = change
    content.extend(bytes(max(0, offset - len(content))))
    content[offset : offset + len(data)] = data


def pieces(change, dice: random.Random):
    """A change whole, or torn into its sectors."""
    if isinstance(change, int) or dice.random() < 0.5:
        return [change]
    offset, data = change
    edges = [0, *range(SECTOR - offset % SECTOR, len(data), SECTOR), len(data)]
    return [(offset + start, data[start:end]) for start, end in pairwise(edges)]


class Disk:
    """Files by name, and the steps that changed them."""

    def __init__(self, files: dict[str, File] | None = None) -> None:
        self.names: dict[str, File] = dict(files or {})
        self.sure_names: dict[str, File] = dict(files or {})
        self.between: list[tuple[str, File | None]] = []
        self.steps = 0
        self.cut_at = 0  # the step at which the power goes; 0: never
        self.fail_at = 0  # the step that fails
        self.failing: type[apsw.Error] = apsw.IOError
        self.lasting = False  # whether all steps from there on fail
        self.dead = False
        self.kinds: list[str] = []

    def copy(self) -> "Disk":
        """Another disk with the same files on it, all of them sure."""
        return Disk(
            {name: File(bytearray(file.now), bytearray(file.now)) for name, file in self.names.items()}
        )

    def step(self, kind: str) -> bool:
        """Whether a step may be done: not after the power went, when nobody is left to see it."""
        if self.dead:
            return False
        self.steps += 1
        self.kinds.append(kind)
        if self.steps == self.cut_at:
            self.dead = True
            raise PowerCut
        if self.fail_at and (self.steps == self.fail_at or (self.lasting and self.steps > self.fail_at)):
            trouble: Any = self.failing("planted")
            trouble.result = trouble.extendedresult = NUMBERS_OF[
                self.failing
            ]  # as apsw does for SQLite's own
            raise trouble
        return True

    def name(self, name: str, file: File | None) -> None:
        """Give a file its name, or take it away; sure only when its folder is."""
        if file is None:
            self.names.pop(name, None)
        else:
            self.names[name] = file
        self.between.append((name, file))

    def sync_names(self) -> None:
        for name, file in self.between:
            if file is None:
                self.sure_names.pop(name, None)
            else:
                self.sure_names[name] = file
        self.between.clear()

    def after_a_cut(self, dice: random.Random) -> "Disk":
        """The disk as it may be found when the power is back."""
        odds = dice.choice((0.0, 0.1, 0.5, 0.9, 1.0))
        names = dict(self.sure_names)
        for name, file in self.between:
            if dice.random() < 0.5:
                if file is None:
                    names.pop(name, None)
                else:
                    names[name] = file
        return Disk({name: file.after_a_cut(dice, odds) for name, file in names.items()})


class OpenFile:
    """A file as SQLite has it open. What is asked is what apsw asks of any such object."""

    def __init__(self, disk: Disk, file: File, name: str | None, *, gone_at_close: bool) -> None:
        self.disk, self.file, self.name, self.gone_at_close = disk, file, name, gone_at_close

    def xRead(self, amount: int, offset: int) -> bytes:
        return bytes(self.file.now[offset : offset + amount])

    def xWrite(self, data: bytes, offset: int) -> None:
        if self.disk.step("write"):
            self.file.change((offset, bytes(data)))

    def xTruncate(self, size: int) -> None:
        if self.disk.step("truncate"):
            self.file.change(size)

    def xSync(self, _flags: int) -> None:
        if self.disk.step("sync"):
            self.file.sync()
            if any(file is self.file for _, file in self.disk.between):
                self.disk.sync_names()  # as SQLite's own VFS does for a journal it has just made

    def xFileSize(self) -> int:
        return len(self.file.now)

    def xLock(self, _level: int) -> None: ...

    def xUnlock(self, _level: int) -> None: ...

    def xCheckReservedLock(self) -> bool:
        return False

    def xFileControl(self, _op: int, _pointer: int) -> bool:
        return False

    def xSectorSize(self) -> int:
        return 4096

    def xDeviceCharacteristics(self) -> int:
        return int(apsw.SQLITE_IOCAP_POWERSAFE_OVERWRITE)

    def xClose(self) -> None:
        if self.gone_at_close and self.name:
            self.disk.names.pop(self.name, None)


class PowerVfs(apsw.VFS):
    """SQLite's way to one such disk."""

    def __init__(self, disk: Disk) -> None:
        self.disk = disk
        self.called = f"power-{next(NUMBERS)}"
        super().__init__(self.called, "")

    def xOpen(self, name, flags):
        said = name.filename() if isinstance(name, apsw.URIFilename) else name
        file = self.disk.names.get(said) if said else File()
        if file is None:
            if not flags[0] & apsw.SQLITE_OPEN_CREATE:
                raise apsw.CantOpenError
            file = File()
            if self.disk.step("create"):
                self.disk.name(said, file)
        return OpenFile(self.disk, file, said, gone_at_close=bool(flags[0] & apsw.SQLITE_OPEN_DELETEONCLOSE))

    def xDelete(self, name, sync_folder) -> None:
        if name not in self.disk.names:
            raise apsw.IOError if not self.disk.dead else PowerCut
        if self.disk.step("delete"):
            self.disk.name(name, None)
            if sync_folder:
                self.disk.sync_names()

    def xAccess(self, name, _flags) -> bool:
        return name in self.disk.names

    def xFullPathname(self, name: str) -> str:
        return name
