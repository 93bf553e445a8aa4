"""Heat, money and CO₂ of the heaters by local day, as the harvest is set beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import pandas as pd

from reportgen.measures.heating_hours import heat_by_day
from reportgen.readings.types import HeatSupply, Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class DailyHeat:
    """Heat by local day, heaters only (lamps and other appliances stand apart).

    `table`: index = every date of the season; columns kwh (heat given to the house), cost (money), 0 where nothing is
    known. `kwh`, `cost`, `co2_kg`: totals of the season, None with the reason beside it. `spread`: a part was known
    as a sum only and was spread over the days between by degree-hours.
    """

    table: pd.DataFrame
    kwh: float | None
    cost: float | None
    co2_kg: float | None
    spread: bool
    reasons: dict[str, str] = field(default_factory=dict)


def daily_heat(readings: Readings) -> DailyHeat:
    """Heat, money and CO₂ of all heaters."""
    by_day = heat_by_day(readings)
    reasons: dict[str, str] = {}
    if not readings.heating:
        reasons |= dict.fromkeys(("kwh", "cost", "co2"), "no heater is listed in season.toml")
        table = by_day[["kwh", "cost"]]
        return DailyHeat(table=table, kwh=None, cost=None, co2_kg=None, spread=False, reasons=reasons)
    return DailyHeat(
        table=by_day[["kwh", "cost"]],
        kwh=_total(readings.heating, "heat_kwh", "kwh", "heat value unknown", reasons),
        cost=_total(readings.heating, "cost", "cost", "no price is given", reasons),
        co2_kg=_co2(readings.heating, reasons),
        spread=bool(by_day["spread"].any()),
        reasons=reasons,
    )


def _total(supplies: Sequence[HeatSupply], column: str, key: str, words: str, reasons: dict[str, str]) -> float | None:
    total = 0.0
    for supply in supplies:
        table = supply.intervals
        why = supply.reasons.get(column) or supply.reasons.get("heat_kwh")
        if why and not len(table):  # nothing known is not nothing used
            reasons[key] = why
            return None
        table = table[table["bought"].to_numpy(dtype=np.float64) != 0] if len(table) else table  # nothing costs nothing
        values = table[column].to_numpy(dtype=np.float64) if len(table) else np.zeros(0)
        if np.isnan(values).any():
            reasons[key] = supply.reasons.get(column, f"{words} for {supply.name}")
            return None
        total += float(values.sum())
    return total


def _co2(supplies: Sequence[HeatSupply], reasons: dict[str, str]) -> float | None:
    missing = [supply.name for supply in supplies if supply.co2_kg_per_unit is None]
    if missing:
        reasons["co2"] = f"no co2_kg_per_unit for {', '.join(missing)}"
        return None
    return float(sum((s.co2_kg_per_unit or 0.0) * s.intervals["bought"].sum() for s in supplies if len(s.intervals)))
