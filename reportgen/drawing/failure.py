"""Air inside some hours after the heat fails, by how cold it is outdoors: doubt bars over the cold that harms crops."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import doubt, ink
from reportgen.drawing.axis import Axis, Scale
from reportgen.drawing.doubt import Doubt
from reportgen.drawing.pen import Pen
from reportgen.drawing.season_tall import across
from reportgen.drawing.widths import shorten, width_of

ROW = 3.1  # ems


@dataclass(frozen=True, kw_only=True, slots=True)
class Cold:
    """One outdoor temperature and where the air would be."""

    words: str
    doubt: Doubt
    said: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Harm:
    """The cold from which crops are harmed, to where they are lost, with their names."""

    low: float
    high: float
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Failure:
    """Rows from mild to cold; never joined by lines, the first hour is the fast one."""

    uid: str
    label: str
    description: str
    rows: tuple[Cold, ...]
    axis: Axis
    harms: tuple[Harm, ...] = ()
    head: str = "Outdoors"
    foot: str = "air inside after eight hours"


def failure(view: Failure, width: float = 500, size: float = 14, kind: str = "wide") -> str:
    """The picture as SVG."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-{kind[0]}")
    left = max(width_of(w, size, bold=True) for w in (view.head, *(row.words for row in view.rows))) + 16
    x = Scale(low=view.axis.low, high=view.axis.high, start=left, end=width - 16)
    lanes = _lanes(pen, view, x)
    top = size * (1.5 + 1.27 * max(1, lanes))
    bottom = top + size * ROW * len(view.rows)
    _harms(pen, view, x, top, bottom)
    for tick in across(view.axis.ticks, x, view.axis.heavy, size):
        frost = tick.at == view.axis.heavy
        pen.line(
            [(x(tick.at), top), (x(tick.at), bottom)], ink.line("cold") if frost else ink.RULE, 1.2 if frost else 1
        )
        color = ink.text("cold") if frost else ink.INK2
        at = (x(tick.at), bottom + size * 1.25)
        pen.text(at, tick.words, color, anchor="middle", bold=frost, halo=False)
    pen.text((0, size), view.head, ink.INK2)
    for n, row in enumerate(view.rows):
        _row(pen, row, x, top + size * ROW * (n + 0.5))
    foot = shorten(view.foot, size, width)
    half = width_of(foot, size) / 2
    at = (min(max((x.start + x.end) / 2, half), width - half), bottom + size * 2.6)
    pen.text(at, foot, ink.INK2, anchor="middle", halo=False)
    return pen.svg(bottom + size * 3.1, view.label, view.description, kind)


def _row(pen: Pen, row: Cold, x: Scale, y: float) -> None:
    base = y + pen.size * 0.35
    pen.text((0, base), row.words, bold=True)
    doubt.draw(pen, row.doubt, x, y, pen.size * 1.05, "cold")
    wide = width_of(row.said, pen.size, bold=True)
    left = x.held(row.doubt.low) - 9
    if left - wide > x.start + 2:
        pen.text((left, base), row.said, ink.text("cold"), anchor="end", bold=True)
    elif x.held(row.doubt.high) + 9 + wide < pen.width:
        pen.text((x.held(row.doubt.high) + 9, base), row.said, ink.text("cold"), bold=True)
    else:
        pen.text((x.held(row.doubt.estimate) + 5, y - pen.size * 0.75), row.said, ink.text("cold"), bold=True)


def _spots(pen: Pen, view: Failure, x: Scale) -> list[tuple[float, str, int]]:
    """Middle, words and lane of each band's name: as few lanes as keep them apart."""
    out: list[tuple[float, str, int]] = []
    ends: list[float] = []
    head = width_of(view.head, pen.size) + 10
    for harm in sorted(view.harms, key=lambda h: h.high + h.low):
        words = shorten(harm.words, pen.size, pen.width - head)
        half = width_of(words, pen.size) / 2
        at = min(max(x.held((harm.low + harm.high) / 2), head + half), pen.width - half)
        lane = next((n for n, end in enumerate(ends) if at - half > end + 8), len(ends))
        ends[lane : lane + 1] = [at + half]
        out.append((at, words, lane))
    return out


def _lanes(pen: Pen, view: Failure, x: Scale) -> int:
    return max((lane + 1 for _, _, lane in _spots(pen, view, x)), default=0)


def _harms(pen: Pen, view: Failure, x: Scale, top: float, bottom: float) -> None:
    for harm in view.harms:
        pen.boxes([(x.held(harm.low), top - 4, x.held(harm.high), bottom)], ink.DUSK)
    for harm in view.harms:
        pen.line([(x.held(harm.high), top - 4), (x.held(harm.high), bottom)], ink.EDGE)
    for at, words, lane in _spots(pen, view, x):
        pen.text((at, pen.size * (1 + 1.27 * lane)), words, ink.INK2, anchor="middle")
