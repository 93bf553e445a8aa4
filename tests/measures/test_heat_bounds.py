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
from reportgen.measures.heat_sums import cost_of, heat_of, known_share, total_cost, total_heat
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
