"""The end of the Frost page: too hot, nights away, how it was counted."""

from __future__ import annotations

import math

import pandas as pd

from reportgen.charts.build import Curve, Look, bars, change_marks
from reportgen.charts.types import Drawing, Note
from reportgen.counsel.facts import Facts
from reportgen.measures.exposure import Band
from reportgen.review import Review
from reportgen.wording import NBSP, between, day, number, span


def band_words(band: Band, digits: int = 0) -> str:
    """12 (9–15), or the estimate alone."""
    if not math.isfinite(band.low):
        return number(band.estimate, digits)
    low, high = number(band.low, digits), number(band.high, digits)
    return f"{number(band.estimate, digits)} ({between(low, high)})" if low != high else number(band.estimate, digits)


def hot_drawing(review: Review, facts: Facts) -> Drawing | Note | None:
    f, w = review.frost, facts.w
    limit = review.season.aims.hot_c
    if not math.isfinite(f.hot_hours.estimate):
        why = f.reasons.get("hot_hours.estimate", "")
        return Note(title="Too hot", text=f"Hours above {w.temp(limit, 0)} are not told: {why}.", kind="missing")
    if f.hot_hours.estimate <= 0:
        return None
    table = pd.DataFrame({"first day": list(f.hot_weeks["week"]), "hours": f.hot_weeks["hours"].round(1)})
    domain = (review.season.first_day, review.season.last_day)
    look = Look(unit="h", x_domain=domain, zero=True, marks=change_marks(review.readings, "cold"))
    wide, narrow = bars(table, "first day", (Curve("hours", "warm", "too hot"),), look)
    title = f"Above {w.temp(limit, 0)} on some days, never on three running"
    if f.open_week:
        title = f"In the week of {day(f.open_week)} it was above {w.temp(limit, 0)} on three days running"
    return Drawing(
        uid="frost_hot",
        title=title,
        subtitle=f"Hours of each week, Monday to Sunday, above {w.temp(limit, 0)} at the main logger",
        label="Bar chart of hours too hot by week",
        description=f"{w.hours(f.hot_hours.estimate, 1)} in the season.",
        wide=wide,
        narrow=narrow,
        table=table,
        notes=(f"With the sensor's accuracy: {band_words(f.hot_hours)}{NBSP}h.",)
        if math.isfinite(f.hot_hours.low)
        else (),
    )


def away_note(facts: Facts) -> Note | None:
    f, w = facts.r.frost, facts.w
    if not f.away:
        return None
    told = []
    for a in f.away:
        cold = f"coldest {w.temp(a.coldest_c)}" if a.coldest_c is not None else "no night on record"
        told.append(f"{span(a.start, a.end).removeprefix('from ')}: {cold}, {w.hours(a.blind_hours)} without a reading")
    return Note(title="Nights when nobody was there", text=". ".join(told) + ".")


def method_note(facts: Facts) -> Note:
    w = facts.w
    return Note(
        title="How this was counted",
        text="Neighbouring readings are joined by a straight line, and hours below a line are the exact times of that "
        "line; nothing is counted in a gap. A night runs from 18 to 09 h standard time. The band shifts every "
        "reading by "
        f"the sensor's ±; the frost line is {w.temp(facts.r.frost.line_c)}. Details stand on the page How it "
        "was worked out.",
    )
