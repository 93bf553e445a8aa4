"""Heat that the bed stores and gives back, by night, by week, over the season; and what a duct under it did.

Method: methods page, *Soil*. Heat = capacity × volume × temperature, the bed taken as one temperature at the probe.
Source: R. G. Allen et al. 1998, FAO Irrigation and Drainage Paper 56, Eq. 41 (without the area).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH, bounds, dates, standard_offset, stats_between
from reportgen.measures.days import Window as Window
from reportgen.measures.exposure import Floats, Line, channel_line, to_seconds
from reportgen.readings.join import HELD_S, joining_limit_s
from reportgen.readings.types import Channel
from reportgen.season import Season
from reportgen.units import AIR_DENSITY_KG_M3, AIR_HEAT_J_KGK, WEEK_S

EVENING, MORNING = Window(start_h=18, end_h=19), Window(start_h=32, end_h=33)  # the night's two ends, 18 h and 08 h
WARMER_K = 5.0  # air this much warmer than the bed is worth sending through it (methods page, *Soil*)
STEP_S = 600.0


def stored_kwh(delta_k: float, volume_m3: float, capacity_mj_m3k: float) -> float:
    """Heat for a change of a bed's temperature [kWh]; positive is into the bed."""
    return capacity_mj_m3k * volume_m3 * delta_k / 3.6


def night_drop_k(soil: Line, season: Season) -> pd.Series:
    """T(18 h) − T(08 h next morning), standard time [K]; index = dates, NaN where either end is not recorded."""
    evening, _ = bounds(season, EVENING)
    morning, _ = bounds(season, MORNING)
    return pd.Series(soil.at(evening) - soil.at(morning), index=pd.Index(dates(season), name="date"))


