"""Where the sun stands, how long the day is, and how much light a clear sky would give.

Equations: J. Meeus, Astronomical Algorithms (2nd ed. 1998), ch. 25 low accuracy and ch. 28, as NOAA's solar
calculator uses them: about 0.01° in the years 1950–2050. Latitude is positive north, longitude positive east.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import numpy as np
import pandas as pd
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

RISE_ALTITUDE_DEG = -0.833  # upper limb on the horizon, refraction 34′ and half-diameter 16′; almanac practice
J2000 = 2451545.0  # Julian date of 2000-01-01 12:00


@dataclass(frozen=True, kw_only=True, slots=True)
class Sun:
    """The sun at n instants: declination [°], equation of time [min], right ascension [°], distance [au]."""

    declination_deg: Floats
    equation_of_time_min: Floats
    right_ascension_deg: Floats
    distance_au: Floats


def place_of_sun(julian_date: ArrayLike) -> Sun:
    """The sun as seen from the Earth's centre, at each `julian_date` [days]; any shape, kept in every field.

    Source: Meeus eq. 25.2–25.8 and 28.3.
    """
    t = (np.asarray(julian_date, dtype=np.float64) - J2000) / 36525.0
    mean_long = np.radians((280.46646 + t * (36000.76983 + t * 0.0003032)) % 360.0)
    anomaly = np.radians((357.52911 + t * (35999.05029 - t * 0.0001537)) % 360.0)
    ecc = 0.016708634 - t * (0.000042037 + t * 0.0000001267)
    centre = np.radians(
        np.sin(anomaly) * (1.914602 - t * (0.004817 + t * 0.000014))
        + np.sin(2 * anomaly) * (0.019993 - t * 0.000101)
        + np.sin(3 * anomaly) * 0.000289
    )
    node = np.radians(125.04 - 1934.136 * t)
    longitude = mean_long + centre + np.radians(-0.00569 - 0.00478 * np.sin(node))
    mean_tilt = 23.0 + (26.0 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60.0) / 60.0
    tilt = np.radians(mean_tilt + 0.00256 * np.cos(node))
    y = np.tan(tilt / 2) ** 2
    time_eq = (
        y * np.sin(2 * mean_long)
        - 2 * ecc * np.sin(anomaly)
        + 4 * ecc * y * np.sin(anomaly) * np.cos(2 * mean_long)
        - 0.5 * y**2 * np.sin(4 * mean_long)
        - 1.25 * ecc**2 * np.sin(2 * anomaly)
    )
    return Sun(
        declination_deg=np.degrees(np.arcsin(np.sin(tilt) * np.sin(longitude))),
        equation_of_time_min=4.0 * np.degrees(time_eq),
        right_ascension_deg=np.degrees(np.arctan2(np.cos(tilt) * np.sin(longitude), np.cos(longitude))) % 360.0,
        distance_au=1.000001018 * (1 - ecc**2) / (1 + ecc * np.cos(anomaly + centre)),
    )


def _julian(seconds: Floats) -> Floats:
    """Julian date of seconds since 1970 UTC (2440587.5 is 1970-01-01 00:00)."""
    return np.asarray(seconds / 86400.0 + 2440587.5)


def _days(dates: Iterable[date]) -> Floats:
    """00:00 UTC of each date, seconds since 1970."""
    return np.array([(d - date(1970, 1, 1)).days for d in dates], dtype=np.float64) * 86400.0


def zenith(times: pd.DatetimeIndex, latitude: float, longitude: float) -> Floats:
    """Geometric angle between the sun's centre and straight up [°], shape (n,); no refraction.

    Args:
        times: Zone-aware, any zone.
        latitude, longitude: Degrees, north and east positive.

    Raises:
        ValueError: Times without a zone.
    """
    if times.tz is None:
        raise ValueError("times need a zone")
    seconds = times.tz_convert("UTC").tz_localize(None).to_numpy().astype("datetime64[ns]").astype(np.int64) / 1e9
    sun = place_of_sun(_julian(seconds))
    solar_min = (seconds / 60.0) % 1440.0 + sun.equation_of_time_min + 4.0 * longitude
    hour_angle = np.radians(solar_min / 4.0 - 180.0)
    return np.degrees(np.arccos(_cos_zenith(latitude, sun.declination_deg, hour_angle)))


def _cos_zenith(latitude: float, declination_deg: Floats, hour_angle: Floats) -> Floats:
    lat, dec = np.radians(latitude), np.radians(declination_deg)
    cosine = np.sin(lat) * np.sin(dec) + np.cos(lat) * np.cos(dec) * np.cos(hour_angle)
    return np.asarray(np.clip(cosine, -1.0, 1.0))


def _half_day_deg(latitude: float, declination_deg: Floats, altitude_deg: float) -> Floats:
    """Hour angle at which the sun's centre stands at an altitude [°]; 0 polar night, 180 midnight sun."""
    lat, dec = np.radians(latitude), np.radians(declination_deg)
    cosine = (np.sin(np.radians(altitude_deg)) - np.sin(lat) * np.sin(dec)) / (np.cos(lat) * np.cos(dec))
    return np.asarray(np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0))))


