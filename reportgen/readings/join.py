"""When two neighbouring readings are joined: the one gap rule of the season folder, for every floor."""

from __future__ import annotations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.units import of_kind

Floats = NDArray[np.float64]
JOIN_STEPS = 3.0  # a gap longer than this many usual steps is a gap (season-folder contract)
JOIN_MINIMUM_S = 900.0  # … but 15 minutes always join: loggers that write on a change are quiet that long
JOIN_MOST_S = 10_800.0  # … and nothing joins over more than 3 h: a night could hide in it (season-folder contract)
JOIN_MOST_SOIL_S = 21_600.0  # soil is slow: 6 h (season-folder contract)
SLOW = of_kind("soil", "moisture")
HELD_S = 86_400.0  # a log that writes at a switch holds its last value for at most 24 h (season-folder contract)


def to_seconds(times: pd.DatetimeIndex) -> Floats:
    """Seconds since 1970 UTC; pandas may keep any resolution inside."""
    return times.tz_convert("UTC").tz_localize(None).to_numpy().astype("datetime64[ns]").astype(np.int64) / 1e9


def usual_step_s(seconds: Floats) -> Floats:
    """The usual step at every reading [s]: the median of the differences within half a day on either side.

    Shape (n,) → (n,). Computed in blocks of six hours (each block looks half a day around itself), which is the same
    but for readings next to a change of step.
    """
    if len(seconds) < 2:
        return np.full(len(seconds), np.nan)
    steps = np.diff(seconds)
    if steps.min() == steps.max():
        return np.full(len(seconds), steps[0])
    block = np.floor(seconds / 21_600.0)
    edges = np.concatenate([[0], np.flatnonzero(np.diff(block)) + 1, [len(seconds)]])
    lows = np.searchsorted(seconds, block[edges[:-1]] * 21_600.0 - 43_200.0)
    highs = np.searchsorted(seconds, (block[edges[:-1]] + 1) * 21_600.0 + 43_200.0)
    usual = np.empty(len(seconds))
    for begin, end, first, last in zip(edges[:-1], edges[1:], lows, highs, strict=True):
        near = steps[max(first - 1, 0) : max(last, first + 1)]
        usual[begin:end] = near[0] if near.min() == near.max() else np.median(near)
    return usual


def most_apart_s(measure: str = "") -> float:
    """The longest time over which two readings of a measure are joined, whatever their usual step [s]."""
    return JOIN_MOST_SOIL_S if measure in SLOW else JOIN_MOST_S


def joining_limit_s(usual_s: Floats | float, measure: str = "") -> Floats:
    """How far apart two readings of that usual step may lie to be joined [s]; the shape of `usual_s`."""
    return np.maximum(np.minimum(JOIN_STEPS * np.asarray(usual_s), most_apart_s(measure)), JOIN_MINIMUM_S)


def joined(seconds: Floats, measure: str = "") -> NDArray[np.bool_]:
    """Which neighbours are joined: True where reading i and i + 1 are; shape (n,) → (n − 1,), none for n = 0."""
    usual = usual_step_s(seconds)
    return np.diff(seconds) <= joining_limit_s(np.minimum(usual[:-1], usual[1:]), measure)
