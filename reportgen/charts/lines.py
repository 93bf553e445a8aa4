"""Lines, daily ranges, bars and point clouds."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas, Floats
from reportgen.charts.look import Dots, Fit, Look
from reportgen.charts.place import days, nice_ticks, tick_words, wrap
from reportgen.charts.rings import draw_rings
from reportgen.charts.theme import Size


@dataclass(frozen=True, slots=True)
class Curve:
    """One column of a frame, its palette token, its label at the line's end, and how it is drawn."""

    column: str
    token: str
    label: str
    style: str = "solid"  # solid | dash | dot: never colour alone
    width: float = 1.6


Pair = tuple[Any, Any]


def _both(draw: Callable[[Size], Any], look: Look) -> Pair:
    wide, narrow = theme.sizes(look.height)
    return draw(wide), draw(narrow)


def _y_axis(values: Sequence[Any], look: Look, size: Size) -> list[float]:
    """Ticks that enclose the data, the levels, the rings and what the look asks for."""
    flat = np.concatenate([np.asarray(v, dtype=np.float64).ravel() for v in values] or [np.zeros(0)])
    flat = np.concatenate([flat, [lv.value for lv in look.levels], [r.y for r in look.rings]])
    flat = flat[np.isfinite(flat)]
    low, high = (float(flat.min()), float(flat.max())) if len(flat) else (0.0, 1.0)
    if look.zero:
        low, high = min(low, 0.0), max(high, 0.0)
    if look.domain is not None:
        low, high = look.domain
    return nice_ticks(low, high, max(2, round(size.height / 55)))


def _x_domain(x: Floats, look: Look) -> tuple[float, float]:
    if look.x_domain is not None:
        return float(days(look.x_domain[0])), float(days(look.x_domain[1]))
    good = x[np.isfinite(x)]
    if not len(good):
        return 0.0, 1.0
    low, high = float(good.min()), float(good.max())
    return (low, high) if high > low else (low - 0.5, high + 0.5)


def _finish(canvas: Canvas, look: Look, ends: list[tuple[float, str, str, bool]], **extra: Any) -> Any:
    draw_rings(canvas, look)
    parts.draw_gap_words(canvas, look)
    numbered = parts.draw_marks(canvas, look)
    parts.end_words(canvas, ends + parts.look_ends(canvas, look))
    meta = {"marks": parts.listed(look.marks), "numbered": numbered, "domain": list(canvas.x_domain)}
    meta["plot"] = [canvas.size.left, canvas.size.left + canvas.size.plot]
    return canvas.chart(**meta, **extra)


def _number_axis(canvas: Canvas, look: Look) -> None:
    ticks = nice_ticks(*canvas.x_domain, 4 if canvas.size.narrow else 7)
    ticks = [t for t in ticks if canvas.x_domain[0] - 1e-9 <= t <= canvas.x_domain[1] + 1e-9]
    spots = [(float(canvas.px(t)), words) for t, words in zip(ticks, tick_words(ticks), strict=True)]
    parts.draw_x_words(canvas, spots, look.x_title)


def time_lines(
    frame: pd.DataFrame, x: str, curves: Sequence[Curve], look: Look, *, fill: tuple[str, str, str] | None = None
) -> Pair:
    """Lines over time; over a number where look.x_title is set.

    Args:
        frame: One row an instant, in order; `x` dates, Timestamps or numbers; curves' columns in shown units.
        fill: (low column, high column, token) of an area between two columns.
    """

    def draw(size: Size) -> Any:
        at = days(frame[x])
        shown = [frame[c.column] for c in curves] + ([frame[fill[0]], frame[fill[1]]] if fill else [])
        ticks = _y_axis(shown, look, size)
        canvas = Canvas(size=size, x_domain=_x_domain(at, look), y_domain=(ticks[0], ticks[-1]))
        parts.draw_behind(canvas, look)
        parts.draw_y_axis(canvas, ticks, look)
        _number_axis(canvas, look) if look.x_title else parts.draw_time_axis(canvas)
        parts.draw_levels(canvas, look)
        px = canvas.px(at)
        if fill:
            canvas.band(px, canvas.py(frame[fill[0]]), canvas.py(frame[fill[1]]), theme.line(fill[2]))
        for c in curves:
            canvas.curve(px, canvas.py(frame[c.column]), theme.line(c.token), c.width, c.style)
        return _finish(canvas, look, [_end(canvas, frame[c.column], c) for c in curves])

    return _both(draw, look)


