"""Figures of the heat page that both its findings and its charts put into words."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pandas as pd

from reportgen.counsel.facts import Facts
from reportgen.measures.exposure import Band
from reportgen.units import FAHRENHEIT_K
from reportgen.wording import NBSP, Wording, day, number


def per_kelvin(w: Wording, w_per_k: float) -> str:
    """97 W/K, or 54 W/°F: watts for each degree that the house is warmer than the outdoors."""
    return f"{number(loss_value(w, w_per_k))}{NBSP}{loss_unit(w)}"


def loss_value(w: Wording, w_per_k: float) -> float:
    """A heat loss in the shown unit."""
    return w_per_k * FAHRENHEIT_K if w.us else w_per_k


def loss_unit(w: Wording) -> str:
    """W/K or W/°F."""
    return f"W/{w.diff_unit}"


def watts(value: float) -> str:
    """A `value` in W, to the nearest fifty: 2,300 W, no finer than it is known."""
    return f"{number(round(value / 50) * 50)}{NBSP}W"


def known(band: Band) -> bool:
    """Whether the estimate could be had."""
    return math.isfinite(band.estimate)


def share_range(w: Wording, band: Band) -> str:
    """(60 to 97 % by the sensor's accuracy), empty without a band."""
    if not (math.isfinite(band.low) and math.isfinite(band.high)):
        return ""
    low, high = number(100 * band.low), number(100 * band.high)
    if low == high:
        return ""
    return f" ({low} to {w.percent(100 * band.high)} by the sensor's accuracy)"


def hold_words(facts: Facts) -> str:
    """The hold or holds aimed for: "10.0 °C", "3.0 °C, from 17 March 6.0 °C"."""
    holds = facts.r.heat.holds
    parts = [
        facts.w.temp(c) if n == 0 else f"from {day(first)} {facts.w.temp(c)}" for n, (first, c) in enumerate(holds)
    ]
    return ", ".join(parts)


def column(table: pd.DataFrame, name: str) -> Any:
    """A column as floats."""
    return table[name].to_numpy(dtype=np.float64)
