"""The limits of the house in each of its states, on a house whose truth can be worked out."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from measures.house.made_house import Made, hours_of, stepped, weather

from reportgen.measures.frost_states import limit_by_state
from reportgen.measures.house.response import respond
from reportgen.measures.house.season import HouseModel
from reportgen.measures.house.size import FLAT_HALF_BEYOND, FLAT_HALF_K
from reportgen.measures.house.states import HouseState

BARE, FILMED = 150.0, 100.0
RATED_W, HOLD_C, DAYS = 2000.0, 6.0, 120
FIRST = dt.date(2026, 1, 5)


def model(cut_day: int) -> HouseModel:
    """120 days: 150 W/K until that day, 100 W/K with the film from then on; a heater of 2000 W."""
    out = weather()
    cut = cut_day * 24
    made = [Made(loss_w_k=loss, rated_w=RATED_W, hold_c=HOLD_C) for loss in (BARE, FILMED)]
    runs = [stepped(one, out) for one in made]
    air, heat = (np.concatenate([runs[0][n][:cut], runs[1][n][cut:]]) for n in (0, 1))
    state = (np.arange(len(out)) >= cut).astype(np.int64)
    house = respond(hours_of(made[1], out, air, heat, state=state))
    states = (HouseState(number=0, on=(), hours=cut), HouseState(number=1, on=("film",), hours=len(out) - cut))
    return HouseModel(house=house, why="", first=FIRST, whole=np.ones(DAYS, dtype=bool), states=states, present=1)


def nights(of: HouseModel, drop_k: float = 0.0) -> pd.DataFrame:
    """The night table: inside 8 K over outdoors, ± 0.2 K by turns, from +2 °C outdoors down to −10."""
    index = pd.Index([FIRST + dt.timedelta(days=n) for n in range(DAYS)], name="date")
    outdoor = 2.0 - 12.0 * (np.arange(DAYS) % 30) / 29.0
    inside = outdoor + 8.0 + 0.2 * (-1.0) ** np.arange(DAYS) - drop_k
    return pd.DataFrame(
        {"outdoor_min": outdoor, "inside_min": inside, "share": 1.0, "outdoor_share": 1.0},
        index=index,
    )


def test_flat_out_of_each_state_is_hold_less_rated_power_by_its_loss() -> None:
    """6 − 2000/150 = −7.3 °C bare and 6 − 2000/100 = −14 °C with the film, each within the told half-width."""
    of = model(60)
    rows = limit_by_state(of, nights(of), (), 0.0, HOLD_C)
    assert [row.state for row in rows] == ["", "film"]
    assert of.house is not None
    coldest = float(of.house.hours.temp_outdoor_c.min())
    for row, loss in zip(rows, (BARE, FILMED), strict=True):
        true = HOLD_C - RATED_W / loss
        half = FLAT_HALF_K + FLAT_HALF_BEYOND * max(coldest - true, 0.0)
        assert row.flat_out_c == pytest.approx(true, abs=half)
    assert [row.present for row in rows] == [False, True]


def test_the_holding_limit_is_of_that_state_s_own_nights() -> None:
    """The line 8 K over outdoors crosses 0 °C at −8; its 95 % bound, ± 0.2 K by turns (s about 0.2), about 0.35 K
    earlier: −7.6, by hand from the textbook formula, t(.95) = 1.70. Never under a night that crossed: −7.8."""
    of = model(60)
    rows = limit_by_state(of, nights(of), (), 0.0, HOLD_C)
    for row in rows:
        assert row.holding_limit_c == pytest.approx(-7.6, abs=0.15)
        assert row.nights > 40


def test_a_night_of_a_failure_is_no_night_of_the_state() -> None:
    """One night at −5 °C inside, outdoors 1 °C, would undo the limit; it is left out."""
    of = model(60)
    table = nights(of)
    day = FIRST + dt.timedelta(days=92)
    table.loc[day, "inside_min"] = -5.0
    kept = limit_by_state(of, table, (day,), 0.0, HOLD_C)[1]
    assert kept.holding_limit_c == pytest.approx(-7.6, abs=0.15)
    assert kept.holding_limit_c != limit_by_state(of, table.assign(inside_min=-5.0), (), 0.0, HOLD_C)[1].holding_limit_c


def test_a_state_of_few_nights_has_its_reasons_and_no_number() -> None:
    """Four nights with the film: fewer than eight heated nights, and than the five that tell of a limit."""
    of = model(116)
    few = limit_by_state(of, nights(of), (), 0.0, HOLD_C)[1]
    assert (few.holding_limit_c, few.flat_out_c) == (None, None)
    assert "heated night" in few.why_no_flat_out
    assert few.why_no_limit == f"only {few.nights} nights with heat in this state; 5 are needed"


def test_without_a_balance_there_are_no_states() -> None:
    """An empty list; why stands in the reasons."""
    none = HouseModel(house=None, why="no heater", first=FIRST, whole=np.zeros(0, dtype=bool), states=())
    assert limit_by_state(none, pd.DataFrame(), (), 0.0, None) == ()
