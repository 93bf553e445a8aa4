"""Which weeks were worth heating: above the line what a week's heat cost, below it what its picking was worth.

Both on one scale of money, so that a week whose lower bar is the longer one paid for its heat; the part of the heat
that no standing crop needed is hatched.
"""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.axis import Division, Scale, Tick, fitting
from reportgen.drawing.pen import Pen
from reportgen.drawing.season_tall import across
from reportgen.drawing.widths import shorten, width_of, wrap

UNIT = 190.0  # height of both sides together, wide
COLUMN = 300.0  # … and width, tall
PALE = 0.4  # heat of which it is not known whether a crop needed it


@dataclass(frozen=True, kw_only=True, slots=True)
class Week:
    """One week: money for heat, the share of it that a crop needed, worth of what was picked; None not known."""

    first: int
    last: int
    heat: float | None
    needed: float | None
    value: float | None
    said: str = ""  # weight picked


@dataclass(frozen=True, kw_only=True, slots=True)
class Weeks:
    """All weeks; words stand beside the two sides, the name first."""

    uid: str
    label: str
    description: str
    days: int
    divisions: tuple[Division, ...]
    weeks: tuple[Week, ...]
    ticks: tuple[Tick, ...]  # of money, from 0
    heat_words: tuple[str, ...]
    needed_word: str
    idle_word: str  # of the hatched part
    value_words: tuple[str, ...]
    dark: tuple[tuple[int, int], ...] = ()


def _most(view: Weeks) -> tuple[float, float]:
    """The greatest of either side, at least a little, so that a side without money still has its words."""
    heat = max((w.heat or 0.0 for w in view.weeks), default=0.0)
    value = max((w.value or 0.0 for w in view.weeks), default=0.0)
    whole = heat + value or 1.0
    return max(heat, whole * 0.22), max(value, whole * 0.22)


