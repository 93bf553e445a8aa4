"""Scales: the ends of an axis, its ticks with their words, and what of them fits."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

Words = Callable[[float], str]


@dataclass(frozen=True, slots=True)
class Tick:
    """A value of the axis and how it is written."""

    at: float
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Axis:
    """An axis from `low` to `high` in the unit shown; `heavy` is the value whose line stands out (frost, zero)."""

    low: float
    high: float
    ticks: tuple[Tick, ...]
    heavy: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Scale:
    """Straight from values to units of the drawing."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        return self.start + (value - self.low) / ((self.high - self.low) or 1.0) * (self.end - self.start)

    def held(self, value: float) -> float:
        """The same for a value moved to the nearer end of the axis."""
        return self(min(max(value, self.low), self.high))


def outward(values: Iterable[float | None], step: float, words: Words, heavy: float | None = None) -> Axis:
    """An axis from the values outward to whole steps; without values around `heavy`."""
    known = [v for v in values if v is not None and math.isfinite(v)] or [heavy or 0.0]
    low = math.floor(min(known) / step + 1e-9)
    high = max(math.ceil(max(known) / step - 1e-9), low + 1)
    ticks = tuple(Tick(n * step, words(n * step)) for n in range(low, high + 1))
    low_, high_ = low * step, high * step
    return Axis(low=low_, high=high_, ticks=_with(ticks, step, words, heavy, low_, high_), heavy=heavy)


def _with(
    ticks: tuple[Tick, ...], step: float, words: Words, heavy: float | None, low: float, high: float
) -> tuple[Tick, ...]:
    """The heavy value among the ticks, in the place of one that stands too near (32 for 30 degrees Fahrenheit)."""
    if heavy is None or not low <= heavy <= high or any(abs(tick.at - heavy) < 1e-9 for tick in ticks):
        return ticks
    kept = [tick for tick in ticks if abs(tick.at - heavy) >= 0.45 * step]
    return tuple(sorted([*kept, Tick(heavy, words(heavy))], key=lambda tick: tick.at))


def nice_step(span: float, about: int = 5) -> float:
    """A step of 1, 2, 2.5 or 5 times a power of ten that parts the span about so often."""
    raw = max(span, 1e-9) / max(about, 1)
    power = 10.0 ** math.floor(math.log10(raw))
    return next(m * power for m in (1.0, 2.0, 2.5, 5.0, 10.0) if m * power >= raw * 0.999)


def fitting(ticks: Sequence[Tick], scale: Scale, least: float, heavy: float | None = None) -> tuple[Tick, ...]:
    """Every tick, or each second, third …, so that neighbours stand `least` apart; counted from the heavy one."""
    apart = min((abs(scale(b.at) - scale(a.at)) for a, b in pairwise(ticks)), default=least)
    each = max(1, math.ceil(least / max(apart, 1e-9)))
    start = next((n for n, tick in enumerate(ticks) if tick.at == heavy), 0)
    return tuple(tick for n, tick in enumerate(ticks) if (n - start) % each == 0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Division:
    """A stretch of the time axis with its name, long and short: a month, or a week of a short season."""

    first: float  # days from the first day
    last: float
    name: str
    brief: str
