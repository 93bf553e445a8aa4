"""Outcomes and weather of the garden days of two made days, by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.heaters import hourly, meter
from made_season import ZONE, channel, logger, readings, season

from reportgen.air import absolute_humidity_gm3
from reportgen.effects.outcomes import HEAT, LARGER_IS_BETTER, OUTCOMES, DayTable, day_table
from reportgen.effects.weather import BED_COLUMNS, EXTRAS, FROM_BED, SETS, WORDS, weather
from reportgen.readings.types import Readings
from reportgen.season.models import Place

OF: dict[str, Any] = {
    "logger": (logger("bench"), logger("out", where="outdoor")),
    "place": Place(latitude=50.0, longitude=15.0),
}
HOURS = pd.date_range("2026-01-04", "2026-01-09", freq="1h", tz=ZONE)
CLOCK = np.asarray(HOURS.hour, dtype=float)
DATES = [dt.date(2026, 1, 5), dt.date(2026, 1, 6)]


def one(values: Any, measure: str = "air_temperature", where: str = "crop", **more: Any) -> Any:
    return channel(
        pd.Series(values, HOURS), measure, logger="out" if where == "outdoor" else "bench", where=where, **more
    )


def book(*channels: Any, **more: Any) -> Readings:
    """Two garden days of hourly readings."""
    return readings(season("2026-01-05", "2026-01-06", **(OF | more.pop("of", {}))), channels=channels, **more)


def outdoors(values: Any, measure: str = "air_temperature") -> Any:
    return one(values, measure, "outdoor")


FLAT = np.zeros(len(HOURS))
IN_NIGHT = (CLOCK >= 20) | (CLOCK <= 6)


def told(table: pd.DataFrame, name: str) -> list[float]:
    return [pytest.approx(value, nan_ok=True) for value in table[name]]


def test_warmth_is_inside_less_outdoors_at_night() -> None:
    """Inside 5 °C from 20 to 6 h and 30 by day, outdoors −3 at night and 8 by day: a lift of 8 K. The coldest of 18 to
    9 h: 5 less −3, or one reading of 2 °C inside at 18 h and of −7 outdoors at 9 h: 2 + 7."""
    inside, outside = np.where(IN_NIGHT, 5.0, 30.0), np.where(IN_NIGHT, -3.0, 8.0)
    table = day_table(book(one(inside), outdoors(outside)))
    assert told(table.outcomes, "lift") == [8.0, 8.0]
    assert told(table.outcomes, "night_minimum") == [8.0, 8.0]
    low = np.where(CLOCK == 18, 2.0, inside), np.where(CLOCK == 9, -7.0, outside)
    assert told(day_table(book(one(low[0]), outdoors(low[1]))).outcomes, "night_minimum") == [9.0, 9.0]
    assert list(table.outcomes.index) == DATES
    known = {need.words: need.there.tolist() for need in table.needs["lift"]}
    assert known == {
        "the air beside the crop was not logged": [True, True],
        "the air outdoors was not logged": [True, True],
    }


def test_without_air_on_either_side_no_warmth() -> None:
    """Each with its reason; one reading is no record; the weather has its reason too."""
    no_in = day_table(book(outdoors(FLAT)))
    assert no_in.missing["lift"] == no_in.missing["night_minimum"] == "no air temperature was logged beside the crop"
    assert "weather" not in no_in.missing and not no_in.needs["lift"]
    no_out = day_table(book(one(FLAT)))
    assert "outdoor" in no_out.missing["lift"] and "outdoor" in no_out.missing["weather"]
    single = channel(pd.Series([1.0], HOURS[:1]), logger="bench")
    assert "lift" in day_table(book(single, outdoors(FLAT))).missing
    two = channel(pd.Series([1.0, 1.0], HOURS[:2]), logger="bench")
    assert "lift" in day_table(book(two, outdoors(FLAT))).outcomes


@pytest.mark.parametrize(
    ("lift", "night_h", "per_k"), [(4.0, 7, 1000 * 0.7 / 4), (4.0, 6, None), (3.0, 10, None), (3.01, 10, 1000 / 3.01)]
)
def test_watts_per_kelvin_of_nights_that_count(lift: float, night_h: int, per_k: float | None) -> None:
    """Mean watts of the night over its lift, with heat in 7 of 10 hours and a lift above 3 K. 1 kWh in each hour
    heated; heat of the garden day: 14 h by day and those of the night."""
    heated = ((CLOCK >= 20) & (20 + night_h > CLOCK)) | ((CLOCK < 6) & (night_h - 4 > CLOCK))
    log = hourly("2026-01-04", (heated | ((CLOCK >= 6) & (CLOCK < 20))).astype(float)[:-1].tolist())
    table = day_table(book(one(FLAT + lift), outdoors(FLAT), heating=(log,)))
    assert told(table.outcomes, "watts_per_kelvin")[0] == (np.nan if per_k is None else per_k)
    assert told(table.outcomes, "heat")[0] == 14.0 + night_h


def test_heat_that_is_not_by_the_hour_has_no_watts_per_kelvin() -> None:
    """A meter at noon: heat of days, no watts, and why; no heater: neither; a log without outdoor air: no watts."""
    noons = [f"2026-01-0{n} 12:00" for n in range(4, 9)]
    daily = day_table(book(one(FLAT + 9), outdoors(FLAT), heating=(meter(noons, [1.0, 2.0, 3.0, 4.0]),)))
    assert told(daily.outcomes, "heat") == [2.0, 3.0]
    assert daily.missing["watts_per_kelvin"] == "the heat was not logged by the hour"
    none = day_table(book(one(FLAT), outdoors(FLAT)))
    assert none.missing["heat"] == none.missing["watts_per_kelvin"] == "no heater is listed"
    blind = day_table(book(one(FLAT), heating=(hourly("2026-01-04", [1.0] * 120),)))
    assert blind.missing["watts_per_kelvin"] == blind.missing["lift"] and "heat" in blind.outcomes


def test_damp_at_night() -> None:
    """Humidity 70 from noon, 90 from midnight to noon, in straight lines of an hour: above 80 from half past 23 to 6 h,
    6.5 h; its mean of the night by the trapezia; moisture by the air's temperature."""
    humidity = np.where(CLOCK < 12, 90.0, 70.0)
    table = day_table(book(one(FLAT + 10), one(humidity, "relative_humidity"), outdoors(FLAT)))
    assert told(table.outcomes, "damp_hours") == [6.5, 6.5]
    assert told(table.outcomes, "night_humidity")[0] == (3 * 70 + 80 + 6 * 90) / 10
    wet, dry = (float(absolute_humidity_gm3(np.array([10.0]), np.array([rh]))[0]) for rh in (90.0, 70.0))
    assert told(table.outcomes, "moisture")[0] == (3 * dry + (wet + dry) / 2 + 6 * wet) / 10
    dry_house = day_table(book(one(FLAT), outdoors(FLAT)))
    assert all("no humidity" in dry_house.missing[name] for name in ("night_humidity", "moisture", "damp_hours"))
    apart = day_table(book(one(humidity, "relative_humidity"), outdoors(FLAT)))
    assert apart.missing["moisture"] == "air temperature and humidity were not logged together"
    assert "night_humidity" in apart.outcomes


