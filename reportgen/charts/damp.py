"""Damp: the carpet of humidity, hours by month and by hour of the day, nights, dew on the glass, airing, drying."""

from __future__ import annotations

import math

import pandas as pd

from reportgen.charts.build import Curve, Look, bars, time_lines
from reportgen.charts.damp_carpet import carpet_drawing, carpet_words
from reportgen.charts.damp_kinds import kinds_of_night
from reportgen.charts.damp_nights import dawn_drawing, mould_table, nights_drawing, visits_table
from reportgen.charts.damp_tables import airing_drawing, dew_table, dryer_table, leaks_note
from reportgen.charts.seldom import seldom_page
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel import cautions
from reportgen.counsel.damp import MOST, OFTEN, dampest_month
from reportgen.counsel.facts import Facts
from reportgen.counsel.whole import of_the_time
from reportgen.measures.damp import TOO_DRY_KPA
from reportgen.measures.damp_airing import outdoors_covered
from reportgen.measures.damp_mould import WET_PCT
from reportgen.measures.damp_tables import noon_and_night
from reportgen.measures.exposure import Band
from reportgen.measures.places import seldom_crop
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import NBSP, between, month, number, share_time, span

SHOWS = (
    "this page would show how long the air was too damp and when, when dew formed on the glass, which nights favoured "
    "grey mould, and whether airing would have dried the house."
)
MISSING = (
    f"With a humidity sensor among the crop {SHOWS} From now on: log humidity beside the air temperature of the crop"
)
UNHEARD = (
    "The humidity sensor that is listed left no readings to go by, so this page has nothing to "
    "tell. The record says what was set aside and why."
)
ALIKE = 1.0  # points within which noon and night are told as one; what is printed cannot tell them apart
DRIED = 10.0  # points fewer damp hours around noon than by night before noon may be said to dry; our own line


def page(review: Review) -> Page:
    """The page, or the one note on what to log where there is no humidity."""
    d = review.damp
    if d.logger is None or not d.hours_recorded:
        return _without_humidity(review)
    facts = Facts.of(review)
    blocks: list[Drawing | Table | Note | None] = [
        carpet_drawing(review, facts),
        months_drawing(review, facts),
        clock_drawing(review, facts),
        nights_drawing(review, facts),
        mould_table(facts),
        visits_table(facts),
        dawn_drawing(review, facts),
        dew_table(facts),
        airing_drawing(facts),
        leaks_note(facts),
        dryer_table(facts),
        *kinds_of_night(facts),
        _method(facts),
        Note(title="Before you act", kind="caution", text=_caution(facts)),
    ]
    shown = tuple(block for block in blocks if block is not None)
    return Page(slug="damp", headline=_headline(facts), lead=_lead(facts), blocks=shown)


def _without_humidity(review: Review) -> Page:
    """Too seldom read, or nothing usable, or not logged: what to do about it."""
    seldom = seldom_crop(review.readings, "relative_humidity")
    if seldom is not None:
        return seldom_page(review, "damp", "Damp", seldom, SHOWS)
    there = There.of(review.readings)
    outdoors = there.logged("outdoor_air") and there.logged("outdoor_humidity")
    listed = there.crop_humidity or "relative_humidity" in there.unheard
    missing = UNHEARD if listed else MISSING + ("." if outdoors else ", and both outdoors too.")
    note = Note(text=missing, kind="missing", title="Damp")
    return Page(slug="damp", headline="Damp: no humidity to go by", lead=missing, blocks=(note,), answers=False)


def _caution(facts: Facts) -> str:
    burns = bool(facts.fuels - {"electricity"})
    parts = [cautions.MAINS, *([cautions.SEAL] if burns else []), cautions.SPRAY]
    return " ".join(parts)


def _headline(facts: Facts) -> str:
    d, w = facts.r.damp, facts.w
    part = d.hours_above_high.estimate / d.hours_recorded
    time = share_time(part, of_the_time(d.hours_recorded, facts.r.season.hours))
    if part < OFTEN:
        return f"Above {w.percent(d.high_pct)} humidity {time}"
    return f"Too damp {time}; {_dried(facts)}"


def _dried(facts: Facts) -> str:
    """What would have dried it: drier air outside for most of it or not; else from which humidity it counts."""
    d = facts.r.damp
    total = d.hours_above_high.estimate
    covered = outdoors_covered(facts.r.readings, d.hours_recorded)
    if d.airing_hours is None or not (covered or d.airing_hours >= MOST * total):
        return f"that is above {facts.w.percent(d.high_pct)} humidity"
    most = d.airing_hours >= MOST * total
    return "airing would have dried most of it" if most else "airing alone would not have dried it"


def _lead(facts: Facts) -> str:
    d, w = facts.r.damp, facts.w
    which = "The longest spell" if len(d.spells) > 1 else "The one spell"
    parts = [
        f"{w.hours(d.hours_above_high.estimate)} above {w.percent(d.high_pct)} and "
        f"{w.hours(d.hours_above_extreme.estimate)} above {w.percent(d.extreme_pct)}, of "
        f"{w.hours(d.hours_recorded)} on record"
    ]
    spell = d.longest_spell
    if spell.hours is not None and spell.start is not None and spell.end is not None:
        parts.append(f"{which} lasted {w.hours(spell.hours)}, {span(spell.start, spell.end)}")
    if d.mean_dew_point_c is not None:
        parts.append(f"On average dew would have formed on anything colder than {w.temp(d.mean_dew_point_c)}")
    return ". ".join(parts) + "."


