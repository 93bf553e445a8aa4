"""What a degree more and less would have made of the winter's heat: every date's own hold one degree away."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.measures.heat_types import DegreePrice, Heat
from reportgen.units import FAHRENHEIT_K


@dataclass(frozen=True, kw_only=True, slots=True)
class Degree:
    """What one degree (°C, or °F in a US report) of hold is worth, every date's own hold so much higher or lower."""

    step_k: float
    kwh_more: float
    kwh_less: float
    cost_more: float | None
    cost_less: float | None


def degree(heat: Heat, us: bool) -> Degree | None:
    """The price of one degree more and one less; None where the heat cannot tell it."""
    step = FAHRENHEIT_K if us else 1.0
    more, less = (moved(heat, away) for away in (step, -step))
    if more is None or less is None or heat.kwh is None:
        return None
    return Degree(
        step_k=step,
        kwh_more=more.kwh - heat.kwh,
        kwh_less=heat.kwh - less.kwh,
        cost_more=None if more.cost is None or heat.cost is None else more.cost - heat.cost,
        cost_less=None if less.cost is None or heat.cost is None else heat.cost - less.cost,
    )


def moved(heat: Heat, away_k: float) -> DegreePrice | None:
    """The row of every date's hold so many kelvins away; None where there is none."""
    return next((row for row in heat.price_of_degree if abs(row.away_k - away_k) < 1e-6), None)
