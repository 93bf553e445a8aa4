"""How long a dehumidifier ran, by logs whose hours are known beforehand."""

from __future__ import annotations

import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.damp_air import inside
from reportgen.measures.damp_dryers import Dryer, dryers
from reportgen.season.sources import Appliance

CLOCK = pd.date_range("2026-01-05", "2026-01-12", freq="1h", tz=ZONE)


def ran(measure: str, rated: float | None) -> Dryer:
    """A dehumidifier of 200 W that runs a quarter of every hour for 4 days (24 h in all) and then stands; 90 % in the
    house for the first two days, 70 % after, by hourly readings."""
    quarter = pd.Series([0.05] * 96 + [0.0] * 72, index=CLOCK[1:])  # kWh in the hour that ends here
    steps = pd.date_range(CLOCK[0], CLOCK[-1], freq="5min")
    on = pd.Series(((steps.minute < 15) & (steps < CLOCK[96])).astype(float), index=steps)
    counter = pd.concat([pd.Series([0.0], index=CLOCK[:1]), quarter.cumsum()])
    values = {"heater_energy": counter, "heater_on": on, "heater_power": on * 200.0}[measure]
    damp = pd.Series([90.0] * 48 + [70.0] * (len(CLOCK) - 48), index=CLOCK)
    one = Appliance(name="dryer", kind="dehumidifier", logger="plug", rated_power_w=rated, setpoint_pct=80.0)
    loggers = (logger("bench", "relative_humidity"), logger("plug", measure, where="elsewhere"))
    made = season(appliance=(one,), logger=loggers)
    plug = channel(values, measure, "plug", where="elsewhere")
    read = readings(made, channels=(channel(damp, "relative_humidity"), plug))
    moist = inside(read)
    assert moist is not None
    return dryers(moist, read)[0]


def test_a_counter_gives_hours_by_its_rated_power() -> None:
    """4.8 kWh over 200 W: 24 h, of which 12 in the damp half (the last hour of it falls through 80 % half way)."""
    found = ran("heater_energy", 200.0)
    assert found.ran_h == pytest.approx(24.0)
    assert found.still_above_h == pytest.approx(12.0, abs=0.2)
    assert (found.by_rating, found.in_part, found.hours_known) == (True, False, 168.0)


def test_hours_well_above_the_setting_are_those_beyond_the_accuracy() -> None:
    """At 84 % all week and set to 80: well above with ± 3 points, not with ± 5; without an accuracy not told."""
    one = Appliance(name="dryer", kind="dehumidifier", logger="plug", rated_power_w=200.0, setpoint_pct=80.0)
    loggers = (logger("bench", "relative_humidity"), logger("plug", "heater_power", where="elsewhere"))
    plug = channel(pd.Series(200.0, index=CLOCK), "heater_power", "plug", where="elsewhere")

    def well(accuracy: float | None) -> float | None:
        damp = channel(pd.Series(84.0, index=CLOCK), "relative_humidity", accuracy=accuracy)
        read = readings(season("2026-01-05", "2026-01-11", appliance=(one,), logger=loggers), channels=(damp, plug))
        moist = inside(read)
        assert moist is not None
        return dryers(moist, read)[0].well_above_h

    hours = well(3.0)
    assert hours is not None and hours > 160.0
    assert well(5.0) == 0.0 and well(None) is None


def test_a_counter_without_a_rated_power_tells_the_hours_in_part_of_which_it_ran() -> None:
    """96 hours with something drawn; no more is known, and the result says so."""
    found = ran("heater_energy", None)
    assert found.ran_h == pytest.approx(96.0)
    assert (found.by_rating, found.in_part) == (False, True)


@pytest.mark.parametrize("measure", ["heater_on", "heater_power"])
def test_a_log_of_five_minutes_tells_itself(measure: str) -> None:
    """A quarter of 96 hours; a power log's slopes between two readings count as running, five minutes on each side."""
    found = ran(measure, 200.0)
    assert found.ran_h == pytest.approx(24.0 if measure == "heater_on" else 32.0, abs=0.2)
    assert (found.by_rating, found.in_part) == (False, False)


def test_hours_that_were_not_logged_count_neither_way() -> None:
    """On all the week at 90 %, but for twelve hours of which nothing is logged, and for what lies outside the season:
    156 hours known, all of them run and damp."""
    steps = pd.date_range(CLOCK[0] - pd.Timedelta("1D"), CLOCK[-1] + pd.Timedelta("1D"), freq="5min")
    kept = steps[(steps <= CLOCK[30]) | (steps >= CLOCK[42])]
    one = Appliance(name="dryer", kind="dehumidifier", logger="plug", rated_power_w=200.0, setpoint_pct=80.0)
    loggers = (logger("bench", "relative_humidity"), logger("plug", "heater_power", where="elsewhere"))
    plug = channel(pd.Series(200.0, index=kept), "heater_power", "plug", where="elsewhere")
    damp = channel(pd.Series(90.0, index=CLOCK), "relative_humidity")
    read = readings(season("2026-01-05", "2026-01-11", appliance=(one,), logger=loggers), channels=(damp, plug))
    moist = inside(read)
    assert moist is not None
    (found,) = dryers(moist, read)
    assert (found.hours_known, found.ran_h, found.still_above_h) == pytest.approx((156.0, 156.0, 156.0), abs=0.2)


def test_only_a_dehumidifier_with_a_setting_is_told() -> None:
    """One without a setting, and a fan on the same plug, are not."""
    damp = pd.Series(90.0, index=CLOCK)
    made = season(
        appliance=(
            Appliance(name="dryer", kind="dehumidifier", logger="plug", rated_power_w=200.0),
            Appliance(name="fan", kind="fan", logger="plug", rated_power_w=50.0),
        ),
        logger=(logger("bench", "relative_humidity"), logger("plug", "heater_on", where="elsewhere")),
    )
    plug = channel(pd.Series(1.0, index=CLOCK), "heater_on", "plug", where="elsewhere")
    read = readings(made, channels=(channel(damp, "relative_humidity"), plug))
    moist = inside(read)
    assert moist is not None and dryers(moist, read) == ()


def test_a_dehumidifier_of_which_nothing_is_logged_is_not_told() -> None:
    """Its logger has no channel, or one reading; or its counter fell all the time, so that nothing is known."""
    one = Appliance(name="dryer", kind="dehumidifier", logger="plug", rated_power_w=200.0, setpoint_pct=80.0)
    loggers = (logger("bench", "relative_humidity"), logger("plug", "heater_energy", where="elsewhere"))
    damp = channel(pd.Series(90.0, index=CLOCK), "relative_humidity")
    falls = pd.Series([3.0, 2.0, 1.0], index=CLOCK[:3])
    for plug in ((), (falls[:1],), (falls,)):
        logged = tuple(channel(values, "heater_energy", "plug", where="elsewhere") for values in plug)
        read = readings(season(appliance=(one,), logger=loggers), channels=(damp, *logged))
        moist = inside(read)
        assert moist is not None and dryers(moist, read) == ()
