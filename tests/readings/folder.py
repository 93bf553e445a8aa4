"""Writes small season folders for the tests of the reader."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from reportgen.problems import SeasonError
from reportgen.readings import read_season
from reportgen.readings.types import Channel, Readings
from reportgen.season.models import Season

AIR = {"air_temperature": {"column": "Temp"}}


def logger(name: str = "bench", **more: Any) -> dict[str, Any]:
    """A crop logger with one temperature, unless told."""
    return {"name": name, "where": "crop", "files": ("a.csv",), "time": "Time", "measures": AIR} | more


def season(folder: Path, *loggers: dict[str, Any], **more: Any) -> Season:
    """A half-year season in that folder with the given loggers."""
    values = {
        "folder": folder.resolve(),
        "format": 1,
        "title": "A winter",
        "first_day": dt.date(2025, 10, 18),
        "last_day": dt.date(2026, 4, 12),
        "time_zone": "Europe/Prague",
        "logger": loggers or (logger(),),
    }
    return Season.model_validate(values | more)


def read(folder: Path, text: str | bytes, *, season_more: dict[str, Any] | None = None, **more: Any) -> Readings:
    """The readings of a folder with one logger file, a.csv, of the given text."""
    (folder / "a.csv").write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_season(season(folder, logger(**more), **(season_more or {})))


def fail(folder: Path, text: str | bytes, **more: Any) -> SeasonError:
    """The error with which reading such a folder ends."""
    try:
        read(folder, text, **more)
    except SeasonError as error:
        return error
    raise AssertionError("it was read without a problem")


def air(readings: Readings, name: str = "bench") -> Channel:
    """The air temperature of a logger."""
    channel = readings.channel(name, "air_temperature")
    assert channel is not None
    return channel


def times(channel: Channel) -> list[str]:
    """The instants of a channel in UTC, to the second."""
    return [f"{at.tz_convert('UTC'):%Y-%m-%d %H:%M:%S}" for at in channel.values.index]
