"""Findings of the harvest's money: what a weight cost in heat, in all, and against the shop."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_words import harvest_finding, weighings
from reportgen.counsel.heat_bounds import kwh_words, money_words, unknown
from reportgen.counsel.types import Finding, Source
from reportgen.measures.harvest_costs import Group
from reportgen.wording import count, shares


def cost(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.cost_per_kg is None or h.heat.cost is None or h.heat.kwh is None or not h.heat.cost or h.kg is None:
        return None
    each = facts.money_per_mass_between(h.cost_per_kg, h.cost_per_kg_low, h.cost_per_kg_high)
    unit = f"{w.mass_unit} picked"
    return harvest_finding(
        "cost-of-a-kilogram",
        claim=f"The heat for what you picked came to {each}: {w.mass(h.kg)} for {_paid(facts, h.heat.cost)}.",
        evidence=f"{weighings(facts)}, and {_given(facts, h.heat.kwh)} of heat over the whole season. By the month the "
        "figure would mislead: what you pick late grew on the heat of the weeks before.",
        next_step="Set the lowest hold that your crops stand, by the price of a degree on the Heat page: the same "
        "harvest at less heat is the quickest way to a smaller figure.",
        caution=cautions.heating(facts.fuels) or None,
        **_how_sure(facts),
        figure=w.money(facts.per_mass(h.cost_per_kg)),
        figure_note=f"of heat a {w.mass_unit}" + (", about" if h.heat.money.low is not None else ""),
        token="money",
        anchor="harvest_running",
        stake="money",
        weight=h.heat.cost,
        sources=(
            Source(csv="harvest_running.csv", how="max", column=unit, value=w.mass_value(h.kg)),
            Source(csv="harvest_running.csv", how="max", column=f"{w.currency} of heat", value=h.heat.cost),
        ),
    )


def _how_sure(facts: Facts) -> dict[str, str]:
    """Less sure than a weighing where the money has bounds."""
    if facts.r.harvest.heat.money.low is None:
        return {}
    return {
        "how_sure": "Fairly sure: it was weighed, but part of what the heat cost is not known; the sources on the Heat "
        "page say which.",
        "sure": "fairly sure",
    }


def _paid(facts: Facts, cost: float) -> str:
    """What the heat cost, as a range where it is one."""
    money = facts.r.harvest.heat.money
    return money_words(facts.w, cost, money.low, money.high, 2)


def _given(facts: Facts, kwh: float) -> str:
    heat = facts.r.harvest.heat.heat
    return kwh_words(facts.w, kwh, heat.low, heat.high)


def against_the_shop(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.shop_value is None or h.heat.cost is None or not h.heat.cost or h.kg is None or h.break_even_kg is None:
        return None
    if h.heat.money.low is not None and h.heat.money.low < h.shop_value < (h.heat.money.high or 0.0):
        return _either_way(facts, h.shop_value, h.heat.cost)
    pays = h.shop_value >= h.heat.cost
    part = (
        ""
        if h.priced_share is None or h.priced_share > 0.9995
        else f" (of {w.percent(100 * h.priced_share)} by weight)"
    )
    verb = "more than" if pays else "less than"
    even = f"The heat alone is paid from {w.mass(h.break_even_kg)} on; you picked {w.mass(h.kg)}."
    return harvest_finding(
        "against-the-shop",
        claim=f"In the shop the harvest would have cost {w.money(h.shop_value)}, {verb} the "
        f"{_paid(facts, h.heat.cost)} that its heat cost.",
        evidence=f"Weights times the shop prices you gave{part}. {even}",
        how_sure="Fairly sure: the weights are measured, the shop prices are what you wrote down.",
        next_step="Grow more of what is dear in the shop and stands the cold; heat costs the same over either."
        if pays
        else close_the_gap(facts, h.break_even_kg, h.kg),
        figure=w.money(h.shop_value - h.heat.cost),
        figure_note="shop value less heat",
        token="money",
        anchor="harvest_running",
        stake="good news" if pays else "money",
        sure="fairly sure",
        weight=abs(h.shop_value - h.heat.cost),
        sources=(Source(csv="harvest_running.csv", how="max", column=f"{w.currency} in the shop", value=h.shop_value),),
    )


def close_the_gap(facts: Facts, even_kg: float, kg: float) -> str:
    """More picking where that is within reach, else less heat."""
    if even_kg <= 1.5 * kg:
        return f"Pick {facts.w.mass(even_kg - kg)} more in the same house, or heat less: either closes the gap."
    share = facts.w.percent(100 * kg / even_kg)
    return f"Heat less: to break even at this harvest the bill would have to be {share} of what it was."


def _either_way(facts: Facts, value: float, paid: float) -> Finding:
    w = facts.w
    return harvest_finding(
        "against-the-shop",
        claim=f"In the shop the harvest would have cost {w.money(value)}; its heat cost "
        f"{_paid(facts, paid)}, so which of the two is more cannot be told.",
        evidence=f"Weights times the shop prices you gave. {unknown(facts) or 'The hours of the heat are not known'}.",
        how_sure="Cannot tell: part of what the heat cost is not known.",
        next_step="Let the logger of the heater run through next winter, and write its meter down on the first and the "
        "last day.",
        figure=w.money(value),
        figure_note="shop value",
        token="money",
        anchor="harvest_running",
        stake="money",
        sure="cannot tell",
        weight=0.0,
        sources=(Source(csv="harvest_running.csv", how="max", column=f"{w.currency} in the shop", value=value),),
    )


def all_costs(facts: Facts) -> Finding | None:
    bars, w = facts.r.harvest.bars, facts.w
    if bars.everything is None or bars.everything_per_kg is None or bars.heat is None:
        return None
    groups: tuple[Group, ...] = ("heat", "appliance", "used up", "by its years")
    heat, drawn, used, lasting = (
        w.money(one) for one in shares([sum(p.amount for p in bars.parts if p.group == group) for group in groups], 2)
    )
    between = "".join(
        [
            f", {drawn} for appliances" if bars.named("appliance") else "",
            f", {used} for what was used up" if bars.named("used up") else "",
        ]
    )
    money, kg = facts.r.harvest.heat.money, facts.r.harvest.kg or 0.0
    low, high = (
        None if end is None or not kg else (bars.everything + end - bars.heat) / kg for end in (money.low, money.high)
    )
    each = facts.money_per_mass_between(bars.everything_per_kg, low, high)
    return harvest_finding(
        "with-everything-counted",
        claim=f"With everything counted by its years, the harvest cost {each}.",
        evidence=f"{heat} of heat{between}, and {lasting} for {count(len(bars.named('by its years')), 'thing')} spread "
        f"over the years they last: {w.money(bars.everything)} this {facts.there.season}, by costs.csv and the diary. "
        f"{hours_words(facts)} not in it.",
        how_sure="Fairly sure: how many years a thing lasts is your own guess.",
        next_step="Before you buy, add the price divided by its years to this figure and ask what it would add to "
        "the harvest.",
        figure=w.money(facts.per_mass(bars.everything_per_kg)),
        figure_note=f"a {w.mass_unit}, all in",
        token="money",
        anchor="harvest_costs",
        stake="money",
        sure="fairly sure",
        weight=bars.everything,
        sources=(
            Source(csv="harvest_costs.csv", how="max", column=f"{w.currency} this winter", value=bars.everything),
        ),
    )


def hours_words(facts: Facts) -> str:
    """Your 34 h of work are, or: Your hours are."""
    hours = facts.r.harvest.bars.hours
    return "Your hours are" if hours is None else f"Your {facts.w.hours(hours)} of work are"
