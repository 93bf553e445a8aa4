"""A change's nights moved to the usual weather, so that a picture can set them against the outdoor temperature alone.

Each night keeps its distance from the estimate without the change (what no column explains, and the change itself) and
is moved to the straight line of that estimate on the night's outdoor temperature.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.effects.gls import Floats
from reportgen.effects.types import Outcome
from reportgen.measures.frost_fit import regress

NEVER_UNDER_NONE = frozenset({"heat", "watts_per_kelvin", "moisture", "damp_hours", "soil_swing", "daily_light"})
FEWEST = 3  # nights with an outdoor temperature


@dataclass(frozen=True, kw_only=True, slots=True)
class UsualWeather:
    """Nights in the unit of their outcome. `outdoor_c`, `moved`: shape (nights,); of what cannot be under nothing a
    night that would come below is moved to nothing. `after`: 1 after the change or while
    on, else 0. `level`: what the line without the change says at 0 °C; `slope`: and for one kelvin more."""

    outdoor_c: Floats
    moved: Floats
    after: Floats
    level: float
    slope: float


def at_usual_weather(outcome: Outcome) -> UsualWeather | None:
    """The nights of an outcome at the usual weather; None where they are not kept, fewer than three or all alike."""
    if outcome.nights is None:
        return None
    nights = outcome.nights.dropna(subset=["outdoor_c", "value", "without_change"])
    out, value, alone = (nights[name].to_numpy(dtype=float) for name in ("outdoor_c", "value", "without_change"))
    line = regress(out, alone) if len(nights) >= FEWEST else None
    if line is None:
        return None
    moved = value - alone + line.middle(out)
    return UsualWeather(
        outdoor_c=out,
        moved=np.maximum(moved, 0.0) if outcome.outcome in NEVER_UNDER_NONE else moved,
        after=nights["after"].to_numpy(dtype=float),
        level=line.intercept,
        slope=line.slope,
    )
