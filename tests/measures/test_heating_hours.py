"""Heat by hour, day and week from supplies known finely, as sums, or by rated hours."""

from __future__ import annotations

from dataclasses import replace

import made_season
import numpy as np
import pandas as pd
import pytest

from reportgen.measures.exposure import to_seconds
from reportgen.measures.heating_hours import (
    HEATERS,
    LOGGED,
    TOTAL,
    full_power_from,
    heat_between,
    heat_by_day,
    heat_by_hour,
    heated_hours,
    hourly_mean,
)

SEASON = made_season.season("2026-01-05", "2026-01-18")


def _fine(**more: object):  # 0.5 kWh in each hour of the first three days
    rows = [
        (
            f"2026-01-{5 + n // 24:02d} {n % 24:02d}:00",
            f"2026-01-{5 + (n + 1) // 24:02d} {(n + 1) % 24:02d}:00",
            0.5,
            0.15,
        )
        for n in range(72)
    ]
    supply = made_season.heater(rows, **more)
    return replace(supply, form="logger", intervals=supply.intervals.assign(sparse=False))


def _weather() -> pd.Series:
    """Two mild days, then −10 °C: all hours of a two-week record."""
    hours = pd.date_range("2026-01-05", "2026-01-19", freq="1h", tz=made_season.ZONE)
    return pd.Series(np.where(np.arange(len(hours)) < 48, 0.0, -10.0), index=hours)


def test_an_hour_of_half_a_kilowatt_hour_is_500_watts():
    """0.5 kWh in one hour is a mean of 500 W; hours beyond the record are unknown, not zero."""
    table = heat_by_hour(made_season.readings(SEASON, heating=(_fine(),)))
    assert table["fan heater"].iloc[:72].to_numpy() == pytest.approx(500.0)
    assert table["fan heater"].iloc[72:].isna().all()
    assert heated_hours(table).iloc[:72].eq(1).all()


def test_a_sum_is_never_an_hours_figure_but_its_days_follow_the_cold():
    """A reading over 14 days has no hours; its days carry degree-hours below the hold, and are marked as spread."""
    yard_logger = {
        "name": "yard",
        "where": "outdoor",
        "files": ("y.csv",),
        "time": "t",
        "measures": {"air_temperature": {"column": "a"}},
    }
    season = made_season.season("2026-01-05", "2026-01-18", aims={"hold_c": 5.0}, logger=(yard_logger,))
    heater = made_season.heater([("2026-01-05", "2026-01-19", 190.0, 57.0)])
    yard = made_season.channel(_weather(), where="outdoor", logger="yard")
    given = made_season.readings(season, heating=(heater,), channels=(yard,))
    assert heat_by_hour(given)[HEATERS].isna().all()
    days = heat_by_day(given)
    # 5 K below the hold on two days, 15 K on twelve: 190 kWh over 10 + 180 parts, 1 kWh a part (one hour of change)
    assert days["kwh"].iloc[0] == pytest.approx(5.0, rel=0.01)
    assert days["kwh"].iloc[5] == pytest.approx(15.0, rel=0.01)
    assert days["kwh"].sum() == pytest.approx(190.0) and days["cost"].sum() == pytest.approx(57.0)
    assert days["spread"].all()


def test_what_runs_by_rated_hours_heats_evenly_through_the_day():
    """6 h of 200 W a day is 50 W in the sum of all heat, and no heater."""
    lamp = made_season.heater(
        [("2026-01-05", "2026-01-06", 1.2, 0.4)], name="lamp", role="appliance", form="rated hours"
    )
    table = heat_by_hour(made_season.readings(SEASON, heating=(_fine(),), appliances=(lamp,)))
    assert table[TOTAL].iloc[:24].to_numpy() == pytest.approx(550.0)
    assert table[HEATERS].iloc[:24].to_numpy() == pytest.approx(500.0)


def test_a_heater_known_only_as_a_large_sum_leaves_the_hours_unknown():
    """Half of the heat from cylinders cannot be placed: no total by the hour. A hundredth may be left out."""
    big = made_season.heater([("2026-01-05", "2026-01-19", 36.0, 0.0)], name="gas")
    small = made_season.heater([("2026-01-05", "2026-01-19", 0.4, 0.0)], name="gas")
    assert heat_by_hour(made_season.readings(SEASON, heating=(_fine(), big)))[HEATERS].isna().all()
    assert heat_by_hour(made_season.readings(SEASON, heating=(_fine(), small)))[HEATERS].iloc[0] == pytest.approx(500.0)


def test_between_two_instants_counts_parts_of_hours_and_says_what_is_known():
    """From 00:30 to 02:00 at 0.5 kWh an hour: 0.75 kWh, all of it known; after the record nothing is."""
    given = made_season.readings(SEASON, heating=(_fine(),))
    stamps = pd.DatetimeIndex(["2026-01-05 00:30", "2026-01-10 00:00"]).tz_localize(made_season.ZONE)
    ends = pd.DatetimeIndex(["2026-01-05 02:00", "2026-01-11 00:00"]).tz_localize(made_season.ZONE)
    found = heat_between(given, to_seconds(stamps), to_seconds(ends))
    assert found.kwh.tolist() == pytest.approx([0.75, 0.0])
    assert found.known.tolist() == pytest.approx([1.0, 0.0])
    assert not found.spread.any()


def test_an_hour_on_the_line_of_full_power_runs_flat_out() -> None:
    """1 900 W of 2 000 W (95 %) as the differences of a running sum: some differ from 1 900 in their last bits, all are
    flat out; 1 899 W is not."""
    drawn = 1000.0 * np.diff(np.cumsum([1.9] * 200))
    assert (drawn < 1900.0).any()
    assert (drawn >= full_power_from(2000.0)).all() and full_power_from(2000.0) > 1899.0
    assert full_power_from(float("inf")) == float("inf")


def test_a_mean_of_an_hour_needs_48_minutes_of_it():
    """Four fifths of an hour on record are enough, a minute less is not; the mean is of what is there."""
    zero = pd.Timestamp("2026-01-05", tz=made_season.ZONE)
    hours = pd.date_range(zero, periods=2, freq="1h")
    for minutes, known in ((48, True), (47, False)):
        values = pd.Series([4.0, 6.0], index=zero + pd.to_timedelta([0, minutes], unit="min"))
        found = hourly_mean(values, hours)
        assert bool(np.isfinite(found[0])) is known and np.isnan(found[1])
        if known:
            assert found[0] == pytest.approx(5.0)


def test_an_hour_is_heated_above_two_percent_of_the_largest():
    """Of 1000 W that is 20 W; what the mat on a meter did does not count; unknown stays unknown; nothing is nothing."""
    logged = pd.Series([1000.0, 20.0, 20.1, 0.0, np.nan])
    table = pd.DataFrame({LOGGED: logged, HEATERS: logged + 50.0})
    assert heated_hours(table).tolist() == pytest.approx([1.0, 0.0, 1.0, 0.0, np.nan], nan_ok=True)
    assert heated_hours(pd.DataFrame({HEATERS: logged})).tolist()[:4] == [1.0, 0.0, 1.0, 0.0]
    assert heated_hours(pd.DataFrame({LOGGED: [0.0, 0.0]})).tolist() == [0.0, 0.0]
    assert heated_hours(pd.DataFrame({LOGGED: [np.nan]})).isna().all()
