"""Heat, money and CO₂ of the heaters by local day, as the harvest is set beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import pandas as pd

from reportgen.measures.heat_sums import Sum, total_cost, total_heat
from reportgen.measures.heating_hours import heat_by_day
from reportgen.readings.types import HeatSupply, Readings

NO_HEATER = "no heater is listed in season.toml"


@dataclass(frozen=True, kw_only=True, slots=True)
class DailyHeat:
    """Heat by local day, heaters only (lamps and other appliances stand apart).

    `table`: index = every date of the season; columns kwh (heat given to the house), cost (money), 0 where nothing is
    known. `kwh`, `cost`, `co2_kg`: totals of the season, None with the reason beside it; `heat` and `money` are the
    first two with their bounds. `spread`: a part was known as a sum only and was spread over the days between by
    degree-hours.
    """

    table: pd.DataFrame
    heat: Sum
    money: Sum
    co2_kg: float | None
    spread: bool
    reasons: dict[str, str] = field(default_factory=dict)

    @property
    def kwh(self) -> float | None:
        """Heat of the season [kWh]."""
        return self.heat.value

    @property
    def cost(self) -> float | None:
        """Money for it; None where its price is not known."""
        return self.money.value


def daily_heat(readings: Readings) -> DailyHeat:
    """Heat, money and CO₂ of all heaters."""
    by_day = heat_by_day(readings)
    reasons: dict[str, str] = {}
    if not readings.heating:
        reasons |= dict.fromkeys(("kwh", "cost", "co2"), NO_HEATER)
        nothing = Sum(value=None, reason=NO_HEATER)
        table = by_day[["kwh", "cost"]]
        return DailyHeat(table=table, heat=nothing, money=nothing, co2_kg=None, spread=False, reasons=reasons)
    heat, money = total_heat(readings.heating), total_cost(readings.heating)
    reasons |= {key: one.reason for key, one in (("kwh", heat), ("cost", money)) if one.value is None}
    return DailyHeat(
        table=by_day[["kwh", "cost"]],
        heat=heat,
        money=money,
        co2_kg=_co2(readings.heating, reasons),
        spread=bool(by_day["spread"].any()),
        reasons=reasons,
    )


def _co2(supplies: Sequence[HeatSupply], reasons: dict[str, str]) -> float | None:
    missing = [supply.name for supply in supplies if supply.co2_kg_per_unit is None]
    if missing:
        reasons["co2"] = f"no co2_kg_per_unit for {', '.join(missing)}"
        return None
    return float(sum((s.co2_kg_per_unit or 0.0) * s.intervals["bought"].sum() for s in supplies if len(s.intervals)))
