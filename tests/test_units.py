"""Unit conversion against published exact factors."""

from __future__ import annotations

import numpy as np
import pytest

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
    ],
)
def test_published_factors(value: float, unit: str, kept: str, expected: float) -> None:
    """Conversions agree with NIST SP 811; 2e-6 covers its seven printed figures."""
    assert convert(np.asarray([value]), unit, kept)[0] == pytest.approx(expected, rel=2e-6)


def test_an_accuracy_in_fahrenheit_degrees() -> None:
    """0.9 °F is a difference of 0.5 K, not a temperature (NIST SP 811: 1 °F interval = 5/9 K, exact)."""
    assert convert_difference(0.9, "degF", "degC") == pytest.approx(0.5)
