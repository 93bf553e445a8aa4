"""Energy a heater or appliance drew, from a logger: a power integral, a running counter, or on/off at a rated power.

Each gives the energy of every stretch between two readings; stretches are then put into quarter hours, so that a
one-second log and a ten-minute log come out in the same form.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.join import HELD_S, Floats, joined, to_seconds

CELL_S = 900.0  # a quarter hour: no price window and no local midnight cuts one
MOST_KW = 20.0  # a counter step above this is a slip of the counter, where no rated power says better; common practice


@dataclass(frozen=True, kw_only=True, slots=True)
class LoggedUse:
    """Energy [kWh] by stretch: columns start, end (zone-aware), kwh, sparse; and counter resets that were mended."""

    stretches: pd.DataFrame
    resets: int = 0


def of_power(watts: pd.Series) -> LoggedUse:
    """Integral of a power log [W], readings joined by straight lines; nothing counts in a gap."""
    seconds, values = _arrays(watts)
    hours = np.diff(seconds) / 3600.0
    kwh = (values[:-1] + values[1:]) / 2 * hours / 1000.0
    return LoggedUse(stretches=_cells(seconds[:-1], seconds[1:], kwh, joined(seconds), watts.index))


def of_switch(on: pd.Series, rated_power_w: float) -> LoggedUse:
    """On/off log × rated power.

    A log that writes at a switch (more than half of its neighbours differ) holds each value until the next, for at
    most 24 h; one that writes at a steady step counts nothing in a gap.
    """
    seconds, values = _arrays(on)
    switches = len(values) > 1 and float(np.mean(np.diff(values) != 0)) > 0.5
    ends = np.minimum(seconds[1:], seconds[:-1] + HELD_S)
    kwh = values[:-1] * (ends - seconds[:-1]) / 3600.0 * rated_power_w / 1000.0
    counted = np.ones(len(kwh), dtype=bool) if switches else joined(seconds)
    return LoggedUse(stretches=_cells(seconds[:-1], ends, kwh, counted, on.index))


def of_counter(kwh: pd.Series, rated_power_w: float | None = None) -> LoggedUse:
    """Differences of a running counter [kWh]; resets mended, a gap's sum kept as one sparse stretch.

    A drop is a reset to zero: the reading after it is what was used since. A single low reading between two good ones
    is no reset but a slip, and left out: as a reset it would ask for more power than the heater has.
    """
    seconds, values = _arrays(kwh)
    keep = ~_slips(seconds, values, (rated_power_w or MOST_KW * 1000.0) * 1.5 / 1000.0)
    seconds, values = seconds[keep], values[keep]
    used = np.diff(values)
    reset = used < 0
    used = np.where(reset, values[1:], used)
    together = joined(seconds)
    cells = _cells(seconds[:-1], seconds[1:], used, together, kwh.index)
    gaps = _stretches(seconds[:-1][~together], seconds[1:][~together], used[~together], kwh.index, sparse=True)
    both = [table for table in (cells, gaps) if len(table)]
    table = pd.concat(both, ignore_index=True).sort_values(["start", "end"], ignore_index=True) if both else cells
    return LoggedUse(stretches=table, resets=int(reset.sum()))


def _arrays(values: pd.Series) -> tuple[Floats, Floats]:
    return to_seconds(pd.DatetimeIndex(values.index)), values.to_numpy(dtype=np.float64)


def _slips(seconds: Floats, values: Floats, most_kw: float) -> NDArray[np.bool_]:
    """Single readings below both neighbours whose climb back would need more than `most_kw`."""
    slip = np.zeros(len(values), dtype=bool)
    if len(values) < 3:
        return slip
    before, here, after = values[:-2], values[1:-1], values[2:]
    climb_kw = (after - here) / (np.diff(seconds)[1:] / 3600.0)
    slip[1:-1] = (here < before) & (after >= before) & (climb_kw > most_kw)
    return slip


def _cells(starts: Floats, ends: Floats, kwh: Floats, use: NDArray[np.bool_], index: pd.Index) -> pd.DataFrame:
    """The energy of the used stretches by whole quarter hour; a quarter hour without any record is not there."""
    starts, ends, kwh = starts[use], ends[use], kwh[use]
    if len(starts) == 0:
        return _stretches(starts, ends, kwh, index, sparse=False)
    edges = np.arange(np.floor(starts[0] / CELL_S), np.ceil(ends[-1] / CELL_S) + 1) * CELL_S
    knots = np.column_stack([starts, ends]).ravel()  # rising: a stretch ends where the next begins, or before
    zero = np.zeros(len(kwh))
    energy = np.cumsum(np.column_stack([zero, kwh]).ravel())
    covered = np.cumsum(np.column_stack([zero, ends - starts]).ravel())
    in_cell = np.diff(np.interp(edges, knots, energy))
    recorded = np.diff(np.interp(edges, knots, covered)) > 1e-6
    return _stretches(edges[:-1][recorded], edges[1:][recorded], in_cell[recorded], index, sparse=False)


def _stretches(starts: Floats, ends: Floats, kwh: Floats, index: pd.Index, *, sparse: bool) -> pd.DataFrame:
    zone = pd.DatetimeIndex(index).tz
    return pd.DataFrame(
        {
            "start": pd.to_datetime(starts, unit="s", utc=True).tz_convert(zone),
            "end": pd.to_datetime(ends, unit="s", utc=True).tz_convert(zone),
            "kwh": kwh,
            "sparse": np.full(len(kwh), sparse),
        }
    )
