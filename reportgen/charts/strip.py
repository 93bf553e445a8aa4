"""The winter as a strip: the coldest reading of every day, inside and outdoors, in seven classes."""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.carpets import draw_key
from reportgen.charts.place import days as places
from reportgen.charts.theme import Size
from reportgen.charts.types import Drawing
from reportgen.measures.days import DATE, dates, enough, window_stats
from reportgen.measures.exposure import line
from reportgen.measures.places import coldest_crop_air, outdoor
from reportgen.review import Review
from reportgen.wording import Wording, day, number, of_all

EDGES_C = (-5.0, 0.0, 3.0, 6.0, 9.0, 12.0)
HIGH, GAP = 26, 20


def strip(review: Review) -> Drawing | None:
    """The drawing; None where no air temperature was logged."""
    frame = coldest_by_day(review)
    if frame is None:
        return None
    w = Wording.of(review.season)
    edges = [w.temp_value(edge) for edge in EDGES_C]
    wide, narrow = (_draw(size, frame, edges, w, review) for size in theme.sizes(2 * HIGH + GAP))
    unit = w.temp_unit
    table = frame.rename(columns={"inside": f"coldest inside, {unit}", "outdoors": f"coldest outdoors, {unit}"})
    return Drawing(
        uid="glance_strip",
        title=_title(frame, w),
        subtitle=f"Each stripe a day: its coldest reading, {unit}, inside at the crop" + _and_outdoors(frame),
        label="Strip of the season, one stripe a day, coloured by the day's coldest reading",
        description=_words(frame, w),
        wide=wide,
        narrow=narrow,
        table=table,
        day_slider=True,
    )


def coldest_by_day(review: Review) -> pd.DataFrame | None:
    """Columns date, inside and (where logged) outdoors, in the shown unit; NaN where too little was logged."""
    inside = coldest_crop_air(review.readings)
    if inside is None:
        return None
    season, w = review.season, Wording.of(review.season)
    frame = pd.DataFrame({"date": dates(season)})
    frame["inside"] = _shown(enough(window_stats(inside, season, DATE), "min"), w)
    air = outdoor(review.readings, "air_temperature")
    if air is not None:
        frame["outdoors"] = _shown(enough(window_stats(line(air.values), season, DATE), "min"), w)
    return frame


def _shown(values: pd.Series, w: Wording) -> Any:
    return values.map(w.temp_value).to_numpy(dtype=np.float64)


def _title(frame: pd.DataFrame, w: Wording) -> str:
    if not frame["inside"].notna().any():
        return "No day was logged well enough to be shown"
    if frame["inside"].notna().sum() == 1:
        only = frame[frame["inside"].notna()].iloc[0]
        return f"Of one day, {day(only['date'])}, the coldest was {number(only['inside'], 1)}\u00a0{w.temp_unit}"
    row = frame.iloc[int(np.nanargmin(frame["inside"].to_numpy(dtype=np.float64)))]
    return f"The coldest day inside was {day(row['date'])}, at {number(row['inside'], 1)}\u00a0{w.temp_unit}"


def _and_outdoors(frame: pd.DataFrame) -> str:
    return ", and outdoors" if "outdoors" in frame else ""


def _words(frame: pd.DataFrame, w: Wording) -> str:
    good = frame["inside"].dropna()
    if not len(good):
        return "No day has enough readings."
    return (
        f"{of_all(len(good), len(frame), 'day')}; the coldest reading of a day inside lay between "
        f"{number(float(good.min()), 1)} and {number(float(good.max()), 1)}\u00a0{w.temp_unit}."
    )


def _draw(size: Size, frame: pd.DataFrame, edges: list[float], w: Wording, review: Review) -> Any:
    first, last = review.season.first_day, review.season.last_day
    domain = (float(places(first)), float(places(last)) + 1)
    canvas = Canvas(size=size, x_domain=domain, y_domain=(1.0, 0.0))
    at = places(frame["date"])
    width = float(canvas.px(domain[0] + 1)) + 0.2
    rows = [name for name in ("inside", "outdoors") if name in frame]
    for n, name in enumerate(rows):
        top = n * (HIGH + GAP)
        values = frame[name].to_numpy(dtype=np.float64)
        classes = np.where(np.isnan(values), -1, np.searchsorted(np.asarray(edges), values, side="right"))
        for step in range(7):
            runs = [(float(canvas.px(x + 0.5)), top, top + HIGH) for x in at[classes == step]]
            canvas.columns(runs, theme.ramp(step), width)
        canvas.words([(size.plot + 8, top + HIGH / 2, name)], theme.INK)
    parts.draw_time_axis(canvas)
    draw_key(canvas, _names(edges, w), range(7))
    ends = [size.left, size.left + size.plot]
    return canvas.chart(marks=[], numbered=False, domain=list(domain), plot=ends)


def _names(edges: list[float], w: Wording) -> list[str]:
    whole = [number(edge) for edge in edges]
    between = [f"{a} to {b}" for a, b in itertools.pairwise(whole)]
    return [f"below {whole[0]}", *between, f"{whole[-1]}\u00a0{w.temp_unit} and over"]
