"""A day-by-hour carpet in seven classes, runs merged down each day."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.lines import Curve
from reportgen.charts.look import Look
from reportgen.charts.place import days
from reportgen.charts.theme import Size

CLASSES = 7


def carpet(
    frame: pd.DataFrame,
    edges: Sequence[float],
    names: Sequence[str],
    look: Look,
    *,
    steps: Sequence[int] = tuple(range(CLASSES)),
    curves: tuple[pd.DataFrame, Sequence[Curve]] | None = None,
) -> tuple[Any, Any]:
    """Each column a day, each row an hour, the colour one of seven classes.

    Args:
        frame: Columns date, hour (0…23), value; NaN or a missing row stays bare paper.
        edges: Rising limits between the classes; one fewer than `names`.
        names: Words of the classes, for the key above the plot.
        steps: The ramp's steps (0 coldest … 6 warmest) of the classes.
        curves: A frame with a column date and, in hours of the day, the curves' columns (sunrise, sunset).
    """

    def draw(size: Size) -> Any:
        at = days(frame["date"])
        domain = look.x_domain or (float(np.nanmin(at)), float(np.nanmax(at)) + 1)
        low, high = (float(days(end)) for end in domain)
        canvas = Canvas(size=size, x_domain=(low, high), y_domain=(24.0, 0.0))
        column = float(canvas.px(low + 1) - canvas.px(low)) + 0.25  # a hair wider than a day, so that no seam shows
        for step, runs in _runs(canvas, frame, at, edges, steps).items():
            canvas.columns(runs, theme.ramp(step), column)
        hours = [0, 6, 12, 18, 24]
        canvas.words([(-7, float(canvas.py(h)), f"{h}\u00a0h" if h == 0 else str(h)) for h in hours], align="right")
        parts.draw_time_axis(canvas)
        ends = []
        if curves is not None:
            for c in curves[1]:
                px, py = (
                    canvas.px(days(curves[0]["date"]) + 0.5),
                    canvas.py(curves[0][c.column].to_numpy(dtype=np.float64)),
                )
                canvas.curve(px, py, theme.line(c.token), 1.1, c.style)
                known = py[~np.isnan(py)]  # near the poles the sun neither rises nor sets for weeks
                ends += [(float(known[-1]), c.label, c.token, False)] if len(known) else []
        parts.draw_gap_words(canvas, look)
        numbered = parts.draw_marks(canvas, look)
        parts.end_words(canvas, ends)
        draw_key(canvas, names, steps)
        plot = [size.left, size.left + size.plot]
        return canvas.chart(marks=parts.listed(look.marks), numbered=numbered, domain=[low, high], plot=plot)

    wide, narrow = theme.sizes(look.height or 200)
    return draw(wide), draw(narrow)


def _runs(
    canvas: Canvas, frame: pd.DataFrame, at: Any, edges: Sequence[float], steps: Sequence[int]
) -> dict[int, list[tuple[float, float, float]]]:
    """Runs of one class down each day, by ramp step."""
    values = frame["value"].to_numpy(dtype=np.float64)
    classes = np.where(np.isnan(values), -1, np.searchsorted(np.asarray(edges), values, side="right"))
    hours = frame["hour"].to_numpy(dtype=np.float64)
    out: dict[int, list[tuple[float, float, float]]] = {step: [] for step in steps}
    order = np.lexsort((hours, at))
    previous: tuple[float, int, float, float] | None = None  # day, class, first hour, end hour
    for i in order:
        here = (float(at[i]), int(classes[i]), float(hours[i]))
        if previous and previous[:2] == here[:2] and previous[3] == here[2]:
            previous = (*previous[:3], here[2] + 1)
            continue
        _put(canvas, out, steps, previous)
        previous = (here[0], here[1], here[2], here[2] + 1)
    _put(canvas, out, steps, previous)
    return out


def _put(
    canvas: Canvas, out: dict[int, Any], steps: Sequence[int], run: tuple[float, int, float, float] | None
) -> None:
    if run is not None and run[1] >= 0:
        middle = float(canvas.px(run[0] + 0.5))
        out[steps[run[1]]].append((middle, float(canvas.py(run[2])), float(canvas.py(run[3]))))


def draw_key(canvas: Canvas, names: Sequence[str], steps: Sequence[int]) -> None:
    """The class key above everything else, in as many lines as it needs."""
    room = canvas.size.total - canvas.size.left - 8
    spots, x, line = [], 0.0, 0
    for name, step in zip(names, steps, strict=True):
        wide = 14 + theme.width_of(name) + 12
        if x + wide > room and x > 0:
            x, line = 0.0, line + 1
        spots.append((x, line, name, step))
        x += wide
    base = -canvas.top - 8 - 16 * line
    for x, row, name, step in spots:
        y = base + 16 * row
        canvas.rects([(x, y - 5, x + 10, y + 5)], theme.ramp(step))
        canvas.words([(x + 14, y, name)])
    canvas.top += 16 * (line + 1) + 4
