"""Heaters of a few hours, days or weeks, made by hand for the tests of the effects."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pandas as pd
from made_season import ZONE, heater

from reportgen.readings.types import HeatSupply


def hourly(start: str, kwh: Sequence[float], **more: Any) -> HeatSupply:
    """A heater logged by the hour from that instant on; its kWh cost 0.5 each unless told. NaN: not logged."""
    price = more.pop("price", 0.5)
    hours = pd.date_range(start, periods=len(kwh) + 1, freq="1h", tz=ZONE)
    table = pd.DataFrame(
        {
            "start": hours[:-1],
            "end": hours[1:],
            "bought": list(kwh),
            "heat_kwh": list(kwh),
            "cost": [price * k for k in kwh],
            "sparse": False,
            "estimated": False,
        }
    )
    return heater([], **({"form": "logger", "intervals": table} | more))


def meter(stamps: Sequence[str], kwh: Sequence[float], **more: Any) -> HeatSupply:
    """A meter read at those instants: a sum between each two; its kWh cost 0.5 each."""
    rows = [(a, b, k, 0.5 * k) for a, b, k in zip(stamps, stamps[1:], kwh, strict=False)]
    return heater(rows, **more)
