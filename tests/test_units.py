"""Unit conversion against published exact factors."""

from __future__ import annotations

import numpy as np
import pint
import pytest

from reportgen import units
from reportgen.units import convert, convert_difference


@pytest.mark.parametrize(
    ("value", "unit", "kept", "expected"),
    [
        (50.0, "degF", "degC", 10.0),  # definition of the Fahrenheit scale
        (283.15, "K", "degC", 10.0),  # SI definition
        (1.0, "knot", "m/s", 1852 / 3600),  # exact, NIST SP 811 App. B
        (1.0, "mph", "m/s", 0.44704),  # exact, NIST SP 811 App. B
        (1.0, "lb", "kg", 0.45359237),  # exact, NIST SP 811 App. B
        (1.0, "gal_us", "L", 3.785412),  # NIST SP 811 App. B, 7 figures
        (1.0, "therm", "kWh", 29.3001),  # NIST SP 811 (US therm), 6 figures
        (3.6, "MJ", "kWh", 1.0),  # exact
        (1000.0, "cfm", "m³/s", 0.4719474),  # NIST SP 811 App. B: 1 ft³/min = 4.719 474 E−04 m³/s
        (3600.0, "m3/h", "m³/s", 1.0),  # exact
        (250.0, "L/s", "m³/s", 0.25),  # exact
        (-40.0, "degF", "degC", -40.0),  # where the two scales meet, by definition
        (250.0, "g", "kg", 0.25),  # SI prefix
        (1.5, "kW", "W", 1500.0),  # SI prefix
        (700.0, "Wh", "kWh", 0.7),  # SI prefix
        (0.45, "fraction", "%", 45.0),  # definition of the per cent
    ],
)
def test_published_factors(value: float, unit: str, kept: str, expected: float) -> None:
    """Conversions agree with NIST SP 811; 2e-6 covers its seven printed figures."""
    assert convert(np.asarray([value]), unit, kept)[0] == pytest.approx(expected, rel=2e-6)


@pytest.mark.parametrize("pair", sorted(units._EXACT))
def test_exact_factors_are_those_of_the_registry(pair: tuple[str, str]) -> None:
    """Against pint 0.24 and newer, an outside registry; 1e-12 is the rounding of two multiplications."""
    names = {"fraction": "dimensionless", "%": "percent"}
    values = np.asarray([-40.0, 0.0, 3.7, 451.0])
    unit, kept = (names.get(name, name) for name in pair)
    registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=False)
    expected = registry.Quantity(values, unit).to(kept).magnitude
    assert convert(values, *pair) == pytest.approx(expected, rel=1e-12, abs=1e-12)


def test_an_accuracy_in_fahrenheit_degrees() -> None:
    """0.9 °F is a difference of 0.5 K, not a temperature (NIST SP 811: 1 °F interval = 5/9 K, exact)."""
    assert convert_difference(0.9, "degF", "degC") == pytest.approx(0.5)
