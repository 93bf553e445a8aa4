"""What a season has and has not: read often enough, read too seldom, listed and silent, not there at all."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import pytest
from made_season import channel, heater, logger, readings, season
from odd_seasons import odd_season
from said_seasons import SAID

from reportgen.charts.unknown import EVERY, QUESTIONS, WROTE_NOTHING
from reportgen.measures.there import There
from reportgen.readings import read_season
from reportgen.readings.types import Inspection
from reportgen.season import Appliance, load_season

SENSORS = ("crop_air", "crop_humidity", "outdoor_air", "outdoor_humidity", "soil")


def there_of(folder: Path) -> There:
    """What a folder has."""
    return There.of(read_season(load_season(folder)))


def limit_advice(there: There) -> str:
    """What the season is told to log to know how cold it may get outside."""
    return next(q for q in QUESTIONS if q.path == "holding_limit.outdoor_c").advice(there)


def test_sensors_read_at_noon_are_there_and_too_seldom(tmp_path: Path) -> None:
    """Five sensors, a reading a day: none tells a night, none is silent, nobody is sent to hang another."""
    there = there_of(odd_season("noon readings", tmp_path / "season"))
    assert set(SENSORS) <= there.seldom and not there.unheard
    assert not any(getattr(there, name) for name in SENSORS) and all(there.logged(name) for name in SENSORS)
    assert limit_advice(there) == EVERY


def test_a_logger_of_another_year_is_silent_and_not_seldom(tmp_path: Path) -> None:
    """It is listed and left nothing in the season: not told to be read more often, and not asked for anew."""
    there = there_of(SAID["outdoors of another year"](tmp_path / "season"))
    assert there.outdoor_named and not there.logged("outdoor_air") and not there.seldom
    assert limit_advice(there) == WROTE_NOTHING


@pytest.mark.parametrize("name", ["one thermometer", "no outdoor logger"])
def test_what_is_not_listed_is_neither(name: str, tmp_path: Path) -> None:
    """Nothing outdoors in season.toml: a logger is to be hung there."""
    there = there_of(odd_season(name, tmp_path / "season"))
    assert not there.seldom and not there.outdoor_named and not there.logged("outdoor_air")
    assert limit_advice(there).startswith("Hang a logger outdoors")


def test_a_season_of_which_nothing_is_said_lacks_nothing() -> None:
    """Words of a season whose things are not known: all there, none seldom, none silent, and a winter."""
    there = There()
    assert all(getattr(there, name) is True for name, kind in There.__annotations__.items() if kind == "bool")
    assert (there.seldom, there.unheard, there.season) == (frozenset(), frozenset(), "winter")


def test_each_thing_is_there_by_its_own_sign() -> None:
    """One thing of a season at a time; nothing else changes by it."""
    empty = There.of(readings(season()))
    names = [name for name, kind in There.__annotations__.items() if kind == "bool"]
    assert [name for name in names if getattr(empty, name)] == []
    at = pd.date_range("2026-01-05", periods=100, freq="1h", tz="Europe/Prague")
    values = pd.Series(5.0, index=at)
    yard = {"logger": "yard", "where": "outdoor"}
    loggers = (logger("bench"), logger("yard", "relative_humidity", where="outdoor"))

    def with_channel(measure: str, **more: object) -> There:
        return There.of(readings(season(loggers=loggers), channels=(channel(values, measure, **more),)))

    def appliance(kind: str) -> There:
        one = Appliance(name="a", kind=kind, rated_power_w=200.0, hours_per_day=4.0)
        return There.of(readings(season(appliances=(one,))))

    fan = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug"}
    gas = {"name": "gas heater", "role": "main", "fuel": "propane", "deliveries": "gas.csv", "unit": "kg"}
    sums = heater([("2026-01-05", "2026-01-12", 9.0, 1.0)])
    fine = heater([("2026-01-05", "2026-01-12", 9.0, 1.0)])
    fine.intervals["sparse"] = False
    visit = Inspection(line=2, date=season().first_day, bed=None, crop=None, found="", level=0, action="")
    told = {
        "crop_air": with_channel("air_temperature"),
        "crop_humidity": with_channel("relative_humidity"),
        "outdoor_air": with_channel("air_temperature", **yard),
        "outdoor_humidity": with_channel("relative_humidity", **yard),
        "soil": with_channel("soil_temperature"),
        "light": with_channel("ppfd"),
        "latitude": There.of(readings(season(place={"latitude": 10.0}))),
        "outdoor_named": There.of(readings(season(loggers=(logger("yard", where="outdoor"),)))),
        "heater": There.of(readings(season(heating=(gas,)))),
        "heat_by_hour": There.of(readings(season(), heating=(sums, fine))),
        "dehumidifier": appliance("dehumidifier"),
        "diary": There.of(readings(season(), diary=())),
        "inspections": There.of(readings(season(), inspections=(visit,))),
    }
    for name, there in told.items():
        assert [one for one in names if getattr(there, one)] == [name], name
    electric = There.of(readings(season(heating=(fan,))))
    assert electric.heater and electric.mains and not There.of(readings(season(heating=(fan, gas)))).mains
    assert not any(getattr(appliance("lamp"), one) for one in names)
    assert not There.of(readings(season(), heating=(sums,))).heat_by_hour
    assert with_channel("solar_radiation", **yard).light and empty.season == "season"
