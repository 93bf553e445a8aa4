"""Numbers at a level at which their measure cannot be all winter: another unit, another column, another place.

Limits are common practice, no source. Nothing is changed: what is seen is asked about, or refused where nothing else
can be meant.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.problems import Level, Problem
from reportgen.readings.columns import unit_of
from reportgen.readings.neighbours import ENOUGH_HOURS, Pair, dark_hours, pair
from reportgen.readings.types import Channel
from reportgen.season import Season
from reportgen.season.sources import shown
from reportgen.units import MEASURES, convert
from reportgen.wording import Wording

COLD_C = -8.0  # half of a winter's readings beside a crop below this: 17.6 °F, which is a usual number of °C
HOT_C, DRY_PCT = 45.0, 25.0  # half of a winter's air above and humidity below: the two are exchanged
ENOUGH = 100  # readings from which a level is judged
WARMER_OUT_K = 3.0  # a clear night cools the air in a house below that outdoors by a degree or two, no further
STREET_KW, LEAST_W = 100.0, 6.0  # above and below what a heater of a small house draws
HALF = 0.5  # of a channel's values
OUTDOORS = ("outdoor_temperature", "air_temperature")


def level_doubts(channels: Sequence[Channel], season: Season) -> list[Problem]:
    """What the level of each channel, and of one beside another, speaks against."""
    told = [problem for channel in channels for problem in _alone(channel, season)]
    told += _exchanged(channels, season)
    return told + _warmer_outdoors(channels, season)


def _alone(channel: Channel, season: Season) -> list[Problem]:
    checks = (_mostly_impossible, _like_celsius, _like_watts, _like_kilowatts, _like_watt_hours)
    return [problem for check in checks if (problem := check(channel, season)) is not None]


def _mostly_impossible(channel: Channel, season: Season) -> Problem | None:
    """A column of which most is set aside as impossible holds something else."""
    count = channel.set_aside.get("impossible", 0)
    asked = channel.values_used + count
    if asked < ENOUGH or count <= HALF * asked:
        return None
    measure = MEASURES[channel.measure]
    unit = _unit(channel, season)
    low, high = convert(np.asarray([measure.lowest, measure.highest], dtype=np.float64), measure.kept, unit)
    return _asked(
        "mostly-impossible",
        channel,
        f"{count} of {asked} values of column {_column(channel, season)} cannot be: they are set aside",
        f"values from {low:g} to {high:g} {unit}",
        "look whether the column holds this measure in this unit, and no raw counts or tenths; name the right column "
        "or unit, or take the measure out",
    )


def _like_celsius(channel: Channel, season: Season) -> Problem | None:
    """Air beside the crop that is read as °F and would be in deep frost half of the winter."""
    beside = channel.where == "crop" and channel.measure == "air_temperature"
    if not beside or len(channel.values) < ENOUGH or _unit(channel, season) != "degF":
        return None
    middle = float(channel.values.median())
    if middle >= COLD_C:
        return None
    return _asked(
        "celsius-as-fahrenheit",
        channel,
        f"column {_column(channel, season)} read as °F, but half of its readings then lie below {middle:.0f} °C; as °C "
        f"they would lie around {middle * 1.8 + 32:.0f} °C",
        "the unit in which the logger writes",
        'add unit = "degC" to this column if the logger writes °C; if it was that cold beside the crop, leave it',
    )


def _like_watts(channel: Channel, season: Season) -> Problem | None:
    """A power declared in kW that no heater of a small house draws."""
    if channel.measure != "heater_power" or not len(channel.values) or _unit(channel, season) != "kW":
        return None
    most = float(channel.values.max()) / 1000.0
    if most <= STREET_KW:
        return None
    return _asked(
        "power-unit",
        channel,
        f"column {_column(channel, season)} read as kW, up to {most:g} kW",
        f"a heater of a small house, which draws at most {STREET_KW:g} kW",
        'write unit = "W" beside this column if the logger writes watts; until then its heat is a thousand times '
        "too much",
    )


def _like_kilowatts(channel: Channel, season: Season) -> Problem | None:
    """A heater's power declared in W that would not warm a cup."""
    heats = {source.logger for source in season.heating}
    if channel.measure != "heater_power" or channel.logger not in heats or _unit(channel, season) != "W":
        return None
    most = float(channel.values.max()) if len(channel.values) else 0.0
    if not 0 < most < LEAST_W:
        return None
    return _asked(
        "power-unit",
        channel,
        f"column {_column(channel, season)} read as W, never above {most:g} W",
        f"a heater, which draws {LEAST_W:g} W or more when it is on",
        'write unit = "kW" beside this column if the logger writes kilowatts; until then its heat is a thousand times '
        "too little",
    )


