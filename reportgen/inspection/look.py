"""Looks at a season folder without ever failing: what cannot be read becomes a problem, the rest is shown."""

from __future__ import annotations

from pathlib import Path

from reportgen.inspection.found import Found
from reportgen.measures.record import record
from reportgen.problems import SeasonError
from reportgen.readings.season_reader import read_what_can_be
from reportgen.season import load_season


def inspect(folder: str | Path) -> Found:
    """Everything that can be said of a folder, whole or broken: the faults, and what could be read."""
    folder = Path(folder)
    try:
        season = load_season(folder)
    except SeasonError as error:
        return Found(folder=folder, season=None, readings=None, record=None, problems=error.problems, warnings=())
    readings, problems = read_what_can_be(season)
    return Found(
        folder=folder,
        season=season,
        readings=readings,
        record=record(readings),
        problems=problems,
        warnings=readings.warnings,
    )
