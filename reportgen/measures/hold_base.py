"""What the price of a degree is fitted to: the weather and the hold by the hour, and the heat of every period."""

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
from reportgen.measures.house.states import states_of
from reportgen.measures.places import no_outdoor_air, outdoor
from reportgen.problems import NotEnoughData
from reportgen.readings.types import HeatSupply, Readings

SMALL_SHARE = 0.15  # of the heat of its time; our own line
SHORTEST_S, LONGEST_DAY_S = 12 * 3600.0, 26 * 3600.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Weather:
    """Outdoor air by the hour. `seconds`: beginnings; `outdoor_c`: hourly means, missing hours at NaN; `hold_c`: the
    hold of the hour's stretch, NaN where none was found; `stretch`: its number; `state`: number of the house's state,
    None where it was one house all along."""

    seconds: Floats = field(repr=False)
    outdoor_c: Floats = field(repr=False)
    hold_c: Floats = field(repr=False)
    stretch: NDArray[np.int_] = field(repr=False)
    state: NDArray[np.int_] | None = field(repr=False, default=None)

    @property
    def states(self) -> NDArray[np.int_]:
        """The number of the house's state in every hour, 0 where it had but one; shape (n,)."""
        return np.zeros(len(self.seconds), dtype=np.int_) if self.state is None else self.state

    def degree_hours(
        self, above_hold_k: float, inside: NDArray[np.bool_] | None = None, slopes: Sequence[float] = ()
    ) -> float:
        """Σ max(0, hold + above_hold_k − T_out) [K h] over the known hours, scaled to all of them; NaN where none is
        known.

        `inside`: the hours that count, shape (n,); None: all. `slopes`: what an hour counts by the house's state, one
        each; none: 1.
        """
        use = np.ones(len(self.seconds), dtype=bool) if inside is None else inside
        pull = np.maximum(self.hold_c[use] + above_hold_k - self.outdoor_c[use], 0.0)
        if len(slopes):
            pull = pull * np.asarray(slopes)[self.states[use]]
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
    seconds = to_seconds(hours)
    return Weather(
        seconds=seconds,
        outdoor_c=hourly_mean(channel.values, hours),
        hold_c=held,
        stretch=number,
        state=states_of(readings, seconds)[0],
    )


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
