"""Exact time above and below a line: readings joined by straight lines, nothing counted in a gap.

Method: methods page, *Time above and below a line*. Two readings are joined when they lie at most
max(15 min, min(3 × the usual step, 3 h)) apart (soil: 6 h); the usual step at a reading is the median of the
differences within a day around it. All integrals are the closed forms of the joined segments, so that a 1-minute and
a 30-minute log of the same curve agree.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import tzinfo
from functools import cached_property

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.once import once
from reportgen.readings.join import JOIN_MINIMUM_S as JOIN_MINIMUM_S
from reportgen.readings.join import JOIN_STEPS as JOIN_STEPS
from reportgen.readings.join import Floats as Floats
from reportgen.readings.join import joined
from reportgen.readings.join import to_seconds as to_seconds
from reportgen.readings.join import usual_step_s as usual_step_s
from reportgen.readings.types import Channel

# What lies nearer to a line than this lies on it, neither above nor below: 41 °F less an accuracy of 0.9 °F is 4.5 °C,
# whatever the last bit of a double says. Coarser than that bit, far finer than any sensor.
ON_THE_LINE = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Band:
    """A count with what the sensor's accuracy leaves: readings shifted by ± accuracy; NaN where it cannot be had."""

    estimate: float
    low: float = float("nan")
    high: float = float("nan")


@dataclass(frozen=True, kw_only=True)
class Line:
    """A measured curve: n readings and which neighbours are joined.

    `zone`: of the season. `seconds`: shape (n,), rising, seconds since 1970 UTC. `values`: shape (n,), no NaN.
    `joined`: shape (n − 1,), True where reading i and i + 1 are joined.
    """

    zone: tzinfo | None
    seconds: Floats = field(repr=False)
    values: Floats = field(repr=False)
    joined: NDArray[np.bool_] = field(repr=False)

    @cached_property
    def times(self) -> pd.DatetimeIndex:
        """The instants of the readings in the zone, to the microsecond; shape (n,)."""
        return pd.to_datetime(np.rint(self.seconds * 1e6).astype(np.int64), unit="us", utc=True).tz_convert(self.zone)

    def stamp(self, second: float) -> pd.Timestamp:
        """The instant of one `second` [s since 1970] in the zone, to the microsecond."""
        return pd.Timestamp(round(float(second) * 1e6), unit="us", tz="UTC").tz_convert(self.zone)

    @cached_property
    def hours(self) -> Floats:
        """Length of every joined segment [h], 0 where not joined; shape (n − 1,)."""
        return np.where(self.joined, np.diff(self.seconds), 0.0) / 3600.0

    @property
    def hours_recorded(self) -> float:
        """Time that the joined segments cover [h]."""
        return float(self.hours.sum())

    def shifted(self, by: float) -> Line:
        """The same curve with every reading moved by `by` (the sensor's accuracy), in the unit of the curve."""
        return replace(self, values=self.values + by)

    def at(self, seconds: Floats) -> Floats:
        """The joined line at any instants [s since 1970], in the unit of the curve; NaN in gaps and outside the record.

        Shape (m,) → (m,).
        """
        if len(self.values) == 0:
            return np.full(len(seconds), np.nan)
        if np.array_equal(seconds, self.seconds):
            return self.values
        value = np.interp(seconds, self.seconds, self.values, left=np.nan, right=np.nan)
        first = np.searchsorted(self.seconds, seconds, side="left")
        on_a_reading = self.seconds[first.clip(0, len(self.seconds) - 1)] == seconds
        after = first.clip(1, max(len(self.seconds) - 1, 1))
        inside = self.joined[after - 1] if len(self.joined) else np.zeros(len(seconds), dtype=bool)
        return np.where(inside | on_a_reading, value, np.nan)


def line(values: pd.Series, measure: str = "") -> Line:
    """The joined curve of readings (zone-aware rising index, no NaN); soil measures are joined over longer gaps."""
    times = pd.DatetimeIndex(values.index)
    seconds = to_seconds(times)
    linked = joined(seconds, measure)
    return Line(zone=times.tz, seconds=seconds, values=values.to_numpy(dtype=np.float64), joined=linked)


