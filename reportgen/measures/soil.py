"""Is the bed a battery or a leak? Its warmth, its daily wave against the air's, the heat it stores and gives back.

Method: methods page, *Soil*.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from itertools import pairwise

import pandas as pd

from reportgen.measures.days import DATE, dates, enough, least, mean_known, window_stats
from reportgen.measures.exposure import Band, Line, band, clip_s, hours_below
from reportgen.measures.places import anywhere, main_crop, seldom_crop, seldom_soil, why_no, why_no_soil
from reportgen.measures.places import soil as soil_channel
from reportgen.measures.soil_store import (
    Duct,
    DuctLines,
    curve_of,
    duct,
    night_drop_k,
    season_change_k,
    stored_kwh,
    week_change_k,
)
from reportgen.measures.soil_wave import Waves, waves
from reportgen.plain import PAGE_ONLY
from reportgen.readings.types import Channel, Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class Soil:
    """Everything the soil page says; the first fields are the keys of review.json's `soil`."""

    mean_c: float | None
    hours_below_aim: Band
    swing_amplitude_k: float | None
    lag_h: float | None
    released_kwh_per_night: float | None
    season_balance_kwh: float | None
    reasons: Mapping[str, str]
    channel: Channel | None = field(default=None, metadata=PAGE_ONLY)
    aim_c: float = field(default=7.0, metadata=PAGE_ONLY)
    hours_recorded: float = field(default=0.0, metadata=PAGE_ONLY)
    coldest: tuple[date, float] | None = field(default=None, metadata=PAGE_ONLY)  # of the daily means
    days: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)  # date: mean, min, max, air_mean, below_h
    waves: Waves | None = field(default=None, metadata=PAGE_ONLY)
    nights: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)  # date: drop_k, kwh
    weeks: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)  # Monday: change_k, mean_c, kwh
    season_change_k: float | None = field(default=None, metadata=PAGE_ONLY)
    drop_k: float | None = field(default=None, metadata=PAGE_ONLY)  # mean of the nights
    bed_kwh_per_k: float | None = field(default=None, metadata=PAGE_ONLY)
    duct: Duct | None = field(default=None, metadata=PAGE_ONLY)


def soil(readings: Readings) -> Soil:
    """All that the probe in the bed tells."""
    channel = soil_channel(readings)
    curve = curve_of(channel)
    aim = readings.season.aims.soil_c
    if channel is None or curve is None:
        counts = tuple(f"hours_below_aim.{end}" for end in ("estimate", "low", "high"))
        names = ("mean_c", *counts, "swing_amplitude_k", "lag_h", "released_kwh_per_night", "season_balance_kwh")
        seldom = seldom_soil(readings)
        reasons = dict.fromkeys(names, why_no_soil(readings))
        mean = float(seldom.values.mean()) if seldom is not None and len(seldom.values) > 1 else None
        if mean is not None:
            del reasons["mean_c"]
        return Soil(
            mean_c=mean,
            hours_below_aim=Band(estimate=float("nan")),
            swing_amplitude_k=None,
            lag_h=None,
            released_kwh_per_night=None,
            season_balance_kwh=None,
            reasons=reasons,
            aim_c=aim,
        )
    return _measured(readings, channel, curve, aim)


