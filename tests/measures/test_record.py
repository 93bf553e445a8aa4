"""The record: hours covered, where the gaps are, and what review.json says of every file and channel."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_season import ZONE, channel, readings, season

from reportgen.measures.record import covered, gaps, hours_between, record
from reportgen.plain import plain
from reportgen.readings.types import FileAccount


def logged(start: str, end: str, step: str = "10min") -> pd.Series:
    """A steady 5 °C between two local times."""
    index = pd.date_range(start, end, freq=step, tz=ZONE)
    return pd.Series(5.0, index=index)


def test_a_whole_season_is_covered_and_has_no_gap() -> None:
    """28 days of ten-minute readings are 672 hours by the calendar."""
    found = record(readings(channels=(channel(logged("2026-01-05", "2026-02-02")),)))
    assert found.channels[0].hours_recorded == pytest.approx(672.0)
    assert found.channels[0].share == pytest.approx(1.0)
    assert found.gaps.empty


def test_gaps_are_found_longest_first_with_the_season_s_ends() -> None:
    """A day missing in the middle, six hours at the start and two days at the end are three gaps."""
    values = pd.concat([logged("2026-01-05 06:00", "2026-01-10"), logged("2026-01-11", "2026-01-31")])
    found = record(readings(channels=(channel(values),)))
    assert found.gaps["hours"].tolist() == pytest.approx([48.0, 24.0, 6.0])
    assert found.gaps["start"].tolist()[1] == pd.Timestamp("2026-01-10", tz=ZONE)


def test_months_share_the_hours_by_the_calendar() -> None:
    """5–31 January is 27 days, February has one: 648 and 24 hours; half of February's day is half."""
    found = record(readings(channels=(channel(logged("2026-01-05", "2026-02-01 12:00")),)))
    assert found.months["hours"].tolist() == pytest.approx([648.0, 12.0])
    assert found.months["share"].tolist() == pytest.approx([1.0, 0.5])
    assert found.months["month"].tolist() == [dt.date(2026, 1, 5), dt.date(2026, 2, 1)]


def test_the_day_of_a_clock_change_has_its_own_length() -> None:
    """29 March 2026 has 23 hours in this zone, and a full record of it is a share of 1."""
    of = season("2026-03-28", "2026-03-30")
    found = record(readings(of, channels=(channel(logged("2026-03-28", "2026-03-31")),)))
    assert found.days["hours"].tolist() == pytest.approx([24.0, 23.0, 24.0])
    assert found.days["share"].tolist() == pytest.approx([1.0, 1.0, 1.0])


def test_what_lies_outside_the_season_does_not_count() -> None:
    """Readings before and after change neither hours nor extremes."""
    values = logged("2026-01-01", "2026-02-10")
    values.iloc[0] = -30.0
    found = record(readings(channels=(channel(values),))).channels[0]
    assert found.hours_recorded == pytest.approx(672.0)
    assert found.minimum == 5.0


def test_the_mean_weighs_by_time_not_by_reading() -> None:
    """A day at 0 °C every minute and a day at 10 °C every ten minutes are 5 °C (the ramp between is 10 min: 0.02 K)."""
    of = season("2026-01-05", "2026-01-06")
    cold = logged("2026-01-05", "2026-01-05 23:59", "1min") * 0.0
    warm = logged("2026-01-06", "2026-01-07") * 2.0
    found = record(readings(of, channels=(channel(pd.concat([cold, warm])),))).channels[0]
    assert found.mean == pytest.approx(5.0, abs=0.02)


def test_a_switch_log_covers_each_hold_up_to_a_day() -> None:
    """On, off, on with three silent days: 2 + 1 + 24 hours are covered."""
    times = ["2026-01-10 00:00", "2026-01-10 02:00", "2026-01-10 03:00", "2026-01-13 03:00"]
    on = pd.Series([1.0, 0.0, 1.0, 0.0], index=pd.DatetimeIndex(times).tz_localize(ZONE))
    spans = covered(channel(on, "heater_on"), season())
    assert float(np.diff(spans, axis=1).sum()) / 3600 == pytest.approx(27.0)


def test_a_channel_without_a_reading_in_the_season_says_why() -> None:
    """Null with a reason for every statistic; one gap as long as the season."""
    found = record(readings(channels=(channel(logged("2025-01-01", "2025-01-02")),)))
    section = plain(found)
    entry = section["channels"][0]
    for name in ("first", "last", "minimum", "mean", "maximum"):
        assert entry[name] is None
        assert section["reasons"][f"channels.0.{name}"] == "no reading in the season"
    assert found.gaps["hours"].tolist() == pytest.approx([672.0])


def test_a_counter_has_no_mean() -> None:
    """The mean of a running counter says nothing, and that is its reason."""
    found = record(readings(channels=(channel(logged("2026-01-05", "2026-02-02"), "heater_energy"),)))
    assert found.channels[0].mean is None
    assert found.reasons["channels.0.mean"] == "a running counter has no mean"


def test_the_section_has_every_key_of_the_contract() -> None:
    """Keys of files and channels as review.json's contract names them, and no others; no channel has its reason."""
    account = FileAccount(file="a.csv", logger="bench", rows_read=9, rows_used=7, set_aside={"repeated": 2})
    section = plain(record(readings(files=(account,), channels=(channel(logged("2026-01-05", "2026-01-06")),))))
    assert set(section) == {"files", "channels", "reasons"}
    assert set(section["files"][0]) == {"file", "logger", "rows_read", "rows_used", "set_aside"}
    keys = "logger measure values_read values_used set_aside first last step_s hours_recorded hours_in_season"
    assert set(section["channels"][0]) == set(keys.split()) | {"minimum", "mean", "maximum"}
    assert plain(record(readings()))["reasons"] == {"channels": "no usable channel"}


@settings(max_examples=50, deadline=None)
@given(st.lists(st.integers(0, 28 * 24 * 60), min_size=2, max_size=40, unique=True))
def test_covered_and_missing_make_the_season(minutes: list[int]) -> None:
    """Whatever was logged, hours covered and hours in gaps add up to the season, and so do the days."""
    of = season()
    index = pd.DatetimeIndex([of.start + pd.Timedelta(minutes=m) for m in sorted(minutes)])
    spans = covered(channel(pd.Series(1.0, index=index)), of)
    missing = sum((end - start) / pd.Timedelta(hours=1) for start, end in gaps(spans, of))
    total = float(np.diff(spans, axis=1).sum()) / 3600
    assert total + missing == pytest.approx(of.hours, abs=1e-3)
    edges = np.linspace(of.start.timestamp(), of.end.timestamp(), 29)
    assert hours_between(spans, edges).sum() == pytest.approx(total, abs=1e-6)
