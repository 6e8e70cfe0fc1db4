"""Whether what is set out will still fit as the wood moves."""

from pinchrod.fit.movement import change_across
from pinchrod.fit.panels import check_panels

__all__ = ["change_across", "check_panels"]
