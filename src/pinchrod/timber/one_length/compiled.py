"""How the inmost loops are made quick: one place that knows of the compiler."""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

Loop = TypeVar("Loop", bound=Callable[..., Any])


def compiled(loop: Loop) -> Loop:
    """The same function, compiled when first called and kept on disk for the next time."""
    return cast(Loop, numba.njit(cache=True, nogil=True)(loop))
