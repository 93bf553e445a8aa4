"""Was it warmth or light that held the plants back? Day length, daily light, gloomy runs, what a lamp would add.

Method: methods page, *Light*.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

import numpy as np
import pandas as pd

from reportgen.measures.days import least, mean_known
from reportgen.measures.light_daily import TEN_HOURS, DailyLight, Run, daily_light, lamp_hours, runs
from reportgen.plain import PAGE_ONLY
from reportgen.readings.types import Readings
from reportgen.season import Appliance

# [mol m⁻² d⁻¹] recommended least daily light for leafy greens and herbs; Jayalath et al. 2024, Plants 13:652
LEAFY_NEED_MOL = 12.0
GLOOMY_RUN = 3  # days on end that are told as a gloomy run


@dataclass(frozen=True, kw_only=True, slots=True)
class Lamp:
    """What a lamp would have had to add on the days below the need: hours in all, energy, money.

    `hours`: on days with measured light; `days_too_short`: days on which even 24 h would not do; `hours_a_day`: mean
    over the days that need it.
    """

    name: str
    ppfd: float
    hours: float
    days: int
    days_too_short: int
    hours_a_day: float
    kwh: float | None
    cost: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Light:
    """Everything the light page says; the first fields are the keys of review.json's `light`."""

    days_under_ten_hours: int | None
    shortest_day_h: float | None
    mean_daily_light_mol: float | None
    lamp_hours_needed: float | None
    reasons: Mapping[str, str]
    shortest_day: date | None = field(default=None, metadata=PAGE_ONLY)
    ten_from: date | None = field(default=None, metadata=PAGE_ONLY)  # first and last date under ten hours
    ten_to: date | None = field(default=None, metadata=PAGE_ONLY)
    sunless: Run | None = field(default=None, metadata=PAGE_ONLY)  # the longest run of dates without a sunrise
    sunlit: Run | None = field(default=None, metadata=PAGE_ONLY)  # … and of dates without a sunset
    need_mol: float = field(default=LEAFY_NEED_MOL, metadata=PAGE_ONLY)
    days_measured: int = field(default=0, metadata=PAGE_ONLY)
    days_enough: int | None = field(default=None, metadata=PAGE_ONLY)
    dark_mean_mol: float | None = field(default=None, metadata=PAGE_ONLY)  # mean of the days under ten hours
    darkest: tuple[date, float] | None = field(default=None, metadata=PAGE_ONLY)
    gloomy_days: int | None = field(default=None, metadata=PAGE_ONLY)
    gloomy_runs: tuple[Run, ...] = field(default=(), metadata=PAGE_ONLY)
    lack_mol: float | None = field(default=None, metadata=PAGE_ONLY)  # mean of the days below the need
    lamp: Lamp | None = field(default=None, metadata=PAGE_ONLY)
    daily: DailyLight = field(metadata=PAGE_ONLY)


def light(readings: Readings) -> Light:
    """All that the season's place and its light sensors tell."""
    daily = daily_light(readings)
    table = daily.table
    reasons: dict[str, str] = {}
    lit = table["inside_mol"].dropna()
    if readings.season.place.latitude is None:
        why = readings.without("place", "no latitude is given")
        reasons |= dict.fromkeys(("days_under_ten_hours", "shortest_day_h"), why)
    if not len(lit):
        why = daily.reason or "the light sensor left no day with 80 % of its readings"
        reasons |= dict.fromkeys(("mean_daily_light_mol", "lamp_hours_needed"), why)
    lamp = _lamp(readings, lit, reasons)
    dark = table["day_length_h"] < TEN_HOURS
    short = table.index[dark]
    shortest = least(table["day_length_h"])
    return Light(
        days_under_ten_hours=int(dark.sum()) if shortest else None,
        shortest_day_h=shortest[1] if shortest else None,
        mean_daily_light_mol=float(lit.mean()) if len(lit) else None,
        lamp_hours_needed=lamp.hours if lamp is not None else None,
        reasons=reasons,
        shortest_day=shortest[0] if shortest else None,
        ten_from=short[0] if len(short) else None,
        ten_to=short[-1] if len(short) else None,
        sunless=_longest(table["day_length_h"] <= 0.0),
        sunlit=_longest(table["day_length_h"] >= 24.0),
        days_measured=len(lit),
        days_enough=int((lit >= LEAFY_NEED_MOL).sum()) if len(lit) else None,
        dark_mean_mol=mean_known(table.loc[dark, "inside_mol"]),
        darkest=least(lit),
        gloomy_days=int((table["gloomy"] == 1).sum()) if table["gloomy"].notna().any() else None,
        gloomy_runs=runs(table["gloomy"], GLOOMY_RUN),
        lack_mol=mean_known((LEAFY_NEED_MOL - lit)[lit < LEAFY_NEED_MOL]),
        lamp=lamp,
        daily=daily,
    )


def _longest(flags: pd.Series) -> Run | None:
    return next(iter(runs(flags, 1)), None)


def _lamp(readings: Readings, lit: pd.Series, reasons: dict[str, str]) -> Lamp | None:
    """Hours that the grower's lamp would have needed to lift every measured day to the need."""
    lamps = [a for a in readings.season.appliances if a.kind == "lamp" and a.ppfd is not None]
    if not lamps:
        reasons.setdefault("lamp_hours_needed", "no lamp with its ppfd is listed")
        return None
    if not len(lit):
        return None
    chosen = lamps[0]
    hours = lamp_hours(LEAFY_NEED_MOL - lit.to_numpy(dtype=np.float64), chosen.ppfd or 1.0)
    kept = np.minimum(hours, 24.0)
    kwh = _kwh(chosen, float(kept.sum()))
    return Lamp(
        name=chosen.name,
        ppfd=chosen.ppfd or 0.0,
        hours=float(kept.sum()),
        days=int((hours > 0).sum()),
        days_too_short=int((hours > 24.0).sum()),
        hours_a_day=float(kept[kept > 0].mean()) if (kept > 0).any() else 0.0,
        kwh=kwh,
        cost=kwh * chosen.price if kwh is not None and chosen.price is not None else None,
    )


def _kwh(lamp: Appliance, hours: float) -> float | None:
    return lamp.rated_power_w * hours / 1000.0 if lamp.rated_power_w is not None else None
