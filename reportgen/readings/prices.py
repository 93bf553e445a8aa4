"""What one unit cost at any time: prices by date and by hours of the day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.degree_hours import Pull
from reportgen.readings.join import Floats, to_seconds
from reportgen.season.models import Price

HOUR = pd.Timedelta(hours=1)


@dataclass(frozen=True, kw_only=True, slots=True)
class Tariff:
    """The prices of one source: one for all the time, or by date and hour."""

    price: float | None
    prices: tuple[Price, ...] = ()

    @property
    def given(self) -> bool:
        """Whether any price stands."""
        return self.price is not None or bool(self.prices)

    @property
    def by_hour(self) -> bool:
        """Whether the price depends on the hour of the day."""
        return any(entry.hours for entry in self.prices)

    def at(self, times: pd.DatetimeIndex) -> Floats:
        """Price per unit at each local time, NaN where there is none."""
        return price_at(times, self.price, self.prices)


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


def mean_price(starts: pd.DatetimeIndex, ends: pd.DatetimeIndex, tariff: Tariff, pull: Pull) -> Floats:
    """Mean price per unit over each stretch, each hour weighed by the cold as the heat is; NaN where an hour has no
    price. A stretch of an hour or less takes the price at its middle."""
    out = tariff.at(pd.DatetimeIndex(starts + (ends - starts) / 2))
    for i in np.flatnonzero(np.asarray((ends - starts) > HOUR)):
        each, weight = _hours(pd.Timestamp(starts[int(i)]), pd.Timestamp(ends[int(i)]), tariff, pull)
        out[i] = float((each * weight).sum() / weight.sum()) if weight.sum() > 0 else float(each.mean())
    return out


def _hours(start: pd.Timestamp, end: pd.Timestamp, tariff: Tariff, pull: Pull) -> tuple[Floats, Floats]:
    """Price and cold of the hours of a stretch."""
    starts = pd.date_range(start, end, freq="1h", inclusive="left")
    edges = np.append(to_seconds(starts), end.timestamp())
    middle = starts + pd.to_timedelta(np.diff(edges) / 2, unit="s")
    return tariff.at(pd.DatetimeIndex(middle)), np.diff(pull.until(edges))


def cost_bounds(
    start: pd.Timestamp, end: pd.Timestamp, amount: float, tariff: Tariff, most_per_h: float | None
) -> tuple[float, float]:
    """The least and the most that an amount can have cost whose hours nobody knows.

    All of it in the cheapest hours, or in the dearest; not more in an hour than `most_per_h` units where that is
    known.
    """
    edges = pd.date_range(start, end, freq="1h", inclusive="left")
    each = np.sort(tariff.at(pd.DatetimeIndex(edges + HOUR / 2)))
    most = amount if most_per_h is None else max(most_per_h, amount / max(len(each), 1))
    taken = np.clip(amount - most * np.arange(len(each)), 0.0, most)
    return float((each * taken).sum()), float((each[::-1] * taken).sum())
