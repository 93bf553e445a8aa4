"""Harvest and cost: what was picked, what the heat for it cost, and whether it fed the household.

What is counted: `kg` is everything picked that was not lost (eaten, given, stored). A week is an ISO 8601 week.
Cost, heat and CO₂ per kg are the season's heat over the season's kg, never by month: spring's picking lived on
winter's heat.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import pairwise

import pandas as pd

from reportgen.measures.beds import Beds, beds
from reportgen.measures.days import dates
from reportgen.measures.harvest_costs import CostBars, cost_bars
from reportgen.measures.harvest_heat import DailyHeat, daily_heat
from reportgen.measures.harvest_value import break_even, household, shop_value
from reportgen.measures.heat_sums import ALL_KNOWN
from reportgen.plain import PAGE_ONLY
from reportgen.readings.types import Picking, Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class CropYield:
    """One crop over the season. `kg_per_m2` is per the crop's own area; the first fields go to review.json."""

    crop: str
    kg: float
    kg_per_m2: float | None
    pickings: int
    first: date | None = field(default=None, metadata=PAGE_ONLY)
    last: date | None = field(default=None, metadata=PAGE_ONLY)
    lost_kg: float = field(default=0.0, metadata=PAGE_ONLY)
    shop_value: float | None = field(default=None, metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class Week:
    """One ISO week: kg picked, heat given and its cost; null heat where no heater is listed."""

    week: str
    kg: float
    kwh: float | None
    cost: float | None
    monday: date = field(metadata=PAGE_ONLY)
    eaten_kg: float = field(default=0.0, metadata=PAGE_ONLY)
    days: int = field(default=7, metadata=PAGE_ONLY)  # of the week's days inside the season


@dataclass(frozen=True, kw_only=True, slots=True)
class Harvest:
    """Everything the harvest page says; field names are the keys of review.json's `harvest`."""

    kg: float | None
    kg_per_m2: float | None
    cost_per_kg: float | None
    kwh_per_kg: float | None
    co2_kg_per_kg: float | None
    share_of_household: float | None
    weeks_at_half_or_more: int | None
    longest_gap_weeks: int | None
    shop_value: float | None
    crops: tuple[CropYield, ...]
    weeks: tuple[Week, ...]
    reasons: Mapping[str, str]
    cost_per_kg_low: float | None  # bounds where part of the heat is not known
    cost_per_kg_high: float | None
    kwh_per_kg_low: float | None
    kwh_per_kg_high: float | None
    heat: DailyHeat = field(metadata=PAGE_ONLY)
    pickings: pd.DataFrame = field(metadata=PAGE_ONLY)  # date, crop, bed, kg, use, value
    cumulative: pd.DataFrame = field(metadata=PAGE_ONLY)  # index date; kg, kwh, cost, value: running totals
    beds: Beds = field(metadata=PAGE_ONLY)
    bars: CostBars = field(metadata=PAGE_ONLY)
    first: date | None = field(metadata=PAGE_ONLY)
    last: date | None = field(metadata=PAGE_ONLY)
    gap: tuple[date, date] | None = field(metadata=PAGE_ONLY)  # Monday of the first and of the last week of the gap
    lost_kg: float = field(metadata=PAGE_ONLY)
    given_kg: float = field(metadata=PAGE_ONLY)
    priced_share: float | None = field(metadata=PAGE_ONLY)  # of the kg, by weight
    break_even_kg: float | None = field(metadata=PAGE_ONLY)  # kg at which the shop value pays the heat
    litres_per_kg: float | None = field(metadata=PAGE_ONLY)
    kg_per_head: float | None = field(metadata=PAGE_ONLY)
    spread: bool = field(metadata=PAGE_ONLY)  # part of the heat is a sum spread over days


def harvest(readings: Readings, last: Readings | None = None) -> Harvest:
    """What the harvest book, the heating and the household table say together; missing parts are None with a reason.

    Args:
        last: Last winter's readings: what was bought then may still serve.
    """
    heat = daily_heat(readings)
    table = pickings_table(readings)
    kept = table[table["use"] != "lost"]
    reasons: dict[str, str] = {}
    kg = float(kept["kg"].sum()) if readings.books.get("harvest", bool(readings.harvest)) else None
    if kg is None:
        reasons["kg"] = readings.without("harvest", "no harvest.csv: nothing weighed was handed in")
    weeks = _weeks(readings, kept, heat)
    gap, gap_weeks = longest_gap([w.kg for w in weeks], [w.monday for w in weeks])
    value, priced = shop_value(kept, kg, reasons)
    litres = _litres(readings)
    share, at_half = household(readings, kept, weeks, kg, reasons)
    if heat.cost is None:
        reasons["weeks.cost"] = heat.reasons.get("cost", "")
    if heat.kwh is None:
        reasons["weeks.kwh"] = heat.reasons.get("kwh", "")
    if kg is None or gap_weeks is None:
        reasons["longest_gap_weeks"] = reasons.get("kg", "nothing was picked")
    return Harvest(
        kg=kg,
        kg_per_m2=_per(
            kg, readings.season.house.floor_area_m2, "kg_per_m2", "house.floor_area_m2 is not given", reasons
        ),
        cost_per_kg=_per_kg(heat.cost, kg, "cost_per_kg", heat.reasons.get("cost"), reasons),
        kwh_per_kg=_per_kg(heat.kwh, kg, "kwh_per_kg", heat.reasons.get("kwh"), reasons),
        co2_kg_per_kg=_per_kg(heat.co2_kg, kg, "co2_kg_per_kg", heat.reasons.get("co2"), reasons),
        share_of_household=share,
        weeks_at_half_or_more=at_half,
        longest_gap_weeks=gap_weeks if kg is not None else None,
        shop_value=value,
        crops=_crops(readings, table, reasons),
        weeks=weeks,
        reasons=reasons,
        **_bounds_per_kg(heat, kg, reasons),
        heat=heat,
        pickings=table,
        cumulative=_cumulative(kept, heat),
        beds=beds(readings),
        bars=cost_bars(readings, heat.cost, kg, last),
        first=min(kept["date"], default=None),
        last=max(kept["date"], default=None),
        gap=gap,
        lost_kg=float(table.loc[table["use"] == "lost", "kg"].sum()),
        given_kg=float(table.loc[table["use"] == "given", "kg"].sum()),
        priced_share=priced,
        break_even_kg=break_even(heat.cost, value, priced, kg),
        litres_per_kg=sum(litres.values()) / kg if litres and kg else None,
        kg_per_head=kg / readings.season.household.people if kg and readings.season.household.people else None,
        spread=heat.spread,
    )


def pickings_table(readings: Readings) -> pd.DataFrame:
    """date, crop, bed, kg, use, value (money; NaN without a price); only days of the season, in order."""
    prices = {crop.name: crop.shop_price_per_kg for crop in readings.season.crops}
    season = readings.season
    rows = [p for p in readings.harvest if season.first_day <= p.date <= season.last_day]
    table = pd.DataFrame(
        {
            "date": [p.date for p in rows],
            "crop": [p.crop for p in rows],
            "bed": [p.bed or "" for p in rows],
            "kg": pd.Series([p.weight_kg for p in rows], dtype="float64"),
            "use": [p.use for p in rows],
            "value": pd.Series([_value(p, prices.get(p.crop)) for p in rows], dtype="float64"),
        }
    )
    return table.sort_values(["date", "crop", "bed"], kind="stable").reset_index(drop=True)


def _value(picking: Picking, price: float | None) -> float:
    price = picking.price_per_kg if picking.price_per_kg is not None else price
    return float("nan") if price is None else picking.weight_kg * price


def longest_gap(kg: list[float], mondays: list[date]) -> tuple[tuple[date, date] | None, int | None]:
    """The longest run of weeks without a picking between the first and the last week with one.

    Returns: (first and last Monday of the run, or None when no week is empty; number of weeks, None if nothing picked).
    """
    picked = [i for i, weight in enumerate(kg) if weight > 0]
    if not picked:
        return None, None
    best = max(((b - a - 1, a) for a, b in pairwise(picked)), default=(0, 0), key=lambda x: x[0])
    length, after = best
    return ((mondays[after + 1], mondays[after + length]) if length else None), length


def iso_week(day: date) -> str:
    """2026-W03 (ISO 8601)."""
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02d}"


