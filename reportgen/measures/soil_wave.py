"""The bed's daily wave against the air's, by harmonic fit. Method: methods page, *Soil*."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.ground import OMEGA_DAY
from reportgen.measures.days import Window, bounds, dates, stats_between
from reportgen.measures.exposure import Floats, Line
from reportgen.season import Season
from reportgen.units import DAY_S

THREE_DAYS = Window(start_h=-24, end_h=48)  # the day before, the day, the day after
LEAST_AIR_K = 1.0  # an air wave flatter than this carries no phase to speak of
LEAST_SHARE = 0.8  # hours of the three days that must be known


@dataclass(frozen=True, kw_only=True, slots=True)
class Waves:
    """Daily waves; index of `table` = dates, columns soil_k, air_k (amplitudes [K]), lag_h (NaN where not known).

    `amplitude_k`: mean over the days; `ratio`, `lag_h`: the one wave that fits all days together (least squares of
    the bed's wave on the air's, amplitude and phase); lag 0…24 h. `days`: days with a soil wave.
    """

    table: pd.DataFrame = field(repr=False)
    amplitude_k: float | None
    ratio: float | None
    lag_h: float | None
    days: int


def harmonic(seconds: Floats, values: Floats) -> complex:
    """The daily wave in a record of whole days, as amplitude · exp(−i · phase of its maximum), in the unit of the
    values.

    Args:
        seconds: Shape (n,), s since any midnight; the phase is counted from there.
        values: Shape (n,), NaN is a gap.

    Method: least squares of mean + trend + cosine + sine of 24 h. NaN for fewer than six readings. Source: textbook
    harmonic analysis, e.g. D. S. Wilks 2011, Statistical Methods in the Atmospheric Sciences, § 9.4 (from memory).
    """
    known = ~np.isnan(values)
    t = seconds[known]
    if len(t) < 6:
        return complex("nan")
    slope = (t - t.mean()) / DAY_S
    x = np.column_stack([np.ones(len(t)), slope, np.cos(OMEGA_DAY * t), np.sin(OMEGA_DAY * t)])
    fit, *_ = np.linalg.lstsq(x, values[known], rcond=None)
    return complex(fit[2], -fit[3])


def waves(soil: Line, air: Line | None, season: Season) -> Waves:
    """The bed's and the air's daily wave around every date, over three days each.

    Ratio and lag: least squares of the bed's complex amplitudes on the air's (textbook formula); that one wave fits all
    days, and the three days around each, are our own lines.
    """
    beds = _daily(soil, season)
    airs = _daily(air, season) if air is not None else np.full(len(beds), np.nan, dtype=complex)
    table = pd.DataFrame(index=pd.Index(dates(season), name="date"))
    table["soil_k"], table["air_k"] = np.abs(beds), np.abs(airs)
    both = ~np.isnan(beds) & ~np.isnan(airs) & (np.abs(airs) >= LEAST_AIR_K)
    table["lag_h"] = np.where(both, _hours_behind(beds, airs), np.nan)
    cross = complex((np.conj(airs[both]) * beds[both]).sum()) if both.any() else complex("nan")
    power = float((np.abs(airs[both]) ** 2).sum()) if both.any() else float("nan")
    known = np.abs(beds)[~np.isnan(beds)]
    return Waves(
        table=table,
        amplitude_k=float(known.mean()) if len(known) else None,
        ratio=abs(cross) / power if both.any() else None,
        lag_h=float(-np.angle(cross) / OMEGA_DAY / 3600.0 % 24.0) if both.any() else None,
        days=len(known),
    )


def _hours_behind(soil: NDArray[np.complex128], air: NDArray[np.complex128]) -> Floats:
    return np.asarray(-np.angle(soil * np.conj(air)) / OMEGA_DAY / 3600.0 % 24.0)


def _daily(curve: Line, season: Season) -> NDArray[np.complex128]:
    """The wave of hourly means over three days around every date; NaN where under 80 % of the hours are known."""
    starts, _ = bounds(season, THREE_DAYS)
    first = starts[0]
    edges = first + 3600.0 * np.arange(24 * (len(starts) + 2))
    means = stats_between(curve, edges, edges + 3600.0)
    hourly = means["mean"].where(means["share"] >= LEAST_SHARE).to_numpy(dtype=np.float64)
    seconds = edges - first + 1800.0
    out = np.full(len(starts), complex("nan"), dtype=complex)
    for n in range(len(starts)):
        part = slice(24 * n, 24 * n + 72)
        if np.mean(~np.isnan(hourly[part])) >= LEAST_SHARE:
            out[n] = harmonic(seconds[part], hourly[part])
    return out