def weeks_wide(view: Weeks, width: float = 1040, size: float = 14, right: float = 186) -> str:
    """Time runs across."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-w")
    up, down = _most(view)
    top = size * 0.8
    zero = top + UNIT * up / (up + down)
    amount = Scale(low=0, high=up + down, start=zero, end=zero - UNIT)
    left = max([width_of(t.words, size) for t in view.ticks], default=20.0) + 10
    day = Scale(low=0, high=max(view.days, 8), start=left, end=width - right)
    pen.boxes([(day(a), top - 6, day(b), zero + UNIT * down / (up + down)) for a, b in view.dark], ink.DUSK)
    foot = zero + UNIT * down / (up + down)
    for tick in fitting(view.ticks, amount, pen.lead):
        for side, end in ((1, up), (-1, down)):
            y = amount(side * tick.at)
            if tick.at > end or (tick.at == 0 and side < 0):
                continue
            pen.line([(left, y), (day.end, y)], ink.RULE)
            pen.text((left - 6, y + size * 0.33), tick.words, ink.INK2, anchor="end", halo=False)
    _bars(pen, view, day, amount, down=False)
    pen.line([(left, zero), (day.end, zero)], ink.EDGE, 1.4)
    for week in view.weeks:
        wide = day(week.last) - day(week.first)
        base = amount(-(week.value or 0.0)) + size * 1.1
        if week.value and week.said and width_of(week.said, size) <= wide - 2:
            pen.text(((day(week.first) + day(week.last)) / 2, base), week.said, ink.text("target"), anchor="middle")
    _words(pen, view, day.end + size * 0.9, right - size * 0.9, top, zero)
    base = foot + size * 2.3
    for division in view.divisions:
        x0, x1 = day(division.first), day(division.last)
        for words in (division.name, division.brief):
            if width_of(words, size) <= x1 - x0 - 4:
                pen.text(((x0 + x1) / 2, base), words, ink.INK2, anchor="middle", halo=False)
                break
    return pen.svg(base + 8, view.label, view.description, "wide")


def _bars(pen: Pen, view: Weeks, day: Scale, amount: Scale, *, down: bool) -> None:
    """Heat in its parts on one side of the line, worth on the other."""
    sides: dict[str, list[tuple[float, float, float, float]]] = {"needed": [], "idle": [], "open": [], "value": []}
    for week in view.weeks:
        a, b = day(week.first) + 1, day(week.last) - 1
        heat = week.heat or 0.0
        if week.needed is None:
            parts = [("open", 0.0, heat)]
        else:
            share = min(max(week.needed, 0.0), 1.0)
            parts = [("needed", 0.0, heat * share), ("idle", heat * share, heat)]
        parts.append(("value", 0.0, -(week.value or 0.0)))
        for name, low, high in parts:
            if abs(amount(high) - amount(low)) >= 0.25:
                ends = amount(low), amount(high)
                sides[name].append((ends[0], a, ends[1], b) if down else (a, ends[0], b, ends[1]))
    pen.boxes(sides["needed"], ink.line("warm"))
    pen.boxes(sides["idle"], pen.hatch("warm") if sides["idle"] else "")
    pen.boxes(sides["open"], ink.line("warm"), PALE)
    pen.boxes(sides["value"], ink.line("target"))


def _words(pen: Pen, view: Weeks, x: float, room: float, top: float, zero: float) -> None:
    y = top + pen.size * 0.6
    y = pen.lines((x, y), wrap(view.heat_words[0], pen.size, room, bold=True), ink.text("warm"), bold=True)
    for words in view.heat_words[1:]:
        y = pen.lines((x, y), wrap(words, pen.size, room), ink.INK2)
    for words, fill in ((view.needed_word, ink.line("warm")), (view.idle_word, "")):
        if words:
            pen.boxes([(x, y - pen.size * 0.75, x + pen.size * 0.8, y)], fill or pen.hatch("warm"))
            y = pen.lines((x + pen.size * 1.2, y), wrap(words, pen.size, room - pen.size * 1.2), ink.INK2)
    y = max(y + 4, zero + pen.size * 1.2)
    y = pen.lines((x, y), wrap(view.value_words[0], pen.size, room, bold=True), ink.text("target"), bold=True)
    for words in view.value_words[1:]:
        y = pen.lines((x, y), wrap(words, pen.size, room), ink.INK2)


def weeks_tall(view: Weeks, width: float = 360, size: float = 12.5) -> str:
    """Time runs down: heat to the left of the line, worth to the right."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    up, down = _most(view)
    months = 30.0
    zero = months + 8 + (width - months - 16) * up / (up + down)
    amount = Scale(low=0, high=up + down, start=zero, end=zero - (width - months - 16))
    rows = max(len(view.weeks), 4)
    top = size * 4.4
    day = Scale(low=0, high=max(view.days, 8), start=top, end=top + max(160.0, 11.0 * rows))
    pen.boxes([(0, day(a), width, day(b)) for a, b in view.dark], ink.DUSK)
    pen.text((0, size), shorten(view.heat_words[0], size, width * 0.48, bold=True), ink.text("warm"), bold=True)
    value = shorten(view.value_words[0], size, width * 0.48, bold=True)
    pen.text((width, size), value, ink.text("target"), anchor="end", bold=True)
    x = 0.0
    for words, fill in ((view.needed_word, ink.line("warm")), (view.idle_word, "")):
        if words:
            pen.boxes([(x, size * 1.75, x + size * 0.8, size * 2.5)], fill or pen.hatch("warm"))
            x = pen.text((x + size * 1.1, size * 2.45), shorten(words, size, width / 2 - 16), ink.INK2).x1 + 12
    signed = {side * t.at: t.words for t in view.ticks for side, end in ((1, up), (-1, down)) if t.at <= end}
    ticks = [Tick(at, words) for at, words in sorted(signed.items())]
    for tick in across(ticks, amount, 0.0, size):
        half = width_of(tick.words, size) / 2
        at = min(max(amount(tick.at), half), width - half)
        pen.line([(amount(tick.at), top - 4), (amount(tick.at), day.end)], ink.RULE)
        pen.text((at, top - 8), tick.words, ink.INK2, anchor="middle", halo=False)
    _bars(pen, view, day, amount, down=True)
    pen.line([(zero, top), (zero, day.end)], ink.EDGE, 1.4)
    free = 0.0
    for division in view.divisions:
        y = day(division.first) + size
        if y > free:
            pen.text((1.5, y), shorten(division.brief, size, months + 4), ink.INK2)
            free = y + pen.lead
    return pen.svg(day.end + 8, view.label, view.description, "tall")
