"""Raw folders in many shapes: what begin writes, inspect calls ready and analyse reads is what was written there."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from statistics import fmean

import pandas as pd
import pytest
from begin.raw_folders import SHAPES, Folder, Sensor

from reportgen import analyse
from reportgen.begin import begin, start
from reportgen.inspection import inspect
from reportgen.readings.types import Readings
from reportgen.season import Season


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.__name__)
def test_a_raw_folder_is_read_as_it_was_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, shape: Callable[[Path], Folder]
) -> None:
    """Every sensor under its measure, place and unit and no other, days, time columns, rows of each file, the daily
    means of every sensor worked out from the written numbers, the heaters' sums; and inspect finds no problem."""
    monkeypatch.setattr(start, "computer_zone", lambda: "Europe/Prague")
    truth = shape(tmp_path)
    text = begin(tmp_path, None, False).text
    found = inspect(tmp_path)
    assert [problem.text() for problem in found.problems] == []
    assert found.season is not None and found.complete
    assert declared(found.season) == {(s.where, s.measure, s.column, s.unit) for s in truth.sensors}
    assert (found.season.first_day, found.season.last_day, found.season.show) == (*truth.days, truth.show)
    times = truth.time if isinstance(truth.time, tuple) else (truth.time,)
    assert {logger.time_columns for logger in found.season.loggers} == {times}
    unbroken = " ".join(text.replace("\n#", " ").split())
    for words in truth.told:
        assert words in text or words in unbroken
    readings = analyse(tmp_path).readings
    assert {file.file: file.rows_read for file in readings.files} == truth.rows
    for sensor in truth.sensors:
        assert daily_means(readings, sensor) == pytest.approx(means_of(sensor, truth), abs=1e-9)
    supplied = {one.name: float(one.intervals["heat_kwh"].sum()) for one in readings.heating}
    assert supplied == pytest.approx(dict(truth.heating))


def declared(season: Season) -> set[tuple[str, str, str | int, str | None]]:
    """What season.toml says of each column: where, measure, column, unit."""
    return {
        (logger.where, measure, column.column, column.unit)
        for logger in season.loggers
        for measure, column in logger.measures.items()
    }


def daily_means(readings: Readings, sensor: Sensor) -> dict[dt.date, float]:
    """The mean of every local day as the reader gives it."""
    logger = next(
        logger
        for logger in readings.season.loggers
        if (own := logger.measures.get(sensor.measure)) is not None and own.column == sensor.column
    )
    channel = readings.channel(logger.name, sensor.measure)
    assert channel is not None and channel.where == sensor.where
    days = pd.DatetimeIndex(channel.values.index).date
    return {day: float(mean) for day, mean in channel.values.groupby(days).mean().items()}


def means_of(sensor: Sensor, truth: Folder) -> dict[dt.date, float]:
    """The same from the numbers that were written, in plain arithmetic."""
    days: dict[dt.date, list[float]] = {}
    for moment, value in sensor.values.items():
        if truth.days[0] <= moment.date() <= truth.days[1]:
            days.setdefault(moment.date(), []).append(sensor.kept(value))
    return {day: fmean(values) for day, values in days.items()}