@once
def channel_line(channel: Channel) -> Line:
    """The joined curve of one channel, by the rule of its measure."""
    return line(channel.values, channel.measure)


def clip(curve: Line, start: pd.Timestamp, end: pd.Timestamp) -> Line:
    """The part of a curve between two instants, with readings interpolated at the ends where it is joined there."""
    return clip_s(curve, start.timestamp(), end.timestamp())


def clip_s(curve: Line, start_s: float, end_s: float) -> Line:
    """As `clip`, between two instants [s since 1970]."""
    first = int(np.searchsorted(curve.seconds, start_s, side="right"))  # readings inside: first … last − 1
    last = max(int(np.searchsorted(curve.seconds, end_s, side="left")), first)
    ends = np.asarray([start_s, end_s])
    edges = curve.at(ends)
    a, b = ends[:1][~np.isnan(edges[:1])], ends[1:][~np.isnan(edges[1:])]
    begun, left = len(a) > 0, len(b) > 0  # joined into the part, and out of it
    linked = slice(first - begun, last - 1 + left) if last > first or (begun and left) else slice(0, 0)
    return replace(
        curve,
        seconds=np.concatenate([a, curve.seconds[first:last], b]),
        values=np.concatenate([edges[:1][:begun], curve.values[first:last], edges[1:][:left]]),
        joined=curve.joined[linked],
    )


def _share_below(a: Floats, b: Floats, limit: float) -> Floats:
    """Share of each segment from a to b that lies strictly below the limit."""
    limit -= ON_THE_LINE
    low, high = np.minimum(a, b), np.maximum(a, b)
    span = np.where(high > low, high - low, 1.0)
    return np.where(high > low, np.clip((limit - low) / span, 0.0, 1.0), (low < limit).astype(float))


def hours_below(curve: Line, limit: float) -> float:
    """Hours strictly below a `limit` (unit of the curve) [h]."""
    return float((_share_below(curve.values[:-1], curve.values[1:], limit) * curve.hours).sum())


def hours_above(curve: Line, limit: float) -> float:
    """Hours strictly above a `limit` (unit of the curve) [h]."""
    return float((_share_below(-curve.values[:-1], -curve.values[1:], -limit) * curve.hours).sum())


def degree_hours_below(curve: Line, limit: float) -> float:
    """Integral of (limit − value) over the time below the line [K h]."""
    a, b = curve.values[:-1], curve.values[1:]
    share = _share_below(a, b, limit)
    deepest = limit - np.minimum(a, b)
    shallowest = np.maximum(limit - np.maximum(a, b), 0.0)
    return float((share * curve.hours * (deepest + shallowest) / 2).clip(min=0).sum())


def band(curve: Line, accuracy: float | None, count: Callable[[Line], float]) -> Band:
    """A count with the sensor's band: the same count with the readings shifted by ± accuracy (unit of the curve).

    None for the accuracy: no band.
    """
    estimate = count(curve)
    if accuracy is None:
        return Band(estimate=estimate)
    shifted = (count(curve.shifted(-accuracy)), estimate, count(curve.shifted(accuracy)))
    return Band(estimate=estimate, low=min(shifted), high=max(shifted))


def spells_above(curve: Line, limit: float) -> list[tuple[float, float]]:
    """Start and end [s since 1970] of each stretch strictly above `limit` (unit of the curve); a gap ends a stretch."""
    limit += ON_THE_LINE
    a, b = curve.values[:-1], curve.values[1:]
    t0, t1 = curve.seconds[:-1], curve.seconds[1:]
    i = np.flatnonzero(curve.joined & ((a > limit) | (b > limit)))
    if len(i) == 0:
        return []
    rise = np.where(b[i] == a[i], 1.0, b[i] - a[i])
    crossing = t0[i] + (limit - a[i]) / rise * (t1[i] - t0[i])
    starts = np.where(a[i] > limit, t0[i], crossing)
    ends = np.where(b[i] > limit, t1[i], crossing)
    goes_on = np.concatenate([[False], (np.diff(i) == 1) & (a[i][1:] > limit)])
    first = np.flatnonzero(~goes_on)
    last = np.concatenate([first[1:], [len(i)]]) - 1
    pairs = zip(starts[first].tolist(), ends[last].tolist(), strict=True)
    return [(start, end) for start, end in pairs if end > start]


