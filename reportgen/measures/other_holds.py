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
from reportgen.measures.hold_price import Changes, Paid
from reportgen.measures.house.hold import change_span, share_of_run
from reportgen.measures.house.season import HouseModel
from reportgen.problems import NotEnoughData
from reportgen.readings.types import Readings
from reportgen.units import FAHRENHEIT_K

TWO_K = 2.0  # the lower hold of the bills
WITHOUT_HOLD = 0.1  # of the heat may lie in stretches whose hold is not known; our own line
MONTHLY_DAYS = 20.0  # periods longer than this count as monthly
# True ÷ told change by degree-hours alone, 5–95 % of simulated houses (tests/studies/HOLD_PRICES.md)
BY_DEGREE_HOURS = {"days": (0.86, 1.25), "readings": (0.86, 1.20), "monthly": (0.80, 1.25)}


@dataclass(frozen=True, kw_only=True, slots=True)
class OtherHolds:
    """What other holds would have taken: `rows` one hold all winter long, `degrees` every date's own hold moved by a
    degree as shown and by 2 K; `span`: true ÷ told change where the run counted, else None."""

    rows: tuple[HoldPrice, ...]
    degrees: tuple[DegreePrice, ...]
    basis: PriceBasis
    span: tuple[float, float] | None


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
        span=ways.run_span(),
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

    def run_span(self) -> tuple[float, float] | None:
        """True ÷ told change where the run counts."""
        house = self.model.house
        return None if house is None or share_of_run(house) == 0.0 else change_span(house)

    def changes(self, moves_k: Floats) -> Changes:
        """Changes of heat of these moves, shape (moves, stretches)."""
        found, house = self.paid.found, self.model.house
        told = hold_price.by_degree_hours(found, self.air, self.fit, moves_k)
        again = None if self.run_span() is None else by_run(self.model, found, self.paid.kwh, moves_k)
        if house is None or again is None:
            ends = [hold_price.by_degree_hours(found, self.air, end, moves_k) for end in self.fit.ends]
            return Changes(told=told, ends=tuple(ends), span=BY_DEGREE_HOURS[self._kind()])
        share = share_of_run(house)
        return Changes(told=share * again + (1.0 - share) * told, span=self.run_span() or (1.0, 1.0))

    def _kind(self) -> str:
        return "monthly" if self.basis.mean_days > MONTHLY_DAYS else self.basis.kind
