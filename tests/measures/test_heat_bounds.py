"""Heat and money between bounds where part of the use is not known; every sum is done in the docstring."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import made_season
import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, heater, picking, readings

from reportgen.measures.harvest import harvest
from reportgen.measures.heat_nights import heat_nights
from reportgen.measures.heat_sums import (
    Sum,
    _total,
    cost_of,
    gaps_in,
    heat_of,
    known_share,
    total_cost,
    total_heat,
    unlooked,
)
from reportgen.measures.heating_hours import HEATERS, LOGGED, LOOSE, heat_by_hour, heated_hours
from reportgen.readings.heating import read_heating
from reportgen.readings.types import DiaryEntry, HeatSupply

PLUG = {
    "name": "plug",
    "where": "elsewhere",
    "files": ("plug.csv",),
    "time": "t",
    "measures": {"heater_power": {"column": "W"}},
}
YARD = {
    "name": "yard",
    "where": "outdoor",
    "files": ("y.csv",),
    "time": "t",
    "measures": {"air_temperature": {"column": "a"}},
}


def air(values: list[float]) -> pd.Series:
    """Outdoor air of five days, one value a day."""
    hours = pd.date_range("2026-01-05", "2026-01-10", freq="1h", tz=ZONE, inclusive="left")
    return pd.Series(np.repeat(values, 24), index=hours, dtype=np.float64)


def with_gap(by_day_c: list[float], watts: list[float], diary: tuple[DiaryEntry, ...] = (), **more: Any) -> HeatSupply:
    """A power log of five days, one wattage a day, NaN where the log is silent."""
    stamps = pd.date_range("2026-01-05", "2026-01-10", freq="10min", tz=ZONE, inclusive="left")
    power = pd.Series(np.repeat(watts, 144), index=stamps).dropna()
    source = {"name": "heater", "fuel": "electricity", "logger": "plug", "price": 0.5} | more
    season = made_season.season("2026-01-05", "2026-01-09", heating=(source,), logger=(PLUG, YARD))
    channels = (channel(power, "heater_power", "plug"), channel(air(by_day_c), where="outdoor", logger="yard"))
    return read_heating(season, channels, diary)[0][0]


def test_a_gap_is_bounded_by_the_hardest_logged_stretch_of_its_length() -> None:
    """400 W for two days, silence for one, 1000 W for one at −10 °C, 400 W for one. The silent day had 0 °C: no colder
    than the day of 1000 W, so it gave at most 1000 W × 24 h = 24 kWh, for 12.00, though the heater could give 48. A log
    ends ten minutes before its gap, so the gap is a little over a day: 1 %."""
    found = with_gap([0.0, 0.0, 0.0, -10.0, 0.0], [400.0, 400.0, np.nan, 1000.0, 400.0], rated_power_w=2000.0)
    assert found.gaps["heat_kwh"].sum() == pytest.approx(24.0, rel=0.01)
    assert found.gaps["cost"].sum() == pytest.approx(12.0, rel=0.01)
    heat, money = heat_of(found), cost_of(found)
    known = 24 * (0.4 + 0.4 + 1.0 + 0.4)
    assert (heat.low, heat.high) == pytest.approx((known, known + 24.0), rel=0.01)
    assert (money.low, money.high) == pytest.approx((known / 2, known / 2 + 12.0), rel=0.01)
    assert known_share((found,), 120.0) == pytest.approx(0.8, rel=0.01)


def test_a_gap_colder_than_anything_logged_is_bounded_by_the_rated_power() -> None:
    """At −10 °C nothing was logged: 2000 W × 24 h = 48 kWh."""
    found = with_gap([0.0, 0.0, -10.0, 0.0, 0.0], [400.0, 400.0, np.nan, 400.0, 400.0], rated_power_w=2000.0)
    assert found.gaps["heat_kwh"].sum() == pytest.approx(48.0, rel=0.01)


def test_without_a_rating_the_largest_logged_hour_bounds_a_cold_gap() -> None:
    """The largest hour had 700 W: 16.8 kWh."""
    found = with_gap([0.0, 0.0, -10.0, 0.0, 0.0], [400.0, 700.0, np.nan, 400.0, 400.0])
    assert found.gaps["heat_kwh"].sum() == pytest.approx(16.8, rel=0.01)


def test_before_the_day_on_which_the_heater_came_nothing_is_unknown() -> None:
    """The log begins on the third day: no gap if a diary line brings the heater on that day, else there is one."""
    watts = [np.nan, np.nan, 400.0, 400.0, 400.0]
    line = DiaryEntry(
        line=2, date=dt.date(2026, 1, 7), time=None, kind="change", what="Heater hung up", touches=("heater",),
        reversible=True, hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    assert not len(with_gap([0.0] * 5, watts, (line,)).gaps)
    assert heat_of(with_gap([0.0] * 5, watts, (line,))).high is None
    assert len(with_gap([0.0] * 5, watts).gaps) == 1


def test_the_cost_of_a_kilogram_carries_what_is_not_known() -> None:
    """44 … 56 of money over 4 kg are 11 … 14 a kilogram."""
    gap = pd.DataFrame(
        {
            "start": [pd.Timestamp("2026-01-20", tz=ZONE)],
            "end": [pd.Timestamp("2026-01-21", tz=ZONE)],
            "heat_kwh": [24.0],
            "cost": [12.0],
        }
    )
    made = replace(heater([("2026-01-05", "2026-01-20", 88.0, 44.0)]), gaps=gap)
    found = harvest(readings(heating=(made,), harvest=(picking("2026-01-06", 4.0),)))
    assert (found.cost_per_kg, found.cost_per_kg_low, found.cost_per_kg_high) == pytest.approx((11.0, 11.0, 14.0))
    assert (found.kwh_per_kg_low, found.kwh_per_kg_high) == pytest.approx((22.0, 28.0))


def test_a_cost_that_nobody_gave_is_absent_and_no_zero() -> None:
    """A heater that used nothing and has no price costs nothing that could be told; it does not hide the other's 44."""
    idle = heater([("2026-01-05", "2026-02-02", 0.0, float("nan"))], name="idle")
    paid = heater([("2026-01-05", "2026-02-02", 88.0, 44.0)])
    assert cost_of(idle).value is None and heat_of(idle).value == 0.0
    assert total_cost((idle,)).value is None and total_heat((idle,)).value == 0.0
    assert total_cost((idle, paid)).value == pytest.approx(44.0)
    dear = heater([("2026-01-05", "2026-02-02", 9.0, float("nan"))], name="dear")
    assert total_cost((dear, paid)).value is None


