"""What one thing did in several houses, a row a thing: a dot and an interval a house, and all of them together.

All rows stand on one axis, in multiples of what is worth having, better to the right. Below the houses' own lines lies
what they say together as a bar, and as a broken line where the next house would lie.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from reportgen.drawing import ink
from reportgen.drawing.axis import Scale
from reportgen.drawing.houses import diamond
from reportgen.drawing.ink import Mark
from reportgen.drawing.pen import Pen
from reportgen.drawing.trace import polygon
from reportgen.drawing.widths import shorten, width_of, wrap

LOW, HIGH, FARTHEST = -3.0, 4.0, 10.0
MOST_LINES = 12  # houses with a line of their own; more are dots that stand upon one another
LINE = 6.5  # units from one house to the next, where words are 14 high; all grow with the words
USUAL = 14.0
TALLEST = 8


@dataclass(frozen=True, slots=True)
class Dot:
    """One house's own estimate with its interval, in multiples of what is worth having, better is positive."""

    at: float
    low: float
    high: float
    ours: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One thing; `mean` and `next_` are (low, at, high) and (low, high) of all houses together."""

    mark: Mark
    words: str
    note: str  # how many houses, of which kind
    dots: tuple[Dot, ...]
    mean: tuple[float, float, float] | None = None
    next_: tuple[float, float] | None = None
    said: str = ""
    said_next: str = ""
    verdict: str = ""
    ours: str = ""  # the marked house in words


@dataclass(frozen=True, kw_only=True, slots=True)
class Together:
    """All rows."""

    uid: str
    label: str
    description: str
    rows: tuple[Row, ...]
    better: str = "better →"
    worse: str = "← worse"
    none: str = "no effect"
    small: str = "too small to matter"
    times: str = "times what is worth having"
    folded: str = ""


def domain(rows: Sequence[Row]) -> tuple[float, float]:
    """The axis: wide enough for every dot and every bar, not for every house's interval."""
    ends = [end for row in rows for end in (*(row.mean or ()), *(row.next_ or ()), *(dot.at for dot in row.dots))]
    low = min([LOW, *(max(math.floor(end), -FARTHEST) for end in ends)])
    high = max([HIGH, *(min(math.ceil(end), FARTHEST) for end in ends)])
    return low, high


def together_wide(view: Together, width: float = 1040, size: float = 14, kind: str = "wide") -> str:
    """Names at the left, words at the right; the handout takes the same at its own width."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-{kind[0]}")
    low, high = domain(view.rows)
    left, right, indent = width * 0.29, width * 0.31, size * 1.4
    x = Scale(low=low, high=high, start=left + 14, end=width - right - 12)
    top = size * 2.7
    y, spots = top + size * 0.7, list[tuple[_Laid, float, float]]()
    for row in view.rows:
        laid = _laid(row, size, left - indent - 6, right)
        high_ = max(laid.lines * pen.lead, _high(pen, row)) + size * 0.9
        spots.append((laid, y, high_))
        y += high_
    _ground(pen, view, x, top, y)
    for n, (laid, at, high_) in enumerate(spots):
        if n:
            pen.line([(0, at - size * 0.35), (width, at - size * 0.35)], ink.RULE)
        pen.mark((size * 0.45, at + size * 0.75), laid.row.mark)
        base = pen.lines((indent, at + size * 1.1), laid.names, bold=True)
        base = _notes(pen, laid, indent, base)
        base = pen.lines((width - right, at + size * 1.1), laid.said, ink.said(laid.row.mark), bold=True)
        pen.lines((width - right, base), laid.next_, ink.INK2)
        _marks(pen, laid.row, x, at + (high_ - size * 0.9 - _high(pen, laid.row)) / 2)
    return pen.svg(_foot(pen, view, x, y), view.label, view.description, kind)


def together_tall(view: Together, width: float = 360, size: float = 12.5) -> str:
    """For a phone: the words above and below each row's marks, the axis behind the marks alone."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    low, high = domain(view.rows)
    x = Scale(low=low, high=high, start=8.0, end=width - 8.0)
    y = _sides(pen, view, x, size) + size * 0.4
    for row in view.rows:
        laid = _laid(row, size, width - 20, width - 20)
        pen.mark((6, y + size * 0.86), row.mark)
        y = pen.lines((20, y + size * 1.2), laid.names, bold=True)
        y = _notes(pen, laid, 20, y) - size * 0.6
        end = y + _high(pen, row)
        pen.boxes([(x(-1), y, x(1), end)], ink.DUSK)
        pen.line([(x(0), y), (x(0), end)], ink.INK2, 1.2)
        _marks(pen, row, x, y)
        y = pen.lines((20, end + size * 1.1), laid.said, ink.said(row.mark), bold=True)
        y = pen.lines((20, y), laid.next_, ink.INK2) - size * 0.1
    return pen.svg(_foot(pen, view, x, y - size * 0.7), view.label, view.description, "tall")


