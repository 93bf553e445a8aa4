"""Effects shaded by doubt: a row a change, in multiples of what the grower said would matter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.drawing import doubt, ink
from reportgen.drawing.axis import Scale
from reportgen.drawing.doubt import Doubt
from reportgen.drawing.ink import Mark
from reportgen.drawing.pen import Part, Pen
from reportgen.drawing.trace import Point
from reportgen.drawing.widths import shorten, width_of, wrap

NBSP = "\u00a0"
LOW, HIGH, FARTHEST = -3.0, 6.0, 12.0  # multiples: the axis at least, and at most on either side
MOST_ROWS = 14  # with more, refused rows become one line


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One change: `doubt` in multiples of what matters, positive is better; None with the reason in `refused`."""

    mark: Mark
    words: str
    when: str
    doubt: Doubt | None
    said: str = ""  # the interval in its own unit and words
    brief: str = ""  # the same, short
    verdict: str = ""
    refused: str = ""  # ≤ 6 words


@dataclass(frozen=True, kw_only=True, slots=True)
class Group:
    """Rows of one verdict."""

    title: str
    mark: Mark
    rows: tuple[Row, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Effects:
    """All changes, grouped; `folded` is the line for refused rows where there are more than `most` rows to draw."""

    uid: str
    label: str
    description: str
    groups: tuple[Group, ...]
    folded: str = ""
    most: int = MOST_ROWS
    better: str = "better →"
    worse: str = "← worse"
    none: str = "no effect"
    small: str = "too small to matter"
    small_brief: str = "grey: too small"
    times: str = "times what we said would matter"


def ordered(rows: Sequence[Row]) -> list[Row]:
    """By size, refused ones last."""
    return sorted(rows, key=lambda r: (r.doubt is None, -abs(r.doubt.estimate) if r.doubt else 0.0))


def domain(rows: Sequence[Row]) -> tuple[float, float]:
    """The axis: from −3 to +6, widened to hold every interval, up to ±12."""
    known = [row.doubt for row in rows if row.doubt is not None]
    low = min([LOW, *(max(math.floor(d.low), -FARTHEST) for d in known)])
    high = max([HIGH, *(min(math.ceil(d.high), FARTHEST) for d in known)])
    return low, high


def shown(view: Effects) -> tuple[list[Group], str]:
    """The groups as they are drawn, and the line for what was folded away."""
    groups = [Group(title=g.title, mark=g.mark, rows=tuple(ordered(g.rows))) for g in view.groups if g.rows]
    rows = [row for group in groups for row in group.rows]
    if len(rows) <= view.most or not any(row.doubt is None for row in rows):
        return groups, ""
    kept = [Group(title=g.title, mark=g.mark, rows=tuple(r for r in g.rows if r.doubt is not None)) for g in groups]
    return [group for group in kept if group.rows], view.folded


def effects_wide(view: Effects, width: float = 1040, size: float = 14) -> str:
    """The picture across the page."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-w")
    groups, folded = shown(view)
    rows = [row for group in groups for row in group.rows]
    low, high = domain(rows)
    x = Scale(low=low, high=high, start=386.0, end=width - 310.0)
    top = size * 2.7
    y, heads, spots = top + size * 0.9, list[tuple[Group, float]](), list[tuple[_Laid, float]]()
    for n, group in enumerate(groups):
        y += size * 1.1 if n else 0
        heads.append((group, y + size * 0.5))
        y += size * 2.0
        for row in group.rows:
            laid = _laid(pen, row, x)
            high_ = size * (2.9 if max(len(laid.names), len(laid.said)) > 1 else 2.25)
            spots.append((laid, y + high_ / 2 - size * 0.45))
            y += high_
    bottom = y - size * 0.5
    _ground(pen, view, x, top, bottom)
    for group, at in heads:
        pen.text((0, at), group.title, ink.said(group.mark), bold=True)
        pen.line([(0, at + 7), (width, at + 7)], ink.RULE)
    for laid, at in spots:
        _row(pen, laid, x, at)
    end = bottom + size * 1.9
    if folded:
        end += size * 1.6
        pen.text((0, end - 4), shorten(folded, size, width), ink.INK2)
    return pen.svg(end, view.label, view.description, "wide")


@dataclass(frozen=True, slots=True)
class _Laid:
    """A row with its words in lines."""

    row: Row
    names: tuple[str, ...]
    said: tuple[str, ...]
    bold: bool


def _laid(pen: Pen, row: Row, x: Scale) -> _Laid:
    room = x.start - 44 - width_of(row.when, pen.size) - 22
    names = wrap(row.words, pen.size, room, most=2)
    bold = row.mark in ("helped", "opposite") and row.doubt is not None
    words = row.said if row.doubt is not None else row.refused
    return _Laid(row, names, wrap(words, pen.size, pen.width - x.end - 20, bold=bold, most=2), bold)


def _row(pen: Pen, laid: _Laid, x: Scale, y: float) -> None:
    row, base = laid.row, y + pen.size * 0.34
    pen.mark((6, y), row.mark)
    _middled(pen, (22, base), laid.names, ink.INK)
    pen.text((x.start - 20, base), row.when, ink.INK2, anchor="end")
    if row.doubt is None:
        pen.line([(x.start, y), (x.end, y)], ink.EDGE, dash="2 4")
    else:
        doubt.draw(pen, row.doubt, x, y, pen.size * 0.93, ink.MARK_TOKENS[row.mark])
    color = ink.INK if row.doubt is not None else ink.INK2
    _middled(pen, (x.end + 20, base), laid.said, color, bold=laid.bold)


def _middled(pen: Pen, at: Point, lines: Sequence[str], color: str, *, bold: bool = False) -> None:
    """Lines about the middle of a row."""
    pen.lines((at[0], at[1] - (len(lines) - 1) / 2 * pen.lead), lines, color, bold=bold)


def _ground(pen: Pen, view: Effects, x: Scale, top: float, bottom: float) -> None:
    """The grey that is too small to matter, the zero line, ticks with their words above and below."""
    pen.boxes([(x(-1), top, x(1), bottom)], ink.DUSK)
    step = 2 if x.high - x.low <= 12 else 4
    ticks = [n for n in range(math.ceil(x.low), math.floor(x.high) + 1) if n and n % step == 0]
    for n in ticks:
        pen.line([(x(n), top), (x(n), bottom)], ink.RULE)
    pen.line([(x(0), top - 4), (x(0), bottom)], ink.INK2, 1.2)
    pen.text((x(0), pen.size), view.small, ink.INK2, anchor="middle", halo=False)
    none = pen.text((x(0), pen.size * 2.25), view.none, anchor="middle", bold=True, halo=False)
    pen.text((none.x1 + 14, pen.size * 2.25), view.better, ink.text("target"), bold=True, halo=False)
    pen.text((none.x0 - 14, pen.size * 2.25), view.worse, ink.text("warm"), anchor="end", bold=True, halo=False)
    base = bottom + pen.size * 1.25
    for n in ticks:
        pen.text((x(n), base), f"{abs(n)}×", ink.INK2, anchor="middle", halo=False)
    left = x(ticks[0] if ticks else 0) - pen.size * 1.2
    pen.text((left, base), shorten(view.times, pen.size, left), ink.INK2, anchor="end", halo=False)


def effects_flat(view: Effects, most: int = 8, width: float = 760, size: float = 12.5) -> str:
    """For the handout: no groups, no refused rows, the verdict beside each interval."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-f")
    rows = [row for group in view.groups for row in ordered(group.rows) if row.doubt is not None][:most]
    low, high = domain(rows)
    x = Scale(low=low, high=high, start=302.0, end=width - 262.0)
    top = size * 2.7
    y, spots = top + 3, list[tuple[_Flat, float]]()
    for row in rows:
        laid = _flat(pen, row, x)
        high_ = size * (2.65 if max(len(laid.names), len(laid.said)) > 1 else 1.7)
        spots.append((laid, y + high_ / 2))
        y += high_
    bottom = y + 3
    _ground(pen, view, x, top, bottom)
    for laid, at in spots:
        _flat_row(pen, laid, x, at)
    return pen.svg(bottom + size * 1.9, view.label, view.description, "flat")


