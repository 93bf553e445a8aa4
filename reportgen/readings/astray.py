"""Loggers that were not where, or when, season.toml says: hung outdoors, a clock half a day off, a record in parts.

Limits are common practice, no source. Nothing is changed: what is seen is asked about.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.problems import Problem
from reportgen.readings.check_words import moment
from reportgen.readings.digits import Ints
from reportgen.readings.neighbours import Pair, hourly, pair
from reportgen.readings.numbers import Floats
from reportgen.readings.probe import LEAST_WAVE_K
from reportgen.readings.types import Channel
from reportgen.season import Season

DAYS_ALIKE = 3  # whole days in which a crop logger reads what hangs outdoors
NEAR_K, MOST_K = 0.3, 1.0  # in the middle, and in nine hours of ten: two sensors side by side
CROP_WAVE_K, CROP_COLDEST_TO = 2.0, 16.0  # beside the crop a heater that runs by night makes a wave of its own
DAYS_OF_WAVE = 10
COLDEST_FROM, COLDEST_TO = 10.5, 20.5  # hours of the clock in which no place outdoors has the low of its daily wave
PART = 0.3  # of all hours with air beside the crop, told by one logger and not by the main one
OUTDOORS = ("outdoor_temperature", "air_temperature")


def astray(channels: Sequence[Channel], season: Season) -> list[Problem]:
    """Crop loggers that hung beside the one outdoors for days, and outdoor air that is warmest at night."""
    crops = [c for c in channels if c.where == "crop" and c.measure == "air_temperature" and len(c.values)]
    outs = [c for c in channels if c.where == "outdoor" and c.measure in OUTDOORS and len(c.values)]
    told = [problem for crop in crops for out in outs if (problem := _beside(pair(crop, out), season)) is not None]
    lit = any(appliance.kind == "lamp" for appliance in season.appliances)  # lamps may warm a house by night
    asked = [(out, "outdoors", LEAST_WAVE_K, COLDEST_TO) for out in outs]
    if not lit and any(_upright(out) for out in outs):
        asked += [(crop, "beside the crop", CROP_WAVE_K, CROP_COLDEST_TO) for crop in crops]
    told += [problem for one in asked if (problem := _upside_down(*one)) is not None]
    return told + _main_in_part(crops, season)


def _main_in_part(crops: Sequence[Channel], season: Season) -> list[Problem]:
    """The main crop logger, where another one tells much of the season that it does not: one record in two parts?"""
    main = next((c for c in crops if season.logger(c.logger).main), crops[0] if crops else None)
    if main is None:
        return []
    own = set(hourly(main)[0].tolist())
    others = {c.logger: set(hourly(c)[0].tolist()) - own for c in crops if c is not main}
    every = own.union(*others.values())
    longest = max(others, key=lambda name: len(others[name]), default="")
    if not longest or len(every) < DAYS_OF_WAVE * 24 or len(others[longest]) < PART * len(every):
        return []
    return [
        Problem(
            slug="main-logger-in-part",
            file="season.toml",
            column=f"[[logger]] {main.logger} · main",
            found=f"{main.logger}, which speaks for the house, tells {len(own) / 24:.0f} days, and {longest} "
            f"{len(others[longest]) / 24:.0f} days more",
            expected="one logger that tells most of the season",
            todo="if they are one logger whose record is in parts, list the files of both under one [[logger]]; if "
            "not, write main = true on the one that tells more: warmth, damp and changes are judged by it alone",
            level="warning",
        )
    ]


def _beside(both: Pair, season: Season) -> Problem | None:
    """The longest stretch of whole days in which the crop logger reads the air outdoors."""
    first, last = _longest(both.hours // 24, np.abs(both.a - both.b))
    days = last - first
    if days < DAYS_ALIKE:
        return None
    start, end = (moment(int(day) * 86_400_000, season) for day in (first, last - 1))
    return Problem(
        slug="crop-logger-outdoors",
        file="season.toml",
        column=f"[[logger]] {both.one.logger} · where",
        found=f"from {start:%-d %B %Y} to {end:%-d %B %Y} {both.one.logger} reads what {both.two.logger} reads "
        "outdoors, by day and by night",
        expected="air beside the crop, which the sun and the ground warm",
        todo="if it hung outdoors then, let the season begin later, or take those rows into a file and a [[logger]] of "
        "their own; if the house stood open, leave it",
        level="warning",
    )


def _longest(days: Ints, apart: Floats) -> tuple[int, int]:
    """First and one past the last of the most days in a row, each with most of its hours, on which all lie near."""
    best = here = (0, 0)
    for day in np.unique(days):
        gaps = apart[days == day]
        near = len(gaps) >= 18 and np.median(gaps) <= NEAR_K and np.quantile(gaps, 0.9) <= MOST_K
        here = (here[0] if here[1] == day else int(day), int(day) + 1) if near else (0, 0)
        best = here if here[1] - here[0] > best[1] - best[0] else best
    return best


def _upright(channel: Channel) -> bool:
    """Whether a daily wave has its low at a time of day at which it can lie."""
    wave = _wave(channel)
    return wave is not None and wave[0] >= LEAST_WAVE_K and not COLDEST_FROM <= wave[1] <= COLDEST_TO


def _wave(channel: Channel) -> tuple[float, float] | None:
    """Half the swing of the mean day [K] and the hour of its low; None with few days or hours."""
    hours, values = hourly(channel)
    instants = pd.DatetimeIndex(hours.astype("datetime64[h]").astype("datetime64[s]"), tz="UTC")
    index = instants.tz_convert(pd.DatetimeIndex(channel.values.index).tz)
    if len(np.unique(index.normalize())) < DAYS_OF_WAVE or len(np.unique(index.hour)) < 20:
        return None
    means = pd.Series(values).groupby(index.hour).mean()
    turn = 2 * np.pi * np.asarray(means.index, dtype=np.float64) / 24.0
    wave = complex((means.to_numpy(dtype=np.float64) * np.exp(1j * turn)).mean()) * 2
    return abs(wave), (float(np.angle(wave)) / (2 * np.pi) * 24.0 + 12.0) % 24.0


def _upside_down(channel: Channel, where: str, least_k: float, until: float) -> Problem | None:
    """A daily wave of so much whose low lies in the middle of the day: the clock is half a day off."""
    wave = _wave(channel)
    if wave is None or wave[0] < least_k or not COLDEST_FROM <= wave[1] <= until:
        return None
    low = wave[1]
    return Problem(
        slug="warmest-at-night",
        file="season.toml",
        column=f"[[logger]] {channel.logger} · clock",
        found=f"{where} it is coldest around {low:.0f}:00 and warmest around {(low + 12) % 24:.0f}:00, all along",
        expected="a coldest hour around sunrise",
        todo="look whether the logger was set to a.m. for p.m., or to the time of another part of the world, and "
        "correct its times in a copy, or its clock in season.toml",
        level="warning",
    )
