"""Findings of the Damp page: how long and when, an index that did not fit here, airing, the dehumidifier."""

from __future__ import annotations

import math

from reportgen.counsel import cautions
from reportgen.counsel.brief import begun, lowered, short
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import of_the_time
from reportgen.measures.damp_airing import outdoors_covered
from reportgen.measures.damp_dryers import Dryer
from reportgen.measures.damp_tables import dampest_month as dampest
from reportgen.measures.damp_tables import noon_and_night
from reportgen.measures.diary_words import words_of
from reportgen.wording import (
    NBSP,
    between,
    count,
    day,
    month,
    number,
    of_all,
    share_in,
    share_of,
    share_time,
    share_words,
)

OFTEN = 0.3  # share of hours above the high line from which damp is worth a finding
MOST = 0.6  # share of too damp hours with drier air outside from which airing is the answer
BY_DAY_PCT = 50.0  # share of the hours around noon from which damp lasts through the day; as on the chart
OPENS = frozenset({"airing", "gap", "hatch", "open", "opened", "vent", "vents", "window", "windows"})
RAN_H = 24.0  # hours that a dehumidifier ran before it is worth a sentence; our own line


def _share(facts: Facts, hours: float) -> str:
    return share_words(hours / facts.r.damp.hours_recorded)


def hours(facts: Facts) -> Said | None:
    """Hours above both lines; silent without humidity."""
    d, w = facts.r.damp, facts.w
    if d.logger is None or not d.hours_recorded:
        return None
    high = d.hours_above_high
    share, known = high.estimate / d.hours_recorded, math.isfinite(high.low)
    band = ""
    if known:
        band = f" With the sensor off by all it may be, {between(w.hours(high.low), w.hours(high.high))}."
    top = dampest_month(facts)
    worst = f" Dampest was {top[0]} with {share_of(top[1] / 100)} of its hours." if top is not None else ""
    return Said(
        claim=_hours_words(facts),
        evidence=f"Of {w.hours(d.hours_recorded)} on record at the main logger.{band}{worst}",
        how_sure="Sure within that band." if known else "A hint: without the sensor's accuracy there is no band.",
        next_step=_less_damp(facts) if share >= OFTEN else "Nothing to do: go on as you did.",
        figure=_share(facts, high.estimate),
        figure_note=f"of hours above {w.percent(d.high_pct)}",
        about=d.logger,
        token="humid",
        stake="damp" if share >= OFTEN else "good news",
        weight=share,
        sources=(Source(csv="damp_months.csv", how="sum", column="h above the high line", value=high.estimate),),
    )


def _hours_words(facts: Facts) -> str:
    d, w = facts.r.damp, facts.w
    high = d.hours_above_high.estimate
    if high < 0.5:
        return f"Of {w.hours(d.hours_recorded)} on record none was above {w.percent(d.high_pct)} humidity."
    extreme = d.hours_above_extreme.estimate
    more = f", and above {w.percent(d.extreme_pct)} for {w.hours(extreme)}" if extreme >= 0.5 else ""
    time = of_the_time(d.hours_recorded, facts.r.season.hours)
    return (
        f"The air was above {w.percent(d.high_pct)} humidity for {w.hours(high)}, "
        f"{share_time(high / d.hours_recorded, time)}{more}."
    )


def _less_damp(facts: Facts) -> str:
    """By whether noon dried the house: what stays damp past noon harms, what is damp by night alone is usual."""
    noon, _ = noon_and_night(facts.r.damp.clock["high"])
    if noon >= BY_DAY_PCT:
        opened = _open_already(facts)
        if opened:
            return f"Water less and give the plants room: with the {opened} the damp lasts through the day too."
        return "Water less and air at noon: here the damp lasts through the day."
    return "Water in the morning, so that leaves are dry by dusk: here noon dries the house, and the nights stay damp."


def dampest_month(facts: Facts) -> tuple[str, float] | None:
    """The name of the dampest month and its share of hours too damp, %; None where none leads."""
    found = dampest(facts.r.damp.months)
    return None if found is None else (month(found[0]), found[1])


def index_did_not_fit(facts: Facts) -> Said | None:
    """Mould that inspections found where the index had not warned; silent where it had, mostly, or none was found."""
    d = facts.r.damp
    seen = d.mould
    if not seen.found or d.grey_mould_spells.high is None or 2 * len(seen.warned) >= len(seen.found):
        return None
    cold = d.grey_mould_spells.too_cold_for_equation or 0
    ranked = (d.grey_mould_spells.high or 0) + (d.grey_mould_spells.moderate or 0)
    n = len(seen.warned)
    after = f"{number(n)} of them" if n else "none of them"
    return Said(
        claim=f"Mould or rot was found on {of_all(len(seen.found), len(seen.looked), 'visit')}, {after} in or within a "
        "week of a wet spell that the grey-mould index ranks: it did not fit here.",
        evidence=f"First on {day(seen.found[0])}. The index ranks {count(ranked, 'spell')} as moderate or high and "
        f"finds {number(cold)} too cold to rank (an equation fitted on grape, Broome and others 1995).",
        how_sure="Sure: the visits and the spells are counted; why it came when it did they do not tell.",
        next_step="Do not wait for wet and warm: take soft leaves off at every visit, on cold wet days too.",
        figure=number(len(seen.found)),
        figure_note="visits that found mould" if len(seen.found) > 1 else "visit that found mould",
        token="humid",
        weight=0.8,
    )


