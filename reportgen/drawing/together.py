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
LINE = 6.5  # units from one house to the next
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
    left, right = width * 0.29, width * 0.31
    x = Scale(low=low, high=high, start=left + 14, end=width - right - 10)
    top = size * 2.7
    y, spots = top + size * 0.7, list[tuple[_Laid, float, float]]()
    for row in view.rows:
        laid = _laid(row, size, left - 26, right - 12)
        high_ = max(laid.lines * pen.lead, _lines_high(row) + 24) + size * 0.8
        spots.append((laid, y, high_))
        y += high_
    bottom = y
    _ground(pen, view, x, top, bottom)
    for n, (laid, at, high_) in enumerate(spots):
        if n:
            pen.line([(0, at - size * 0.3), (width, at - size * 0.3)], ink.RULE)
        pen.mark((6, at + size * 0.75), laid.row.mark)
        base = _written(pen, (20, at + size * 1.1), laid.names, ink.INK, True)
        _written(pen, (20, base), laid.notes, ink.INK2, False)
        base = _written(pen, (width - right, at + size * 1.1), laid.said, ink.said(laid.row.mark), True)
        _written(pen, (width - right, base), laid.next_, ink.INK2, False)
        _marks(pen, laid.row, x, at + (high_ - size * 0.8 - _lines_high(laid.row) - 24) / 2 + 4)
    return pen.svg(_foot(pen, view, x, bottom), view.label, view.description, kind)