@dataclass(frozen=True, slots=True)
class _Laid:
    """A row with its words in lines."""

    row: Row
    names: tuple[str, ...]
    notes: tuple[str, ...]
    ours: tuple[str, ...]
    said: tuple[str, ...]
    next_: tuple[str, ...]

    @property
    def lines(self) -> int:
        return max(len(self.names) + len(self.notes) + len(self.ours), len(self.said) + len(self.next_))


def _laid(row: Row, size: float, room: float, told: float) -> _Laid:
    notes = wrap(row.note, size, room, most=3) if row.note else ()
    ours = wrap(row.ours, size, room - size * 1.2, most=3) if row.ours else ()
    said = wrap(row.said, size, told, bold=True, most=3) if row.said else ()
    more = [words for words in (row.said_next, row.verdict) if words]
    next_ = tuple(line for words in more for line in wrap(words, size, told, most=2))
    return _Laid(row, wrap(row.words, size, room, bold=True, most=2), notes, ours, said, next_)


def _notes(pen: Pen, laid: _Laid, left: float, base: float) -> float:
    """How many houses, then the marked one behind its sign."""
    base = pen.lines((left, base), laid.notes, ink.INK2)
    if laid.ours:
        diamond(pen, left + pen.size * 0.4, base - pen.size * 0.34, pen.size * 0.38, ink.INK)
        base = pen.lines((left + pen.size * 1.2, base), laid.ours, ink.INK2)
    return base


def _step(pen: Pen) -> float:
    return LINE * max(pen.size / USUAL, 0.9)


def _high(pen: Pen, row: Row) -> float:
    """Height of a row's marks: its houses, their sum, the next house."""
    step = _step(pen)
    lines = len(row.dots) if len(row.dots) <= MOST_LINES else TALLEST
    return step * (lines + (2.2 if row.mean is not None else 0.0) + (1.6 if row.next_ is not None else 0.0) + 0.6)


def _marks(pen: Pen, row: Row, x: Scale, top: float) -> None:
    """The houses from above, then all together, then the next house."""
    color, step = ink.line(ink.MARK_TOKENS[row.mark]), _step(pen)
    y = top + step * 0.8
    if len(row.dots) <= MOST_LINES:
        for dot in sorted(row.dots, key=lambda d: d.at):
            _house(pen, dot, x, y)
            y += step
    else:
        _pile(pen, row.dots, x, top + step * 0.3)
        y += TALLEST * step
    if row.mean is not None:
        low, at, high = row.mean
        y += step * 0.6
        pen.boxes([(x.held(low), y - step * 0.75, x.held(high), y + step * 0.75)], color, 0.5)
        pen.line([(x.held(at), y - step), (x.held(at), y + step)], color, 2.6)
        y += step * 1.6
    if row.next_ is not None:
        low, high = (x.held(end) for end in row.next_)
        pen.line([(low, y), (high, y)], color, 1.5, "3 3")
        for end in (low, high):
            pen.line([(end, y - step * 0.5), (end, y + step * 0.5)], color, 1.5)


def _house(pen: Pen, dot: Dot, x: Scale, y: float) -> None:
    step = _step(pen)
    pen.line([(x.held(dot.low), y), (x.held(dot.high), y)], ink.EDGE, 1.3)
    for beyond, end, way in ((dot.low < x.low, x.start, -1), (dot.high > x.high, x.end, 1)):
        if beyond:
            pen.path(polygon([(end + way * 4, y), (end, y - 2.6), (end, y + 2.6)]), fill=ink.EDGE)
    if dot.ours:
        diamond(pen, x.held(dot.at), y, step * 0.8, ink.INK)
    else:
        pen.circle((x.held(dot.at), y), step * 0.42, fill=ink.line("neutral"))


def _bins(dots: Sequence[Dot], x: Scale, step: float) -> dict[int, int]:
    """How many houses lie in each bin as wide as a dot; the marked one is drawn by itself."""
    found: dict[int, int] = {}
    for dot in dots:
        if not dot.ours:
            n = math.floor((x.held(dot.at) - x.start) / step)
            found[n] = found.get(n, 0) + 1
    return found


