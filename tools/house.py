"""Checks the house's own rules and prints its figures: python tools/house.py.

Ends with 1 if a hard rule is broken; a figure out of range only starts a talk.
"""

import sys
from pathlib import Path

from house_docs import faults_of_docs
from house_figures import figures
from house_rules import PACKAGE_RULES, RULES_ANYWHERE, faults, reach_inside
from house_sources import read_sources

TOP = Path(__file__).resolve().parent.parent


def main() -> int:
    """0 if every hard rule is kept, 1 if not."""
    code, tests, tools = (read_sources(TOP, folder) for folder in ("src", "tests", "tools"))
    found = [
        *faults(code, PACKAGE_RULES),
        *reach_inside(code),
        *faults((*tests, *tools), RULES_ANYWHERE),
        *faults_of_docs(TOP, code),
    ]
    print(f"{'figure':<40}{'here':<14}asked")
    print(*figures(code, tests), *found, sep="\n")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