def test_a_small_mat_on_a_meter_bounds_its_nights_and_does_not_hide_them() -> None:
    """A fan heater of 1000 W by the hour, and a mat of 55 W of which a fortnight's 9.24 kWh are known: 27.5 W spread.
    Each night is 1000 W to 1055 W. A gas heater of 1300 W on the same fortnight's sum hides them, as it must."""
    season = made_season.season("2026-01-05", "2026-01-18", heating=())
    hours = pd.date_range("2026-01-05", "2026-01-19", freq="1h", tz=ZONE)
    table = pd.DataFrame(
        {
            "start": hours[:-1],
            "end": hours[1:],
            "bought": 1.0,
            "heat_kwh": 1.0,
            "cost": 0.3,
            "sparse": False,
            "estimated": False,
        }
    )
    fan = replace(heater([]), form="logger", intervals=table)
    mat = heater([("2026-01-05", "2026-01-19", 9.24, 3.0)], name="mat", rated_power_w=55.0)
    by_hour = heat_by_hour(readings(season, heating=(fan, mat)))
    assert by_hour[HEATERS].to_numpy() == pytest.approx(1027.5)
    assert by_hour[LOGGED].to_numpy() == pytest.approx(1000.0)
    assert by_hour[LOOSE].to_numpy() == pytest.approx(55.0)
    nights = heat_nights(readings(season, heating=(fan, mat)), by_hour).dropna(subset=["least_w"])
    assert len(nights) >= 13
    assert nights["least_w"].to_numpy() == pytest.approx(1000.0) and nights["most_w"].to_numpy() == pytest.approx(
        1055.0
    )
    gas = heater([("2026-01-05", "2026-01-19", 100.0, 3.0)], name="gas", rated_power_w=1300.0)
    assert heat_by_hour(readings(season, heating=(fan, gas)))[HEATERS].isna().all()


def test_hours_are_heated_by_the_heater_that_was_logged_and_not_by_the_mat() -> None:
    """The mat's spread sum runs day and night; an hour is heated when the logged heater ran."""
    season = made_season.season("2026-01-05", "2026-01-18", heating=())
    hours = pd.date_range("2026-01-05", "2026-01-19", freq="1h", tz=ZONE)
    on = np.where(hours[:-1].hour < 12, 1.0, 0.0)
    table = pd.DataFrame({"start": hours[:-1], "end": hours[1:], "bought": on, "heat_kwh": on, "cost": 0.0})
    fan = replace(heater([]), form="logger", intervals=table.assign(sparse=False, estimated=False))
    mat = heater([("2026-01-05", "2026-01-19", 9.24, 3.0)], name="mat", rated_power_w=55.0)
    assert heated_hours(heat_by_hour(readings(season, heating=(fan, mat)))).mean() == pytest.approx(0.5)


