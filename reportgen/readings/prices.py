"""What one unit cost at any time: prices by date and by hours of the day."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.join import Floats
from reportgen.season.models import Price


def price_at(times: pd.DatetimeIndex, price: float | None, prices: Sequence[Price]) -> Floats:
    """Price per unit at each local time, NaN before the first price.

    A price with `hours` goes before one without; of two that fit, the one that began later.
    """
    out = np.full(len(times), np.nan if price is None else price)
    days = times.tz_localize(None).normalize()
    hours = times.hour.to_numpy()
    for entry in sorted(prices, key=lambda p: (p.hours is not None, p.start)):
        begun = np.asarray(days >= pd.Timestamp(entry.start))
        out[begun & _within(hours, entry.hours)] = entry.price
    return out


def _within(hours: NDArray[np.int32], window: str | None) -> NDArray[np.bool_]:
    """Whether each hour lies in a window such as "22-06", which may pass midnight."""
    if window is None:
        return np.ones(len(hours), dtype=bool)
    start, end = (int(part) % 24 for part in window.split("-"))
    if start == end:
        return np.ones(len(hours), dtype=bool)
    if start < end:
        return np.asarray((hours >= start) & (hours < end))
    return np.asarray((hours >= start) | (hours < end))


def mean_price(
    starts: pd.DatetimeIndex, ends: pd.DatetimeIndex, price: float | None, prices: Sequence[Price]
) -> Floats:
    """Mean price per unit over each stretch: every hour of it counts alike; NaN where an hour has no price.

    A stretch of an hour or less takes the price at its middle.
    """
    middle = starts + (ends - starts) / 2
    out = price_at(pd.DatetimeIndex(middle), price, prices)
    for i in np.flatnonzero(np.asarray((ends - starts) > pd.Timedelta(hours=1))):
        first, last = pd.Timestamp(starts[int(i)]), pd.Timestamp(ends[int(i)])
        hours = pd.date_range(first, last, freq="1h", inclusive="left") + pd.Timedelta(minutes=30)
        out[i] = price_at(hours, price, prices).mean()
    return out
