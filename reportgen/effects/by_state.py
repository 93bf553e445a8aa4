"""Spared heat where the heat for each degree cannot be had: from the heat of weeks or days, one share a state.

heat of a period = k · DH_B + δ · DH_B while on + a share for every other lever + c · sun, DH_B the kelvin-hours by
which outdoors stayed under a base B. Neither the base nor how the misfits of neighbouring periods resemble each other
can be known from one winter; so every pair of a grid is fitted and weighed by its restricted likelihood.

Method: methods page, *What a lever spared*; the half-width is taken 1.6 times, which simulated houses called for.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pandas as pd
from scipy.special import stdtrit

from reportgen.effects.gls import Floats
from reportgen.effects.lever_types import Range, Spared
from reportgen.effects.spared import MOST, Bools, HeatHours, much_flat_out
from reportgen.effects.spared_hours import on_hours
from reportgen.effects.state_periods import DAILY, HOT_SHARE, Periods, periods_of
from reportgen.measures.heating_hours import hourly_mean, hours_of
from reportgen.measures.places import no_outdoor_air, outdoor
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import Readings

WIDER = 1.6  # × the half-width; measured (methods page)
SUNNY_SHARE = 0.02  # sun is counted in periods with more heat than this share of the largest
FEWEST = {True: 14, False: 4}  # heated periods a side: days, weeks
FEWEST_FREE = 4  # n − p − 1
HALF = 0.5  # a period belongs to the side in which more than half of its kelvin-hours lie
BASES_C = np.arange(0.0, 21.1, 1.0)
DAILY_BASES_C = BASES_C[::3]
WEEK_GRID = ((0.0, 0.3, 0.6, 0.8), (0.0, 0.01, 0.03, 0.1, 0.3))
DAY_GRID = ((0.0, 0.3, 0.6, 0.9), (0.0, 0.003, 0.01, 0.03))


class ByState:
    """The season as every lever's estimate by state needs it, worked out when the first asks."""

    def __init__(self, readings: Readings, heat: HeatHours | None) -> None:
        self.readings = readings
        self.heat = heat

    @cached_property
    def hours(self) -> pd.DatetimeIndex:
        """The season's hours."""
        return hours_of(self.readings)

    @cached_property
    def periods(self) -> Periods | str:
        """Weeks or days with their heat, or why there are none."""
        return periods_of(self.readings, self.hours)

    @cached_property
    def outdoor_c(self) -> Floats | str:
        """Outdoors by the hour [°C], shape (hours,), gaps bridged; or why it is not known."""
        channel = outdoor(self.readings, "air_temperature")
        if channel is None or len(channel.values) < 2:
            return no_outdoor_air(self.readings)
        return np.asarray(pd.Series(hourly_mean(channel.values, self.hours)).interpolate(limit_direction="both"))

    @cached_property
    def sun(self) -> Floats | None:
        """Light outdoors by the hour [W/m² or µmol m⁻² s⁻¹], shape (hours,), 0 where not known; None where none was
        logged.
        """
        channel = outdoor(self.readings, "solar_radiation") or outdoor(self.readings, "ppfd")
        if channel is None or len(channel.values) < 2:
            return None
        return np.nan_to_num(hourly_mean(channel.values, self.hours))


@dataclass(frozen=True, kw_only=True, slots=True)
class Columns:
    """One base's columns: `x` shape (periods, p), the lever's share second; `spread`: how large misfits grow with the
    cold, shape (periods,); kelvin-hours of the hours on and of all hours."""

    x: Floats
    spread: Floats
    on_kh: float
    all_kh: float


