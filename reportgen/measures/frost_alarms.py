"""What low-temperature alarms would have done, and the hours too hot."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.exposure import Band, Line, band, channel_line, clip, hours_above, spells_above, spells_below
from reportgen.measures.frost_types import Alarm
from reportgen.measures.places import main_crop, seldom_crop, why_no
from reportgen.readings.types import Readings

LINES_C = (2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0)  # methods page, *Alarms*
HOLDS_S, APART_S, WITHIN_S = 900.0, 6 * 3600.0, 12 * 3600.0
NEAR_K = 1.0  # a ring was needed if the frost line came this near
RUNNING = 3  # hot days in a row


def sounding(curve: Line, alarm_c: float) -> list[tuple[float, float]]:
    """Stretches [s since 1970] under an alarm line that last 15 minutes and longer."""
    return [(start, end) for start, end in spells_below(curve, alarm_c) if end - start >= HOLDS_S]


def rings(curve: Line, alarm_c: float) -> list[float]:
    """Starts [s since 1970] of the rings: below the line for 15 minutes; within 6 h of a ring it is that ring, and
    what is still below 12 h after a ring rings anew."""
    kept: list[float] = []
    for start, end in sounding(curve, alarm_c):
        begin = start if not kept or start - kept[-1] > APART_S else kept[-1] + WITHIN_S
        while begin < end:
            kept.append(begin)
            begin += WITHIN_S
    return kept


def needs(curve: Line, frost_c: float) -> list[tuple[float, float]]:
    """Stretches [s since 1970] in which the air lay within 1 K of the frost line; less than 12 h apart they are one.

    They are the same for every alarm line, so that a higher line is never needed less often than a lower one.
    """
    kept: list[tuple[float, float]] = []
    for start, end in spells_below(curve, frost_c + NEAR_K):
        if kept and start - kept[-1][1] <= WITHIN_S:
            start = kept.pop()[0]
        kept.append((start, end))
    return kept


def alarm(curve: Line, alarm_c: float, frost_c: float) -> Alarm:
    """One alarm line [°C] over the season's coldest crop air: its rings, how many were needed, the shortest warning
    [h].
    """
    begun, below = rings(curve, alarm_c), sounding(curve, alarm_c)
    warnings = [warning for need in needs(curve, frost_c) if (warning := _warning_h(below, need)) is not None]
    when = tuple(curve.stamp(second) for second in begun)
    return Alarm(
        alarm_c=alarm_c,
        rings=len(begun),
        needed=len(warnings),
        warning_h=min(warnings) if warnings else None,
        when=when,
    )


def _warning_h(below: list[tuple[float, float]], need: tuple[float, float]) -> float | None:
    """How long the air had been under the alarm line, without a break, when a need came [h]; at most 12, for what rang
    before that was not heard as its ring. None where it did not ring for it."""
    start = next((a for a, b in below if b > need[0] and a < need[1]), None)
    return None if start is None else min(max(need[0] - start, 0.0), WITHIN_S) / 3600.0


def alarms(readings: Readings, curve: Line | None) -> tuple[Alarm, ...]:
    """Alarm lines 2…8 °C, and the grower's own; none without crop air."""
    if curve is None:
        return ()
    own = readings.season.aims.alarm_c
    lines = sorted({*LINES_C, *([own] if own is not None else [])})
    return tuple(alarm(curve, c, readings.season.aims.frost_c) for c in lines)


def hot(readings: Readings) -> tuple[Band, pd.DataFrame, date | None, str]:
    """Hours too hot, the same by week, the Monday of the first week with three hot days running, and why not."""
    nothing = (Band(estimate=float("nan")), pd.DataFrame({"week": [], "hours": []}), None)
    channel = main_crop(readings, "air_temperature")
    if channel is None:
        return *nothing, why_no(seldom_crop(readings, "air_temperature"), "no crop air temperature")
    if not readings.season.logger(channel.logger).shielded:
        return *nothing, f"{channel.logger} is not screened from the sun"
    limit = readings.season.aims.hot_c
    curve = clip(channel_line(channel), readings.season.start, readings.season.end)
    total = band(curve, channel.accuracy, lambda c: hours_above(c, limit))
    by_day = _by_day(readings, spells_above(curve, limit))
    mondays = pd.Index([d - timedelta(days=d.weekday()) for d in by_day.index], name="week")
    weeks = by_day.groupby(mondays).sum().rename("hours").reset_index()
    return (
        total,
        weeks,
        _opening(by_day),
        "" if channel.accuracy is not None else f"no accuracy given for {channel.logger}",
    )


def _by_day(readings: Readings, spells: list[tuple[float, float]]) -> pd.Series:
    """Hours of each local day that lie in spells."""
    season = readings.season
    days = pd.date_range(season.first_day, season.last_day)
    edges = np.array([t.timestamp() for t in season.midnights])
    knots = np.array([0.0, *(t for spell in spells for t in spell)])
    total = np.concatenate(
        [[0.0], np.cumsum([0.0 if i % 2 == 0 else knots[i + 1] - knots[i] for i in range(len(knots) - 1)])]
    )
    at = np.interp(edges, knots, total) / 3600.0
    return pd.Series(np.diff(at), index=pd.Index([d.date() for d in days], name="date"))


def _opening(by_day: pd.Series) -> date | None:
    """The Monday of the week in which, for the first time, three days running were too hot at some time."""
    running = 0
    for day, hours in by_day.items():
        running = running + 1 if hours > 0 else 0
        if running == RUNNING and isinstance(day, date):
            return day - timedelta(days=day.weekday())
    return None
