"""The sun through whole winters against pvlib's implementation of the NREL solar position algorithm."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pandas as pd
import pvlib
import pytest

from reportgen import sun

PLACES = [(49.2, 16.6), (52.0, 4.5), (40.0, -105.0), (60.2, 24.9)]


@pytest.mark.parametrize(("latitude", "longitude"), PLACES)
def test_zenith_every_half_hour_of_a_year(latitude: float, longitude: float) -> None:
    """Within 0.02° of SPA's geometric zenith: 0.01° of the equations, 0.0024° of parallax, rounding."""
    times = pd.date_range("2025-10-01", "2026-09-30", freq="11h", tz="UTC")
    expected = pvlib.solarposition.get_solarposition(times, latitude, longitude)["zenith"].to_numpy()
    assert np.abs(sun.zenith(times, latitude, longitude) - expected).max() < 0.02


@pytest.mark.parametrize(("latitude", "longitude"), PLACES)
def test_sunrise_and_sunset_of_a_year(latitude: float, longitude: float) -> None:
    """At our sunrise and sunset SPA's sun stands 0.833° under the horizon, within 0.02° (as above; 10 s at 60° N)."""
    days = [date(2025, 10, 1) + timedelta(days=7 * n) for n in range(52)]
    rise, set_ = sun.sunrise_sunset(days, latitude, longitude)
    for found in (rise, set_):
        height = pvlib.solarposition.get_solarposition(found, latitude, longitude)["elevation"].to_numpy()
        assert np.abs(height + 0.8333).max() < 0.02
    noon = pvlib.solarposition.get_solarposition(rise + (set_ - rise) / 2, latitude, longitude)["azimuth"].to_numpy()
    assert np.abs(noon - 180).max() < 2  # rise before noon, set after it


def test_clear_sky_light_is_haurwitz_s() -> None:
    """The same formula by pvlib, to 1e-6 above the horizon."""
    zenith = np.arange(0.0, 89.0, 1.5)
    expected = pvlib.clearsky.haurwitz(pd.Series(zenith))["ghi"].to_numpy()
    assert sun.clear_sky_w_m2(zenith) == pytest.approx(expected, rel=1e-6)


def test_clear_sky_sum_is_the_day_s_integral() -> None:
    """pvlib's Haurwitz every minute of the day, within 0.5 % or 3 Wh/m²: our step is 5 min, one declination a day."""
    for day in (date(2025, 12, 21), date(2026, 2, 10), date(2026, 4, 5)):
        times = pd.date_range(pd.Timestamp(day, tz="UTC"), periods=1440, freq="1min")
        zenith = pvlib.solarposition.get_solarposition(times, 50.0, 0.0)["zenith"]
        expected = float(pvlib.clearsky.haurwitz(zenith)["ghi"].sum() / 60)
        assert sun.clear_sky_sum([day], 50.0)[0] == pytest.approx(expected, rel=5e-3, abs=3.0)


def test_polar_night_and_midnight_sun_have_no_rise() -> None:
    """At 66° N the sun is up all night in June at most; beyond, NaT, and the day is 0 or 24 h long."""
    rise, set_ = sun.sunrise_sunset([date(2025, 12, 21), date(2025, 6, 21)], 70.0, 20.0)
    assert rise.isna().all() and set_.isna().all()
    assert sun.day_length_h([date(2025, 12, 21), date(2025, 6, 21)], 70.0) == pytest.approx([0.0, 24.0])


@pytest.mark.parametrize("latitude", [-90.0, -78.2, -70.0, 70.0, 78.2, 90.0])
def test_polar_night_and_midnight_sun_through_a_year(latitude: float) -> None:
    """0 h on days on which SPA's sun stays under −0.833°, 24 h where it stays above.

    Days within 0.3° of either are left out: our day has one declination, which moves by up to 0.2° in half a day."""
    days = [date(2025, 10, 1) + timedelta(days=5 * n) for n in range(73)]
    found = sun.day_length_h(days, latitude)
    kinds = set()
    for day, hours in zip(days, found, strict=True):
        times = pd.date_range(pd.Timestamp(day, tz="UTC"), periods=96, freq="15min")
        height = pvlib.solarposition.get_solarposition(times, latitude, 0.0)["elevation"] + 0.8333
        if height.max() < -0.3:
            assert hours == 0.0, day
            kinds.add("night")
        elif height.min() > 0.3:
            assert hours == 24.0, day
            kinds.add("sun")
        elif height.max() > 0.3 and height.min() < -0.3:
            assert 0.0 < hours < 24.0, day
    assert kinds == {"night", "sun"}


@pytest.mark.parametrize("latitude", [-90.0, -70.0, 0.0, 70.0, 90.0])
def test_clear_sky_light_from_pole_to_pole(latitude: float) -> None:
    """pvlib's Haurwitz every ten minutes of a day of each month, within 1 % or 30 Wh/m² (one declination a day)."""
    for month in range(1, 13):
        times = pd.date_range(pd.Timestamp(2026, month, 15, tz="UTC"), periods=144, freq="10min")
        zenith = pvlib.solarposition.get_solarposition(times, latitude, 0.0)["zenith"]
        expected = float(pvlib.clearsky.haurwitz(zenith)["ghi"].sum() / 6)
        assert sun.clear_sky_sum([date(2026, month, 15)], latitude)[0] == pytest.approx(expected, rel=0.01, abs=30.0)


def test_times_without_a_zone_are_refused() -> None:
    """A naive time would be wrong by hours without a word."""
    with pytest.raises(ValueError, match="zone"):
        sun.zenith(pd.DatetimeIndex(["2026-01-01 12:00"]), 50.0, 10.0)
