"""Clocks that stand wrong: an hour off for a while, or running away from another logger's. Told, never shifted.

Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.check_words import moment
from reportgen.readings.digits import Ints
from reportgen.readings.file_rows import FileRows
from reportgen.readings.join import to_seconds
from reportgen.readings.numbers import Floats
from reportgen.readings.stamps import HOUR_MS, NAT
from reportgen.readings.types import Channel, CheckFinding
from reportgen.season import Season
from reportgen.units import WEEK_S

MOST_BACK = 0.01  # a file whose rows stand in no order shows no leap of its clock
NEAR_MS = 5 * 60_000  # a clock set by hand is set to the minute or so
FINEST_S = 300.0  # curves are compared every five minutes
MOST_LAG_S = 3 * 3600.0
ALIKE = 0.6  # correlation of the changes of two curves from which their lag means something
WEEKS = 6
DRIFT_S = 900.0  # a lag that grew by a quarter of an hour over the season is worth a word
HOUR_LAG = (2700.0, 4500.0)  # a lag that changes by about an hour between two weeks is a clock that was set


def hour_steps(logger: str, parts: Sequence[FileRows], season: Season) -> list[CheckFinding]:
    """Stretches between a leap of an hour and a fall back of an hour that no change of the zone's clock explains."""
    found = []
    for part in parts:
        utc = part.utc[part.utc != NAT]
        steps = np.diff(utc)
        if len(steps) < 48 or steps.min() == steps.max() or part.out_of_order > MOST_BACK * len(steps):
            continue
        usual = float(np.median(steps))
        if not 0 < usual < HOUR_MS:
            continue
        leaps = _near(steps, usual + HOUR_MS)
        falls = _near(steps, usual - HOUR_MS)
        for first, last in _stretches(leaps, falls):
            start, end = int(utc[first + 1]), int(utc[last])
            ahead = "ahead" if first in leaps else "behind"
            days = (end - start) / 86_400_000
            words = (
                f"{part.file}: for {days:.1f} days the clock stood an hour {ahead} of the times before and after; "
                "its readings are used as they are written"
            )
            found.append(
                CheckFinding(
                    slug="clock-hour-wrong",
                    logger=logger,
                    measure=None,
                    start=moment(min(start, end), season),
                    end=moment(max(start, end), season),
                    count=last - first,
                    words=words,
                )
            )
    return found


def _near(steps: Ints, wanted: float) -> list[int]:
    return [int(row) for row in np.flatnonzero(np.abs(steps - wanted) <= NEAR_MS)]


def _stretches(leaps: list[int], falls: list[int]) -> list[tuple[int, int]]:
    """Each first change paired with the next one of the other kind."""
    turns = sorted([(row, +1) for row in leaps] + [(row, -1) for row in falls])
    pairs, at = [], 0
    while at + 1 < len(turns):
        (row, kind), (then, other) = turns[at], turns[at + 1]
        if kind != other:
            pairs.append((row, then))
            at += 2
        else:
            at += 1
    return pairs


def drifting(channels: Sequence[Channel], season: Season) -> list[CheckFinding]:
    """Pairs of air sensors of one place whose lag grows through the season, or leaps by an hour."""
    airs = [
        channel
        for channel in channels
        if channel.measure in ("air_temperature", "outdoor_temperature")
        and channel.where != "elsewhere"
        and channel.step_s is not None
        and channel.step_s <= 3600.0
    ]
    found = []
    for one, two in combinations(airs, 2):
        if one.where == two.where and one.logger != two.logger:
            weeks, lags = weekly_lags(one, two)
            found += _told(one, two, weeks, lags, season)
    return found


def weekly_lags(one: Channel, two: Channel) -> tuple[Floats, Floats]:
    """The lag of the second curve behind the first [s] in each week in which the two are alike.

    Returns the middles of those weeks [s since 1970] and the lags: where the correlation of the changes of both
    curves, read off every five minutes, is highest.
    """
    (s, a), (t, b) = _curve(one), _curve(two)
    if len(s) < 2 or len(t) < 2:
        return np.empty(0), np.empty(0)
    step = max(FINEST_S, float(one.step_s or 0.0) / 2, float(two.step_s or 0.0) / 2)
    weeks, lags = [], []
    start = max(s[0], t[0]) + MOST_LAG_S
    while start + WEEK_S <= min(s[-1], t[-1]) - MOST_LAG_S:
        lag = _lag(s, a, t, b, start, step)
        if lag is not None:
            weeks.append(start + WEEK_S / 2)
            lags.append(lag)
        start += WEEK_S
    return np.asarray(weeks), np.asarray(lags)


