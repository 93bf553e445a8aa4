"""Findings of the harvest and its cost: what it gave, what it cost, whether it fed the household, what stood empty."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_beds import before_dark, best_ground, empty, sow_earlier
from reportgen.counsel.harvest_money import against_the_shop, all_costs, cost
from reportgen.counsel.harvest_next import delivery_lasts, last_two_degrees, next_bill
from reportgen.counsel.harvest_words import harvest_finding, weighings
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.measures.beds import Strip
from reportgen.wording import NBSP, count, day, number, of_all

LOST_ENOUGH = 0.05  # share of the picking that was lost before it is worth a sentence


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the harvest book and the bills say; silent where they do not."""
    facts = Facts.of(r)
    if r.harvest.kg is None:
        return (_not_weighed(facts),)
    if r.harvest.kg == 0:
        return ()
    kept = (_household, _gap, _lost, best_ground, before_dark, empty)
    money = (cost, against_the_shop, all_costs, last_two_degrees, next_bill, delivery_lasts)
    rules = (*kept, *money)
    return tuple(finding for rule in rules if (finding := rule(facts)) is not None)


def _household(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    need = facts.r.season.household.vegetables_kg_per_week
    if h.share_of_household is None or h.weeks_at_half_or_more is None or need is None:
        return None
    share = w.percent(100 * h.share_of_household)
    weeks = len(h.weeks)
    return harvest_finding(
        "fed-the-household",
        claim=f"The house gave {share} of the vegetables you eat, and at least half of them in "
        f"{of_all(h.weeks_at_half_or_more, weeks, 'week')}.",
        evidence=f"What was eaten or stored, against the {w.mass(need)} a week you eat; {weighings(facts)}.",
        how_sure="Sure for the weights; your weekly need is one figure for the whole season.",
        next_step="Look at the weeks below half on the chart and sow for them"
        + (": the strips show which sowing dates were ready by then." if h.beds.strips else ".")
        if h.weeks_at_half_or_more < weeks
        else "Keep the sowing dates of this season.",
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
    return harvest_finding(
        "longest-gap",
        claim=f"For {weeks} running nothing was picked, from the week of {day(h.gap[0])} on.",
        evidence=f"{weighings(facts)}; weeks run from Monday to Sunday.",
        next_step=sow_earlier(facts),
        figure=weeks,
        figure_note="without a picking",
        anchor="harvest_weeks",
        stake="growth",
        weight=float(h.longest_gap_weeks),
        sources=(
            Source(csv="harvest_weeks.csv", how="max", column="weeks without a picking", value=h.longest_gap_weeks),
        ),
    )


def _lost(facts: Facts) -> Finding | None:
    h, w = facts.r.harvest, facts.w
    if h.kg is None or h.lost_kg < LOST_ENOUGH * (h.kg + h.lost_kg) or h.lost_kg == 0:
        return None
    crops = {crop.crop for crop in h.crops if crop.lost_kg > 0}
    booked = [s for s in h.beds.strips if s.crop in crops and (s.lost or 0) > 0]  # of what was weighed as lost alone
    named = f" Noted in plantings.csv: {'; '.join(_plants(s) for s in booked)}." if booked else ""
    told = bool(booked) and all(s.cause for s in booked) and crops <= {s.crop for s in booked}
    return harvest_finding(
        "lost-harvest",
        claim=f"{w.mass(h.lost_kg)} of {w.mass(h.kg + h.lost_kg)} that grew was lost.",
        evidence=f"Weighings marked lost, of {weighings(facts)}.{named}",
        next_step="Set the day of each loss beside the damp and frost pages: what led to it stands there."
        if told
        else "Write the cause and the day beside each loss next winter, so that damp and frost can be set beside it.",
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


def _plants(strip: Strip) -> str:
    """9 of 24 lettuce by grey mould; 7 of 18 pak choi by frost on 16 January."""
    of = f" of {number(strip.plants)}" if strip.plants else ""
    when = f" on {day(strip.lost_on)}" if strip.lost_on is not None else ""
    return f"{number(strip.lost or 0.0)}{of} {strip.crop}{f' by {strip.cause}' if strip.cause else ''}{when}"


def _not_weighed(facts: Facts) -> Finding:
    return harvest_finding(
        "harvest-not-weighed",
        claim=f"No weights were written down, so what the {'heat bought' if facts.there.heater else 'house gave'} "
        "cannot be told.",
        evidence="There is no harvest.csv in the season folder.",
        how_sure="Cannot tell.",
        next_step="Keep a kitchen scale by the door and write date, crop and weight for each picking: one line, "
        f"ten{NBSP}seconds.",
        figure="—",
        figure_note="no harvest book",
        anchor="harvest_missing",
        stake="record",
        sure="cannot tell",
        weight=5.0,
    )
