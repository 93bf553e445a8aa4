"""Other holds in this winter's weather: one hold all winter long, and every date's own hold a little off.

By degree-hours, by the house run again, or by the mean of both (house/hold.py `share_of_run`). Methods page, *The price
of a degree*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pandas as pd

from reportgen.measures import hold_base, hold_fit, hold_price
from reportgen.measures.exposure import Floats
from reportgen.measures.heat_house import by_run
from reportgen.measures.heat_types import DegreePrice, HoldPrice, PriceBasis
from reportgen.measures.heating_hours import HeatCurve
from reportgen.measures.hold_base import Weather
from reportgen.measures.hold_fit import Base
from reportgen.measures.hold_price import Changes, Paid, Span
from reportgen.measures.house.hold import CHANGE_AT_LIMIT, share_of_run
from reportgen.measures.house.season import HouseModel
from reportgen.problems import NotEnoughData
from reportgen.readings.types import Readings
from reportgen.units import FAHRENHEIT_K

TWO_K = 2.0  # the lower hold of the bills
WITHOUT_HOLD = 0.1  # of the heat may lie in stretches whose hold is not known; our own line
MONTHLY_DAYS = 20.0  # periods longer than this count as monthly
# True ÷ told change of heat, less and more: 5–95 % of the 48 simulated houses by which they were chosen, rounded
# (tests/studies/HOLD_PRICES.md, which tells how often they held on others); at its limit: HOUSE.md.
SPANS = {
    "the house run again, with degree-hours": Span(less=(0.86, 1.20), more=(0.86, 1.30)),
    "the house run again, its heater at its limit": Span(less=CHANGE_AT_LIMIT, more=CHANGE_AT_LIMIT),
    "degree-hours by days": Span(less=(0.88, 1.32), more=(0.88, 1.45)),
    "degree-hours by readings": Span(less=(0.90, 1.25), more=(0.90, 1.30)),
    "degree-hours by monthly readings": Span(less=(0.78, 1.20), more=(0.78, 1.22)),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class OtherHolds:
    """What other holds would have taken: `rows` one hold all winter long, `degrees` every date's own hold moved by a
    degree as shown and by 2 K; `by_run`: whether the house run again counted."""

    rows: tuple[HoldPrice, ...]
    degrees: tuple[DegreePrice, ...]
    basis: PriceBasis
    by_run: bool


def other_holds(
    readings: Readings,
    by_hour: pd.DataFrame,
    curves: Sequence[HeatCurve],
    model: HouseModel,
    paid: Paid,
    hold_c: float,
    *,
    flat_out: bool,
) -> OtherHolds:
    """Both tables.

    Args:
        by_hour: From `heating_hours.heat_by_hour`.
        hold_c: The hold found.
        flat_out: Whether the heater ran at its rated power for an hour and more.

    Raises:
        NotEnoughData: The heat did not follow the cold, too few periods, or too much heat without a known hold.
    """
    found, us = paid.found, readings.season.show == "us"
    _held(paid)
    air = hold_base.weather(readings, by_hour, found)
    periods = hold_base.periods(readings, curves)
    fit = hold_fit.base(periods, air)
    basis = hold_price.basis(periods, fit, hold_c)
    holds, away = hold_price.round_holds(hold_c, us), away_k(us)
    ways = _Ways(model=model, air=air, fit=fit, basis=basis, paid=paid)
    blind = flat_out and model.house is None  # the run knows the heater's limit
    return OtherHolds(
        rows=hold_price.hold_rows(holds, paid, ways.changes(hold_price.moves_to(holds, found)), hold_c, blind),
        degrees=hold_price.degree_rows(away, paid, ways.changes(hold_price.moves_by(away, found)), blind),
        basis=basis,
        by_run=ways.by_run,
    )


def away_k(us: bool) -> tuple[float, ...]:
    """The moves of every date's own hold [K]: 2 K and one degree as shown, down and up."""
    step = FAHRENHEIT_K if us else 1.0
    return (-TWO_K, -step, step, TWO_K)


def _held(paid: Paid) -> None:
    unknown = sum(one.kwh for one in paid.found if one.hold_c is None)
    if unknown > WITHOUT_HOLD * paid.kwh:
        raise NotEnoughData("too few heated nights between two turns of the thermostat to tell what was held")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Ways:
    """The two ways to a change of heat, and which of them counts."""

    model: HouseModel
    air: Weather
    fit: Base
    basis: PriceBasis
    paid: Paid

    @property
    def by_run(self) -> bool:
        """Whether the house run again counts."""
        house = self.model.house
        return house is not None and share_of_run(house) > 0.0

    @property
    def name(self) -> str:
        """The key of `SPANS`."""
        house = self.model.house
        if self.by_run and house is not None:
            return (
                f"the house run again, {'its heater at its limit' if house.balance.at_limit else 'with degree-hours'}"
            )
        monthly = self.basis.kind != "days" and self.basis.mean_days > MONTHLY_DAYS
        return f"degree-hours by {'monthly readings' if monthly else self.basis.kind}"

    def changes(self, moves_k: Floats) -> Changes:
        """Changes of heat of these moves, shape (moves, stretches)."""
        found, house, span = self.paid.found, self.model.house, SPANS[self.name]
        told = hold_price.by_degree_hours(found, self.air, self.fit, moves_k)
        if house is None or not self.by_run:
            ends = [hold_price.by_degree_hours(found, self.air, end, moves_k) for end in self.fit.ends]
            return Changes(told=told, ends=tuple(ends), span=span)
        share = share_of_run(house)
        again = by_run(self.model, found, self.paid.kwh, moves_k)
        return Changes(told=share * again + (1.0 - share) * told, span=span)
