"""Findings of the harvest's money: what a weight cost in heat, in all, and against the shop."""

from __future__ import annotations

from reportgen.findings import cautions
from reportgen.findings.facts import Facts
from reportgen.findings.harvest_words import harvest_finding, weighings
from reportgen.findings.types import Finding, Source
from reportgen.wording import count


def cost(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.cost_per_kg is None or h.heat.cost is None or h.heat.kwh is None or not h.heat.cost or h.kg is None:
        return None
    each = facts.money_per_mass(h.cost_per_kg)
    unit = f"{w.mass_unit} picked"
    return harvest_finding(
        "cost-of-a-kilogram",
        claim=f"The heat for what you picked came to {each}: {w.mass(h.kg)} for {w.money(h.heat.cost)}.",
        evidence=f"{weighings(facts)}, and {w.kwh(h.heat.kwh)} of heat over the whole season. By the month the "
        "figure would mislead: what you pick late grew on the heat of the weeks before.",
        next_step="Set the lowest hold that your crops stand, by the price of a degree on the Heat page: the same "
        "harvest at less heat is the quickest way to a smaller figure.",
        caution=cautions.heating(facts.fuels) or None,
        figure=w.money(facts.per_mass(h.cost_per_kg)),
        figure_note=f"of heat a {w.mass_unit}",
        token="money",
        anchor="harvest_running",
        stake="money",
        weight=h.heat.cost,
        sources=(
            Source(csv="harvest_running.csv", how="max", column=unit, value=w.mass_value(h.kg)),
            Source(csv="harvest_running.csv", how="max", column=f"{w.currency} of heat", value=h.heat.cost),
        ),
    )


def against_the_shop(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.shop_value is None or h.heat.cost is None or not h.heat.cost or h.kg is None or h.break_even_kg is None:
        return None
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
        claim=f"In the shop the harvest would have cost {w.money(h.shop_value)}, {verb} the {w.money(h.heat.cost)} "
        "that its heat cost.",
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


def all_costs(facts: Facts) -> Finding | None:
    bars, w = facts.r.harvest.bars, facts.w
    if bars.everything is None or bars.everything_per_kg is None or bars.heat is None or not bars.by_years:
        return None
    return harvest_finding(
        "with-everything-counted",
        claim=f"With everything counted by its years, the harvest cost {facts.money_per_mass(bars.everything_per_kg)}.",
        evidence=f"{w.money(bars.heat)} of heat, the rest from costs.csv: {count(len(bars.by_years), 'thing')} "
        f"spread over the years they last. {hours_words(facts)} not in it.",
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
