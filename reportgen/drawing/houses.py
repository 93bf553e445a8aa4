"""A row a house on one axis: its value as a dot, how far the sensors may be wrong as a bar, and what stands beside it.

The rows come in the order in which they are told. One house may be marked, by its shape and by a word; rows of what
several houses say together stand below the others.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from reportgen.drawing import ink
from reportgen.drawing.apart import apart
from reportgen.drawing.axis import Axis, Scale, Tick
from reportgen.drawing.pen import Pen, isolated
from reportgen.drawing.trace import Point, polygon, polyline
from reportgen.drawing.widths import shorten, width_of

MOST = 40  # rows; more houses are drawn as a crowd
CROWDED = 18  # rows from which they stand closer
NAMES, SAID = 250.0, 330.0  # at most for the names and for the words at the right
AIR = 14.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One house. `beside`: a second value, as a ring; `kind`: all houses together, or where the next would lie."""

    name: str
    value: float | None
    said: str = ""
    more: str = ""  # where there is room
    low: float | None = None
    high: float | None = None
    beside: float | None = None
    ours: bool = False
    kind: Literal["house", "mean", "next"] = "house"


@dataclass(frozen=True, kw_only=True, slots=True)
class Houses:
    """All rows; the words name the dot and the ring once, above them, and the sides of the heavy line."""

    uid: str
    label: str
    description: str
    axis: Axis
    rows: tuple[Row, ...]
    token: ink.Token
    value_word: str = ""
    beside_word: str = ""
    heavy_word: str = ""
    left_word: str = ""
    right_word: str = ""
    ours_word: str = "your house"
    joined: bool = False  # a thin line from the ring to the dot


def houses_wide(view: Houses, width: float = 1040, size: float = 14) -> str:
    """Names at the left, words at the right."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-w")
    named = max((width_of(_name(row, view, NAMES, size), size, bold=_bold(row)) for row in view.rows), default=0.0)
    told = max((width_of(_said(row), size, bold=_bold(row)) for row in view.rows), default=0.0)
    names, said = min(named, NAMES) + 26, min(told, SAID)
    x = Scale(low=view.axis.low, high=view.axis.high, start=names + AIR, end=width - said - 2 * AIR)
    step = size * (1.75 if len(view.rows) <= CROWDED else 1.5)
    top = _head(pen, view, x, size)
    spots, y = [], top + step * 0.6
    for row in view.rows:
        y += step * 0.4 if row.kind == "mean" else 0.0
        spots.append((row, y))
        y += step
    bottom = y - step * 0.4
    _ground(pen, view, x, [(top, bottom)])
    for row, at in spots:
        base, bold = at + size * 0.35, _bold(row)
        pen.text((22, base), _name(row, view, NAMES, size), bold=bold)
        if row.ours:
            diamond(pen, 8, at, size * 0.42, ink.INK)
        pen.text((width, base), shorten(_said(row), size, said + 1, bold=bold), anchor="end", bold=bold)
        _marks(pen, row, view, x, at, size)
    end = _ticks(pen, view, x, bottom)
    return pen.svg(end, view.label, view.description, "wide")


def houses_tall(view: Houses, width: float = 360, size: float = 12.5) -> str:
    """For a phone: the words above each row's marks, the axis behind the marks alone."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    x = Scale(low=view.axis.low, high=view.axis.high, start=8.0, end=width - 8.0)
    y, spots = _head(pen, view, x, size), list[tuple[Row, float]]()
    for row in view.rows:
        y = _tall_words(pen, row, view, y + size * 1.2) + size * 0.85
        spots.append((row, y))
        y += size * 0.8
    _ground(pen, view, x, [(at - size * 0.55, at + size * 0.55) for _, at in spots])
    for row, at in spots:
        _marks(pen, row, view, x, at, size)
    end = _ticks(pen, view, x, y - size * 0.2)
    return pen.svg(end, view.label, view.description, "tall")


def _tall_words(pen: Pen, row: Row, view: Houses, base: float) -> float:
    """The name and what is said, on one line where both fit, else on two; gives the last line's baseline."""
    size, bold = pen.size, _bold(row)
    start = 18.0 if row.ours else 0.0
    if row.ours:
        diamond(pen, 7, base - size * 0.34, size * 0.42, ink.INK)
    said = shorten(row.said, size, pen.width, bold=bold)
    room = pen.width - start - width_of(said, size, bold=bold) - 12
    whole = _name(row, view, pen.width, size)
    two = width_of(whole, size, bold=bold) > room and width_of(said, size, bold=bold) > pen.width * 0.38
    name = _name(row, view, pen.width - start if two else room, size)
    pen.text((start, base), name, bold=bold)
    base += pen.lead if two else 0.0
    if said:
        pen.text((pen.width, base), said, anchor="end", bold=bold)
    return base


def _name(row: Row, view: Houses, room: float, size: float) -> str:
    """The name within its room; the word that marks it is never cut."""
    more = f" – {view.ours_word}" if row.ours else ""
    bold = _bold(row)
    return f"{isolated(shorten(row.name, size, room - width_of(more, size, bold=bold), bold=bold))}{more}"


def _said(row: Row) -> str:
    return f"{row.said}, {row.more}" if row.more else row.said


def _bold(row: Row) -> bool:
    return row.ours or row.kind == "mean"


