"""Ringed extremes, and where their labels go: beside the ring, where they cross the least of what is drawn."""

from __future__ import annotations

import math

import numpy as np

from reportgen.charts import theme
from reportgen.charts.canvas import Canvas, Floats
from reportgen.charts.look import LANE, Look, Ring
from reportgen.charts.place import days

Box = tuple[float, float, float, float]  # x0, y0, x1, y1 in plot units


def draw_rings(canvas: Canvas, look: Look) -> None:
    """Rings, and their labels where they cross the least."""
    taken: list[Box] = []
    spots = [(float(canvas.px(days(ring.x))), float(canvas.py(ring.y)), ring) for ring in look.rings]
    spots = [(x, y, ring) for x, y, ring in spots if math.isfinite(x + y)]
    for x, y, ring in spots:
        canvas.ring(x, y, theme.line(ring.token))
        taken.append((x - 5, y - 5, x + 5, y + 5))
    for x, y, ring in spots:
        box = _clear_place(canvas, look, x, y, ring, taken)
        taken.append(box)
        middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        canvas.words([(*middle, ring.label)], theme.text(ring.token), align="center", bold=True)


def _clear_place(canvas: Canvas, look: Look, x: float, y: float, ring: Ring, taken: list[Box]) -> Box:
    """Of places around the ring the one whose box crosses the least; the side asked for wins where all are clear."""
    wide, plot, height = theme.width_of(ring.label, bold=True), canvas.size.plot, canvas.size.height
    sides = (1, -1) if ring.below else (-1, 1)
    tries = [(x, y + side * far) for far in (15, 27, 39, 54, 69, 84) for side in sides]
    tries += [(x + side * (wide / 2 + 11), y) for side in (1, -1)]
    floor = height - (12 + 2 * LANE if look.gaps else 3)  # the gaps' names stand lowest
    levels = [float(canvas.py(level.value)) for level in look.levels]
    best: tuple[float, Box] | None = None
    for n, (at, middle) in enumerate(tries):
        at = min(max(at, wide / 2), plot - wide / 2)
        box = (at - wide / 2, middle - 7.0, at + wide / 2, middle + 7.0)
        cost = 0.4 * n + sum(_inside(box, px, py) for px, py in canvas.inked)
        cost += 6.0 * sum(box[1] - 1 < level < box[3] + 1 for level in levels)
        cost += 1000.0 * (sum(_overlap(box, other) for other in taken) + (box[1] < 0) + (box[3] > floor))
        if best is None or cost < best[0]:
            best = (cost, box)
    assert best is not None
    return best[1]


def _inside(box: Box, x: Floats, y: Floats) -> float:
    return float(np.count_nonzero((x > box[0]) & (x < box[2]) & (y > box[1]) & (y < box[3])))


def _overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
