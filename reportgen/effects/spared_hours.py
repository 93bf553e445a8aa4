"""The season by the hour as the spared heat needs it: the heaters' kWh and money, darkness, hours at full power."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.effects.spared import Bools, HeatHours
from reportgen.measures.days import standard_offset
from reportgen.measures.exposure import Floats, to_seconds
from reportgen.measures.heat_sums import total_cost
from reportgen.measures.heating_hours import (
    HeatCurve,
    full_power_from,
    heat_between,
    heat_by_hour,
    heat_curves,
    heated_hours,
    hours_of,
)
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import Readings
from reportgen.season import Season
from reportgen.sun import zenith

HORIZON_DEG = 90.0  # of the sun's centre, straight down from the zenith
SURELY_DARK = (21, 5)  # hours of the clock, where no latitude is given


def heat_hours(readings: Readings) -> HeatHours | None:
    """Hour by hour what the heaters gave; None without a heater."""
    if not readings.heating:
        return None
    hours, curves = hours_of(readings), heat_curves(readings)
    seconds = to_seconds(hours)
    given = heat_between(readings, seconds, seconds + 3600.0, appliances=False, curves=curves)
    by_hour = heat_by_hour(readings, curves)
    kwh = np.nan_to_num(given.kwh)
    return HeatHours(
        kwh=kwh,
        room=room(kwh, curves),
        money=np.nan_to_num(given.cost) if total_cost(readings.heating).value is not None else None,
        dark=dark_hours(hours, readings.season),
        flat_out=_flat_out(by_hour, curves),
        heated=heated_hours(by_hour).to_numpy(dtype=np.float64) == 1.0,
    )


def dark_hours(hours: pd.DatetimeIndex, season: Season) -> Bools:
    """Hours in whose middle the sun stands below the horizon; without a latitude 21 to 5 h by the clock.

    Shape as `hours`.
    """
    place = season.place
    if place.latitude is None:
        start, end = SURELY_DARK
        return np.asarray((hours.hour >= start) | (hours.hour < end))
    middle = hours + pd.Timedelta(minutes=30)
    longitude = place.longitude
    if longitude is None:  # by the zone's own meridian: 15° for each hour of standard time
        longitude = standard_offset(season).total_seconds() / 240.0
    return np.asarray(zenith(middle, place.latitude, longitude) > HORIZON_DEG)


def _flat_out(by_hour: pd.DataFrame, curves: Sequence[HeatCurve]) -> Bools:
    """Hours in which a heater whose hours are known gave 95 % or more of what it can."""
    flat = np.zeros(len(by_hour), dtype=bool)
    for curve in curves:
        if curve.by_hour and curve.role != "appliance" and curve.most_w is not None:
            flat |= by_hour[curve.name].to_numpy(dtype=np.float64) >= full_power_from(curve.most_w)
    return flat


def room(kwh: Floats, curves: Sequence[HeatCurve]) -> Floats:
    """Heat that the heaters could have given on top of each hour's [kWh, shape (n,)], infinite where one has no rated
    power. What an hour has really seen counts where it is more than the plates promise."""
    heaters = [curve.most_w for curve in curves if curve.role != "appliance"]
    if not len(kwh) or any(most_w is None for most_w in heaters):
        return np.full(len(kwh), np.inf)
    most = max(sum(most_w or 0.0 for most_w in heaters) / 1000.0, float(kwh.max()))
    return most - kwh


def on_hours(lever: Lever, hours: pd.DatetimeIndex) -> Bools:
    """Hours that begin while the lever is on; shape as `hours`."""
    seconds: Floats = to_seconds(hours)
    on = np.zeros(len(seconds), dtype=bool)
    for state in lever.states:
        if state.on:
            on |= (seconds >= state.from_.timestamp()) & (seconds < state.to.timestamp())
    return on
