"""What a lower setting would spare in this winter's weather, in the house as it is now.

The winter is run in the present state at what the thermostat kept and again with the nights of that setting lower; what
is spared is their difference ÷ the run of the house as it was × the heat that was measured, between the ends that held
nine in ten of the simulated houses (methods page, *The price of a degree*).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.frost_ahead import present
from reportgen.measures.heat_types import Heat, HoldPrice
from reportgen.measures.house.hold import change_span, share_of_run, usual_target
from reportgen.measures.house.response import run
from reportgen.measures.house.season import HouseModel


@dataclass(frozen=True, kw_only=True, slots=True)
class Spared:
    """Two ends of what is spared. Money at this winter's prices, None where they are not known."""

    kwh_low: float
    kwh_high: float
    money_low: float | None
    money_high: float | None


def spared(model: HouseModel | None, heat: Heat, held_c: float, down_k: float, days: Collection[date]) -> Spared | None:
    """Heat and money of a winter with the setting lower by `down_k` in the long nights and days of `days`.

    None where neither the balance of the house, its heat known by the hour, nor the price of a degree can tell.

    Args:
        days: The evenings of the nights of that setting.
    """
    if down_k <= 0 or not heat.kwh or not heat.price_of_hold:
        return None
    if model is not None and model.house is not None and share_of_run(model.house) > 0.0:
        low, high = _by_run(model, heat.kwh, held_c, down_k, days)
    elif len(heat.stretches) == 1 and model is not None and len(model.states) <= 1:
        low, high = _by_table(heat.price_of_hold, heat.kwh, held_c - down_k)
    else:
        return None
    each = _money_a_kwh(heat.price_of_hold, held_c, down_k)
    return Spared(
        kwh_low=low,
        kwh_high=high,
        money_low=None if each is None else low * each,
        money_high=None if each is None else high * each,
    )


def _by_run(model: HouseModel, kwh: float, held_c: float, down_k: float, days: Collection[date]) -> tuple[float, float]:
    house = model.house
    assert house is not None
    target = usual_target(house, held_c)
    rated = house.hours.rated_w
    limit = np.inf if rated is None else max(rated, float(house.hours.heaters_w.max()))
    was = float(run(house, target, limit)[1].sum())
    if was <= 0:
        return 0.0, 0.0
    now = present(model)
    less = run(now, target, limit)[1].sum() - run(now, target - down_k * _lowered(model, days), limit)[1].sum()
    middle = max(float(less), 0.0) / was * kwh
    low, high = change_span(house)
    return middle * low, middle * high


def _lowered(model: HouseModel, days: Collection[date]) -> Floats:
    """1 in the hours from noon of every such evening to the next noon, else 0; shape (n,)."""
    assert model.house is not None
    count = model.house.hours.count
    garden = [model.first + timedelta(days=(hour - 12) // 24) for hour in range(count)]
    return np.array([float(day in days) for day in garden])


def _by_table(rows: Sequence[HoldPrice], kwh: float, hold_c: float) -> tuple[float, float]:
    holds = [row.hold_c for row in rows]
    ends = [np.interp(hold_c, holds, [row.kwh if (v := getattr(row, e)) is None else v for row in rows]) for e in ENDS]
    return max(kwh - float(ends[0]), 0.0), max(kwh - float(ends[1]), 0.0)


ENDS = ("high", "low")  # of the heat it would take: the most it takes spares the least


def _money_a_kwh(rows: Sequence[HoldPrice], held_c: float, down_k: float) -> float | None:
    """Money of one kWh between the two settings, by the table of holds."""
    if any(row.cost is None for row in rows):
        return None
    holds = [row.hold_c for row in rows]
    at = np.array([held_c - down_k, held_c])
    kwh, cost = (np.interp(at, holds, [float(getattr(row, name)) for row in rows]) for name in ("kwh", "cost"))
    return float(cost[1] - cost[0]) / float(kwh[1] - kwh[0]) if kwh[1] > kwh[0] else None