def each(dots: Sequence[Dot], x: Scale, step: float) -> int:
    """How many houses a dot stands for."""
    if len(dots) <= MOST_LINES:
        return 1
    return max(1, math.ceil(max(_bins(dots, x, step).values(), default=1) / TALLEST))


def _pile(pen: Pen, dots: Sequence[Dot], x: Scale, top: float) -> None:
    """Dots upon one another; where a pile would be too tall each stands for several houses."""
    step = _step(pen)
    one, base = each(dots, x, step), top + TALLEST * step
    spots = [
        (x.start + (n + 0.5) * step, base - (k + 0.5) * step)
        for n, many in sorted(_bins(dots, x, step).items())
        for k in range(math.ceil(many / one))
    ]
    pen.dots(spots, step / 2 - 0.5, ink.line("neutral"), 0.8)
    for dot in dots:
        if dot.ours:
            diamond(pen, x.held(dot.at), base - step * 0.8, step * 0.8, ink.INK)


def _ground(pen: Pen, view: Together, x: Scale, top: float, bottom: float) -> None:
    pen.boxes([(x(-1), top, x(1), bottom)], ink.DUSK)
    for n in _ticks(x):
        pen.line([(x(n), top), (x(n), bottom)], ink.RULE)
    pen.line([(x(0), top - 4), (x(0), bottom)], ink.INK2, 1.2)
    pen.text((x(0), pen.size), shorten(view.small, pen.size, x.end - x.start), ink.INK2, anchor="middle", halo=False)
    none = pen.text((x(0), pen.size * 2.25), view.none, anchor="middle", bold=True, halo=False)
    pen.text((none.x1 + 12, pen.size * 2.25), view.better, ink.text("target"), bold=True, halo=False)
    pen.text((none.x0 - 12, pen.size * 2.25), view.worse, ink.text("warm"), anchor="end", bold=True, halo=False)


def _sides(pen: Pen, view: Together, x: Scale, size: float) -> float:
    none = pen.text((x(0), size), view.none, anchor="middle", bold=True, halo=False)
    pen.text((none.x1 + 9, size), view.better, ink.text("target"), bold=True, halo=False)
    if width_of(view.worse, size, bold=True) <= none.x0 - 9:
        pen.text((none.x0 - 9, size), view.worse, ink.text("warm"), anchor="end", bold=True, halo=False)
    half = width_of(f"grey: {view.small}", size) / 2
    at = min(max(x(0), half), pen.width - half)
    pen.text((at, size * 2.4), f"grey: {view.small}", ink.INK2, anchor="middle", halo=False)
    return size * 3.0


def _ticks(x: Scale) -> list[int]:
    step = 1 if x.high - x.low <= 8 else 2 if x.high - x.low <= 14 else 5
    return [n for n in range(math.ceil(x.low), math.floor(x.high) + 1) if n and n % step == 0]


def _foot(pen: Pen, view: Together, x: Scale, bottom: float) -> float:
    """Ticks, what they count, and what the dots of tall piles stand for; gives the picture's height."""
    base = bottom + pen.size * 1.25
    for n in _ticks(x):
        half = width_of(f"{abs(n)}×", pen.size) / 2
        at = min(max(x(n), half), pen.width - half)
        pen.text((at, base), f"{abs(n)}×", ink.INK2, anchor="middle", halo=False)
    room = pen.width if pen.width - (x.end - x.start) < 60 else pen.width * 0.8
    lines = wrap(view.times, pen.size, room, most=3)
    middle = min(max((x.start + x.end) / 2, room / 2), pen.width - room / 2)
    pen.lines((middle, base + pen.size * 1.4), lines, ink.INK2, anchor="middle")
    base += pen.size * 1.4 + (len(lines) - 1) * pen.lead
    many = max((each(row.dots, x, _step(pen)) for row in view.rows), default=1)
    piled = f"A dot stands for up to {many} houses. " if many > 1 else ""
    words = f"{piled}{view.folded}".strip()
    for line in wrap(words, pen.size, pen.width, most=3) if words else ():
        base += pen.lead
        pen.text((0, base), line, ink.INK2)
    return base + pen.size * 0.5


def renamed(view: Together, uid: str) -> Together:
    """The same under another anchor."""
    return replace(view, uid=uid)
