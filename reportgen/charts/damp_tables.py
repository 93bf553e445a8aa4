"""The Damp page's other answers: dew on the glass, airing, the house's own leaks, the dehumidifier."""

from __future__ import annotations

import math

import pandas as pd

from reportgen.charts.build import Curve, Look, bars
from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.damp import MOST
from reportgen.counsel.facts import Facts
from reportgen.counsel.whole import of_the_time
from reportgen.measures.damp_airing import outdoors_covered
from reportgen.measures.there import There
from reportgen.wording import NBSP, between, month, number, share_of


def dew_table(facts: Facts) -> Table | Note:
    """Hours of dew on the glazing for roof and wall, with the frost among them."""
    d, w = facts.r.damp, facts.w
    dew = d.glazing_dew_hours
    if not math.isfinite(dew.estimate):
        return Note(
            title="Dew on the glass",
            kind="missing",
            text=f"Not told: {d.reasons.get('glazing_dew_hours.estimate', '')}.",
        )
    band = between(w.hours(dew.low), w.hours(dew.high)) if math.isfinite(dew.low) else "no accuracy given"
    rows = [("roof, at least", w.hours(dew.estimate), _part(facts, dew.estimate), band)]
    data = [("roof", dew.estimate, dew.low, dew.high)]
    if d.wall_dew_hours is not None:
        rows.append(("upright panes", w.hours(d.wall_dew_hours), _part(facts, d.wall_dew_hours), "not worked out"))
        data.append(("upright panes", d.wall_dew_hours, float("nan"), float("nan")))
    if d.glazing_frost_hours is not None:
        frozen = d.glazing_frost_hours
        rows.append(("of the roof's, as frost", w.hours(frozen), _part(facts, frozen), "not worked out"))
        data.append(("roof, as frost", frozen, float("nan"), float("nan")))
    return Table(
        uid="damp_dew",
        title=f"Dew could form on the roof {_part(facts, dew.estimate)} "
        f"{of_the_time(facts.r.damp.hours_recorded, facts.r.season.hours)}, at least",
        subtitle="Hours in which the inside of the glazing was colder than the air's dew point (frost point "
        f"below {w.temp(0, 0)})",
        columns=("where", "hours", "of the time on record", "with the sensors' accuracy"),
        rows=tuple(rows),
        data=pd.DataFrame(data, columns=["where", "hours", "low", "high"]).round(1),
        notes=(
            "Worked out from inside and outdoor air and the glazing's U value, with the usual resistance of the "
            "air along "
            "it (ISO 6946: 0.10 for a roof, 0.13 for a wall). A clear sky cools glass further, so it was more.",
        ),
    )


def _part(facts: Facts, hours: float) -> str:
    return facts.w.percent(100 * hours / facts.r.damp.hours_recorded)


def airing_drawing(facts: Facts) -> Drawing | Note:
    """Too damp hours by month, those with drier air outside apart."""
    d, w = facts.r.damp, facts.w
    if d.airing_hours is None:
        return Note(
            title="Would airing have dried the house?",
            kind="missing",
            text=f"Cannot tell: {d.reasons.get('airing_hours', '')}.{_log_airing(facts)}",
        )
    t = d.months
    frame = pd.DataFrame({"month": [month(m)[:3] for m in t["month"]], "dry": t["airing"]})
    frame["not"] = (t["above_high"] - t["airing"]).clip(lower=0)
    curves = (
        Curve("dry", "target", "airing would dry"),
        Curve(
            "not",
            "neutral",
            "it would not"
            if outdoors_covered(facts.r.readings, facts.r.damp.hours_recorded)
            else "it would not, or not logged",
        ),
    )
    wide, narrow = bars(frame, "month", curves, Look(unit="h", zero=True))
    total = d.hours_above_high.estimate
    share = 100 * d.airing_hours / total if total else 0.0
    title = f"The air outside held less water in {share_of(share / 100)} of the damp hours"
    if share < 100 * MOST and not outdoors_covered(facts.r.readings, facts.r.damp.hours_recorded):
        title = f"Drier air outside in at least {w.hours(d.airing_hours)}; for the rest it was not logged throughout"
    if total < 0.5:
        title = "There were no damp hours for airing to dry"
    return Drawing(
        uid="damp_airing",
        title=title,
        subtitle=f"Hours above {w.percent(d.high_pct)} in each month, by whether the air outside held less water",
        label="Bar chart of damp hours by month, those with drier air outside apart",
        description=f"{w.hours(d.airing_hours)} of {w.hours(total)} with less water in the air outside.",
        wide=wide,
        narrow=narrow,
        table=frame.rename(columns={"dry": "h drier outside", "not": "h not drier outside"}).round(1),
        notes=_airing_notes(facts),
    )


