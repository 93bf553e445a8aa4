"""Houses put together by hand, without a fit, so that every figure of them can be worked out on paper."""

from __future__ import annotations

from typing import Any

import numpy as np

from reportgen.measures.house.balance import Balance
from reportgen.measures.house.hours import HouseHours
from reportgen.measures.house.response import Response


def plain_hours(count: int, **more: Any) -> HouseHours:
    """Crop air 8 °C, outdoors 0 °C, 800 W, all of it dark, logged and in one state."""
    usual: dict[str, Any] = {
        "temp_air_c": np.full(count, 8.0),
        "temp_outdoor_c": np.zeros(count),
        "heaters_w": np.full(count, 800.0),
        "spread_w": np.zeros(count),
        "other_w": np.zeros(count),
        "dark": np.ones(count, dtype=bool),
        "logged": np.ones(count, dtype=bool),
        "state": np.zeros(count, dtype=np.int64),
    }
    return HouseHours(**(usual | more))


def plain_balance(count: int, **more: Any) -> Balance:
    """100 W/K, no capacity, no masses, no misfit."""
    usual: dict[str, Any] = {
        "loss_w_k": np.array([100.0]), "wind_w_k": 0.0, "air_wh_k": 0.0, "bed_w_k": 0.0, "deep_w_k": 0.0, "masses": (),
        "constant_w": 0.0, "misfit_w": np.zeros(count), "asked_w": np.zeros(count), "limit_share": 0.0,
        "free_hours": 500, "kind": "probe",
    }  # fmt: skip
    return Balance(**(usual | more))


def plain_house(hours: HouseHours, balance: Balance | None = None, **more: Any) -> Response:
    """A house that holds no heat: the air is where its heat of the hour puts it."""
    n = hours.count
    usual: dict[str, Any] = {
        "bed": None, "loss_w_k": np.full(n, 100.0), "fitted_loss_w_k": np.full(n, 100.0), "otherwise_w": np.zeros(n),
        "links_w_k": np.zeros(0), "lags_h": np.zeros(0), "held_w_k": 0.0, "bed_outdoors_w_k": 0.0,
    }  # fmt: skip
    return Response(hours=hours, balance=balance or plain_balance(n), **(usual | more))
