"""What a kilogram cost, counted three ways: heat alone, everything that was used up, and everything by its years."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from reportgen.readings.types import Cost, Readings

HOURS = "hours"  # kind of a row of costs.csv whose amount is hours of the grower's own work, not money


@dataclass(frozen=True, kw_only=True, slots=True)
class CostBars:
    """Money of the winter and per kg.

    `heat`: heaters. `running`: heat, appliances and what costs.csv lists without years (or a year at most).
    `everything`: running and each longer-lived thing's amount ÷ its years. `parts` names what is in each.
    `hours`: of the grower's own work, rows of costs.csv of the kind `hours`; they are no money and in no bar.
    None where the heat has no price, or no hours were noted.
    """

    heat: float | None
    running: float | None
    everything: float | None
    heat_per_kg: float | None
    running_per_kg: float | None
    everything_per_kg: float | None
    appliances: float | None
    used_up: tuple[Cost, ...]
    by_years: tuple[Cost, ...]
    hours: float | None = None
    reasons: Mapping[str, str] = field(default_factory=dict)


def cost_bars(readings: Readings, heat: float | None, kg: float | None) -> CostBars:
    """The three bars. Costs count whole when they have no `years` or at most one, else amount ÷ years."""
    money = [c for c in readings.costs if c.kind.casefold() != HOURS]
    worked = [c.amount for c in readings.costs if c.kind.casefold() == HOURS]
    used_up = tuple(c for c in money if c.years is None or c.years <= 1)
    by_years = tuple(c for c in money if c.years is not None and c.years > 1)
    appliances, reasons = _appliances(readings)
    start = heat if heat is not None else (0.0 if not readings.heating else None)
    running = None if start is None or appliances is None else start + appliances + sum(c.amount for c in used_up)
    everything = None if running is None else running + sum(c.amount / (c.years or 1.0) for c in by_years)

    def per_kg(amount: float | None) -> float | None:
        return amount / kg if amount is not None and kg else None

    return CostBars(
        heat=heat,
        running=running,
        everything=everything,
        heat_per_kg=per_kg(heat),
        running_per_kg=per_kg(running),
        everything_per_kg=per_kg(everything),
        appliances=appliances,
        used_up=used_up,
        by_years=by_years,
        hours=sum(worked) if worked else None,
        reasons=reasons,
    )


def _appliances(readings: Readings) -> tuple[float | None, dict[str, str]]:
    total = 0.0
    for supply in readings.appliances:
        if not len(supply.intervals):
            continue
        if supply.intervals["cost"].isna().any():
            return None, {"appliances": supply.reasons.get("cost", f"no price for {supply.name}")}
        total += float(supply.intervals["cost"].sum())
    return total, {}
