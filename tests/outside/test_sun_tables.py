"""The sun against printed worked examples and almanac tables."""

from __future__ import annotations

from datetime import date

import pandas as pd
import pytest

from reportgen import sun


def at(text: str) -> pd.DatetimeIndex:
    """One instant."""
    return pd.DatetimeIndex([pd.Timestamp(text)])


def test_meeus_example_25a() -> None:
    """Low accuracy, 1992-10-13 00:00 TD: right ascension 198.38083°, declination −7.78507°, to 0.0005°
    (Meeus, Astronomical Algorithms, 2nd ed.). The example's tilt is the mean one: declination to 0.001°."""
    found = sun.place_of_sun([2448908.5])
    assert found.right_ascension_deg[0] == pytest.approx(198.38083, abs=0.0005)
    assert found.declination_deg[0] == pytest.approx(-7.78507, abs=0.0005)


def test_meeus_example_28a() -> None:
    """Equation of time 13 min 42.6 s; 0.02 min for the shorter series."""
    assert sun.place_of_sun([2448908.5]).equation_of_time_min[0] == pytest.approx(13.71, abs=0.02)


def test_the_worked_example_of_the_solar_position_algorithm() -> None:
    """Reda and Andreas 2003, NREL/TP-560-34302, table A5.1, 2003-10-17 12:30:30 −7 h, 39.742476° N, 105.1786° W.

    Declination −9.31434° and equation of time 14.6415 min to the 0.01° and 0.05 min of low-accuracy equations, distance
    0.99654 au to 1e-4. Zenith 50.11162° there includes refraction (0.016° at this height) and the observer's place on
    the Earth (0.002°): 0.03°.
    """
    julian = [2452930.312847]
    found = sun.place_of_sun(julian)
    assert found.declination_deg[0] == pytest.approx(-9.31434, abs=0.01)
    assert found.equation_of_time_min[0] == pytest.approx(14.6415, abs=0.05)
    assert found.distance_au[0] == pytest.approx(0.9965422974, abs=1e-4)
    zenith = sun.zenith(at("2003-10-17 12:30:30-07:00"), 39.742476, -105.1786)
    assert zenith[0] == pytest.approx(50.11162, abs=0.03)


# NREL/TP-560-34302, sunrise and sunset [UT h] at longitude 0; 0.02 h for low-accuracy equations.
@pytest.mark.parametrize(
    ("day", "latitude", "rise", "set_"),
    [(date(1994, 1, 2), 35, 7.13689, 16.99886), (date(2004, 12, 4), -35, None, 19.03403)],
)
def test_rise_and_set_of_the_solar_position_algorithm(
    day: date, latitude: float, rise: float | None, set_: float
) -> None:
    """North and south of the equator."""
    up, down = (t[0] for t in sun.sunrise_sunset([day], latitude, 0.0))
    assert down.hour + down.minute / 60 + down.second / 3600 == pytest.approx(set_, abs=0.02)
    if rise is not None:
        assert up.hour + up.minute / 60 + up.second / 3600 == pytest.approx(rise, abs=0.02)


# US Naval Observatory tables, local standard time to the minute; 2 min: rounding, and their refraction.
ALMANAC = [
    (date(2015, 1, 2), 39.0, -105.0, -7, None, "16:49"),
    (date(2015, 1, 2), 39.917, 116.383, 8, "07:36", "17:00"),
    (date(2015, 12, 2), 39.917, 116.383, 8, "07:17", "16:50"),
]


@pytest.mark.parametrize(("day", "latitude", "longitude", "zone", "rise", "set_"), ALMANAC)
def test_rise_and_set_of_the_almanac(
    day: date, latitude: float, longitude: float, zone: int, rise: str | None, set_: str
) -> None:
    """Sunrise and sunset on the clock."""
    up, down = (t[0] + pd.Timedelta(hours=zone) for t in sun.sunrise_sunset([day], latitude, longitude))
    two = pd.Timedelta(minutes=2)
    assert abs(down - pd.Timestamp(f"{day} {set_}", tz="UTC")) <= two
    if rise is not None:
        assert abs(up - pd.Timestamp(f"{day} {rise}", tz="UTC")) <= two


def test_the_solar_calculator_s_spreadsheet() -> None:
    """NOAA solar calculator, 2010-06-21 00:06 −7 h, 40° N 105° W: the same equations, so 1e-5° and 1e-5 min.

    The sheet prints seven decimals; its Julian date is rounded to 1e-7 d, which is 1e-5° of the sun's height.
    """
    julian = [2455368.5 + 7.1 / 24]
    found = sun.place_of_sun(julian)
    assert found.declination_deg[0] == pytest.approx(23.4383706, abs=1e-5)
    assert found.right_ascension_deg[0] == pytest.approx(89.8094801, abs=1e-5)
    assert found.equation_of_time_min[0] == pytest.approx(-1.7153676, abs=1e-5)
    height = 90 - sun.zenith(at("2010-06-21 00:06:00-07:00"), 40, -105)[0]
    assert height == pytest.approx(-26.5537621, abs=1e-3)


# Day length [h] by the upper limb with 34′ refraction, Reda and Andreas' algorithm; 0.03 h (2 min).
LENGTHS = [
    (date(2025, 6, 21), 0, 12.123),
    (date(2025, 6, 21), 30, 14.08),
    (date(2025, 12, 21), 30, 10.215),
    (date(2025, 12, 21), 40, 9.328),
    (date(2025, 6, 21), 45, 15.619),
    (date(2025, 6, 21), 50, 16.372),
    (date(2025, 12, 21), 52, 7.743),
    (date(2025, 12, 21), 55, 7.167),
    (date(2025, 6, 21), 60, 18.869),
]


@pytest.mark.parametrize(("day", "latitude", "hours"), LENGTHS)
def test_day_length(day: date, latitude: float, hours: float) -> None:
    """From the equator to 60° N, at both solstices."""
    assert sun.day_length_h([day], latitude)[0] == pytest.approx(hours, abs=0.03)
