"""How loggers that hang at one place agree: the second's joined line at the first's readings.

The difference has no truth in it: it says that one of the two is off, or that the place is not one place.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field

import numpy as np
import pandas as pd

from reportgen.measures.exposure import Floats, channel_line
from reportgen.readings.types import Channel, Readings
from reportgen.units import of_kind

COMPARED = of_kind("air", "humidity", "soil")
LEAST = 48  # readings compared before anything is said; ours: a day of half-hours
TAILS = (0.025, 0.975)  # ends of the middle 95 % of the differences


@dataclass(frozen=True, kw_only=True, slots=True)
class Agreement:
    """One pair: differences are second − first, in the kept unit (K for temperatures, points for humidity).

    `allowed` is the sum of both accuracies, None where one was not given; `beyond` the share of the readings compared
    that differ by more. `days`: columns date, difference (mean of the day).
    """

    measure: str
    where: str
    first: str
    second: str
    readings: int
    median: float
    low: float
    high: float
    allowed: float | None
    beyond: float | None
    days: pd.DataFrame = field(repr=False)

    @property
    def disagree(self) -> bool:
        """Their accuracies do not explain the usual difference."""
        return self.allowed is not None and abs(self.median) > self.allowed


def agreement(readings: Readings) -> tuple[Agreement, ...]:
    """Every pair of loggers of one place and measure that recorded at the same time."""
    season = readings.season
    groups: dict[tuple[str, str, float | None], list[Channel]] = {}
    for channel in readings.channels:
        if channel.measure in COMPARED and channel.where != "elsewhere" and len(channel.values):
            groups.setdefault((channel.where, channel.measure, channel.depth_m), []).append(channel)
    pairs = (pair for group in groups.values() for pair in itertools.combinations(group, 2))
    found = (compared(first, second, season.start, season.end) for first, second in pairs)
    return tuple(one for one in found if one is not None)


def compared(first: Channel, second: Channel, start: pd.Timestamp, end: pd.Timestamp) -> Agreement | None:
    """The second against the first between two instants; None where they hardly recorded together."""
    curve = channel_line(first)
    inside = slice(*np.searchsorted(curve.seconds, [start.timestamp(), end.timestamp()]))
    seconds = curve.seconds[inside]
    differences = channel_line(second).at(seconds) - curve.values[inside]
    known = ~np.isnan(differences)
    seconds, differences = seconds[known], differences[known]
    if len(differences) < LEAST:
        return None
    low, median, high = np.quantile(differences, [TAILS[0], 0.5, TAILS[1]])
    allowed = None
    if first.accuracy is not None and second.accuracy is not None:
        allowed = first.accuracy + second.accuracy
    return Agreement(
        measure=first.measure,
        where=first.where,
        first=first.logger,
        second=second.logger,
        readings=len(differences),
        median=float(median),
        low=float(low),
        high=float(high),
        allowed=allowed,
        beyond=None if allowed is None else float((np.abs(differences) > allowed).mean()),
        days=_by_day(curve.times[inside][known], differences),
    )


def _by_day(times: pd.DatetimeIndex, differences: Floats) -> pd.DataFrame:
    """The mean of every local day that has any."""
    day = times.tz_localize(None).to_numpy().astype("datetime64[D]")
    first = np.flatnonzero(np.append(True, day[1:] != day[:-1]))
    mean = np.add.reduceat(differences, first) / np.diff(np.append(first, len(day)))
    return pd.DataFrame({"date": day[first].astype(object), "difference": mean})
