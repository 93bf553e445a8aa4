"""The winter without heat: the coldest hour of every long night, had the heaters stood off from the first day.

Own method; bands are about nine in ten of the errors on simulated houses whose truth is known (methods page, *The house
as a balance*). A night's own misfit is partly error, so 40 % of its distance from the line through all nights is taken
off: else the coldest of many would be told too cold.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.balance import refuse_unseen_cooling
from reportgen.measures.house.hours import EVENING_H, MORNING_H, Bools, Ints, lagged
from reportgen.measures.house.response import Response, run

KEPT = 0.6  # share of a night's distance from the line that is kept
WEEK_H = 168.0
BELOW_OUTDOORS_K = 1.0  # a clear sky cools glass under the air outdoors, but not far
BANDS = {"probe": (1.1, 0.17), "no probe": (1.0, 0.22), "meter": (1.0, 0.17)}  # a [K], b: √(a² + (b · heat taken)²)
AT_LIMIT = 1.5  # × a, where the heater stood at its limit
SEASON_K = 0.8  # added in squares for the coldest of the season: the coldest of many nights, and its minutes
LEVEL = 0.9
FEWEST_NIGHTS = 8  # for the line through all nights; our own floor


@dataclass(frozen=True, kw_only=True, slots=True)
class NightLine:
    """Coldest hour without heat against the night's outdoor minimum [°C], a knee at `knee_c`, and the week before.

    `half_k`: 95 % of the nights lie within it of the line.
    """

    weights: Floats
    knee_c: float
    week_c: float
    half_k: float

    def at(self, outdoor_c: float) -> float:
        """The line in a week of the usual kind [°C]; never more than 1 K under the outdoor air."""
        floor = outdoor_c - BELOW_OUTDOORS_K
        row = np.array([1.0, floor, min(floor, self.knee_c), self.week_c])
        return max(float(row @ self.weights), floor)


@dataclass(frozen=True, kw_only=True, slots=True)
class WithoutHeat:
    """By long night, shapes (nights,): `estimate_c` the coldest hour without heat and `half_k` the half-width of its
    band, NaN for a night that is not logged whole. `season_c`, `season_half_k`: the coldest of them; None where no
    night can be told. `line`: the line through all nights, so that a night of which nothing was logged inside can be
    told from the outdoor air; None with fewer than eight nights."""

    estimate_c: Floats = field(repr=False)
    half_k: Floats = field(repr=False)
    season_c: float | None
    season_half_k: float | None
    line: NightLine | None = field(repr=False, default=None)


def without_heat(house: Response, whole: Bools) -> WithoutHeat:
    """The coldest hour of every night without heat.

    Args:
        house: The fitted house.
        whole: Which of its evenings' long nights have all hours of air measured, or bridged by three at most; shape
            (nights,).

    Raises:
        NotEnoughData: The house was never seen to cool by itself.
    """
    refuse_unseen_cooling(house.balance)
    hours = house.hours
    air, _ = run(house)
    spans = hours.nights(EVENING_H, MORNING_H)
    at = spans[np.arange(len(spans)), np.argmin(air[spans], axis=1)] if len(spans) else np.zeros(0, dtype=np.int64)
    floor = hours.temp_outdoor_c[spans].min(axis=1) - BELOW_OUTDOORS_K if len(spans) else np.zeros(0)
    low, line = _nearer_the_line(np.maximum(air[at], floor), floor, lagged(hours.temp_outdoor_c, WEEK_H)[at], whole)
    low = np.maximum(low, floor)
    half = _half(house, hours.temp_air_c[at] - low, at)
    low, half = np.where(whole, low, np.nan), np.where(whole, half, np.nan)
    if not whole.any():
        return WithoutHeat(estimate_c=low, half_k=half, season_c=None, season_half_k=None)
    coldest = int(np.nanargmin(low))
    return WithoutHeat(
        estimate_c=low,
        half_k=half,
        season_c=float(low[coldest]),
        season_half_k=float(np.hypot(half[coldest], SEASON_K)),
        line=line,
    )


def _half(house: Response, taken_k: Floats, at: Ints) -> Floats:
    least, share = BANDS[house.balance.kind]
    least *= AT_LIMIT if house.balance.at_limit else 1.0
    return np.asarray(np.hypot(np.full(len(at), least), share * np.maximum(taken_k, 0.0)))


def _nearer_the_line(low: Floats, floor: Floats, week_c: Floats, whole: Bools) -> tuple[Floats, NightLine | None]:
    """Each night moved towards the line of all nights on outdoor minimum (a knee at its median) and the week before."""
    if whole.sum() < FEWEST_NIGHTS:
        return low, None
    knee = float(np.median(floor[whole]))
    x = np.column_stack([np.ones(len(low)), floor, np.minimum(floor, knee), week_c])
    weights = np.linalg.lstsq(x[whole], low[whole], rcond=None)[0]
    line = x @ weights
    half = float(np.quantile(np.abs(low - line)[whole], 0.95))
    found = NightLine(weights=weights, knee_c=knee, week_c=float(np.median(week_c[whole])), half_k=half)
    return np.asarray(KEPT * low + (1.0 - KEPT) * line), found