def _head(pen: Pen, view: Houses, x: Scale, size: float) -> float:
    """What the dot and the ring of the first row are, above them, and the sides of the heavy line; gives where the
    rows begin."""
    y = size
    if view.left_word or view.right_word:
        half = (x.end - x.start) / 2 - 8
        pen.text((x.start, y), shorten(view.left_word, size, half), ink.INK2, halo=False)
        pen.text((x.end, y), shorten(view.right_word, size, half), ink.INK2, anchor="end", halo=False)
        y += size * 1.5
    first = next((row for row in view.rows if row.value is not None), None)
    if first is None or first.beside is None:
        return y - size * 0.6
    told = [
        (first.value, view.value_word, ink.text(view.token), True),
        (first.beside, view.beside_word, ink.INK2, False),
    ]
    known = sorted((x.held(v), words, color, bold) for v, words, color, bold in told if v is not None and words)
    if not known:
        return y
    wide = [width_of(words, size, bold=bold) for _, words, _, bold in known]
    wishes = [at - w / 2 for (at, *_), w in zip(known, wide, strict=True)]
    for left, (_, words, color, bold) in zip(apart(wishes, wide, 0.0, pen.width, 16.0), known, strict=True):
        pen.text((left, y), words, color, bold=bold, halo=False)
    return y + size * 0.6


def _ground(pen: Pen, view: Houses, x: Scale, spans: Sequence[tuple[float, float]]) -> None:
    """Ticks and the heavy line from above to below of every span, each as one mark."""
    ats = [x(tick.at) for tick in view.axis.ticks]
    pen.path(_uprights(ats, spans), stroke=ink.RULE)
    if view.axis.heavy is not None and view.axis.low <= view.axis.heavy <= view.axis.high:
        pen.path(_uprights([x(view.axis.heavy)], spans), stroke=ink.INK2, width=1.4)


def _uprights(ats: Sequence[float], spans: Sequence[tuple[float, float]]) -> str:
    points: list[Point | None] = []
    for at in ats:
        for top, bottom in spans:
            points += [(at, top), (at, bottom), None]
    return polyline(points)


def _marks(pen: Pen, row: Row, view: Houses, x: Scale, y: float, size: float) -> None:
    """The bar, the thin line, the ring and the dot of one row, from below to above."""
    color, r = ink.line(view.token), size * 0.34
    if row.kind == "next":
        _whisker(pen, row, x, y, r)
        return
    if row.low is not None and row.high is not None:
        half = r * (1.25 if row.kind == "mean" else 0.8)
        low, high = x.held(row.low), x.held(row.high)
        pen.boxes([(low, y - half, max(high, low + 0.6), y + half)], color, 0.6 if row.kind == "mean" else 0.3)
        for beyond, end, way in ((row.low < x.low, x.start, -1), (row.high > x.high, x.end, 1)):
            if beyond:
                pen.path(polygon([(end + way * 6, y), (end, y - half), (end, y + half)]), fill=color)
    if view.joined and row.value is not None and row.beside is not None:
        pen.line([(x.held(row.beside), y), (x.held(row.value), y)], ink.EDGE, 1.2)
    if row.beside is not None:
        pen.circle((x.held(row.beside), y), r - 0.6, stroke=ink.line("neutral"), width=1.6)
    if row.value is None:
        return
    at = x.held(row.value)
    if row.kind == "mean":
        pen.line([(at, y - r * 1.9), (at, y + r * 1.9)], color, 2.6)
    elif row.ours:
        diamond(pen, at, y, size * 0.46, color)
    elif x.low <= row.value <= x.high:
        pen.circle((at, y), r, fill=color)


def _whisker(pen: Pen, row: Row, x: Scale, y: float, r: float) -> None:
    if row.low is None or row.high is None:
        return
    low, high = x.held(row.low), x.held(row.high)
    pen.line([(low, y), (high, y)], ink.INK2, 1.4, "3 3")
    for at in (low, high):
        pen.line([(at, y - r), (at, y + r)], ink.INK2, 1.4)


def diamond(pen: Pen, x: float, y: float, r: float, color: str) -> None:
    """The sign of the marked house, told from a dot by its shape."""
    pen.path(polygon([(x, y - r), (x + r, y), (x, y + r), (x - r, y)]), fill=color)


def _ticks(pen: Pen, view: Houses, x: Scale, bottom: float) -> float:
    """Words below the ticks that fit, and the heavy line's word below them; gives the picture's height."""
    base = bottom + pen.size * 1.25
    shown(pen, view.axis.ticks, x, base, view.axis.heavy)
    if not (view.heavy_word and view.axis.heavy is not None and view.axis.low <= view.axis.heavy <= view.axis.high):
        return base + pen.size * 0.4
    centred(pen, x(view.axis.heavy), base + pen.size * 1.35, view.heavy_word, ink.INK2)
    return base + pen.size * 1.75


def centred(pen: Pen, at: float, y: float, words: str, color: str) -> None:
    """Words about a point, moved in where they would reach out of the picture."""
    words = shorten(words, pen.size, pen.width)
    half = width_of(words, pen.size) / 2
    pen.text((min(max(at, half), pen.width - half), y), words, color, anchor="middle", halo=False)


def shown(pen: Pen, ticks: Sequence[Tick], x: Scale, base: float, heavy: float | None) -> None:
    """Tick words, the heavy one first, as many as stand apart."""
    kept: list[tuple[float, float]] = []
    for tick in sorted(ticks, key=lambda t: (t.at != heavy, t.at)):
        half = width_of(tick.words, pen.size, bold=tick.at == heavy) / 2
        at = min(max(x(tick.at), half), pen.width - half)
        if all(abs(at - other) >= half + wide + 8 for other, wide in kept):
            kept.append((at, half))
            pen.text((at, base), tick.words, ink.INK2, anchor="middle", bold=tick.at == heavy, halo=False)
