"""Heat values of fuels: what the grower gives, else the few that a published table confirms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from reportgen.season import HeatSource
from reportgen.units import convert


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatValue:
    """Heat in one unit of a fuel [kWh], gross (the water vapour's heat counted) or net (not counted)."""

    kwh: float
    basis: str  # gross | net | "" where it is not said or makes no difference
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class _Tabled:
    unit: str
    value: HeatValue


TABLED: Mapping[str, _Tabled] = MappingProxyType(
    {
        # 91 333 Btu per US gallon
        "propane": _Tabled(
            unit="L", value=HeatValue(kwh=7.071, basis="gross", source="EIA, Units and calculators, 2018 data")
        ),
        # 15.6 MJ/kg, air-dry wood
        "wood": _Tabled(
            unit="kg", value=HeatValue(kwh=4.333, basis="net", source="IPCC 2006 Guidelines, vol. 2, Table 1.2")
        ),
    }
)
PUBLISHED_CO2: Mapping[str, str] = MappingProxyType(
    {
        "propane": "5.76 kg per US gallon (EIA 2016)",
        "natural_gas": "0.181 kg per kWh gross (EIA 2016)",
        "kerosene": "9.75 kg per US gallon (EIA 2016)",
        "wood": "0.403 kg per kWh net, not counting what the trees took up (IPCC 2006)",
    }
)
_PURE_ENERGY = ("kWh", "therm")


def heat_value(source: HeatSource) -> HeatValue | None:
    """Heat in one `unit` of this source; None where neither the grower nor a confirmed table says it."""
    if source.heat_kwh_per_unit is not None:
        return HeatValue(kwh=source.heat_kwh_per_unit, basis=source.heating_value or "", source="as given")
    if source.unit in _PURE_ENERGY:
        return HeatValue(kwh=_times(source.unit, "kWh"), basis=source.heating_value or "", source="a unit of energy")
    tabled = TABLED.get(source.fuel)
    if tabled is None or not _same_kind(source.unit, tabled.unit):
        return None
    kwh = tabled.value.kwh * _times(source.unit, tabled.unit)
    return HeatValue(kwh=kwh, basis=tabled.value.basis, source=tabled.value.source)


def _times(unit: str, other: str) -> float:
    return float(convert(np.asarray([1.0]), unit, other)[0])


def _same_kind(unit: str, other: str) -> bool:
    mass, liquid = ("kg", "lb"), ("L", "gal_us")  # a cubic metre of gas is no cubic metre of liquid
    return any(unit in kind and other in kind for kind in (mass, liquid))


def why_no_co2(fuel: str) -> str:
    """Why a source has no CO₂ figure, with the published factor the grower could write down."""
    known = PUBLISHED_CO2.get(fuel)
    return "no co2_kg_per_unit given" + (f"; published: {known}" if known else "")
