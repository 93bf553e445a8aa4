"""Moist air against printed tables: ASHRAE, IAPWS, Murphy and Koop, WMO, FAO-56.

Every expected number was published elsewhere; the source stands beside it, the tolerance with its reason.
"""

from __future__ import annotations

import pytest

from reportgen import air

# ASHRAE Handbook Fundamentals 2017 ch. 1 table 3, saturation pressure [Pa]. 3e-4: the table's own rounding and the
# handbook's equations against its table; at −60 °C the table has three figures (0.01 Pa).
ASHRAE_WATER = [(5, 872.6, 3e-4), (50, 12351.3, 3e-4)]
ASHRAE_ICE = [(-60, 1.08, 0.01 / 1.08), (-20, 103.24, 3e-4)]
# IAPWS-IF97 (R7-97(2012)) equation 30 [Pa]; 3e-4 is the difference between that equation and Hyland and Wexler.
IAPWS_WATER = [(2, 705.988), (10, 1228.184), (25, 3169.747)]
# IAPWS R14-08(2011), pressure over ice [Pa]; 5e-4: Hyland and Wexler lie within 2.5e-4 of it, doubled.
IAPWS_ICE = [(-1, 562.665), (-5, 401.741), (-10, 259.874), (-15, 165.274), (-20, 103.239)]
# Murphy and Koop 2005, Q. J. R. Meteorol. Soc. 131, 1539, eq. 10, supercooled water [Pa]; 1e-3 as other
# formulations (Sonntag, IAPWS-95 metastable) differ by up to 5e-4.
SUPERCOOLED = [(-10, 286.45), (-15, 191.31), (-20, 125.5)]


@pytest.mark.parametrize(("temp_c", "pressure", "rel"), ASHRAE_WATER)
def test_saturation_over_water_as_ashrae_prints_it(temp_c: float, pressure: float, rel: float) -> None:
    """Both the equation and the fast table give the handbook's pressure."""
    assert float(air.saturation_pressure_pa(temp_c)) == pytest.approx(pressure, rel=rel)
    assert air.saturation_pressure_direct(temp_c) == pytest.approx(pressure, rel=rel)


@pytest.mark.parametrize(("temp_c", "pressure", "rel"), ASHRAE_ICE)
def test_saturation_over_ice_as_ashrae_prints_it(temp_c: float, pressure: float, rel: float) -> None:
    """Over ice, down to −60 °C."""
    assert float(air.saturation_pressure_ice_pa(temp_c)) == pytest.approx(pressure, rel=rel)


@pytest.mark.parametrize(("temp_c", "pressure"), IAPWS_WATER)
def test_saturation_over_water_as_iapws_prints_it(temp_c: float, pressure: float) -> None:
    """A separate formulation agrees to 3e-4."""
    assert float(air.saturation_pressure_pa(temp_c)) == pytest.approx(pressure, rel=3e-4)


def test_the_triple_point_joins_ice_and_water() -> None:
    """611.657 Pa (IAPWS) on both curves; 3e-4 as above."""
    assert float(air.saturation_pressure_pa(0.01)) == pytest.approx(611.657, rel=3e-4)
    assert float(air.saturation_pressure_ice_pa(0.01)) == pytest.approx(611.657, rel=3e-4)


@pytest.mark.parametrize(("temp_c", "pressure"), IAPWS_ICE)
def test_saturation_over_ice_as_iapws_prints_it(temp_c: float, pressure: float) -> None:
    """The sublimation pressure agrees to 5e-4."""
    assert float(air.saturation_pressure_ice_pa(temp_c)) == pytest.approx(pressure, rel=5e-4)


@pytest.mark.parametrize(("temp_c", "pressure"), SUPERCOOLED)
def test_saturation_over_supercooled_water(temp_c: float, pressure: float) -> None:
    """Below 0 °C the humidity of a sensor is over water, never over ice."""
    assert float(air.saturation_pressure_pa(temp_c)) == pytest.approx(pressure, rel=1e-3)


# FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), examples 3 to 5, e°(T) [kPa]. Its eq. 11 is a Magnus form;
# such forms differ from Hyland and Wexler by up to 0.1 % here, and the table has three decimals: 2 Pa + 0.1 %.
@pytest.mark.parametrize(("temp_c", "kpa"), [(15, 1.705), (24.5, 3.075), (18, 2.064), (25, 3.168), (19.5, 2.267)])
def test_saturation_of_the_fao_examples(temp_c: float, kpa: float) -> None:
    """Saturation pressures of the worked examples."""
    assert float(air.saturation_pressure_pa(temp_c)) / 1000 == pytest.approx(kpa, rel=1e-3, abs=0.002)


