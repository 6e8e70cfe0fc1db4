"""Files with a fault planted in them, for trying the house's checks."""

from pathlib import Path
from textwrap import dedent

from house_sources import Source, source


def a_file(text: str, room: str = "job", name: str = "phrase") -> Source:
    """A file of a room, as the checks see it."""
    return source(Path(f"src/pinchrod/{room}/{name}.py"), dedent(text))


def a_tree(top: Path, **pages: str) -> Path:
    """A checkout with these pages, `__` standing for a folder: docs__words="..."."""
    for name, text in pages.items():
        page = top / f"{name.replace('__', '/')}.md"
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(dedent(text), encoding="utf-8")
    return top
