"""What the frost page says of nights that were not, where a season carries no balance of the house."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest

from reportgen.measures.frost_ahead import ahead, gap_low
from reportgen.measures.frost_fit import Regression
from reportgen.measures.house.season import HouseModel

WHY = "only 12 dark hours were heated and fully logged; 150 are needed"


def table(nights: int = 20) -> pd.DataFrame:
    """Nights of which every second was heated: inside 0.5 × outdoors + 4 where not, 6 °C where heated."""
    outdoors = np.linspace(-8.0, 6.0, nights)
    heated = np.arange(nights) % 2 == 0
    return pd.DataFrame(
        {
            "outdoor_min": outdoors,
            "inside_min": np.where(heated, 6.0, 0.5 * outdoors + 4.0),
            "share": 1.0,
            "outdoor_share": 1.0,
            "heated_h": np.where(heated, 8.0, 0.0),
        },
        index=pd.Index([dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(nights)], name="date"),
    )


def none() -> HouseModel:
    """No house could be fitted."""
    return HouseModel(house=None, why=WHY, first=dt.date(2026, 1, 1), whole=np.zeros(0, dtype=bool), states=())


def test_without_a_balance_nothing_is_forecast_and_the_reason_stands() -> None:
    """No night without heat, no failure, no flat out: each with the reason."""
    found = ahead(none(), table(), 6.0, 0.0, None)
    assert found.season is None and found.after == () and found.flat is None
    assert found.stopped_nights == 0
    assert not found.nights.notna().any().any()
    assert set(found.reasons) == {"without_heat", "after_failure", "heater_flat_out_c"}
    assert all(why == WHY for why in found.reasons.values())


def test_the_bound_is_the_coldest_night_plus_the_least_lift_without_heat() -> None:
    """Unheated nights lift 4 − 0.5 · outdoors, least on the mildest of them; the coldest of all nights is −8 °C."""
    found = ahead(none(), table(), 6.0, 0.0, None)
    mildest = float(table()["outdoor_min"].iloc[-1])
    assert found.may_fall_to_c == pytest.approx(-8.0 + 4.0 - 0.5 * mildest)


def test_with_no_night_without_heat_not_even_a_bound_is_told() -> None:
    """Heated throughout: how little the house keeps by itself was never seen."""
    assert ahead(none(), table().assign(heated_h=8.0), 6.0, 0.0, None).may_fall_to_c is None


def test_a_gap_is_told_by_the_line_of_the_unheated_nights_and_never_under_the_outdoor_air() -> None:
    """On the line at −4 °C: 2 °C; far out the line would end above, never more than 1 K under outdoors."""
    found = ahead(none(), table(), 6.0, 0.0, None)
    assert isinstance(found.in_gap, Regression)
    assert (found.in_gap.slope, found.in_gap.intercept) == (pytest.approx(0.5), pytest.approx(4.0))
    assert gap_low(found, -4.0) == pytest.approx(2.0, abs=0.01)
    steep = table().assign(inside_min=lambda t: np.where(t["heated_h"] > 0, 6.0, 2.0 * t["outdoor_min"]))
    assert gap_low(ahead(none(), steep, 6.0, 0.0, None), -20.0) == pytest.approx(-21.0)


@pytest.mark.parametrize("column", ["share", "outdoor_share"])
def test_a_night_without_heat_counts_with_four_fifths_of_it_on_record(column: str) -> None:
    """Of either air; less tells nothing of the house. Of a house of which no heat is known all nights are without."""
    for share, told in ((0.8, True), (0.79, False)):
        found = ahead(none(), table().assign(**{column: share}), 6.0, 0.0, None)
        assert (found.may_fall_to_c is not None) is told
    unknown = table().assign(heated_h=np.nan)
    least = float((unknown["inside_min"] - unknown["outdoor_min"]).min())
    assert ahead(none(), unknown, 6.0, 0.0, None).may_fall_to_c == pytest.approx(-8.0 + least)
    partly = table()
    partly.loc[partly.index[-1], "heated_h"] = np.nan  # the mildest: not known to be without heat, so not asked
    mildest = float(partly["outdoor_min"].iloc[-3])
    assert ahead(none(), partly, 6.0, 0.0, None).may_fall_to_c == pytest.approx(-8.0 + 4.0 - 0.5 * mildest)
