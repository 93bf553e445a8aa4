"""What in a column's numbers speaks against what its name says, as far as one file shows it."""

from __future__ import annotations

from reportgen.units import MEASURES, is_temperature


def doubt_of(measure: str | None, unit: str | None, low: float, middle: float, high: float) -> str:
    """What in a column's numbers speaks against its measure or unit, in words; empty if nothing."""
    if measure is None:
        return ""
    if is_temperature(measure) and unit in (None, "degC") and (middle > 30 or high > 70):
        return f"half of its values lie above {middle:.0f}: that would be hot in °C and is usual in °F"
    if is_temperature(measure) and measure != "outdoor_temperature" and unit == "degF" and middle < 18:
        return f"half of its values lie below {middle:.0f}: that would be deep frost in °F and is usual in °C"
    humid = MEASURES[measure].kind == "humidity"
    if humid and high <= 1.0:
        return "no value is above 1: it may be a fraction and no percentage"
    if humid and (low < 0 or high > 105):
        return f"values from {low:g} to {high:g} cannot all be a percentage"
    return ""
