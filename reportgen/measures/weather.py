"""The winter outdoors in three figures, so that houses and winters can be told apart from their weather."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta

from reportgen.measures.days import NIGHT, enough, mean_known, window_stats
from reportgen.measures.exposure import Line, channel_line, clip, degree_hours_below
from reportgen.measures.hold import hold_pieces
from reportgen.measures.places import outdoor
from reportgen.readings.types import Readings

NO_OUTDOOR = "no outdoor temperature was logged"
NO_HOLD = "no hold is named in season.toml"


@dataclass(frozen=True, kw_only=True, slots=True)
class Weather:
    """Outdoor air of the season.

    `mean_night_c`: mean over the nights (20–06 h) of which 80 % is recorded. `kelvin_hours_below_hold`: how far [K]
    and how long [h] it was colder outdoors than the hold of the day, over the recorded hours alone (`hours_recorded`).
    """

    mean_night_c: float | None
    coldest_c: float | None
    kelvin_hours_below_hold: float | None
    hours_recorded: float
    reasons: Mapping[str, str]


def weather(readings: Readings) -> Weather:
    """The three figures, each with its reason where it could not be had."""
    season, air = readings.season, _air(readings)
    if air is None:
        names = ("mean_night_c", "coldest_c", "kelvin_hours_below_hold")
        nothing = dict.fromkeys(names, NO_OUTDOOR)
        return Weather(
            mean_night_c=None, coldest_c=None, kelvin_hours_below_hold=None, hours_recorded=0.0, reasons=nothing
        )
    reasons: dict[str, str] = {}
    nights = mean_known(enough(window_stats(air, season, NIGHT)))
    if nights is None:
        reasons["mean_night_c"] = "no night has 80\u00a0% of its outdoor readings"
    short = _below_hold(readings, air)
    if short is None:
        reasons["kelvin_hours_below_hold"] = NO_HOLD
    return Weather(
        mean_night_c=nights,
        coldest_c=coldest_outdoors(readings),
        kelvin_hours_below_hold=short,
        hours_recorded=air.hours_recorded,
        reasons=reasons,
    )


def coldest_outdoors(readings: Readings) -> float | None:
    """The coldest reading outdoors in the days of the season [°C], by day or night; None where nothing was logged.

    The one figure for it, wherever the review names the coldest of this winter. A night's or an hour's mean, or the
    coldest of some of the nights, is another thing and is called so.
    """
    air = _air(readings)
    return float(air.values.min()) if air is not None else None


def _air(readings: Readings) -> Line | None:
    """The outdoor air in the season's days; None where there is none."""
    channel = outdoor(readings, "air_temperature")
    air = clip(channel_line(channel), readings.season.start, readings.season.end) if channel is not None else None
    return air if air is not None and len(air.values) else None


def _below_hold(readings: Readings, air: Line) -> float | None:
    """Kelvin-hours below the hold of each day; None where no day has one."""
    pieces = hold_pieces(readings)
    if not pieces:
        return None
    total = 0.0
    for first, last, hold in pieces:
        start, end = (readings.season.midnight(day) for day in (first, last + timedelta(days=1)))
        total += degree_hours_below(clip(air, start, end), hold)
    return total
