"""What any chart may carry besides its data: change lines, gaps, levels, bands, rings; and how they are drawn."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import pandas as pd

from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.place import broken, clusters, days, lanes, shorten, spread, tick_words, time_ticks, wrap
from reportgen.readings.types import Readings
from reportgen.wording import NBSP, day

LANE = 14.0  # height of one line of words above the plot
MOST_LANES = 3
End = tuple[float, str, str, bool]  # y in plot units, words, token, bold
BETWEEN = 4.0  # air between two labels at the lines' ends, so that they read as two


UNIT = re.compile(r"(?<=\d) (?=°[CF]|%|(?:kWh|W|h|cm|m)\b)")  # the plain space that a grower types before a unit


@dataclass(frozen=True, slots=True)
class Mark:
    """A dated change: a dotted line, its label above the plot."""

    when: Any
    label: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Gap:
    """A stretch without readings, named in the plot."""

    start: Any
    end: Any
    label: str = "no readings"


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """A horizontal reference line, labelled at its end."""

    value: float
    label: str
    token: str = "neutral"


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """A horizontal band ("what the crop likes"), labelled at its end."""

    low: float
    high: float
    label: str
    token: str = "target"


@dataclass(frozen=True, kw_only=True, slots=True)
class Ring:
    """An extreme: ringed and labelled, above the point or below it."""

    x: Any
    y: float
    label: str
    token: str = "cold"
    below: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Dots:
    """Marks of one group: a frame with columns `x` and `y`."""

    frame: pd.DataFrame
    token: str
    label: str = ""
    shape: str = "circle"  # circle | square | triangle-up | diamond | cross
    area: float = 14


@dataclass(frozen=True, kw_only=True, slots=True)
class Fit:
    """A fitted line: a frame with columns `x`, `y` and, for its band, `low`, `high`."""

    frame: pd.DataFrame
    token: str
    label: str = ""
    style: str = "solid"


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """Options common to all charts; numbers and units as shown."""

    unit: str = ""
    marks: tuple[Mark, ...] = ()
    gaps: tuple[Gap, ...] = ()
    levels: tuple[Level, ...] = ()
    spans: tuple[Span, ...] = ()
    rings: tuple[Ring, ...] = ()
    height: int | None = None
    domain: tuple[float, float] | None = None  # of y; else round values around the data
    x_domain: tuple[Any, Any] | None = None  # else the data's own; give the season's for the same x on every chart
    zero: bool = False  # y reaches zero
    x_title: str = ""  # of an x axis of numbers, with its unit
    plus: bool = False  # ticks carry their sign (differences)


# What a diary line must touch to be marked on a chart of that subject; one that does not say what is marked on all.
TOUCHES: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "cold": frozenset({"envelope", "thermostat", "heater"}),
        "damp": frozenset({"air", "water", "envelope", "heater"}),
        "bed": frozenset({"bed", "water"}),
        "light": frozenset({"light", "envelope"}),
    }
)


def change_marks(readings: Readings, subject: str = "any") -> tuple[Mark, ...]:
    """The diary's changes and spells that touch the chart's subject, as dotted lines; those of one day share one."""
    entries: dict[Any, list[str]] = {}
    for entry in readings.diary:
        inside = readings.season.first_day <= entry.date <= readings.season.last_day
        meant = not entry.touches or subject == "any" or TOUCHES[subject] & set(entry.touches)
        if entry.kind in ("change", "spell") and inside and meant:
            entries.setdefault(entry.date, []).append(entry.what)
    return tuple(Mark(when, "; ".join(dict.fromkeys(what))) for when, what in sorted(entries.items()))


def listed(marks: Iterable[Mark]) -> list[str]:
    """The change lines in words, in the order of their numbers."""
    ordered = sorted(marks, key=lambda mark: float(days(mark.when)))
    return [f"{UNIT.sub(NBSP, mark.label)}, {day(mark.when)}" for mark in ordered]


def draw_behind(canvas: Canvas, look: Look) -> None:
    """Bands and gaps, drawn before the data."""
    low, high = canvas.y_domain
    for span in look.spans:
        top, bottom = canvas.py(min(span.high, high)), canvas.py(max(span.low, low))
        if bottom > top:
            canvas.rects([(0, top, canvas.size.plot, bottom)], theme.line(span.token), 0.16)
    boxes = [_gap_box(canvas, gap) for gap in look.gaps]
    canvas.rects([(a, 0, b, canvas.size.height) for a, b in boxes if b > a], theme.RULE, 0.75)


def _gap_box(canvas: Canvas, gap: Gap) -> tuple[float, float]:
    left, right = (float(canvas.px(days(when)).clip(0, canvas.size.plot)) for when in (gap.start, gap.end))
    return left, right


def draw_gap_words(canvas: Canvas, look: Look) -> None:
    """The gaps' names low in the plot, kept apart; the longest gaps are named first where there is no room."""
    boxes = [(_gap_box(canvas, gap), gap.label) for gap in look.gaps]
    boxes = sorted(((box, label) for box, label in boxes if box[1] > box[0]), key=lambda b: b[0][0] - b[0][1])
    most = 18 if canvas.size.narrow else 30
    while boxes:
        middles = [(box[0] + box[1]) / 2 for box, _ in boxes]
        placed = lanes(middles, [shorten(label, most) for _, label in boxes], canvas.size.plot, 2)
        if placed is not None:
            break
        boxes = boxes[:-1]
    else:
        return
    for spot in placed:
        canvas.words([(spot.x, canvas.size.height - 9 - spot.lane * LANE, spot.words)], align=spot.align)


