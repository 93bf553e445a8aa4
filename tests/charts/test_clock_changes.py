"""The worst night's picture and table where the clocks change in it: at two, at midnight, in zones of half hours."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pandas as pd
import pytest

from reportgen.charts.worst_view import _hours, hour_of

NIGHTS = [
    ("Australia/Adelaide", "2024-04-06 12:00"),  # back at three, half an hour off
    ("America/Havana", "2024-11-03 00:00"),  # back at one, over midnight
    ("America/Havana", "2024-03-10 00:00"),  # forward at midnight
    ("Atlantic/Azores", "2024-10-26 20:00"),  # back at one, over midnight
    ("Europe/Prague", "2024-03-30 20:00"),
]


@pytest.mark.parametrize(("zone", "start"), NIGHTS)
def test_hours_of_the_clock_are_named_in_a_night_whose_clocks_change(zone: str, start: str) -> None:
    """By the standard library: every tick stands at a full third hour of the clock, whatever minute was the coldest."""
    begun = datetime.fromisoformat(start).replace(tzinfo=UTC) - timedelta(hours=4)
    for quarter in range(48):
        at = pd.Timestamp(begun + timedelta(minutes=17 * quarter)).tz_convert(zone)
        ticks = _hours(at, 9.4)
        assert len(ticks) >= 4
        for tick in ticks:
            told = (at + pd.Timedelta(hours=tick.at)).tz_convert("UTC").round("1ms").to_pydatetime()
            local = told.astimezone(ZoneInfo(zone))
            assert (local.minute, local.second, local.hour % 3) == (0, 0, 0)


@pytest.mark.parametrize(("zone", "start"), NIGHTS)
def test_readings_are_set_to_the_hour_of_the_clock_they_lie_in(zone: str, start: str) -> None:
    """By the standard library, minute by minute through the change."""
    begun = datetime.fromisoformat(start).replace(tzinfo=UTC) - timedelta(hours=6)
    instants = [begun + timedelta(minutes=n) for n in range(24 * 60)]
    found = hour_of(pd.DatetimeIndex(instants).tz_convert(zone))
    for instant, hour in zip(instants, found, strict=True):
        there = instant.astimezone(ZoneInfo(zone))
        assert hour.timestamp() == (instant - timedelta(minutes=there.minute)).timestamp()
        assert hour.minute == 0