def _end(canvas: Canvas, values: pd.Series, curve: Curve) -> tuple[float, str, str, bool]:
    last = values.dropna()
    tail = float(last.iloc[-min(len(last), 3) :].mean()) if len(last) else float("nan")
    return float(canvas.py(tail)), curve.label, curve.token, True


def daily_range(
    frame: pd.DataFrame, x: str, low: Curve, high: Curve, mean: Curve | None, look: Look, extra: Sequence[Curve] = ()
) -> Pair:
    """Coldest and warmest of each day as lines with the range between them shaded, the mean a fine line."""
    curves = [high, low, *([mean] if mean else []), *extra]
    return time_lines(frame, x, curves, look, fill=(low.column, high.column, "neutral"))


def bars(frame: pd.DataFrame, x: str, curves: Sequence[Curve], look: Look, *, span_days: float = 7.0) -> Pair:
    """Stacked bars, one column of the frame a layer; over dates (`x` is the first day of `span_days`) or over words.

    The labels of the layers stand right of the plot at the last bar's layers.
    """
    words = frame[x].map(lambda v: isinstance(v, str)).all() if len(frame) else False

    def draw(size: Size) -> Any:
        at = np.arange(len(frame), dtype=np.float64) if words else days(frame[x])
        step = 1.0 if words else span_days
        heights = frame[[c.column for c in curves]].fillna(0.0).to_numpy(dtype=np.float64)
        ticks = _y_axis([heights.sum(axis=1), [0.0]], look, size)
        domain = _x_domain(np.concatenate([at, at + step]) if len(at) else at, look)
        canvas = Canvas(size=size, x_domain=domain, y_domain=(ticks[0], ticks[-1]))
        parts.draw_behind(canvas, look)
        parts.draw_y_axis(canvas, ticks, look)
        _word_axis(canvas, list(frame[x]), at) if words else parts.draw_time_axis(canvas)
        base = np.zeros(len(frame))
        gap = 0.12 if words else 0.08
        left, right = _inside(canvas, canvas.px(at + step * gap), canvas.px(at + step * (1 - gap)))
        for n, c in enumerate(curves):
            top = base + heights[:, n]
            boxes = zip(left, canvas.py(top), right, canvas.py(base), heights[:, n], strict=True)
            layer = [(a, b, e, d) for a, b, e, d, h in boxes if h > 0]
            canvas.rects(layer, theme.line(c.token), 1.0)
            if n:  # a hair of paper between layers, so that grey paper still shows them
                canvas.rules([(a, d, e, d) for a, _, e, d in layer], theme.PAPER, 1.2)
            base = top
        parts.draw_levels(canvas, look)
        return _finish(canvas, look, _bar_ends(canvas, curves, heights))

    return _both(draw, look)


LEAST_BAR = 2.0  # px


def _inside(canvas: Canvas, left: Floats, right: Floats) -> tuple[Floats, Floats]:
    """Sides of bars within the plot: a week that the season cuts is as wide as its days, and covers no axis or word."""
    first, last = (float(canvas.px(end)) for end in canvas.x_domain)
    begun = np.clip(left, first, last - LEAST_BAR)
    return begun, np.maximum(np.minimum(right, last), begun + LEAST_BAR)


def _bar_ends(canvas: Canvas, curves: Sequence[Curve], heights: Floats) -> list[tuple[float, str, str, bool]]:
    if len(curves) == 1 or not len(heights):
        return [(float(canvas.size.height / 2), c.label, c.token, True) for c in curves]
    mean = heights.mean(axis=0)
    middle = np.cumsum(mean) - mean / 2
    return [(float(canvas.py(m)), c.label, c.token, True) for m, c in zip(middle, curves, strict=True)]


