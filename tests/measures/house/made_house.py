"""A house made by hand: a linear one, stepped through its own equation, so that every truth can be worked out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.hours import HouseHours

DAYS = 120


@dataclass(frozen=True, kw_only=True, slots=True)
class Made:
    """A house of one or two links: loss U, air C, and a hidden mass that follows the air with a lag of 4 h."""

    loss_w_k: float = 150.0
    air_wh_k: float = 300.0
    mass_w_k: float = 120.0
    deep_w_k: float = 0.0
    constant_w: float = 0.0
    hold_c: float = 6.0
    rated_w: float = 4000.0


def weather(seed: int = 1, days: int = DAYS) -> Floats:
    """Outdoor air by the hour: passing highs and lows, and a day."""
    rng = np.random.default_rng(seed)
    n = days * 24
    slow = np.zeros(n)
    noise = rng.standard_normal(n)
    for t in range(1, n):
        slow[t] = 0.985 * slow[t - 1] + 0.17 * noise[t]
    return 1.0 + 5.0 * slow + 2.5 * np.cos((np.arange(n) % 24 - 14) * np.pi / 12)


def stepped(
    made: Made, outdoor_c: Floats, *, heated: bool = True, off_from: int | None = None, draught_w: Floats | None = None
) -> tuple[Floats, Floats]:
    """Air [°C] and heat [W] by the hour, backward differences: U·(T−To) + C·ΔT + g·(T − L₄(T)) + D·(T − mean To) = P.

    Args:
        off_from: Hour from which the heater stands.
        draught_w: Heat that leaves beside all that, unknown to the balance.
    """
    keep = float(np.exp(-1.0 / 4.0))
    grip = made.loss_w_k + made.air_wh_k + made.mass_w_k * keep + made.deep_w_k
    mean, air, lag = float(outdoor_c.mean()), float(outdoor_c[:72].mean()) + 5.0, float(outdoor_c[:72].mean()) + 5.0
    airs, heats = np.zeros(len(outdoor_c)), np.zeros(len(outdoor_c))
    for t, outside in enumerate(outdoor_c):
        base = made.loss_w_k * outside + made.air_wh_k * air + made.mass_w_k * keep * lag + made.deep_w_k * mean
        base -= made.constant_w + (0.0 if draught_w is None else float(draught_w[t]))
        free = base / grip
        heat = 0.0
        if heated and (off_from is None or t < off_from) and free < made.hold_c:
            heat = min((made.hold_c - free) * grip, made.rated_w)
        air = free + heat / grip
        lag = keep * lag + (1.0 - keep) * air
        airs[t], heats[t] = air, heat
    return airs, heats


def hours_of(made: Made, outdoor_c: Floats, air_c: Floats, heat_w: Floats, **more: object) -> HouseHours:
    """The hours as the balance takes them; all of them dark, for there is no sun in this world."""
    n = len(outdoor_c)
    usual: dict[str, object] = {
        "temp_air_c": air_c,
        "temp_outdoor_c": outdoor_c,
        "heaters_w": heat_w,
        "spread_w": np.zeros(n),
        "other_w": np.zeros(n),
        "dark": np.ones(n, dtype=bool),
        "logged": np.ones(n, dtype=bool),
        "state": np.zeros(n, dtype=np.int64),
        "rated_w": made.rated_w,
    }
    return HouseHours(**(usual | more))  # type: ignore[arg-type]
