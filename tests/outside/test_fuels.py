"""Heat values, carbon dioxide factors and units of fuels against the tables they are taken from."""

from __future__ import annotations

import re

import numpy as np
import pytest

from reportgen.readings.fuels import PUBLISHED_CO2, TABLED
from reportgen.units import AIR_HEAT_WH_M3K, convert

BTU_PER_KWH = 3412.142  # NIST SP 811
LITRES_PER_GALLON = 3.785412  # NIST SP 811


def _one(unit: str, kept: str) -> float:
    return float(convert(np.array([1.0]), unit, kept)[0])


def test_units_of_fuel() -> None:
    """US gallon and therm by NIST SP 811, to its last digit."""
    assert _one("gal_us", "L") == pytest.approx(LITRES_PER_GALLON, rel=2e-6)
    assert _one("therm", "kWh") == pytest.approx(29.3001, rel=2e-5)


def test_propane_by_the_litre() -> None:
    """91,333 Btu per US gallon (EIA, Units and calculators, 2018 data), gross; 1 % for the gas's own make-up."""
    assert TABLED["propane"].value.kwh == pytest.approx(91_333 / BTU_PER_KWH / LITRES_PER_GALLON, rel=0.01)
    assert TABLED["propane"].value.basis == "gross"


def test_wood_by_the_kilogram() -> None:
    """15.6 MJ/kg net (IPCC 2006 Guidelines, vol. 2, Table 1.2).

    3 %: the formula of EN ISO 17225 practice, q = 18.5·(1 − M) − 2.443·M MJ/kg, gives the same at M = 14 % water.
    """
    assert TABLED["wood"].value.kwh == pytest.approx(15.6 / 3.6, rel=0.001)
    assert TABLED["wood"].value.kwh == pytest.approx((18.5 * 0.86 - 2.443 * 0.14) / 3.6, rel=0.03)


def test_carbon_dioxide_of_propane_agrees_with_its_chemistry() -> None:
    """The factor named to the grower, per gallon, over the gallon's heat: 0.215 kg/kWh gross (EIA 2016), within 1 %."""
    named = float(re.match(r"[\d.]+", PUBLISHED_CO2["propane"])[0])  # type: ignore[index]
    assert named / (TABLED["propane"].value.kwh * LITRES_PER_GALLON) == pytest.approx(0.2152, rel=0.01)


def test_natural_gas_factor() -> None:
    """0.18108 kg/kWh gross (EIA 2016, 53.07 kg per million Btu), within 1 %."""
    named = float(re.match(r"[\d.]+", PUBLISHED_CO2["natural_gas"])[0])  # type: ignore[index]
    assert named == pytest.approx(53.07 / (1e6 / BTU_PER_KWH), rel=0.01)


@pytest.mark.parametrize(("celsius", "tolerance"), [(25.0, 0.02), (10.0, 0.06), (-10.0, 0.13)])
def test_heat_of_changed_air(celsius: float, tolerance: float) -> None:
    """0.33 Wh/m³K is EN ISO 13789's constant for air near 20–25 °C; CoolProp's dry air is denser in the cold."""
    from CoolProp.CoolProp import PropsSI

    state = ("T", celsius + 273.15, "P", 101_325, "Air")
    exact = PropsSI("D", *state) * PropsSI("C", *state) / 3600.0
    assert pytest.approx(exact, rel=tolerance) == AIR_HEAT_WH_M3K