def _curve(channel: Channel) -> tuple[Floats, Floats]:
    return to_seconds(pd.DatetimeIndex(channel.values.index)), channel.values.to_numpy(dtype=np.float64)


def _lag(s: Floats, a: Floats, t: Floats, b: Floats, start: float, step: float) -> float | None:
    grid = np.arange(start, start + WEEK_S, step)
    if _patchy(s, grid) or _patchy(t, grid):
        return None
    smooth = max(1, round(1800.0 / step))
    mine = _changes(np.interp(grid, s, a), smooth)
    shifts = np.arange(-MOST_LAG_S, MOST_LAG_S + step / 2, step)
    wide = np.arange(start - MOST_LAG_S, start + WEEK_S + MOST_LAG_S + step / 2, step)
    theirs = _changes(np.interp(wide, t, b), smooth)
    scores = _scores(mine, theirs, len(shifts))
    best = int(np.argmax(scores))
    if scores[best] < ALIKE or best in (0, len(shifts) - 1):
        return None
    left, top, right = scores[best - 1 : best + 2]
    bend = left - 2 * top + right
    return float(shifts[best] + (0.5 * (left - right) / bend * step if bend < 0 else 0.0))


def _patchy(seconds: Floats, grid: Floats) -> bool:
    """Whether a tenth of the week lies further than an hour from any reading."""
    place = np.clip(np.searchsorted(seconds, grid), 1, len(seconds) - 1)
    away = np.minimum(np.abs(seconds[place] - grid), np.abs(grid - seconds[place - 1]))
    return float(np.mean(away > 3600.0)) > 0.1


def _changes(values: Floats, over: int) -> Floats:
    """Change over a stretch of readings: takes the level away and keeps the flanks."""
    changes: Floats = values[over:] - values[:-over]
    return changes


def _scores(mine: Floats, theirs: Floats, count: int) -> Floats:
    """Correlation of the first curve with each window of the second."""
    width = len(mine)
    centred = mine - mine.mean()
    together = np.correlate(theirs[: width + count - 1], centred, mode="valid")
    sums = np.cumsum(np.concatenate([[0.0], theirs]))
    squares = np.cumsum(np.concatenate([[0.0], theirs**2]))
    number = min(count, len(together))
    total, square = sums[width:] - sums[:-width], squares[width:] - squares[:-width]
    spread = np.sqrt(np.maximum(square / width - (total / width) ** 2, 0.0))[:number] * centred.std() * width
    scores = np.zeros(count)
    scores[:number] = np.divide(together[:number], spread, out=np.zeros(number), where=spread > 1e-12)
    return scores


def _told(one: Channel, two: Channel, weeks: Floats, lags: Floats, season: Season) -> list[CheckFinding]:
    if len(weeks) < WEEKS:
        return []
    leaps = np.flatnonzero((np.abs(np.diff(lags)) >= HOUR_LAG[0]) & (np.abs(np.diff(lags)) <= HOUR_LAG[1]))
    if len(leaps):
        day = moment(int((weeks[leaps[0]] + WEEK_S / 2) * 1000), season)
        words = f"around {day:%-d %B %Y} its clock and that of {two.logger} moved an hour apart"
        return [_finding("clock-hour-wrong", one, day, day, len(leaps), words)]
    slope = float(np.polyfit(weeks, lags, 1)[0])
    grown = slope * (weeks[-1] - weeks[0])
    if abs(grown) < DRIFT_S or not _steady(weeks, lags, slope):
        return []
    start, end = (moment(int(at * 1000), season) for at in (weeks[0], weeks[-1]))
    words = (
        f"its clock and that of {two.logger} run apart: {abs(grown) / 60:.0f} min from {start:%-d %B} to "
        f"{end:%-d %B %Y}; neither was shifted"
    )
    return [_finding("clock-drift", one, start, end, len(weeks), words)]


def _steady(weeks: Floats, lags: Floats, slope: float) -> bool:
    """A drift is a straight line: what is left beside it is small against it."""
    left = lags - np.polyval(np.polyfit(weeks, lags, 1), weeks)
    grown = abs(slope * (weeks[-1] - weeks[0]))
    spread: NDArray[np.float64] = np.quantile(np.abs(left), [0.75])
    return bool(spread[0] < 0.2 * grown)


def _finding(slug: str, one: Channel, start: pd.Timestamp, end: pd.Timestamp, count: int, words: str) -> CheckFinding:
    return CheckFinding(
        slug=slug, logger=one.logger, measure=one.measure, start=start, end=end, count=count, words=words
    )
