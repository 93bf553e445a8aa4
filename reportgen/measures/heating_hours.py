"""Heat by the hour, by the day, by the week and between any two instants, from every heater and appliance.

What was logged finely is placed where it was used. A sum over days (a meter reading, a delivery) is spread over its
hours by degree-hours and marked as spread; it never becomes an hour's figure. Method: methods page, *Heat*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.measures.days import ENOUGH, NIGHT, dates, stats_between
from reportgen.measures.exposure import Floats, line, to_seconds
from reportgen.once import once
from reportgen.readings.degree_hours import Pull, pull
from reportgen.readings.types import HeatSupply, Readings

HEATED_SHARE = 0.02  # an hour is heated above this share of the season's largest hour (methods page, *Heat*)
FLAT_OUT_SHARE = 0.95  # of the rated power: from here on a heater can give no more (methods page, *Heat*)
LAST_BITS = 1e-9  # of the rated power: an hour that lies on that line may miss it by the last bits of running sums
CARRIES = 0.9  # heaters known by the hour must carry this share of a day's heat to speak for its hours …
NEGLIGIBLE = 0.02  # … or what is known as sums only must be under this share of a mean day's heat
SLIGHT = 0.1  # a heater known as sums whose rated power is under this share of the largest logged hour is bounded
HEATERS, APPLIANCES, TOTAL = "all heaters", "all appliances", "all heat"
LOGGED, LOOSE = "heaters by the hour", "most of the sums"


def full_power_from(most: float) -> float:
    """The power from which a heater runs flat out, in the unit of `most`, its rated power."""
    return most * (FLAT_OUT_SHARE - LAST_BITS)


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatCurve:
    """One supply's use summed up over time; between two knots each sum rises in a straight line.

    `knots`: seconds since 1970, rising. `kwh`, `cost`, `known` [s of time that is accounted for], `spread` [kWh that
    only a sum tells]: sums from the first knot on, same shape. `by_hour`: most of its heat is known by the hour.
    `most_w`: heat it gives at its rated power [W], None where that is not given.
    """

    name: str
    role: str
    by_hour: bool
    most_w: float | None
    knots: Floats = field(repr=False)
    kwh: Floats = field(repr=False)
    cost: Floats = field(repr=False)
    known: Floats = field(repr=False)
    spread: Floats = field(repr=False)
    sums: tuple[tuple[float, float, float], ...] = field(repr=False)  # start, end, kWh of what is known as sums

    def between(self, column: str, starts: Floats, ends: Floats) -> Floats:
        """A sum's rise between `starts` and `ends` [s since 1970]; shapes (n,).

        In the unit of its `column`: kwh and spread [kWh], cost [money], known [s].
        """
        if not len(self.knots):
            return np.zeros(len(starts))
        total = getattr(self, column)
        return np.asarray(np.interp(ends, self.knots, total) - np.interp(starts, self.knots, total))


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatBetween:
    """Heat in n stretches of time.

    `kwh`, `cost`: shape (n,), the sum of what is known (NaN costs count as nothing). `known`: share of each stretch
    that the least known heater accounts for. `spread`: True where part of the heat is a sum that was spread.
    """

    kwh: Floats
    cost: Floats
    known: Floats
    spread: NDArray[np.bool_]


@once
def heat_curves(readings: Readings) -> tuple[HeatCurve, ...]:
    """One curve a heater and appliance, in the order of season.toml, heaters first."""
    weights = pull(readings.season, readings.channels)
    per_drawn = {source.name: source.efficiency for source in readings.season.heating}
    return tuple(
        _curve(supply, weights, per_drawn.get(supply.name, 1.0)) for supply in (*readings.heating, *readings.appliances)
    )


def heat_between(
    readings: Readings, starts: Floats, ends: Floats, *, appliances: bool = True, curves: Sequence[HeatCurve] = ()
) -> HeatBetween:
    """Heat of all heaters (and, unless told, appliances) between instants, one value a pair.

    Args:
        starts, ends: [s since 1970], shapes (n,).
        appliances: Whether lamps, fans and dehumidifiers are counted in kWh and money.
        curves: From `heat_curves`, where they are at hand.
    """
    curves = curves or heat_curves(readings)
    counted = [c for c in curves if appliances or c.role != "appliance"]
    heaters = [c for c in counted if c.role != "appliance"]
    zero = np.zeros(len(starts))
    known = [c.between("known", starts, ends) / np.maximum(ends - starts, 1.0) for c in heaters]
    return HeatBetween(
        kwh=sum((c.between("kwh", starts, ends) for c in counted), zero),
        cost=sum((c.between("cost", starts, ends) for c in counted), zero),
        known=np.min(known, axis=0) if known else zero,
        spread=np.asarray(sum((c.between("spread", starts, ends) for c in counted), zero) > 1e-9),
    )


def heat_by_hour(readings: Readings, curves: Sequence[HeatCurve] = ()) -> pd.DataFrame:
    """Mean power of every clock hour of the season [W].

    Returns: index = the beginnings of the hours (season zone); a column a supply by its name, then `all heaters`,
    `all appliances` and `all heat`. NaN where less than 80 % of the hour is known, or known only as part of a sum.
    `all heaters` counts a heater known only as sums, but too small to matter by its rated power (under a tenth of the
    largest logged hour), with the spread of its sums; `most of the sums` is what it can have given at most in such an
    hour, beside `heaters by the hour`, which leaves it out. Larger heaters known only as sums are left out on days on
    which the others carry 90 % of the heat; on other days `all heaters` is NaN. An appliance known by rated hours
    counts with its mean over the day.
    """
    curves = curves or heat_curves(readings)
    hours = hours_of(readings)
    seconds = to_seconds(hours)
    table = pd.DataFrame({c.name: _watts(c, seconds) for c in curves}, index=hours)
    heaters = [c for c in curves if c.role != "appliance"]
    aside = [c for c in curves if c.role == "appliance"]
    table[LOGGED] = _sum_of(table, heaters)
    slight = _slight(heaters, table[LOGGED])
    table[HEATERS] = table[LOGGED] + sum((_spread_watts(c, seconds) for c in slight), np.zeros(len(hours)))
    table[LOOSE] = sum((_loose_watts(c, seconds) for c in slight), np.zeros(len(hours)))
    others = [c for c in heaters if c not in slight]
    table.loc[~_carried(readings, others, hours), [LOGGED, HEATERS]] = np.nan
    table[APPLIANCES] = sum((np.nan_to_num(table[c.name].to_numpy()) for c in aside), np.zeros(len(hours)))
    table[TOTAL] = table[HEATERS] + table[APPLIANCES]
    return table


def heat_by_day(readings: Readings, curves: Sequence[HeatCurve] = ()) -> pd.DataFrame:
    """Heat of every local day of the season.

    Returns: index = dates; columns kwh (heaters), appliances_kwh, cost (heaters), appliances_cost, known (share of the
    day), spread (True where a part is a sum that was spread by degree-hours).
    """
    edges = local_midnights(dates(readings.season), readings)
    table = _between_edges(readings, edges[:-1], edges[1:], curves)
    table.index = pd.Index(dates(readings.season), name="date")
    return table


def heated_hours(by_hour: pd.DataFrame) -> pd.Series:
    """1 where the heaters ran above 2 % of the season's largest hour, 0 where not, NaN where unknown; by those alone
    whose hours are known."""
    watts = by_hour[LOGGED if LOGGED in by_hour else HEATERS]
    least = HEATED_SHARE * float(watts.max()) if watts.notna().any() else 0.0
    return (watts > max(least, 1e-9)).astype(float).where(watts.notna())


def hours_of(readings: Readings) -> pd.DatetimeIndex:
    """The beginnings of the season's hours, season zone; a day of a clock change has 23 or 25."""
    season = readings.season
    return pd.date_range(season.start, season.end, freq="1h", inclusive="left")


