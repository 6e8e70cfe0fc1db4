"""Bench work: spares, and how each frame is glued up."""

from pinchrod.bench.chances import Odds, chances, odds_of
from pinchrod.bench.order import check_gluing, order_bench_work
from pinchrod.bench.records import Bench, Clamp, Cure, Direction, GlueJoint, GlueStep, Gluing, Lot, Spares
from pinchrod.bench.spares import critical_ratio, fewest, first_enough

__all__ = [
    "Bench",
    "Clamp",
    "Cure",
    "Direction",
    "GlueJoint",
    "GlueStep",
    "Gluing",
    "Lot",
    "Odds",
    "Spares",
    "chances",
    "check_gluing",
    "critical_ratio",
    "fewest",
    "first_enough",
    "odds_of",
    "order_bench_work",
]
