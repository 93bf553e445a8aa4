"""What happens without heat, on houses that follow the models' own equations exactly."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE

from reportgen.measures.frost_failure import after_failure, failures, model_of, without_heat

U, G, C = 100.0, 50.0, -60.0  # W/K, W/K, W


def hours(heated: bool, days: int = 30) -> pd.DataFrame:
    """An hour table of nights whose air obeys the balance (heated) or f = 0.4, c = 0.5 (unheated)."""
    index = pd.date_range("2026-01-05", periods=24 * days, freq="1h", tz=ZONE)
    day = np.arange(len(index)) // 24
    outside = -5.0 + 6.0 * np.sin(day * 1.3) + 2.0 * np.cos(np.arange(len(index)) * 2 * np.pi / 24)
    soil = 8.0 + np.cos(day * 0.7)
    inside = np.full(len(index), 6.0) if heated else outside + 0.4 * (soil - outside) + 0.5
    watts = U * (inside - outside) - G * (soil - inside) + C if heated else np.zeros(len(index))
    table = pd.DataFrame(
        {"inside": inside, "outside": outside, "soil": soil, "watts": watts, "unsure": 0.0}, index=index
    )
    table["inside_start"], table["inside_end"] = table["inside"], table["inside"]
    table["heated"] = float(heated)
    table["clock_h"] = index.hour
    table["night"] = [(t - pd.Timedelta(hours=12)).date() for t in index]
    return table


def test_the_balance_is_found_again() -> None:
    """U, G and c come back: shares U/(U+G) = 2/3 and 1/3, constant 60/150 = 0.4 °C."""
    model = model_of(hours(heated=True), heated=True)
    assert model.kind == "balance"
    assert (model.share_out, model.share_soil, model.constant_c) == pytest.approx((2 / 3, 1 / 3, 0.4))


def test_after_a_failure_by_hand() -> None:
    """At −10 °C, soil s at the start: (2·(−10) + (s − 0.25·h))/3 + 0.4 after h = 3 and 8 hours, at most the hold."""
    model = model_of(hours(heated=True), heated=True)
    rows = {row.outdoor_c: row for row in after_failure(model, 6.0, 0.0, -20.0)}
    assert sorted(rows) == [-20.0, -15.0, -10.0, -5.0, 0.0]
    for h, found in ((3.0, rows[-10.0].after_3h_c), (8.0, rows[-10.0].after_8h_c)):
        assert found == pytest.approx((2 * -10.0 + model.soil_c - 0.25 * h) / 3 + 0.4)
    assert rows[-10.0].hours_to_line == "<3"  # about −3.8 °C, ± 1.8 K: surely below
    assert rows[0.0].hours_to_line == ">8"  # about 2.6 °C, ± 1.8 K: surely above


def test_a_band_across_the_line_spans_the_classes() -> None:
    """About 0.5 °C after 3 h at −3 °C with ± 1.8 K may lie on either side."""
    model = model_of(hours(heated=True), heated=True)
    (row,) = (r for r in after_failure(model, 6.0, 0.0, -3.2) if r.outdoor_c == -3.2)
    assert row.hours_to_line == "<3 or 3-8 or >8"


def test_an_unheated_house_tells_by_its_soil() -> None:
    """f and c of the unheated relation come back, and the winter without heat is what was measured."""
    table = hours(heated=False)
    model = model_of(table, heated=False)
    assert model.kind == "unheated nights"
    assert (model.share_soil, model.constant_c) == pytest.approx((0.4, 0.5))
    nights = pd.Index(sorted(set(table["night"]))[1:-1])
    bare = without_heat(model, table, nights)
    dark = table[table["clock_h"] < 6]
    assert bare.to_numpy() == pytest.approx(dark.groupby("night")["inside"].min().reindex(nights).to_numpy())


def test_no_model_without_soil_or_with_few_nights() -> None:
    """The reason says which is missing."""
    bare = hours(heated=True).assign(soil=np.nan)
    assert "soil" in model_of(bare, heated=True).why
    few = hours(heated=True, days=6)
    assert not model_of(few, heated=True).kind
    assert after_failure(model_of(few, heated=True), 6.0, 0.0, None) == ()


def test_a_failure_is_two_hours_without_heat_under_the_hold_and_falling() -> None:
    """Five hours without heat, 6 °C falling 1 K/h: under 4 °C and falling from 02 to 05 o'clock, down to 1 °C."""
    table = hours(heated=True, days=3)
    night = pd.date_range("2026-01-06", periods=5, freq="1h", tz=ZONE)
    table.loc[night, "heated"] = 0.0
    table.loc[night, "inside_start"] = [6.0, 5.0, 4.0, 3.0, 2.0]
    table.loc[night, "inside_end"] = [5.0, 4.0, 3.0, 2.0, 1.0]
    table.loc[night, "inside"] = [5.5, 4.5, 3.5, 2.5, 1.5]
    (found,) = failures(table, pd.Series(6.0, index=table.index))
    assert (found.start, found.end) == (night[2], night[4] + pd.Timedelta(hours=1))
    assert (found.hours, found.minimum_c) == (3.0, pytest.approx(1.0))


def test_no_failure_while_warm_or_steady_or_heated() -> None:
    """Without heat but near the hold; under it but not falling; falling but heated; unknown heat."""
    base = hours(heated=True, days=3)
    night = pd.date_range("2026-01-06", periods=5, freq="1h", tz=ZONE)
    hold = pd.Series(6.0, index=base.index)
    cold = {"inside": 1.5, "inside_start": 2.0, "inside_end": 1.0}
    for heated, values in (
        (0.0, {"inside": 4.5, "inside_start": 5.0, "inside_end": 4.2}),
        (0.0, {"inside": 2.0, "inside_start": 2.0, "inside_end": 2.0}),
        (1.0, cold),
        (np.nan, cold),
    ):
        table = base.copy()
        table.loc[night, "heated"] = heated
        for name, value in values.items():
            table.loc[night, name] = value
        assert failures(table, hold) == ()
    assert isinstance(base["night"].iloc[0], dt.date)