def _word_axis(canvas: Canvas, names: list[str], at: Floats) -> None:
    height, plot = canvas.size.height, canvas.size.plot
    room = max(4, int(plot / max(len(names), 1) / (theme.SMALL * theme.EM_SHARE)))
    blocks = [wrap(name, room) for name in names]
    canvas.rules([(0, height, plot, height)], theme.RULE2)
    # Where a bar is too narrow for a word, some bars go without: the table names them all.
    each = max(1, int(np.ceil(max((_broad(block) for block in blocks), default=0.0) / (plot / max(len(names), 1)))))
    kept = list(zip(at, blocks, strict=True))[::each]
    canvas.words([(float(canvas.px(a + 0.5)), height + 14, block) for a, block in kept], align="center")
    canvas.bottom = 12 + theme.LINE_HEIGHT * max((len(block) for block in blocks), default=1)


def _broad(block: Sequence[str]) -> float:
    return max((theme.width_of(line) for line in block), default=0.0) + 2


def points(dots: Sequence[Dots], look: Look, fits: Sequence[Fit] = ()) -> Pair:
    """Marks of one or more groups over a number, with fitted lines, their bands, and labels at the lines' ends."""

    def draw(size: Size) -> Any:
        frames = [d.frame for d in dots] + [f.frame for f in fits]
        xs = np.concatenate([days(f["x"]) for f in frames] or [np.zeros(0)])
        ys = [f[c] for f in frames for c in ("y", "low", "high") if c in f]
        ticks = _y_axis(ys, look, size)
        canvas = Canvas(size=size, x_domain=_padded(_x_domain(xs, look)), y_domain=(ticks[0], ticks[-1]), bottom=42)
        parts.draw_behind(canvas, look)
        parts.draw_y_axis(canvas, ticks, look)
        _number_axis(canvas, look) if look.x_title else parts.draw_time_axis(canvas)
        parts.draw_levels(canvas, look)
        for fit in fits:
            if "low" in fit.frame:
                low, high = canvas.py(fit.frame["low"]), canvas.py(fit.frame["high"])
                canvas.band(canvas.px(days(fit.frame["x"])), low, high, theme.line(fit.token), 0.14)
        for d in dots:
            canvas.dots(
                canvas.px(days(d.frame["x"])), canvas.py(d.frame["y"]), theme.line(d.token), shape=d.shape, area=d.area
            )
        for fit in fits:
            px, py = canvas.px(days(fit.frame["x"])), canvas.py(fit.frame["y"])
            canvas.curve(px, py, theme.line(fit.token), 2.0, fit.style)
        ends = [_end(canvas, f.frame["y"], Curve("y", f.token, f.label)) for f in fits if f.label]
        ends += [_end(canvas, d.frame.sort_values("x")["y"], Curve("y", d.token, d.label)) for d in dots if d.label]
        return _finish(canvas, look, ends)

    return _both(draw, look)


def _padded(domain: tuple[float, float]) -> tuple[float, float]:
    room = (domain[1] - domain[0]) * 0.03
    return domain[0] - room, domain[1] + room


def thin(frame: pd.DataFrame, x: str, columns: Sequence[str], pixels: int = 560) -> pd.DataFrame:
    """A long record with, for every pixel column, its least and its greatest value: extremes are always kept.

    Returns rows in order of `x`; two a pixel column and data column. Records of up to 2 × pixels rows stay whole.
    """
    if len(frame) <= 2 * pixels:
        return frame[[x, *columns]]
    at = days(frame[x])
    column = np.floor((at - at[0]) / ((at[-1] - at[0]) or 1.0) * (pixels - 1)).astype(int)
    keep: set[int] = {0, len(frame) - 1}
    for name in columns:
        groups = frame[name].reset_index(drop=True).groupby(column)
        valid = [g.dropna() for _, g in groups]
        keep |= {spot for g in valid if len(g) for spot in (_position(g.idxmin()), _position(g.idxmax()))}
        gaps = frame[name].isna().to_numpy()
        edge = np.flatnonzero(np.diff(gaps.astype(int)) == 1) + 1
        keep |= set(edge.tolist())
    return frame[[x, *columns]].iloc[sorted(keep)]


def _position(label: Any) -> int:
    return int(label)
