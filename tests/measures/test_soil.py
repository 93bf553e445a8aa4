"""The bed: its warmth against the aim, its wave, the heat stored and given back, and a fan's hours."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.exposure import line
from reportgen.measures.soil import soil
from reportgen.measures.soil_store import DuctLines, duct, duct_watts, season_change_k, stored_kwh, week_change_k
from reportgen.plain import plain
from reportgen.readings.types import Channel, Readings

DAY = 86_400.0


def clock(days: int = 28, step: str = "10min") -> tuple[pd.DatetimeIndex, np.ndarray]:
    """Stamps from 5 January on and seconds of local standard time since that midnight."""
    at = pd.date_range("2026-01-05", periods=int(pd.Timedelta(days=days) / pd.Timedelta(step)) + 1, freq=step, tz=ZONE)
    return at, (at - at[0]) / pd.Timedelta("1s")


def wave(t: np.ndarray, mean: float, size: float, peak_h: float) -> np.ndarray:
    """A daily cosine with its maximum at an hour of the day."""
    return mean + size * np.cos(2 * np.pi * (t / DAY - peak_h / 24))


def bed(values: pd.Series, **more: object) -> Channel:
    """A probe in the bed."""
    return channel(values, "soil_temperature", accuracy=0.3, **more)


def made(air: np.ndarray | None, ground: np.ndarray, at: pd.DatetimeIndex, **more: object) -> Readings:
    """A season with those two curves and a bed of 3.6 m³."""
    house = {"soil_bed_volume_m3": 3.6, "soil_heat_capacity_mj_m3k": 2.5}
    of = season(loggers=(logger("bench"),), house=house, **more)
    channels = [bed(pd.Series(ground, index=at))]
    if air is not None:
        channels.insert(0, channel(pd.Series(air, index=at)))
    return readings(of, channels=tuple(channels))


def test_amplitude_and_lag_of_a_known_wave() -> None:
    """A bed wave of 1.5 K that peaks 3.5 h after the air's comes out so, to 1 % and 0.1 h, trend or not."""
    at, t = clock()
    ground = wave(t, 9.0, 1.5, 17.5) + 2.0 * t / (28 * DAY)
    found = soil(made(wave(t, 10.0, 4.0, 14.0), ground, at))
    assert found.swing_amplitude_k == pytest.approx(1.5, rel=0.01)
    assert found.lag_h == pytest.approx(3.5, abs=0.1)
    assert found.waves is not None and found.waves.ratio == pytest.approx(1.5 / 4.0, rel=0.01)


def test_hours_below_the_aim_with_band() -> None:
    """Half of a wave around the aim lies below it; the sensor's ± 0.3 K of ± 1 K shifts that by arcsin(0.3)/π."""
    at, t = clock()
    found = soil(made(None, wave(t, 7.0, 1.0, 15.0), at)).hours_below_aim
    whole = 28 * 24
    away = np.arcsin(0.3) / np.pi * whole
    assert found.estimate == pytest.approx(whole / 2, rel=2e-3)
    assert (found.low, found.high) == pytest.approx((whole / 2 - away, whole / 2 + away), rel=4e-3)


def test_heat_given_back_at_night_by_hand() -> None:
    """2.5 MJ/m³K × 3.6 m³ is 2.5 kWh a kelvin; a bed that falls 2 K from 18 to 8 o'clock gives 5 kWh, as a sum."""
    at, t = clock()
    hour = t / 3600 % 24
    ground = np.interp(hour, [0, 8, 18, 24], [9.0 + 8 / 7, 8.0 + 4 / 7, 10.0 + 4 / 7, 9.0 + 8 / 7])
    found = soil(made(None, ground, at))
    assert found.bed_kwh_per_k == pytest.approx(2.5)
    assert found.drop_k == pytest.approx(2.0, abs=0.01)
    assert found.released_kwh_per_night == pytest.approx(5.0, abs=0.03)


def test_season_and_week_balance() -> None:
    """A bed that cools 0.1 K a day loses 0.7 K a week, and 2.1 K between the means of first and last of four weeks."""
    at, t = clock()
    curve = line(pd.Series(12.0 - 0.1 * t / DAY, index=at))
    of = season()
    weeks = week_change_k(curve, of)
    assert weeks["change_k"].to_numpy() == pytest.approx([-0.7] * 4)
    assert season_change_k(curve, of) == pytest.approx(-2.1)
    assert soil(made(None, curve.values, at)).season_balance_kwh == pytest.approx(-2.1 * 2.5)


