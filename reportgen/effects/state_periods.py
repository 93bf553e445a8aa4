"""Weeks or days with the heat of each, as the estimate by state needs them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen.effects.gls import Floats
from reportgen.effects.spared import Bools
from reportgen.measures.days import ENOUGH, dates
from reportgen.measures.exposure import to_seconds
from reportgen.measures.heating_hours import HeatCurve, heat_by_day, heat_curves, local_midnights
from reportgen.readings.types import HeatSupply, Readings

DAILY = 1.5  # days: periods up to this long are days
LONGEST_DAYS = 10.0  # a reading a week, give or take; what rests on rarer ones was not measured
OF_ALL_HEAT = 0.9  # share of all heat that one meter must tell
HOT_SHARE = 0.03  # a period is heated above this share of the largest
RARELY = "the heat was read too seldom: a reading a week at least is needed"


@dataclass(frozen=True, kw_only=True, slots=True)
class Periods:
    """Shape (n,) each: heat [kWh], middle (counted in periods), first hour and hour after the last (numbers of the
    season's hours). `inside`: hours of the season that lie between the first and the last heated period, shape
    (hours,). `days`: usual length."""

    kwh: Floats
    middle: Floats
    first: Floats
    end: Floats
    inside: Bools
    days: float

    def sums(self, by_hour: Floats) -> Floats:
        """Sums of a figure `by_hour` over each period, in the unit of the figure; shape (hours,) → (n,)."""
        total = np.concatenate([[0.0], np.cumsum(by_hour)])
        spots = np.arange(len(total), dtype=np.float64)
        return np.asarray(np.interp(self.end, spots, total) - np.interp(self.first, spots, total))


def periods_of(readings: Readings, hours: pd.DatetimeIndex) -> Periods | str:
    """Days where heat was logged by the hour or the day, else the stretches between the readings of one meter."""
    curves = heat_curves(readings)
    heaters = [c for c in curves if c.role != "appliance"]
    if any(c.by_hour for c in heaters):
        return _days(readings, hours, curves)
    return _readings(readings, hours, heaters)


def _days(readings: Readings, hours: pd.DatetimeIndex, curves: tuple[HeatCurve, ...]) -> Periods | str:
    """Local days whose heat is known without a sum that had to be spread, but for one too small to matter."""
    edges = local_midnights(dates(readings.season), readings)
    table = heat_by_day(readings, curves)
    loose = sum(
        (c.between("spread", edges[:-1], edges[1:]) for c in curves if c.role != "appliance"), np.zeros(len(table))
    )
    kwh = table["kwh"].to_numpy(dtype=np.float64)
    known = table["known"].to_numpy(dtype=np.float64) >= ENOUGH
    return _trimmed(kwh, edges[:-1], edges[1:], known & (loose <= (1.0 - OF_ALL_HEAT) * kwh.max()), hours)


def _readings(readings: Readings, hours: pd.DatetimeIndex, heaters: list[HeatCurve]) -> Periods | str:
    supplies = [s for s in readings.heating if len(s.intervals) and s.form in ("meter", "bills", "logger")]
    if not supplies:
        return RARELY
    most = max(supplies, key=lambda s: float(np.nansum(s.intervals["heat_kwh"])))
    whole = sum(float(c.kwh[-1]) for c in heaters if len(c.kwh))
    if float(np.nansum(most.intervals["heat_kwh"])) < OF_ALL_HEAT * whole:
        return "the heat of several heaters is known only as sums over different days"
    kwh, start, end = _known_sums(most)
    days = float(np.median(end - start)) / 86_400.0 if len(kwh) else np.inf
    return RARELY if days > LONGEST_DAYS else _trimmed(kwh, start, end, ~np.isnan(kwh), hours)


def _known_sums(supply: HeatSupply) -> tuple[Floats, Floats, Floats]:
    """kWh, start and end [s since 1970] of every stretch between two readings: parts of one sum put together again."""
    table = supply.intervals
    start, end = to_seconds(pd.DatetimeIndex(table["start"])), to_seconds(pd.DatetimeIndex(table["end"]))
    kwh = table["heat_kwh"].to_numpy(dtype=np.float64)
    numbers = table["known_sum"].to_numpy() if "known_sum" in table else np.full(len(table), -1)
    keys = np.where(numbers < 0, -1 - np.arange(len(table)), numbers)
    groups = [np.flatnonzero(keys == key) for key in dict.fromkeys(keys.tolist())]
    return (
        np.array([kwh[rows].sum() for rows in groups]),
        np.array([start[rows].min() for rows in groups]),
        np.array([end[rows].max() for rows in groups]),
    )


def _trimmed(kwh: Floats, start: Floats, end: Floats, known: Bools, hours: pd.DatetimeIndex) -> Periods | str:
    """Known periods from the first heated one to the last."""
    heated = known & (kwh > HOT_SHARE * np.max(kwh, where=known, initial=0.0)) & (kwh > 0)
    if not heated.any():
        return "no day or week is known to have been heated"
    first, last = int(np.argmax(heated)), len(kwh) - 1 - int(np.argmax(heated[::-1]))
    kept = known & (np.arange(len(kwh)) >= first) & (np.arange(len(kwh)) <= last)
    zero = float(to_seconds(hours)[0])
    spot = (np.arange(len(hours)) + 0.5) * 3600.0 + zero
    length = float(np.median((end - start)[kept]))
    return Periods(
        kwh=kwh[kept],
        middle=((start + end)[kept] / 2.0 - start[first]) / length,
        first=np.clip((start[kept] - zero) / 3600.0, 0, len(hours)),
        end=np.clip((end[kept] - zero) / 3600.0, 0, len(hours)),
        inside=(spot >= start[first]) & (spot < end[last]),
        days=length / 86_400.0,
    )
