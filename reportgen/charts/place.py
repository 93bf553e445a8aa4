"""Where ticks and words go: nice steps, month ticks, labels kept apart. Pure arithmetic in plot units."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts import theme
from reportgen.wording import MINUS, MONTHS, NBSP, number

EPOCH = date(1970, 1, 1)
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def days(when: Any) -> Any:
    """Local wall clock as days since 1970, so that no chart depends on the machine's zone.

    Takes a date, a naive or zone-aware Timestamp (its own local clock is kept), or a Series or Index of them;
    numbers pass through. Missing becomes NaN.
    """
    if isinstance(when, pd.Series | pd.Index | list | tuple | np.ndarray):
        return np.asarray([days(one) for one in when], dtype=np.float64)
    if when is None or when is pd.NaT:
        return float("nan")
    if isinstance(when, int | float | np.integer | np.floating):
        return float(when)
    if isinstance(when, datetime):
        clock = when.replace(tzinfo=None)
        return (clock - datetime(1970, 1, 1)) / timedelta(days=1)
    if isinstance(when, date):
        return float((when - EPOCH).days)
    raise TypeError(f"no place on a time axis for {type(when).__name__}")


FLAT = 1e-6  # a span below the last decimal that a tick can print is drawn as none


def nice_ticks(low: float, high: float, about: int = 5) -> list[float]:
    """Round values that enclose low … high in steps of 1, 2, 2.5 or 5."""
    if not (math.isfinite(low) and math.isfinite(high)):
        low, high = 0.0, 1.0
    if high - low <= max(FLAT, 1e-9 * max(abs(low), abs(high))):
        room = 0.5 * (abs(low) if abs(low) > FLAT else 1.0)
        low, high = low - room, low + room
    raw = (high - low) / max(about, 1)
    power = 10.0 ** math.floor(math.log10(raw))
    step = next(m * power for m in (1.0, 2.0, 2.5, 5.0, 10.0) if m * power >= raw * 0.999)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [round(i * step, 10) for i in range(first, last + 1)]


def tick_words(ticks: Sequence[float], unit: str = "", plus: bool = False) -> list[str]:
    """Words of the ticks, the unit at the topmost only."""
    step = min((abs(b - a) for a, b in itertools.pairwise(ticks)), default=1.0)
    digits = max(0, min(6, -math.floor(math.log10(step) + 1e-9))) if step < 1 else (0 if step == round(step) else 1)
    if step < 1 and abs(step * 10**digits - round(step * 10**digits)) > 1e-6:
        digits += 1
    words = [("+" if plus and tick > 0 else "") + number(tick, digits) for tick in ticks]
    if unit and words:
        words[-1] += NBSP + unit
    return words


def time_ticks(first: float, last: float, narrow: bool, plot: float) -> list[tuple[float, str]]:
    """Ticks of a wall-clock axis: months of a season, days of a fortnight, hours of a night."""
    span = last - first
    if span <= 2.5:
        return _hour_ticks(first, last, 6 if narrow or span > 1.2 else 3)
    start = EPOCH + timedelta(days=math.floor(first))
    if span <= 45:
        step = (
            1
            if span <= (5 if narrow else 10)
            else (4 if narrow and span <= 21 else 2 if span <= 21 else 14 if narrow else 7)
        )
        every = [start + timedelta(days=n) for n in range(0, math.ceil(span) + 1, step)]
        spots = [(days(day), f"{day.day}{NBSP}{_MONTHS[day.month - 1]}") for day in every]
        return [spot for spot in spots if first <= spot[0] <= last]
    month = date(start.year, start.month, 1)
    months: list[tuple[float, date]] = []
    while days(month) <= last:
        if days(month) >= first - 0.5:
            months.append((float(days(month)), month))
        month = date(month.year + month.month // 12, month.month % 12 + 1, 1)
    room = plot * 30 / span
    names = MONTHS if room > 9 * theme.SMALL * theme.EM_SHARE + 8 else _MONTHS
    keep = max(1, math.ceil(28 / room))
    return [(at, names[m.month - 1]) for at, m in months[::keep]]


def _hour_ticks(first: float, last: float, step_h: int) -> list[tuple[float, str]]:
    hours = range(math.ceil(first * 24 / step_h - 1e-9) * step_h, math.floor(last * 24 + 1e-9) + 1, step_h)
    return [(hour / 24, f"{hour % 24}{NBSP}h") for hour in hours]


def shorten(words: str, most: int) -> str:
    """Words cut at a space to at most `most` characters, with an ellipsis."""
    if len(words) <= most:
        return words
    cut = words[: most - 1].rsplit(" ", 1)[0] if " " in words[: most - 1] else words[: most - 1]
    return cut.rstrip(" ,;:") + "…"


def broken(words: str, most: int) -> str:
    """Words of which none has more than `most` characters: a longer one is parted at its hyphen, else in its middle."""
    return " ".join(part for word in words.split(" ") for part in _parts(word, most))


def _parts(word: str, most: int) -> list[str]:
    if len(word) <= most or most < 4 or not word.replace("-", "").isalpha():  # numbers stay whole
        return [word]
    at = word.rfind("-", 1, most) + 1 or (len(word) + 1) // 2
    first = word[:at] if word[at - 1] == "-" else f"{word[:at]}-"
    return [first, *_parts(word[at:], most)] if len(first) <= most else [word]


def sentences(words: str, most: int) -> str:
    """The first whole sentences of at most `most` characters; a first one that is longer is cut with an ellipsis."""
    if len(words) <= most:
        return words
    kept = words[: most + 1].rpartition(". ")[0]
    return f"{kept}." if kept else shorten(words, most)


def wrap(words: str, most: int, lines: int = 3) -> list[str]:
    """Words in lines of at most `most` characters; what does not fit ends in an ellipsis."""
    out: list[str] = [""]
    for word in words.split(" "):
        joined = f"{out[-1]} {word}".strip()
        if len(joined) <= most or not out[-1]:
            out[-1] = joined
        else:
            out.append(word)
    out = [shorten(line, most) for line in out]
    return out if len(out) <= lines else [*out[: lines - 1], shorten(" ".join(out[lines - 1 :]), most)]


def spread(spots: Sequence[float], heights: Sequence[float], low: float, high: float) -> list[float]:
    """Middles of labels moved as little as need be so that none overlaps (heights in units, low < high)."""
    order = sorted(range(len(spots)), key=lambda i: spots[i])
    placed: dict[int, float] = {}
    bottom = low
    for i in order:
        placed[i] = max(spots[i], bottom + heights[i] / 2)
        bottom = placed[i] + heights[i] / 2
    top = high
    for i in reversed(order):
        placed[i] = min(placed[i], top - heights[i] / 2)
        top = placed[i] - heights[i] / 2
    return [placed[i] for i in range(len(spots))]


@dataclass(frozen=True, kw_only=True, slots=True)
class Placed:
    """A label with its place: x in plot units, lane 0 next to the plot, align left | center | right."""

    x: float
    lane: int
    align: str
    words: str


def lanes(spots: Sequence[float], words: Sequence[str], plot: float, most: int, gap: float = 6) -> list[Placed] | None:
    """Labels in as few lanes as they need so that none touches its neighbour; None if `most` lanes do not do."""
    ends = [-1e9] * most
    out: list[Placed] = []
    for x, label in sorted(zip(spots, words, strict=True), key=lambda pair: pair[0]):
        wide = theme.width_of(label, bold=True)  # change lines are bold, the widest case
        align, x, start = _anchor(x, wide, plot)
        lane = next((n for n in range(most) if start >= ends[n] + gap), None)
        if lane is None:
            return None
        ends[lane] = start + wide
        out.append(Placed(x=x, lane=lane, align=align, words=label))
    return out


def _anchor(x: float, wide: float, plot: float) -> tuple[str, float, float]:
    """How a label hangs on its line, where, and where it begins: inside the plot's sides where it fits there."""
    if x - wide / 2 < -20:
        at = max(min(x, plot + 20 - wide), -8.0)
        return "left", at, at
    if x + wide / 2 > plot + 20:
        at = max(x, wide - 8.0)
        return "right", at, at - wide
    return "center", x, x - wide / 2


