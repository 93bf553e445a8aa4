"""How do we know: the nights without a change and with it, at equal weather; the gap of the two lines is the effect."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import ink, trace
from reportgen.drawing.axis import Axis, Scale, fitting
from reportgen.drawing.notes import Inked, write
from reportgen.drawing.pen import DASH, Box, Pen
from reportgen.drawing.trace import Point
from reportgen.drawing.widths import shorten, width_of

WIDTH, SIZE, HEIGHT = 326.0, 13.0, 176.0  # the same for all, so that they compare


@dataclass(frozen=True, kw_only=True, slots=True)
class Pair:
    """Nights as (outdoors, figure), without and with the change; the line of those without and its shift."""

    uid: str
    label: str
    description: str
    without: tuple[Point, ...]
    with_: tuple[Point, ...]
    slope: float
    level: float  # of the line without the change, at x = 0
    effect: float
    mark: ink.Mark
    x: Axis
    y: Axis
    x_words: str
    y_words: str
    names: tuple[str, str]  # before and after, or off and on
    floor: float | None = None  # no line is drawn below: what the figure cannot be under


def shared(view: Pair) -> tuple[float, float]:
    """The weather that both sides had; where they share none, all of it."""
    sides = [[p[0] for p in side] for side in (view.without, view.with_) if side]
    low, high = max(min(s) for s in sides), min(max(s) for s in sides)
    whole = [v for s in sides for v in s]
    return (low, high) if low < high and len(sides) > 1 else (min(whole), max(whole))


def above(ends: tuple[float, float], level: float, slope: float, floor: float | None) -> list[Point]:
    """A line from end to end as its points, along the floor where it would run below."""
    points = [(v, level + slope * v) for v in ends]
    if floor is None or all(value >= floor for _, value in points):
        return points
    if all(value < floor for _, value in points):
        return [(v, floor) for v in ends]
    return sorted([*((v, max(value, floor)) for v, value in points), ((floor - level) / slope, floor)])


def pair(view: Pair) -> str:
    """The picture as SVG, one size for every screen."""
    pen = Pen(width=WIDTH, size=SIZE, uid=view.uid)
    left = max([width_of(tick.words, SIZE) for tick in view.y.ticks], default=20.0) + 8
    top = SIZE * 2.0
    x = Scale(low=view.x.low, high=view.x.high, start=left + 5, end=WIDTH - 8)
    y = Scale(low=view.y.low, high=view.y.high, start=top + HEIGHT, end=top)
    _axes(pen, view, x, y, left)
    token = ink.MARK_TOKENS[view.mark]
    ends = shared(view)
    plain, moved = (
        [(x(v), y(at)) for v, at in above(ends, view.level + effect, view.slope, view.floor)]
        for effect in (0.0, view.effect)
    )
    pen.path(trace.polygon([*plain, *reversed(moved)]), fill=ink.line(token), opacity=0.13)
    pen.line(plain, ink.line("neutral"), 1.6, DASH)
    pen.line(moved, ink.line(token), 2.2)
    pen.rings([(x(a), y(b)) for a, b in view.without], 3, ink.line("neutral"))
    pen.dots([(x(a), y(b)) for a, b in view.with_], 3.2, ink.line(token))
    _names(pen, view, x, y, plain, moved)
    return pen.svg(top + HEIGHT + SIZE * 3.15, view.label, view.description, "one")


def _axes(pen: Pen, view: Pair, x: Scale, y: Scale, left: float) -> None:
    for tick in fitting(view.y.ticks, y, pen.lead):
        if view.y.low <= tick.at <= view.y.high:
            pen.line([(left, y(tick.at)), (WIDTH, y(tick.at))], ink.RULE)
            pen.text((left - 6, y(tick.at) + SIZE * 0.33), tick.words, ink.INK2, anchor="end", halo=False)
    apart = max([width_of(tick.words, SIZE) for tick in view.x.ticks], default=0.0) + 8
    for tick in fitting(view.x.ticks, x, apart):
        if view.x.low <= tick.at <= view.x.high:
            half = width_of(tick.words, SIZE) / 2
            at = min(x(tick.at), WIDTH - half)
            pen.text((at, y.start + SIZE * 1.55), tick.words, ink.INK2, anchor="middle", halo=False)
    pen.text((0, SIZE), shorten(view.y_words, SIZE, WIDTH), ink.INK2, halo=False)
    foot = (WIDTH, y.start + SIZE * 2.85)
    pen.text(foot, shorten(view.x_words, SIZE, WIDTH), ink.INK2, anchor="end", halo=False)


def _names(pen: Pen, view: Pair, x: Scale, y: Scale, plain: list[Point], moved: list[Point]) -> None:
    """Each line's name at the end, or along it, that crosses fewest nights."""
    inked = Inked()
    for line in (plain, moved):
        inked.curve(line)
    for point in (*view.without, *view.with_):
        inked.spot((x(point[0]), y(point[1])), 2)
    area = Box(x.start - 4, y.end - 10, WIDTH, y.start + 4)
    colors = (ink.line("neutral"), ink.said(view.mark) if view.mark != "none" else ink.INK)
    for line, name, color in zip((moved, plain), reversed(view.names), reversed(colors), strict=True):
        (ax, ay), (bx, by) = line[0], line[-1]
        spots = [(ax + (bx - ax) * s, ay + (by - ay) * s) for s in (0.5, 0.2, 0.8, 0.0, 1.0)]
        any(write(pen, spot, name, color, inked, area) for spot in spots)