def day_length_h(dates: Iterable[date], latitude: float) -> Floats:
    """Hours from sunrise to sunset (upper limb, −0.833°), shape (days,).

    Declination at 12:00 UTC: away from Greenwich it is off by at most half a day, below 2 minutes of day length
    between 60° S and 60° N, and nearer the poles by as much as the day length changes in half a day. 0 in polar night,
    24 under the midnight sun.
    """
    sun = place_of_sun(_julian(_days(dates) + 43200.0))
    return np.asarray(2.0 * _half_day_deg(latitude, sun.declination_deg, RISE_ALTITUDE_DEG) / 15.0)


def sunrise_sunset(
    dates: Iterable[date], latitude: float, longitude: float
) -> tuple[pd.DatetimeIndex, pd.DatetimeIndex]:
    """Sunrise and sunset of each date [UTC]; NaT in polar day or night. Two rounds, within half a minute of SPA."""
    midnight = _days(list(dates))
    out = []
    for sign in (-1.0, 1.0):
        seconds = midnight + 43200.0 - longitude * 240.0
        for _ in range(3):
            sun = place_of_sun(_julian(seconds))
            half = _half_day_deg(latitude, sun.declination_deg, RISE_ALTITUDE_DEG)
            noon_min = 720.0 - 4.0 * longitude - sun.equation_of_time_min
            seconds = midnight + 60.0 * (noon_min + sign * 4.0 * half)
        seconds = np.where((half > 0) & (half < 180), seconds, np.nan)
        out.append(pd.DatetimeIndex(pd.to_datetime(seconds, unit="s", utc=True)))
    return out[0], out[1]


def clear_sky_w_m2(zenith_deg: ArrayLike) -> Floats:
    """Global radiation on the level under a clear sky [W/m²], 0 at night; any shape, kept.

    Source: B. Haurwitz, J. Meteorol. 2 (1945) 154: 1098 · cos z · exp(−0.059 / cos z).
    """
    cosine = np.cos(np.radians(np.asarray(zenith_deg, dtype=np.float64)))
    up = np.where(cosine > 1e-3, cosine, 1.0)
    return np.asarray(np.where(cosine > 1e-3, 1098.0 * up * np.exp(-0.059 / up), 0.0))


def clear_sky_sum(dates: Iterable[date], latitude: float) -> Floats:
    """Clear-sky sum of each date [Wh/m²], shape (days,): Haurwitz over the solar day every 5 minutes."""
    sun = place_of_sun(_julian(_days(dates) + 43200.0))
    hour_angle = np.radians((np.arange(288) + 0.5) / 288 * 360.0 - 180.0)
    cosine = _cos_zenith(latitude, sun.declination_deg[:, None], hour_angle[None, :])
    return np.asarray(clear_sky_w_m2(np.degrees(np.arccos(cosine))).sum(axis=1) / 12.0)
