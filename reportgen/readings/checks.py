"""What cannot be: impossible values, stuck and jumping sensors, each a named mask with its limits here.

Every limit is common practice, no source, unless it says otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.join import joined
from reportgen.readings.marks import IMPOSSIBLE, JUMP, STUCK
from reportgen.readings.merge import Merged
from reportgen.readings.numbers import Floats
from reportgen.units import MEASURES, of_kind

Bools = NDArray[np.bool_]
HUMIDITIES, AIRS = of_kind("humidity"), of_kind("air", "duct")
BEDS, WINDS, WETNESSES = of_kind("soil"), of_kind("wind"), of_kind("moisture")
WET_LIMIT = 105.0  # a saturated sensor reads a little above 100 %: kept as 100 up to here (season-folder contract)
DAMP_PCT = 95.0  # a plateau from here on is the damp itself, never a stuck sensor (season-folder contract)
THAW_K = 0.3  # likewise air within this of 0 °C: water freezing or thawing (season-folder contract)

FINE_K = 0.15  # a sensor that shows steps of 0.1 K moves within half a day; one of 0.5 K may rest two days
STUCK_H: Mapping[str, tuple[float, float]] = MappingProxyType(  # hours still: of a fine sensor, of a coarse one
    dict.fromkeys(AIRS, (12.0, 48.0))
    | dict.fromkeys(HUMIDITIES, (24.0, 72.0))
    | dict.fromkeys(BEDS, (240.0, np.inf))  # a bed may rest for days; a coarse probe is never called stuck
    | dict.fromkeys(WINDS, (24.0, 48.0))
)
STUCK_READINGS = 12
RESOLUTION_READINGS = 50_000  # a sensor's steps show in five weeks of minutes

JUMP_BY: Mapping[str, float] = MappingProxyType(  # off the middle of the seven readings around it
    dict.fromkeys(AIRS, 10.0)
    | dict.fromkeys(HUMIDITIES, 40.0)
    | dict.fromkeys(BEDS, 5.0)
    | dict.fromkeys(WETNESSES, 0.2)
)
JUMP_WINDOW_MS = 90 * 60_000  # seven readings wider apart than this cannot tell a jump from weather
HALF_WINDOW = 3


def mark_impossible(measure: str, merged: Merged, rows: Ints) -> int:
    """Codes values outside the measure's range; gives how many humidities just above 100 % were kept as 100."""
    limits, values, code = MEASURES[measure], merged.values[measure], merged.codes[measure]
    wet = 0
    if measure in HUMIDITIES:
        high = rows[(values[rows] > 100.0) & (values[rows] <= WET_LIMIT)]
        values[high], wet = 100.0, len(high)
    seen = values[rows]
    code[rows[~((seen >= limits.lowest) & (seen <= limits.highest))]] = IMPOSSIBLE
    return wet


def mark_stuck(measure: str, merged: Merged, rows: Ints) -> None:
    """Codes stretches in which the value did not move for longer than such a sensor can stand still."""
    if measure not in STUCK_H or len(rows) < STUCK_READINGS:
        return
    seconds, values = merged.utc[rows] / 1000.0, merged.values[measure][rows]
    fine, coarse = STUCK_H[measure]
    limit_h = fine if resolution(values) <= FINE_K or measure in WINDS else coarse
    still = stuck(seconds, values, limit_h) & ~_may_rest(measure, values)
    merged.codes[measure][rows[still]] = STUCK


def stuck(seconds: Floats, values: Floats, limit_h: float) -> Bools:
    """Readings of a run of equal, joined values that lasts at least `limit_h` and 12 readings; shape (n,) → (n,)."""
    mask = np.zeros(len(values), dtype=bool)
    same = np.diff(values) == 0
    if not any(_long_runs(same, seconds, limit_h)):
        return mask
    for first, last in _long_runs(same & joined(seconds), seconds, limit_h):
        mask[first : last + 1] = True
    return mask


def _long_runs(same: Bools, seconds: Floats, limit_h: float) -> Iterator[tuple[int, int]]:
    """First and last reading of every run that is long enough."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], same, [False]]).astype(np.int8))).reshape(-1, 2)
    long = (edges[:, 1] - edges[:, 0] + 1 >= STUCK_READINGS) & (
        seconds[edges[:, 1]] - seconds[edges[:, 0]] >= limit_h * 3600.0
    )
    yield from ((int(first), int(last)) for first, last in edges[long])


def resolution(values: Floats) -> float:
    """The smallest step that a sensor shows often: the lower decile of its steps other than 0; 0 without any."""
    steps = np.abs(np.diff(values[:RESOLUTION_READINGS]))
    steps = steps[steps > 1e-9]
    return float(np.quantile(steps, 0.1)) if len(steps) else 0.0


def _may_rest(measure: str, values: Floats) -> Bools:
    """Plateaus that are the weather and no fault: saturated air, freezing water, calm."""
    rests = np.zeros(len(values), dtype=bool)
    if measure in HUMIDITIES:
        rests[values >= DAMP_PCT] = True
    elif measure in WINDS:
        rests[values == 0] = True
    elif measure in AIRS:
        rests[np.abs(values) <= THAW_K] = True
    return rests


def mark_jumps(measure: str, merged: Merged, rows: Ints) -> None:
    """Codes the few readings that leap away and come back."""
    if measure not in JUMP_BY:
        return
    found = jumps(merged.utc[rows], merged.values[measure][rows], JUMP_BY[measure])
    merged.codes[measure][rows[found]] = JUMP


def jumps(utc_ms: Ints, values: Floats, limit: float) -> Bools:
    """Readings further than `limit` from the median of the seven around them; shape (n,) → (n,).

    A median keeps edges: a real step, or a steep rise, is nobody's jump. Only where the seven lie within 90 minutes.
    """
    mask = np.zeros(len(values), dtype=bool)
    leaps = np.flatnonzero(np.abs(np.diff(values)) > limit / 2)
    if not len(leaps) or len(values) < 2 * HALF_WINDOW + 1:
        return mask
    near = np.unique(np.concatenate([leaps + shift for shift in range(-1, 3)]))
    near = near[(near >= HALF_WINDOW) & (near < len(values) - HALF_WINDOW)]
    around = near[:, None] + np.arange(-HALF_WINDOW, HALF_WINDOW + 1)
    close = utc_ms[around[:, -1]] - utc_ms[around[:, 0]] <= JUMP_WINDOW_MS
    away = np.abs(values[near] - np.median(values[around], axis=1)) > limit
    mask[near[close & away]] = True
    return mask
