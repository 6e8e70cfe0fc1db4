"""What to order so that a job is covered as surely as asked, and what that costs."""

from pinchrod.timber.buying.buy import buy, buying_flaws, to_buy
from pinchrod.timber.buying.records import (
    LEVELS,
    Amount,
    Buying,
    Level,
    Pains,
    Planed,
    Promise,
    Refused,
    Sample,
    Sure,
    ToBuy,
    Weighed,
)

__all__ = [
    "LEVELS",
    "Amount",
    "Buying",
    "Level",
    "Pains",
    "Planed",
    "Promise",
    "Refused",
    "Sample",
    "Sure",
    "ToBuy",
    "Weighed",
    "buy",
    "buying_flaws",
    "to_buy",
]