def _like_watt_hours(channel: Channel, season: Season) -> Problem | None:
    """A counter declared in kWh that runs as fast as no small house uses."""
    if channel.measure != "heater_energy" or len(channel.values) < 2 or _unit(channel, season) != "kWh":
        return None
    hours = (channel.values.index[-1] - channel.values.index[0]) / pd.Timedelta(hours=1)
    used = float(np.clip(np.diff(channel.values.to_numpy(dtype=np.float64)), 0.0, None).sum())
    if hours < 1 or used / hours <= STREET_KW:
        return None
    return _asked(
        "power-unit",
        channel,
        f"column {_column(channel, season)} read as kWh runs up by {used / hours:.0f} kWh an hour",
        f"a small house, which uses at most {STREET_KW:g} kWh an hour",
        'write unit = "Wh" beside this column if it counts watt-hours; until then its heat is a thousand times '
        "too much",
    )


def _exchanged(channels: Sequence[Channel], season: Season) -> list[Problem]:
    """Air far too warm beside humidity far too low, of one logger: each stands in the other's column."""
    told = []
    for air in (channel for channel in channels if channel.measure == "air_temperature" and len(channel.values)):
        damp = next((c for c in channels if (c.logger, c.measure) == (air.logger, "relative_humidity")), None)
        if damp is None or not len(damp.values):
            continue
        warm, dry = float(air.values.median()), float(damp.values.median())
        if warm > HOT_C and dry < DRY_PCT and min(len(air.values), len(damp.values)) >= ENOUGH:
            told.append(
                _asked(
                    "humidity-exchanged",
                    air,
                    f"column {_column(air, season)} around {warm:.0f} °C and column {_column(damp, season)} around "
                    f"{dry:.0f} % all along",
                    "cooler air beside such dry air: here each seems to stand in the other's column",
                    "exchange the two column names in season.toml",
                    "problem",
                )
            )
    return told


def _warmer_outdoors(channels: Sequence[Channel], season: Season) -> list[Problem]:
    """Nights that are warmer outdoors than beside the crop: the units differ, or the places are exchanged."""
    crops = [c for c in channels if c.where == "crop" and c.measure == "air_temperature" and len(c.values)]
    outs = [c for c in channels if c.where == "outdoor" and c.measure in OUTDOORS and len(c.values)]
    told = []
    for out in outs:
        pairs = [both for crop in crops if len((both := pair(crop, out)).hours) >= ENOUGH_HOURS]
        apart = [(_night_apart(both, season), both) for both in pairs]
        if apart and all(gap < -WARMER_OUT_K for gap, _ in apart):
            told.append(_ask_place(apart[0][1], apart[0][0], season))
    return told


def _night_apart(both: Pair, season: Season) -> float:
    """Crop less outdoors in the middle of their common nights [K]; 0 with few."""
    dark = dark_hours(both, season)
    return float(np.median((both.a - both.b)[dark])) if int(dark.sum()) >= ENOUGH_HOURS else 0.0


def _ask_place(both: Pair, apart: float, season: Season) -> Problem:
    crop, out = both.one, both.two
    return _asked(
        "warmer-outdoors",
        out,
        f"nights are {Wording.of(season).diff(-apart)} warmer at {out.logger}, which hangs outdoors, than at "
        f"{crop.logger} beside the crop",
        "nights that are no warmer outdoors than in the house",
        f"look which of the two hangs where, and whether the columns {_column(crop, season)} and "
        f"{_column(out, season)} are in the unit that season.toml says",
    )


def _asked(slug: str, channel: Channel, found: str, expected: str, todo: str, level: Level = "warning") -> Problem:
    return Problem(
        slug=slug,
        file="season.toml",
        column=f"[[logger]] {channel.logger} · {channel.measure}",
        found=found,
        expected=expected,
        todo=todo,
        level=level,
    )


def _unit(channel: Channel, season: Season) -> str:
    return unit_of(channel.measure, season.logger(channel.logger).measures[channel.measure])


def _column(channel: Channel, season: Season) -> str:
    column = season.logger(channel.logger).measures[channel.measure].column
    return repr(column) if isinstance(column, str) else shown(column)