def test_a_stock_of_which_nothing_was_burnt_gave_no_heat_and_cost_nothing_where_it_was_paid_for() -> None:
    """50 kg bought for 30.00 and still there: 0 kWh, 0.00; without what was paid no cost is told, and a source of which
    no record was used has neither."""
    none = heater([]).intervals
    full = replace(made_season.store(50.0, left=50.0), left_paid=30.0)
    paid = replace(heater([]), intervals=none, form="deliveries", stock=full)
    assert (heat_of(paid).value, heat_of(paid).low, cost_of(paid).value, cost_of(paid).high) == (0.0, None, 0.0, None)
    untold = replace(paid, stock=made_season.store(50.0, left=50.0))
    assert (heat_of(untold).value, cost_of(untold).value) == (0.0, None)
    assert cost_of(untold).reason == "no price is given for fan heater"
    assert total_cost((paid,)).value == 0.0 and total_cost((untold,)).reason == "no price is given"
    bare = replace(paid, stock=None)
    assert (heat_of(bare).value, cost_of(bare).value) == (None, None)
    assert heat_of(bare).reason == cost_of(bare).reason == "no usable record of its use for fan heater"
    assert unlooked(bare, "heat_kwh") == unlooked(paid, "heat_kwh") == 0.0


def test_what_nobody_looked_at_since_may_not_have_been_burnt() -> None:
    """Two bottles of 50 and 30 kWh (15.00 and 9.00), the second not looked at: 80 kWh, 50 at the least; 24.00, 15.00 at
    the least; without its price none."""
    since = pd.Timestamp("2026-01-12", tz=ZONE)
    rows = [("2026-01-05", "2026-01-12", 50.0, 15.0), ("2026-01-12", "2026-02-02", 30.0, 9.0)]
    made = heater(rows, form="deliveries", stock=replace(made_season.store(50.0, 30.0), unlooked_since=since))
    made = replace(made, intervals=made.intervals.assign(known_sum=[0, 1]))
    heat_, money = heat_of(made), cost_of(made)
    assert (heat_.value, heat_.low, heat_.high) == (80.0, 50.0, 80.0)
    assert (money.value, money.low, money.high) == (24.0, 15.0, 24.0)
    looked = replace(made, stock=made_season.store(50.0, 30.0))
    assert (unlooked(looked, "heat_kwh"), heat_of(looked).low) == (0.0, None)
    one = replace(made, intervals=made.intervals.assign(known_sum=[0, 0]))  # one sum, the rest of it since the 12th
    assert unlooked(one, "heat_kwh") == 30.0
    free = replace(made, intervals=made.intervals.assign(cost=[15.0, float("nan")]))
    assert np.isnan(unlooked(free, "cost"))


def test_totals_and_bounds_add_up() -> None:
    """44 for the one, all known; 80 for the other, 50 at the least: 124, between 94 and 124. One unknown: none, and
    why."""
    whole, part = Sum(value=44.0), Sum(value=80.0, low=50.0, high=80.0)
    assert _total((whole, part)) == Sum(value=124.0, low=94.0, high=124.0)
    assert _total((whole, whole)) == Sum(value=88.0)
    assert _total((whole, Sum(value=None, reason="no price"))) == Sum(value=None, reason="no price")
    assert gaps_in(Sum(value=80.0, low=80.0, high=90.0)) and not gaps_in(part) and not gaps_in(whole)
    assert not gaps_in(Sum(value=None, low=1.0, high=2.0))


def test_the_share_of_the_season_in_which_all_use_is_known() -> None:
    """Of 240 hours 24 are lost of one heater and 60 of the other: three quarters."""
    lost = [
        pd.DataFrame({"start": [pd.Timestamp("2026-01-06", tz=ZONE)], "end": [pd.Timestamp(end, tz=ZONE)],
                      "heat_kwh": [0.0], "cost": [0.0]})
        for end in ("2026-01-07 00:00", "2026-01-08 12:00")
    ]  # fmt: skip
    both = tuple(replace(heater([]), gaps=one) for one in lost)
    assert known_share(both, 240.0) == pytest.approx(0.75)
    assert known_share(both[:1], 240.0) == pytest.approx(0.9)
    assert known_share((), 240.0) is None and known_share((heater([]),), 240.0) == 1.0
    assert known_share(both, 40.0) == 0.0
