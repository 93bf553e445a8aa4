"""Local civil time → UTC, held to a public station record that gives both for every hour.

Source: tests/outside/data/station_2013.md (Newark, 2013; local time with summer time beside UTC). The extract holds
the hour that comes twice (3 November) and the one that never was (10 March).
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from zoneinfo import ZoneInfo

import pandas as pd
import pytest
from readings.folder import logger, season

from reportgen.readings import read_season
from reportgen.readings.clock import changes
from reportgen.readings.sniff import sniff

DATA = Path(__file__).parent / "data" / "station_2013.csv"
MEASURES = {
    "outdoor_temperature": {"column": "temp", "unit": "degF"},
    "outdoor_humidity": {"column": "humid"},
}


def station() -> pd.DataFrame:
    """The record, its UTC as instants."""
    table = pd.read_csv(DATA)
    return table.assign(utc=pd.to_datetime(table["time_hour"], utc=True))


def written(table: pd.DataFrame, form: str) -> list[str]:
    """The local civil time of each row, from its own columns of year, month, day and hour."""
    return [dt.datetime(*row).strftime(form) for row in table[["year", "month", "day", "hour"]].itertuples(index=False)]


@pytest.mark.parametrize("form", ["%Y-%m-%d %H:%M", "%m/%d/%Y %I:%M %p", "%d.%m.%Y %H:%M"])
def test_local_hours_become_the_instants_of_the_record(tmp_path: Path, form: str) -> None:
    """All 421 rows, both clock changes among them, land on the record's own UTC; tolerance none."""
    table = station()
    table.assign(Time=written(table, form)).to_csv(tmp_path / "a.csv", index=False)
    days = {"first_day": dt.date(2013, 1, 1), "last_day": dt.date(2013, 12, 31), "time_zone": "America/New_York"}
    readings = read_season(season(tmp_path, logger(where="outdoor", measures=MEASURES), **days))
    channel = readings.channel("bench", "outdoor_humidity")
    assert channel is not None
    assert (len(channel.values), readings.files[0].rows_used) == (421, 421)
    assert list(channel.values.index.tz_convert("UTC")) == list(table["utc"])
    assert channel.values.tolist() == table["humid"].tolist()
    assert not readings.warnings


def test_the_record_s_utc_column_is_read_as_it_stands(tmp_path: Path) -> None:
    """ISO 8601 with Z gives the same instants whatever the season's zone."""
    station().to_csv(tmp_path / "a.csv", index=False)
    days = {"first_day": dt.date(2013, 1, 1), "last_day": dt.date(2013, 12, 31), "time_zone": "Asia/Tokyo"}
    outdoor = logger(where="outdoor", time="time_hour", measures=MEASURES)
    channel = read_season(season(tmp_path, outdoor, **days)).channel("bench", "outdoor_temperature")
    assert channel is not None
    assert list(channel.values.index.tz_convert("UTC")) == list(station()["utc"])


def test_the_local_clock_is_seen_from_its_changes(tmp_path: Path) -> None:
    """A look at the file alone finds that its clock is set to summer time."""
    table = station()
    frame = pd.DataFrame({"Time": written(table, "%Y-%m-%d %H:%M"), "Temp": table["temp"]})
    frame.to_csv(tmp_path / "a.csv", index=False)
    found = sniff(tmp_path / "a.csv", ZoneInfo("America/New_York"))
    assert found is not None
    assert found.clock == "local"


def test_the_changes_of_a_zone_are_found_to_the_second() -> None:
    """US rules since 2007 (Energy Policy Act of 2005, sec. 110): second Sunday of March and first of November, 2:00."""
    zone, begin = ZoneInfo("America/New_York"), dt.datetime(2013, 1, 1, tzinfo=dt.UTC)
    found = changes(zone, int(begin.timestamp() * 1000), int(begin.timestamp() * 1000) + 365 * 86_400_000)
    told = [f"{dt.datetime.fromtimestamp(change.at / 1000, dt.UTC):%Y-%m-%d %H:%M:%S}" for change in found]
    assert told == ["2013-03-10 07:00:00", "2013-11-03 06:00:00"]
