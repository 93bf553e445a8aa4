"""A heated house made by its own closed forms, so that every figure of it is known beforehand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
from made_season import ZONE, channel, logger, readings, season

from reportgen.readings.types import HeatSupply, Readings

LOSS_W_PER_K, HOLD_C, BALANCE_C = 80.0, 8.0, 5.0


def hours(first: str = "2026-01-05", days: int = 56) -> pd.DatetimeIndex:
    """Clock hours from a Monday on."""
    return pd.date_range(first, periods=24 * days, freq="h", tz=ZONE)


def outdoor_c(at: pd.DatetimeIndex) -> np.ndarray:
    """Outdoor air: a daily wave of ± 4 K on a slow wave of ± 6 K around 0 °C; steady within the hour."""
    n = np.arange(len(at))
    return 6 * np.sin(2 * np.pi * n / (24 * 17)) + 4 * np.cos(2 * np.pi * (n % 24 - 14) / 24)


def heat_w(out_c: np.ndarray, hold_c: float = HOLD_C) -> np.ndarray:
    """Heat that keeps the hold: the loss below the balance temperature (3 K under the hold comes from sun and soil)."""
    return LOSS_W_PER_K * np.maximum(hold_c - (HOLD_C - BALANCE_C) - out_c, 0.0)


def steps(values: np.ndarray, at: pd.DatetimeIndex) -> pd.Series:
    """Steady within each hour: a reading every 20 minutes and one just before the hour ends."""
    marks = [pd.Timedelta(minutes=m) for m in (0, 20, 40)] + [pd.Timedelta("59min59s")]
    return pd.concat([pd.Series(values, index=at + mark) for mark in marks]).sort_index()


def supply(at: pd.DatetimeIndex, watts: np.ndarray, price: float = 0.3, **more: Any) -> HeatSupply:
    """A logged electric heater, by the hour; `every` hours a reading makes it a meter of sums."""
    every = more.pop("every", 1)
    kwh = np.add.reduceat(watts / 1000.0, np.arange(0, len(at), every))
    edges = at.append(pd.DatetimeIndex([at[-1] + pd.Timedelta("1h")]))[::every]
    if len(edges) < len(kwh) + 1:
        edges = edges.append(pd.DatetimeIndex([at[-1] + pd.Timedelta("1h")]))
    table = pd.DataFrame(
        {
            "start": edges[:-1],
            "end": edges[1:],
            "bought": kwh,
            "heat_kwh": kwh,
            "cost": kwh * price,
            "sparse": every > 24,
            "estimated": False,
        }
    )
    usual: dict[str, Any] = {"name": "fan heater", "fuel": "electricity", "role": "main", "form": "logger"}
    usual |= {"kind": None, "unit": "kWh", "rated_power_w": None, "vented": None, "heating_value": ""}
    return HeatSupply(**(usual | {"co2_kg_per_unit": None, "intervals": table} | more))


def house(hold_c: float = HOLD_C, every: int = 1, days: int = 56, **more: Any) -> Readings:
    """The whole season of that house: crop air at the hold wherever it is heated, else 3 K above the outdoors."""
    at = hours(days=days)
    out, watts = outdoor_c(at), heat_w(outdoor_c(at), hold_c)
    inside = np.where(watts > 0, hold_c, out + 3.0)
    of = season(
        first="2026-01-05",
        last=str(at[-1].date()),
        aims={"hold_c": hold_c},
        loggers=(logger("bench"), logger("garden", where="outdoor")),
        **more,
    )
    channels = (
        channel(steps(inside, at), accuracy=0.5),
        channel(steps(out, at), logger="garden", where="outdoor"),
    )
    return readings(of, channels=channels, heating=(supply(at, watts, every=every),))
