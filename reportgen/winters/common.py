"""The calendar days that both winters have, and a season's readings cut down to them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np
import pandas as pd

from reportgen.readings.degree_hours import Pull, pull
from reportgen.readings.join import to_seconds
from reportgen.readings.types import Channel, HeatSupply, Readings
from reportgen.season import Season
from reportgen.units import YEAR_D


def years_between(this: Season, last: Season) -> int:
    """Whole years by which last winter's dates are moved to lie on this winter's (by the middles of both)."""
    middle = (this.first_day - last.first_day).days + (this.last_day - last.last_day).days
    return round(middle / 2 / YEAR_D)


def moved(day: date, years: int) -> date:
    """The same calendar day in another year; 29 February becomes 28 February where the year has none."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)


def shared_days(this: Season, last: Season) -> tuple[date, date] | None:
    """First and last day, in this winter's dates, that both winters cover; None when they share none."""
    years = years_between(this, last)
    first = max(this.first_day, moved(last.first_day, years))
    end = min(this.last_day, moved(last.last_day, years))
    return (first, end) if first <= end else None


def restrict(readings: Readings, first: date, last: date) -> Readings:
    """The readings of some days of the season only: channels, heat and books; a long sum of heat is cut by the cold.

    All days: the same readings, so that what was worked out from them is not worked out again.
    """
    if (first, last) == (readings.season.first_day, readings.season.last_day):
        return readings
    cold = pull(readings.season, readings.channels)
    season = readings.season.model_copy(update={"first_day": first, "last_day": last})
    return replace(
        readings,
        season=season,
        channels=tuple(_cut(channel, season) for channel in readings.channels),
        diary=tuple(e for e in readings.diary if e.date <= last and (e.until or e.date) >= first),
        harvest=tuple(p for p in readings.harvest if first <= p.date <= last),
        watering=tuple(w for w in readings.watering if first <= w.date <= last),
        inspections=tuple(i for i in readings.inspections if first <= i.date <= last),
        heating=tuple(_cut_heat(supply, season, cold) for supply in readings.heating),
        appliances=tuple(_cut_heat(supply, season, cold) for supply in readings.appliances),
    )


def _cut(channel: Channel, season: Season) -> Channel:
    index = channel.values.index
    return replace(channel, values=channel.values[(index >= season.start) & (index <= season.end)])


def _cut_heat(supply: HeatSupply, season: Season, cold: Pull) -> HeatSupply:
    """A supply's use and gaps on the days of the season; a long sum is shared by the cold, a gap by time."""
    gaps = _inside(supply.gaps, season)
    return replace(
        supply,
        intervals=_shared(supply.intervals, season, ("bought", "heat_kwh", "cost", "cost_low", "cost_high"), cold),
        gaps=_shared(gaps, season, ("heat_kwh", "cost"), None) if len(gaps) else gaps,
    )


def _shared(table: pd.DataFrame, season: Season, columns: Sequence[str], cold: Pull | None) -> pd.DataFrame:
    if not len(table):
        return table
    table = _inside(table, season)
    start, end = pd.DatetimeIndex(table["start"]), pd.DatetimeIndex(table["end"])
    first, last = start.where(start > season.start, season.start), end.where(end < season.end, season.end)
    edges = np.column_stack([to_seconds(pd.DatetimeIndex(at)) for at in (start, end, first, last)])
    share = (edges[:, 3] - edges[:, 2]) / np.maximum(edges[:, 1] - edges[:, 0], 1e-9)
    if cold is not None:
        for i in np.flatnonzero(share < 1.0):
            share[i] = cold.share(*edges[i])
    out = table.assign(start=first, end=last)
    for column in columns:
        if column in out:
            out[column] = out[column].to_numpy(dtype=np.float64) * share
    return out.reset_index(drop=True)


def _inside(table: pd.DataFrame, season: Season) -> pd.DataFrame:
    if not len(table):
        return table
    return table[(table["end"] > season.start) & (table["start"] < season.end)]
