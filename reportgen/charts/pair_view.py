"""What the small picture of one change is told: its nights against outdoor temperature, moved to the usual weather."""

from __future__ import annotations

import numpy as np

from reportgen.charts.effects_words import interval_said
from reportgen.charts.place import nice_ticks, tick_words
from reportgen.charts.season_view import said_of
from reportgen.counsel.changes_words import days_words, shown
from reportgen.drawing.axis import Axis, Tick
from reportgen.drawing.pair import Pair
from reportgen.effects import Effect
from reportgen.effects.usual_weather import NEVER_UNDER_NONE, at_usual_weather
from reportgen.review import Review
from reportgen.wording import Wording

NOT_BY_WEATHER = ("soil_mean", "soil_swing", "daily_light")  # outdoor temperature of the night tells little of them
_FIGURE = {
    "lift": "degrees warmer than outdoors",
    "night_minimum": "degrees warmer than outdoors at the coldest",
    "heat": "heat a day, kWh",
    "watts_per_kelvin": "heat for each degree, W",
    "night_humidity": "% humidity at night",
    "moisture": "water in the night air, g/m³",
    "damp_hours": "damp hours a night",
}


def pair_view(review: Review, effect: Effect, uid: str) -> Pair | None:
    """One measured change; None where it was not measured, or not on what goes with the outdoor temperature."""
    w, hoped = Wording.of(review.season), effect.declared
    if hoped is None or hoped.refused is not None or hoped.outcome in NOT_BY_WEATHER:
        return None
    usual = at_usual_weather(hoped)
    if usual is None:
        return None
    out = np.array([w.temp_value(float(c)) for c in usual.outdoor_c])
    moved = np.array([shown(hoped, float(v), w) for v in usual.moved])
    slope = shown(hoped, usual.slope, w) / w.diff_value(1.0)
    level = shown(hoped, usual.level, w) - slope * w.temp_value(0.0)
    after = usual.after > 0
    sides = [tuple(zip(out[s].tolist(), moved[s].tolist(), strict=True)) for s in (~after, after)]
    names = ("off", "on") if effect.switches else ("before", "after")
    floor = 0.0 if hoped.outcome in NEVER_UNDER_NONE else None
    lines = [level + slope * v + e for v in (out.min(), out.max()) for e in (0.0, shown(hoped, hoped.effect, w))]
    if floor is not None:
        lines = [max(value, floor) for value in lines]
    return Pair(
        uid=uid,
        label=f"{effect.what}: nights {names[0]} and {names[1]} against outdoor temperature, at equal weather",
        description=f"{interval_said(hoped, w)}; {days_words(hoped, bool(effect.switches))}.",
        without=sides[0],
        with_=sides[1],
        slope=slope,
        level=level,
        effect=shown(hoped, hoped.effect, w),
        floor=floor,
        mark=said_of(review)(effect)[0],
        x=_axis(out.tolist(), "°"),
        y=_axis([*moved.tolist(), *lines], ""),
        x_words=f"outdoors that night, {w.temp_unit}",
        y_words=_FIGURE.get(hoped.outcome, hoped.unit),
        names=names,
    )


def _axis(values: list[float], unit: str) -> Axis:
    """From the least to the greatest with a little room, round ticks between."""
    low, high = min(values), max(values)
    room = (high - low) * 0.06 or 0.5
    ticks = nice_ticks(low, high, 5)
    words = tick_words(ticks)
    inner = tuple(
        Tick(t, t_words + unit) for t, t_words in zip(ticks, words, strict=True) if low - room <= t <= high + room
    )
    return Axis(low=low - room, high=high + room, ticks=inner)
