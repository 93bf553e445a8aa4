"""Heat by source, by week and in the dark weeks: what was bought, what it cost, what it gave."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import dates
from reportgen.measures.harvest_heat import DailyHeat
from reportgen.measures.heat_sums import cost_of, gap_hours, heat_of, unlooked
from reportgen.measures.heat_types import Aside, DarkWeeks, Source
from reportgen.measures.heating_hours import HeatCurve, full_power_from, local_midnights
from reportgen.measures.light_daily import TEN_HOURS
from reportgen.readings.types import HeatSupply, Readings
from reportgen.sun import day_length_h

# [kg kWh⁻¹ gross] water set free by burning: C₃H₈ → 4 H₂O, 1.634 kg/kg over 50.35 MJ/kg; CH₄ → 2 H₂O, 2.246 kg/kg
# over 55.5 MJ/kg. Stoichiometry with the gross heating values of the CRC Handbook.
WATER_KG_PER_KWH = {"propane": 1.634 / 50.35 * 3.6, "natural_gas": 2.246 / 55.5 * 3.6}


def sources(readings: Readings, by_hour: pd.DataFrame) -> tuple[Source, ...]:
    """One row a heater, in the order of season.toml."""
    efficiency = {source.name: source.efficiency for source in readings.season.heating}
    return tuple(_source(supply, by_hour, efficiency.get(supply.name, 1.0)) for supply in readings.heating)


def _source(supply: HeatSupply, by_hour: pd.DataFrame, efficiency: float) -> Source:
    heat, money = heat_of(supply), cost_of(supply)
    stock = supply.stock
    return Source(
        name=supply.name,
        fuel=supply.fuel,
        role=supply.role,
        kwh=heat.value,
        bought=float(supply.intervals["bought"].sum()) if len(supply.intervals) else 0.0,
        bought_unit=supply.unit,
        cost=money.value,
        hours_flat_out=_flat_out(supply, by_hour, efficiency),
        kwh_low=heat.low,
        kwh_high=heat.high,
        cost_low=money.low,
        cost_high=money.high,
        water_kg=_water(supply, efficiency),
        vented=supply.vented,
        basis=supply.heating_value,
        stock=stock,
        shared_by=supply.shared_by,
        estimated_kwh=_estimated(supply),
        unknown_h=gap_hours(supply.gaps),
        unlooked_kwh=unlooked(supply, "heat_kwh"),
        unlooked_cost=unlooked(supply, "cost"),
        by_tariff=bool(supply.reasons.get("hours")) and money.low is not None,
    )


def _estimated(supply: HeatSupply) -> float:
    """Heat that rests on readings or bills marked as estimated [kWh]."""
    if supply.form not in ("meter", "bills") or not len(supply.intervals):
        return 0.0
    return float(supply.intervals.loc[supply.intervals["estimated"].to_numpy(dtype=bool), "heat_kwh"].sum())


def _flat_out(supply: HeatSupply, by_hour: pd.DataFrame, efficiency: float) -> float | None:
    """Hours at 95 % or more of the rated power; `rated_power_w` is what it draws, so heat ÷ efficiency."""
    if supply.rated_power_w is None or supply.name not in by_hour:
        return None
    drawn = by_hour[supply.name].to_numpy(dtype=np.float64) / efficiency
    if np.isnan(drawn).all():
        return None
    return float((drawn >= full_power_from(supply.rated_power_w)).sum())


def _water(supply: HeatSupply, efficiency: float) -> float | None:
    """Water an unvented burner set free inside [kg]; None where it is vented or the fuel's figure is not known."""
    kwh = heat_of(supply).value
    per_kwh = WATER_KG_PER_KWH.get(supply.fuel)
    if supply.vented is not False or kwh is None or per_kwh is None or supply.heating_value == "net":
        return None
    return kwh / efficiency * per_kwh


def appliances(readings: Readings) -> tuple[Aside, ...]:
    """One row an appliance."""
    return tuple(
        Aside(name=s.name, kind=s.kind or "other", kwh=heat_of(s).value or 0.0, cost=cost_of(s).value)
        for s in readings.appliances
    )


def weeks(readings: Readings, curves: Sequence[HeatCurve]) -> pd.DataFrame:
    """Heat by ISO week: index = Mondays; a column a heater [kWh], then `appliances`, `cost` (heaters), `share of
    sums` (kWh that only a sum tells)."""
    days = dates(readings.season)
    edges = local_midnights(days, readings)
    mondays = pd.Index([day - timedelta(days=day.weekday()) for day in days], name="week")
    columns: dict[str, np.ndarray] = {}
    for curve in curves:
        name = "appliances" if curve.role == "appliance" else curve.name
        columns[name] = columns.get(name, 0.0) + curve.between("kwh", edges[:-1], edges[1:])
    heaters = [curve for curve in curves if curve.role != "appliance"]
    zero = np.zeros(len(days))
    columns["cost"] = sum((curve.between("cost", edges[:-1], edges[1:]) for curve in heaters), zero)
    columns["of sums"] = sum((curve.between("spread", edges[:-1], edges[1:]) for curve in heaters), zero)
    return pd.DataFrame(columns, index=pd.Index(days)).groupby(mondays).sum()


def dark_weeks(readings: Readings, by_day: pd.DataFrame, totals: DailyHeat, reasons: dict[str, str]) -> DarkWeeks:
    """Heat, money and harvest of the days under ten hours of daylight."""
    dark = dark_days(readings)
    if dark is None:
        why = readings.without("place", "no latitude is given")
        reasons |= {f"dark_weeks.{name}": why for name in ("kwh", "cost", "kg")}
        return DarkWeeks(kwh=None, cost=None, kg=None)
    inside = by_day[[day in dark for day in by_day.index]]
    weighed = readings.books.get("harvest", False)
    kg = sum(p.weight_kg for p in readings.harvest if p.date in dark and p.use != "lost") if weighed else None
    if totals.kwh is None:
        reasons["dark_weeks.kwh"] = totals.reasons.get("kwh", "the heat is not known")
    if totals.cost is None:
        reasons["dark_weeks.cost"] = totals.reasons.get("cost", "the cost is not known")
    if kg is None:
        reasons["dark_weeks.kg"] = readings.without("harvest", "no harvest book")
    return DarkWeeks(
        kwh=float(inside["kwh"].sum()) if totals.kwh is not None else None,
        cost=float(inside["cost"].sum()) if totals.cost is not None else None,
        kg=float(kg) if kg is not None else None,
    )


def dark_days(readings: Readings) -> set[date] | None:
    """Dates under ten hours of daylight; None without a latitude."""
    latitude = readings.season.place.latitude
    if latitude is None:
        return None
    days = dates(readings.season)
    return {day for day, hours in zip(days, day_length_h(days, latitude), strict=True) if hours < TEN_HOURS}