def hourly_mean(values: pd.Series, hours: pd.DatetimeIndex, measure: str = "") -> Floats:
    """Mean of a channel's joined readings in each hour, NaN where less than 80 % of it is recorded; shape (hours,)."""
    seconds = to_seconds(hours)
    table = stats_between(line(values, measure), seconds, seconds + 3600.0)
    return table["mean"].where(table["share"] >= ENOUGH).to_numpy(dtype=np.float64)


def local_midnights(days: Sequence[date], readings: Readings) -> Floats:
    """Local midnight before each day and after the last [s since 1970], shape (days + 1,)."""
    edges = (*days, days[-1] + timedelta(days=1))
    return np.array([readings.season.midnight(day).timestamp() for day in edges])


def _between_edges(readings: Readings, starts: Floats, ends: Floats, curves: Sequence[HeatCurve]) -> pd.DataFrame:
    curves = curves or heat_curves(readings)
    heaters = heat_between(readings, starts, ends, appliances=False, curves=curves)
    everything = heat_between(readings, starts, ends, curves=curves)
    return pd.DataFrame(
        {
            "kwh": heaters.kwh,
            "appliances_kwh": everything.kwh - heaters.kwh,
            "cost": heaters.cost,
            "appliances_cost": everything.cost - heaters.cost,
            "known": heaters.known,
            "spread": heaters.spread,
        }
    )


def _sum_of(table: pd.DataFrame, heaters: Sequence[HeatCurve]) -> Floats:
    """Power of the heaters known by the hour; NaN where one of them is not known."""
    fine = [c.name for c in heaters if c.by_hour]
    if not fine:
        return np.full(len(table), np.nan)
    return np.asarray(table[fine].sum(axis=1, skipna=False), dtype=np.float64)


def _slight(heaters: Sequence[HeatCurve], logged: pd.Series) -> list[HeatCurve]:
    """Heaters known only as sums whose rated power is too small to hide what the others did."""
    if not logged.notna().any():
        return []
    most = SLIGHT * float(logged.max())
    return [c for c in heaters if not c.by_hour and c.most_w is not None and c.most_w <= most and len(c.knots)]


