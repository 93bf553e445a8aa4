"""A change in pictures: its nights against what the weather alone would have given, in time and by temperature."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts.build import Dots, Fit, Look, change_marks, points
from reportgen.charts.changes_overview import name_of
from reportgen.charts.effects_words import interval_said
from reportgen.charts.pair_view import pair_view
from reportgen.charts.types import Drawing
from reportgen.counsel.changes import TOKENS
from reportgen.counsel.changes_words import (
    NAMES,
    between_words,
    days_words,
    effect_words,
    interval_words,
    shown,
    unit_of,
)
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import JudgedLever
from reportgen.drawing.pair import pair
from reportgen.effects import Effect, Outcome
from reportgen.effects.weather import WORDS
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, number

BASES_C = {"hd5": 5.0, "hd10": 10.0, "hd15": 15.0}


def _level(hoped: Outcome, values: Any, w: Wording) -> Any:
    """A night's figure itself in the shown unit; the bed's is a temperature, the rest differences or amounts."""
    if hoped.outcome == "soil_mean":
        return w.temp_value(values)
    return shown(hoped, values, w)


def _level_unit(hoped: Outcome, w: Wording) -> str:
    if hoped.outcome == "soil_mean":
        return w.temp_unit
    return {"%": "%", "kWh": "kWh"}.get(hoped.unit, unit_of(hoped, w))


def nights_data(hoped: Outcome, w: Wording, switched: bool) -> pd.DataFrame:
    """One row a night: what it was, what the weather alone would have given, both in shown units."""
    assert hoped.nights is not None
    frame = hoped.nights
    sides = ("off", "on") if switched else ("before", "after")
    return pd.DataFrame(
        {
            "night": list(frame["day"]),
            "side": np.where(frame["after"], sides[1], sides[0]),
            f"outdoors {w.temp_unit}": [w.temp_value(v) for v in frame["outdoor_c"]],
            f"measured {_level_unit(hoped, w)}": _level(hoped, frame["value"].to_numpy(), w),
            f"without it {_level_unit(hoped, w)}": _level(hoped, frame["without_change"].to_numpy(), w),
            f"with it {_level_unit(hoped, w)}": _level(hoped, frame["without_change"].to_numpy() + hoped.effect, w),
        }
    )


def taken_out(hoped: Outcome, w: Wording) -> str:
    """Which weather was taken out, and what could not be for want of a logger."""
    used = "; ".join(_column_words(name, w) for name in hoped.columns)
    missing = "; ".join(_column_words(name, w) for name in hoped.left_out)
    told = f"Weather taken out: {used or 'none of it varied in these weeks'}."
    return told + (f" Not to be had here: {missing}." if missing else "")


def _column_words(name: str, w: Wording) -> str:
    base = BASES_C.get(name)
    return WORDS[name] if base is None else f"how far the day stayed under {w.temp(base, 0)}"


def over_time(review: Review, number_: int, change: Effect, hoped: Outcome) -> Drawing:
    """The nights one after the other, and what the weather alone would have given."""
    w = Facts.of(review).w
    data = nights_data(hoped, w, bool(change.switches))
    night, value, without, with_ = data.columns[0], data.columns[3], data.columns[4], data.columns[5]
    token = TOKENS.get(hoped.outcome, "neutral")
    after = data["side"].isin(("after", "on"))
    alone = pd.DataFrame({"x": data[night], "y": data[without]})
    moved = pd.DataFrame({"x": data[night], "y": data[with_].where(after)})
    fits = [
        Fit(frame=alone, token="neutral", label="by the weather alone", style="dash"),
        Fit(frame=moved, token=token, label="with it"),
    ]
    inner = (data[night].iloc[0] + timedelta(days=1), data[night].iloc[-1] - timedelta(days=1))  # the chart pads it
    marks = tuple(m for m in change_marks(review.readings) if data[night].iloc[0] <= m.when <= data[night].iloc[-1])
    look = Look(unit=_level_unit(hoped, w), marks=marks, height=230, x_domain=inner)
    wide, narrow = points(_sides(data, night, value, token), look, fits)
    return Drawing(
        uid=f"changes_{number_}_nights",
        title=f"“{name_of(change)}”: {between_words(hoped, w)}",
        subtitle=f"{NAMES[hoped.outcome][:1].upper()}{NAMES[hoped.outcome][1:]}, night by night: circles "
        f"{'off' if change.switches else 'before'}, triangles {'on' if change.switches else 'after'}; dashed: what the "
        "weather alone would have given; full line: the same moved by the effect",
        label=f"Nights around “{change.what}” against what the weather alone would have given",
        description=f"{effect_words(hoped, w)}, 95{NBSP}% interval {interval_words(hoped, w)}; "
        f"{days_words(hoped, bool(change.switches))}.",
        wide=wide,
        narrow=narrow,
        table=data,
        notes=(taken_out(hoped, w), *_nights_notes(change, hoped)),
    )


def _nights_notes(change: Effect, hoped: Outcome) -> tuple[str, ...]:
    notes = [f"Judged as one with: {'; '.join(change.grouped_with)}."] if change.grouped_with else []
    notes += [f"Also in these weeks: {'; '.join(change.meanwhile)}."] if change.meanwhile else []
    notes.append(
        f"Nights in a row are alike: these {number(hoped.days_before + hoped.days_after)} carry the weight of about "
        f"{number(hoped.effective_days)} that know nothing of each other."
    )
    return tuple(notes)


def _sides(data: pd.DataFrame, x: str, y: str, token: str) -> list[Dots]:
    after = data["side"].isin(("after", "on"))
    frames = [data[rows].rename(columns={x: "x", y: "y"})[["x", "y"]] for rows in (~after, after)]
    return [
        Dots(frame=frames[0], token="neutral", shape="circle", area=26),
        Dots(frame=frames[1], token=token, shape="triangle-up", area=44),
    ]


def over_weather(review: Review, number_: int, change: Effect, hoped: Outcome) -> Drawing | None:
    """The same nights against outdoor temperature, each moved to the middle of its other weather.

    Its name ends in `weather` where a lever is judged by it, else in `beside`: a heater is no lever for warmth.
    """
    w, lever = Facts.of(review).w, review.counsel.grounds.lever_of(change.line)
    judged = lever is None or lever.verdict != "not judged"
    uid = f"changes_{number_}_{'weather' if judged else 'beside'}"
    view = pair_view(review, change, uid)
    if view is None:
        return None
    drawn, (before, after) = pair(view), view.names
    sides = [(before, x, y) for x, y in view.without] + [(after, x, y) for x, y in view.with_]
    return Drawing(
        uid=uid,
        title=f"{change.what}: {interval_said(hoped, w)}",
        subtitle=f"Rings: nights {before}; dots: {after}. The gap is the effect.",
        label=view.label,
        description=view.description,
        wide=drawn,
        narrow=drawn,
        table=pd.DataFrame(sides, columns=["side", view.x_words, f"{view.y_words}, at usual weather"]).round(2),
        sure=_nights_and_lever(change, hoped, lever),
    )


def _nights_and_lever(change: Effect, hoped: Outcome, lever: JudgedLever | None) -> str:
    """How many nights it rests on, and that on and off of one thing are one estimate."""
    nights = f"{days_words(hoped, bool(change.switches))}."
    both = lever is not None and len(lever.lines) > 1 and not change.switches
    return f"{nights[:1].upper()}{nights[1:]}{' Judged as one with its other lines, above.' if both else ''}"