def week_change_k(soil: Line, season: Season) -> pd.DataFrame:
    """The bed's change over every ISO week, Monday 00 h to Monday 00 h standard time.

    Returns: index = Mondays; columns change_k (NaN where either end is not recorded), mean_c. Only whole weeks.
    """
    first = season.first_day + timedelta(days=-season.first_day.weekday() % 7)
    count = max(((season.last_day - first).days + 1) // 7, 0)
    mondays = [first + timedelta(weeks=n) for n in range(count)]
    zero = standard_offset(season).total_seconds()
    starts = np.array([pd.Timestamp(day, tz="UTC").timestamp() - zero for day in mondays], dtype=np.float64)
    means = stats_between(soil, starts, starts + WEEK_S)
    change = _near(soil, starts + WEEK_S) - _near(soil, starts)
    mean = means["mean"].where(means["share"] >= ENOUGH).to_numpy()
    return pd.DataFrame({"change_k": change, "mean_c": mean}, index=pd.Index(mondays, name="week"))


def _near(soil: Line, instants: Floats) -> Floats:
    """The joined line at instants; the record's first or last reading where it lies within an hour of one."""
    values = soil.at(instants)
    for end in (0, -1):
        close = np.isnan(values) & (np.abs(instants - soil.seconds[end]) <= 3600.0)
        values = np.where(close, soil.values[end], values)
    return values


def season_change_k(soil: Line, season: Season) -> float:
    """Mean of the last week less the mean of the first [K]; NaN where either is under 80 % recorded."""
    start, end = season.start.timestamp(), season.end.timestamp()
    table = stats_between(soil, np.array([start, end - WEEK_S]), np.array([start + WEEK_S, end]))
    means = table["mean"].where(table["share"] >= ENOUGH)
    return float(means.iloc[1] - means.iloc[0])


@dataclass(frozen=True, kw_only=True, slots=True)
class Duct:
    """Hours of a fan that blows air through the bed.

    `used`: it ran while the air was > 5 K warmer than the bed; `missed`: it stood while the air was; `drained`: it
    ran while the air was colder than the bed; `recorded`: hours in which fan, air and bed are all known. `drop_k`:
    mean fall of the air's temperature through the duct while it ran, None without duct temperatures. `stored_kwh`,
    `drawn_kwh`: heat that the air left in the bed and took out of it, over `heat_h` hours of the fan in which airflow
    and both duct temperatures are known; None without them.
    """

    used_h: float
    missed_h: float
    drained_h: float
    recorded_h: float
    drop_k: float | None
    stored_kwh: float | None
    drawn_kwh: float | None
    heat_h: float
    by_day: pd.DataFrame = field(repr=False)  # index dates; used_h, missed_h, drained_h


@dataclass(frozen=True, kw_only=True, slots=True)
class DuctLines:
    """What is logged of the air in a duct: temperature where it goes in and where it comes out [°C], flow [m³/s]."""

    inlet: Line | None = None
    outlet: Line | None = None
    flow: Line | None = None


def duct(fan: Channel, air: Line, soil: Line, season: Season, lines: DuctLines) -> Duct:
    """What the fan did, on a grid of ten minutes."""
    grid = np.arange(season.start.timestamp() + STEP_S / 2, season.end.timestamp(), STEP_S)
    on, gain = _held(fan, grid), air.at(grid) - soil.at(grid)
    known = ~np.isnan(on) & ~np.isnan(gain)
    running = known & (on > 0.5)
    flags = {
        "used_h": running & (gain > WARMER_K),
        "missed_h": known & ~running & (gain > WARMER_K),
        "drained_h": running & (gain < 0),
    }
    stamps = pd.to_datetime(grid, unit="s", utc=True).tz_convert(season.zone).date
    by_day = pd.DataFrame({name: flag * STEP_S / 3600.0 for name, flag in flags.items()}).groupby(stamps).sum()
    by_day = by_day.reindex(pd.Index(dates(season), name="date"), fill_value=0.0)
    drop = np.where(running, _at(lines.inlet, grid) - _at(lines.outlet, grid), np.nan)
    kwh = duct_watts(_at(lines.flow, grid), drop) * STEP_S / 3.6e6
    told = bool((~np.isnan(kwh)).any())
    return Duct(
        used_h=float(by_day["used_h"].sum()),
        missed_h=float(by_day["missed_h"].sum()),
        drained_h=float(by_day["drained_h"].sum()),
        recorded_h=float(known.sum() * STEP_S / 3600.0),
        drop_k=float(np.nanmean(drop)) if (~np.isnan(drop)).any() else None,
        stored_kwh=float(kwh[kwh > 0].sum()) if told else None,
        drawn_kwh=float(-kwh[kwh < 0].sum()) if told else None,
        heat_h=float((~np.isnan(kwh)).sum() * STEP_S / 3600.0),
        by_day=by_day,
    )


def duct_watts(flow_m3s: Floats, drop_k: Floats) -> Floats:
    """Heat that air leaves behind in a duct [W]: flow × 1.2 kg/m³ × 1006 J/kgK × (in − out); negative: it takes heat.

    Shapes (n,); NaN where either is not known. Dry air's heat; water that condenses in the duct leaves more.
    """
    return np.asarray(flow_m3s * AIR_DENSITY_KG_M3 * AIR_HEAT_J_KGK * drop_k)


def _at(curve: Line | None, grid: Floats) -> Floats:
    return np.full(len(grid), np.nan) if curve is None else curve.at(grid)


def _held(fan: Channel, grid: Floats) -> Floats:
    """The fan's state at instants: the last value before each.

    A log that writes at a switch holds it for at most 24 h, one at a steady step no longer than it is joined.
    """
    seconds = to_seconds(pd.DatetimeIndex(fan.values.index))
    values = fan.values.to_numpy(dtype=np.float64)
    if len(values) < 2:
        return np.full(len(grid), np.nan)
    switches = float(np.mean(np.diff(values) != 0)) > 0.5
    usual = float(np.median(np.diff(seconds)))
    most = HELD_S if switches else float(joining_limit_s(usual, fan.measure))
    last = np.searchsorted(seconds, grid, side="right") - 1
    age = grid - seconds[last.clip(0)]
    return np.where((last >= 0) & (age <= most), values[last.clip(0)], np.nan)


def curve_of(channel: Channel | None) -> Line | None:
    """The channel's joined line; None where there are fewer than two readings."""
    return channel_line(channel) if channel is not None and len(channel.values) >= 2 else None
