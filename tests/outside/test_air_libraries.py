"""Moist air against reference libraries that compute it in another way: iapws and CoolProp.

iapws evaluates IAPWS-IF97 and R14-08 themselves; CoolProp's humid air is ASHRAE RP-1485, a real gas. Tolerances: the
formulations differ by up to 3e-4 in pressure (0.005 K in dew point); CoolProp's includes an enhancement factor of
about 0.45 % that cancels in a dew point.
"""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.HumidAirProp import HAPropsSI
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws._iapws import _Sublimation_Pressure
from iapws.iapws97 import _PSat_T

from reportgen import air


@pytest.mark.parametrize("temp_c", np.arange(0.5, 50, 3.5))
def test_pressure_over_water_is_that_of_iapws(temp_c: float) -> None:
    """0.5 … 50 °C within 3e-4."""
    assert float(air.saturation_pressure_pa(temp_c)) == pytest.approx(_PSat_T(temp_c + 273.15) * 1e6, rel=3e-4)


@pytest.mark.parametrize("temp_c", np.arange(-40, 0, 2.5))
def test_pressure_over_ice_is_that_of_iapws(temp_c: float) -> None:
    """−40 … 0 °C within 5e-4."""
    expected = _Sublimation_Pressure(temp_c + 273.15) * 1e6
    assert float(air.saturation_pressure_ice_pa(temp_c)) == pytest.approx(expected, rel=5e-4)


@pytest.mark.parametrize(("temp_c", "rh"), [(5, 95), (10, 90), (12, 60), (20, 80), (25, 60), (35, 45)])
def test_dew_point_is_that_of_a_real_gas(temp_c: float, rh: float) -> None:
    """Above 0 °C within 0.02 K: the enhancement factor changes a little between air and dew point."""
    expected = HAPropsSI("D", "T", temp_c + 273.15, "P", 101325, "R", rh / 100) - 273.15
    assert float(air.dew_point_c(temp_c, rh)) == pytest.approx(expected, abs=0.02)


@given(st.floats(-35, 45), st.floats(2, 100))
@settings(max_examples=200, deadline=None)
def test_the_fast_tables_are_the_equations(temp_c: float, rh: float) -> None:
    """Going back by the direct equation from the fast dew point gives the vapour pressure to 2e-5 (0.0003 K)."""
    dew = float(air.dew_point_c(temp_c, rh))
    wanted = rh / 100 * air.saturation_pressure_direct(temp_c)
    assert air.saturation_pressure_direct(dew) == pytest.approx(wanted, rel=2e-5)


def test_unknown_stays_unknown() -> None:
    """NaN goes through, and no vapour has no dew point."""
    assert np.isnan(air.dew_point_c([np.nan, 10.0], [50.0, np.nan])).all()
    assert np.isnan(air.dew_point_c(10.0, 0.0))
    assert np.isnan(air.frost_point_c(20.0, 50.0))
