"""Looks at a season folder without ever failing: what cannot be read becomes a problem, the rest is shown."""

from __future__ import annotations

from pathlib import Path

from reportgen.inspection.found import Found
from reportgen.measures.record import record
from reportgen.problems import SeasonError
from reportgen.readings.season_reader import read_what_can_be
from reportgen.season.load import load_what_can_be


def inspect(folder: str | Path) -> Found:
    """Everything that can be said of a folder, whole or broken: the faults, and what could be read."""
    folder = Path(folder)
    try:
        season, faults = load_what_can_be(folder)
    except SeasonError as error:
        season, faults = None, error.problems
    if season is None:
        return Found(folder=folder, season=None, readings=None, record=None, problems=faults, warnings=())
    readings, unread = read_what_can_be(season)
    problems = SeasonError([*faults, *unread]).problems  # in their order
    return Found(
        folder=folder,
        season=season,
        readings=readings,
        record=record(readings),
        problems=problems,
        warnings=readings.warnings,
    )