def draw_marks(canvas: Canvas, look: Look) -> bool:
    """Dotted change lines with their labels above the plot. True: the labels are numbers, told in words below."""
    low, high = canvas.x_domain
    marks = sorted((m for m in look.marks), key=lambda mark: float(days(mark.when)))
    spots = [float(canvas.px(days(mark.when))) for mark in marks if low <= days(mark.when) <= high]
    names = [mark.label for mark in marks if low <= days(mark.when) <= high]
    numbers = [str(n + 1) for n, mark in enumerate(marks) if low <= days(mark.when) <= high]
    if not spots:
        return False
    height = canvas.size.height
    canvas.rules([(x, -4, x, height) for x in _seen_apart(spots)], theme.INK2, 1.1, "dot")
    placed = None
    for most in () if canvas.size.narrow else (40, 26):  # whole names where there is room for them
        placed = placed or lanes(spots, [shorten(n, most) for n in names], canvas.size.plot, MOST_LANES)
    if placed is None:
        first = int(numbers[0]) - 1
        groups = [(x, _renumber(label, first)) for x, label in clusters(spots, 22)]
        canvas.words([(x, -11, label) for x, label in groups], theme.INK, align="center", bold=True)
        canvas.top = max(canvas.top, 22)
        return True
    for spot in placed:
        canvas.words([(spot.x, -11 - spot.lane * LANE, spot.words)], theme.INK, align=spot.align, bold=True)
    canvas.top = max(canvas.top, 22 + LANE * max(spot.lane for spot in placed))
    return False


def _seen_apart(spots: list[float]) -> list[float]:
    """Lines that can be told apart by eye; a crowd would be a grey block."""
    kept: list[float] = []
    for x in spots:
        if not kept or x - kept[-1] >= 3.5:
            kept.append(x)
    return kept


def _renumber(label: str, first: int) -> str:
    return "–".join(str(int(part) + first) for part in label.split("–"))


def draw_levels(canvas: Canvas, look: Look) -> None:
    """Horizontal reference lines."""
    low, high = canvas.y_domain
    for level in look.levels:
        if low <= level.value <= high:
            y = float(canvas.py(level.value))
            canvas.rules([(0, y, canvas.size.plot, y)], theme.line(level.token), 1.2, "dash")


