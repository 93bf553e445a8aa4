"""The price of a degree: what another hold would have cost in this winter's weather.

Method: base temperature (M. F. Fels 1986, Energy and Buildings 9:5–18): another hold moves the base B as much, and the
heat of each stretch with the degree-hours below it. A winter whose thermostat was turned has several holds: a degree
less is then each of them one degree lower. Methods page, *The price of a degree*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from reportgen.measures.exposure import Floats
from reportgen.measures.heat_types import DegreePrice, HoldPrice, PriceBasis, Stretch
from reportgen.measures.hold_base import Periods, Weather
from reportgen.measures.hold_fit import Base

TESTED_K = 4.0
REACH_K = 6  # holds shown on either side of the one found
TOO_SMALL_AT_4K = 1.27  # where the heater ran flat out, a hold 4 K lower is overstated by up to this


def moves_to(holds: Sequence[float], found: Sequence[Stretch]) -> Floats:
    """By how much each stretch's hold moves where one hold is kept all winter [K]; shape (holds, stretches), 0 where no
    hold was found."""
    return np.array([[0.0 if one.hold_c is None else hold - one.hold_c for one in found] for hold in holds])


def moves_by(away_k: Sequence[float], found: Sequence[Stretch]) -> Floats:
    """The same where every stretch's own hold moves by so much [K]; shape (moves, stretches)."""
    return np.array([[0.0 if one.hold_c is None else away for one in found] for away in away_k])


def by_degree_hours(found: Sequence[Stretch], air: Weather, fit: Base, moves_k: Floats) -> Floats:
    """Change of heat [kWh] of every move and stretch, shape (moves, stretches).

    A stretch takes its measured kWh · DH(B + move) / DH(B) on this winter's hourly weather, its hours weighed by the
    slope of their state; a stretch without degree-hours is left as it was.
    """
    out = np.zeros(moves_k.shape)
    for n, one in enumerate(found):
        hours = air.stretch == n
        as_was = _need(air, fit, hours, 0.0)
        if one.hold_c is not None and as_was > 0:
            needs = np.array([_need(air, fit, hours, move) for move in moves_k[:, n]])
            out[:, n] = one.kwh * (needs / as_was - 1.0)
    return out


