"""Findings of the Damp page: how long, when, the glass, the leaves, mould weather, airing, the dehumidifier."""

from __future__ import annotations

import math
from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.counsel.whole import of_the_time
from reportgen.measures.damp_dryers import Dryer
from reportgen.measures.exposure import channel_line
from reportgen.measures.places import outdoor
from reportgen.wording import NBSP, Wording, are, between, count, day, largest, month, number, of_all, span

OFTEN = 0.3  # share of hours above the high line from which damp is worth a finding
ALL = 0.9999  # share from which a part is told as the whole
MOST = 0.6  # share of too damp hours with drier air outside from which airing is the answer
STANDS_OUT = 5.0  # points of the hours by which a month or an hour of the day must lead; our own line, no source
DRY_H = 24.0  # hours too dry before it is worth a sentence
COVERED = 0.9  # share of the hours inside for which the air outside must be known as well; our own line
MOULD_WORDS = ("mould", "mold", "fur", "rot", "botrytis")


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the damp measure says; silent where it cannot."""
    if r.damp.logger is None or not r.damp.hours_recorded:
        return ()
    facts = Facts.of(r)
    rules = (_hours, _spell, _glass, _mould, _airing, _dryer, _dry)
    return tuple(finding for rule in rules if (finding := rule(facts)) is not None)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="damp", **more)


def _share(facts: Facts, hours: float) -> str:
    return facts.w.percent(100 * hours / facts.r.damp.hours_recorded)


def most_of(w: Wording, share: float) -> str:
    """A share in percent that says 100 % only of all of it."""
    return f"over {w.percent(99)}" if 0.995 <= share < ALL else w.percent(100 * share)


def _none(n: int) -> str:
    return number(n) if n else "none"


def _hours(facts: Facts) -> Finding | None:
    d, w = facts.r.damp, facts.w
    high = d.hours_above_high
    share = high.estimate / d.hours_recorded
    band = ""
    if math.isfinite(high.low):
        band = f" With the sensor off by all it may be, {between(w.hours(high.low), w.hours(high.high))}."
    damp = share >= OFTEN
    top = dampest_month(facts)
    worst = f" Dampest was {top[0]} with {w.percent(top[1])} of its hours." if top is not None else ""
    time = of_the_time(d.hours_recorded, facts.r.season.hours)
    extreme = f", and above {w.percent(d.extreme_pct)} for {w.hours(d.hours_above_extreme.estimate)}"
    claim = (
        f"The air was above {w.percent(d.high_pct)} humidity for {w.hours(high.estimate)}, "
        f"{_share(facts, high.estimate)} {time}{extreme if d.hours_above_extreme.estimate >= 0.5 else ''}."
    )
    if high.estimate < 0.5:
        claim = f"Of {w.hours(d.hours_recorded)} on record none was above {w.percent(d.high_pct)} humidity."
    return _finding(
        "hours-too-damp",
        claim=claim,
        evidence=f"Of {w.hours(d.hours_recorded)} on record at the main logger.{band}{worst}",
        how_sure="Sure within that band." if band else "Fairly sure; without the sensor's accuracy there is no band.",
        next_step="Look at the hours of the day on the chart: damp that lasts past noon wants less water and more air, "
        "damp by night alone is usual."
        if damp
        else "Nothing to do: go on as you did.",
        figure=_share(facts, high.estimate),
        figure_note=f"of hours above {w.percent(d.high_pct)}",
        token="humid",
        anchor="damp_months",
        stake="damp" if damp else "good news",
        sure="sure" if band else "fairly sure",
        weight=share,
        sources=(Source(csv="damp_months.csv", how="sum", column="h above the high line", value=high.estimate),),
    )


def dampest_month(facts: Facts) -> tuple[str, float] | None:
    """The month with the largest share of its hours too damp, in %; None where none leads by what matters.

    Months with under 100 hours on record are left out.
    """
    months = facts.r.damp.months[facts.r.damp.months["recorded"] >= 100]
    parts = (100 * months["above_high"] / months["recorded"]).to_numpy()
    n = largest([float(p) for p in parts], STANDS_OUT)
    return None if n is None else (month(months["month"].iloc[n]), float(parts[n]))


def _spell(facts: Facts) -> Finding | None:
    d, w = facts.r.damp, facts.w
    spell = d.longest_spell
    if spell.hours is None or spell.start is None or spell.end is None or spell.hours < 48:
        return None
    return _finding(
        "longest-damp-spell",
        claim=f"{'The longest' if len(d.spells) > 1 else 'One'} damp spell lasted {w.hours(spell.hours)} without a "
        f"break, {span(spell.start, spell.end)}.",
        evidence=f"Readings above {w.percent(d.high_pct)} all through; "
        + (f"one of {count(len(d.spells), 'spell')}, short and long." if len(d.spells) > 1 else "no other spell."),
        how_sure="Sure, as far as the sensor is right: a reading that hovers on the line makes or breaks a spell.",
        next_step="One dry hour a day breaks it: air at noon, when the air outside is warmest, even in frost if the "
        "plants stand away from the vent.",
        figure=w.hours(spell.hours),
        figure_note=f"damp from {day(spell.start)}",
        token="humid",
        anchor="damp_carpet",
        stake="damp",
        sure="sure",
        weight=min(spell.hours / 1000, 1.0) / 2,
    )


def _glass(facts: Facts) -> Finding | None:
    d, w = facts.r.damp, facts.w
    dew = d.glazing_dew_hours
    if not math.isfinite(dew.estimate) or dew.estimate < 24:
        return None
    band = (
        f" With the sensors' accuracy {between(w.hours(dew.low), w.hours(dew.high))}." if math.isfinite(dew.low) else ""
    )
    wall = f" For upright panes {w.hours(d.wall_dew_hours)}." if d.wall_dew_hours is not None else ""
    ice = f" In {w.hours(d.glazing_frost_hours)} of them it froze there." if d.glazing_frost_hours else ""
    return _finding(
        "dew-on-the-glass",
        claim=f"Dew could form on the inside of the roof for at least {w.hours(dew.estimate)}, "
        f"{_share(facts, dew.estimate)} {of_the_time(d.hours_recorded, facts.r.season.hours)}.",
        evidence=f"Worked out from air, humidity, outdoor air and the glazing's figure.{band}{wall}{ice} Under clear "
        "skies the roof is colder still, so it was more.",
        how_sure="Fairly sure as a lower bound.",
        next_step="Let the drips run to the eaves and not onto leaves; a fleece under the roof catches them.",
        figure=w.hours(dew.estimate),
        figure_note="dew on the roof, at least",
        token="humid",
        anchor="damp_nights",
        stake="damp",
        sure="fairly sure",
        weight=0.2,
    )


def _mould(facts: Facts) -> Finding | None:
    d = facts.r.damp
    g = d.grey_mould_spells
    if g.high is None or g.moderate is None or g.low is None or g.too_cold_for_equation is None:
        return None
    total = g.high + g.moderate + g.low + g.too_cold_for_equation
    if not total:
        return None
    season = facts.r.season
    inside = [i for i in facts.r.readings.inspections if season.first_day <= i.date <= season.last_day]
    seen = [i for i in inside if (i.level or 0) > 0 and any(word in i.found.casefold() for word in MOULD_WORDS)]
    looked = len({i.date for i in inside})
    if seen:
        visits = len({i.date for i in seen})
        book = f" Your inspections found mould or rot on {of_all(visits, looked, 'visit')}, first on "
        book += f"{day(min(i.date for i in seen))}."
    else:
        book = (
            f" Your {count(looked, 'visit')} found no mould or rot."
            if looked
            else " No inspections are written down to set beside it."
        )
    if seen and not g.high:
        claim = (
            "Mould came although no wet spell ranked high for grey mould: the equation was not made for "
            "nights this cold."
        )
    else:
        claim = f"{count(g.high, 'wet spell').capitalize()} ranked high for grey mould, {_none(g.moderate)} moderate."
    n = g.too_cold_for_equation
    cold = f" {count(n, 'more spell')} {are(n, 'was', 'were')} colder than the equation was fitted for." if n else ""
    return _finding(
        "grey-mould-weather",
        claim=claim,
        evidence="By hours of wet leaves and warmth, an equation fitted on grape (Broome and others "
        f"1995).{cold}{book}",
        how_sure="A hint: it ranks nights and is no forecast for salad.",
        next_step="Look under the lower leaves after each wet spell, take off what is soft, and write down the days on "
        "which you found nothing too.",
        caution=cautions.SPRAY,
        figure=number(g.high),
        figure_note="spells ranked high",
        token="humid",
        anchor="damp_nights",
        stake="damp",
        sure="a hint",
        weight=0.3 + (0.5 if seen else 0.0),
    )


def _airing(facts: Facts) -> Finding | None:
    d, w = facts.r.damp, facts.w
    if d.airing_hours is None or d.hours_above_high.estimate < 24 or d.airing.water_gm3 is None:
        return None
    share = d.airing_hours / d.hours_above_high.estimate
    helps = share >= MOST
    if not helps and not outdoors_covered(facts):
        return None
    volume = facts.r.season.house.air_volume_m3
    bigger = "bigger " if any(a.kind == "dehumidifier" for a in facts.r.season.appliances) else ""
    change = ""
    if volume is not None and d.airing.wh_per_m3 is not None:
        litres, heat = d.airing.water_gm3 * volume / 1000, d.airing.wh_per_m3 * volume / 1000
        change = (
            f" One whole change of air then carries out {number(1000 * litres)}{NBSP}g of water and costs "
            f"{number(heat, 2)}{NBSP}kWh of heat."
        )
    return _finding(
        "airing-or-drying",
        claim=f"In {most_of(w, share)} of the too damp hours the air outside held less water than the air inside"
        + (": airing would have dried the house." if helps else ", so airing alone would not have done."),
        evidence=f"{w.hours(d.airing_hours)} of {w.hours(d.hours_above_high.estimate)}, on average "
        f"{number(d.airing.water_gm3, 1)}{NBSP}g less in a cubic metre.{_airing_band(facts)}{change}",
        how_sure="Fairly sure: both humidity sensors enter it.",
        next_step=f"Air in short bursts, wide open for ten minutes around noon, before buying a {bigger}dehumidifier."
        if helps
        else "On mild wet days a dehumidifier does what airing cannot.",
        caution=cautions.SEAL if facts.fuels - {"electricity"} else None,
        figure=most_of(w, share),
        figure_note="of damp hours, drier outside",
        token="humid",
        anchor="damp_airing",
        stake="damp",
        sure="fairly sure",
        weight=0.6,
    )


def outdoors_covered(facts: Facts) -> bool:
    """Whether the air outside is known for nearly all hours with humidity inside: else what was not seen is no wet."""
    readings, inside = facts.r.readings, facts.r.damp.hours_recorded
    found = [outdoor(readings, measure) for measure in ("air_temperature", "relative_humidity")]
    hours = [channel_line(channel).hours_recorded if channel is not None else 0.0 for channel in found]
    return min(hours) >= COVERED * inside


def _airing_band(facts: Facts) -> str:
    """The hours with every sensor off by all it may be, one way and the other; empty where that is not known."""
    band, w = facts.r.damp.airing_band, facts.w
    if band.low is None or band.high is None or w.hours(band.low) == w.hours(band.high):
        return ""
    return f" With the sensors off by all they may be, {w.hours(band.low)} to {w.hours(band.high)}."


def _dryer(facts: Facts) -> Finding | None:
    d, w = facts.r.damp, facts.w
    ran = [x for x in d.dryers if x.ran_h >= 24]
    if not ran:
        return None
    x = max(ran, key=lambda one: one.ran_h)
    share = x.still_above_h / x.ran_h
    return _finding(
        "what-the-dehumidifier-did",
        claim=f"The {x.name} ran {'in part of ' if x.in_part else ''}{w.hours(x.ran_h)}, and for "
        f"{w.percent(100 * share)} of that the air stayed above its setting of {w.percent(x.set_pct)}.",
        evidence=f"{_dryer_hours(x)}, of {w.hours(x.hours_known)} on record. Whether the house was drier for it stands "
        "on the Changes page.",
        how_sure=f"{'Fairly sure' if x.by_rating or x.in_part else 'Sure'} for the hours; its own sensor may read "
        "otherwise than the logger.",
        next_step="If it runs without reaching its setting, it is too small, too cold for its kind, or the vents "
        "let in "
        "what it takes out: close them while it runs."
        if share > 0.5
        else "It keeps up; try a setting a few points higher for less power.",
        caution=cautions.MAINS,
        figure=w.percent(100 * share),
        figure_note="of its hours, still too damp",
        token="humid",
        anchor="damp_dryer",
        stake="damp" if share > 0.5 else "money",
        sure="fairly sure" if x.by_rating or x.in_part else "sure",
        weight=0.3,
    )


def _dryer_hours(x: Dryer) -> str:
    """How its hours are known."""
    if x.by_rating:
        return "What it drew over its rated power"
    if x.in_part:
        return "Stretches of its counter in which it drew anything; without its rated power no more is known"
    return "Hours in which it drew power"


def _dry(facts: Facts) -> Finding | None:
    d, w = facts.r.damp, facts.w
    if d.too_dry_hours is None or d.too_dry_hours < DRY_H:
        return None
    return _finding(
        "hours-too-dry",
        claim=f"For {w.hours(d.too_dry_hours)} the air was so dry and warm that leaves lose water faster than "
        "roots bring it.",
        evidence=f"The air could have taken up more than 1.4{NBSP}kPa of vapour (Konopacki and others); "
        f"{_share(facts, d.too_dry_hours)} of the time on record.",
        how_sure="Fairly sure: a sensor in the sun makes it look drier than it was.",
        next_step="Shade, or wet the path, on sunny noons rather than watering more by night.",
        figure=w.hours(d.too_dry_hours),
        figure_note="too dry",
        token="warm",
        anchor="damp_clock",
        stake="growth",
        sure="fairly sure",
        weight=0.1,
    )
