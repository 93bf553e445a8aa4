"""CO₂ by published factors, with their source, for heaters whose own factor the grower did not give.

Electricity has none here: it depends on the grid and the year.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.readings.types import HeatSupply, Readings
from reportgen.units import GALLON_L

KWH_PER_THERM = 29.3001  # US therm, NIST SP 811
EIA = "EIA, Carbon Dioxide Emissions Coefficients, 2016"
IPCC = "IPCC 2006 Guidelines, vol. 2, tables 1.2 and 1.4"


@dataclass(frozen=True, kw_only=True, slots=True)
class Factor:
    """kg of CO₂ for one unit of a fuel as bought."""

    kg_per_unit: float
    source: str
    biogenic: bool = False  # the trees took it up before


FACTORS: Mapping[tuple[str, str], Factor] = MappingProxyType(
    {
        ("propane", "gal_us"): Factor(kg_per_unit=5.76, source=EIA),
        ("propane", "L"): Factor(kg_per_unit=5.76 / GALLON_L, source=EIA),
        ("propane", "kg"): Factor(kg_per_unit=2.994, source="3 CO₂ for each C₃H₈ burnt"),
        ("kerosene", "gal_us"): Factor(kg_per_unit=9.75, source=EIA),
        ("kerosene", "L"): Factor(kg_per_unit=9.75 / GALLON_L, source=EIA),
        ("wood", "kg"): Factor(kg_per_unit=15.6 / 3.6 * 0.4032, source=IPCC, biogenic=True),
    }
)
GAS: Mapping[str, Factor] = MappingProxyType(  # kWh of natural gas by how its heat is counted
    {"gross": Factor(kg_per_unit=0.18108, source=EIA), "net": Factor(kg_per_unit=0.202, source=IPCC)}
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Burnt:
    """CO₂ of one heater over the season by a published factor."""

    name: str
    kg: float
    factor: Factor


def published(readings: Readings) -> tuple[Burnt, ...]:
    """Heaters without a factor of their own for which a published one stands; in the order of season.toml."""
    found = []
    for supply in readings.heating:
        factor = None if supply.co2_kg_per_unit is not None else factor_of(supply)
        if factor is not None and len(supply.intervals):
            kg = float(supply.intervals["bought"].sum()) * factor.kg_per_unit
            found.append(Burnt(name=supply.name, kg=kg, factor=factor))
    return tuple(found)


def factor_of(supply: HeatSupply) -> Factor | None:
    """The published factor for this fuel in this unit; None where none is known."""
    if supply.fuel != "natural_gas":
        return FACTORS.get((supply.fuel, supply.unit))
    per_kwh = GAS.get(supply.heating_value)
    if per_kwh is None or supply.unit not in ("kWh", "therm"):
        return None
    times = 1.0 if supply.unit == "kWh" else KWH_PER_THERM
    return Factor(kg_per_unit=per_kwh.kg_per_unit * times, source=per_kwh.source)
