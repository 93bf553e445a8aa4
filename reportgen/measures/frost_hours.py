"""The season by the hour, as the cooling models need it."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH, standard_offset, stats_between
from reportgen.measures.exposure import Floats, Line, to_seconds
from reportgen.measures.heating_hours import HEATED_SHARE, HeatCurve, heat_by_hour, heat_curves, hourly_mean, hours_of
from reportgen.measures.places import outdoor, soil
from reportgen.readings.types import Readings


def hour_table(readings: Readings, curve: Line | None) -> pd.DataFrame:
    """One row an hour of the season.

    Columns: inside, inside_start, inside_end, outside, soil [°C]; watts of the heaters known by the hour, unsure [W]
    spread from sums; heated by a main heater (1, 0, NaN); night (its evening's date); clock_h (standard time).
    """
    hours = hours_of(readings)
    seconds = to_seconds(hours)
    table = pd.DataFrame(index=hours)
    stats = stats_between(curve, seconds, seconds + 3600.0) if curve is not None else None
    table["inside"] = np.nan if stats is None else stats["mean"].where(stats["share"] >= ENOUGH).to_numpy()
    table["inside_start"] = np.nan if curve is None else curve.at(seconds)
    table["inside_end"] = np.nan if curve is None else curve.at(seconds + 3600.0)
    for name, channel in (("outside", outdoor(readings, "air_temperature")), ("soil", soil(readings))):
        table[name] = np.nan if channel is None else hourly_mean(channel.values, hours, channel.measure)
    table["watts"], table["unsure"], table["heated"] = _heat(readings, hours)
    local = (seconds + standard_offset(readings.season).total_seconds()) / 3600.0
    table["clock_h"] = np.floor(local % 24.0 + 1e-9).astype(int)
    table["night"] = [_evening(x) for x in local]
    return table


def _heat(readings: Readings, hours: pd.DatetimeIndex) -> tuple[Floats, Floats, Floats]:
    """watts, unsure and heated of `hour_table`, shapes (hours,).

    A heater's log that begins on the day on which the diary put a heater in tells that nothing was heated before.
    """
    seconds = to_seconds(hours)
    if not readings.heating:
        zero = np.zeros(len(hours))
        return zero, zero, zero
    all_curves = heat_curves(readings)
    curves = [c for c in all_curves if c.role != "appliance"]
    by_hour = heat_by_hour(readings, all_curves)
    fine = [c for c in curves if c.by_hour]
    watts = {c.name: _before_zero(readings, c, seconds, by_hour[c.name].to_numpy(dtype=np.float64)) for c in fine}
    unsure = sum((c.between("spread", seconds, seconds + 3600.0) * 1000.0 for c in curves), np.zeros(len(hours)))
    unknown = np.full(len(hours), np.nan)
    main = [watts[c.name] for c in fine if c.role == "main"]
    total = np.sum(list(watts.values()), axis=0) if watts else unknown
    if not main or np.isnan(main).all():
        return total, np.asarray(unsure), unknown
    power = np.sum(main, axis=0)
    heated = np.where(np.isnan(power), np.nan, power > max(HEATED_SHARE * np.nanmax(power), 1e-9))
    return total, np.asarray(unsure), heated


def _before_zero(readings: Readings, curve: HeatCurve, seconds: Floats, watts: Floats) -> Floats:
    """Watts, 0 before the log's beginning where that is the day on which the diary says a heater came in."""
    if not len(curve.knots):
        return watts
    begun = pd.Timestamp(curve.knots[0], unit="s", tz="UTC").tz_convert(readings.season.zone).date()
    came = any(e.kind == "change" and "heater" in e.touches and abs((e.date - begun).days) <= 1 for e in readings.diary)
    return np.where(came & (seconds + 3600.0 <= curve.knots[0]), 0.0, watts)


def _evening(local_h: float) -> date:
    return date(1970, 1, 1) + timedelta(days=int((local_h - 12.0) // 24.0))