# Definition e_w(T_d) = RH · e_w(T) with RH over liquid water (WMO-No. 8), evaluated with Murphy and Koop 2005;
# 0.03 K covers the Magnus form in WMO-No. 8 as well. Columns: T [°C], RH [%], dew point [°C].
DEW = [
    (20, 80, 16.447),
    (10, 90, 8.438),
    (5, 95, 4.267),
    (2, 90, 0.535),
    (25, 60, 16.701),
    (2, 80, -1.082),
    (0, 95, -0.704),
    (-5, 80, -7.910),
    (-10, 80, -12.790),
]
FROST = [(2, 80, -0.955), (0, 95, -0.620), (-5, 80, -7.026), (-10, 80, -11.410)]


@pytest.mark.parametrize(("temp_c", "rh", "dew"), DEW)
def test_dew_point_over_water_at_every_temperature(temp_c: float, rh: float, dew: float) -> None:
    """Also below 0 °C; taking humidity as over ice there would give −7.59 in place of −7.91."""
    assert float(air.dew_point_c(temp_c, rh)) == pytest.approx(dew, abs=0.03)


@pytest.mark.parametrize(("temp_c", "rh", "frost"), FROST)
def test_frost_point_over_ice(temp_c: float, rh: float, frost: float) -> None:
    """Hoar forms before dew would: the frost point lies above the dew point."""
    assert float(air.frost_point_c(temp_c, rh)) == pytest.approx(frost, abs=0.03)


# e_w/e_i by Murphy and Koop 2005 [%]; 0.1 as two formulations differ by that.
@pytest.mark.parametrize(("temp_c", "percent"), [(-2, 101.97), (-10, 110.22)])
def test_saturated_over_water_is_more_than_saturated_over_ice(temp_c: float, percent: float) -> None:
    """Air that a sensor calls 100 % is oversaturated over ice."""
    ratio = float(air.saturation_pressure_pa(temp_c) / air.saturation_pressure_ice_pa(temp_c))
    assert 100 * ratio == pytest.approx(percent, abs=0.1)


# e_s(1 − RH) with IAPWS-IF97 [kPa]; 4e-3 allows for a Magnus form.
@pytest.mark.parametrize(("temp_c", "rh", "kpa"), [(20, 50, 1.1696), (10, 90, 0.1228), (25, 60, 1.2679)])
def test_vapour_pressure_deficit(temp_c: float, rh: float, kpa: float) -> None:
    """The air's deficit."""
    assert float(air.vpd_kpa(temp_c, rh)) == pytest.approx(kpa, rel=4e-3)


# e/(461.5 T) [g/m³]; 5e-3 covers the formulations in use.
@pytest.mark.parametrize(("temp_c", "rh", "grams"), [(20, 50, 8.65), (0, 100, 4.85)])
def test_absolute_humidity(temp_c: float, rh: float, grams: float) -> None:
    """Water in a cubic metre of air."""
    assert float(air.absolute_humidity_gm3(temp_c, rh)) == pytest.approx(grams, rel=5e-3)


# The humidity at which the deficit is 0.2 kPa, as extension tables round it: 91.5 % at 20 °C, 95.3 % at 30 °C.
@pytest.mark.parametrize(("temp_c", "rh"), [(20, 91.5), (30, 95.3)])
def test_the_humidity_of_a_small_deficit(temp_c: float, rh: float) -> None:
    """0.6 points: the list is rounded to whole percent."""
    deficit = 200.0 / float(air.saturation_pressure_pa(temp_c))
    assert 100 * (1 - deficit) == pytest.approx(rh, abs=0.6)


# Standard atmosphere: ASHRAE 2017 ch. 1 table 1 [Pa], whole pascals.
@pytest.mark.parametrize(("metres", "pascal"), [(0, 101325), (500, 95461)])
def test_pressure_of_the_standard_atmosphere(metres: float, pascal: float) -> None:
    """Pressure by altitude."""
    assert air.pressure_at_altitude_pa(metres) == pytest.approx(pascal, abs=1)


def test_inside_surface_of_single_glazing() -> None:
    """10 °C inside, −5 °C outside, U 5.8, R_si 0.13: −1.31 °C by T_i − U·R_si·(T_i − T_e) (ISO 13788 form)."""
    assert float(air.glazing_inside_c(10.0, -5.0, 5.8, 0.13)) == pytest.approx(-1.31, abs=0.01)