def together_tall(view: Together, width: float = 360, size: float = 12.5) -> str:
    """For a phone: the words above and below each row's marks."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    low, high = domain(view.rows)
    x = Scale(low=low, high=high, start=8.0, end=width - 8.0)
    y = _sides(pen, view, x, size) + size * 0.4
    top, marks = y, list[tuple[Row, float]]()
    for row in view.rows:
        laid = _laid(row, size, width - 20, width - 20)
        pen.mark((6, y + size * 0.86), row.mark)
        y = _written(pen, (20, y + size * 1.2), laid.names, ink.INK, True)
        y = _written(pen, (20, y), laid.notes, ink.INK2, False) - size * 0.6
        marks.append((row, y))
        y += _lines_high(row) + 24 + size
        y = _written(pen, (20, y), laid.said, ink.said(row.mark), True)
        y = _written(pen, (20, y), laid.next_, ink.INK2, False) - size * 0.2
    pen.line([(x(0), top), (x(0), y)], ink.INK2, 1.0)
    for row, at in marks:
        pen.boxes([(x(-1), at, x(1), at + _lines_high(row) + 24)], ink.DUSK)
    pen.line([(x(0), top), (x(0), y)], ink.EDGE, 1.0)
    for row, at in marks:
        _marks(pen, row, x, at)
    return pen.svg(_foot(pen, view, x, y), view.label, view.description, "tall")


@dataclass(frozen=True, slots=True)
class _Laid:
    """A row with its words in lines."""

    row: Row
    names: tuple[str, ...]
    notes: tuple[str, ...]
    said: tuple[str, ...]
    next_: tuple[str, ...]

    @property
    def lines(self) -> int:
        return max(len(self.names) + len(self.notes), len(self.said) + len(self.next_))


def _laid(row: Row, size: float, room: float, told: float) -> _Laid:
    notes = wrap(row.note, size, room, most=2) if row.note else ()
    if row.ours:
        notes = (*notes, *wrap(f"◆ {row.ours}", size, room, most=2))
    said = wrap(row.said, size, told, bold=True, most=3) if row.said else ()
    more = [words for words in (row.said_next, row.verdict) if words]
    next_ = tuple(line for words in more for line in wrap(words, size, told, most=2))
    return _Laid(row, wrap(row.words, size, room, bold=True, most=2), notes, said, next_)


def _written(pen: Pen, at: tuple[float, float], lines: Sequence[str], color: str, bold: bool) -> float:
    return pen.lines(at, lines, color, bold=bold)


def _lines_high(row: Row) -> float:
    if len(row.dots) <= MOST_LINES:
        return len(row.dots) * LINE + 2
    return TALLEST * LINE + 2


def _marks(pen: Pen, row: Row, x: Scale, top: float) -> None:
    """The houses from above, then all together, then the next house."""
    token = ink.MARK_TOKENS[row.mark]
    color = ink.line(token)
    y = top + LINE / 2
    if len(row.dots) <= MOST_LINES:
        for dot in sorted(row.dots, key=lambda d: d.at):
            _house(pen, dot, x, y)
            y += LINE
    else:
        _pile(pen, row.dots, x, top)
        y = top + TALLEST * LINE + LINE / 2
    if row.mean is not None:
        low, at, high = row.mean
        y += 5
        pen.boxes([(x.held(low), y - 5, x.held(high), y + 5)], color, 0.5)
        pen.line([(x.held(at), y - 7), (x.held(at), y + 7)], color, 2.6)
    if row.next_ is not None:
        y += 11
        low, high = (x.held(end) for end in row.next_)
        pen.line([(low, y), (high, y)], color, 1.5, "3 3")
        for end in (low, high):
            pen.line([(end, y - 3.5), (end, y + 3.5)], color, 1.5)


def _house(pen: Pen, dot: Dot, x: Scale, y: float) -> None:
    grey = ink.line("neutral")
    pen.line([(x.held(dot.low), y), (x.held(dot.high), y)], ink.EDGE, 1.3)
    for beyond, end, way in ((dot.low < x.low, x.start, -1), (dot.high > x.high, x.end, 1)):
        if beyond:
            pen.path(polygon([(end + way * 4, y), (end, y - 2.6), (end, y + 2.6)]), fill=ink.EDGE)
    if dot.ours:
        diamond(pen, x.held(dot.at), y, 5.2, ink.INK)
    else:
        pen.circle((x.held(dot.at), y), 2.7, fill=grey)


def _pile(pen: Pen, dots: Sequence[Dot], x: Scale, top: float) -> None:
    """Dots upon one another; where a pile is too tall each stands for several houses."""
    bins: dict[int, int] = {}
    for dot in dots:
        if not dot.ours:
            n = math.floor((x.held(dot.at) - x.start) / LINE)
            bins[n] = bins.get(n, 0) + 1
    one = each(dots, x)
    base = top + TALLEST * LINE
    spots = [
        (x.start + (n + 0.5) * LINE, base - (k + 0.5) * LINE)
        for n, many in sorted(bins.items())
        for k in range(math.ceil(many / one))
    ]
    pen.dots(spots, LINE / 2 - 0.5, ink.line("neutral"), 0.8)
    for dot in dots:
        if dot.ours:
            diamond(pen, x.held(dot.at), base - 4, 5.2, ink.INK)


def each(dots: Sequence[Dot], x: Scale) -> int:
    """How many houses a dot stands for."""
    bins: dict[int, int] = {}
    for dot in dots:
        n = math.floor((x.held(dot.at) - x.start) / LINE)
        bins[n] = bins.get(n, 0) + 1
    return max(1, math.ceil(max(bins.values(), default=1) / TALLEST)) if len(dots) > MOST_LINES else 1


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
    base = bottom + pen.size * 1.25
    for n in _ticks(x):
        pen.text((x(n), base), f"{abs(n)}×", ink.INK2, anchor="middle", halo=False)
    base += pen.size * 1.4
    words = shorten(view.times, pen.size, pen.width)
    half = width_of(words, pen.size) / 2
    pen.text((min(max((x.start + x.end) / 2, half), pen.width - half), base), words, ink.INK2, anchor="middle",
             halo=False)  # fmt: skip
    for line in wrap(_counted(view, x), pen.size, pen.width, most=3) if _counted(view, x) else ():
        base += pen.lead
        pen.text((0, base), line, ink.INK2)
    return base + pen.size * 0.5


def _counted(view: Together, x: Scale) -> str:
    many = max((each(row.dots, x) for row in view.rows), default=1)
    piled = f"In the tallest piles a dot stands for up to {many} houses. " if many > 1 else ""
    return f"{piled}{view.folded}".strip()


def renamed(view: Together, uid: str) -> Together:
    """The same under another anchor."""
    return replace(view, uid=uid)