def test_stored_heat_is_linear_and_signed() -> None:
    """Twice the rise is twice the heat, a fall is its negative."""
    assert stored_kwh(2.0, 1.0, 2.5) == 2 * stored_kwh(1.0, 1.0, 2.5) == -stored_kwh(-2.0, 1.0, 2.5)


def test_fan_hours_used_missed_and_drained() -> None:
    """Air 8 K warmer from 10 to 16 h, 3 K colder else: a fan from 12 to 20 h uses 4, misses 2, drains 4 hours a day."""
    at, t = clock()
    hour = t / 3600 % 24
    air = line(pd.Series(np.where((hour >= 10) & (hour < 16), 18.0, 7.0), index=at))
    ground = line(pd.Series(10.0, index=at))
    fan = channel(pd.Series(((hour >= 12) & (hour < 20)).astype(float), index=at), "fan_on")
    found = duct(fan, air, ground, season(), DuctLines())
    assert found.recorded_h == pytest.approx(28 * 24, abs=1)
    days = np.array([found.used_h, found.missed_h, found.drained_h]) / 28
    assert days == pytest.approx([4, 2, 4], abs=0.2)  # the air's jump takes one reading of ten minutes


def test_heat_of_a_duct_by_hand() -> None:
    """0.1 m³/s cooled by 5 K leaves 0.1 · 1.2 · 1006 · 5 = 603.6 W behind; warmed by 5 K it takes as much."""
    found = duct_watts(np.array([0.1, 0.1, 0.0, np.nan]), np.array([5.0, -5.0, 5.0, 5.0]))
    assert found[:3] == pytest.approx([603.6, -603.6, 0.0]) and np.isnan(found[3])


def test_heat_left_in_the_bed_by_a_fan() -> None:
    """0.05 m³/s, 6 K cooler out from 10 to 16 h and 2 K warmer from 0 to 6 h: 2.1730 and 0.7243 kWh a day by hand
    (0.05 · 1.2 · 1006 · 6 · 6 h and · 2 · 6 h); while the fan stands nothing counts, whatever the sensors say."""
    at, t = clock()
    hour = t / 3600 % 24
    noon, night = (hour >= 10) & (hour < 16), hour < 6
    on = (noon | night).astype(float)
    drop = np.where(noon, 6.0, np.where(night, -2.0, 9.0))
    channels = (
        channel(pd.Series(12.0 + 8.0 * noon, index=at)),
        bed(pd.Series(12.0, index=at)),
        channel(pd.Series(on, index=at), "fan_on"),
        channel(pd.Series(20.0, index=at), "duct_in_temperature"),
        channel(pd.Series(20.0 - drop, index=at), "duct_out_temperature"),
        channel(pd.Series(0.05, index=at), "duct_airflow"),
    )
    found = soil(readings(season(loggers=(logger("bench"),)), channels=channels)).duct
    assert found is not None and found.stored_kwh is not None and found.drawn_kwh is not None
    assert found.heat_h == pytest.approx(28 * 12, abs=1)
    assert found.stored_kwh / 28 == pytest.approx(2.1730, rel=0.03)  # the edges of a step are joined over ten minutes
    assert found.drawn_kwh / 28 == pytest.approx(0.7243, rel=0.03)


def test_no_probe_is_a_result_with_reasons() -> None:
    """Every key stands, null, with its reason."""
    section = plain(soil(readings()))
    assert {"mean_c", "hours_below_aim", "swing_amplitude_k", "lag_h"} < set(section)
    assert section["reasons"]["released_kwh_per_night"] == "no soil temperature was logged"


def test_no_bed_volume_leaves_temperatures() -> None:
    """Without the bed's volume no kWh are printed, the kelvins still are."""
    at, t = clock()
    found = soil(
        readings(season(loggers=(logger("bench"),)), channels=(bed(pd.Series(wave(t, 9.0, 1.0, 15.0), index=at)),))
    )
    assert found.released_kwh_per_night is None and found.drop_k is not None
    assert found.reasons["season_balance_kwh"] == "soil_bed_volume_m3 is not given"
