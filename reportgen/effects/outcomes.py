"""What the house did, one number a garden day and outcome; changes are judged on these.

Method: methods page, *What a change did*. All from the main crop logger, so that a logger that drops out moves
nothing; a figure counts when 80 % of its window was logged.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.air import absolute_humidity_gm3
from reportgen.effects.bed import add_share_of_bed
from reportgen.effects.causes import causes
from reportgen.effects.curves import hours_above, paired
from reportgen.effects.heat_days import HeatDays, heat_days
from reportgen.effects.lost_nights import Need, needs_of
from reportgen.effects.weather import weather
from reportgen.measures.days import DATE, GARDEN_DAY, LONG_NIGHT, NIGHT, dates, enough, window_stats
from reportgen.measures.exposure import Line, channel_line
from reportgen.measures.heat_nights import HEATED_ENOUGH_H, LIFT_ENOUGH_K
from reportgen.measures.places import (
    anywhere,
    main_crop,
    no_outdoor_air,
    outdoor,
    seldom_crop,
    seldom_inside,
    seldom_outdoors,
    soil,
    why_no,
    why_no_soil,
)
from reportgen.once import once
from reportgen.readings.types import Channel, Readings

OUTCOMES = (
    "lift",
    "night_minimum",
    "heat",
    "watts_per_kelvin",
    "night_humidity",
    "moisture",
    "damp_hours",
    "soil_mean",
    "soil_swing",
    "daily_light",
)
LARGER_IS_BETTER = frozenset({"lift", "night_minimum", "soil_mean", "daily_light"})
HEAT = frozenset({"heat", "watts_per_kelvin"})


@dataclass(frozen=True, kw_only=True, slots=True)
class DayTable:
    """Everything an estimate needs of the season, by garden day; index = dates.

    `outcomes`: a column an outcome that could be had. `units`: outcome → unit. `missing`: outcome, or
    weather, → why it could not.
    """

    outcomes: pd.DataFrame
    weather: pd.DataFrame
    heat: HeatDays
    units: Mapping[str, str]
    missing: Mapping[str, str]
    needs: Mapping[str, tuple[Need, ...]] = field(default_factory=dict)  # outcome → what a night must have for it


@once
def day_table(readings: Readings) -> DayTable:
    """Outcomes and weather of every garden day of the season."""
    season = readings.season
    heat = heat_days(readings)
    table = pd.DataFrame(index=pd.Index(dates(season), name="date"))
    missing: dict[str, str] = {}
    light_unit = "MJ/m²"
    air = _air(table, missing, readings)
    _heat(table, missing, heat)
    _damp(table, missing, readings)
    _bed(table, missing, readings)
    if (unit := _light(table, missing, readings)) is not None:
        light_unit = unit
    columns = weather(readings)
    add_share_of_bed(columns, table, causes(readings))
    if "ton" not in columns:
        seldom = seldom_outdoors(readings, "air_temperature")
        missing["weather"] = why_no(seldom, "no outdoor temperature was logged")
    return DayTable(
        outcomes=table,
        weather=columns,
        heat=heat,
        units=MappingProxyType(_units(light_unit)),
        missing=MappingProxyType(missing),
        needs=MappingProxyType(needs_of(table, air, heat)),
    )


def _units(light: str) -> dict[str, str]:
    kelvin = dict.fromkeys(("lift", "night_minimum", "soil_mean", "soil_swing"), "K")
    rest = {"heat": "kWh", "watts_per_kelvin": "W/K", "night_humidity": "%", "moisture": "g/m³", "damp_hours": "h"}
    return kelvin | rest | {"daily_light": light}


def _curve(channel: Channel | None) -> Line | None:
    return None if channel is None or len(channel.values) < 2 else channel_line(channel)


def _air(table: pd.DataFrame, missing: dict[str, str], readings: Readings) -> dict[str, NDArray[np.bool_]]:
    """Adds warmth at night; returns whether each of the two readings was logged in the night."""
    inside, outside = _curve(main_crop(readings, "air_temperature")), _curve(outdoor(readings, "air_temperature"))
    if inside is None or outside is None:
        no_air = why_no(seldom_crop(readings, "air_temperature"), "no air temperature was logged beside the crop")
        words = no_air if inside is None else no_outdoor_air(readings)
        missing |= dict.fromkeys(("lift", "night_minimum"), words)
        return {}
    season = readings.season
    within, beyond = (enough(window_stats(curve, season, NIGHT)) for curve in (inside, outside))
    table["lift"] = within - beyond
    lowest_in = enough(window_stats(inside, season, LONG_NIGHT), "min")
    table["night_minimum"] = lowest_in - enough(window_stats(outside, season, LONG_NIGHT), "min")
    known = {"the air beside the crop": within, "the air outdoors": beyond}
    return {words: values.notna().to_numpy(dtype=bool) for words, values in known.items()}


def _heat(table: pd.DataFrame, missing: dict[str, str], heat: HeatDays) -> None:
    if heat.reason:
        missing |= dict.fromkeys(("heat", "watts_per_kelvin"), heat.reason)
        return
    table["heat"] = heat.table["kwh"]
    if not heat.by_hour:
        missing["watts_per_kelvin"] = "the heat was not logged by the hour"
    elif "lift" not in table:
        missing["watts_per_kelvin"] = missing["lift"]
    else:
        counts = (table["lift"] > LIFT_ENOUGH_K) & (heat.table["night_heated_h"] >= HEATED_ENOUGH_H)
        table["watts_per_kelvin"] = (heat.table["night_w"] / table["lift"]).where(counts)


def _damp(table: pd.DataFrame, missing: dict[str, str], readings: Readings) -> None:
    humidity = _curve(main_crop(readings, "relative_humidity"))
    if humidity is None:
        names = ("night_humidity", "moisture", "damp_hours")
        seldom = seldom_crop(readings, "relative_humidity")
        missing |= dict.fromkeys(names, why_no(seldom, "no humidity was logged beside the crop"))
        return
    season = readings.season
    night = window_stats(humidity, season, NIGHT)
    table["night_humidity"] = enough(night)
    above = hours_above(humidity, season.aims.humidity_high_pct, season, NIGHT)
    table["damp_hours"] = above.where(table["night_humidity"].notna())
    air = _curve(main_crop(readings, "air_temperature"))
    water = paired(humidity, air, lambda rh, temp: np.asarray(absolute_humidity_gm3(temp, rh))) if air else None
    if water is None:
        missing["moisture"] = "air temperature and humidity were not logged together"
    else:
        table["moisture"] = enough(window_stats(water, season, NIGHT))


def _bed(table: pd.DataFrame, missing: dict[str, str], readings: Readings) -> None:
    bed = _curve(soil(readings))
    if bed is None:
        missing |= dict.fromkeys(("soil_mean", "soil_swing"), why_no_soil(readings))
        return
    day = window_stats(bed, readings.season, GARDEN_DAY)
    table["soil_mean"] = enough(day)
    table["soil_swing"] = enough(day, "max") - enough(day, "min")


def _light(table: pd.DataFrame, missing: dict[str, str], readings: Readings) -> str | None:
    """Light inside: quanta [mol m⁻²] where logged, else energy [MJ m⁻²]; the unit, or None."""
    for measure, unit in (("ppfd", "mol/m²"), ("solar_radiation", "MJ/m²")):
        if (curve := _curve(anywhere(readings, measure))) is not None:
            table["daily_light"] = enough(window_stats(curve, readings.season, DATE)) * 86_400 / 1e6
            return unit
    seldom = seldom_inside(readings, "ppfd") or seldom_inside(readings, "solar_radiation")
    missing["daily_light"] = why_no(seldom, "no light was logged inside")
    return None
