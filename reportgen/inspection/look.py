"""Looks at a season folder without ever failing: what cannot be read becomes a problem, the rest is shown."""

from __future__ import annotations

from pathlib import Path

from reportgen.inspection.found import Found
from reportgen.measures.record import record
from reportgen.problems import Problem, SeasonError
from reportgen.readings import read_season
from reportgen.readings.types import Readings
from reportgen.season import Season, load_season


def inspect(folder: str | Path) -> Found:
    """Everything that can be said of a folder, be it whole or broken.

    Where the folder has problems, each logger is tried by itself, so that the good ones are still shown.
    """
    folder = Path(folder)
    try:
        season = load_season(folder)
    except SeasonError as error:
        return _found(folder, None, None, error.problems)
    try:
        readings = read_season(season)
    except SeasonError as error:
        return _found(folder, season, _what_can_be_read(season), error.problems)
    return _found(folder, season, readings, readings.warnings)


def _found(folder: Path, season: Season | None, readings: Readings | None, told: tuple[Problem, ...]) -> Found:
    return Found(
        folder=folder,
        season=season,
        readings=readings,
        record=record(readings) if readings is not None else None,
        problems=tuple(problem for problem in told if problem.level == "problem"),
        warnings=tuple(problem for problem in told if problem.level == "warning"),
    )


def _what_can_be_read(season: Season) -> Readings | None:
    """The loggers that can be read, without books and heating; None where none can."""
    good = []
    for logger in season.loggers:
        try:
            good.append(read_season(_only(season, (logger.name,))))
        except SeasonError:
            continue
    if not good:
        return None
    return Readings(
        season=season,
        files=tuple(file for one in good for file in one.files),
        channels=tuple(channel for one in good for channel in one.channels),
        findings=tuple(finding for one in good for finding in one.findings),
        diary=(),
        harvest=(),
        plantings=(),
        watering=(),
        inspections=(),
        costs=(),
        heating=(),
        appliances=(),
        books={},
        warnings=(),
    )


def _only(season: Season, names: tuple[str, ...]) -> Season:
    """The season with these loggers alone, no heating, and books looked for where none are."""
    return season.model_copy(
        update={
            "loggers": tuple(logger for logger in season.loggers if logger.name in names),
            "heating": (),
            "appliances": (),
        }
    )
