"""Where a local day begins, in zones whose clocks change at midnight; against the standard library's own zones."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from made_season import season

CHANGES = (
    ("Atlantic/Azores", dt.date(2023, 10, 29)),  # back from 1:00 to 0:00: two midnights
    ("America/Havana", dt.date(2025, 11, 2)),  # the same
    ("America/Havana", dt.date(2026, 3, 8)),  # on from 0:00 to 1:00: no midnight
    ("Asia/Beirut", dt.date(2026, 3, 29)),  # the same
    ("America/Asuncion", dt.date(2023, 3, 26)),  # back from 24:00 to 23:00: the day before is the longer one
    ("Europe/Prague", dt.date(2025, 10, 26)),  # at 3:00: midnight is not touched
)


def first_minute(zone: str, day: dt.date) -> float:
    """The first minute [s since 1970] in which the clocks of that zone show the day, minute by minute."""
    at = dt.datetime.combine(day, dt.time(), tzinfo=dt.UTC) - dt.timedelta(hours=15)
    shown = [at + dt.timedelta(minutes=n) for n in range(30 * 60)]
    return min(minute for minute in shown if minute.astimezone(ZoneInfo(zone)).date() == day).timestamp()


@pytest.mark.parametrize(("zone", "day"), CHANGES)
def test_a_day_begins_with_its_first_minute(zone: str, day: dt.date) -> None:
    made = season("2025-10-01", "2026-04-30").model_copy(update={"time_zone": zone})
    assert made.midnight(day).timestamp() == first_minute(zone, day)
    assert made.midnight(day).tz_convert(zone).date() == day


@pytest.mark.parametrize(("zone", "day"), CHANGES)
def test_a_season_over_such_a_midnight_has_all_its_hours(zone: str, day: dt.date) -> None:
    """Three days around it: as many hours as lie between their first minutes."""
    first, last = day - dt.timedelta(days=1), day + dt.timedelta(days=1)
    made = season(first.isoformat(), last.isoformat()).model_copy(update={"time_zone": zone})
    begun, ended = first_minute(zone, first), first_minute(zone, last + dt.timedelta(days=1))
    assert made.hours == (ended - begun) / 3600.0
    assert [edge.timestamp() for edge in made.midnights] == [
        first_minute(zone, first + dt.timedelta(days=n)) for n in range(4)
    ]
