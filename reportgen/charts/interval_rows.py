"""Charts of rows: an estimate with its interval, or a bar, under each row's own words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.look import Look
from reportgen.charts.place import lanes, nice_ticks, shorten, tick_words
from reportgen.charts.theme import Size

ROW = 38


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One row: words above it, its value, an interval where there is one, and its number in words beside it."""

    label: str
    value: float
    words: str
    low: float = float("nan")
    high: float = float("nan")
    token: str = "neutral"
    pale: bool = False  # beyond what was tested


def _size(size: Size, rows: int) -> Size:
    right = 96 if size.narrow else size.right
    return Size(total=size.total, left=8, right=right, height=max(rows, 1) * ROW, narrow=size.narrow)


def _domain(rows: Sequence[Row], look: Look, zero: bool, narrow: bool) -> list[float]:
    values = [v for row in rows for v in (row.value, row.low, row.high) if math.isfinite(v)]
    values += [level.value for level in look.levels] + ([0.0] if zero else [])
    low, high = look.domain or ((min(values), max(values)) if values else (0.0, 1.0))
    return nice_ticks(low, high, 4 if narrow else 6)


def _frame(size: Size, rows: Sequence[Row], look: Look, zero: bool) -> Canvas:
    """Grid, levels, care bands and the words of the rows."""
    ticks = _domain(rows, look, zero, size.narrow)
    canvas = Canvas(size=size, x_domain=(ticks[0], ticks[-1]), y_domain=(len(rows), 0))
    for span in look.spans:
        a, b = (float(canvas.px(v).clip(0, size.plot)) for v in (span.low, span.high))
        canvas.rects([(a, 0, b, size.height)], theme.line(span.token), 0.14)
    canvas.rules([(float(canvas.px(t)), 0, float(canvas.px(t)), size.height) for t in ticks], theme.RULE)
    for level in look.levels:
        x = float(canvas.px(level.value))
        canvas.rules([(x, -4, x, size.height)], theme.line(level.token), 1.2, "dash")
    _level_words(canvas, look)
    words = tick_words(ticks, "", look.plus)
    title = look.x_title or look.unit
    parts.draw_x_words(canvas, [(float(canvas.px(t)), w) for t, w in zip(ticks, words, strict=True)], title)
    most = int((size.total - 20) / (theme.SMALL * theme.EM_SHARE))
    canvas.words([(0, n * ROW + 9, shorten(row.label, most)) for n, row in enumerate(rows)], theme.INK)
    return canvas


def _level_words(canvas: Canvas, look: Look) -> None:
    """The levels' names above the plot, in as many lanes as keep them apart."""
    most = int((canvas.size.plot - 4) / (theme.SMALL * theme.EM_BOLD))
    spots = [float(canvas.px(level.value)) for level in look.levels]
    placed = lanes(spots, [shorten(level.label, most) for level in look.levels], canvas.size.plot, len(spots))
    tokens = [level.token for _, level in sorted(zip(spots, look.levels, strict=True), key=lambda pair: pair[0])]
    for spot, token in zip(placed or (), tokens, strict=True):
        canvas.words([(spot.x, -11 - parts.LANE * spot.lane, spot.words)], theme.text(token), align=spot.align)
        canvas.top = max(canvas.top, 22 + parts.LANE * spot.lane)


def _value_words(canvas: Canvas, rows: Sequence[Row]) -> None:
    most = int((canvas.size.right - 8) / (theme.SMALL * theme.EM_BOLD))
    for n, row in enumerate(rows):
        spot = (canvas.size.plot + 8, n * ROW + 24, shorten(row.words, most))
        canvas.words([spot], theme.INK2 if row.pale else theme.text(row.token), bold=not row.pale)


def intervals(rows: Sequence[Row], look: Look) -> tuple[Any, Any]:
    """Estimate and interval of each row against zero; a span of the look is the care band around it."""

    def draw(size: Size) -> Any:
        canvas = _frame(_size(size, len(rows)), rows, look, zero=True)
        zero = float(canvas.px(0.0))
        canvas.rules([(zero, 0, zero, canvas.size.height)], theme.INK2, 1.2)
        for n, row in enumerate(rows):
            y = n * ROW + 24
            if math.isfinite(row.low) and math.isfinite(row.high):
                ends = (float(canvas.px(row.low)), y, float(canvas.px(row.high)), y)
                canvas.rules([ends], theme.line(row.token), 2.4, "dash" if row.pale else "solid")
                canvas.rules([(x, y - 4, x, y + 4) for x in (ends[0], ends[2])], theme.line(row.token), 1.4)
            if math.isfinite(row.value):
                canvas.ring(float(canvas.px(row.value)), y, theme.line(row.token))
        _value_words(canvas, rows)
        return canvas.chart()

    wide, narrow = theme.sizes()
    return draw(wide), draw(narrow)


def ranked(rows: Sequence[Row], look: Look) -> tuple[Any, Any]:
    """A horizontal bar a row from zero, with an interval as a fine line where there is one."""

    def draw(size: Size) -> Any:
        canvas = _frame(_size(size, len(rows)), rows, look, zero=True)
        zero = float(canvas.px(0.0))
        for n, row in enumerate(rows):
            y = n * ROW + 24
            if math.isfinite(row.value):
                x = float(canvas.px(row.value))
                box = (min(zero, x), y - 6, max(zero, x), y + 6)
                canvas.rects([box], theme.line(row.token), 0.35 if row.pale else 1.0)
            if math.isfinite(row.low) and math.isfinite(row.high):
                a, b = float(canvas.px(row.low)), float(canvas.px(row.high))
                canvas.rules([(a, y, b, y), (a, y - 4, a, y + 4), (b, y - 4, b, y + 4)], theme.INK, 1.2)
        canvas.rules([(zero, 0, zero, canvas.size.height)], theme.RULE2)
        _value_words(canvas, rows)
        return canvas.chart()

    wide, narrow = theme.sizes()
    return draw(wide), draw(narrow)
