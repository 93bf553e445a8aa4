"""The season by the hour as the house's balance needs it: plain arrays in standard time, each hour logged or not."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.measures.exposure import Floats
from reportgen.measures.heating_hours import HEATED_SHARE, full_power_from

Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]

EVENING_H, MORNING_H = 18, 33  # the long night, hours after 00:00 standard time of its evening's date
NIGHT_H, NIGHT_END_H = 20, 30  # night N


@dataclass(frozen=True, kw_only=True, slots=True)
class HouseHours:
    """A season by the hour; every array has shape (n,), n = 24 × days, the first hour 00–01 h standard time.

    `temp_air_c` the main crop air, `temp_outdoor_c`, `temp_soil_c` the bed's probe: hourly means [°C] without NaN;
    what was not logged is bridged by straight lines and is False in `logged`. `heaters_w`: heat of the heaters that
    are known by the hour; `spread_w`: heat that only a sum tells, spread over its stretch; `other_w`: lamps, fans,
    dehumidifiers [W]. `sun_w_m2`: light outdoors, or indoors where there is none outdoors; only its shape counts.
    `dark`: the sun more than 3° under the horizon. `logged`: air, outdoors and heat are all measured in that hour and
    nothing out of the ordinary went on (no event of the diary, no heat that only a sum tells).
    `state`: number of the house's state, 0 … k. `rated_w`: of all heaters known by the hour; None when not known.
    """

    temp_air_c: Floats = field(repr=False)
    temp_outdoor_c: Floats = field(repr=False)
    temp_soil_c: Floats | None = field(repr=False, default=None)
    heaters_w: Floats = field(repr=False)
    spread_w: Floats = field(repr=False)
    other_w: Floats = field(repr=False)
    sun_w_m2: Floats | None = field(repr=False, default=None)
    wind_m_s: Floats | None = field(repr=False, default=None)
    dark: Bools = field(repr=False)
    logged: Bools = field(repr=False)
    state: Ints = field(repr=False)
    rated_w: float | None = None
    by_meter: bool = False  # heaters_w were made from a meter's sums

    @property
    def count(self) -> int:
        """Hours of the season."""
        return len(self.temp_air_c)

    @property
    def heated(self) -> Bools:
        """Hours with heat above 2 % of the season's largest logged hour; shape (n,)."""
        largest = float(self.heaters_w[self.logged].max(initial=0.0))
        return np.asarray(self.heaters_w > HEATED_SHARE * max(largest, 1.0))

    @property
    def flat_out(self) -> Bools:
        """Hours at 95 % or more of the rated power; none where that is not known; shape (n,)."""
        limit = np.inf if self.rated_w is None else full_power_from(self.rated_w)
        return np.asarray(self.heaters_w >= limit)

    @property
    def commanded(self) -> Bools:
        """Hours in which the thermostat is in command: heated and not flat out; shape (n,)."""
        return self.heated & ~self.flat_out

    @property
    def lift_k(self) -> Floats:
        """Inside less outside [K]; shape (n,)."""
        return self.temp_air_c - self.temp_outdoor_c

    def nights(self, first_h: int, end_h: int) -> Ints:
        """Hour numbers of a window of every evening that the season holds whole; shape (nights, hours)."""
        evenings = np.arange(max((self.count - end_h) // 24 + 1, 0))
        return np.asarray(evenings[:, None] * 24 + np.arange(first_h, end_h)[None, :], dtype=np.int64)


def lagged(values: Floats, lag_h: float) -> Floats:
    """What follows `values` with an exponential lag [h]: y_t = a·y_(t−1) + (1 − a)·x_t, a = e^(−1/lag).

    Begins at the mean of the first three days. Shape (n,) → (n,), by the hour, in the unit of the values. Source: the
    answer of one capacity behind one resistance, textbook formula.
    """
    keep = float(np.exp(-1.0 / lag_h))
    begun = pd.Series(np.concatenate([values[:72].mean(keepdims=True), values]))
    return np.asarray(begun.ewm(alpha=1.0 - keep, adjust=False).mean().to_numpy()[1:], dtype=np.float64)
