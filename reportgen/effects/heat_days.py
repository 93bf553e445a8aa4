"""Heat by garden day, heaters and appliances together, since lamps and fans heat the house too; by night of the heaters
alone, for what an appliance draws is no sign of what the house loses: a dehumidifier put in would look like a leak.

Only what was logged finely enough counts: a sum over a week can be spread by the weather, but then it knows nothing
of a change that the weather did not make.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.measures.days import ENOUGH, GARDEN_DAY, bounds, dates
from reportgen.measures.exposure import Floats, to_seconds
from reportgen.measures.heating_hours import (
    HEATED_SHARE,
    HEATERS,
    LOGGED,
    SLIGHT,
    TOTAL,
    HeatCurve,
    heat_by_hour,
    heat_curves,
    heated_hours,
)
from reportgen.readings.types import HeatSupply, Readings
from reportgen.wording import listed

NIGHT_HOURS = slice(8, 18)  # 20–06 h, counted from noon
WHOLE_DAY_S = 26 * 3600.0  # a reading a day, give or take the hour at which it was read
COLUMNS = ("kwh", "night_w", "night_heated_h", "heated", "only_sums")


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatDays:
    """Heat of every garden day; index of `table` = dates.

    Columns: kwh (the garden day; NaN unknown), night_w (heaters' mean power in N), night_heated_h (hours of N
    heated), heated (1 where any hour was, NaN unknown), only_sums (1 where too much of it is known only as a sum over
    days, though the others were logged). `reason` says why there is nothing; `left_out` names supplies
    known only as sums. `by_hour`: nights can be told from days.
    """

    table: pd.DataFrame
    reason: str
    left_out: tuple[str, ...]
    by_hour: bool
    large_sums: tuple[str, ...] = ()  # those of `left_out` that are large enough to hide what the others did


def heat_days(readings: Readings) -> HeatDays:
    """Heat of every garden day as far as it was logged."""
    index = pd.Index(dates(readings.season), name="date")
    if not readings.heating:
        return _nothing(index, "no heater is listed")
    curves = heat_curves(readings)
    if any(c.by_hour and c.role != "appliance" for c in curves):
        hourly = heat_by_hour(readings, curves)
        columns = (hourly[TOTAL], hourly[HEATERS], heated_hours(hourly))
        watts, heaters, heated = (_by_garden_day(column, readings) for column in columns)
        left_out = tuple(c.name for c in curves if not c.by_hour and c.role != "appliance")
        if np.isnan(watts).all():
            return _nothing(index, f"the heat of {', '.join(left_out)} is known only as sums over many days")
        table = _table(watts, heaters, heated, index)
        fine = [c.name for c in curves if c.by_hour and c.role != "appliance"]
        logged = _by_garden_day(hourly[fine].sum(axis=1, skipna=False), readings)
        table["only_sums"] = (_known(logged) & ~_known(heaters)).astype(float)
        most = SLIGHT * float(hourly[LOGGED].max())
        large = tuple(c.name for c in curves if c.name in left_out and (c.most_w is None or c.most_w > most))
        return HeatDays(table=table, reason="", left_out=left_out, by_hour=True, large_sums=large)
    return _daily_readings(readings, index, curves)


def _nothing(index: pd.Index, reason: str) -> HeatDays:
    table = pd.DataFrame(np.nan, index=index, columns=list(COLUMNS))
    return HeatDays(table=table, reason=reason, left_out=(), by_hour=False)


def _by_garden_day(hourly: pd.Series, readings: Readings) -> Floats:
    """A clock-hour figure in the 24 hours of every garden day, shape (days, 24); NaN beyond the season."""
    seconds = to_seconds(pd.DatetimeIndex(hourly.index))
    begin, _ = bounds(readings.season, GARDEN_DAY)
    wanted = begin[:, None] + 3600.0 * np.arange(24)[None, :]
    spot = np.searchsorted(seconds, wanted).clip(0, len(seconds) - 1)
    values = hourly.to_numpy(dtype=np.float64)[spot]
    return np.where(seconds[spot] == wanted, values, np.nan)


def _table(watts: Floats, heaters: Floats, heated: Floats, index: pd.Index) -> pd.DataFrame:
    """Day and night figures from those of the hours; a window counts when 80 % of its hours are known."""
    night, night_heated = heaters[:, NIGHT_HOURS], heated[:, NIGHT_HOURS]
    day_known, night_known = _known(watts), _known(night)
    table = pd.DataFrame(index=index)
    table["kwh"] = np.where(day_known, _mean(watts) * 24 / 1000, np.nan)
    table["night_w"] = np.where(night_known, _mean(night), np.nan)
    table["night_heated_h"] = np.where(night_known, _mean(night_heated) * night.shape[1], np.nan)
    table["heated"] = np.where(day_known, np.nansum(heated, axis=1) > 0, np.nan)
    return table


def _known(values: Floats) -> NDArray[np.bool_]:
    return np.asarray((~np.isnan(values)).mean(axis=1) >= ENOUGH)


def _mean(values: Floats) -> Floats:
    count = (~np.isnan(values)).sum(axis=1)
    return np.asarray(np.nansum(values, axis=1) / np.maximum(count, 1))


SELDOM, BOUGHT = "the heaters were read too seldom", "the heat is known only by what was bought"
ASK = " (log the power, or read at noon)"


def _daily_readings(readings: Readings, index: pd.Index, curves: tuple[HeatCurve, ...]) -> HeatDays:
    """A meter read once a day about noon gives the heat of garden days; of nights it knows nothing."""
    begin, stop = bounds(readings.season, GARDEN_DAY)
    total = sum((_whole_days(supply, begin, stop) for supply in readings.heating), np.zeros(len(index)))
    if np.isnan(total).all():
        return _nothing(index, f"{_unread(readings)}: a change needs the heat of each day{_ask(readings)}")
    found = _nothing(index, "")
    found.table["heated"] = np.where(np.isnan(total), np.nan, total > HEATED_SHARE * np.nanmax(total))
    aside = [curve for curve in curves if curve.role == "appliance"]
    found.table["kwh"] = total + sum((curve.between("kwh", begin, stop) for curve in aside), np.zeros(len(index)))
    return found


def _bought(readings: Readings) -> list[str]:
    """Heaters whose fuel comes in cylinders or sacks, with no meter to be read."""
    return [supply.name for supply in readings.heating if supply.form == "deliveries"]


def _unread(readings: Readings) -> str:
    names = _bought(readings)
    if names and len(names) < len(readings.heating):
        return f"the heat of the {listed(names)} is known only by what was bought"
    return BOUGHT if names else SELDOM


def _ask(readings: Readings) -> str:
    return "" if _bought(readings) else ASK


def _whole_days(supply: HeatSupply, begin: Floats, stop: Floats) -> Floats:
    """kWh of one heater by garden day, from readings about a day apart that cover most of it; NaN elsewhere."""
    table = supply.intervals
    out = np.full(len(begin), np.nan)
    if not len(table) or supply.form == "deliveries":  # a delivery tells nothing of a day
        return out
    start, end = to_seconds(pd.DatetimeIndex(table["start"])), to_seconds(pd.DatetimeIndex(table["end"]))
    kwh = table["heat_kwh"].to_numpy(dtype=float)
    for day in range(len(begin)):
        shared = np.minimum(end, stop[day]) - np.maximum(start, begin[day])
        whole = (shared >= ENOUGH * (stop[day] - begin[day])) & (end - start <= WHOLE_DAY_S)
        if whole.any():
            best = int(np.argmax(np.where(whole, shared, -1.0)))
            out[day] = kwh[best] * 86_400.0 / (end[best] - start[best])
    return out
