"""Curves made from curves: what lies above a line, products of two channels, sums of a day."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pandas as pd

from reportgen.measures.days import Window, bounds, dates
from reportgen.measures.exposure import ON_THE_LINE, Floats, Line
from reportgen.season import Season


def with_crossings(curve: Line, limit: float) -> Line:
    """The same joined line with a reading added wherever it crosses the limit (unit of the curve)."""
    a, b = curve.values[:-1] - limit, curve.values[1:] - limit
    crossing = curve.joined & (a * b < 0)
    part = a[crossing] / (a[crossing] - b[crossing])
    extra = curve.seconds[:-1][crossing] + part * np.diff(curve.seconds)[crossing]
    if len(extra) == 0:
        return curve
    order = np.argsort(np.concatenate([curve.seconds, extra]), kind="stable")
    seconds = np.concatenate([curve.seconds, extra])[order]
    values = np.concatenate([curve.values, np.full(len(extra), limit)])[order]
    joined = np.repeat(curve.joined, 1 + crossing)
    return Line(zone=curve.zone, seconds=seconds, values=values, joined=joined)


def short_of(curve: Line, base: float) -> Line:
    """max(0, base − value) as a joined line, exact at its corners [K]."""
    cornered = with_crossings(curve, base)
    return replace(cornered, values=np.maximum(0.0, base - cornered.values))


def paired(first: Line, second: Line, combine: Callable[[Floats, Floats], Floats]) -> Line | None:
    """A figure of two channels at the readings of the first at which the second is known; None under two of them.

    `combine`: shapes (n,) and (n,) → (n,), the values of both in their own units.
    """
    other = second.at(first.seconds)
    both = ~np.isnan(other)
    if both.sum() < 2:
        return None
    rows = np.flatnonzero(both)
    broken = np.concatenate([[0], np.cumsum(~first.joined)])  # gaps before each reading
    joined = np.diff(broken[rows]) == 0
    return Line(
        zone=first.zone,
        seconds=first.seconds[rows],
        values=combine(first.values[rows], other[rows]),
        joined=joined,
    )


def hours_above(curve: Line, limit: float, season: Season, window: Window) -> pd.Series:
    """Time strictly above a limit (unit of the curve) in the window of every date [h], for the whole window; index =
    dates.

    Hours unrecorded (at most a fifth, or the date is dropped elsewhere) are taken to be like those recorded.
    """
    cornered = with_crossings(curve, limit)
    middle = (cornered.values[:-1] + cornered.values[1:]) / 2
    above_h = np.where(middle > limit + ON_THE_LINE, cornered.hours, 0.0)
    total = np.concatenate([[0.0], np.cumsum(above_h)])
    recorded = np.concatenate([[0.0], np.cumsum(cornered.hours)])
    starts, ends = bounds(season, window)
    hours = np.interp(ends, cornered.seconds, total) - np.interp(starts, cornered.seconds, total)
    known = np.interp(ends, cornered.seconds, recorded) - np.interp(starts, cornered.seconds, recorded)
    share = np.divide(hours, known, out=np.full(len(hours), np.nan), where=known > 0)
    return pd.Series(share * window.hours, index=pd.Index(dates(season), name="date"))
