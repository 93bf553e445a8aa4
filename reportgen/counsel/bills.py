"""Next winter's heat: this winter's bill and those that may follow, and what the house as it now is would need."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Grounds, JudgedLever
from reportgen.measures.harvest_next import Bill, bills, next_money
from reportgen.units import FAHRENHEIT_K


@dataclass(frozen=True, kw_only=True, slots=True)
class NextHeat:
    """What the heat of a winter like this one would take of the house as it now is, at next winter's prices.

    `kept`: names of the levers that were up for a part of this winter only and will be for all of the next.
    """

    kwh: tuple[float, float]  # low, high
    money: tuple[float, float]
    next_prices: bool  # else those of this winter
    kept: tuple[str, ...]


def bills_of(facts: Facts) -> dict[str, Bill]:
    """This winter's bill and those that may follow, by name; empty where the heat has no price, or the winter
    still runs."""
    heat = facts.r.harvest.heat
    if not heat.cost or not heat.kwh or facts.r.season.so_far is not None:  # a part of a winter is no winter
        return {}
    hold, moved = facts.number("heat.hold_found_c"), facts.at("heat.price_of_degree") or []
    return {bill.what: bill for bill in bills(facts.r.readings, (heat.kwh, heat.cost), hold, moved)}


def next_heat(facts: Facts, on: Grounds) -> NextHeat | None:
    """None where the heat of this winter or its price is not known, or it still runs.

    Of a lever that is kept, what the nights before it would have been spared is taken off: what it spares in a whole
    winter less what it spared since it was up.
    """
    heat = facts.r.harvest.heat
    money, _, given = next_money(facts.r.readings)
    if not heat.kwh or not heat.cost or not money or facts.r.season.so_far is not None:
        return None
    kept = [(lever, more) for lever in on.levers if (more := _still_to_spare(lever)) is not None]
    most = min(sum(more[1] for _, more in kept), heat.kwh)
    least = min(sum(more[0] for _, more in kept), most)
    kwh = (heat.kwh - most, heat.kwh - least)
    return NextHeat(
        kwh=kwh,
        money=(money * kwh[0] / heat.kwh, money * kwh[1] / heat.kwh),
        next_prices=given,
        kept=tuple(lever.thing or lever.name for lever, _ in kept),
    )


def degree_spares(facts: Facts) -> float | None:
    """Money that every date's hold one degree (as shown: °C or °F) lower spares at most in this winter's weather."""
    ends = degree_ends(facts, money=True)
    return None if ends is None else ends[1]


def degree_ends(facts: Facts, *, money: bool, up: bool = False) -> tuple[float, float] | None:
    """Low and high of what every date's hold one degree (as shown) lower spares, or one higher takes more, in money or
    kWh.

    By the band of the price of a degree, nine in ten of the changes on simulated houses. None where it is not told.
    """
    heat = facts.r.harvest.heat
    step = (FAHRENHEIT_K if facts.w.us else 1.0) * (1 if up else -1)
    row = _moved(facts, step)
    was, ends = (heat.cost, ("cost_low", "cost_high")) if money else (heat.kwh, ("low", "high"))
    if not was or row is None or any(row.get(end) is None for end in ends):
        return None
    low, high = sorted(max((1 if up else -1) * (row[end] - was), 0.0) for end in ends)
    return low, high


def _moved(facts: Facts, away_k: float) -> Mapping[str, float] | None:
    rows = facts.at("heat.price_of_degree") or []
    return next((row for row in rows if abs(row["away_k"] - away_k) < 1e-6), None)


def _still_to_spare(lever: JudgedLever) -> tuple[float, float] | None:
    """Low and high of what a whole winter is spared beyond this one [kWh]."""
    whole, since = lever.winter_kwh, lever.spared_kwh
    if lever.verdict not in ("keep", "keep with a condition") or not lever.on_now or whole is None or since is None:
        return None
    if whole.low is None or whole.high is None or since.low is None or since.high is None:
        return None
    more = sorted((whole.low - since.low, whole.high - since.high))
    return (more[0], more[1]) if more[1] > 0.5 else None
