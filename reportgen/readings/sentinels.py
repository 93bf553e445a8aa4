"""Numbers that loggers write when they have no reading."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.numbers import Floats
from reportgen.units import MEASURES, TEMPERATURE_UNITS

ANYWHERE = (-999.0, -999.9, -9999.0, -9999.9, -99999.0, -999999.0, -7999.0, -6999.0, -214748000.0, -2147483648.0)
WHERE_IMPOSSIBLE = (-99.0, -99.9, -88.8, 999.0, 999.9, 9999.0, 99999.0, 6553.5, 65535.0, 3276.7, 32767.0, -32768.0)
PROBE = (85.0, -127.0)  # what a one-wire probe gives after a power loss and when it is cut off; from memory
NEIGHBOURS_K = 10.0  # a probe's sentinel lies more than this away from its neighbours (season-folder contract)


def sentinels(raw: Floats, measure: str, unit: str) -> NDArray[np.bool_]:
    """Which values of a column, in the unit it is written in, stand for no reading; shape (n,) → (n,).

    The lists are common practice, no source. What is possible for the measure is never on the second list's account
    taken for a sentinel: 999 W of a heater is a reading.
    """
    limits = MEASURES[measure]
    low, high = (limits.lowest, limits.highest) if unit == limits.kept else (-900.0, np.inf)
    found = np.isin(raw, ANYWHERE) | (np.isin(raw, WHERE_IMPOSSIBLE) & ((raw < low) | (raw > high)))
    if unit == "degC" and unit in TEMPERATURE_UNITS:
        found |= _lonely(raw)
    return found


def _lonely(raw: Floats) -> NDArray[np.bool_]:
    """85 and −127 whose nearest other readings on both sides lie more than 10 K away."""
    probe = np.isin(raw, PROBE)
    if not probe.any():
        return probe
    good = np.flatnonzero(~probe & ~np.isnan(raw))
    if not len(good):
        return np.zeros(len(raw), dtype=bool)
    rows = np.flatnonzero(probe)
    place = np.searchsorted(good, rows)
    before, after = good[np.maximum(place - 1, 0)], good[np.minimum(place, len(good) - 1)]
    away = np.minimum(np.abs(raw[rows] - raw[before]), np.abs(raw[rows] - raw[after])) > NEIGHBOURS_K
    probe[rows] = away
    return probe
