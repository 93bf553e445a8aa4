"""Findings that look across pages, and *nothing wrong here*."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Any

import pandas as pd

from reportgen.effects.outcomes import DayTable
from reportgen.findings import cautions
from reportgen.findings.facts import Facts
from reportgen.findings.nights import compared, table_of, watered
from reportgen.findings.results import Results
from reportgen.findings.types import Finding
from reportgen.wording import count, day, number

BAD = ("crop lost", "crop at risk", "damp")
DRAIN_K = 1.0  # the bed cooled by this in the three days before the coldest night
HELD = 0.9  # warmth was there: this share of the time at or above the hold
DIM_MOL = 12.0  # mol m⁻² d⁻¹, daily light from which leafy crops grow well; common practice, no source


def findings(r: Results) -> tuple[Finding, ...]:
    """All rules that need two subjects at once; each stays silent where one of them is not known."""
    facts, days = Facts.of(r), table_of(r)
    told = [
        _watering(facts, days),
        _heater_off(facts, days),
        *_warmer_but_damper(facts),
        _light_first(facts),
        *_unnoticed(facts),
        _dark_weeks(facts),
        _unwatched(facts),
        _bed_drained(facts, days),
        _unwritten(facts),
    ]
    return tuple(finding for finding in told if finding is not None)


def nothing_wrong(r: Results, found: Iterable[Finding]) -> tuple[Finding, ...]:
    """*Nothing wrong here*, where the record is good enough to say so and no finding speaks of harm."""
    facts = Facts.of(r)
    lowest, nights = facts.number("frost.minimum.temperature_c"), facts.number("frost.nights")
    blind = facts.number("frost.unrecorded_cold_hours") or 0.0
    if any(f.stake in BAD for f in found) or lowest is None or not nights or blind > 0:
        return ()
    if lowest < r.season.aims.frost_c:
        return ()
    return (
        _finding(
            "nothing-wrong",
            "frost",
            claim="Nothing was wrong this winter: no crop came to harm by cold or damp that the record can show.",
            evidence=f"{count(nights, 'whole night')} on record, the coldest at {facts.w.temp(lowest)}, and no "
            "cold hour "
            "without a reading.",
            how_sure="Fairly sure: it speaks for the places where the loggers stood.",
            next_step="Change one thing at a time next winter, and only for less work or less heat.",
            figure="0",
            figure_note="things wrong",
            token="target",
            anchor="frost_nights",
            stake="good news",
            sure="fairly sure",
            weight=100.0,
        ),
    )


def _finding(slug: str, page: str, **more: Any) -> Finding:
    return Finding(slug=slug, page=page, **more)


def _watering(facts: Facts, days: DayTable) -> Finding | None:
    found = compared(days, "night_humidity", watered(facts.r))
    if found is None or found.estimate.low <= 0:
        return None
    points = number(found.estimate.effect)
    return _finding(
        "damp-after-watering",
        "damp",
        claim=f"Nights after watering were {points}\u00a0points more humid than nights without, at equal weather.",
        evidence=f"{count(found.kind, 'night')} after watering against {number(found.others)} others; 95\u00a0% "
        "interval "
        f"{number(found.estimate.low)} to {number(found.estimate.high)} points.",
        how_sure="Fairly sure that such nights are damper; you may water on sunny days, which the light sensor "
        "takes out "
        "only where there is one.",
        next_step="Water in the morning of a day that lets you air, and only the beds that need it.",
        figure=f"+{points}\u00a0points",
        figure_note="nights after watering",
        token="humid",
        anchor="harvest_watering",
        stake="damp",
        sure="fairly sure",
        weight=found.estimate.effect,
        holds_for="this kind of cover",
    )


def _heater_off(facts: Facts, days: DayTable) -> Finding | None:
    heat = days.heat.table
    if "night_heated_h" not in heat or not heat["night_heated_h"].notna().any():
        return None
    off = (heat["night_heated_h"] < 1).astype(float).where(heat["night_heated_h"].notna())
    found = compared(days, "night_humidity", off)
    if found is None or found.estimate.low <= 0:
        return None
    return _finding(
        "damp-with-the-heater-off",
        "damp",
        claim=f"Nights on which the heater stayed off were {number(found.estimate.effect)}\u00a0points more humid.",
        evidence=f"{count(found.kind, 'night')} off against {number(found.others)} with heat, the outdoor weather "
        "taken out; "
        f"95\u00a0% interval {number(found.estimate.low)} to {number(found.estimate.high)} points.",
        how_sure="A hint: a thermostat chooses its own nights, and mild nights are moist ones.",
        next_step="On mild damp evenings try an hour of airing before dusk rather than heat, and write it in the "
        "diary.",
        figure=f"+{number(found.estimate.effect)}\u00a0points",
        figure_note="nights without heat",
        token="humid",
        anchor="damp_nights",
        stake="damp",
        sure="a hint",
        weight=found.estimate.effect,
    )


def _warmer_but_damper(facts: Facts) -> list[Finding]:
    told = []
    for change in facts.r.effects.changes:
        by_name = {o.outcome: o for o in change.outcomes}
        humid = by_name.get("night_humidity")
        if change.verdict != "helped" or humid is None or humid.refused or not humid.low > 0:
            continue
        if not set(change.hoped_for[:1]) & {"warmer nights", "less heating"}:
            continue
        told.append(
            _finding(
                "helped-but-damper",
                "changes",
                claim=f"“{change.what}” did what you hoped, and the nights after it were "
                f"{number(humid.effect)}\u00a0points "
                "more humid.",
                evidence=f"{count(humid.days_before, 'day')} before against {number(humid.days_after)} after, "
                "weather taken "
                f"out; 95\u00a0% interval {number(humid.low)} to {number(humid.high)} points.",
                how_sure="Fairly sure of the gain; the damp is a second look at the same days, so take it as a hint.",
                next_step="Keep it, and air for an hour at midday on dry days; note each airing in the diary.",
                caution=cautions.SEAL if "envelope" in change.touches else None,
                figure=f"+{number(humid.effect)}\u00a0points",
                figure_note="humidity at night",
                token="humid",
                anchor="changes_effects",
                stake="damp",
                sure="a hint",
                weight=humid.effect,
            )
        )
    return told


def _light_first(facts: Facts) -> Finding | None:
    light, held = facts.number("light.mean_daily_light_mol"), facts.number("heat.share_at_or_above_hold.estimate")
    dark = facts.number("light.days_under_ten_hours")
    if light is None or held is None or not dark or light >= DIM_MOL or held < HELD:
        return None
    return _finding(
        "light-before-warmth",
        "light",
        claim=f"Light, more than warmth, looks like what held growth back: {number(light, 1)}\u00a0mol a day on "
        "average.",
        evidence=f"The hold was kept {facts.w.percent(100 * held)} of the time, while {count(dark, 'day')} had "
        "under ten hours "
        f"of daylight. Leafy crops are usually given {number(DIM_MOL)}\u00a0mol or more (common practice).",
        how_sure="A hint: growth was not measured, only what it had to live on.",
        next_step="In the dark weeks hold a lower temperature and clean the glazing; more heat alone brings little.",
        caution=cautions.ROOF,
        figure=f"{number(light, 1)}\u00a0mol",
        figure_note="light a day",
        token="sun",
        anchor="light_days",
        stake="growth",
        sure="a hint",
        weight=DIM_MOL - light,
        holds_for="this kind of cover",
    )


def _unnoticed(facts: Facts) -> list[Finding]:
    noted = _noted(facts)
    told = []
    for failure in facts.r.frost.failures:
        start = pd.Timestamp(failure.start)
        if start.date() in noted or start.date() + timedelta(days=1) in noted:
            continue
        told.append(
            _finding(
                "failure-nobody-noticed",
                "frost",
                claim=f"On {day(start)} the heat failed for {facts.w.hours(failure.hours, 1)}, and the diary says "
                "nothing "
                "of it.",
                evidence=f"No heat while the air fell to {facts.w.temp(failure.minimum_c)}.",
                how_sure="Fairly sure: a thermostat turned down by hand would look the same.",
                next_step="Fit a low-temperature alarm that reaches you, set to the line the Frost page works out.",
                caution=cautions.heating(facts.fuels) or None,
                figure=facts.w.hours(failure.hours, 1),
                figure_note=f"without heat, {day(start)}",
                token="cold",
                anchor="frost_failures",
                stake="crop at risk",
                sure="fairly sure",
                weight=float(failure.hours),
            )
        )
    return told


def _noted(facts: Facts) -> set[date]:
    days: set[date] = set()
    for entry in facts.r.readings.diary:
        if entry.kind in ("event", "upkeep", "change"):
            days |= {entry.date, entry.date - timedelta(days=1)}
    return days


def _dark_weeks(facts: Facts) -> Finding | None:
    cost, kg = facts.number("heat.dark_weeks.cost"), facts.number("heat.dark_weeks.kg")
    total, whole = facts.number("heat.cost"), facts.r.harvest.kg
    if cost is None or kg is None or not total or not whole:
        return None
    money, mass = cost / total, kg / whole
    if money - mass < 0.1:
        return None
    return _finding(
        "dark-weeks-money",
        "heat",
        claim=f"The dark weeks took {facts.w.percent(100 * money)} of the heat money and gave "
        f"{facts.w.percent(100 * mass)} "
        "of the harvest.",
        evidence=f"{facts.w.money(cost)} of {facts.w.money(total)}, and {facts.w.mass(kg)} of "
        f"{facts.w.mass(whole)}; the dark "
        "weeks are those with under ten hours of daylight.",
        how_sure="Sure for both shares; what grew in them was picked later too, so they did not buy nothing.",
        next_step="Lower the hold in those weeks to what the hardiest crop stands, by the price of a degree.",
        caution=cautions.heating(facts.fuels) or None,
        figure=facts.w.percent(100 * money),
        figure_note="of the money, dark weeks",
        token="money",
        anchor="harvest_weeks",
        stake="money",
        sure="sure",
        weight=cost,
    )


def _unwatched(facts: Facts) -> Finding | None:
    hours = facts.number("frost.unrecorded_cold_hours")
    if not hours or hours < 1:
        return None
    could = facts.number("frost.could_have_been_c")
    guess = f" The air could have been as low as {facts.w.temp(could)}." if could is not None else ""
    return _finding(
        "hours-nobody-watched",
        "frost",
        claim=f"For {facts.w.hours(hours)} of hard frost outdoors nothing was logged inside.",
        evidence=f"Hours under {facts.w.temp(-5, 0)} outdoors without any crop reading.{guess}",
        how_sure="Cannot tell what happened in them; that they are missing is sure.",
        next_step="Change logger batteries in November and keep a second logger in the coldest corner.",
        figure=facts.w.hours(hours),
        figure_note="cold and unwatched",
        token="cold",
        anchor="frost_gaps",
        stake="crop at risk",
        sure="cannot tell",
        weight=hours,
    )


def _bed_drained(facts: Facts, days: DayTable) -> Finding | None:
    at = facts.at("frost.minimum.at")
    if at is None or "soil_mean" not in days.outcomes:
        return None
    night = pd.Timestamp(at).date()
    soil = days.outcomes["soil_mean"]
    before, after = soil.get(night - timedelta(days=4)), soil.get(night - timedelta(days=1))
    if before is None or after is None or pd.isna(before) or pd.isna(after) or before - after < DRAIN_K:
        return None
    return _finding(
        "bed-drained-before-the-cold",
        "soil",
        claim=f"The bed had already lost {facts.w.diff(before - after)} in the three days before the coldest night.",
        evidence=f"Daily means of the soil probe, {day(night - timedelta(days=4))} to "
        f"{day(night - timedelta(days=1))}; the "
        f"coldest night was that of {day(night)}.",
        how_sure="Fairly sure for the place of the probe.",
        next_step="When a cold spell is forecast, shut the house early on the sunny days before it, so the bed "
        "goes in warm.",
        figure=facts.w.diff(before - after),
        figure_note="lost before the cold",
        token="soil",
        anchor="soil_days",
        stake="growth",
        sure="fairly sure",
        weight=float(before - after),
    )


def _unwritten(facts: Facts) -> Finding | None:
    """A date without an entry that looks like a change: a question, never a claim."""
    dates = {d.when: d for change in facts.r.effects.changes for d in change.do_nothing}
    odd = [d for d in dates.values() if not d.low <= 0 <= d.high]
    if not odd or len(dates) < 5:
        return None
    most = max(odd, key=lambda d: (abs(d.effect), d.when))
    return _finding(
        "something-unwritten",
        "changes",
        claim=f"Was something altered about {day(most.when)} that is not in the diary?",
        evidence=f"Of {count(len(dates), 'date')} on which nothing was written, {number(len(odd))} "
        f"{'looks' if len(odd) == 1 else 'look'} like a change; by chance alone about one in forty would.",
        how_sure="A question, not a claim.",
        next_step="Add a line to diary.csv if you remember one, and build the report again.",
        figure=day(most.when),
        figure_note="nothing written",
        anchor="changes_effects",
        stake="record",
        sure="a hint",
        weight=1.0,
    )
