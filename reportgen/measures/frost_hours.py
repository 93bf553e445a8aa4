"""The season by the hour, as the cooling models need it."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import standard_offset, stats_between
from reportgen.measures.exposure import Line, line, to_seconds
from reportgen.measures.heating_hours import HEATERS, heat_by_hour, heated_hours, hourly_mean, hours_of
from reportgen.measures.house import outdoor, soil
from reportgen.readings.types import Readings

NIGHT_FROM_H, NIGHT_TO_H = 20, 6  # night N


def hour_table(readings: Readings, curve: Line | None) -> pd.DataFrame:
    """One row an hour of the season: inside, inside_start, inside_end, outside, soil [°C], watts, heated (1, 0, NaN),
    night (the evening's date), clock_h (standard time)."""
    hours = hours_of(readings)
    seconds = to_seconds(hours)
    table = pd.DataFrame(index=hours)
    stats = stats_between(curve, seconds, seconds + 3600.0) if curve is not None else None
    table["inside"] = np.nan if stats is None else stats["mean"].where(stats["share"] >= 0.8).to_numpy()
    table["inside_start"] = np.nan if curve is None else curve.at(seconds)
    table["inside_end"] = np.nan if curve is None else curve.at(seconds + 3600.0)
    for name, channel in (("outside", outdoor(readings, "air_temperature")), ("soil", soil(readings))):
        table[name] = np.nan if channel is None else hourly_mean(channel.values, hours)
    if readings.heating:
        by_hour = heat_by_hour(readings)
        table["watts"], table["heated"] = by_hour[HEATERS], heated_hours(by_hour)
    else:
        table["watts"], table["heated"] = 0.0, 0.0
    local = (seconds + standard_offset(readings.season).total_seconds()) / 3600.0
    table["clock_h"] = np.floor(local % 24.0 + 1e-9).astype(int)
    table["night"] = [_evening(x) for x in local]
    return table


def _evening(local_h: float) -> date:
    return date(1970, 1, 1) + timedelta(days=int((local_h - 12.0) // 24.0))


def nights_by_hour(table: pd.DataFrame) -> pd.DataFrame:
    """Night N (20–06 h) of each evening: means of inside, outside, soil, watts; heated_h; known_h (hours that tell all
    of inside, outside and watts)."""
    dark = table[(table["clock_h"] >= NIGHT_FROM_H) | (table["clock_h"] < NIGHT_TO_H)]
    groups = dark.groupby("night")
    nights = groups[["inside", "outside", "soil", "watts"]].mean()
    nights["heated_h"] = groups["heated"].sum(min_count=1)
    nights["known_h"] = dark[["inside", "outside", "watts"]].notna().all(axis=1).groupby(dark["night"]).sum()
    return nights


def soil_line(readings: Readings) -> Line | None:
    """The bed's temperature."""
    channel = soil(readings)
    return line(channel.values) if channel is not None else None