def spared_by_state(lever: Lever, season: ByState) -> Spared | str:
    """What a lever spared, from the heat of weeks or days; or why that cannot be told.

    Refused under four heated weeks (fourteen heated days) on either side.
    """
    periods, outdoor_c, heat = season.periods, season.outdoor_c, season.heat
    if isinstance(periods, str):
        return periods
    if isinstance(outdoor_c, str) or heat is None:
        return str(outdoor_c) if isinstance(outdoor_c, str) else "no heater is listed"
    on = on_hours(lever, season.hours)
    others = [on_hours(o, season.hours) for o in season.readings.levers if o is not lever]
    daily = periods.days <= DAILY
    if why := too_few(periods, on, outdoor_c, daily):
        return why
    bases = DAILY_BASES_C if daily else BASES_C
    columns = [c for b in bases if (c := _columns(float(b), periods, on, others, outdoor_c, season.sun)) is not None]
    found = averaged(columns, periods.kwh, periods.middle, DAY_GRID if daily else WEEK_GRID)
    if found is None:
        return "too few heated weeks for all that was changed in them"
    return _told(found, heat, on, len(periods.kwh))


def too_few(periods: Periods, on: Bools, outdoor_c: Floats, daily: bool) -> str:
    """Why the heated periods of one side are too few; empty where they are enough.

    `on`, `outdoor_c` [°C]: by the hour, shapes (hours,).
    """
    hot = periods.kwh > HOT_SHARE * periods.kwh.max()
    pull = np.maximum(BASES_C[-1] - outdoor_c, 0.0)
    share_on = periods.sums(pull * on) / np.maximum(periods.sums(pull), 1e-9)
    for side, there in (("on", share_on >= HALF), ("off", share_on < HALF)):
        count = int((hot & there).sum())
        if count < FEWEST[daily]:
            unit = "days" if daily else "weeks"
            told = f"no heated {unit[:-1]}" if count == 0 else f"only {count} heated {unit if count > 1 else unit[:-1]}"
            return f"{told} with it {side} whose heat is known; at least {FEWEST[daily]} are needed"
    return ""


def _columns(
    base_c: float, periods: Periods, on: Bools, others: list[Bools], outdoor_c: Floats, sun: Floats | None
) -> Columns | None:
    """The columns for one base; None where they cannot be told apart or leave too few free."""
    pull = np.maximum(base_c - outdoor_c, 0.0)
    cold = periods.sums(pull)
    if cold.max() <= 0:
        return None
    columns = [cold, periods.sums(pull * on)]
    columns += [c for c in (periods.sums(pull * other) for other in others) if c.any()]
    if sun is not None:
        columns.append(periods.sums(sun) * (periods.kwh > SUNNY_SHARE * periods.kwh.max()))
    x = _independent(columns)
    n, p = x.shape
    if n - p - 1 < FEWEST_FREE or p < 2:
        return None
    inside = periods.inside
    return Columns(
        x=x,
        spread=np.sqrt(np.maximum(cold / cold.max(), 0.05)),
        on_kh=float(pull[on & inside].sum()),
        all_kh=float(pull[inside].sum()),
    )


def _independent(columns: list[Floats]) -> Floats:
    """The columns that are not made of those before them; only the cold itself where the lever's is such a one."""
    kept: list[Floats] = []
    for number, column in enumerate(columns):
        tried = np.column_stack([*kept, column])
        scale = np.maximum(np.linalg.norm(tried, axis=0), 1e-9)
        if np.linalg.matrix_rank(tried / scale, tol=1e-6) == tried.shape[1]:
            kept.append(column)
        elif number < 2:
            return np.column_stack(columns[:1])
    return np.column_stack(kept)


@dataclass(frozen=True, kw_only=True, slots=True)
class Averaged:
    """Middle and half-width [kWh], of the hours on and of the winter."""

    since: tuple[float, float]
    winter: tuple[float, float]


