"""The garden day: 12:00 of one date to 12:00 of the next, standard time, so that a night is never cut in two.

Standard time is the smaller of the zone's two UTC offsets in the season's years: a garden day always has 24 hours.
A window is given in hours after 00:00 standard time of date d.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.measures.exposure import Floats, Line
from reportgen.season import Season

ENOUGH = 0.8  # share of a window that must be recorded before its figure counts (methods page)


@dataclass(frozen=True, kw_only=True, slots=True)
class Window:
    """Hours after 00:00 standard time of date d."""

    start_h: float
    end_h: float

    @property
    def hours(self) -> float:
        """Length [h]."""
        return self.end_h - self.start_h


GARDEN_DAY = Window(start_h=12, end_h=36)
NIGHT = Window(start_h=20, end_h=30)  # N: 20–06 h
LONG_NIGHT = Window(start_h=18, end_h=33)  # M: 18–09 h, named after its evening
DAYTIME = Window(start_h=6, end_h=20)  # of date d
DATE = Window(start_h=0, end_h=24)
SUNNY = Window(start_h=9, end_h=19)
NEXT_MORNING = Window(start_h=24, end_h=36)
EVENING_SOIL = Window(start_h=19, end_h=20)


def standard_offset(season: Season) -> timedelta:
    """The smaller of the zone's UTC offsets in the season's years."""
    years = range(season.first_day.year, season.last_day.year + 1)
    stamps = [pd.Timestamp(year=y, month=m, day=1, tz=season.zone) for y in years for m in (1, 7)]
    offsets = [stamp.utcoffset() for stamp in stamps]
    return min(offset for offset in offsets if offset is not None)


def dates(season: Season) -> list[date]:
    """Every date d of the season; the garden day of the last one reaches beyond its end and stays partly logged."""
    count = (season.last_day - season.first_day).days + 1
    return [season.first_day + timedelta(days=n) for n in range(count)]


def bounds(season: Season, window: Window) -> tuple[Floats, Floats]:
    """Start and end of the window on every date, seconds since 1970 UTC; shapes (days,)."""
    offset_s = standard_offset(season).total_seconds()
    midnight = pd.DatetimeIndex(pd.to_datetime(dates(season)), tz="UTC")
    zero = midnight.tz_localize(None).to_numpy().astype("datetime64[s]").astype(np.int64) - offset_s
    seconds = np.asarray(zero, dtype=np.float64)
    return seconds + window.start_h * 3600.0, seconds + window.end_h * 3600.0


def window_stats(curve: Line, season: Season, window: Window) -> pd.DataFrame:
    """What a curve did in a window of every date: exact means of the joined line, extremes, hours recorded.

    Returns: index = dates (datetime.date), columns mean, min, max, hours, share; NaN statistics where nothing was
    recorded. `share` is hours / window length: a figure counts from ENOUGH on.
    """
    starts, ends = bounds(season, window)
    table = stats_between(curve, starts, ends)
    table.index = pd.Index(dates(season), name="date")
    return table


def enough(table: pd.DataFrame, column: str = "mean") -> pd.Series:
    """One column of `window_stats`, NaN where less than ENOUGH of the window was recorded."""
    return table[column].where(table["share"] >= ENOUGH)


def mean_known(values: pd.Series) -> float | None:
    """The mean of the values that are there, in the unit of the series; None where all is missing."""
    kept = values.dropna()
    return float(kept.mean()) if len(kept) else None


def least(values: pd.Series) -> tuple[date, float] | None:
    """The date with the least value of a series by date, and that value in the unit of the series; None where all is
    missing.
    """
    kept = values.dropna()
    if not len(kept):
        return None
    spot = int(np.argmin(kept.to_numpy(dtype=np.float64)))
    found: date = list(kept.index)[spot]
    return found, float(kept.iloc[spot])


def stats_between(curve: Line, starts: Floats, ends: Floats) -> pd.DataFrame:
    """mean, min, max (unit of the curve), hours, share of a curve between given instants, one row a pair.

    `starts`, `ends` [s since 1970], shapes (n,).
    """
    count = len(starts)
    out = pd.DataFrame({name: np.full(count, np.nan) for name in ("mean", "min", "max")} | {"hours": 0.0, "share": 0.0})
    if len(curve.values) < 2 or count == 0:
        return out
    hours = _integral(curve, np.ones_like(curve.values), ends) - _integral(curve, np.ones_like(curve.values), starts)
    area = _integral(curve, curve.values, ends) - _integral(curve, curve.values, starts)
    recorded = hours > 1e-9
    out["hours"] = np.where(recorded, hours, 0.0)
    out["share"] = out["hours"] / ((ends - starts) / 3600.0)
    out["mean"] = np.where(recorded, area / np.where(recorded, hours, 1.0), np.nan)
    out["min"], out["max"] = _extremes(curve, starts, ends)
    return out


def _integral(curve: Line, values: Floats, until: Floats) -> Floats:
    """Integral [value × h] of the joined line from its beginning to each instant."""
    mean = (values[:-1] + values[1:]) / 2
    total = np.concatenate([[0.0], np.cumsum(mean * curve.hours)])
    k = np.searchsorted(curve.seconds, until, side="right") - 1
    inside = (k >= 0) & (k < len(curve.joined))
    i = k.clip(0, len(curve.joined) - 1)
    part_h = np.where(inside & curve.joined[i], (until - curve.seconds[i]) / 3600.0, 0.0)
    length_h = np.where(curve.hours[i] > 0, curve.hours[i], 1.0)
    end_value = values[i] + (values[i + 1] - values[i]) * part_h / length_h
    return np.where(k < 0, 0.0, total[k.clip(0)] + (values[i] + end_value) / 2 * part_h)


def _extremes(curve: Line, starts: Floats, ends: Floats) -> tuple[Floats, Floats]:
    """Least and largest value of the joined line in each window, its interpolated ends included."""
    first = np.searchsorted(curve.seconds, starts, side="left")
    last = np.searchsorted(curve.seconds, ends, side="right")
    edges = np.vstack([curve.at(starts), curve.at(ends)])
    low = _within(np.minimum, np.append(curve.values, np.inf), first, last)
    high = _within(np.maximum, np.append(curve.values, -np.inf), first, last)
    low, high = np.fmin(low, np.fmin(*edges)), np.fmax(high, np.fmax(*edges))
    return np.where(np.isinf(low), np.nan, low), np.where(np.isinf(high), np.nan, high)


def _within(extreme: np.ufunc, values: Floats, first: NDArray[np.intp], last: NDArray[np.intp]) -> Floats:
    """The extreme of values[first:last] for every window; the last value, an infinity, where a window is empty."""
    found: Floats = extreme.reduceat(values, np.column_stack([first, last]).ravel())[::2]
    return np.where(first < last, found, values[-1])