def _weeks(readings: Readings, kept: pd.DataFrame, heat: DailyHeat) -> tuple[Week, ...]:
    days = dates(readings.season)
    mondays = pd.Index([d - timedelta(days=d.weekday()) for d in days])
    kwh = heat.table["kwh"].groupby(mondays).sum()
    cost = heat.table["cost"].groupby(mondays).sum()
    of_picking = [d - timedelta(days=d.weekday()) for d in kept["date"]]
    kg = kept.groupby(of_picking)["kg"].sum() if len(kept) else pd.Series(dtype="float64")
    eaten = kept[kept["use"].isin(["eaten", "stored"])]
    eaten_kg = eaten.groupby([d - timedelta(days=d.weekday()) for d in eaten["date"]])["kg"].sum() if len(eaten) else kg
    return tuple(
        Week(
            week=iso_week(monday),
            kg=float(kg.get(monday, 0.0)),
            kwh=None if heat.kwh is None else float(kwh[monday]),
            cost=None if heat.cost is None else float(cost[monday]),
            monday=monday,
            eaten_kg=float(eaten_kg.get(monday, 0.0)) if len(eaten) else 0.0,
            days=int((mondays == monday).sum()),
        )
        for monday in sorted(set(mondays))
    )


def _crops(readings: Readings, table: pd.DataFrame, reasons: dict[str, str]) -> tuple[CropYield, ...]:
    areas = {crop.name: crop.area_m2 for crop in readings.season.crops}
    found = []
    for crop, rows in table.groupby("crop", sort=True):
        kept = rows[rows["use"] != "lost"]
        kg, area = float(kept["kg"].sum()), areas.get(str(crop))
        found.append(
            CropYield(
                crop=str(crop),
                kg=kg,
                kg_per_m2=kg / area if area else None,
                pickings=len(kept),
                first=min(kept["date"], default=None),
                last=max(kept["date"], default=None),
                lost_kg=float(rows.loc[rows["use"] == "lost", "kg"].sum()),
                shop_value=float(kept["value"].sum()) if len(kept) and kept["value"].notna().all() else None,
            )
        )
    found.sort(key=lambda c: (-c.kg, c.crop))
    for i, one in enumerate(found):
        if one.kg_per_m2 is None:
            reasons[f"crops.{i}.kg_per_m2"] = f"no area_m2 for {one.crop}"
    if not found:
        reasons["crops"] = reasons.get("kg", "nothing was picked in the season's days")
    return tuple(found)


