"""Degree-hours by which a sum of heat is shared out over its days: the one rule for meters, bills and stock.

What is known of a tank, a bill or a meter read once a month is a sum. It is shared over the hours between in
proportion to max(0, base − outdoor air). The base is the hold aimed for on that day; where none is named, the median
night air beside the crop; where that was not logged, 10 °C. The base of the price of a degree is found from the heat
itself and so cannot be had before the heat is shared.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.join import Floats, to_seconds
from reportgen.readings.places import channels_at, outdoor_channel
from reportgen.readings.types import Channel
from reportgen.season import Season

USUAL_BASE_C = 10.0  # base where neither hold nor crop air is known; common practice, no source
BEYOND = pd.Timedelta(days=400)  # a tank bought the summer before, a bill that ends the summer after
NEAR_H = 169  # an unrecorded hour weighs the mean of the recorded ones of the week around it, or of the nearest week
FEWEST_NEAR_H = 24
JOINED_H = 3  # hours between two readings that are bridged, for the weights alone

BY_COLD, BY_TIME = "cold", "time"


@dataclass(frozen=True, kw_only=True, slots=True)
class Pull:
    """The pull of the cold by the hour, from 400 days before the season to 400 days after it.

    `seconds`: beginnings of the hours [s since 1970], shape (n,). `weight`: degree-hours of each hour [K h], no NaN.
    `recorded`: whether its outdoor air is on record. `outdoor_c`: outdoor air [°C], NaN unrecorded. `how`:
    "cold", or "time" where no outdoor air is on record at all: then every hour weighs 1.
    """

    how: str
    seconds: Floats = field(repr=False)
    weight: Floats = field(repr=False)
    recorded: NDArray[np.bool_] = field(repr=False)
    outdoor_c: Floats = field(repr=False)
    total: Floats = field(repr=False)  # of the weights, from the first hour on; shape (n + 1,)

    def until(self, instants: Floats) -> Floats:
        """Degree-hours from the first hour to each instant [s since 1970]."""
        return np.asarray(np.interp(instants, np.append(self.seconds, self.seconds[-1] + 3600.0), self.total))

    def share(self, start: float, end: float, first: float, last: float) -> float:
        """The share of a sum over start … end that falls into first … last, which lies within; by time where nothing
        pulls."""
        a, b, c, d = self.until(np.array([start, first, last, end]))
        if d - a > 1e-9:
            return float((c - b) / (d - a))
        return (last - first) / (end - start) if end > start else 0.0

    def as_stock(self, start_s: float) -> Pull:
        """The pull on what was bought ahead: hours before the season without an outdoor record carry none, so that a
        tank filled in August is burnt in winter.

        Args:
            start_s: Where the season begins [s since 1970].
        """
        return _pull(
            self.how,
            self.seconds,
            np.where((self.seconds < start_s) & ~self.recorded, 0.0, self.weight),
            self.outdoor_c,
        )


def pull(season: Season, channels: Sequence[Channel]) -> Pull:
    """The pull of the cold on this season's heat."""
    hours = pd.date_range(season.start - BEYOND, season.end + BEYOND, freq="1h")
    channel = outdoor_channel(season, channels, "air_temperature")
    outdoor_c = np.full(len(hours), np.nan)
    if channel is not None:
        parts = [channel.values] if channel.beyond is None else [channel.values, channel.beyond]
        outdoor_c = hourly(pd.concat(parts).sort_index(), hours)
    if np.isnan(outdoor_c).all():
        return _pull(BY_TIME, to_seconds(hours), np.ones(len(hours)), outdoor_c)
    below = pd.Series(np.maximum(_base(season, channels, hours) - outdoor_c, 0.0))
    near = below.rolling(NEAR_H, center=True, min_periods=FEWEST_NEAR_H).mean().ffill().bfill()
    weight = below.fillna(near).fillna(float(below.mean())).to_numpy(dtype=np.float64)
    return _pull(BY_COLD, to_seconds(hours), weight, outdoor_c)


def _pull(how: str, seconds: Floats, weight: Floats, outdoor_c: Floats) -> Pull:
    return Pull(
        how=how,
        seconds=seconds,
        weight=weight,
        recorded=~np.isnan(outdoor_c),
        outdoor_c=outdoor_c,
        total=np.concatenate([[0.0], np.cumsum(weight)]),
    )


def hourly(values: pd.Series, hours: pd.DatetimeIndex) -> Floats:
    """Mean of the readings in each hour, NaN where there is none; up to three hours between two readings are bridged.

    For weights only: what is told of the air itself is an exact integral (measures.exposure).
    """
    seconds, begin = to_seconds(pd.DatetimeIndex(values.index)), to_seconds(hours)
    spot = np.floor((seconds - begin[0]) / 3600.0).astype(np.int64)
    inside = (spot >= 0) & (spot < len(hours))
    count = np.bincount(spot[inside], minlength=len(hours))
    total = np.bincount(spot[inside], weights=values.to_numpy(dtype=np.float64)[inside], minlength=len(hours))
    mean = pd.Series(np.where(count > 0, total / np.maximum(count, 1), np.nan))
    return np.asarray(mean.interpolate(limit=JOINED_H, limit_area="inside").to_numpy(), dtype=np.float64)


def _base(season: Season, channels: Sequence[Channel], hours: pd.DatetimeIndex) -> Floats:
    """Base of the degree-hours [°C] by the hour."""
    days = pd.Series(hours.date)
    holds = {day: season.hold_on(day) for day in days.unique()}
    found = days.map(lambda day: np.nan if holds[day] is None else holds[day]).to_numpy(dtype=np.float64)
    if not np.isnan(found).any():
        return np.asarray(found)
    return np.where(np.isnan(found), _usual(season, channels), found)


def _usual(season: Season, channels: Sequence[Channel]) -> float:
    """Median crop air between 20 and 6 h; 10 °C where none was logged."""
    crop = channels_at(season, channels, "crop", "air_temperature")
    if not crop:
        return USUAL_BASE_C
    clock = pd.DatetimeIndex(crop[0].values.index).hour
    night = crop[0].values[(clock >= 20) | (clock < 6)]
    return float(night.median()) if len(night) else USUAL_BASE_C
