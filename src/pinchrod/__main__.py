"""python -m pinchrod."""

import sys

from pinchrod.cli import main

sys.exit(main())
