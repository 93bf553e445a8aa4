"""What a season has and has not: read often enough, read too seldom, listed and silent, not there at all."""

from __future__ import annotations

from pathlib import Path

import pytest
from odd_seasons import odd_season
from said_seasons import SAID

from reportgen.charts.unknown import EVERY, QUESTIONS, WROTE_NOTHING
from reportgen.measures.there import There
from reportgen.readings import read_season
from reportgen.season import load_season

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
