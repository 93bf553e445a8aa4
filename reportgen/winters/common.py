"""The calendar days that both winters have, and a season's readings cut down to them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pandas as pd

from reportgen.readings.types import Channel, HeatSupply, Readings
from reportgen.season import Season


def years_between(this: Season, last: Season) -> int:
    """Whole years by which last winter's dates are moved to lie on this winter's (by the middles of both)."""
    middle = (this.first_day - last.first_day).days + (this.last_day - last.last_day).days
    return round(middle / 2 / 365.25)


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
    """The readings of some days of the season only: channels, heat and books; a long stretch of heat is cut by time."""
    season = readings.season.model_copy(update={"first_day": first, "last_day": last})
    return replace(
        readings,
        season=season,
        channels=tuple(_cut(channel, season) for channel in readings.channels),
        diary=tuple(e for e in readings.diary if e.date <= last and (e.until or e.date) >= first),
        harvest=tuple(p for p in readings.harvest if first <= p.date <= last),
        watering=tuple(w for w in readings.watering if first <= w.date <= last),
        inspections=tuple(i for i in readings.inspections if first <= i.date <= last),
        heating=tuple(_cut_heat(supply, season) for supply in readings.heating),
        appliances=tuple(_cut_heat(supply, season) for supply in readings.appliances),
    )


def _cut(channel: Channel, season: Season) -> Channel:
    index = channel.values.index
    return replace(channel, values=channel.values[(index >= season.start) & (index <= season.end)])


def _cut_heat(supply: HeatSupply, season: Season) -> HeatSupply:
    table = supply.intervals
    if not len(table):
        return supply
    start, end = pd.DatetimeIndex(table["start"]), pd.DatetimeIndex(table["end"])
    inside_start, inside_end = start.where(start > season.start, season.start), end.where(end < season.end, season.end)
    whole = np.maximum((end - start).total_seconds().to_numpy(dtype=np.float64), 1e-9)
    share = (inside_end - inside_start).total_seconds().to_numpy(dtype=np.float64) / whole
    cut = table.assign(start=inside_start, end=inside_end)
    for column in ("bought", "heat_kwh", "cost"):
        cut[column] = cut[column].to_numpy(dtype=np.float64) * np.clip(share, 0.0, 1.0)
    return replace(supply, intervals=cut[share > 0].reset_index(drop=True))