def _measured(readings: Readings, channel: Channel, curve: Line, aim: float) -> Soil:
    season = readings.season
    reasons: dict[str, str] = {}
    air = curve_of(main_crop(readings, "air_temperature"))
    found = waves(curve, air, season)
    days = _days(readings, curve, air, aim)
    kwh_per_k = _kwh_per_k(readings, reasons)
    nights = pd.DataFrame({"drop_k": night_drop_k(curve, season)})
    weeks = week_change_k(curve, season)
    nights["kwh"] = nights["drop_k"] * (kwh_per_k if kwh_per_k is not None else float("nan"))
    weeks["kwh"] = weeks["change_k"] * (kwh_per_k if kwh_per_k is not None else float("nan"))
    drop, change = mean_known(nights["drop_k"]), _number(season_change_k(curve, season))
    no_air = why_no(seldom_crop(readings, "air_temperature"), "no air temperature beside the crop")
    _explain(reasons, channel, no_air if air is None else "", found, drop, change)
    return Soil(
        mean_c=_number(float((curve.values[:-1] + curve.values[1:]) @ curve.hours / 2 / curve.hours_recorded))
        if curve.hours_recorded > 0
        else None,
        hours_below_aim=band(curve, channel.accuracy, lambda moved: hours_below(moved, aim)),
        swing_amplitude_k=found.amplitude_k,
        lag_h=found.lag_h,
        released_kwh_per_night=drop * kwh_per_k if drop is not None and kwh_per_k is not None else None,
        season_balance_kwh=change * kwh_per_k if change is not None and kwh_per_k is not None else None,
        reasons=reasons,
        channel=channel,
        aim_c=aim,
        hours_recorded=curve.hours_recorded,
        coldest=least(days["mean"]),
        days=days,
        waves=found,
        nights=nights,
        weeks=weeks,
        season_change_k=change,
        drop_k=drop,
        bed_kwh_per_k=kwh_per_k,
        duct=_duct(readings, air, curve),
    )


def _explain(
    reasons: dict[str, str], channel: Channel, no_air: str, found: Waves, drop: float | None, change: float | None
) -> None:
    """Why what is null is null."""
    if channel.accuracy is None:
        words = f"no accuracy given for {channel.logger}"
        reasons |= {"hours_below_aim.low": words, "hours_below_aim.high": words}
    if found.amplitude_k is None:
        reasons["swing_amplitude_k"] = "no three days on end of soil readings"
    if found.lag_h is None:
        reasons["lag_h"] = no_air or "the air's daily wave was too flat"
    if drop is None:
        reasons["released_kwh_per_night"] = "no night with a soil reading at both ends"
    if change is None:
        reasons["season_balance_kwh"] = "the bed was not logged through the season's first and last week"


def _kwh_per_k(readings: Readings, reasons: dict[str, str]) -> float | None:
    house = readings.season.house
    if house.soil_bed_volume_m3 is None:
        words = "soil_bed_volume_m3 is not given"
        reasons |= {"released_kwh_per_night": words, "season_balance_kwh": words}
        return None
    return stored_kwh(1.0, house.soil_bed_volume_m3, house.soil_heat_capacity_mj_m3k)


def _days(readings: Readings, curve: Line, air: Line | None, aim: float) -> pd.DataFrame:
    stats = window_stats(curve, readings.season, DATE)
    table = pd.DataFrame({name: enough(stats, name) for name in ("mean", "min", "max")})
    table["swing"] = table["max"] - table["min"]
    table["below_h"] = _below_by_day(readings, curve, aim)
    if air is not None:
        stats = window_stats(air, readings.season, DATE)
        table["air_mean"] = enough(stats)
        table["air_swing"] = enough(stats, "max") - enough(stats, "min")
    return table


def _below_by_day(readings: Readings, curve: Line, aim: float) -> list[float]:
    """Hours below the aim of every local day, NaN where nothing is on record."""
    edges = [readings.season.midnight(day).timestamp() for day in dates(readings.season)]
    parts = [clip_s(curve, start, end) for start, end in pairwise([*edges, readings.season.end.timestamp()])]
    return [hours_below(part, aim) if part.hours_recorded > 0 else float("nan") for part in parts]


def _duct(readings: Readings, air: Line | None, curve: Line) -> Duct | None:
    fan = anywhere(readings, "fan_on")
    if fan is None or air is None or not len(fan.values):
        return None
    names = {"inlet": "duct_in_temperature", "outlet": "duct_out_temperature", "flow": "duct_airflow"}
    lines = {end: curve_of(anywhere(readings, measure)) for end, measure in names.items()}
    return duct(fan, air, curve, readings.season, DuctLines(**lines))


def _number(value: float) -> float | None:
    return value if value == value else None
