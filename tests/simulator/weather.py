"""Seeded weather: a season, passing highs and lows, a day, cloud, wind and damp; or a real hourly record.

Every figure is a plausible one for an inland place about 50° N (from memory); nothing here is a forecast model.
The columns are always temp_c [°C], rh_pct [%, over water], wind_ms [m/s], ghi_wm2 [W/m²], cloud [0…1], index UTC.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy.signal import lfilter

Array = NDArray[np.float64]
COLUMNS = ("temp_c", "rh_pct", "wind_ms", "ghi_wm2")


@dataclass(frozen=True, kw_only=True, slots=True)
class Spell:
    """Weather that is made to come: `shift_k` on the air and `cloud` added, fading in and out over a day."""

    start: str
    end: str
    shift_k: float = 0.0
    cloud: float = 0.0
    damp_k: float = 0.0  # narrows the gap between air and dew point [K]
    calm: float = 1.0  # factor on the wind


@dataclass(frozen=True, kw_only=True, slots=True)
class Climate:
    """The place. `mean_c` is the year's mean, `swing_k` the half range between its coldest and warmest month."""

    latitude: float = 50.0
    longitude: float = 15.0
    mean_c: float = 8.6
    swing_k: float = 9.8
    coldest_day: float = 18.0  # day of the year
    synoptic_sd_k: float = 3.6
    synoptic_days: float = 3.2
    mean_cloud: float = 0.62
    mean_wind_ms: float = 2.4
    light: float = 1.0  # factor on the sun, for a place in shadow
    spells: tuple[Spell, ...] = ()


def synthetic(
    climate: Climate, start: str | pd.Timestamp, end: str | pd.Timestamp, seed: int, step_s: int = 600
) -> pd.DataFrame:
    """Weather from `start` to before `end` (UTC) every `step_s` seconds, the same for the same seed."""
    index = pd.date_range(_utc(start), _utc(end), freq=f"{step_s}s", inclusive="left")
    rng = np.random.default_rng([seed, 11])
    n, per_day = len(index), 86400 / step_s
    day = index.day_of_year.to_numpy(float) + index.hour.to_numpy(float) / 24
    spell = {name: _spells(climate.spells, index, name) for name in ("shift_k", "cloud", "damp_k")}
    slow = _ar(rng, n, climate.synoptic_days * per_day)
    cloud = _cloud(climate, rng, n, per_day, slow) + spell["cloud"]
    cloud = np.clip(cloud, 0.0, 1.0)
    ghi = clear_sky(climate, index) * (1 - 0.75 * cloud**3.4) * climate.light  # Kasten and Czeplak 1980
    seasonal = climate.mean_c - climate.swing_k * np.cos(2 * np.pi * (day - climate.coldest_day) / 365.25)
    base = seasonal + climate.synoptic_sd_k * slow + spell["shift_k"]
    temp = base + _day_swing(ghi, cloud, step_s) + 0.25 * _ar(rng, n, per_day / 12)
    depression = 0.8 + 3.4 * (1 - cloud) + 0.7 * _ar(rng, n, per_day) - spell["damp_k"]
    dew = np.minimum(_smooth(temp, per_day / 2) - np.clip(depression, 0.15, None), temp - 0.1)
    calm = _spells(climate.spells, index, "calm", neutral=1.0)
    wind = climate.mean_wind_ms * calm * np.exp(0.55 * _ar(rng, n, per_day / 2) + 0.0006 * ghi - 0.15)
    rh = 100 * saturation_pa(dew) / saturation_pa(temp)
    return pd.DataFrame({"temp_c": temp, "rh_pct": rh, "wind_ms": wind, "ghi_wm2": ghi, "cloud": cloud}, index=index)