def months_drawing(review: Review, facts: Facts) -> Drawing:
    """Share of each month's hours above both lines."""
    d, w = review.damp, facts.w
    t = d.months
    share = t[["above_high", "above_extreme"]].div(t["recorded"].where(t["recorded"] > 0), axis=0) * 100
    frame = pd.DataFrame({"month": [month(m)[:3] for m in t["month"]]})
    names = [month(m) for m in t["month"]]
    frame["extreme"] = share["above_extreme"].to_numpy()
    frame["high"] = (share["above_high"] - share["above_extreme"]).to_numpy()
    curves = (
        Curve("extreme", "cold", f"above {w.percent(d.extreme_pct)}"),
        Curve("high", "humid", f"{number(d.high_pct)} to {w.percent(d.extreme_pct)}"),
    )
    wide, narrow = bars(frame, "month", curves, Look(unit="%", domain=(0, 100)))
    table = pd.DataFrame(
        {
            "month": names,
            "h recorded": t["recorded"],
            "h above the high line": t["above_high"],
            "high, low": t["above_high_low"],
            "high, top": t["above_high_top"],
            "h above the extreme line": t["above_extreme"],
            "extreme, low": t["above_extreme_low"],
            "extreme, top": t["above_extreme_top"],
        }
    ).round(1)
    top = dampest_month(facts)
    return Drawing(
        uid="damp_months",
        title=f"{top[0]} was the dampest month" if top is not None else _no_dampest(names),
        subtitle=f"Share of each month's recorded hours above {w.percent(d.high_pct)} and {w.percent(d.extreme_pct)}",
        label="Bar chart of the share of damp hours by month",
        description="; ".join(
            f"{name} {w.percent(float(high)) if math.isfinite(high) else 'not logged'}"
            for name, high in zip(names, share["above_high"], strict=True)
        )
        + f" above {w.percent(d.high_pct)}.",
        wide=wide,
        narrow=narrow,
        table=table,
        notes=_bands(facts),
    )


def _no_dampest(names: list[str]) -> str:
    return f"How damp {names[0]} was" if len(names) == 1 else "How damp each month was"


def _bands(facts: Facts) -> tuple[str, ...]:
    """What the sensor's accuracy leaves of both counts."""
    d, w = facts.r.damp, facts.w
    if not math.isfinite(d.hours_above_high.low):
        return (f"No band: {d.reasons.get('hours_above_high.low', '')}.",)

    def words(band: Band) -> str:
        return between(w.hours(band.low), w.hours(band.high))

    return (
        f"If the sensor read wrong by all it may, all {facts.there.season}: {words(d.hours_above_high)} above "
        f"{w.percent(d.high_pct)}, {words(d.hours_above_extreme)} above {w.percent(d.extreme_pct)}.",
    )


def clock_drawing(review: Review, facts: Facts) -> Drawing:
    """How often each hour of the day was too damp."""
    d, w = review.damp, facts.w
    frame = d.clock.rename(columns={"hour": "h"})
    named = {"h": "hour", "high": "above the high line %", "extreme": "above the extreme line %"}
    curves = (
        Curve("high", "humid", f"above {w.percent(d.high_pct)}"),
        Curve("extreme", "cold", f"above {w.percent(d.extreme_pct)}", style="dash"),
    )
    look = Look(unit="%", x_title="hour of the day, standard time", domain=(0, 100), x_domain=(0, 23))
    wide, narrow = time_lines(frame, "h", curves, look)
    dry = (
        f" {w.hours(d.too_dry_hours)} were too dry instead: more than {number(TOO_DRY_KPA, 1)}{NBSP}kPa short of full."
        if (d.too_dry_hours)
        else ""
    )
    return Drawing(
        uid="damp_clock",
        title=_clock_title(facts),
        subtitle="Share of each hour of the day that was above both lines, %",
        label="Line chart of the share of damp hours by hour of the day",
        description=carpet_words(facts) + dry,
        wide=wide,
        narrow=narrow,
        table=frame.rename(columns=named).round(1),
        notes=(f"{_night_words(facts)}Damp that lasts past noon is the harmful kind.",),
    )


def _night_words(facts: Facts) -> str:
    """Why nights are the damper half; silent in a house where they are not, as where heat dries them."""
    noon, night = noon_and_night(facts.r.damp.clock["high"])
    cold = "The same water makes cold air damper than warm, so nights are mostly damper than days. "
    return cold if night >= noon else ""


def _clock_title(facts: Facts) -> str:
    """What noon did: dry the house, by more than what matters, or not; nothing where one of both is not logged."""
    d, w = facts.r.damp, facts.w
    noon, night = noon_and_night(d.clock["high"])
    if not (math.isfinite(noon) and math.isfinite(night)):
        return "Damp by the hour of the day"
    if max(noon, night) < 0.5:
        return f"No hour of the day was often above {w.percent(d.high_pct)}"
    both = f"{w.percent(noon)} of the hours around noon too damp, {w.percent(night)} of those by night"
    if noon >= 50:
        return f"Damp by day too: {both}"
    if abs(night - noon) < ALIKE:
        return f"As damp around noon as by night: {both}"
    if night - noon < DRIED:
        return f"Noon dried little: {both}" if noon < night else f"Noon did not dry the house: {both}"
    return f"Noon dried the house: {both}"


def _method(facts: Facts) -> Note:
    return Note(
        title="How this was counted",
        text="Hours are exact times of the line through the readings; nothing is counted in a gap. Leaves are "
        "taken as wet "
        f"from {number(WET_PCT)}{NBSP}% humidity (Sentelhas and others 2008). Humidity is over water at every "
        "temperature, as sensors "
        "report it; below freezing the glass frosts a little before it would dew. Details stand on the page How it was "
        "worked out.",
    )
