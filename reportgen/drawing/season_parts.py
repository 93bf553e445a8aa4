"""The bands of the season picture, drawn alike with time running across or down."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from reportgen.drawing import ink, trace
from reportgen.drawing.notes import Inked
from reportgen.drawing.pen import Pen
from reportgen.drawing.season_types import Damp, Nights, Stacked
from reportgen.drawing.trace import Point

At = Callable[[float, float], Point]  # day and value to a place
SHADES = (0.1, 0.34, 0.62, 1.0)  # of damp, from dry to dripping
GAP = 1.0  # of paper on either side of a bar


def middle(values: Sequence[float | None], at: At) -> list[Point | None]:
    """A line through the middle of each day."""
    return [None if v is None else at(n + 0.5, v) for n, v in enumerate(values)]


def draw_nights(pen: Pen, nights: Nights, at: At, inked: Inked, weight: float = 2.2) -> None:
    """Both lines, the gap between them shaded, rings on the nights below the line."""
    inside, outdoors = middle(nights.inside, at), middle(nights.outdoors, at)
    pen.path(_between(inside, outdoors), fill=ink.LIFT)
    pen.path(trace.polyline(outdoors), stroke=ink.line("neutral"), width=1.1, round_=True)
    pen.path(trace.polyline(inside), stroke=ink.line("cold"), width=weight, round_=True)
    inked.curve(inside)
    inked.curve(outdoors)
    for day, value in nights.rings:
        pen.circle(at(day + 0.5, value), 3.4, stroke=ink.line("cold"))
        inked.spot(at(day + 0.5, value))
    for note in nights.notes:
        if note.ring and (note.day, note.value) not in nights.rings:
            pen.circle(at(note.day + 0.5, note.value), 3.4, stroke=ink.line(note.token))
            inked.spot(at(note.day + 0.5, note.value))


def _between(one: Sequence[Point | None], other: Sequence[Point | None]) -> str:
    """Outlines of the gap wherever both lines are known."""
    pairs = [(a, b) if a is not None and b is not None else None for a, b in zip(one, other, strict=False)]
    out, run = "", list[tuple[Point, Point]]()
    for pair in [*pairs, None]:
        if pair is not None:
            run.append(pair)
            continue
        if len(run) > 1:
            out += trace.polygon([a for a, _ in run] + [b for _, b in reversed(run)])
        run = []
    return out


def draw_damp(pen: Pen, damp: Damp, box: Callable[[float, float], tuple[float, float, float, float]]) -> None:
    """Runs of days of one class, a mark a class."""
    for klass, shade in enumerate(SHADES):
        pen.boxes([box(a, b) for a, b in _stretches(damp.classes, klass)], ink.line("humid"), shade)


def _stretches(classes: Sequence[int | None], klass: int) -> list[tuple[int, int]]:
    out: list[tuple[int, int]] = []
    for n, one in enumerate(classes):
        if one != klass:
            continue
        if out and out[-1][1] == n:
            out[-1] = (out[-1][0], n + 1)
        else:
            out.append((n, n + 1))
    return out


def draw_stacked(
    pen: Pen, stacked: Stacked, day: Callable[[float], float], amount: Callable[[float], float], *, down: bool
) -> list[list[tuple[float, float, float, float]]]:
    """Stacked bars, a mark a source; gives the boxes of each source. `down`: time runs down."""
    boxes: list[list[tuple[float, float, float, float]]] = [[] for _ in stacked.sources]
    for bar in stacked.bars:
        total = 0.0
        a, b = day(bar.first), day(bar.last)
        gap = min(GAP, (b - a) / 6)
        for n, part in enumerate(bar.parts):
            ends = amount(total), amount(total + part)
            total += part
            if abs(ends[1] - ends[0]) < 0.25:
                continue
            boxes[n].append((ends[0], a + gap, ends[1], b - gap) if down else (a + gap, ends[1], b - gap, ends[0]))
    for source, found in zip(stacked.sources, boxes, strict=True):
        pen.boxes(found, pen.hatch(source.token) if source.hatched and found else ink.line(source.token))
    return boxes
