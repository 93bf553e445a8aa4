"""Damp hour by hour: the season as a carpet, a column a day, with the sun's own edges."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise

import numpy as np
import pandas as pd

from reportgen.charts.build import Curve, Look, carpet, change_marks
from reportgen.charts.types import Drawing
from reportgen.counsel.facts import Facts
from reportgen.measures.damp_tables import STANDS_OUT
from reportgen.measures.exposure import Floats
from reportgen.review import Review
from reportgen.sun import sunrise_sunset
from reportgen.wording import NBSP, day, month, number

STEPS = (6, 5, 4, 3, 2, 1, 0)  # dry is warm, damp is cold


def edges(high: float, extreme: float) -> list[float]:
    """Six limits of the seven classes, the grower's two lines among them."""
    return [high - 30, high - 20, high - 10, high, extreme, (extreme + 100) / 2]


def carpet_drawing(review: Review, facts: Facts) -> Drawing:
    """Mean humidity of every hour, a column a day, sunrise and sunset drawn over it."""
    d, w = review.damp, facts.w
    limits = edges(d.high_pct, d.extreme_pct)
    names = [
        f"under {w.percent(limits[0])}",
        *(f"{number(a)}–{number(b)}" for a, b in pairwise(limits)),
        f"over {w.percent(limits[-1])}",
    ]
    domain = (review.season.first_day, review.season.last_day + timedelta(days=1))
    look = Look(x_domain=domain, marks=change_marks(review.readings, "damp"), height=220)
    wide, narrow = carpet(d.carpet, limits, names, look, steps=STEPS, curves=_sun(review))
    spell = d.longest_spell
    title = f"No hour above {w.percent(d.high_pct)} humidity"
    if spell.hours is not None and spell.start is not None:
        which = "The longest" if len(d.spells) > 1 else "The one"
        title = f"{which} damp spell began on {day(spell.start)} and lasted {_long(spell.hours, facts)}"
    return Drawing(
        uid="damp_carpet",
        title=title,
        subtitle=f"Humidity of every hour, %, at the logger “{d.logger}”: a column a day, midnight at the top, "
        "standard "
        "time; blue is damp",
        label="Day by hour chart of humidity in seven classes",
        description=carpet_words(facts),
        wide=wide,
        narrow=narrow,
        table=d.carpet.rename(columns={"value": "humidity %"}).round(1),
        shown=_by_month_and_hour(d.carpet),
        notes=(
            "Bare paper: nothing logged. The table shows the mean of each month and hour; the file has every hour.",
        ),
    )


def _long(hours: float, facts: Facts) -> str:
    return f"{number(hours / 24)}{NBSP}days" if hours >= 96 else facts.w.hours(hours)


def carpet_words(facts: Facts) -> str:
    clock = facts.r.damp.clock.dropna()
    if clock.empty:
        return "Humidity by hour."
    worst, best = clock.iloc[int(clock["high"].argmax())], clock.iloc[int(clock["high"].argmin())]
    limit = facts.w.percent(facts.r.damp.high_pct)
    if worst["high"] - best["high"] < STANDS_OUT:
        share = facts.w.percent(clock["high"].mean())
        return f"Above {limit} about as often at every hour of the day: {share} of such hours."
    return (
        f"Above {limit} most often at {number(worst['hour'])}{NBSP}h ({facts.w.percent(worst['high'])} of such "
        "hours) and "
        f"least often at {number(best['hour'])}{NBSP}h ({facts.w.percent(best['high'])})."
    )


def _by_month_and_hour(frame: pd.DataFrame) -> pd.DataFrame:
    months = [month(d) for d in frame["date"]]
    hours = [f"{h:02d}–{h + 3:02d} h" for h in (frame["hour"] // 3) * 3]
    table = frame.assign(month=months, part=hours).pivot_table("value", "month", "part", aggfunc="mean")
    return table.reindex(list(dict.fromkeys(months))).round(0).reset_index()


def _sun(review: Review) -> tuple[pd.DataFrame, tuple[Curve, ...]] | None:
    """Sunrise and sunset of every date in hours of standard time; None where the place is not known or the sun does
    neither."""
    place = review.season.place
    if place.latitude is None or place.longitude is None:
        return None
    dates = list(dict.fromkeys(review.damp.carpet["date"]))
    zone_h = _standard_h(review)
    rise, set_ = sunrise_sunset(dates, place.latitude, place.longitude)
    hours = [(t.hour + t.minute / 60 + t.second / 3600 + zone_h) % 24 for t in rise]
    ends = [(t.hour + t.minute / 60 + t.second / 3600 + zone_h) % 24 for t in set_]
    frame = pd.DataFrame({"date": dates, "rise": _in_one_piece(hours), "set": _in_one_piece(ends)})
    if frame[["rise", "set"]].isna().all(axis=None):
        return None
    return frame, (Curve("rise", "sun", "sunrise"), Curve("set", "sun", "sunset", style="dash"))


def _in_one_piece(hours: list[float]) -> Floats:
    """Hours of the day, broken where a sunset slips past midnight: the line would cross the whole day."""
    found = np.asarray(hours, dtype=np.float64)
    leaps = np.flatnonzero(np.abs(np.diff(found)) > 12.0) + 1
    found[leaps] = np.nan
    return found


def _standard_h(review: Review) -> float:
    years = (review.season.first_day.year, review.season.last_day.year)
    stamps = [pd.Timestamp(year=y, month=m, day=1, tz=review.season.zone) for y in years for m in (1, 7)]
    offsets = [stamp.utcoffset() for stamp in stamps]
    return min(o.total_seconds() for o in offsets if o is not None) / 3600.0
