"""Where a store stands: a folder on this computer, or a PostgreSQL server."""

import re
from dataclasses import dataclass
from pathlib import Path

SERVER = re.compile(r"postgres(?:ql)?://", re.IGNORECASE)
SECRET = re.compile(r"(://[^:@/?]*:).*(?=@)|(password=)[^&\s]*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder of this computer, with the store and, unless said otherwise, its backups in it."""

    path: Path

    @property
    def file(self) -> Path:
        """The store itself."""
        return self.path / "pinchrod.db"

    @property
    def restoring(self) -> Path:
        """What stands there while a copy is put back: as long as it does, the store is not whole."""
        return self.path / "pinchrod-restoring.db"

    def beside(self, tail: str) -> Path:
        """A file that SQLite keeps beside the store."""
        return self.file.with_name(self.file.name + tail)

    @property
    def lock(self) -> Path:
        """The file whose lock says that somebody writes."""
        return self.path / "writer.lock"

    @property
    def backups(self) -> Path:
        """Where copies go."""
        return self.path / "backups"

    def __str__(self) -> str:
        """As it is told."""
        return str(self.path)


@dataclass(frozen=True, slots=True)
class Server:
    """A PostgreSQL server, by its address."""

    url: str

    def __str__(self) -> str:
        """As it is told: without the password."""
        return SECRET.sub(r"\1\2...", self.url)


Place = Folder | Server


def place_of(said: str) -> Place:
    """The place that was named: an address that begins with `postgresql://`, or else a folder."""
    return Server(said) if SERVER.match(said) else Folder(Path(said))