@dataclass(frozen=True, slots=True)
class _Flat:
    """A row of the flat form: its names, and its interval with the verdict on the last line."""

    row: Row
    names: tuple[str, ...]
    said: tuple[tuple[Part, ...], ...]


def _flat(pen: Pen, row: Row, x: Scale) -> _Flat:
    names = wrap(row.words, pen.size, x.start - 40 - width_of(row.when, pen.size) - 18, most=2)
    room = pen.width - x.end - 14
    verdict = Part(f"{NBSP}–{NBSP}{row.verdict}" if row.verdict else "", ink.said(row.mark), True)
    brief = row.brief or row.said
    if width_of(brief, pen.size) + width_of(verdict.words, pen.size, bold=True) <= room:
        return _Flat(row, names, ((Part(brief), verdict),))
    below = Part(verdict.words.lstrip(f"{NBSP}–"), verdict.color, True)
    return _Flat(row, names, ((Part(shorten(brief, pen.size, room)),), (below,)))


def _flat_row(pen: Pen, laid: _Flat, x: Scale, y: float) -> None:
    row, base = laid.row, y + pen.size * 0.34
    assert row.doubt is not None
    pen.mark((6, y), row.mark)
    _middled(pen, (20, base), laid.names, ink.INK)
    pen.text((x.start - 18, base), row.when, ink.INK2, anchor="end")
    doubt.draw(pen, row.doubt, x, y, pen.size * 0.9, ink.MARK_TOKENS[row.mark])
    for n, parts in enumerate(laid.said):
        pen.rich((x.end + 14, base + (n - (len(laid.said) - 1) / 2) * pen.lead), parts)


