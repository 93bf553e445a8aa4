"""Heat by night beside the lift it kept: the table the heat-loss figure and the heating line rest on.

Method: methods page, *Heat*. Night N = 20–06 h standard time; a figure counts when 80 % of the night is known.
"""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH, NIGHT, Window, bounds, dates, enough, window_stats
from reportgen.measures.exposure import Floats, channel_line, to_seconds
from reportgen.measures.heating_hours import APPLIANCES, HEATERS, LOGGED, LOOSE, heated_hours
from reportgen.measures.places import main_crop, outdoor
from reportgen.readings.types import Readings

LIFT_ENOUGH_K = 3.0  # a heat-loss figure needs at least this lift …
HEATED_ENOUGH_H = 7.0  # … and heat in this many of the ten night hours


def heat_nights(readings: Readings, by_hour: pd.DataFrame) -> pd.DataFrame:
    """One row a date, index = dates.

    Args:
        by_hour: From `heating_hours.heat_by_hour`.

    Columns: in_c, out_c (night means), lift [K], heaters_w, appliances_w, total_w (mean power in N), least_w, most_w
    (bounds of total_w where a small heater is known only as sums), heated_h (hours of N with heat); NaN where under
    80 % is known. `counts`: 1 where lift > 3 K and ≥ 7 of 10 h were heated.
    """
    table = pd.DataFrame(index=pd.Index(dates(readings.season), name="date"))
    table["in_c"], table["out_c"] = _air(readings, "crop"), _air(readings, "outdoor")
    table["lift"] = table["in_c"] - table["out_c"]
    heated = heated_hours(by_hour)
    hourly = pd.DataFrame({"heaters_w": by_hour[HEATERS], "appliances_w": by_hour[APPLIANCES], "heated": heated})
    hourly["least_w"] = by_hour[LOGGED] + by_hour[APPLIANCES]
    hourly["most_w"] = hourly["least_w"] + by_hour[LOOSE]
    for name in hourly:
        table[name] = _mean(in_window(readings, hourly[name], NIGHT))
    table["heated_h"] = table.pop("heated") * NIGHT.hours
    table["total_w"] = table["heaters_w"] + table["appliances_w"]
    table["counts"] = ((table["lift"] > LIFT_ENOUGH_K) & (table["heated_h"] >= HEATED_ENOUGH_H)).astype(float)
    return table


def in_window(readings: Readings, hourly: pd.Series, window: Window) -> Floats:
    """Values of clock hours in a window of every date, shape (days, hours of the window); NaN where not known."""
    starts, _ = bounds(readings.season, window)
    wanted = starts[:, None] + 3600.0 * np.arange(round(window.hours))[None, :]
    seconds = to_seconds(pd.DatetimeIndex(hourly.index))
    spot = np.searchsorted(seconds, wanted).clip(0, max(len(seconds) - 1, 0))
    values = hourly.to_numpy(dtype=np.float64)
    return np.where(seconds[spot] == wanted, values[spot], np.nan)


def _mean(values: Floats) -> Floats:
    """Mean of each row, NaN where under 80 % of it is known."""
    known = ~np.isnan(values)
    share = known.mean(axis=1)
    total = np.nansum(values, axis=1) / np.maximum(known.sum(axis=1), 1)
    return np.where(share >= ENOUGH, total, np.nan)


def _air(readings: Readings, where: str) -> pd.Series | float:
    channel = (main_crop if where == "crop" else outdoor)(readings, "air_temperature")
    if channel is None or len(channel.values) < 2:
        return float("nan")
    return enough(window_stats(channel_line(channel), readings.season, NIGHT))
