"""Heat by garden day and by night: heaters and appliances together, since lamps and fans heat the house too.

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
from reportgen.readings.types import HeatSupply, Readings

NIGHT_HOURS = slice(8, 18)  # 20–06 h, counted from noon
HEATED_SHARE = 0.02  # an hour is heated above this share of the season's largest hour (methods page, *Heat*)
ENOUGH_OF_HEAT = 0.9  # supplies logged by the hour must carry this share of all heat to speak for it
WHOLE_DAY_S = 26 * 3600.0  # a reading a day, give or take the hour at which it was read


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatDays:
    """Heat of every garden day; index of `table` = dates.

    Columns: kwh (the garden day; NaN unknown), night_w (mean power in N), night_heated_h (hours of N heated), heated
    (1 where any hour was, NaN unknown). `reason` says why there is nothing; `left_out` names supplies known only as
    sums. `by_hour`: nights can be told from days.
    """

    table: pd.DataFrame
    reason: str
    left_out: tuple[str, ...]
    by_hour: bool


def heat_days(readings: Readings) -> HeatDays:
    """Heat of every garden day as far as it was logged."""
    index = pd.Index(dates(readings.season), name="date")
    supplies = [*readings.heating, *readings.appliances]
    if not readings.heating:
        return _nothing(index, "no heater is listed")
    fine = [supply for supply in supplies if _is_fine(supply)]
    left_out = tuple(supply.name for supply in supplies if not _is_fine(supply))
    if not any(supply.role != "appliance" for supply in fine):
        return _daily_readings(readings, index, supplies)
    if _kwh(fine) < ENOUGH_OF_HEAT * _kwh(supplies):
        return _nothing(index, f"the heat of {', '.join(left_out)} is known only as sums over many days")
    hourly = np.zeros((len(index), 24))
    for supply in fine:
        hourly += _hours_of(supply, readings)
    return HeatDays(table=_table(hourly, index), reason="", left_out=left_out, by_hour=True)


def _nothing(index: pd.Index, reason: str, left_out: tuple[str, ...] = ()) -> HeatDays:
    columns = ["kwh", "night_w", "night_heated_h", "heated"]
    table = pd.DataFrame(np.nan, index=index, columns=columns)
    return HeatDays(table=table, reason=reason, left_out=left_out, by_hour=False)


def _is_fine(supply: HeatSupply) -> bool:
    """Most of its heat is known by the hour."""
    table = supply.intervals
    return len(table) > 0 and float(table.loc[~table["sparse"].astype(bool), "heat_kwh"].sum()) >= 0.5 * _kwh([supply])


def _kwh(supplies: list[HeatSupply]) -> float:
    return float(sum(supply.intervals["heat_kwh"].sum() for supply in supplies))


def _edges(table: pd.DataFrame) -> tuple[Floats, Floats]:
    return to_seconds(pd.DatetimeIndex(table["start"])), to_seconds(pd.DatetimeIndex(table["end"]))


def _hours_of(supply: HeatSupply, readings: Readings) -> Floats:
    """kWh of one supply in the 24 hours of every garden day, shape (days, 24); NaN where not known."""
    table = supply.intervals
    table = table[~table["sparse"].astype(bool) & table["heat_kwh"].notna()]
    start, end = _edges(table)
    points, heat = _running_total(start, end, table["heat_kwh"].to_numpy(dtype=float))
    _, seconds = _running_total(start, end, end - start)
    begin, _ = bounds(readings.season, GARDEN_DAY)
    hours = begin[:, None] + 3600.0 * np.arange(25)[None, :]
    given = np.diff(np.interp(hours, points, heat), axis=1)
    covered = np.diff(np.interp(hours, points, seconds), axis=1) / 3600.0
    return np.where(covered >= ENOUGH, given / np.where(covered > 0, covered, 1.0), np.nan)


def _running_total(start: Floats, end: Floats, amount: Floats) -> tuple[Floats, Floats]:
    """Cumulated amount at every edge of stretches that do not overlap; flat between them."""
    points = np.column_stack([start, end]).ravel()
    totals = np.cumsum(np.column_stack([np.zeros(len(amount)), amount]).ravel())
    return np.maximum.accumulate(points), totals


def _table(hourly: Floats, index: pd.Index) -> pd.DataFrame:
    """Day and night figures from kWh by the hour; a window counts when 80 % of its hours are known."""
    largest = float(np.nanmax(hourly)) if np.isfinite(hourly).any() else 0.0
    heated = np.where(np.isnan(hourly), np.nan, hourly > max(HEATED_SHARE * largest, 1e-9))
    night, night_heated = hourly[:, NIGHT_HOURS], heated[:, NIGHT_HOURS]
    day_known, night_known = _known(hourly), _known(night)
    table = pd.DataFrame(index=index)
    table["kwh"] = np.where(day_known, _mean(hourly) * 24, np.nan)
    table["night_w"] = np.where(night_known, _mean(night) * 1000, np.nan)
    table["night_heated_h"] = np.where(night_known, _mean(night_heated) * night.shape[1], np.nan)
    table["heated"] = np.where(day_known, np.nansum(heated, axis=1) > 0, np.nan)
    return table


def _known(values: Floats) -> NDArray[np.bool_]:
    return np.asarray((~np.isnan(values)).mean(axis=1) >= ENOUGH)


def _mean(values: Floats) -> Floats:
    count = (~np.isnan(values)).sum(axis=1)
    return np.asarray(np.nansum(values, axis=1) / np.maximum(count, 1))


def _daily_readings(readings: Readings, index: pd.Index, supplies: list[HeatSupply]) -> HeatDays:
    """A meter read once a day about noon gives the heat of garden days; of nights it knows nothing."""
    total = np.zeros(len(index))
    begin, stop = bounds(readings.season, GARDEN_DAY)
    for supply in supplies:
        total += _whole_days(supply, begin, stop)
    if np.isnan(total).all():
        words = "the heaters were read too seldom: a change needs the heat of each day (log the power, or read at noon)"
        return _nothing(index, words)
    found = _nothing(index, "")
    found.table["kwh"] = total
    found.table["heated"] = np.where(np.isnan(total), np.nan, total > HEATED_SHARE * np.nanmax(total))
    return found


def _whole_days(supply: HeatSupply, begin: Floats, stop: Floats) -> Floats:
    start, end = _edges(supply.intervals)
    kwh = supply.intervals["heat_kwh"].to_numpy(dtype=float)
    out = np.full(len(begin), np.nan)
    for day in range(len(begin)):
        shared = np.minimum(end, stop[day]) - np.maximum(start, begin[day])
        whole = (shared >= ENOUGH * (stop[day] - begin[day])) & (end - start <= WHOLE_DAY_S)
        if whole.any():
            best = int(np.argmax(np.where(whole, shared, -1.0)))
            out[day] = kwh[best] * 86_400.0 / (end[best] - start[best])
    return out