def _per(kg: float | None, by: float | None, key: str, words: str, reasons: dict[str, str]) -> float | None:
    if kg is None or by is None:
        reasons[key] = reasons["kg"] if kg is None else words
        return None
    return kg / by


def _per_kg(
    amount: float | None, kg: float | None, key: str, words: str | None, reasons: dict[str, str]
) -> float | None:
    if kg is None or amount is None or kg == 0:
        reasons[key] = reasons["kg"] if kg is None else (words or "nothing was picked in the season's days")
        return None
    return amount / kg


def _bounds_per_kg(heat: DailyHeat, kg: float | None, reasons: dict[str, str]) -> dict[str, float | None]:
    """Bounds of cost and heat per kg, by the keys of review.json."""
    out: dict[str, float | None] = {}
    for key, one in (("cost_per_kg", heat.money), ("kwh_per_kg", heat.heat)):
        for end, amount in (("low", one.low), ("high", one.high)):
            words = one.reason or ALL_KNOWN
            out[f"{key}_{end}"] = _per_kg(amount, kg, f"{key}_{end}", words, reasons)
    return out


def _cumulative(kept: pd.DataFrame, heat: DailyHeat) -> pd.DataFrame:
    table = heat.table.copy()
    by_date = kept.groupby("date")[["kg", "value"]].sum() if len(kept) else pd.DataFrame({"kg": [], "value": []})
    table["kg"] = by_date["kg"].reindex(table.index).fillna(0.0).astype("float64")
    table["value"] = by_date["value"].reindex(table.index).fillna(0.0).astype("float64")
    return table[["kg", "kwh", "cost", "value"]].cumsum()


def _litres(readings: Readings) -> dict[str, float]:
    """Litres by bed ("" where no bed is named); empty without a watering book."""
    season = readings.season
    found: dict[str, float] = {}
    for row in readings.watering:
        if row.litres is not None and season.first_day <= row.date <= season.last_day:
            found[row.bed or ""] = found.get(row.bed or "", 0.0) + row.litres
    return found