def averaged(
    columns: list[Columns], kwh: Floats, middle: Floats, grid: tuple[tuple[float, ...], tuple[float, ...]]
) -> Averaged | None:
    """The spared heat [kWh] over all bases and noises of the grid, weighed by restricted likelihood; None without a
    base.

    Args:
        columns: One base each.
        kwh, middle: Heat and middle (counted in periods) of each period, shapes (periods,).
        grid: ρ and q of the noise C_ij = (ρ^|t_i − t_j| + q · min(t_i, t_j)) · s_i · s_j, s the spread.
    """
    if not columns:
        return None
    apart = np.abs(middle[:, None] - middle[None, :])
    walk = np.minimum(middle[:, None], middle[None, :]) - middle[0] + 1.0
    noises = [np.where(apart == 0, 1.0, rho**apart) + q * walk for rho in grid[0] for q in grid[1]]
    rows = np.array([(*_fit(c, noise, kwh), c.on_kh, c.all_kh) for c in columns for noise in noises])
    weight = np.exp(rows[:, 0] - rows[:, 0].max())
    weight /= weight.sum()
    dof = min(len(kwh) - c.x.shape[1] - 1 for c in columns)
    wide = WIDER * float(stdtrit(dof, 0.975))

    def of(total: Floats) -> tuple[float, float]:
        each = -rows[:, 1] * total
        mean = float(weight @ each)
        return mean, wide * float(np.sqrt(weight @ (rows[:, 2] * total**2 + (each - mean) ** 2)))

    return Averaged(since=of(rows[:, 3]), winter=of(rows[:, 4]))


def _fit(columns: Columns, noise: Floats, kwh: Floats) -> tuple[float, float, float]:
    """Restricted log-likelihood, the lever's share δ [kWh per kelvin-hour] and its variance, by GLS."""
    lower = np.linalg.cholesky(noise * np.outer(columns.spread, columns.spread))
    white = np.linalg.solve(lower, np.column_stack([columns.x, kwh]))
    x, y = white[:, :-1], white[:, -1]
    scale = np.linalg.norm(x, axis=0)
    inverse = np.linalg.inv((x / scale).T @ (x / scale)) / np.outer(scale, scale)
    coefficients = inverse @ (x.T @ y)
    rss = float(((y - x @ coefficients) ** 2).sum())
    n, p = x.shape
    size = np.log(np.linalg.norm(columns.x, axis=0)).sum()  # so that columns of different bases compare
    log_det = -np.linalg.slogdet((x / scale).T @ (x / scale))[1] - 2.0 * np.log(scale).sum()
    likelihood = -np.log(np.diag(lower)).sum() + 0.5 * log_det + size - 0.5 * (n - p) * np.log(max(rss, 1e-300))
    return float(likelihood), float(coefficients[1]), rss / (n - p - 1) * float(inverse[1, 1])


def _told(found: Averaged, heat: HeatHours, on: Bools, count: int) -> Spared | str:
    """The ends, within what physics allows: nine tenths of the loss spared at most, and no more than the heaters could
    have given on top; all of what was given at worst."""
    given_on = float(heat.kwh[on].sum())
    most_since = MOST / (1.0 - MOST) * given_on
    room = float(heat.room[on].sum())
    low = max(found.since[0] - found.since[1], -given_on)
    if not -given_on <= found.since[0] <= most_since or low > room:
        return "its weeks and days do not agree with any share of the heat that a lever can spare"
    most_since = min(most_since, room)
    since = Range(low=low, high=min(sum(found.since), most_since))
    most_winter = most_since + MOST * float(heat.kwh[~on].sum())
    winter = Range(low=found.winter[0] - found.winter[1], high=min(sum(found.winter), most_winter))
    return Spared(
        since_kwh=since,
        winter_kwh=winter,
        since_money=_priced(since, _price(heat, on)),
        winter_money=_priced(winter, _price(heat, np.ones(len(on), dtype=bool))),
        relative=None,
        flat_out=much_flat_out(heat),
        periods=count,
    )


def _price(heat: HeatHours, hours: Bools) -> float | None:
    """Money a kWh of what was given in those hours; None where it has no price."""
    kwh = float(heat.kwh[hours].sum())
    return None if heat.money is None or kwh <= 0 else float(heat.money[hours].sum()) / kwh


def _priced(kwh: Range, price: float | None) -> Range | None:
    return None if price is None else Range(low=kwh.low * price, high=kwh.high * price)
