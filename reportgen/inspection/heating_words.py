"""Heaters and appliances as lines of words: where their figures come from, how much, what it cost."""

from __future__ import annotations

from reportgen.measures.heat_sums import gap_hours
from reportgen.readings.types import HeatSupply, Readings
from reportgen.season import HeatSource, Season
from reportgen.wording import NBSP, Wording, count, day, number

_FORMS = {
    "logger": "from its logger",
    "meter": "from meter readings",
    "deliveries": "from deliveries",
    "bills": "from bills",
    "rated hours": "from its rated power and hours a day",
}


def heating_lines(readings: Readings | None) -> list[str]:
    """One line a heater or appliance, and one on the prices."""
    if readings is None:
        return []
    w = Wording.of(readings.season)
    lines = [_line(w, supply) for supply in (*readings.heating, *readings.appliances)]
    return lines + ([_prices(readings)] if lines else [])


def _line(w: Wording, supply: HeatSupply) -> str:
    table = supply.intervals
    head = f"{supply.name} ({supply.fuel}, {supply.role}), {_FORMS.get(supply.form, supply.form)}"
    if len(table) == 0:
        return f"{head}: {supply.reasons.get('heat_kwh', 'nothing in the season')}"
    parts = [f"{number(float(table['bought'].sum()), 1)}{NBSP}{supply.unit} bought or drawn"]
    heat = float(table["heat_kwh"].sum(min_count=1))
    if heat == heat:
        parts.append(f"{w.kwh(heat)} of heat")
    cost = float(table["cost"].sum(min_count=1))
    parts.append(w.money(cost) if cost == cost and w.currency else f"no cost: {supply.reasons.get('cost', 'no price')}")
    unknown = gap_hours(supply.gaps)
    if unknown >= 1:
        parts.append(f"nothing known of {count(unknown, 'hour')}")
    span = f"{day(table['start'].iloc[0], year=True)} to {day(table['end'].iloc[-1], year=True)}"
    steps = f"{count(len(table), 'stretch', 'stretches')}, " if supply.form in ("meter", "deliveries", "bills") else ""
    return f"{head}: {', '.join(parts)}; {steps}{span}"


def _prices(readings: Readings) -> str:
    season = readings.season
    told = [_price(season, source) for source in season.heating]
    told += [
        f"{item.name} {item.price:g} {season.currency} per kWh" for item in season.appliances if item.price is not None
    ]
    known = [words for words in told if words]
    if known:
        return f"prices: {'; '.join(known)}"
    paid = any(supply.intervals["cost"].notna().any() for supply in readings.heating if len(supply.intervals))
    return (
        "prices: none given; the cost is what the books name" if paid else "prices: none given, so no cost can be told"
    )


def _price(season: Season, source: HeatSource) -> str:
    if source.price is not None:
        return f"{source.name} {source.price:g} {season.currency} per {source.unit}"
    if not source.prices:
        return ""
    steps = ", ".join(
        f"{p.price:g} from {day(p.start, year=True)}{f' ({p.hours} h)' if p.hours else ''}" for p in source.prices
    )
    return f"{source.name} {steps} ({season.currency} per {source.unit})"
