"""What one degree of hold is worth around the hold found, between the rows of the price of a degree."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.measures.heat_types import Heat
from reportgen.units import FAHRENHEIT_K


@dataclass(frozen=True, kw_only=True, slots=True)
class Degree:
    """What one degree (°C, or °F in a US report) of hold is worth around the hold found, by the rows on either side."""

    step_k: float
    kwh_more: float
    kwh_less: float
    cost_more: float | None
    cost_less: float | None


def degree(heat: Heat, us: bool) -> Degree | None:
    """The price of one degree more and one less; None without prices of holds or where nothing was tested."""
    if heat.hold_found_c is None or not any(row.tested for row in heat.price_of_hold):
        return None
    step = FAHRENHEIT_K if us else 1.0
    kwh = [at_hold(heat, heat.hold_found_c + away, "kwh") for away in (-step, 0.0, step)]
    cost = [at_hold(heat, heat.hold_found_c + away, "cost") for away in (-step, 0.0, step)]
    less, here, more = (float(value or 0.0) for value in kwh)
    return Degree(
        step_k=step,
        kwh_more=more - here,
        kwh_less=here - less,
        cost_more=None if cost[2] is None or cost[1] is None else cost[2] - cost[1],
        cost_less=None if cost[0] is None or cost[1] is None else cost[1] - cost[0],
    )


def at_hold(heat: Heat, hold_c: float, what: str) -> float | None:
    """kWh or cost at any hold, between the rows."""
    values = [getattr(row, what) for row in heat.price_of_hold]
    if not values or any(value is None for value in values):
        return None
    return float(np.interp(hold_c, [row.hold_c for row in heat.price_of_hold], values))
