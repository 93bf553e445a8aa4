"""The base of the degree-hours: the outdoor temperature below which the house needed heat.

Method: base temperature (M. F. Fels 1986, Energy and Buildings 9:5–18): B is scanned so that heat is in proportion to
the degree-hours below B. Where the hold changed in the winter, B moves with it. Methods page, *Heat*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.measures.days import ENOUGH, dates
from reportgen.measures.exposure import Floats, to_seconds
from reportgen.measures.heat_types import Stretch
from reportgen.measures.heating_hours import HeatCurve, heat_between, hourly_mean, local_midnights
from reportgen.measures.places import no_outdoor_air, outdoor
from reportgen.problems import NotEnoughData
from reportgen.readings.types import HeatSupply, Readings

STEP_C, LOWEST_C, HIGHEST_C = 0.25, -5.0, 25.0
FEWEST_DAYS, FEWEST_PERIODS = 14, 5  # our own lines
SMALL_SHARE = 0.15  # of the heat of its time; our own line
SHORTEST_S, LONGEST_DAY_S = 12 * 3600.0, 26 * 3600.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Weather:
    """Outdoor air by the hour. `seconds`: beginnings; `outdoor_c`: hourly means, missing hours at NaN; `hold_c`: the
    hold of the hour's stretch, NaN where none was found; `stretch`: its number."""

    seconds: Floats = field(repr=False)
    outdoor_c: Floats = field(repr=False)
    hold_c: Floats = field(repr=False)
    stretch: NDArray[np.int_] = field(repr=False)

    def degree_hours(self, above_hold_k: float, inside: NDArray[np.bool_] | None = None) -> float:
        """Σ max(0, hold + above_hold_k − T_out) [K h] over the known hours, scaled to all of them; NaN where none is
        known.

        `inside`: the hours that count, shape (n,); None: all.
        """
        use = np.ones(len(self.seconds), dtype=bool) if inside is None else inside
        pull = np.maximum(self.hold_c[use] + above_hold_k - self.outdoor_c[use], 0.0)
        known = ~np.isnan(pull)
        return float(pull[known].sum() / known.mean()) if known.any() else float("nan")


@dataclass(frozen=True, kw_only=True, slots=True)
class Periods:
    """Heat of n periods: start, end [s since 1970], kwh; `kind` days | readings."""

    kind: str
    starts: Floats = field(repr=False)
    ends: Floats = field(repr=False)
    kwh: Floats = field(repr=False)


def weather(readings: Readings, by_hour: pd.DataFrame, found: Sequence[Stretch]) -> Weather:
    """Outdoor air and the hold of every hour.

    Raises:
        NotEnoughData: No outdoor logger.
    """
    channel = outdoor(readings, "air_temperature")
    if channel is None or len(channel.values) < 2:
        raise NotEnoughData(no_outdoor_air(readings))
    hours = pd.DatetimeIndex(by_hour.index)
    held, number = np.full(len(hours), np.nan), np.full(len(hours), -1)
    days = np.array(hours.date)
    for n, one in enumerate(found):
        inside = (days >= one.first) & (days <= one.last)
        number[inside] = n
        held[inside] = one.hold_c if one.hold_c is not None else np.nan
    outdoor_c = hourly_mean(channel.values, hours)
    return Weather(seconds=to_seconds(hours), outdoor_c=outdoor_c, hold_c=held, stretch=number)


def periods(readings: Readings, curves: Sequence[HeatCurve]) -> Periods:
    """Local days; days that share a sum (a meter reading, a delivery) are one period from reading to reading.

    A sum under 15 % of the heat of its time is taken as spread and cuts nothing.
    """
    midnights = local_midnights(dates(readings.season), readings)
    starts, ends = _large_sums(readings, curves)
    edges = np.unique(np.concatenate([midnights, starts, ends]))
    inside = ((edges[:, None] > starts[None, :]) & (edges[:, None] < ends[None, :])).any(axis=1)
    edges = edges[~inside & (edges >= midnights[0]) & (edges <= midnights[-1])]
    first, last = edges[:-1], edges[1:]
    heat = heat_between(readings, first, last, appliances=False, curves=curves)
    sure = (heat.known >= ENOUGH) & (last - first >= SHORTEST_S)
    kwh = heat.kwh[sure] / heat.known[sure]
    days = bool(len(starts) == 0)
    return Periods(kind="days" if days else "readings", starts=first[sure], ends=last[sure], kwh=kwh)


def _large_sums(readings: Readings, curves: Sequence[HeatCurve]) -> tuple[Floats, Floats]:
    """Ends of the stretches known only as sums that are too long for a day and too large to be taken as spread."""
    rows = [row for supply in readings.heating for row in _known_sums(supply)]
    if not rows:
        return np.zeros(0), np.zeros(0)
    first, last, kwh = np.array(rows, dtype=np.float64).T
    beside = heat_between(readings, first, last, appliances=False, curves=curves).kwh
    large = (last - first > LONGEST_DAY_S) & (kwh > SMALL_SHARE * beside)
    return first[large], last[large]


