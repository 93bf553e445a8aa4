"""Moist air inside and outside as joined curves, at the main crop logger's own stamps.

Everything is worked out at the stamps of the humidity readings; between two of them the derived value is taken as a
straight line, like the readings themselves.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen import air
from reportgen.measures.exposure import Floats, Line, channel_line, clip
from reportgen.measures.places import main_crop, outdoor
from reportgen.measures.seldom import too_seldom
from reportgen.readings.types import Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class Moist:
    """Air at n stamps: temperature [°C] and humidity over water [%], NaN where one is missing; `rh` joins them."""

    logger: str
    rh: Line
    temp_c: Floats
    rh_accuracy: float | None
    temp_accuracy: float | None

    def curve(self, values: Floats) -> Line:
        """The `values` at the stamps, shape (n,), as a joined curve in their own unit; a stamp with NaN breaks it."""
        good = ~np.isnan(values)
        kept = np.flatnonzero(good)
        linked = self.rh.joined[kept[:-1]] & (np.diff(kept) == 1) if len(kept) > 1 else np.zeros(0, dtype=bool)
        return Line(zone=self.rh.zone, seconds=self.rh.seconds[kept], values=values[kept], joined=linked)

    def humidity(self, shift: float = 0.0) -> Floats:
        """Humidity with the readings moved by `shift` [points], held within 0…100 %; shape (n,)."""
        return np.clip(self.rh.values + shift, 0.0, 100.0)


def inside(readings: Readings) -> Moist | None:
    """The main logger's air; None without a humidity sensor at a crop logger."""
    channel = main_crop(readings, "relative_humidity")
    if channel is None:
        return None
    rh = clip(channel_line(channel), readings.season.start, readings.season.end)
    temp = readings.channel(channel.logger, "air_temperature")
    temp = None if temp is None or too_seldom(temp) else temp
    at = channel_line(temp).at(rh.seconds) if temp is not None and len(temp.values) else np.full(len(rh.values), np.nan)
    return Moist(
        logger=channel.logger,
        rh=rh,
        temp_c=at,
        rh_accuracy=channel.accuracy,
        temp_accuracy=temp.accuracy if temp is not None else None,
    )


def outdoor_at(readings: Readings, seconds: Floats) -> tuple[Floats, Floats]:
    """Outdoor temperature [°C] and humidity [%] at instants, NaN where not logged; shapes (n,)."""
    nothing = np.full(len(seconds), np.nan)
    temp, rh = outdoor(readings, "air_temperature"), outdoor(readings, "relative_humidity")
    return (
        channel_line(temp).at(seconds) if temp is not None else nothing,
        channel_line(rh).at(seconds) if rh is not None else nothing,
    )


def mean_of(curve: Line) -> float | None:
    """Mean over the recorded time, in the unit of the curve; None where there is none."""
    hours = curve.hours
    if not hours.sum():
        return None
    return float(((curve.values[:-1] + curve.values[1:]) / 2 * hours).sum() / hours.sum())


def glazing_excess_k(moist: Moist, outdoor_c: Floats, u: float, r_si: float, shift: tuple[float, float]) -> Floats:
    """How far the dew or frost point lies above the inside of the glazing [K]; dew forms where it is above 0.

    Args:
        outdoor_c: Air outdoors at the stamps [°C], shape (n,), as what is given back.
        u: U value of the glazing [W m⁻² K⁻¹].
        r_si: Inside surface resistance [m² K/W].
        shift: Added to temperature [K] and humidity [points].
    """
    temp = moist.temp_c + shift[0]
    surface = air.glazing_inside_c(temp, outdoor_c, u, r_si)
    point = air.dew_point_c(temp, moist.humidity(shift[1]))
    frozen = air.deposit_point_c(temp, moist.humidity(shift[1]))
    return np.asarray(np.where(surface < 0, frozen, point) - surface)


def time_in(spells: list[tuple[float, float]], starts: Floats, ends: Floats) -> Floats:
    """Hours of each stretch `starts` … `ends` [s since 1970] that lie in the spells; shapes (n,)."""
    if not spells:
        return np.zeros(len(starts))
    knots = np.asarray(spells).ravel()
    total = np.concatenate([[0.0], np.cumsum(np.where(np.arange(len(knots) - 1) % 2 == 0, np.diff(knots), 0.0))])
    return np.asarray(np.interp(ends, knots, total) - np.interp(starts, knots, total)) / 3600.0


def local(second: float, like: Line) -> pd.Timestamp:
    """An instant [s since 1970] in the season's zone, to the second."""
    return like.stamp(round(second))
