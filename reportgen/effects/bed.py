"""What the bed gives to the night or takes from it, beside what the cold asks.

The bed warms the house in autumn and is warmed by it in spring, so that a heater needs fewer watts for each kelvin in
autumn and more in spring, whatever was changed: a weather column for watts per kelvin. Where no thermostat holds the
nights, what was done warms or cools the bed too, and the bed gives some of that back by night: its column then hides a
part of the effect. Method: methods page, *What a change did*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.effects.causes import Cause
from reportgen.effects.gls import Floats
from reportgen.effects.types import Outcome

LEAST_PULL_K = 3.0  # a smaller pull of the cold is taken as this, so that the share cannot run away; our own line


def share_of_bed(
    bed_c: Floats, night_c: Floats, outdoor_c: Floats, counted: NDArray[np.bool_], stretch: Floats
) -> Floats:
    """(T_soil − H) / max(H − T_out, 3 K), H the median night air of the counted nights of a thermostat stretch.

    Args:
        bed_c: Bed at 19–20 h [°C], shape (days,), NaN unknown.
        night_c: Mean air of the night inside [°C].
        outdoor_c: … and outdoors [°C].
        counted: True on nights that have watts per kelvin.
        stretch: A number for every day, alike while the thermostat stands alike.

    Returns: without unit, shape (days,); NaN where a part is unknown or no night of the stretch counts.
    """
    held_c = np.full(len(night_c), np.nan)
    for name in np.unique(stretch):
        inside = stretch == name
        nights = night_c[inside & counted & ~np.isnan(night_c)]
        if len(nights):
            held_c[inside] = np.median(nights)
    return np.asarray((bed_c - held_c) / np.maximum(held_c - outdoor_c, LEAST_PULL_K))


def thermostat_stretches(days: Floats, causes: Sequence[Cause]) -> Floats:
    """A number for every day, alike while every change that touches the thermostat is in one state; shape (days,)."""
    setting = [c for c in causes if any("thermostat" in entry.touches for entry in c.entries)]
    states = np.column_stack([np.zeros(len(days)), *(cause.on(days) for cause in setting)])
    return np.unique(states, axis=0, return_inverse=True)[1].reshape(-1).astype(np.float64)


def add_share_of_bed(weather: pd.DataFrame, outcomes: pd.DataFrame, causes: Sequence[Cause]) -> None:
    """Adds the column `tsr` to the weather where bed, outdoors and watts per kelvin are known."""
    if not {"ts", "ton"} <= set(weather) or "watts_per_kelvin" not in outcomes:
        return
    outdoor_c = weather["ton"].to_numpy(dtype=np.float64)
    days = np.asarray([day.toordinal() for day in weather.index], dtype=np.float64)
    weather["tsr"] = share_of_bed(
        bed_c=weather["ts"].to_numpy(dtype=np.float64),
        night_c=outcomes["lift"].to_numpy(dtype=np.float64) + outdoor_c,
        outdoor_c=outdoor_c,
        counted=outcomes["watts_per_kelvin"].notna().to_numpy(dtype=bool),
        stretch=thermostat_stretches(days, causes),
    )


def with_what_it_gives_back(told: Outcome, without: Outcome) -> Outcome:
    """The effect at an equally warm bed, its interval reaching as far as the whole effect may.

    Beside the bed the effect is told more sharply, but without what came by way of the bed; without the bed's columns
    it is told whole, and less sharply. So each end is the outer one of both; only where the sharper interval leaves out
    zero, and the whole effect points the same way, its end near zero stays: the bed then gives back more of the same.

    Args:
        told: Beside the bed's columns.
        without: Without them, of the same change and outcome.
    """
    low = told.low if told.low > 0 and without.effect > 0 else min(told.low, without.low)
    high = told.high if told.high < 0 and without.effect < 0 else max(told.high, without.high)
    return replace(told, low=low, high=high, through_bed=True)
