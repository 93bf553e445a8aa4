"""Many houses on one axis, a row a kind: dots that stand upon one another where they would lie over one another.

The rule: the axis is parted into bins as wide as a dot; the houses of a bin stand upon one another; where the tallest
pile would pass `TALLEST`, each dot stands for so many houses that it does not, which is said.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.axis import Axis, Scale
from reportgen.drawing.houses import centred, diamond, shown
from reportgen.drawing.pen import Pen
from reportgen.drawing.widths import shorten, width_of

TALLEST = 9


@dataclass(frozen=True, kw_only=True, slots=True)
class Kind:
    """Houses of one kind; `ours` is the place of the marked one among the values."""

    name: str
    values: tuple[float, ...]
    said: str = ""
    ours: int | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Crowd:
    """All kinds; `band`: half of the width of a usual sensors' band, drawn once with its words."""

    uid: str
    label: str
    description: str
    axis: Axis
    kinds: tuple[Kind, ...]
    token: ink.Token
    heavy_word: str = ""
    band: float | None = None
    band_word: str = ""
    ours_word: str = "your house"


def crowd_wide(view: Crowd, width: float = 1040, size: float = 14) -> str:
    """Names at the left of the rows where there are several."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-w")
    named = max((max(width_of(k.name, size, bold=True), width_of(k.said, size)) for k in view.kinds), default=0.0)
    side = min(named, width * 0.34) if any(k.name for k in view.kinds) else 0.0
    left = side + 24 if side else 12.0
    x = Scale(low=view.axis.low, high=view.axis.high, start=left, end=width - 16)
    return _drawn(pen, view, x, "wide", side, 7.0)


def crowd_tall(view: Crowd, width: float = 360, size: float = 12.5) -> str:
    """For a phone: the names above the rows."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    x = Scale(low=view.axis.low, high=view.axis.high, start=10.0, end=width - 10)
    return _drawn(pen, view, x, "tall", 0.0, 4.5)


def piles(values: Sequence[float], x: Scale, step: float) -> dict[int, int]:
    """How many values fall in each bin of that width, by the bin's number."""
    found: dict[int, int] = {}
    for value in values:
        n = math.floor((x.held(value) - x.start) / step)
        found[n] = found.get(n, 0) + 1
    return found


def _drawn(pen: Pen, view: Crowd, x: Scale, form: str, side: float, r: float) -> str:
    step = 2 * r
    found = [piles(_others(kind), x, step) for kind in view.kinds]
    tallest = max((max(p.values(), default=0) for p in found), default=0)
    one = max(1, math.ceil(tallest / TALLEST))
    top = pen.size * 0.4
    y, rows = top, list[tuple[float, Kind, dict[int, int]]]()
    for kind, pile in zip(view.kinds, found, strict=True):
        if form == "tall" and kind.name:
            pen.text((0, y + pen.size), shorten(kind.name, pen.size, pen.width, bold=True), bold=True)
            y += pen.lead
            if kind.said:
                pen.text((0, y + pen.size), shorten(kind.said, pen.size, pen.width), ink.INK2)
                y += pen.lead
        high = math.ceil(max(pile.values(), default=1) / one) * step
        high += pen.size * 1.5 + step if kind.ours is not None else 0.0
        y += max(high, pen.size * 2.6 if side else step) + 6
        rows.append((y, kind, pile))
        y += 8
    if side:
        _grid(pen, view, x, top, y)
    for base, kind, pile in rows:
        if side:
            _names(pen, kind, base, side)
        else:
            _grid(pen, view, x, base - math.ceil(max(pile.values(), default=1) / one) * step, base)
        _row(pen, view, kind, pile, x, (base, step, one))
    return pen.svg(_foot(pen, view, x, y, one), view.label, view.description, form)


def _others(kind: Kind) -> list[float]:
    return [value for n, value in enumerate(kind.values) if n != kind.ours]


def _names(pen: Pen, kind: Kind, base: float, side: float) -> None:
    pen.text((0, base - pen.lead), shorten(kind.name, pen.size, side, bold=True), bold=True)
    if kind.said:
        pen.text((0, base), shorten(kind.said, pen.size, side), ink.INK2)


def _row(pen: Pen, view: Crowd, kind: Kind, pile: dict[int, int], x: Scale, laid: tuple[float, float, int]) -> None:
    base, step, one = laid
    pen.line([(x.start, base), (x.end, base)], ink.EDGE)
    spots = [
        (x.start + (n + 0.5) * step, base - (k + 0.5) * step)
        for n, many in sorted(pile.items())
        for k in range(math.ceil(many / one))
    ]
    pen.dots(spots, step / 2 - 0.7, ink.line(view.token), 0.85)
    if kind.ours is None:
        return
    at = x.held(kind.values[kind.ours])
    n = math.floor((at - x.start) / step)
    up = base - max((math.ceil(pile.get(m, 0) / one) for m in (n - 1, n, n + 1)), default=0) * step
    diamond(pen, at, up - step * 0.7, step * 0.7, ink.INK)
    half = width_of(view.ours_word, pen.size, bold=True) / 2
    where = min(max(at, x.start + half - 8), pen.width - half)
    pen.text((where, up - step * 1.4 - 4), view.ours_word, anchor="middle", bold=True)


def _grid(pen: Pen, view: Crowd, x: Scale, top: float, bottom: float) -> None:
    for tick in view.axis.ticks:
        pen.line([(x(tick.at), top), (x(tick.at), bottom)], ink.RULE)
    if view.axis.heavy is not None and view.axis.low <= view.axis.heavy <= view.axis.high:
        pen.line([(x(view.axis.heavy), top), (x(view.axis.heavy), bottom)], ink.INK2, 1.4)


def _foot(pen: Pen, view: Crowd, x: Scale, y: float, one: int) -> float:
    base = y + pen.size * 1.1
    shown(pen, view.axis.ticks, x, base, view.axis.heavy)
    if view.heavy_word and view.axis.heavy is not None and view.axis.low <= view.axis.heavy <= view.axis.high:
        base += pen.size * 1.35
        centred(pen, x(view.axis.heavy), base, view.heavy_word, ink.INK2)
    if view.band is not None and view.band_word:
        base += pen.size * 1.6
        wide = abs(x(view.axis.low + 2 * view.band) - x.start)
        pen.boxes([(x.start, base - pen.size * 0.6, x.start + max(wide, 1.0), base - pen.size * 0.1)],
                  ink.line(view.token), 0.35)  # fmt: skip
        words = shorten(view.band_word, pen.size, pen.width - x.start - wide - 8)
        pen.text((x.start + wide + 8, base), words, ink.INK2, halo=False)
    if one > 1:
        base += pen.size * 1.6
        pen.text((x.start, base), f"A dot stands for up to {one} houses.", ink.INK2, halo=False)
    return base + pen.size * 0.5