def clusters(spots: Sequence[float], apart: float) -> list[tuple[float, str]]:
    """Numbers 1…n of neighbouring spots, drawn together where they stand closer than `apart`: "3–7"."""
    order = sorted(range(len(spots)), key=lambda i: spots[i])
    groups: list[list[int]] = []
    for rank, i in enumerate(order):
        if groups and spots[i] - spots[order[groups[-1][-1]]] < apart:
            groups[-1].append(rank)
        else:
            groups.append([rank])
    n = 1
    while n < len(groups):
        if _touch(_cluster(groups[n - 1], spots, order), _cluster(groups[n], spots, order)):
            groups[n - 1] += groups.pop(n)
            n = max(1, n - 1)
        else:
            n += 1
    return [_cluster(group, spots, order) for group in groups]


def _cluster(group: Sequence[int], spots: Sequence[float], order: Sequence[int]) -> tuple[float, str]:
    middle = sum(spots[order[rank]] for rank in group) / len(group)
    return middle, f"{group[0] + 1}" if len(group) == 1 else f"{group[0] + 1}–{group[-1] + 1}"


def _touch(left: tuple[float, str], right: tuple[float, str]) -> bool:
    """True where two labels, each in the middle of its place, would lie over one another."""
    wide = sum(theme.width_of(words, bold=True) for _, words in (left, right))
    return right[0] - left[0] < wide / 2 + 4


def signed(value: float, digits: int = 1) -> str:
    """A change with its sign: +1.2, −0.4, 0.0."""
    words = number(value, digits)
    return words if words.startswith(MINUS) or not any(c in "123456789" for c in words) else f"+{words}"
