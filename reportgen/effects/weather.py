"""The weather of every garden day, and which of its columns stand beside which outcome.

Columns and sets: methods page, *What a change did*. All from outdoors, so that no change of the house can hide in
them; `tsd`, `ts` and `tsr` alone use the bed, which answers slowly, and are left out for changes that touch the bed.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np
import pandas as pd

from reportgen.air import absolute_humidity_gm3
from reportgen.effects.curves import paired, short_of
from reportgen.measures.days import (
    DATE,
    DAYTIME,
    EVENING_SOIL,
    GARDEN_DAY,
    LONG_NIGHT,
    NEXT_MORNING,
    NIGHT,
    SUNNY,
    Window,
    dates,
    enough,
    window_stats,
)
from reportgen.measures.exposure import Line, channel_line
from reportgen.measures.places import outdoor, soil
from reportgen.readings.types import Readings
from reportgen.season import Season
from reportgen.sun import clear_sky_sum

YESTERDAY = Window(start_h=-24, end_h=0)
Sets = tuple[tuple[str, ...], ...]

# What a column is, in the grower's words (shown on the page beside each result).
WORDS: Mapping[str, str] = MappingProxyType(
    {
        "ton": "outdoor temperature at night",
        "hd5": "how far the day stayed under 5\u00a0°C",
        "hd10": "how far the day stayed under 10\u00a0°C",
        "hd15": "how far the day stayed under 15\u00a0°C",
        "tod": "outdoor temperature by day",
        "tun": "outdoor temperature of the garden day",
        "tp": "outdoor temperature of the day before",
        "sol": "the day's sunlight",
        "solm": "the next morning's sunlight",
        "ahout": "moisture of the outdoor air",
        "tsd": "how warm the bed began the night",
        "ts": "how warm the bed was in the evening",
        "tsr": "how much the bed gave to the night beside what the cold asked",
        "cs": "what sun the date could bring",
        "csrng": "how far the day warmed up, as a stand-in for sun",
        "R": "how far the day warmed up",
        "windn": "wind at night",
    }
)

_AIR_SETS: Sets = (
    ("ton", "hd5", "hd10", "sol", "tsd"),
    ("ton", "hd5", "hd10", "tsd"),
    ("ton", "hd5", "hd10", "tod", "csrng", "cs"),
)
_DAMP_SETS: Sets = (
    ("ton", "hd10", "sol", "ahout", "tsd"),
    ("ton", "hd10", "tod", "tsd"),
    ("ton", "hd10", "tod", "csrng", "cs"),
)
SETS: Mapping[str, Sets] = MappingProxyType(
    {
        "lift": _AIR_SETS,
        "night_minimum": _AIR_SETS,
        "heat": (("hd5", "hd10", "hd15", "tod", "sol"), ("hd5", "hd10", "hd15", "tod")),
        "watts_per_kelvin": (("ton", "tod", "sol"), ("ton",)),
        "night_humidity": _DAMP_SETS,
        "moisture": _DAMP_SETS,
        "damp_hours": _DAMP_SETS,
        "soil_mean": (("tun", "hd10", "sol", "solm", "cs"), ("tun", "hd10", "tp", "csrng", "cs")),
        "soil_swing": (("ton", "tod", "sol", "cs"), ("ton", "tod", "csrng", "R")),
        "daily_light": (("sol", "cs"), ("cs", "csrng")),
    }
)
EXTRAS: Mapping[str, tuple[str, ...]] = MappingProxyType({"watts_per_kelvin": ("windn",)})  # with the first set only
# Beside every set, last of all: the bed gives warmth in autumn and takes it in spring, which no outdoor column tells.
FROM_BED: Mapping[str, tuple[str, ...]] = MappingProxyType({"heat": ("ts",), "watts_per_kelvin": ("tsr",)})
BED_COLUMNS = frozenset({"tsd", "ts", "tsr"})  # the house's own doing where the change touches the bed


def weather(readings: Readings) -> pd.DataFrame:
    """Every column that this season allows; index = dates, NaN where under 80 % of its window was logged."""
    season = readings.season
    table = pd.DataFrame(index=pd.Index(dates(season), name="date"))
    air = _curve(readings, "air_temperature")
    if air is None:
        return table
    _temperatures(table, air, season)
    _suns(table, readings)
    _moisture(table, readings, air)
    if (bed := soil(readings)) is not None:
        table["ts"] = _mean(channel_line(bed), season, EVENING_SOIL)
        table["tsd"] = table["ts"] - table["ton"]
    if (wind := _curve(readings, "wind_speed")) is not None:
        table["windn"] = _mean(wind, season, NIGHT)
    return table


def _curve(readings: Readings, measure: str) -> Line | None:
    channel = outdoor(readings, measure)
    return None if channel is None or len(channel.values) < 2 else channel_line(channel)


def _mean(curve: Line, season: Season, window: Window) -> pd.Series:
    return enough(window_stats(curve, season, window))


def _temperatures(table: pd.DataFrame, air: Line, season: Season) -> None:
    table["ton"] = _mean(air, season, NIGHT)
    for base in (5, 10, 15):
        table[f"hd{base}"] = _mean(short_of(air, float(base)), season, GARDEN_DAY)
    table["tod"] = _mean(air, season, DAYTIME)
    table["tun"] = _mean(air, season, GARDEN_DAY)
    table["tp"] = _mean(air, season, YESTERDAY)
    warmest = enough(window_stats(air, season, SUNNY), "max")
    table["R"] = warmest - enough(window_stats(air, season, LONG_NIGHT), "min")


def _suns(table: pd.DataFrame, readings: Readings) -> None:
    """Sunlight [MJ m⁻²], measured outdoors, and what a clear sky would bring by the almanac."""
    season = readings.season
    light = _curve(readings, "solar_radiation") or _curve(readings, "ppfd")
    if light is not None:
        table["sol"] = _mean(light, season, DATE) * 24 * 3600 / 1e6
        table["solm"] = _mean(light, season, NEXT_MORNING) * 12 * 3600 / 1e6
    if season.place.latitude is not None:
        table["cs"] = np.asarray(clear_sky_sum(dates(season), season.place.latitude))
        table["csrng"] = table["cs"] * table["R"].clip(lower=0) / 10


def _moisture(table: pd.DataFrame, readings: Readings, air: Line) -> None:
    humidity = _curve(readings, "relative_humidity")
    if humidity is None:
        return
    water = paired(humidity, air, lambda rh, temp: np.asarray(absolute_humidity_gm3(temp, rh)))
    if water is not None:
        table["ahout"] = _mean(water, readings.season, NIGHT)