def _need(air: Weather, fit: Base, hours: NDArray[np.bool_], move_k: float) -> float:
    return air.degree_hours(fit.above_hold_k + move_k, hours, fit.slopes) if hours.any() else 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """True ÷ told change of heat [no unit], its ends, where a hold takes less and where it takes more."""

    less: tuple[float, float]
    more: tuple[float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class Changes:
    """Changes of heat [kWh] by move and stretch, shape (moves, stretches): as told, and at the ends of what the
    readings allow."""

    told: Floats = field(repr=False)
    ends: tuple[Floats, ...] = field(repr=False, default=())
    span: Span

    def summed(self, worth: Floats) -> tuple[Floats, Floats, Floats]:
        """The winter's change, its low and its high end, each of shape (moves,); `worth`: of a kWh in each stretch.

        More in one stretch and less in another do not make the band narrower; the two doubts add in squares.
        """
        told = self.told * worth
        more, less = np.maximum(told, 0.0).sum(axis=1), np.minimum(told, 0.0).sum(axis=1)
        whole = more + less
        low, high = (more * a + less * b for a, b in zip(self.span.more, self.span.less[::-1], strict=True))
        others = [whole, *(end @ worth for end in self.ends)]
        under, over = whole - np.min(others, axis=0), np.max(others, axis=0) - whole
        return whole, whole - np.hypot(whole - low, under), whole + np.hypot(high - whole, over)


@dataclass(frozen=True, kw_only=True, slots=True)
class Paid:
    """The winter's heat as it was: stretches, kWh, money (None: not known), and by what factor the heat may have been
    more, where part of it is not known."""

    found: tuple[Stretch, ...]
    kwh: float
    cost: float | None
    unknown: float = 1.0

    def a_kwh(self) -> Floats:
        """Money of a kWh in each stretch; shape (stretches,)."""
        return np.array([one.cost / one.kwh if one.kwh > 0 else 0.0 for one in self.found])

    def with_heat(self, changes: Changes) -> tuple[Floats, Floats, Floats]:
        """Heat of the winter at every move, low and high [kWh]; shapes (moves,)."""
        change, low, high = changes.summed(np.ones(len(self.found)))
        return _left(self.kwh, change), _left(self.kwh, low), _left(self.kwh, high)

    def with_money(self, changes: Changes) -> tuple[Floats, Floats, Floats] | None:
        """The same in money; shapes (moves,); None where the winter's is not known."""
        if self.cost is None:
            return None
        change, low, high = changes.summed(self.a_kwh())
        return _left(self.cost, change), _left(self.cost, low), _left(self.cost, high)


def _left(whole: float, change: Floats) -> Floats:
    return np.maximum(whole + change, 0.0)


def hold_rows(
    holds: Sequence[float], paid: Paid, changes: Changes, hold_c: float, flat_out: bool
) -> tuple[HoldPrice, ...]:
    """A row for every hold that is kept all winter long.

    Args:
        holds: [°C], one row each.
        hold_c: The hold found.
        flat_out: Whether the heater ran flat out in a way that `changes` do not know.
    """
    heat, money = paid.with_heat(changes), paid.with_money(changes)
    return tuple(
        HoldPrice(
            hold_c=hold,
            kwh=float(heat[0][n]),
            low=float(heat[1][n] / _overstated(hold - hold_c, flat_out)),
            high=float(heat[2][n] * paid.unknown),
            cost=None if money is None else float(money[0][n]),
            tested=abs(hold - hold_c) <= TESTED_K + 1e-9,
        )
        for n, hold in enumerate(holds)
    )


def degree_rows(away_k: Sequence[float], paid: Paid, changes: Changes, flat_out: bool) -> tuple[DegreePrice, ...]:
    """A row for every number of kelvins by which each date's own hold moves."""
    heat, money = paid.with_heat(changes), paid.with_money(changes)
    return tuple(
        DegreePrice(
            away_k=away,
            kwh=float(heat[0][n]),
            low=float(heat[1][n] / _overstated(away, flat_out)),
            high=float(heat[2][n] * paid.unknown),
            cost=None if money is None else float(money[0][n]),
            cost_low=None if money is None else float(money[1][n] / _overstated(away, flat_out)),
            cost_high=None if money is None else float(money[2][n] * paid.unknown),
        )
        for n, away in enumerate(away_k)
    )


def _overstated(away_k: float, flat_out: bool) -> float:
    """By what factor the heat at a lower hold may be told too high where the heater ran flat out."""
    return 1.0 + (TOO_SMALL_AT_4K - 1.0) * max(-away_k, 0.0) / 4.0 if flat_out else 1.0


def basis(heat: Periods, fit: Base, hold_c: float) -> PriceBasis:
    """What the prices rest on, for the page: periods, their mean length [days], the base of the degree-hours [°C], kWh
    a K h.
    """
    starts, ends = heat.starts[fit.used], heat.ends[fit.used]
    return PriceBasis(
        kind=heat.kind,
        periods=int(fit.used.sum()),
        mean_days=float(np.average((ends - starts) / 86_400.0, weights=np.maximum(heat.kwh[fit.used], 0.0) + 1e-9)),
        balance_c=hold_c + fit.above_hold_k,
        kwh_per_kh=fit.kwh_per_kh,
        explained=fit.explained,
    )


def round_holds(hold_c: float, us: bool) -> list[float]:
    """Round holds around the one found [°C]: every degree Celsius, or every second degree Fahrenheit."""
    if us:
        middle = round((hold_c * 9 / 5 + 32) / 2) * 2
        return [(middle + 2 * n - 32) * 5 / 9 for n in range(-REACH_K, REACH_K + 1)]
    return [float(round(hold_c) + n) for n in range(-REACH_K, REACH_K + 1)]


def expected_prices(loss_w_per_k: float, air: Floats, holds: Sequence[float]) -> tuple[HoldPrice, ...]:
    """What cover and air changes let expect where no heat was logged: loss × degree-hours below the hold [kWh].

    Args:
        loss_w_per_k: Of the cover and the air changes [W/K].
        air: Hourly outdoor means [°C], NaN where missing; shape (n,).
        holds: [°C], one row each.
    """
    out = []
    for hold in holds:
        pull = np.maximum(hold - air, 0.0)
        known = ~np.isnan(pull)
        total = float(pull[known].sum() / known.mean()) if known.any() else 0.0
        kwh = loss_w_per_k * total / 1000.0
        out.append(HoldPrice(hold_c=hold, kwh=kwh, low=None, high=None, cost=None, tested=False))
    return tuple(out)