def airing(facts: Facts) -> Said | None:
    """Whether airing would have dried the house."""
    d, w = facts.r.damp, facts.w
    often = bool(d.hours_recorded) and d.hours_above_high.estimate >= OFTEN * d.hours_recorded
    if d.airing_hours is None or not often or d.airing.water_gm3 is None:
        return None
    share = d.airing_hours / d.hours_above_high.estimate
    helps = share >= MOST
    if not helps and not outdoors_covered(facts.r.readings, d.hours_recorded):
        return None
    return Said(
        claim=f"{begun(share_in(share, d.hours_above_high.estimate, 'too damp hour'))} the air outside held less water "
        "than the air inside"
        + (": airing would have dried the house." if helps else ", so airing alone would not have done."),
        evidence=f"{w.hours(d.airing_hours)} of {w.hours(d.hours_above_high.estimate)}, on average "
        f"{number(d.airing.water_gm3, 1)}{NBSP}g less in a cubic metre.{_airing_band(facts)}{_one_change(facts)}",
        how_sure="Sure as far as both humidity sensors are right: the band says how far that is."
        if d.airing_band.low is not None
        else "A hint: both humidity sensors enter it, and their accuracy is not given.",
        next_step=_air_in_bursts(facts) if helps else "On mild wet days a dehumidifier does what airing cannot.",
        caution=None if helps else cautions.MAINS,
        figure=share_words(share),
        figure_note="of damp hours, drier outside",
        token="humid",
        weight=0.6,
    )


def _open_already(facts: Facts) -> str:
    """What stands open for drier air to the last day, by the diary, and is to be tried yet; empty without it."""
    for lever in facts.on.levers:
        said = set(words_of(f"{lever.thing or ''} {lever.name}"))
        stands = lever.on_now and "air" in lever.touches and lever.hoped == "drier air"
        if stands and said & OPENS and lever.verdict == "try on and off":
            return lowered(short(lever.thing or lever.name))
    return ""


def _air_in_bursts(facts: Facts) -> str:
    opened = _open_already(facts)
    if opened:
        return f"Switch the {opened} on and off before more is opened: whether that dries the air here is not told yet."
    bigger = "bigger " if facts.there.dehumidifier else ""
    return f"Air in short bursts, wide open for ten minutes around noon, before buying a {bigger}dehumidifier."


def _one_change(facts: Facts) -> str:
    """Water and heat that leave with one whole change of air."""
    d, volume = facts.r.damp, facts.r.season.house.air_volume_m3
    if volume is None or d.airing.wh_per_m3 is None or d.airing.water_gm3 is None:
        return ""
    grams, heat = d.airing.water_gm3 * volume, d.airing.wh_per_m3 * volume / 1000
    return (
        f" One whole change of air then carries out {number(grams)}{NBSP}g of water and costs "
        f"{number(heat, 2)}{NBSP}kWh of heat."
    )


def _airing_band(facts: Facts) -> str:
    """The hours with every sensor off by all it may be, one way and the other; empty where that is not known."""
    band, w = facts.r.damp.airing_band, facts.w
    if band.low is None or band.high is None or w.hours(band.low) == w.hours(band.high):
        return ""
    return f" With the sensors off by all they may be, {w.hours(band.low)} to {w.hours(band.high)}."


def dryer(facts: Facts) -> Said | None:
    """The hours of a dehumidifier, and in how many of them the air stayed above its setting."""
    w, ran = facts.w, [x for x in facts.r.damp.dryers if x.ran_h >= RAN_H]
    if not ran:
        return None
    x = max(ran, key=lambda one: one.ran_h)
    share = x.still_above_h / x.ran_h
    return Said(
        claim=f"The {x.name} ran {'in part of ' if x.in_part else ''}{w.hours(x.ran_h)}, and for "
        f"{share_of(share)} of that the air stayed above its setting of {w.percent(x.set_pct)}.",
        evidence=f"{_dryer_hours(x)}, of {w.hours(x.hours_known)} on record. Whether the house was drier "
        "for it stands on the Changes page.",
        how_sure=f"{'A hint' if x.by_rating or x.in_part else 'Sure'} for the hours; its own sensor may read otherwise "
        "than the logger.",
        next_step=_dryer_step(x, share),
        figure=w.percent(100 * share),
        figure_note="of its hours, still too damp",
        about=x.name,
        token="humid",
        stake="damp" if _falls_short(x, share) else "money",
        weight=0.3,
    )


def _falls_short(x: Dryer, share: float) -> bool:
    """More than half of its hours above the setting, and by more than the logger may be off."""
    well = x.still_above_h if x.well_above_h is None else x.well_above_h
    return share > 0.5 and well > 0.5 * x.ran_h


def _dryer_step(x: Dryer, share: float) -> str:
    if _falls_short(x, share):
        return (
            f"Set the {x.name} a few points higher, or run it by day, when it is warm: as set, it is too small or too "
            "cold."
        )
    if share > 0.5:
        return f"Leave the {x.name} as it is set: the air stayed as near to that as the logger can tell."
    return f"The {x.name} keeps up: set it a few points higher for less power."


def _dryer_hours(x: Dryer) -> str:
    """How its hours are known."""
    if x.by_rating:
        return "What it drew over its rated power"
    if x.in_part:
        return "Stretches of its counter in which it drew anything; without its rated power no more is known"
    return "Hours in which it drew power"