def test_a_night_half_unlogged_has_no_damp_hours() -> None:
    """Logged from 20 h to 3 h only: 7 of 10 hours are too few."""
    hours = HOURS[
        (pd.Timestamp("2026-01-06 03:00", tz=ZONE) >= HOURS) | (pd.Timestamp("2026-01-06 08:00", tz=ZONE) < HOURS)
    ]
    wet = channel(pd.Series(95.0, hours), "relative_humidity", logger="bench")
    found = told(day_table(book(wet, one(FLAT), outdoors(FLAT))).outcomes, "damp_hours")
    assert found == [np.nan, 10.0]


def test_the_bed_and_the_light() -> None:
    """Soil from noon to noon: mean of 6 °C by night hours, swing of 4 K. Light of the date: 100 µmol m⁻² s⁻¹ all day
    are 8.64 mol; as energy 8.64 MJ, its unit told; by quanta where both were logged."""
    soil = np.where(CLOCK == 2, 10.0, 6.0)
    table = day_table(book(one(FLAT), outdoors(FLAT), one(soil, "soil_temperature", depth_m=0.1)))
    assert told(table.outcomes, "soil_swing") == [4.0, 4.0]
    assert told(table.outcomes, "soil_mean") == [6.0 + 4.0 / 24] * 2
    for measure, unit in (("ppfd", "mol/m²"), ("solar_radiation", "MJ/m²")):
        lit = day_table(book(one(FLAT + 100, measure), outdoors(FLAT)))
        assert told(lit.outcomes, "daily_light") == [8.64, 8.64] and lit.units["daily_light"] == unit
    both = day_table(book(one(FLAT + 100, "solar_radiation"), one(FLAT + 50, "ppfd"), outdoors(FLAT)))
    assert told(both.outcomes, "daily_light")[0] == 4.32 and both.units["daily_light"] == "mol/m²"
    assert "no light was logged inside" in day_table(book(one(FLAT), outdoors(FLAT))).missing["daily_light"]
    assert {"soil_mean", "soil_swing"} <= set(day_table(book(one(FLAT))).missing)


