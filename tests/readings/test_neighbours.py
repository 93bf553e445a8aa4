"""Loggers held against one another: units, the sun, places, clocks. Told, never changed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from readings.folder import logger, season

from reportgen.readings import read_season
from reportgen.readings.types import Readings

START, DAYS = "2025-11-01", 84


def weather(step: str = "10min", late_s: float = 0.0, drift_s_per_day: float = 0.0) -> pd.Series:
    """An invented house's air through twelve weeks: days of changing swing, on a clock that is late or drifts."""
    times = pd.date_range(START, periods=DAYS * 1440 // 10, freq="10min", tz="UTC")
    true = times.as_unit("s").asi8 - late_s - drift_s_per_day * np.arange(len(times)) / 144.0
    days = np.arange(-2, DAYS + 2)
    rng = np.random.default_rng(7)
    swing, level = 5 + 3 * rng.random(len(days)), 6 + 3 * rng.standard_normal(len(days)).cumsum() * 0.2
    at = (true - times[0].timestamp()) / 86_400.0
    values = np.interp(at, days + 0.5, level) + np.interp(at, days + 0.5, swing) * np.sin(2 * np.pi * (at - 0.3))
    return pd.Series(np.round(values, 1), index=times)


def folder(path: Path, curves: dict[str, pd.Series], **more: Any) -> Readings:
    """A season of crop loggers, one a curve, on UTC clocks."""
    loggers = []
    for name, values in curves.items():
        values.rename("Temp").to_csv(path / f"{name}.csv", index_label="Time", date_format="%Y-%m-%d %H:%M")
        loggers.append(logger(name, files=(f"{name}.csv",), clock="utc", main=name == "bench") | more.get(name, {}))
    return read_season(season(path, *loggers))


def slugs(readings: Readings) -> set[str]:
    """Names of what was seen."""
    return {finding.slug for finding in readings.findings}


def test_two_loggers_that_agree_give_no_finding(tmp_path: Path) -> None:
    """The same air seen twice, a little noise between: nothing to tell."""
    noise = np.random.default_rng(3).normal(0, 0.2, len(weather()))
    assert slugs(folder(tmp_path, {"bench": weather(), "door": (weather() + noise).round(1)})) == set()


def test_fahrenheit_read_as_celsius_is_asked_about(tmp_path: Path) -> None:
    """1.8 × the other logger + 32 is °F; with its unit declared there is nothing to ask."""
    curves = {"bench": weather(), "door": (weather() * 1.8 + 32).round(1)}
    readings = folder(tmp_path, curves)
    assert [(warning.slug, warning.column) for warning in readings.warnings] == [
        ("fahrenheit-as-celsius", "[[logger]] door · air_temperature")
    ]
    column = {"measures": {"air_temperature": {"column": "Temp", "unit": "degF"}}}
    assert slugs(folder(tmp_path, curves, door=column)) == set()


def test_a_lasting_difference_is_told(tmp_path: Path) -> None:
    """4 K apart all winter is more than two sensors of half a degree and two places allow; 1 K is not."""
    assert slugs(folder(tmp_path, {"bench": weather(), "door": weather() + 1.0})) == set()
    (finding,) = folder(tmp_path, {"bench": weather(), "door": weather() + 4.0}).findings
    assert (finding.slug, finding.logger) == ("loggers-disagree", "door")
    assert finding.words.startswith("door reads 4.0 K above bench in the middle of 2\u202f016 common hours")


def test_two_crop_loggers_of_two_houses_are_asked_about(tmp_path: Path) -> None:
    """Nights 5 K apart are asked about, of the colder one; 3 K are not, nor is a logger that stands elsewhere."""
    curves = {"bench": weather(), "shed": weather() - 5.0}
    (warning,) = folder(tmp_path, curves).warnings
    assert (warning.slug, warning.column) == ("one-folder-one-house", "[[logger]] shed · where")
    words = "the nights of shed are 5.0\u00a0K colder than those of bench, and both say"
    assert warning.found.startswith(words)
    assert not folder(tmp_path, {"bench": weather(), "shed": weather() - 3.0}).warnings
    assert not folder(tmp_path, curves, shed={"where": "elsewhere"}).warnings


def test_warm_days_alone_make_no_second_house(tmp_path: Path) -> None:
    """9 K warmer by day under the same nights is a place in the sun of one house."""
    sunny = weather()
    sunny[(sunny.index.hour >= 8) & (sunny.index.hour < 18)] += 9.0
    assert not folder(tmp_path, {"bench": weather(), "door": sunny}).warnings


def test_a_sensor_in_the_sun_is_told(tmp_path: Path) -> None:
    """10 K above the other on every third noon, the same at night."""
    hot = weather()
    hours, day = hot.index.hour, hot.index.day_of_year
    hot[(hours >= 10) & (hours < 14) & (day % 3 == 0)] += 10.0
    (finding,) = folder(tmp_path, {"bench": weather(), "door": hot}).findings
    assert (finding.slug, finding.logger) == ("sun-on-sensor", "door")


def test_a_clock_that_runs_away_is_told_with_its_minutes(tmp_path: Path) -> None:
    """30 s a day are about 38 min between the middles of the first and last of twelve weeks."""
    (finding,) = folder(tmp_path, {"bench": weather(), "door": weather(drift_s_per_day=30.0)}).findings
    assert finding.slug == "clock-drift"
    minutes = float(finding.words.partition("apart: ")[2].partition(" min")[0])
    assert abs(minutes - 38) <= 5  # five-minute grid, tenths of a degree
    assert "neither was shifted" in finding.words


def test_a_steady_lag_is_no_drift(tmp_path: Path) -> None:
    """Another place warms later, every day: that is the place and no clock."""
    assert slugs(folder(tmp_path, {"bench": weather(), "door": weather(late_s=1200.0)})) == set()


def test_a_clock_set_an_hour_ahead_between_two_visits(tmp_path: Path) -> None:
    """A leap of an hour and the fall back ten days later are told with their dates; no reading is moved."""
    curve = weather().iloc[:6000]
    times = curve.index.to_series()
    times.iloc[2000:3440] += pd.Timedelta(hours=1)
    wrong = pd.Series(curve.to_numpy(), index=pd.DatetimeIndex(times))
    readings = folder(tmp_path, {"bench": wrong})
    (finding,) = [finding for finding in readings.findings if finding.slug == "clock-hour-wrong"]
    assert f"{finding.start:%Y-%m-%d}" == "2025-11-14"
    assert "10.0 days the clock stood an hour ahead" in finding.words