def spells_below(curve: Line, limit: float) -> list[tuple[float, float]]:
    """Start and end [s since 1970] of each stretch strictly below `limit` (unit of the curve); a gap ends a stretch."""
    return spells_above(mirrored(curve), -limit)


def mirrored(curve: Line) -> Line:
    """The curve upside down."""
    return replace(curve, values=-curve.values)


def lowest(curves: Sequence[Line]) -> Line:
    """The lowest of several joined lines at the union of their stamps, crossings included.

    Counted in the time in which any of the curves records; where only one does, it is that one.
    """
    kept = [curve for curve in curves if len(curve.values)] or curves[:1]
    result = kept[0]
    for other in kept[1:]:
        result = _lower_of(result, other)
    return result


def lowest_shifted(curves: Sequence[Line], shifts: Sequence[float], unshifted: Line | None = None) -> Line:
    """The lowest of several joined lines, each moved by its own shift; where all move alike, their lowest is moved.

    Args:
        shifts: One a line, in the unit of the lines.
        unshifted: The lowest of the lines as they are, where it is at hand.
    """
    if len(set(shifts)) == 1:
        return (unshifted or lowest(curves)).shifted(shifts[0])
    return lowest([curve.shifted(by) for curve, by in zip(curves, shifts, strict=True)])


def _beside_gaps(curve: Line) -> Floats:
    """Instants a millisecond inside each gap, so that a curve that stops does not pull the next one down."""
    after, before = curve.seconds[:-1][~curve.joined], curve.seconds[1:][~curve.joined]
    ends = [curve.seconds[:1] - 1e-3, curve.seconds[-1:] + 1e-3]
    return np.concatenate([after + 1e-3, before - 1e-3, *ends])


def _in_step(first: Line, second: Line) -> bool:
    """Whether both were read at the same instants, with the same gaps."""
    return np.array_equal(first.seconds, second.seconds) and np.array_equal(first.joined, second.joined)


def _lower_in_step(first: Line, second: Line) -> Line:
    d = first.values - second.values
    before = np.flatnonzero(first.joined & (d[:-1] * d[1:] < 0))  # readings before a crossing
    part = d[before] / (d[before] - d[before + 1])
    crossing = first.seconds[before] + part * np.diff(first.seconds)[before]
    value = first.values[before] + part * np.diff(first.values)[before]
    return replace(
        first,
        seconds=np.insert(first.seconds, before + 1, crossing),
        values=np.insert(np.minimum(first.values, second.values), before + 1, value),
        joined=np.insert(first.joined, before + 1, np.ones(len(before), dtype=bool)),
    )


def _lower_of(first: Line, second: Line) -> Line:
    if _in_step(first, second):
        return _lower_in_step(first, second)
    seconds = np.union1d(first.seconds, second.seconds)
    edges = np.concatenate([_beside_gaps(first), _beside_gaps(second)])
    recorded = ~np.isnan(first.at(edges)) | ~np.isnan(second.at(edges))
    seconds = np.union1d(seconds, edges[recorded])
    middle = (seconds[:-1] + seconds[1:]) / 2
    d0 = first.at(seconds) - second.at(seconds)
    both = ~np.isnan(first.at(middle)) & ~np.isnan(second.at(middle))
    crossing = both & (d0[:-1] * d0[1:] < 0)
    part = d0[:-1][crossing] / (d0[:-1][crossing] - d0[1:][crossing])
    seconds = np.union1d(seconds, seconds[:-1][crossing] + part * np.diff(seconds)[crossing])
    values = np.fmin(first.at(seconds), second.at(seconds))
    middle = (seconds[:-1] + seconds[1:]) / 2
    joined = ~(np.isnan(first.at(middle)) & np.isnan(second.at(middle)))
    return Line(zone=first.zone, seconds=seconds, values=values, joined=joined)
