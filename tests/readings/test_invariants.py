"""Over every season of the tests: each row is used or set aside, and no hour is recorded that no two readings enclose.

The hours are worked out here from the times of the readings alone: two neighbours enclose the time between them when
they lie at most 3 h apart (soil 6 h), the most over which the season folder's contract joins; on/off logs hold for
24 h.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from odd_seasons import ODD, odd_season
from scenarios import SCENARIOS

import reportgen
from reportgen.measures.record import ChannelRecord, record
from reportgen.readings import read_season
from reportgen.readings.types import Channel, Readings
from reportgen.season import load_season

SAMPLE = Path(reportgen.__file__).parents[1] / "sample_season"


def enclosed_h(times: pd.DatetimeIndex, start: pd.Timestamp, end: pd.Timestamp, most_h: float) -> float:
    """Hours of the season between neighbours at most so far apart."""
    seconds = np.array([stamp.timestamp() for stamp in times])
    first, last = seconds[:-1], seconds[1:]
    near = last - first <= most_h * 3600.0
    inside = np.minimum(last, end.timestamp()) - np.maximum(first, start.timestamp())
    return float(np.clip(inside[near], 0.0, None).sum() / 3600.0)


def most_h(measure: str) -> float:
    """How far apart two readings of a measure may ever be."""
    if measure in ("heater_on", "fan_on"):
        return 24.0
    return 6.0 if measure in ("soil_temperature", "soil_moisture") else 3.0


def check_rows(readings: Readings) -> None:
    """Rows in = used + aside by reason, per file and per channel."""
    assert readings.files
    for file in readings.files:
        assert file.rows_read == file.rows_used + sum(file.set_aside.values()), file.file
        assert min([file.rows_used, *file.set_aside.values()]) >= 0
    for channel in readings.channels:
        name = (channel.logger, channel.measure)
        assert channel.values_read == channel.values_used + sum(channel.set_aside.values()), name
        assert channel.values_used == len(channel.values), name
        rows = sum(file.rows_read for file in readings.files if file.logger == channel.logger)
        assert channel.values_read <= rows, name


def check_hours(readings: Readings, channel: Channel, told: ChannelRecord) -> None:
    """No more hours recorded than the readings enclose, nor than the season has; no extreme where nothing is joined."""
    season, times = readings.season, pd.DatetimeIndex(channel.values.index)
    most = enclosed_h(times, season.start, season.end, most_h(channel.measure)) if len(times) > 1 else 0.0
    assert told.hours_recorded <= most + 1e-6, told.name
    assert told.hours_recorded <= told.hours_in_season + 1e-6
    if not most and channel.measure != "heater_energy":
        assert (told.minimum, told.maximum) == (None, None), told.name


def check(folder: Path) -> Readings:
    """Everything of one season folder."""
    readings = read_season(load_season(folder))
    check_rows(readings)
    for channel, told in zip(readings.channels, record(readings).channels, strict=True):
        check_hours(readings, channel, told)
    return readings


@pytest.mark.parametrize("name", ODD)
def test_odd_seasons(name: str, tmp_path: Path) -> None:
    """Their files are plain CSV: the rows read are also counted here, from the files themselves."""
    folder = tmp_path / "season"
    made = odd_season(name, folder)
    readings = check(made)
    for file in readings.files:
        lines = [line for line in (made / file.file).read_text(encoding="utf-8").splitlines() if line.strip(" ,")]
        assert file.rows_read == len(lines) - 1


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda scenario: scenario.name)
def test_winters_of_known_truth(scenario: object, tmp_path: Path) -> None:
    """The simulator's winters."""
    check(scenario.write(tmp_path / "season"))  # type: ignore[attr-defined]


def test_the_sample_season() -> None:
    """Both of its winters."""
    folders = [toml.parent for toml in sorted(SAMPLE.rglob("season.toml"))]
    assert folders
    for folder in folders:
        check(folder)


def test_an_hour_made_up_would_be_seen() -> None:
    """Readings at 0, 1, 2, 6 and 10 h: 2 h at most within 3 h, 10 h within 6 h; the season begins at 1 h."""
    times = pd.DatetimeIndex(pd.Timestamp("2026-01-05", tz="UTC") + pd.to_timedelta([0, 1, 2, 6, 10], unit="h"))
    day = times[0], times[0] + pd.Timedelta(days=1)
    assert enclosed_h(times, *day, 3.0) == pytest.approx(2.0)
    assert enclosed_h(times, *day, 6.0) == pytest.approx(10.0)
    assert enclosed_h(times, times[1], day[1], 3.0) == pytest.approx(1.0)
