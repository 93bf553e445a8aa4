"""The price of a degree: what another hold would have cost in this winter's weather.

Method: base temperature (M. F. Fels 1986, Energy and Buildings 9:5–18): another hold H′ moves the base B by H′ − H,
and the heat with the degree-hours below it. Methods page, *Heat*.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from reportgen.measures.exposure import Floats
from reportgen.measures.heat_types import HoldPrice, PriceBasis, Stretch
from reportgen.measures.hold_base import Base, Periods, Weather

TESTED_K = 4.0
# 5–95 % of estimate ÷ truth at 2 K and 4 K from the hold found: the wider ends of two experiments on simulated houses,
# 48 houses by which the method was chosen (0.96–1.06, 0.93–1.16; months 0.89–1.09, 0.83–1.16) and the 24 of
# tests/studies/HOLD_PRICES.md
SPREAD_DAYS = ((0.94, 1.07), (0.89, 1.16))
SPREAD_MONTHS = ((0.89, 1.09), (0.83, 1.16))
MONTHLY_DAYS = 20.0  # periods longer than this count as monthly
TOO_SMALL_AT_4K = 1.27  # where the heater ran flat out, a hold 4 K lower is overstated by up to this
REACH_K = 6  # holds shown on either side of the one found


def prices(
    holds: Sequence[float],
    found: Sequence[Stretch],
    air: Weather,
    fit: Base,
    *,
    hold_c: float,
    mean_days: float,
    flat_out: bool,
    with_cost: bool,
    unknown: float = 1.0,
) -> tuple[HoldPrice, ...]:
    """Heat and money that each hold would have taken, stretch by stretch.

    Another hold takes the measured kWh · DH(B + H′ − H) / DH(B) on this winter's hourly weather; a stretch without a
    hold of its own is left as it was.

    Args:
        holds: [°C], one row each.
        hold_c: The hold found.
        mean_days: Mean length of the periods that the fit rests on.
        unknown: By what factor the measured heat may have been more, where part of it is not known.
    """
    out = []
    for hold in holds:
        kwh = cost = 0.0
        for n, one in enumerate(found):
            ratio = _ratio(one, hold, air.stretch == n, air, fit)
            kwh, cost = kwh + one.kwh * ratio, cost + one.cost * ratio
        low, high = band_of(hold - hold_c, mean_days, flat_out)
        out.append(
            HoldPrice(
                hold_c=hold,
                kwh=kwh,
                low=kwh * low,
                high=kwh * high * unknown,
                cost=cost if with_cost else None,
                tested=abs(hold - hold_c) <= TESTED_K + 1e-9,
            )
        )
    return tuple(out)


def _ratio(one: Stretch, hold: float, hours: NDArray[np.bool_], air: Weather, fit: Base) -> float:
    if one.hold_c is None or not hours.any():
        return 1.0
    as_was = air.degree_hours(fit.above_hold_k, hours)
    moved = air.degree_hours(fit.above_hold_k + hold - one.hold_c, hours)
    return moved / as_was if as_was > 0 else 1.0


def band_of(away_k: float, mean_days: float, flat_out: bool) -> tuple[float, float]:
    """What the true heat may be as a share of the estimate, `away_k` from the hold found.

    The measured 5–95 % ranges of estimate ÷ truth at 2 K and 4 K, joined by straight lines from none at 0 K, and
    carried on beyond 4 K.
    """
    near, far = SPREAD_MONTHS if mean_days > MONTHLY_DAYS else SPREAD_DAYS
    low, high = (float(_carried(abs(away_k), 1.0, near[n], far[n])) for n in (0, 1))
    if flat_out and away_k < 0:
        high = max(high, float(_carried(abs(away_k), 1.0, (1.0 + TOO_SMALL_AT_4K) / 2, TOO_SMALL_AT_4K)))
    return 1.0 / high, 1.0 / max(low, 0.05)


def _carried(away: float, here: float, near: float, far: float) -> float:
    if away <= 2.0:
        return here + (near - here) * away / 2.0
    return near + (far - near) * (away - 2.0) / 2.0


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
