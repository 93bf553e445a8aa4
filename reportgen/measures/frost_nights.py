"""The long nights: how cold inside and outside, where, when, and how many of them came how close."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH, LONG_NIGHT, bounds, dates, window_stats
from reportgen.measures.exposure import (
    ON_THE_LINE,
    Band,
    Line,
    channel_line,
    clip,
    degree_hours_below,
    hours_below,
    lowest,
    lowest_shifted,
)
from reportgen.measures.frost_types import Minimum
from reportgen.measures.places import crop_channels, outdoor
from reportgen.once import once
from reportgen.readings.types import Channel, Readings

STEPS_K = (0, 1, 2, 3, 5)  # margins that are counted (methods page, *Frost margin*)


@once
def air_lines(readings: Readings) -> tuple[tuple[Channel, Line], ...]:
    """Every crop logger's air [°C] in the season's days, the main one first."""
    season = readings.season
    pairs = [(c, clip(channel_line(c), season.start, season.end)) for c in crop_channels(readings, "air_temperature")]
    return tuple((channel, curve) for channel, curve in pairs if len(curve.values))


def outdoor_line(readings: Readings) -> Line | None:
    """The outdoor air in the season's days."""
    channel = outdoor(readings, "air_temperature")
    if channel is None:
        return None
    curve = clip(channel_line(channel), readings.season.start, readings.season.end)
    return curve if len(curve.values) else None


@once
def coldest_line(readings: Readings) -> Line | None:
    """The coldest crop air [°C] in the season's days; None where there is no logger."""
    airs = air_lines(readings)
    return lowest([curve for _, curve in airs]) if airs else None


def shifted_line(readings: Readings, sign: float) -> Line | None:
    """The coldest crop air [°C] with every logger shifted by its own accuracy [K], `sign` −1 or 1.

    None where there is no logger, or one has no accuracy.
    """
    airs, coldest = air_lines(readings), coldest_line(readings)
    accuracies = [channel.accuracy for channel, _ in airs]
    known = [accuracy for accuracy in accuracies if accuracy is not None]
    if coldest is None or len(known) < len(airs):
        return None
    return lowest_shifted([curve for _, curve in airs], [sign * accuracy for accuracy in known], coldest)


def unknown_accuracy(airs: Sequence[tuple[Channel, Line]]) -> str:
    """The reason why a count has no band; empty where it has one."""
    names = [channel.logger for channel, _ in airs if channel.accuracy is None]
    return f"no accuracy given for {', '.join(names)}" if names else ""


def minimum(airs: Sequence[tuple[Channel, Line]], outside: Line | None, frost_c: float) -> Minimum:
    """The coldest reading of all crop loggers [°C] and its distance from the frost line [K]; of equal ones the
    earliest.
    """
    if not airs:
        return Minimum()
    spots = [
        (float(curve.values.min()), float(curve.seconds[curve.values.argmin()]), i) for i, (_, curve) in enumerate(airs)
    ]
    value, second, i = min(spots)
    channel, curve = airs[i]
    out = float(outside.at(np.asarray([second]))[0]) if outside is not None else float("nan")
    return Minimum(
        temperature_c=value,
        margin_k=value - frost_c,
        at=curve.stamp(second),
        logger=channel.logger,
        outdoor_c=None if np.isnan(out) else out,
    )


def counted(
    readings: Readings, airs: Sequence[tuple[Channel, Line]]
) -> tuple[Mapping[str, Band], Mapping[str, Band], Band]:
    """Nights and hours strictly below each margin, and degree-hours below the frost line."""
    season, frost_c = readings.season, readings.season.aims.frost_c
    if not airs:
        nothing = {str(k): Band(estimate=float("nan")) for k in STEPS_K}
        return nothing, nothing, Band(estimate=float("nan"))
    variants = [coldest_line(readings), shifted_line(readings, -1.0), shifted_line(readings, 1.0)]
    minima = [None if c is None else window_stats(c, season, LONG_NIGHT)["min"].to_numpy() for c in variants]

    def nights(k: int) -> Band:
        found = [None if m is None else int(np.nansum(m < frost_c + k - ON_THE_LINE)) for m in minima]
        known = [n for n in found if n is not None]
        if len(known) < 3:
            return Band(estimate=known[0])
        return Band(estimate=known[0], low=min(known), high=max(known))

    def integral(count: Callable[[Line, float], float], limit: float) -> Band:
        known = [count(c, limit) for c in variants if c is not None]
        return Band(estimate=known[0], low=min(known), high=max(known)) if len(known) == 3 else Band(estimate=known[0])

    hours = {str(k): integral(hours_below, frost_c + k) for k in STEPS_K}
    return {str(k): nights(k) for k in STEPS_K}, hours, integral(degree_hours_below, frost_c)


def night_table(readings: Readings, airs: Sequence[tuple[Channel, Line]], outside: Line | None) -> pd.DataFrame:
    """One row a long night: inside_min, at, logger, share, outdoor_min, outdoor_share, margin_k."""
    season = readings.season
    index = pd.Index(dates(season), name="date")
    empty = pd.DataFrame({"min": np.nan, "share": 0.0}, index=index)
    inside = coldest_line(readings)
    stats = window_stats(inside, season, LONG_NIGHT) if inside is not None else empty
    out = window_stats(outside, season, LONG_NIGHT) if outside is not None else empty
    table = pd.DataFrame(index=index)
    table["inside_min"], table["share"] = stats["min"], stats["share"]
    table["outdoor_min"], table["outdoor_share"] = out["min"], out["share"]
    table["margin_k"] = table["inside_min"] - season.aims.frost_c
    table["at"], table["logger"] = _where(readings, airs)
    return table


def _where(readings: Readings, airs: Sequence[tuple[Channel, Line]]) -> tuple[list[pd.Timestamp | None], list[str]]:
    """Time and logger of the coldest reading of each long night."""
    starts, ends = bounds(readings.season, LONG_NIGHT)
    at: list[pd.Timestamp | None] = []
    logger: list[str] = []
    for start, end in zip(starts, ends, strict=True):
        best: tuple[float, pd.Timestamp, str] | None = None
        for channel, curve in airs:
            a, b = np.searchsorted(curve.seconds, [start, end])
            if b > a:
                i = a + int(curve.values[a:b].argmin())
                found = (float(curve.values[i]), curve.stamp(curve.seconds[i]), channel.logger)
                best = found if best is None or found[0] < best[0] else best
        at.append(best[1] if best else None)
        logger.append(best[2] if best else "")
    return at, logger


def whole(table: pd.DataFrame) -> pd.Series:
    """True on nights of which at least 80 % is logged inside."""
    return table["share"] >= ENOUGH


def partly(table: pd.DataFrame) -> pd.Series:
    """True on nights with some reading but less than 80 %."""
    return (table["share"] < ENOUGH) & table["inside_min"].notna()
