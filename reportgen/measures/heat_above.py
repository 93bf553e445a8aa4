"""Heat spent above the target: what kept the air warmer than the hold aimed for. Method: methods page, *Heat*."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.measures.days import dates
from reportgen.measures.heating_hours import HEATERS, hourly_mean
from reportgen.measures.places import main_crop, outdoor, seldom_crop, seldom_outdoors, why_no
from reportgen.readings.types import Readings

NO_HEATER = "no heater is listed in season.toml"
NOT_BY_HOUR = "the heat was not logged by the hour"
LEAST_LIFT_K = 1.0  # under this lift the share of heat above the target has no meaning


def above_target(readings: Readings, by_hour: pd.DataFrame, reasons: dict[str, str]) -> float | None:
    """Heat that kept the air above the hold [kWh]: of each heated hour the part (T_in − hold) / (T_in − T_out)."""
    inside, outside = (f(readings, "air_temperature") for f in (main_crop, outdoor))
    watts = by_hour[HEATERS].to_numpy(dtype=np.float64)
    hours = pd.DatetimeIndex(by_hour.index)
    held = _hold_by_hour(readings, hours)
    why = (
        NO_HEATER
        if not readings.heating
        else NOT_BY_HOUR
        if np.isnan(watts).all()
        else "no hold is named in season.toml"
        if np.isnan(held).all()
        else why_no(
            seldom_crop(readings, "air_temperature") or seldom_outdoors(readings, "air_temperature"),
            "no crop or outdoor air",
        )
        if inside is None or outside is None
        else ""
    )
    if why or inside is None or outside is None:
        reasons["above_target_kwh"] = why
        return None
    return above_target_kwh(watts, hourly_mean(inside.values, hours), hourly_mean(outside.values, hours), held)


def above_target_kwh(
    watts: Sequence[float] | np.ndarray,
    inside_c: np.ndarray,
    outside_c: np.ndarray,
    hold_c: np.ndarray,
) -> float:
    """Heat of the hours [kWh] that kept the air above the hold; all arguments by the hour, NaN where not known."""
    lift = inside_c - outside_c
    share = np.clip((inside_c - hold_c) / np.where(lift > LEAST_LIFT_K, lift, np.inf), 0.0, 1.0)
    return float(np.nansum(np.asarray(watts) * share) / 1000.0)


def _hold_by_hour(readings: Readings, hours: pd.DatetimeIndex) -> np.ndarray:
    by_day = {day: readings.season.hold_on(day) for day in dates(readings.season)}
    held = [by_day.get(stamp.date()) for stamp in hours]
    return np.array([np.nan if hold is None else hold for hold in held], dtype=np.float64)