def effects_tall(view: Effects, width: float = 360, size: float = 12.5) -> str:
    """For a phone: the words above each bar, the interval below it."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    groups, folded = shown(view)
    low, high = domain([row for group in groups for row in group.rows])
    x = Scale(low=low, high=high, start=6.0, end=width - 6.0)
    _tall_head(pen, view, x)
    y = size * 3.0
    for group in groups:
        y += size * 1.2
        pen.text((0, y), group.title, ink.said(group.mark), bold=True)
        y += size * 1.7
        for row in group.rows:
            y = _tall_row(pen, row, x, y)
    for line in wrap(folded, size, width) if folded else ():
        pen.text((0, y), line, ink.INK2)
        y += pen.lead
    return pen.svg(y - size * 0.6, view.label, view.description, "tall")


def _tall_head(pen: Pen, view: Effects, x: Scale) -> None:
    none = pen.text((x(0), pen.size), view.none, anchor="middle", bold=True, halo=False)
    pen.text((none.x1 + 9, pen.size), view.better, ink.text("target"), bold=True, halo=False)
    if width_of(view.worse, pen.size, bold=True) <= none.x0 - 9:
        pen.text((none.x0 - 9, pen.size), view.worse, ink.text("warm"), anchor="end", bold=True, halo=False)
    half = width_of(view.small_brief, pen.size) / 2
    pen.text((max(x(0), half), pen.size * 2.3), view.small_brief, ink.INK2, anchor="middle", halo=False)


def _tall_row(pen: Pen, row: Row, x: Scale, y: float) -> float:
    """Gives where the next row begins."""
    pen.mark((6, y - pen.size * 0.34), row.mark)
    y = pen.lines((18, y), wrap(f"{row.words}, {row.when}" if row.when else row.words, pen.size, pen.width - 18))
    if row.doubt is None:
        return pen.lines((18, y), wrap(row.refused, pen.size, pen.width - 18, most=2), ink.INK2) + pen.size * 0.7
    middle = y + 1
    pen.boxes([(x(-1), middle - 11, x(1), middle + 11)], ink.DUSK)
    pen.line([(x(0), middle - 11), (x(0), middle + 11)], ink.INK2, 1.2)
    doubt.draw(pen, row.doubt, x, middle, 12, ink.MARK_TOKENS[row.mark])
    bold = row.mark in ("helped", "opposite")
    rows = wrap(row.said, pen.size, pen.width - 18, bold=bold, most=2)
    return pen.lines((18, middle + 11 + pen.size * 1.1), rows, bold=bold) + pen.size * 0.8