def test_units_and_signs_of_the_outcomes() -> None:
    """As the methods page: a smaller lift, mean of the bed or light is worse, a smaller value of any other better."""
    table: DayTable = day_table(book(one(FLAT), outdoors(FLAT)))
    assert set(table.units) == set(OUTCOMES) == set(SETS)
    assert {"lift", "night_minimum", "soil_mean", "daily_light"} == LARGER_IS_BETTER
    assert {"heat", "watts_per_kelvin"} == HEAT
    assert table.units["heat"] == "kWh" and table.units["watts_per_kelvin"] == "W/K" and table.units["lift"] == "K"


def weather_of(values: Any, *more: Any, **of: Any) -> pd.DataFrame:
    return weather(book(outdoors(values), *more, of=of))


def test_the_windows_of_the_outdoor_air() -> None:
    """A day that reads its hour: means of N 20–06 h, of 6–20 h, of noon to noon and of the day before, by the trapezia
    of each window; the warmest of 9 to 19 h less the coldest of 18 to 9 h."""
    found = weather_of(CLOCK)
    # 20 … 23 on a straight line, then down to 0 in an hour, up to 6: 64.5 + 11.5 + 18 over 10 h.
    assert told(found, "ton")[0] == (64.5 + 11.5 + 18.0) / 10
    assert told(found, "tod")[0] == 13.0
    whole = (23 * 11.5 + 11.5) / 24
    assert told(found, "tun")[0] == told(found, "tp")[0] == whole
    assert told(found, "R")[0] == 19.0
    rising = np.arange(len(HOURS), dtype=float)  # hours since midnight of the fourth
    up = weather_of(rising)
    assert told(up, "tp") == [12.0, 36.0] and told(up, "ton") == [49.0, 73.0]
    assert told(up, "tod") == [37.0, 61.0] and told(up, "tun") == [48.0, 72.0]
    assert told(up, "R") == [43.0 - 42.0, 67.0 - 66.0]


def test_how_far_the_day_stayed_under_a_base() -> None:
    """At 3 °C: 2, 7 and 12 K; at 12 °C by the day: only 15 is not reached."""
    cold, mild = weather_of(FLAT + 3), weather_of(FLAT + 12)
    assert [told(cold, f"hd{base}")[0] for base in (5, 10, 15)] == [2.0, 7.0, 12.0]
    assert [told(mild, f"hd{base}")[0] for base in (5, 10, 15)] == [0.0, 0.0, 3.0]


def test_the_suns_columns() -> None:
    """200 W/m² all day: 17.28 MJ of the date, 8.64 of the next morning. A clear day of the almanac times the day's
    rise in tens of kelvin; without a latitude neither."""
    found = weather_of(CLOCK, outdoors(FLAT + 200, "solar_radiation"))
    assert told(found, "sol")[0] == 17.28 and told(found, "solm")[0] == 8.64
    assert told(found, "csrng")[0] == float(found["cs"].iloc[0]) * 19.0 / 10
    colder = weather_of(-np.arange(len(HOURS), dtype=float))
    assert told(colder, "csrng")[0] == float(colder["cs"].iloc[0]) * float(colder["R"].iloc[0]) / 10
    assert told(weather_of(FLAT), "csrng")[0] == 0.0
    bare = weather_of(CLOCK, place=Place())
    assert not {"cs", "csrng", "sol"} & set(bare)
    quanta = weather_of(CLOCK, outdoors(FLAT + 100, "ppfd"))
    assert told(quanta, "sol")[0] == 8.64


def test_moisture_bed_and_wind() -> None:
    """Saturated air of 0 °C holds 4.85 g/m³ (tables); the bed of 19 to 20 h and that less the night; wind of the night;
    nothing without outdoor air."""
    soil = np.where((CLOCK == 19) | (CLOCK == 20), 9.0, 4.0)
    found = weather_of(
        FLAT, outdoors(FLAT + 100, "relative_humidity"), one(soil, "soil_temperature", depth_m=0.1),
        outdoors(np.where(IN_NIGHT, 3.0, 8.0), "wind_speed"),
    )  # fmt: skip
    assert found["ahout"].iloc[0] == pytest.approx(4.85, abs=0.01)
    assert told(found, "ts")[0] == 9.0 and told(found, "tsd")[0] == 9.0 and told(found, "windn")[0] == 3.0
    nothing = weather(book(one(FLAT)))
    assert list(nothing.index) == DATES and not len(nothing.columns)
    for count, known in ((1, False), (2, True)):
        few = channel(pd.Series(1.0, HOURS[:count]), logger="out", where="outdoor")
        assert ("ton" in weather(book(few))) is known
    assert not {"ahout", "ts", "windn"} & set(weather_of(FLAT))


def test_every_column_has_its_words() -> None:
    """What a set may use is said on the page; the bed's own columns are those that rest on the bed."""
    used = {name for sets in SETS.values() for names in sets for name in names}
    beside = {name for table in (EXTRAS, FROM_BED) for names in table.values() for name in names}
    assert used | beside == set(WORDS)
    assert {"tsd", "ts", "tsr"} == BED_COLUMNS
