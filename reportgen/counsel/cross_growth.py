"""Findings on what the heat of the dark weeks bought, and on light before warmth."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Finding
from reportgen.measures.light import LEAFY_NEED_MOL
from reportgen.wording import NBSP, count, number

HELD = 0.9  # warmth was there: this share of the time at or above the hold
APART = 0.1  # the dark weeks' share of the money exceeds their share of the harvest by this


def light_first(facts: Facts) -> Finding | None:
    """Warmth was there and light was not; silent without a daily light figure and a hold."""
    light, held = facts.number("light.mean_daily_light_mol"), facts.number("heat.share_at_or_above_hold.estimate")
    dark = facts.number("light.days_under_ten_hours")
    if light is None or held is None or not dark or light >= LEAFY_NEED_MOL or held < HELD:
        return None
    return Finding(
        slug="light-before-warmth",
        page="light",
        claim=f"Light, more than warmth, looks like what held growth back: {number(light, 1)}{NBSP}mol/m² a day on "
        "average.",
        evidence=f"The hold was kept {facts.w.percent(100 * held)} of the time, while {count(dark, 'day')} had under "
        f"ten hours of daylight. Leafy crops are usually given {number(LEAFY_NEED_MOL)}{NBSP}mol/m² a day or more "
        "(Jayalath and others 2024).",
        how_sure="A hint: growth was not measured, only what it had to live on.",
        next_step="In the dark weeks hold a lower temperature and clean the glazing; more heat alone brings little."
        if facts.there.heater
        else "Clean the glazing before the dark weeks.",
        caution=cautions.ROOF,
        figure=f"{number(light, 1)}{NBSP}mol/m²",
        figure_note="light a day",
        token="sun",
        anchor="light_days",
        stake="growth",
        sure="a hint",
        weight=LEAFY_NEED_MOL - light,
        holds_for="this kind of cover",
    )


def dark_weeks(facts: Facts) -> Finding | None:
    """The dark weeks' share of the heat money beside their share of the harvest."""
    cost, kg = facts.number("heat.dark_weeks.cost"), facts.number("heat.dark_weeks.kg")
    total, whole = facts.number("heat.cost"), facts.r.harvest.kg
    if cost is None or kg is None or not total or not whole:
        return None
    money, mass = cost / total, kg / whole
    if money - mass < APART:
        return None
    w = facts.w
    return Finding(
        slug="dark-weeks-money",
        page="harvest",
        claim=f"The dark weeks took {w.percent(100 * money)} of the heat money and gave {w.percent(100 * mass)} of "
        "the harvest.",
        evidence=f"{w.money(cost)} of {w.money(total)}, and {w.mass(kg)} of {w.mass(whole)}; the dark weeks are "
        "those with under ten hours of daylight.",
        how_sure="Sure for both shares; what grew in them was picked later too, so they did not buy nothing.",
        next_step="Lower the hold in those weeks to what the hardiest crop stands, by the price of a degree.",
        caution=cautions.heating(facts.fuels) or None,
        figure=w.percent(100 * money),
        figure_note="of the money, dark weeks",
        token="money",
        anchor="harvest_weeks",
        stake="money",
        sure="sure",
        weight=cost,
    )
