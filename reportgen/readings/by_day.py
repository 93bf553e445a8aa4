"""Readings counted and added up by the day of the clock on which they are written."""

from __future__ import annotations

import datetime as dt

import numpy as np

from reportgen.readings.digits import Ints
from reportgen.readings.numbers import Floats
from reportgen.readings.stamps import DAY_MS, NAT

_EPOCH = dt.date(1970, 1, 1)


def readings_by_day(naive: Ints) -> dict[dt.date, int]:
    """How many readings each day has. `naive`: ms since 1970 on the clock as written, NAT where unreadable."""
    days, counts = np.unique(naive[naive != NAT] // DAY_MS, return_counts=True)
    return {_EPOCH + dt.timedelta(days=int(day)): int(n) for day, n in zip(days, counts, strict=True)}


def sums_by_day(naive: Ints, values: Floats) -> dict[dt.date, float]:
    """What the readings of each day add up to; `naive` as above, shape (n,), `values` in any unit, shape (n,)."""
    good = naive != NAT
    days, places = np.unique(naive[good] // DAY_MS, return_inverse=True)
    totals = np.bincount(places, weights=values[good], minlength=len(days))
    return {_EPOCH + dt.timedelta(days=int(day)): float(n) for day, n in zip(days, totals, strict=True)}
