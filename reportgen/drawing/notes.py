"""Notes on a picture by rule: eight places round the point, the one that crosses least, none where none is free."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from reportgen.drawing import ink
from reportgen.drawing.pen import ASCENT, DESCENT, Anchor, Box, Pen
from reportgen.drawing.trace import Point
from reportgen.drawing.widths import balanced, width_of

Floats = NDArray[np.float64]
PLACES: tuple[tuple[int, int], ...] = ((1, 0), (1, -1), (1, 1), (-1, 0), (-1, -1), (-1, 1), (0, -1), (0, 1))
REACHES = (7.0, 18.0, 32.0, 50.0, 72.0, 100.0)  # from the point to the words
LEAD = 12.0  # way from which a thin line leads to the words
USUAL = 14.0  # size of words for which these are; all grow with the words
CLEAR = 4.5  # between the point and its words
AIR = 3.0  # between words of two notes
CROSSING, FAR, WIDE, LINE = 2.0, 0.2, 0.04, 2.0  # cost of a crossed mark, of a unit of way or width, of a line
STEP = 3.0  # units between the points that stand for a curve
FULL = 90  # cost from which a place is none


@dataclass(frozen=True, kw_only=True, slots=True)
class Note:
    """Words at a point of the picture, in order of rank; `brief` where the picture is small."""

    day: float
    value: float
    words: str
    brief: str = ""
    token: ink.Token = "cold"
    ring: bool = True
    italic: bool = False


@dataclass(frozen=True, slots=True)
class _Try:
    cost: float
    box: Box
    start: Point  # of the first baseline
    anchor: Anchor
    lead: tuple[Point, Point] | None


class Inked:
    """Points that stand for what is drawn already; words keep clear of them."""

    def __init__(self) -> None:
        self._parts: list[Floats] = []

    def curve(self, points: Sequence[Point | None]) -> None:
        """A broken line, with points between its own."""
        for a, b in pairwise(points):
            if a is not None and b is not None:
                n = min(200, max(1, math.ceil(math.dist(a, b) / STEP)))
                self._parts.append(np.linspace(a, b, n, endpoint=False))

    def box(self, x0: float, y0: float, x1: float, y1: float) -> None:
        """A filled box."""
        xs, ys = np.arange(x0, x1, STEP), np.arange(y0, y1, STEP)
        if len(xs) and len(ys):
            self._parts.append(np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2))

    def spot(self, at: Point, weight: int = 6) -> None:
        """A ring or dot that no word may hide."""
        self._parts.append(np.tile(np.asarray(at, dtype=np.float64), (weight, 1)))

    def all(self) -> Floats:
        """Every point."""
        return np.concatenate(self._parts) if self._parts else np.zeros((0, 2))


def crossed(points: Floats, box: Box) -> int:
    """How many of the points lie in the box."""
    x, y = points[:, 0], points[:, 1]
    return int(((x > box.x0) & (x < box.x1) & (y > box.y0) & (y < box.y1)).sum())


def write(
    pen: Pen,
    at: Point,
    words: str,
    color: str,
    inked: Inked,
    area: Box,
    *,
    italic: bool = False,
    stroke: str = "",
    most: int = 4,
) -> bool:
    """Writes the words beside the point where they cross least, inside the area; False where no place is free."""
    bold = not italic
    points = inked.all()
    unit = pen.size / USUAL
    best: tuple[_Try, tuple[str, ...]] | None = None
    for lines in balanced(words, pen.size, bold=bold, most=most):
        wide = max(width_of(line, pen.size, bold=bold) for line in lines)
        high = (len(lines) - 1) * pen.lead + (ASCENT + DESCENT) * pen.size
        for reach in (unit * r for r in REACHES):
            for place in PLACES:
                tried = _tried(at, place, reach, (wide, high), pen.size, area)
                if tried is None or (best and tried.cost >= best[0].cost) or not _free(tried, pen.taken):
                    continue
                cost = tried.cost + CROSSING / unit * crossed(points, tried.box)
                if cost < FULL and (best is None or cost < best[0].cost):
                    best = replace(tried, cost=cost), lines
    if best is None:
        return False
    _draw(pen, best[0], best[1], color, inked, italic=italic, stroke=stroke or color)
    return True


def _draw(pen: Pen, place: _Try, lines: Sequence[str], color: str, inked: Inked, *, italic: bool, stroke: str) -> None:
    if place.lead is not None:
        pen.line(place.lead, stroke)
        inked.curve(place.lead)
    pen.lines(place.start, lines, color, anchor=place.anchor, bold=not italic, italic=italic)


def _tried(
    at: Point, place: tuple[int, int], reach: float, wide: tuple[float, float], size: float, area: Box
) -> _Try | None:
    """One place at one distance; its cost so far is the way. None outside the area."""
    side, up = place
    way = reach if not (side and up) else reach * 0.75
    x0 = {1: at[0] + way, -1: at[0] - way - wide[0], 0: at[0] - wide[0] / 2}[side]
    y0 = {1: at[1] + way, -1: at[1] - way - wide[1], 0: at[1] - wide[1] / 2}[up]
    x0 = min(max(x0, area.x0), area.x1 - wide[0])  # a place that sticks out moves in
    y0 = min(max(y0, area.y0), area.y1 - wide[1])
    box = Box(x0, y0, x0 + wide[0], y0 + wide[1])
    if not box.inside(area) or box.meets(Box(*at, *at), CLEAR):
        return None
    anchor: Anchor = {1: "start", -1: "end", 0: "middle"}[side]  # type: ignore[assignment]
    x = {1: x0, -1: x0 + wide[0], 0: x0 + wide[0] / 2}[side]
    near = (min(max(at[0], box.x0), box.x1), min(max(at[1], box.y0), box.y1))
    lead = None
    length = math.dist(at, near) or 1.0
    if length > LEAD:
        start = (at[0] + (near[0] - at[0]) * 5 / length, at[1] + (near[1] - at[1]) * 5 / length)
        lead = (start, near)
    return _Try(
        (FAR * length + WIDE * wide[0]) * USUAL / size + LINE * wide[1] / size,
        box,
        (x, y0 + ASCENT * size),
        anchor,
        lead,
    )


def _free(tried: _Try, taken: Sequence[Box]) -> bool:
    """True where neither the words nor the line that leads to them touch other words."""
    if any(tried.box.meets(box, AIR) for box in taken):
        return False
    if tried.lead is None:
        return True
    (ax, ay), (bx, by) = tried.lead
    whole = Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
    near = [box for box in taken if whole.meets(box, 1.0)]
    spots = [(ax + (bx - ax) * n / 8, ay + (by - ay) * n / 8) for n in range(9)] if near else []
    return not any(Box(x, y, x, y).meets(box, 1.0) for x, y in spots for box in near)
