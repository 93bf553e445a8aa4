"""What to buy or not, and what next winter's heat may cost: the arithmetic beside each line."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.plan_types import Step, next_year
from reportgen.measures.harvest_next import COLDER_K, Bill, bills
from reportgen.readings.types import DiaryEntry


def to_buy(facts: Facts) -> list[Step]:
    """A lower hold to try, the heat money to put by, and every idea of the diary that has a price."""
    ideas = [_idea(facts, entry) for entry in facts.r.readings.diary if entry.kind == "idea" and entry.cost]
    return [*_heat_next_winter(facts), *ideas]


def bills_of(facts: Facts) -> dict[str, Bill]:
    """This winter's bill and those that may follow, by name; empty where the heat has no price."""
    heat = facts.r.harvest.heat
    if not heat.cost or not heat.kwh:
        return {}
    rows = [row for row in facts.at("heat.price_of_hold") or [] if row.get("kwh") is not None]
    hold = facts.number("heat.hold_found_c")
    return {bill.what: bill for bill in bills(facts.r.readings, (heat.kwh, heat.cost), hold, rows)}


def _heat_next_winter(facts: Facts) -> list[Step]:
    found = bills_of(facts)
    before = found.get("next prices", found.get("as it was"))
    if before is None or before.hold_c is None:
        return []
    start = next_year(facts.r.season.first_day)
    steps = []
    prices = "at next winter's prices" if "next prices" in found else f"at this {facts.there.season}'s prices"
    lower, colder = found.get("lower hold"), found.get("colder")
    if lower is not None and lower.hold_c is not None and lower.hold_c > facts.r.season.aims.frost_c:
        steps.append(_lower(facts, before, lower, prices))
    if colder is not None:
        w, apart = facts.w, facts.w.diff(COLDER_K, 0 if not facts.w.us else 1)
        steps.append(
            Step(
                what="buy",
                text=f"Put by about {w.money(colder.cost, 0)} for heat, in case next winter is {apart} colder.",
                why=f"In this {facts.there.season}'s weather the same heat would come to "
                f"{w.money(before.cost, 0)} {prices}; "
                f"{apart} colder at the same hold adds {w.money(colder.cost - before.cost, 0)}.",
                how_sure="Fairly sure for the heat; prices may change.",
                when=start,
                cost=colder.cost,
                finding="cost-of-a-kilogram",
            )
        )
    return steps


def _lower(facts: Facts, before: Bill, lower: Bill, prices: str) -> Step:
    w, saved, kg = facts.w, before.cost - lower.cost, facts.r.harvest.kg
    each = f", which is {facts.money_per_mass(saved / kg)} picked" if kg else ""
    return Step(
        what="try",
        text=f"A hold of {w.temp(lower.hold_c or 0.0)} in place of {w.temp(before.hold_c or 0.0)}, if your crops "
        "stand it.",
        why=f"In this {facts.there.season}'s weather it would save about {w.money(saved, 0)}{each}, {prices}.",
        how_sure="Fairly sure of the heat, within a few degrees of what was held; what the crops say is not known.",
        caution=cautions.heating(facts.fuels) or None,
        when=next_year(facts.r.season.first_day),
        finding="dark-weeks-money",
    )


def _idea(facts: Facts, entry: DiaryEntry) -> Step:
    w, cost, heat = facts.w, entry.cost or 0.0, facts.number("heat.cost")
    part = f", which is {w.percent(100 * cost / heat)} of this {facts.there.season}'s heat" if heat else ""
    years = f", {w.money(cost / entry.years)} for each year it lasts" if entry.years else ""
    return Step(
        what="buy",
        text=f"Do not buy “{entry.what}” yet.",
        why=f"It costs {w.money(cost)}{part}{years}. No season has shown what it would save here.",
        how_sure="Cannot tell before it has been tried.",
        caution=cautions.heating(facts.fuels) or None if "heater" in entry.touches else None,
        cost=cost,
    )
