"""What a lower setting spares, against a house really run lower."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from types import SimpleNamespace
from typing import Any, cast

import pytest
from measures.house.made_house import Made, stepped, weather
from measures.test_frost_states import DAYS, FILMED, FIRST, HOLD_C, RATED_W, model

from reportgen.measures.dial_price import spared
from reportgen.measures.heat_types import Heat, HoldPrice

ALL_DAYS = {FIRST + timedelta(days=n) for n in range(-1, DAYS)}


def heat(kwh: float, **more: Any) -> Heat:
    """A winter's heat at EUR 0.30 a kWh."""
    rows = tuple(
        HoldPrice(hold_c=c, kwh=k, low=0.9 * k, high=1.1 * k, cost=0.3 * k, tested=True)
        for c, k in ((4.0, 0.8 * kwh), (6.0, kwh), (8.0, 1.2 * kwh))
    )
    usual: dict[str, Any] = {"kwh": kwh, "price_of_hold": rows, "stretches": (None,)}
    return cast("Heat", SimpleNamespace(**(usual | more)))


def test_a_kelvin_less_in_the_house_as_it_is_now() -> None:
    """The film stood for half the winter; what is told is of a winter with it throughout, as really run at 6 and 5 °C;
    money at 0.30 a kWh."""
    of = model(60)
    assert of.house is not None
    measured = float(of.house.hours.heaters_w.sum()) / 1000.0
    runs = [stepped(Made(loss_w_k=FILMED, rated_w=RATED_W, hold_c=c), weather())[1].sum() for c in (HOLD_C, HOLD_C - 1)]
    true = float(runs[0] - runs[1]) / 1000.0
    found = spared(of, heat(measured), HOLD_C, 1.0, ALL_DAYS)
    assert found is not None and found.money_low is not None
    assert found.kwh_low < true < found.kwh_high
    assert 0.5 * (found.kwh_low + found.kwh_high) == pytest.approx(true, rel=0.1)
    assert found.money_low == pytest.approx(0.3 * found.kwh_low)


def test_half_the_days_spare_less() -> None:
    """Only the nights of that setting are lowered."""
    of = model(60)
    whole = spared(of, heat(1000.0), HOLD_C, 1.0, ALL_DAYS)
    half = spared(of, heat(1000.0), HOLD_C, 1.0, {day for day in ALL_DAYS if (day - FIRST).days < DAYS // 2})
    assert whole is not None and half is not None
    assert 0.2 * whole.kwh_low < half.kwh_low < 0.8 * whole.kwh_low


def test_where_no_price_is_known_nothing_is_told() -> None:
    """No row of the table, no heat, no step down; money alone missing leaves the heat."""
    of = model(60)
    assert spared(of, heat(1000.0, price_of_hold=()), HOLD_C, 1.0, ALL_DAYS) is None
    assert spared(of, heat(1000.0), HOLD_C, 0.0, ALL_DAYS) is None
    bare = tuple(
        HoldPrice(hold_c=c, kwh=100.0 * c, low=None, high=None, cost=None, tested=True) for c in (4.0, 6.0, 8.0)
    )
    found = spared(of, heat(1000.0, price_of_hold=bare), HOLD_C, 1.0, ALL_DAYS)
    assert found is not None and found.money_low is None


def test_without_a_balance_the_table_of_holds_tells_it() -> None:
    """6 → 5 °C: 1000 less 900 ± a tenth of it between the rows: 1000 − 990 to 1000 − 810, by hand."""
    none = replace(model(60), house=None, states=())
    found = spared(none, heat(1000.0), HOLD_C, 1.0, ALL_DAYS)
    assert found is not None
    assert (found.kwh_low, found.kwh_high) == (pytest.approx(10.0), pytest.approx(190.0))
    assert (found.money_low, found.money_high) == (pytest.approx(3.0), pytest.approx(57.0))  # at 0.30 a kWh
