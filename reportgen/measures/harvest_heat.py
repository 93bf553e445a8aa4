"""Heat, money and CO₂ of the heaters by local day, as the harvest is set beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.readings.types import HeatSupply, Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class DailyHeat:
    """Heat by local day.

    `table`: index = every date of the season; columns kwh (heat given to the house), cost (money). `cost_known`,
    `co2_kg`: totals over the season, None with the reason beside it. `spread`: True where a part was known as a sum
    only and was spread over the days between.
    """

    table: pd.DataFrame
    kwh: float | None
    cost: float | None
    co2_kg: float | None
    spread: bool
    reasons: dict[str, str] = field(default_factory=dict)


def season_days(readings: Readings) -> list[date]:
    """Every date of the season."""
    first, last = readings.season.first_day, readings.season.last_day
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def daily_heat(readings: Readings, weight: pd.Series | None = None) -> DailyHeat:
    """Heat, money and CO₂ of all heaters (not of lamps and other appliances).

    Args:
        readings: The season.
        weight: Degree-hours a day (index = dates), by which sums over longer stretches are spread; evenly if None.
    """
    days = season_days(readings)
    if not readings.heating:
        words = "no heater is listed in season.toml"
        table = pd.DataFrame({"kwh": 0.0, "cost": 0.0}, index=pd.Index(days, name="date"))
        reasons = {"kwh": words, "cost": words, "co2": words}
        return DailyHeat(table=table, kwh=None, cost=None, co2_kg=None, spread=False, reasons=reasons)
    supplies = readings.heating
    table = pd.DataFrame(
        {
            "kwh": sum(by_day(s.intervals, "heat_kwh", days, weight) for s in supplies),
            "cost": sum(by_day(s.intervals, "cost", days, weight) for s in supplies),
        },
        index=pd.Index(days, name="date"),
    )
    reasons: dict[str, str] = {}
    kwh = _total(supplies, "heat_kwh", "kwh", "heat value unknown", reasons)
    cost = _total(supplies, "cost", "cost", "no price is given", reasons)
    co2 = _co2(supplies, reasons)
    spread = any(bool(s.intervals["sparse"].any()) for s in supplies if len(s.intervals))
    return DailyHeat(table=table, kwh=kwh, cost=cost, co2_kg=co2, spread=spread, reasons=reasons)


def by_day(
    intervals: pd.DataFrame, column: str, days: Sequence[date], weight: pd.Series | None = None
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """One column of `HeatSupply.intervals` by local day; a stretch is shared by time × weight of the days it covers.

    Returns: shape (days,), 0 where nothing was used; NaN amounts are left out.
    """
    out = np.zeros(len(days))
    if not len(intervals) or not len(days):
        return out
    zone = pd.DatetimeIndex(intervals["start"]).tz
    stamps = pd.date_range(days[0], periods=len(days) + 1, freq="D").tz_localize(
        zone, nonexistent="shift_forward", ambiguous=np.ones(len(days) + 1, dtype=bool)
    )
    edges = _seconds(stamps)
    starts, ends = _seconds(pd.DatetimeIndex(intervals["start"])), _seconds(pd.DatetimeIndex(intervals["end"]))
    amounts = np.nan_to_num(intervals[column].to_numpy(dtype=np.float64))
    share = np.ones(len(days)) if weight is None else weight.reindex(list(days)).fillna(0.0).to_numpy(dtype=np.float64)
    first = (np.searchsorted(edges, starts, side="right") - 1).clip(0, len(days) - 1)
    last = (np.searchsorted(edges, ends, side="left") - 1).clip(0, len(days) - 1)
    single = first == last
    np.add.at(out, first[single], amounts[single])
    for i in np.flatnonzero(~single):
        part = slice(first[i], last[i] + 1)
        covered = np.minimum(ends[i], edges[1:][part]) - np.maximum(starts[i], edges[:-1][part])
        covered = covered.clip(min=0.0)
        heavy = covered * share[part]
        pull = heavy if heavy.sum() > 0 else covered
        out[part] += amounts[i] * pull / pull.sum() if pull.sum() > 0 else 0.0
    return out


def _seconds(stamps: pd.DatetimeIndex) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    plain = stamps.tz_convert("UTC").tz_localize(None).to_numpy().astype("datetime64[ns]").astype(np.int64)
    return np.asarray(plain / 1e9, dtype=np.float64)


def _total(supplies: Sequence[HeatSupply], column: str, key: str, words: str, reasons: dict[str, str]) -> float | None:
    total = 0.0
    for supply in supplies:
        values = supply.intervals[column].to_numpy(dtype=np.float64) if len(supply.intervals) else np.zeros(0)
        if np.isnan(values).any():
            reasons[key] = supply.reasons.get(column, f"{words} for {supply.name}")
            return None
        total += float(values.sum())
    return total


def _co2(supplies: Sequence[HeatSupply], reasons: dict[str, str]) -> float | None:
    missing = [supply.name for supply in supplies if supply.co2_kg_per_unit is None]
    if missing:
        reasons["co2"] = f"no co2_kg_per_unit for {', '.join(missing)}"
        return None
    return float(sum((s.co2_kg_per_unit or 0.0) * s.intervals["bought"].sum() for s in supplies if len(s.intervals)))
