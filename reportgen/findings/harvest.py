"""Findings of the harvest and its cost: what it gave, what it cost, whether it fed the household, what stood empty."""

from __future__ import annotations

from typing import Any

from reportgen.findings import cautions
from reportgen.findings.facts import Facts
from reportgen.findings.results import Results
from reportgen.findings.types import Finding, Source
from reportgen.wording import NBSP, count, day, number

WEIGHED = "Sure: it was weighed, and the meters and prices are your own."
EMPTY_ENOUGH = 4.0  # empty bed-weeks below this are a turn-round, not a gap
LOST_ENOUGH = 0.05  # share of the picking that was lost before it is worth a sentence


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the harvest book and the bills say; silent where they do not."""
    facts = Facts.of(r)
    if r.harvest.kg is None:
        return (_not_weighed(facts),)
    if r.harvest.kg == 0:
        return ()
    rules = (_cost, _against_the_shop, _household, _gap, _lost, _best_ground, _before_midwinter, _empty, _all_costs)
    return tuple(finding for rule in rules if (finding := rule(facts)) is not None)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="harvest", **({"how_sure": WEIGHED, "sure": "sure"} | more))


def _days(facts: Facts) -> str:
    pickings = len(facts.r.harvest.pickings)
    first, last = facts.r.harvest.first, facts.r.harvest.last
    if first is None or last is None:
        return count(pickings, "weighing")
    return f"{count(pickings, 'weighing')} from {day(first)} to {day(last)}"


def _cost(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.cost_per_kg is None or h.heat.cost is None or h.heat.kwh is None or not h.heat.cost or h.kg is None:
        return None
    each = facts.money_per_mass(h.cost_per_kg)
    unit = f"{w.mass_unit} picked"
    return _finding(
        "cost-of-a-kilogram",
        claim=f"The heat for what you picked came to {each}: {w.mass(h.kg)} for {w.money(h.heat.cost)}.",
        evidence=f"{_days(facts)}, and {w.kwh(h.heat.kwh)} of heat over the whole winter. By the month the figure "
        "would "
        "mislead: what you pick in spring grew on winter's heat.",
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


def _against_the_shop(facts: Facts) -> Finding | None:
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
    return _finding(
        "against-the-shop",
        claim=f"In the shop the harvest would have cost {w.money(h.shop_value)}, {verb} the {w.money(h.heat.cost)} "
        "that its heat cost.",
        evidence=f"Weights times the shop prices you gave{part}. {even}",
        how_sure="Fairly sure: the weights are measured, the shop prices are what you wrote down.",
        next_step="Grow more of what is dear in the shop and stands the cold; heat costs the same over either."
        if pays
        else _close_the_gap(facts, h.break_even_kg, h.kg),
        figure=w.money(h.shop_value - h.heat.cost),
        figure_note="shop value less heat",
        token="money",
        anchor="harvest_running",
        stake="good news" if pays else "money",
        sure="fairly sure",
        weight=abs(h.shop_value - h.heat.cost),
        sources=(Source(csv="harvest_running.csv", how="max", column=f"{w.currency} in the shop", value=h.shop_value),),
    )


def _close_the_gap(facts: Facts, even_kg: float, kg: float) -> str:
    """More picking where that is within reach, else less heat."""
    if even_kg <= 1.5 * kg:
        return f"Pick {facts.w.mass(even_kg - kg)} more in the same house, or heat less: either closes the gap."
    share = facts.w.percent(100 * kg / even_kg)
    return f"Heat less: to break even at this harvest the bill would have to be {share} of what it was."


def _household(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    need = facts.r.season.household.vegetables_kg_per_week
    if h.share_of_household is None or h.weeks_at_half_or_more is None or need is None:
        return None
    share = w.percent(100 * h.share_of_household)
    weeks = len(h.weeks)
    return _finding(
        "fed-the-household",
        claim=f"The house gave {share} of the vegetables you eat, and at least half of them in "
        f"{number(h.weeks_at_half_or_more)} of {count(weeks, 'week')}.",
        evidence=f"What was eaten or stored, against the {w.mass(need)} a week you eat; {_days(facts)}.",
        how_sure="Sure for the weights; your weekly need is one figure for the whole winter.",
        next_step="Look at the weeks below half on the chart and sow for them: the strips show which sowing "
        "dates were "
        "ready by then.",
        figure=share,
        figure_note="of your vegetables",
        token="target",
        anchor="harvest_weeks",
        stake="good news" if h.weeks_at_half_or_more * 2 >= weeks else "growth",
        weight=h.share_of_household,
        sources=(
            Source(
                csv="harvest_weeks.csv",
                how="count",
                column="week",
                rows="`half or more` == 'yes'",
                value=float(h.weeks_at_half_or_more),
            ),
        ),
    )


def _gap(facts: Facts) -> Finding | None:
    h = facts.r.harvest
    if not h.longest_gap_weeks or h.longest_gap_weeks < 2 or h.gap is None:
        return None
    weeks = count(h.longest_gap_weeks, "week")
    return _finding(
        "longest-gap",
        claim=f"For {weeks} running nothing was picked, from the week of {day(h.gap[0])} on.",
        evidence=f"{_days(facts)}; weeks run from Monday to Sunday.",
        next_step=_sow_earlier(facts),
        figure=weeks,
        figure_note="without a picking",
        anchor="harvest_weeks",
        stake="growth",
        weight=float(h.longest_gap_weeks),
        sources=(
            Source(csv="harvest_weeks.csv", how="max", column="weeks without a picking", value=h.longest_gap_weeks),
        ),
    )


def _sow_earlier(facts: Facts) -> str:
    early = [s for s in facts.r.harvest.beds.strips if s.before_midwinter and s.sown]
    if early:
        latest = max(s.sown for s in early if s.sown is not None)
        return (
            f"Sow the gap's crop by {day(latest)}: that was the last sowing this winter that was ready before "
            "midwinter."
        )
    return (
        "Note sowing dates in plantings.csv next winter, so that the sowing that would have filled the gap "
        "can be named."
    )


def _lost(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.kg is None or h.lost_kg < LOST_ENOUGH * (h.kg + h.lost_kg) or h.lost_kg == 0:
        return None
    causes = sorted({s.cause for s in h.beds.strips if s.cause and (s.lost or 0) > 0})
    named = f" Causes noted: {', '.join(causes)}." if causes else ""
    return _finding(
        "lost-harvest",
        claim=f"{w.mass(h.lost_kg)} of {w.mass(h.kg + h.lost_kg)} that grew was lost.",
        evidence=f"Weighings marked lost, of {_days(facts)}.{named}",
        next_step="Write the cause beside each loss next winter; the damp and frost pages can then be set beside it.",
        caution=cautions.SPRAY,
        figure=w.mass(h.lost_kg),
        figure_note="lost",
        anchor="harvest_crops",
        stake="crop lost",
        weight=h.lost_kg,
        sources=(
            Source(csv="harvest_crops.csv", how="sum", column=f"{w.mass_unit} lost", value=w.mass_value(h.lost_kg)),
        ),
    )


def _best_ground(facts: Facts) -> Finding | None:
    known = [(c.kg_per_m2, c) for c in facts.r.harvest.crops if c.kg_per_m2 is not None]
    if len(known) < 2:
        return None
    known.sort(key=lambda pair: (-pair[0], pair[1].crop))
    (most, best), (least, worst) = known[0], known[-1]
    if least <= 0 or most / least < 1.5:
        return None
    return _finding(
        "best-use-of-ground",
        claim=f"On the same ground {best.crop} gave {facts.mass_per_area(most)}, {worst.crop} "
        f"{facts.mass_per_area(least)}.",
        evidence=f"{count(best.pickings, 'picking')} of {best.crop} and {number(worst.pickings)} of {worst.crop}, "
        "by the area "
        "you gave each. They did not stand for the same weeks, and one bed each is no trial.",
        how_sure="A hint: beds differ in light and warmth as well as in what grew in them.",
        next_step=f"Give {best.crop} more of the ground next winter if you would eat it, and keep one bed of "
        f"{worst.crop} "
        "beside it to compare.",
        figure=facts.mass_per_area(most),
        figure_note=best.crop,
        token="target",
        anchor="harvest_crops",
        stake="growth",
        sure="a hint",
        weight=most / least,
    )


def _before_midwinter(facts: Facts) -> Finding | None:
    beds = facts.r.harvest.beds
    told = [s for s in beds.strips if s.before_midwinter is not None and s.sown is not None]
    early = [s for s in told if s.before_midwinter]
    if beds.midwinter is None or not early or len(early) == len(told):
        return None
    latest = max((s for s in early), key=lambda s: (s.sown, s.crop))
    if latest.sown is None:
        return None
    return _finding(
        "sown-in-time",
        claim=f"Of {count(len(told), 'sowing')}, {number(len(early))} could be picked before midwinter; the last "
        "of these "
        f"was {latest.crop}, sown on {day(latest.sown)}.",
        evidence=f"plantings.csv beside the harvest book; midwinter is {day(beds.midwinter)}.",
        how_sure="Fairly sure for this winter; a darker or colder autumn moves the date.",
        next_step=f"Sow what should feed the dark weeks by {day(latest.sown)}, and a second lot a fortnight before it.",
        figure=day(latest.sown),
        figure_note="last sowing in time",
        token="target",
        anchor="harvest_beds",
        stake="growth",
        sure="fairly sure",
        weight=float(len(told) - len(early)),
        sources=(
            Source(
                csv="harvest_beds.csv",
                how="count",
                column="crop",
                rows="`picked before midwinter` == 'yes' and sown == sown",
                value=float(len(early)),
            ),
        ),
    )


def _empty(facts: Facts) -> Finding | None:
    weeks = sum(facts.r.harvest.beds.empty_weeks.values())
    beds = len(facts.r.harvest.beds.empty_weeks)
    if not beds or weeks < EMPTY_ENOUGH:
        return None
    return _finding(
        "empty-beds",
        claim=f"Beds stood empty for {count(weeks, 'bed-week')} in all.",
        evidence=f"{count(beds, 'bed')}, from planting to clearing, as plantings.csv has it.",
        how_sure="Sure if every planting was written down.",
        next_step="Raise plants in trays and set them out the week a bed is cleared.",
        figure=count(weeks, "week"),
        figure_note="of empty beds",
        token="soil",
        anchor="harvest_beds",
        stake="growth",
        weight=weeks,
    )


def _all_costs(facts: Facts) -> Finding | None:
    bars, w = facts.r.harvest.bars, facts.w
    if bars.everything is None or bars.everything_per_kg is None or bars.heat is None or not bars.by_years:
        return None
    return _finding(
        "with-everything-counted",
        claim=f"With everything counted by its years, the harvest cost {facts.money_per_mass(bars.everything_per_kg)}.",
        evidence=f"{w.money(bars.heat)} of heat, the rest from costs.csv: "
        f"{count(len(bars.by_years), 'thing')} spread over the years they last. Your hours are not in it.",
        how_sure="Fairly sure: how many years a thing lasts is your own guess.",
        next_step="Before you buy, add the price divided by its years to this figure and ask what it would add "
        "to the "
        "harvest.",
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


def _not_weighed(facts: Facts) -> Finding:
    return _finding(
        "harvest-not-weighed",
        claim="Nothing that was picked was weighed, so what the heat bought cannot be told.",
        evidence="There is no harvest.csv in the season folder.",
        how_sure="Cannot tell.",
        next_step=f"Keep a kitchen scale by the door and write date, crop and weight for each picking: one line, "
        f"ten{NBSP}seconds.",
        figure="—",
        figure_note="no harvest book",
        anchor="harvest_missing",
        stake="record",
        sure="cannot tell",
        weight=5.0,
    )