def _known_sums(supply: HeatSupply) -> list[tuple[float, float, float]]:
    """Start, end [s since 1970] and kWh of each sum that was really read: stretches that share one are one."""
    table = supply.intervals
    if not len(table):
        return []
    real = table["sparse"].to_numpy(dtype=bool) & (table["heat_kwh"].to_numpy(dtype=np.float64) != 0)
    sums = table[real].reset_index(drop=True)
    first, last = (to_seconds(pd.DatetimeIndex(sums[name])) for name in ("start", "end"))
    kwh = np.nan_to_num(sums["heat_kwh"].to_numpy(dtype=np.float64))
    shared = sums["known_sum"].to_numpy() if "known_sum" in sums else np.full(len(sums), -1)
    groups: dict[tuple[bool, int], tuple[float, float, float]] = {}
    for n, number in enumerate(shared):
        key = (number >= 0, int(number) if number >= 0 else n)
        start, end, sum_kwh = groups.get(key, (first[n], last[n], 0.0))
        groups[key] = (min(start, first[n]), max(end, last[n]), sum_kwh + kwh[n])
    return list(groups.values())


@dataclass(frozen=True, kw_only=True, slots=True)
class Base:
    """The base found: `above_hold_k` = B − H, heat a kelvin-hour, and how well it tells the heat."""

    above_hold_k: float
    kwh_per_kh: float
    explained: float
    fitted: Floats = field(repr=False)
    used: NDArray[np.bool_] = field(repr=False)


def base(heat: Periods, air: Weather) -> Base:
    """B by scan, as a distance from the hold.

    Raises:
        NotEnoughData: Too few periods with outdoor air, or the best B lies at an end of the scan.
    """
    middle = float(np.nanmean(air.hold_c))
    bases = np.arange(LOWEST_C, HIGHEST_C + STEP_C / 2, STEP_C) - middle
    pulls = np.maximum(air.hold_c[:, None] + bases[None, :] - air.outdoor_c[:, None], 0.0)
    x, used = _sums(pulls, air.seconds, heat)
    fewest = FEWEST_DAYS if heat.kind == "days" else FEWEST_PERIODS
    weight = 1.0 / np.sqrt(heat.ends - heat.starts)[used]  # a long period misses by more
    if used.sum() < fewest:
        raise NotEnoughData(
            f"only {_counted(heat.kind, int(used.sum()))} with heat and outdoor air; {fewest} are needed"
            + ("" if heat.kind == "days" else ", so read the meter, or look at the stock, every week or two")
        )
    whole_x, y = x[used], heat.kwh[used] * weight
    x = whole_x * weight[:, None]
    power = (x * x).sum(axis=0)
    k = np.where(power > 0, (x * y[:, None]).sum(axis=0) / np.where(power > 0, power, 1.0), 0.0)
    misses = ((y[:, None] - k * x) ** 2).sum(axis=0)
    best = int(np.argmin(misses))
    if best in (0, len(bases) - 1) or k[best] <= 0:
        raise NotEnoughData("the heat did not follow the cold outdoors closely enough to tell")
    whole = float(((y - y.mean()) ** 2).sum())
    return Base(
        above_hold_k=float(bases[best]),
        kwh_per_kh=float(k[best]),
        explained=1.0 - float(misses[best]) / whole if whole > 0 else 0.0,
        fitted=k[best] * whole_x[:, best],
        used=used,
    )


def _counted(kind: str, n: int) -> str:
    one, many = ("day", "days") if kind == "days" else ("stretch", "stretches")
    return f"{n} {one if n == 1 else many}" + ("" if kind == "days" else " between readings")


def _sums(pulls: Floats, seconds: Floats, heat: Periods) -> tuple[Floats, NDArray[np.bool_]]:
    """Degree-hours of every period and base, shape (periods, bases), scaled to the whole period; which are known."""
    unknown: NDArray[np.bool_] = np.asarray(np.isnan(pulls).any(axis=1))
    total = np.vstack([np.zeros(pulls.shape[1]), np.cumsum(np.where(unknown[:, None], 0.0, pulls), axis=0)])
    count = np.concatenate([[0.0], np.cumsum(~unknown)])
    edges = np.append(seconds, seconds[-1] + 3600.0 if len(seconds) else 0.0)

    def until(values: Floats, instants: Floats) -> Floats:
        columns = values if values.ndim == 2 else values[:, None]
        return np.column_stack([np.interp(instants, edges, column) for column in columns.T])

    sums = until(total, heat.ends) - until(total, heat.starts)
    known = (until(count, heat.ends) - until(count, heat.starts))[:, 0]
    length = (heat.ends - heat.starts) / 3600.0
    used = (known >= ENOUGH * length) & (length > 0) & ~np.isnan(heat.kwh)
    return sums * (length / np.where(known > 0, known, 1.0))[:, None], used
