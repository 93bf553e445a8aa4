"""What was burnt of a store that was filled now and then: when, and what had been paid for it.

Known are the deliveries and, on some days, what was there. Between two such days the use is a known sum. It is shared
out by degree-hours, as evenly as the deliveries allow: nothing is burnt before it was bought. Of all such courses the
one taken is the greatest convex curve under the stock that had come by then, drawn over the degree-hours.

Money: first in, first out by what was paid, never by the price of the day of burning.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from reportgen.readings.degree_hours import Pull
from reportgen.readings.join import Floats

ROUNDING = 1e-9
TIME_TOO = 1e-10  # [K h] a second: where nothing pulls time shares out, a hundred-thousandth of what a winter pulls


@dataclass(frozen=True, kw_only=True, slots=True)
class Lot:
    """Bought at one instant [s since 1970]; `paid` is NaN where it is not known."""

    at: float
    amount: float
    paid: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """What was there at one instant, before a delivery of that instant."""

    at: float
    amount: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """Burnt between two instants, at a rate in proportion to the cold; `known_sum` counts the pairs of levels."""

    start: float
    end: float
    used: float
    paid: float
    known_sum: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Burnt:
    """Pieces in order; what is left at the last level, and what had been paid for it."""

    pieces: tuple[Piece, ...]
    left: float
    left_paid: float


@dataclass(kw_only=True, slots=True)
class _Paid:
    """Money of the first x units that were bought, in the order in which they came."""

    amounts: Floats
    money: Floats  # NaN from the first lot on whose price is not known, so kept apart
    unknown: Floats = field(default_factory=lambda: np.zeros(0))

    @classmethod
    def of(cls, lots: Sequence[Lot]) -> _Paid:
        real = [lot for lot in lots if lot.amount > 0]
        each = np.array([lot.paid for lot in real], dtype=np.float64)
        amounts = np.concatenate([[0.0], np.cumsum([lot.amount for lot in real])])
        missing = np.isnan(each)
        money = np.concatenate([[0.0], np.cumsum(np.where(missing, 0.0, each))])
        return cls(amounts=amounts, money=money, unknown=np.concatenate([[0.0], np.cumsum(np.diff(amounts) * missing)]))

    def between(self, first: float, last: float) -> float:
        """Paid for the units from `first` to `last`; NaN where the price of any of them is not known."""
        a, b = np.interp([first, last], self.amounts, self.unknown)
        if b - a > ROUNDING * max(1.0, last):
            return float("nan")
        c, d = np.interp([first, last], self.amounts, self.money)
        return float(d - c)


def burnt(lots: Sequence[Lot], levels: Sequence[Level], pull: Pull) -> Burnt:
    """What was burnt between the first level and the last.

    Args:
        lots: In order of time. Stock that was there at the first level comes as a lot of that instant, before others.
        levels: In order of time; the first is 0 (the opening stock is a lot). None asks for more than was there.
        pull: The pull of the cold on stock.
    """
    paid, pieces, used = _Paid.of(lots), [], 0.0
    for number, (start, end) in enumerate(pairwise(levels)):
        came = [lot for lot in lots if start.at <= lot.at < end.at]
        total = start.amount + sum(lot.amount for lot in came) - end.amount
        for begin, stop, amount in _course(start, came, end.at, max(total, 0.0), pull):
            for piece in _by_lot(begin, stop, amount, used, paid, pull):
                pieces.append(Piece(start=piece[0], end=piece[1], used=piece[2], paid=piece[3], known_sum=number))
            used += amount
    bought = float(paid.amounts[-1])
    return Burnt(pieces=tuple(pieces), left=bought - used, left_paid=paid.between(used, bought))


def _course(
    start: Level, came: Sequence[Lot], end: float, total: float, pull: Pull
) -> list[tuple[float, float, float]]:
    """Stretches (start, end, amount) of one rate: the greatest convex curve under what had come, over the cold."""
    times, cold, most = [start.at], [0.0], [0.0]
    there = start.amount
    zero = float(_pulled(pull, [start.at])[0])
    for lot in came:
        if lot.at > start.at:
            times.append(lot.at)
            cold.append(float(_pulled(pull, [lot.at])[0]) - zero)
            most.append(min(there, total))
        there += lot.amount
    corners = _lower_hull([*cold, float(_pulled(pull, [end])[0]) - zero], [*most, total])
    times = [*times, end]
    levels = [*most, total]
    return [(times[a], times[b], levels[b] - levels[a]) for a, b in pairwise(corners)]


def _lower_hull(x: Sequence[float], y: Sequence[float]) -> list[int]:
    """Corners of the greatest convex curve under the points from the first to the last; x rises or stands."""
    kept = [0]
    for n in range(1, len(x)):
        while len(kept) > 1 and _slope(x, y, kept[-2], kept[-1]) >= _slope(x, y, kept[-1], n):
            kept.pop()
        kept.append(n)
    return kept


def _slope(x: Sequence[float], y: Sequence[float], a: int, b: int) -> float:
    if x[b] - x[a] > ROUNDING:
        return (y[b] - y[a]) / (x[b] - x[a])
    return float("inf") if y[b] > y[a] else 0.0


def _by_lot(
    start: float, end: float, amount: float, used: float, paid: _Paid, pull: Pull
) -> list[tuple[float, float, float, float]]:
    """A stretch cut where one lot ends and the next begins: start, end, amount, money."""
    edges = paid.amounts[(paid.amounts > used + ROUNDING) & (paid.amounts < used + amount - ROUNDING)]
    marks = [used, *(float(edge) for edge in edges), used + amount]
    times = [start, *(_when(start, end, (edge - used) / amount, pull) for edge in marks[1:-1]), end]
    return [
        (begin, stop, last - first, paid.between(first, last))
        for (begin, stop), (first, last) in zip(pairwise(times), pairwise(marks), strict=True)
    ]


def _when(start: float, end: float, share: float, pull: Pull) -> float:
    """The instant by which that share of a stretch's cold had passed; of its time where there was none."""
    knots = np.append(pull.seconds, pull.seconds[-1] + 3600.0)
    inside = np.concatenate([[start], knots[(knots > start) & (knots < end)], [end]])
    passed = _pulled(pull, inside)
    return float(np.interp(passed[0] + share * (passed[-1] - passed[0]), passed, inside))


def _pulled(pull: Pull, instants: Sequence[float] | Floats) -> Floats:
    """Degree-hours until each instant, with a trace of time, so that they rise where there was no cold."""
    at = np.asarray(instants, dtype=np.float64)
    return np.asarray(pull.until(at) + TIME_TOO * (at - pull.seconds[0]))