def end_words(canvas: Canvas, ends: list[End]) -> None:
    """Labels right of the plot: (y in plot units, words, token, bold), moved apart so that none overlaps."""
    ends = [end for end in ends if end[1] and math.isfinite(end[0])]
    low, high = -4.0, canvas.size.height + 8.0
    ends, blocks = _fitting(canvas, ends, high - low)
    heights = [theme.LINE_HEIGHT * len(block) + BETWEEN for block in blocks]
    middles = spread([y for y, *_ in ends], heights, low, high) if ends else []
    for (_, _, token, bold), block, middle in zip(ends, blocks, middles, strict=True):
        y = middle - theme.LINE_HEIGHT * (len(block) - 1) / 2
        canvas.words([(canvas.size.plot + 8, y, block)], theme.text(token), bold=bold)


def _fitting(canvas: Canvas, ends: list[End], tall: float) -> tuple[list[End], list[list[str]]]:
    """The ends and their words in lines that fit the height; where one line each is too many, the rest is counted."""
    room = (canvas.size.right - 10) / theme.SMALL
    for lines in (3, 2, 1):
        blocks = []
        for _, words, _, bold in ends:
            most = int(room / (theme.EM_BOLD if bold else theme.EM_SHARE))
            blocks.append(wrap(broken(words, most) if lines > 1 else words, most, lines))
        if sum(theme.LINE_HEIGHT * len(block) + BETWEEN for block in blocks) <= tall:
            return ends, blocks
    fit = int(tall // (theme.LINE_HEIGHT + BETWEEN))
    more: End = (ends[-1][0], f"and {len(ends) - fit + 1} more", "neutral", False)
    return [*ends[: fit - 1], more], [*blocks[: fit - 1], [more[1]]]


def look_ends(canvas: Canvas, look: Look) -> list[tuple[float, str, str, bool]]:
    """The end labels of levels and bands."""
    low, high = canvas.y_domain
    ends = [(float(canvas.py(lv.value)), lv.label, lv.token, False) for lv in look.levels if low <= lv.value <= high]
    for span in look.spans:
        middle = (max(span.low, low) + min(span.high, high)) / 2
        ends.append((float(canvas.py(middle)), span.label, span.token, False))
    return ends


def draw_y_axis(canvas: Canvas, ticks: list[float], look: Look) -> None:
    """Thin grid lines and their numbers, the unit at the topmost."""
    spots = [
        (float(canvas.py(tick)), words)
        for tick, words in zip(ticks, tick_words(ticks, look.unit, look.plus), strict=True)
    ]
    canvas.rules([(0, y, canvas.size.plot, y) for y, _ in spots], theme.RULE)
    room = canvas.size.left - 8  # a word too long for it begins at the drawing's edge and reaches into the plot
    canvas.words([(-7, y, words) for y, words in spots if theme.width_of(words) <= room], align="right")
    canvas.words([(1 - canvas.size.left, y, words) for y, words in spots if theme.width_of(words) > room])


def draw_time_axis(canvas: Canvas) -> None:
    """Ticks below the plot with the names of months, days or hours."""
    spots = time_ticks(*canvas.x_domain, canvas.size.narrow, canvas.size.plot)
    draw_x_words(canvas, [(float(canvas.px(at)), words) for at, words in spots])


def draw_x_words(canvas: Canvas, spots: list[tuple[float, str]], title: str = "") -> None:
    """Ticks and words below the plot; at the drawing's left edge a word moves in, at its right edge it is left out."""
    height, plot = canvas.size.height, canvas.size.plot
    canvas.rules([(0, height, plot, height)], theme.RULE2)
    canvas.rules([(x, height, x, height + 5) for x, _ in spots], theme.RULE2)
    end = -1e9
    kept = []
    for at, words in spots:
        half = theme.width_of(words) / 2
        x = max(at, half + 1 - canvas.size.left)
        if x - half > end + 4 and x + half <= plot + canvas.size.right:
            kept.append((x, height + 15, words))
            end = x + half
    canvas.words(kept, align="center")
    if title:
        room = plot + 2 * min(canvas.size.left, canvas.size.right) - 4
        short = shorten(title, int(room / (theme.SMALL * theme.EM_SHARE)))
        canvas.words([(plot / 2, height + 32, short)], align="center")
        canvas.bottom = 42
