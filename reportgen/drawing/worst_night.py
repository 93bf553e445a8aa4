"""The worst night hour by hour: every crop logger, outdoors, and what the heater gave."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import ink, trace
from reportgen.drawing.apart import apart
from reportgen.drawing.axis import Axis, Scale, Tick
from reportgen.drawing.ink import Token
from reportgen.drawing.notes import Inked, Note, write
from reportgen.drawing.pen import Box, Pen
from reportgen.drawing.season_tall import across
from reportgen.drawing.season_wide import degrees, tick_room
from reportgen.drawing.trace import Point
from reportgen.drawing.widths import shorten, width_of

HEIGHT, HEATER = 220.0, 36.0
MOST_NAMED = 5  # loggers


@dataclass(frozen=True, kw_only=True, slots=True)
class Track:
    """One logger: (hour, temperature) in order, None where it wrote nothing."""

    name: str
    token: Token
    points: tuple[Point | None, ...]
    weight: float = 1.8


@dataclass(frozen=True, kw_only=True, slots=True)
class WorstNight:
    """Hours from `first` to `last`; `heat` are (hour, hour, power) of what the heater gave; notes' day is an hour."""

    uid: str
    label: str
    description: str
    first: float
    last: float
    hours: tuple[Tick, ...]
    axis: Axis
    tracks: tuple[Track, ...]  # the coldest first
    notes: tuple[Note, ...] = ()
    heat: tuple[tuple[float, float, float], ...] = ()
    heat_word: str = "heater"
    still: tuple[float, float] | None = None  # without heat
    still_word: str = ""


def worst_night(view: WorstNight, width: float = 500, size: float = 14, kind: str = "wide") -> str:
    """The picture as SVG."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-{kind[0]}")
    named = [*(track.name for track in view.tracks[:MOST_NAMED]), *([view.heat_word] if view.heat else [])]
    room = min(max(width_of(name, size, bold=True) for name in named) + 8, width * 0.3)
    x = Scale(low=view.first, high=view.last, start=tick_room(view.axis, size), end=width - room)
    top = size * 1.6
    y = Scale(low=view.axis.low, high=view.axis.high, start=top + HEIGHT, end=top)
    foot = y.start + (12 + HEATER if view.heat else 0)
    if view.still is not None:
        a, b = (x.held(v) for v in view.still)
        pen.boxes([(a, top - 8, b, foot)], ink.DUSK)
    degrees(pen, view.axis, y, x.start, x.end)
    inked = _tracks(pen, view, x, y)
    _still(pen, view, x, top)
    area = Box(x.start + 2, top - 6, x.end, y.start + 2)
    for note in view.notes:
        at = (x(note.day), y(note.value))
        words = note.words if kind == "wide" else note.brief or note.words
        write(pen, at, words, ink.text(note.token), inked, area, stroke=ink.line(note.token))
    _heater(pen, view, x, foot)
    for tick in across(view.hours, x, None, size):
        pen.text((x(tick.at), foot + size * 1.55), tick.words, ink.INK2, anchor="middle", halo=False)
    return pen.svg(foot + size * 2.1, view.label, view.description, kind)


def _tracks(pen: Pen, view: WorstNight, x: Scale, y: Scale) -> Inked:
    inked = Inked()
    ends: list[tuple[float, Track]] = []
    for track in reversed(view.tracks):
        points = [None if p is None else (x(p[0]), y(p[1])) for p in track.points]
        pen.path(trace.polyline(points), stroke=ink.line(track.token), width=track.weight, round_=True)
        inked.curve(points)
        known = [p for p in points if p is not None]
        if known:
            ends.append((known[-1][1], track))
    kept = {track.name for track in view.tracks[:MOST_NAMED]}
    ends = sorted((e for e in ends if e[1].name in kept), key=lambda e: e[0])
    tops = apart([at - pen.lead / 2 for at, _ in ends], [pen.lead] * len(ends), y.end - 8, y.start + pen.lead)
    for (_, track), at in zip(ends, tops, strict=True):
        words = shorten(track.name, pen.size, pen.width - x.end - 6, bold=True)
        pen.text((x.end + 6, at + pen.lead * 0.77), words, ink.text(track.token), bold=True)
    for note in view.notes:
        if note.ring:
            pen.circle((x(note.day), y(note.value)), 4, stroke=ink.line(note.token))
            inked.spot((x(note.day), y(note.value)))
    return inked


def _still(pen: Pen, view: WorstNight, x: Scale, top: float) -> None:
    if view.still is None or not view.still_word:
        return
    a, b = (x.held(v) for v in view.still)
    words = shorten(view.still_word, pen.size, x.end - x.start, bold=True)
    half = width_of(words, pen.size, bold=True) / 2
    at = min(max((a + b) / 2, x.start + half), x.end - half)
    pen.text((at, top - 8 + pen.size), words, anchor="middle", bold=True, halo=False)


def _heater(pen: Pen, view: WorstNight, x: Scale, foot: float) -> None:
    if not view.heat:
        return
    most = max(power for _, _, power in view.heat) or 1.0
    boxes = [
        (x.held(a) + 1, foot - power / most * HEATER, x.held(b) - 1, foot) for a, b, power in view.heat if power > 0
    ]
    pen.boxes([box for box in boxes if box[2] > box[0]], ink.line("warm"))
    pen.line([(x.start, foot), (x.end, foot)], ink.EDGE)
    words = shorten(view.heat_word, pen.size, pen.width - x.end - 6, bold=True)
    pen.text((x.end + 6, foot - 2), words, ink.text("warm"), bold=True)
