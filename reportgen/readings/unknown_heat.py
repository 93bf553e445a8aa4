"""Stretches of the season in which a heater's use is not known, and the most it can have been.

The least is nothing. The most is the rated power through all of the gap; where no rating is given, the largest hourly
mean that was logged. A gap as long as n hours is bounded closer where the outdoors allows it: a heater on a thermostat
gives no more over n hours than it gave over the hardest n hours that were logged, if those were at least as cold. So
the largest logged mean over n hours stands in for the rating when the gap was no colder outdoors than the coldest
logged n hours. A changed thermostat or an opened house inside a gap could break that; the pages say what it rests on.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.readings.degree_hours import Pull
from reportgen.readings.join import Floats, to_seconds
from reportgen.readings.prices import Tariff
from reportgen.readings.types import GAP_COLUMNS, DiaryEntry
from reportgen.season import Season

LEAST_S = 3600.0  # shorter gaps are no news
BY_HAND_S = 86_400.0  # of a book read by hand: read on the first or last day, at some hour
COMING_D = 2  # days between a diary entry that brings or takes a heater and its first or last reading
RECORDED = 0.8  # of a gap's hours whose outdoor air must be on record


def gaps(
    table: pd.DataFrame, season: Season, pull: Pull, tariff: Tariff, rated_w: float | None, heat_per_drawn: float,
    kwh_per_unit: float, diary: Sequence[DiaryEntry], by_hand: bool,
) -> pd.DataFrame:  # fmt: skip
    """The gaps in one source's record: columns start, end, heat_kwh (the most), cost (the most, NaN without a price).

    Args:
        table: Its stretches of use: start, end, heat_kwh, sparse.
        rated_w: What it draws at most [W], None where not given.
        heat_per_drawn: Heat given for each kWh drawn.
        kwh_per_unit: Heat given for each unit that is bought.
        by_hand: A book read by hand, not a logger.
    """
    rated_heat_w = None if rated_w is None else rated_w * heat_per_drawn
    rows = []
    for start, end in _holes(table, season, diary, BY_HAND_S if by_hand else LEAST_S):
        heat = _most_w(table, start, end, pull, rated_heat_w) * (end - start) / 3.6e6
        rows.append((_stamp(start, season), _stamp(end, season), heat))
    found = pd.DataFrame(rows, columns=["start", "end", "heat_kwh"])
    if not rows:
        return pd.DataFrame({name: [] for name in GAP_COLUMNS})
    dearest = [_dearest(start, end, tariff) for start, end in zip(found["start"], found["end"], strict=True)]
    return found.assign(cost=found["heat_kwh"] / kwh_per_unit * dearest)


def _holes(
    table: pd.DataFrame, season: Season, diary: Sequence[DiaryEntry], edge_s: float
) -> list[tuple[float, float]]:
    """Stretches [s since 1970] that no row covers; before a heater came, or after it went, none."""
    first, last = season.start.timestamp(), season.end.timestamp()
    if not len(table):
        return [(first, last)]
    starts, ends = (to_seconds(pd.DatetimeIndex(table[name])) for name in ("start", "end"))
    order = np.argsort(starts, kind="stable")
    starts, ends = starts[order], np.maximum.accumulate(ends[order])
    holes = [(end, start) for end, start in zip(ends[:-1], starts[1:], strict=True) if start - end > LEAST_S]
    if starts[0] - first > edge_s and not _came(starts[0], season, diary):
        holes.insert(0, (first, float(starts[0])))
    if last - ends[-1] > edge_s and not _came(ends[-1], season, diary):
        holes.append((float(ends[-1]), last))
    return [(float(a), float(b)) for a, b in holes]


def _came(at: float, season: Season, diary: Sequence[DiaryEntry]) -> bool:
    """Whether the diary tells of a heater that came or went about that day."""
    day = _stamp(at, season).date()
    told = [e for e in diary if e.kind in ("change", "spell") and "heater" in e.touches]
    days = [e.date for e in told] + [e.until for e in told if e.until is not None]
    return any(abs(day - other) <= dt.timedelta(days=COMING_D) for other in days)


def _most_w(table: pd.DataFrame, start: float, end: float, pull: Pull, rated_heat_w: float | None) -> float:
    """The most that the mean power of a gap can have been [W of heat]; 0 where nothing at all tells."""
    hours = _by_hour(table, pull)
    sums = table[table["sparse"].to_numpy(dtype=bool)] if len(table) else table
    most = [rated_heat_w] if rated_heat_w is not None else [float(np.nanmax(hours, initial=0.0)), _largest(sums)]
    n = max(round((end - start) / 3600.0), 1)
    logged, outdoor = pd.Series(hours).rolling(n).mean(), pd.Series(pull.outdoor_c).rolling(n).mean()
    inside = (pull.seconds >= start - 1800.0) & (pull.seconds < end - 1800.0)
    air = pull.outdoor_c[inside]
    coldest = float(outdoor[logged.notna()].min())
    if len(air) and np.mean(~np.isnan(air)) >= RECORDED and np.nanmean(air) >= coldest:
        most = [min(max(most), float(logged.max()))]
    return max(most)


def _by_hour(table: pd.DataFrame, pull: Pull) -> Floats:
    """Mean logged power of every hour of the pull [W of heat], NaN where any of it is not logged."""
    fine = table[~table["sparse"].to_numpy(dtype=bool)] if len(table) else table
    out = np.full(len(pull.seconds), np.nan)
    if not len(fine):
        return out
    starts, ends = (to_seconds(pd.DatetimeIndex(fine[name])) for name in ("start", "end"))
    knots = np.maximum.accumulate(np.column_stack([starts, ends]).ravel())
    kwh = np.cumsum(np.column_stack([np.zeros(len(fine)), fine["heat_kwh"].to_numpy(dtype=np.float64)]).ravel())
    known = np.cumsum(np.column_stack([np.zeros(len(fine)), ends - starts]).ravel())
    edges = np.append(pull.seconds, pull.seconds[-1] + 3600.0)
    whole = np.diff(np.interp(edges, knots, known)) >= 3599.0
    return np.where(whole, np.diff(np.interp(edges, knots, kwh)) * 1000.0, np.nan)


def _largest(sums: pd.DataFrame) -> float:
    """Largest mean power between two readings [W]."""
    if not len(sums):
        return 0.0
    seconds = (sums["end"] - sums["start"]).dt.total_seconds().to_numpy(dtype=np.float64)
    return float(np.nanmax(sums["heat_kwh"].to_numpy(dtype=np.float64) * 3.6e6 / np.maximum(seconds, 1.0), initial=0.0))


def _dearest(start: pd.Timestamp, end: pd.Timestamp, tariff: Tariff) -> float:
    hours = pd.date_range(start, end, freq="1h", inclusive="left") + pd.Timedelta(minutes=30)
    return float(np.max(tariff.at(pd.DatetimeIndex(hours)))) if tariff.given and len(hours) else float("nan")


def _stamp(seconds: float, season: Season) -> pd.Timestamp:
    return pd.Timestamp(round(seconds), unit="s", tz="UTC").tz_convert(season.zone)