def _spread_watts(curve: HeatCurve, seconds: Floats) -> Floats:
    """Its sums spread by the cold, never above its rated power [W]."""
    return np.minimum(curve.between("kwh", seconds, seconds + 3600.0) * 1000.0, curve.most_w or 0.0)


def _loose_watts(curve: HeatCurve, seconds: Floats) -> Floats:
    """The most it can have given through a night at the hour: its rated power, or all of its sum in one night [W]."""
    whole = np.zeros(len(seconds))
    for start, end, kwh in curve.sums:
        whole[(seconds + 3600.0 > start) & (seconds < end)] = kwh * 1000.0 / NIGHT.hours
    return np.minimum(whole, curve.most_w or 0.0)


def _carried(readings: Readings, heaters: Sequence[HeatCurve], hours: pd.DatetimeIndex) -> NDArray[np.bool_]:
    """Hours of the days on which heat known only as sums is too little to matter; shape (hours,)."""
    days = dates(readings.season)
    edges = local_midnights(days, readings)
    zero = np.zeros(len(days))
    sums = sum((c.between("kwh", edges[:-1], edges[1:]) for c in heaters if not c.by_hour), zero)
    whole = sum((c.between("kwh", edges[:-1], edges[1:]) for c in heaters), zero)
    little = (sums <= (1.0 - CARRIES) * whole) | (sums <= NEGLIGIBLE * whole.mean())
    return np.asarray(little[np.searchsorted(edges, to_seconds(hours), side="right") - 1])


def _watts(curve: HeatCurve, seconds: Floats) -> Floats:
    known = curve.between("known", seconds, seconds + 3600.0)
    kwh = curve.between("kwh", seconds, seconds + 3600.0)
    spread = curve.between("spread", seconds, seconds + 3600.0)
    usable = (known >= ENOUGH * 3600.0) & ((spread <= 1e-9) | (curve.role == "appliance"))
    usable &= curve.by_hour | (curve.role == "appliance")
    return np.where(usable, kwh * 3.6e6 / np.where(known > 0, known, 1.0), np.nan)


def _curve(supply: HeatSupply, weights: Pull, per_drawn: float) -> HeatCurve:
    """The curve of one supply. A stretch whose heat is unknown is left out."""
    table = supply.intervals
    table = table[table["heat_kwh"].notna().to_numpy(dtype=bool)] if len(table) else table
    starts, ends = (to_seconds(pd.DatetimeIndex(table[c])) if len(table) else np.zeros(0) for c in ("start", "end"))
    kwh, cost = (np.nan_to_num(table[c].to_numpy(dtype=np.float64)) for c in ("heat_kwh", "cost"))
    sparse = table["sparse"].to_numpy(dtype=bool)
    even = supply.form == "rated hours"
    parts = [_whole(starts[~sparse], ends[~sparse], kwh[~sparse], cost[~sparse])]
    for i in np.flatnonzero(sparse):
        parts.append(_spread(starts[i], ends[i], float(kwh[i]), float(cost[i]), None if even else weights))
    pieces = np.concatenate(parts)
    pieces = pieces[np.argsort(pieces[:, 0], kind="stable")]
    fine_kwh = float(kwh[~sparse].sum())
    return HeatCurve(
        name=supply.name,
        role=supply.role,
        by_hour=bool(len(kwh)) and bool((~sparse).any()) and fine_kwh >= 0.5 * float(kwh.sum()),
        most_w=None if supply.rated_power_w is None else supply.rated_power_w * per_drawn,
        knots=np.maximum.accumulate(pieces[:, :2].ravel()) if len(pieces) else np.zeros(0),
        kwh=_running(pieces[:, 2]),
        cost=_running(pieces[:, 3]),
        known=_running(pieces[:, 1] - pieces[:, 0]),
        spread=_running(pieces[:, 4]),
        sums=tuple((float(starts[i]), float(ends[i]), float(kwh[i])) for i in np.flatnonzero(sparse)),
    )


def _running(amount: Floats) -> Floats:
    """Sums at the beginning and end of every piece: flat between two pieces."""
    return np.cumsum(np.column_stack([np.zeros(len(amount)), amount]).ravel())


def _whole(starts: Floats, ends: Floats, kwh: Floats, cost: Floats) -> Floats:
    """Pieces start, end, kWh, cost, kWh spread; shape (n, 5)."""
    return np.column_stack([starts, ends, kwh, cost, np.zeros(len(kwh))])


def _spread(start: float, end: float, kwh: float, cost: float, weights: Pull | None) -> Floats:
    """A sum as pieces by the hour, in proportion to degree-hours; evenly where there are none."""
    edges = np.unique(np.concatenate([[start, end], np.arange(np.ceil(start / 3600.0), end / 3600.0) * 3600.0]))
    first, last = edges[:-1], edges[1:]
    heavy = last - first if weights is None else np.diff(weights.until(edges))
    heavy = heavy if heavy.sum() > 0 else last - first
    share = heavy / heavy.sum() if heavy.sum() > 0 else heavy
    return np.column_stack([first, last, kwh * share, cost * share, kwh * share])
