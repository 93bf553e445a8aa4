"""Loggers held against one another: units taken for another, sensors that disagree, a sensor in the sun.

Limits are common practice, no source, unless they say otherwise. Nothing is changed: what is seen is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.problems import Problem
from reportgen.readings.check_words import moment
from reportgen.readings.digits import Ints
from reportgen.readings.join import to_seconds
from reportgen.readings.numbers import Floats
from reportgen.readings.types import Channel, CheckFinding
from reportgen.season import Season
from reportgen.wording import Wording, number

ENOUGH_HOURS = 72
WARM_C = 30.0  # half of a winter's readings above this are no °C
SLOPE, ICEPT = (1.4, 2.3), (15.0, 50.0)  # °F over °C of a place nearby: 1.8 and 32 (exact), with room for the place
USUAL_K, USUAL_POINTS = 0.5, 3.0  # ± of a sensor of which none is given; common practice, no source
PLACES_K, PLACES_POINTS = 0.5, 2.5  # two places of one house may differ by this and be right
SUN_K, NIGHT_K = 6.0, 1.5  # a sensor in the sun is this much warmer around noon, and no more than that at night
NOON, NIGHT = (10, 16), (22, 6)  # hours of the local clock
TEMPERATURES = ("air_temperature", "outdoor_temperature")
ONE_HOUSE_K = 4.0  # the nights of one house lie no further apart than this (season-folder contract)


@dataclass(frozen=True, kw_only=True, slots=True)
class Pair:
    """Two channels on their common hours: hour number since 1970 (UTC) and both means."""

    one: Channel
    two: Channel
    hours: Ints
    a: Floats
    b: Floats


def hourly(channel: Channel) -> tuple[Ints, Floats]:
    """Hours since 1970 that have a reading, and the mean of each."""
    hours = np.floor(to_seconds(pd.DatetimeIndex(channel.values.index)) / 3600.0).astype(np.int64)
    if not len(hours):
        return hours, np.empty(0)
    starts = np.flatnonzero(np.concatenate([[True], np.diff(hours) > 0]))
    values = channel.values.to_numpy(dtype=np.float64)
    return hours[starts], np.add.reduceat(values, starts) / np.diff(np.append(starts, len(hours)))


def pair(one: Channel, two: Channel) -> Pair:
    """Two channels on the hours they have in common."""
    (h, a), (g, b) = hourly(one), hourly(two)
    hours, i, j = np.intersect1d(h, g, assume_unique=True, return_indices=True)
    return Pair(one=one, two=two, hours=hours, a=a[i], b=b[j])


def compare(channels: Sequence[Channel], season: Season) -> tuple[list[CheckFinding], list[Problem]]:
    """What the loggers say of one another."""
    found: list[CheckFinding] = []
    problems: list[Problem] = []
    warm = [channel for channel in channels if channel.measure in TEMPERATURES and len(channel.values)]
    for channel in warm:
        if words := _like_fahrenheit(channel, warm, season):
            found.append(_finding("fahrenheit-as-celsius", channel, words, season))
            problems.append(_ask_unit(channel, words, season))
    doubted = {finding.logger for finding in found}
    for one, two in combinations(channels, 2):
        alike = one.measure == two.measure and one.where == two.where != "elsewhere" and one.logger != two.logger
        if alike and one.logger not in doubted and two.logger not in doubted:
            both = pair(one, two)
            found += _disagree(both, season)
            if one.where == "crop" and one.measure == "air_temperature":
                problems += _ask_house(both, season)
    return found, problems


def _like_fahrenheit(channel: Channel, others: Sequence[Channel], season: Season) -> str:
    """Why a channel read as °C seems to be °F; empty when it does not."""
    unit = season.logger(channel.logger).measures[channel.measure].unit
    middle = float(channel.values.median())
    if unit in ("degF", "K"):
        return ""
    for other in others:
        if other.logger == channel.logger and other.measure == channel.measure:
            continue
        both = pair(channel, other)
        if len(both.hours) < ENOUGH_HOURS or np.std(both.b) < 1.0:
            continue
        slope, icept = np.polyfit(both.b, both.a, 1)
        close = np.corrcoef(both.a, both.b)[0, 1] > 0.7
        if close and SLOPE[0] <= slope <= SLOPE[1] and ICEPT[0] <= icept <= ICEPT[1]:
            return f"it runs as {slope:.1f} × {other.logger} + {icept:.0f}; °F would be 1.8 × °C + 32"
    return f"half of its readings lie above {middle:.0f} °C" if middle > WARM_C else ""


def _ask_unit(channel: Channel, words: str, season: Season) -> Problem:
    column = season.logger(channel.logger).measures[channel.measure].column
    return Problem(
        slug="fahrenheit-as-celsius",
        file="season.toml",
        column=f"[[logger]] {channel.logger} · {channel.measure}",
        found=f"column {column!r} read as °C, but {words}",
        expected="the unit in which the logger writes",
        todo='add unit = "degF" to this column if the logger writes °F, unit = "degC" beside a checked sensor if not',
        level="warning",
    )


def _disagree(both: Pair, season: Season) -> list[CheckFinding]:
    """A lasting difference beyond what the sensors and the places allow, or one that comes with the sun."""
    if len(both.hours) < ENOUGH_HOURS:
        return []
    apart = both.a - both.b
    humid = both.one.measure.endswith("humidity")
    usual, room, unit = (USUAL_POINTS, PLACES_POINTS, "points") if humid else (USUAL_K, PLACES_K, "K")
    if not humid and both.one.measure not in TEMPERATURES:
        return []
    if not humid and (sunny := _in_sun(both, apart, season)):
        return [sunny]
    errors = [usual if channel.accuracy is None else channel.accuracy for channel in (both.one, both.two)]
    own = (errors[0] ** 2 + errors[1] ** 2) ** 0.5  # independent errors add in quadrature (JCGM 100:2008, 5.1.2)
    told = both.one.accuracy is not None and both.two.accuracy is not None
    taken = "" if told else f" (±{usual:g} where none is given)"
    middle = float(np.median(apart))
    if abs(middle) <= own + room:
        return []
    high, low = (both.one, both.two) if middle > 0 else (both.two, both.one)
    words = (
        f"{high.logger} reads {abs(middle):.1f} {unit} above {low.logger} in the middle of {number(len(both.hours))} "
        f"common hours; their sensors allow {own:.1f} {unit}{taken}: the places differ, or a sensor is off"
    )
    return [_finding("loggers-disagree", high, words, season, both)]


def _in_sun(both: Pair, apart: Floats, season: Season) -> CheckFinding | None:
    """The warmer one of a pair that agrees at night and differs on bright days."""
    clock = _clock(both, season)
    noon = (clock >= NOON[0]) & (clock < NOON[1])
    night = (clock >= NIGHT[0]) | (clock < NIGHT[1])
    if noon.sum() < ENOUGH_HOURS / 4 or night.sum() < ENOUGH_HOURS / 4:
        return None
    dark = float(np.median(apart[night]))
    bright = [float(np.quantile(sign * (apart[noon] - dark), 0.9)) for sign in (1, -1)]
    if abs(dark) > NIGHT_K or max(bright) < SUN_K:
        return None
    hot, cool = (both.one, both.two) if bright[0] > bright[1] else (both.two, both.one)
    words = (
        f"around noon {hot.logger} reads {max(bright):.0f} K above {cool.logger} on one hour in ten, at night they "
        f"agree: {hot.logger} seems to hang in the sun"
    )
    return _finding("sun-on-sensor", hot, words, season, both)


def _ask_house(both: Pair, season: Season) -> list[Problem]:
    """Whether two crop loggers stand in one house, where the middle of their nights is more than 4 K apart."""
    dark = dark_hours(both, season)
    if int(dark.sum()) < ENOUGH_HOURS:
        return []
    apart = float(np.median(both.a[dark]) - np.median(both.b[dark]))
    if abs(apart) <= ONE_HOUSE_K:
        return []
    warm, cold = (both.one, both.two) if apart > 0 else (both.two, both.one)
    w = Wording.of(season)
    return [
        Problem(
            slug="one-folder-one-house",
            file="season.toml",
            column=f"[[logger]] {cold.logger} · where",
            found=f"the nights of {cold.logger} are {w.diff(abs(apart))} colder than those of {warm.logger}, and both "
            'say where = "crop"',
            expected="loggers of one house, whose nights differ less",
            todo="if they stand in two houses, give each house a folder of its own; if one of them is no crop logger, "
            'write where = "elsewhere"; if both are right, leave it: frost is judged by the colder one',
            level="warning",
        )
    ]


def dark_hours(both: Pair, season: Season) -> NDArray[np.bool_]:
    """Which of the common hours lie in the night."""
    clock = _clock(both, season)
    return (clock >= NIGHT[0]) | (clock < NIGHT[1])


def _clock(both: Pair, season: Season) -> Ints:
    """The hour of the local clock of each common hour; summer time does not matter here."""
    ahead = season.start.utcoffset()
    return (both.hours + (int(ahead.total_seconds() // 3600) if ahead is not None else 0)) % 24


def _finding(slug: str, channel: Channel, words: str, season: Season, both: Pair | None = None) -> CheckFinding:
    index = channel.values.index
    start, end = index[0], index[-1]
    if both is not None:
        start, end = (moment(int(hour) * 3_600_000, season) for hour in (both.hours[0], both.hours[-1]))
    count = len(both.hours) if both is not None else len(index)
    return CheckFinding(
        slug=slug, logger=channel.logger, measure=channel.measure, start=start, end=end, count=count, words=words
    )