def from_hourly(real: pd.DataFrame, step_s: int = 600, climate: Climate | None = None) -> pd.DataFrame:
    """A real hourly record (index UTC; columns temp_c, rh_pct, wind_ms, ghi_wm2) at a finer step, joined by lines.

    Cloud is worked out from the light against a clear sky, and held through the night.
    """
    if missing := [name for name in COLUMNS if name not in real]:
        raise ValueError(f"hourly weather without {', '.join(missing)}")
    fine = real[list(COLUMNS)].resample(f"{step_s}s").mean().interpolate("time", limit_direction="both")
    clear = pd.Series(clear_sky(climate or Climate(), pd.DatetimeIndex(fine.index)), index=fine.index)
    share = (fine["ghi_wm2"] / clear).where(clear > 80.0).clip(0.25, 1.0)
    fine["cloud"] = (((1 - share) / 0.75) ** (1 / 3.4)).ffill().bfill().fillna(0.6)
    return fine


def clear_sky(climate: Climate, index: pd.DatetimeIndex) -> Array:
    """Clear-sky global radiation [W/m²] (Haurwitz 1945) at a declination and hour angle good to about 1°."""
    day = index.day_of_year.to_numpy(float)
    hour = (index.hour * 3600 + index.minute * 60 + index.second).to_numpy(float) / 3600
    declination = np.radians(23.44) * np.sin(2 * np.pi * (day - 81) / 365.25)
    angle = np.radians(15.0) * (hour - 12.0) + np.radians(climate.longitude)
    latitude = np.radians(climate.latitude)
    cosine = np.sin(latitude) * np.sin(declination) + np.cos(latitude) * np.cos(declination) * np.cos(angle)
    up = np.maximum(cosine, 1e-3)
    return np.where(cosine > 1e-3, 1098.0 * up * np.exp(-0.059 / up), 0.0)


def saturation_pa(temp_c: Array) -> Array:
    """Saturation vapour pressure over water [Pa], Magnus form (WMO-No. 8, 2018)."""
    return np.asarray(611.2 * np.exp(17.62 * temp_c / (243.12 + temp_c)), dtype=np.float64)


def _utc(when: str | pd.Timestamp) -> pd.Timestamp:
    stamp = pd.Timestamp(when)
    return stamp.tz_localize("UTC") if stamp.tzinfo is None else stamp.tz_convert("UTC")


def _ar(rng: np.random.Generator, n: int, steps: float) -> Array:
    """First-order autoregressive noise of unit variance that forgets over `steps` steps."""
    keep = float(np.exp(-1.0 / max(steps, 1e-6)))
    noise = rng.standard_normal(n) * np.sqrt(1 - keep**2)
    noise[0] = rng.standard_normal()
    return np.asarray(lfilter([1.0], [1.0, -keep], noise), dtype=np.float64)


def _cloud(climate: Climate, rng: np.random.Generator, n: int, per_day: float, slow: Array) -> Array:
    """Cloud cover 0…1: mild air brings more of it, cold air less."""
    mixed = 1.3 * _ar(rng, n, per_day) + 0.7 * slow + 0.5 * _ar(rng, n, per_day / 10)
    centre = float(np.log(climate.mean_cloud / (1 - climate.mean_cloud)))
    return np.asarray(1 / (1 + np.exp(-(centre + 1.1 * mixed))), dtype=np.float64)


def _day_swing(ghi: Array, cloud: Array, step_s: int) -> Array:
    """Warming by sun and cooling under a clear sky, with a memory of six hours, mean about zero [K]."""
    forcing = 0.021 * ghi - 4.6 * (1 - 0.85 * cloud**2)
    return _smooth(forcing, 6 * 3600 / step_s) + 1.0


def _smooth(values: Array, steps: float) -> Array:
    keep = float(np.exp(-1.0 / steps))
    start = np.array([keep * values[0]])
    return np.asarray(lfilter([1 - keep], [1.0, -keep], values, zi=start)[0], dtype=np.float64)


def _spells(spells: Sequence[Spell], index: pd.DatetimeIndex, name: str, neutral: float = 0.0) -> Array:
    """What the made weather adds at each instant, faded in and out over a day."""
    seconds = index.as_unit("s").asi8.astype(np.float64)
    total = np.full(len(index), neutral)
    for spell in spells:
        start, end = _utc(spell.start).timestamp(), _utc(spell.end).timestamp()
        fade = np.clip(np.minimum(seconds - start, end - seconds) / 86400.0, 0.0, 1.0)
        total += (float(getattr(spell, name)) - neutral) * fade
    return total
