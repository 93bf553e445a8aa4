"""Each week's picking beside the warmth and light of the weeks before it: shown, never claimed as cause."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import DATE, dates, enough, window_stats
from reportgen.measures.exposure import line
from reportgen.measures.places import main_crop, outdoor
from reportgen.readings.types import Readings
from reportgen.sun import day_length_h

WEEKS = 4  # a leaf crop that is picked again regrows in about a month; common practice, no source


def weeks_before(readings: Readings, mondays: Sequence[date], kg: Sequence[float]) -> pd.DataFrame:
    """One row a week that has four whole weeks of the season before it.

    Returns: columns week (Monday), kg, warmth_c (mean crop air of the four weeks before), light (mean of the same
    weeks), light_unit: "kWh/m² a day outdoors" from a light sensor outside, else "h of daylight" from the almanac,
    else NaN and "". NaN where less than 80 % of those days is logged.
    """
    light, unit = _light(readings)
    air = main_crop(readings, "air_temperature")
    warmth = _daily(readings, None if air is None else air.values)
    rows = []
    for monday, weight in zip(mondays, kg, strict=True):
        span = [monday - timedelta(days=n) for n in range(7 * WEEKS, 0, -1)]
        if span[0] >= readings.season.first_day:
            rows.append((monday, weight, mean_of(warmth, span), mean_of(light, span), unit))
    return pd.DataFrame(rows, columns=["week", "kg", "warmth_c", "light", "light_unit"])


def lighter_from(weeks: pd.DataFrame) -> float:
    """From which light a week is of the lighter half: the median, in the unit of `light`; NaN where any is unknown."""
    return float(weeks["light"].median()) if weeks["light"].notna().all() else float("nan")


def mean_of(values: pd.Series, days: list[date]) -> float:
    """Mean over the days, NaN where fewer than 80 % of them have a value."""
    part = values.reindex(pd.Index(days)).dropna()
    return float(part.mean()) if len(part) >= 0.8 * len(days) else float("nan")


def _daily(readings: Readings, values: pd.Series | None) -> pd.Series:
    if values is None or len(values) < 2:
        return pd.Series(np.nan, index=pd.Index(dates(readings.season)))
    return enough(window_stats(line(values), readings.season, DATE))


def _light(readings: Readings) -> tuple[pd.Series, str]:
    sun = outdoor(readings, "solar_radiation")
    if sun is not None and len(sun.values) > 1:
        return _daily(readings, sun.values) * 24 / 1000, "kWh/m² a day outdoors"
    days, latitude = dates(readings.season), readings.season.place.latitude
    if latitude is None:
        return pd.Series(np.nan, index=pd.Index(days)), ""
    return pd.Series(day_length_h(days, latitude), index=pd.Index(days)), "h of daylight"
