"""The program's commands, on the office computer."""

from pinchrod.cli.main import main

__all__ = ["main"]
