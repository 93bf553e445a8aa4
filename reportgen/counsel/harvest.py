"""Findings of the harvest: whether it fed the household, weeks without a picking, what was lost."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_beds import sow_earlier
from reportgen.counsel.harvest_words import WEIGHED, seldom_weighed, weighings
from reportgen.counsel.types import Said, Source
from reportgen.measures.beds import Strip
from reportgen.wording import NBSP, are, count, day, listed, number, of_all

LOST_ENOUGH = 0.05  # share of the picking that was lost before it is worth a sentence


def household(facts: Facts) -> Said | None:
    """What share of the household's vegetables the house gave."""
    h, w = facts.r.harvest, facts.w
    need = facts.r.season.household.vegetables_kg_per_week
    if not h.kg or h.share_of_household is None or h.weeks_at_half_or_more is None or need is None:
        return None
    share = w.percent(100 * h.share_of_household)
    weeks = len(h.weeks)
    return Said(
        claim=f"The house gave {share} of the vegetables you eat, and at least half of them in "
        f"{of_all(h.weeks_at_half_or_more, weeks, 'week')}.",
        evidence=f"What was eaten or stored, against the {w.mass(need)} a week you eat; {weighings(facts)}.",
        how_sure="Sure for the weights; your weekly need is one figure for the whole season.",
        next_step=f"Sow each crop twice, a fortnight apart, so that {_more_weeks(h.weeks_at_half_or_more)} half."
        if h.weeks_at_half_or_more < weeks
        else "Keep these sowing dates.",
        figure=share,
        figure_note="of your vegetables",
        token="target",
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


def _more_weeks(reached: int) -> str:
    """More than 3 weeks reach; of none, some."""
    return f"more than {count(reached, 'week')} {are(reached, 'reaches', 'reach')}" if reached else "some weeks reach"


def gap(facts: Facts) -> Said | None:
    """Two empty weeks and more running."""
    h = facts.r.harvest
    if not h.kg or not h.longest_gap_weeks or h.longest_gap_weeks < 2 or h.gap is None or seldom_weighed(facts):
        return None
    weeks = count(h.longest_gap_weeks, "week")
    return Said(
        claim=f"For {weeks} running nothing was picked, from the week of {day(h.gap[0])} on.",
        evidence=f"{weighings(facts)}; weeks run from Monday to Sunday.",
        how_sure=WEIGHED,
        next_step=sow_earlier(facts),
        figure=weeks,
        figure_note="without a picking",
        stake="growth",
        weight=float(h.longest_gap_weeks),
        sources=(
            Source(csv="harvest_weeks.csv", how="max", column="weeks without a picking", value=h.longest_gap_weeks),
        ),
    )


def _told_as_event(facts: Facts) -> bool:
    return any(crop.lost for event in facts.on.events for crop in event.crops)


def lost(facts: Facts) -> Said | None:
    """What was weighed as lost, where no event tells of a loss by its cause."""
    h, w = facts.r.harvest, facts.w
    if _told_as_event(facts) or not h.kg or h.lost_kg < LOST_ENOUGH * (h.kg + h.lost_kg) or h.lost_kg == 0:
        return None
    crops = {crop.crop for crop in h.crops if crop.lost_kg > 0}
    booked = [s for s in h.beds.strips if s.crop in crops and (s.lost or 0) > 0]  # of what was weighed as lost alone
    named = f" Noted in plantings.csv: {'; '.join(_plants(s) for s in booked)}." if booked else ""
    told = bool(booked) and all(s.cause for s in booked) and crops <= {s.crop for s in booked}
    return Said(
        claim=f"{w.mass(h.lost_kg)} of {w.mass(h.kg + h.lost_kg)} that grew was lost.",
        evidence=f"Weighings marked lost, of {weighings(facts)}.{named}",
        how_sure=WEIGHED,
        next_step=f"Plant {listed(sorted(crops))} again only where what took {are(len(crops), 'it', 'them')} is dealt "
        "with."
        if told
        else "Write the cause and the day beside each loss from now on, so that damp and frost can be set beside it.",
        figure=w.mass(h.lost_kg),
        figure_note="lost",
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


def not_weighed(facts: Facts) -> Said | None:
    """No harvest book."""
    if facts.r.harvest.kg is not None or "harvest" in facts.r.readings.held_back:
        return None
    return Said(
        claim=f"No weights were written down, so what the {'heat bought' if facts.there.heater else 'house gave'} "
        "cannot be told.",
        evidence="No harvest book was handed in.",
        how_sure="Cannot tell.",
        next_step="Keep a kitchen scale by the door and write date, crop and weight for each picking: one line, "
        f"ten{NBSP}seconds.",
        figure="—",
        figure_note="no harvest book",
        stake="record",
        weight=5.0,
    )