def _log_airing(facts: Facts) -> str:
    """What to log for it, of what is not there."""
    there = facts.there
    inside = there.crop_air and there.crop_humidity
    if inside and there.outdoor_named and not there.logged("outdoor_air"):
        return " The logger outdoors left no reading."
    where = [name for name, known in (("at the crop", inside), ("outdoors", outdoors_moist(there))) if not known]
    return f" From now on log temperature and humidity {' and '.join(where)}, day and night." if where else ""


def outdoors_moist(there: There) -> bool:
    """Whether the moisture of the air outside is known."""
    return there.outdoor_air and there.outdoor_humidity


def _airing_notes(facts: Facts) -> tuple[str, ...]:
    a, w = facts.r.damp.airing, facts.w
    notes = ["Cold air holds little water, so even fog outdoors dries a warmer house once it has warmed up inside."]
    volume = facts.r.season.house.air_volume_m3
    if a.water_gm3 is not None:
        notes.append(f"In those hours it held {number(a.water_gm3, 1)}{NBSP}g/m³ less on average.")
    if a.water_gm3 is not None and a.wh_per_m3 is not None and volume is not None:
        notes.append(
            f"One whole change of air then takes out about {number(a.water_gm3 * volume)}{NBSP}g of water for "
            f"{w.kwh(a.wh_per_m3 * volume / 1000, 2)} of heat."
        )
    return tuple(notes)


def leaks_note(facts: Facts) -> Note | None:
    """Water that the house's own air change carried out."""
    rate = facts.r.damp.airing.litres_a_day
    house = facts.r.season.house
    if rate is None or house.air_changes_per_h is None:
        return None
    return Note(
        title="Where the water comes from",
        text=f"At the {number(house.air_changes_per_h, 1)} changes of air an hour that you gave, the leaks "
        "carried out about "
        f"{number(rate, 1)}{NBSP}litres of water a day on average. Wet soil, leaves and watering gave off more than "
        f"that: some ran down the glass{' or went into a dehumidifier' if facts.there.dehumidifier else ''}. It is as "
        "good as the figure for the air change.",
    )


def dryer_table(facts: Facts) -> Table | Note | None:
    """What each dehumidifier did."""
    d, w = facts.r.damp, facts.w
    named = [a for a in facts.r.season.appliances if a.kind == "dehumidifier"]
    if not d.dryers:
        if not named:
            return None
        return Note(
            title="What the dehumidifier did",
            kind="missing",
            text="Cannot tell: it takes a metering plug read by the hour, and its setting as setpoint_pct in "
            "season.toml.",
        )
    rows = tuple(
        (
            x.name,
            f"{'in part of ' if x.in_part else ''}{w.hours(x.ran_h)}",
            w.percent(x.set_pct),
            w.hours(x.still_above_h),
            w.percent(100 * x.still_above_h / x.ran_h) if x.ran_h else "never ran",
        )
        for x in d.dryers
    )
    first = d.dryers[0]
    share = 100 * first.still_above_h / first.ran_h if first.ran_h else 0.0
    return Table(
        uid="damp_dryer",
        title=f"The {first.name} ran {'in part of ' if first.in_part else ''}{w.hours(first.ran_h)}, "
        f"{w.percent(share)} of it with the air still above its setting",
        subtitle=("What it drew over its rated power" if first.by_rating else "Hours in which it drew power")
        + ", and the logger's humidity in them",
        columns=("what", "ran", "set to", "air still above it", "of its hours"),
        rows=rows,
        data=pd.DataFrame(
            [(x.name, x.ran_h, x.set_pct, x.still_above_h) for x in d.dryers],
            columns=["what", "ran h", "set %", "still above h"],
        ).round(1),
        notes=("Whether the house was drier for it, with the weather taken out, stands on the Changes page.",),
    )
