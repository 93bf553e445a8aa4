"""Units the season folder may use, and the few physical constants, each with its source.

Conversion is pint's (a well-kept units library); this module only says which names are accepted for what.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

GAS_CONSTANT_WATER_VAPOUR = 461.5  # [J kg⁻¹ K⁻¹] specific gas constant of water vapour; FAO-56 (1998), Annex 3
CELSIUS_ZERO_K = 273.15  # [K] SI definition of the degree Celsius
AIR_DENSITY_KG_M3 = 1.2  # [kg m⁻³] air of a room; EN ISO 13789 practice
AIR_HEAT_J_KGK = 1006.0  # [J kg⁻¹ K⁻¹] dry air at constant pressure; ASHRAE Handbook Fundamentals 2017, ch. 1
AIR_HEAT_WH_M3K = 0.33  # [Wh m⁻³ K⁻¹] volumetric heat of ventilation air; EN ISO 13789 practice (0.33–0.34)
FAHRENHEIT_K = 5 / 9  # [K] one degree Fahrenheit of difference; NIST SP 811
FOOT_M, INCH_M, POUND_KG, GALLON_L = 0.3048, 0.0254, 0.45359237, 3.785411784  # exact; NIST SP 811, Appendix B
YEAR_D, WEEK_S, DAY_S = 365.25, 604_800.0, 86_400.0
MOIST_LOAM_MJ_M3K = 2.5  # [MJ m⁻³ K⁻¹] moist loam; common practice within de Vries 1963 (2.0–3.0)


# How a sensor of it behaves, which the checks and the pictures go by: a temperature that follows the air within minutes
# (air), the air in a duct, humidity, a bed's warmth (soil) and wetness (moisture), light, wind, a flow, and of an
# appliance its power, its running counter, its switch.
Kind = Literal["air", "duct", "humidity", "soil", "moisture", "light", "wind", "flow", "power", "counter", "switch"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Measure:
    """What a logger can measure: how it is kept and read, what it can be, how it behaves, what pages call it.

    `kept`, `accepted`: its unit, and the units of a file. `lowest`, `highest`: the range a reading can possibly have.
    `words`: its name on the pages, where that is not the key with spaces. `outdoors_of`: the measure that it is
    outdoors, on any logger.
    """

    kept: str
    accepted: tuple[str, ...]
    lowest: float
    highest: float
    kind: Kind
    words: str = ""
    outdoors_of: str = ""


_DEGREES = ("degC", "degF", "K")
_SHARES = ("%", "fraction")
_SWITCH = ("0/1", "on/off", "true/false")
_FLOWS = ("m³/s", "m3/s", "m³/h", "m3/h", "L/s", "cfm")
# The one list: a new measure is one entry here (DEVELOPERS.md, *To add a measure*).
MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "air_temperature": Measure(kept="degC", accepted=_DEGREES, lowest=-40, highest=75, kind="air"),
        "soil_temperature": Measure(kept="degC", accepted=_DEGREES, lowest=-20, highest=45, kind="soil"),
        "outdoor_temperature": Measure(
            kept="degC", accepted=_DEGREES, lowest=-60, highest=55, kind="air", outdoors_of="air_temperature"
        ),
        "relative_humidity": Measure(kept="%", accepted=_SHARES, lowest=0, highest=100, kind="humidity"),
        "outdoor_humidity": Measure(
            kept="%", accepted=_SHARES, lowest=0, highest=100, kind="humidity", outdoors_of="relative_humidity"
        ),
        "wind_speed": Measure(kept="m/s", accepted=("m/s", "km/h", "mph", "knot"), lowest=0, highest=60, kind="wind"),
        "solar_radiation": Measure(kept="W/m²", accepted=("W/m²", "W/m2"), lowest=0, highest=1500, kind="light"),
        "ppfd": Measure(
            kept="µmol/m²/s",
            accepted=("µmol/m²/s", "umol/m2/s"),
            lowest=0,
            highest=3000,
            kind="light",
            words="light for plants",
        ),
        "heater_power": Measure(kept="W", accepted=("W", "kW"), lowest=0, highest=10_000_000, kind="power"),
        "heater_energy": Measure(
            kept="kWh", accepted=("kWh", "Wh", "MJ"), lowest=0, highest=float("inf"), kind="counter"
        ),
        "heater_on": Measure(
            kept="0/1", accepted=_SWITCH, lowest=0, highest=1, kind="switch", words="heater on or off"
        ),
        "fan_on": Measure(kept="0/1", accepted=_SWITCH, lowest=0, highest=1, kind="switch", words="fan on or off"),
        "soil_moisture": Measure(kept="m³/m³", accepted=("m³/m³", "m3/m3", "%"), lowest=0, highest=1, kind="moisture"),
        "duct_in_temperature": Measure(kept="degC", accepted=_DEGREES, lowest=-40, highest=60, kind="duct"),
        "duct_out_temperature": Measure(kept="degC", accepted=_DEGREES, lowest=-40, highest=60, kind="duct"),
        "duct_airflow": Measure(kept="m³/s", accepted=_FLOWS, lowest=0, highest=10, kind="flow"),
    }
)


def of_kind(*kinds: Kind) -> tuple[str, ...]:
    """The measures of these kinds, kind by kind, as listed."""
    return tuple(name for kind in kinds for name, measure in MEASURES.items() if measure.kind == kind)


def is_temperature(measure: str | None) -> bool:
    """Whether a measure is kept in °C; False for None."""
    return measure is not None and MEASURES[measure].kept in TEMPERATURE_UNITS


# Our accepted spellings as pint reads them; what is missing here is the same in pint.
_PINT_NAMES = {
    "K": "kelvin",
    "mph": "mile/hour",
    "W/m2": "W/m**2",
    "W/m²": "W/m**2",
    "µmol/m²/s": "umol/m**2/s",
    "umol/m2/s": "umol/m**2/s",
    "m³/s": "m**3/s",
    "m3/s": "m**3/s",
    "m³/h": "m**3/hour",
    "m3/h": "m**3/hour",
    "cfm": "foot**3/minute",
    "m³/m³": "dimensionless",
    "m3/m3": "dimensionless",
    "fraction": "dimensionless",
    "%": "percent",
    "0/1": "dimensionless",
    "on/off": "dimensionless",
    "true/false": "dimensionless",
    "gal_us": "gallon",
    "m3": "m**3",
    "therm": "US_therm",
}
TEMPERATURE_UNITS = frozenset({"degC", "degF", "K"})
# unit, kept → (zero, factor): exact by definition, and what most folders hold; pint's registry takes half a second to
# load, so it is only asked for the others.
_EXACT: Mapping[tuple[str, str], tuple[float, float]] = MappingProxyType(
    {
        ("degF", "degC"): (32.0, FAHRENHEIT_K),  # NIST SP 811 §B.8
        ("g", "kg"): (0.0, 1e-3),
        ("kW", "W"): (0.0, 1e3),
        ("Wh", "kWh"): (0.0, 1e-3),
        ("fraction", "%"): (0.0, 100.0),
    }
)


@lru_cache(maxsize=1)
def _registry() -> Any:
    import pint  # 0.3 s: only when a unit is really converted

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=False)


def convert(values: NDArray[np.float64], unit: str, kept: str) -> NDArray[np.float64]:
    """Readings in another unit.

    Args:
        values: Any shape; NaN stays NaN.
        unit: A unit of `MEASURES`, a mass (kg, g, lb, oz) or a fuel unit (m3, L, gal_us, therm, kWh).
        kept: The unit to convert to, of the same kind.

    Source: pint's registry (NIST SP 811 factors); what is exact by definition by its factor.
    """
    if unit == kept:
        return values
    import numpy as np  # late: a fault of season.toml is told at once

    if (unit, kept) in _EXACT:
        zero, factor = _EXACT[unit, kept]
        return np.asarray((np.asarray(values, dtype=np.float64) - zero) * factor)
    quantity = _registry().Quantity(values, _PINT_NAMES.get(unit, unit))
    return np.asarray(quantity.to(_PINT_NAMES.get(kept, kept)).magnitude, dtype=np.float64)


def convert_difference(value: float, unit: str, kept: str) -> float:
    """A difference (an accuracy, an offset) in another unit: 0.9 °F is 0.5 K."""
    if unit == kept:
        return value
    if unit in TEMPERATURE_UNITS and kept in TEMPERATURE_UNITS:
        per = {"degC": 1.0, "K": 1.0, "degF": 5.0 / 9.0}  # exact, NIST SP 811 §B.8
        return value * per[unit] / per[kept]
    import numpy as np

    return float(convert(np.asarray([value]), unit, kept)[0])
