"""A season → its readings: loggers, books, heating; every problem of all of them at once."""

from __future__ import annotations

from reportgen.problems import Problem, SeasonError
from reportgen.readings.books import read_books
from reportgen.readings.heating import read_heating
from reportgen.readings.loggers import read_loggers
from reportgen.readings.types import Readings
from reportgen.season import Season
from reportgen.season.located import located


def read_season(season: Season) -> Readings:
    """Everything the season folder holds, each row accounted for.

    Raises:
        SeasonError: A file or a row cannot be what season.toml says; every problem at once. Warnings do not stop the
            reading and come with the readings.
    """
    readings, problems = read_what_can_be(season)
    if problems:
        raise SeasonError([*problems, *readings.warnings])
    return readings


def read_what_can_be(season: Season) -> tuple[Readings, tuple[Problem, ...]]:
    """What could be read, and every problem of the rest: whole only where there is no problem. For looking, not for
    measuring."""
    logged = read_loggers(season)
    books, book_problems = read_books(season)
    heating, appliances, heat_problems = read_heating(season, logged.channels)
    told = _in_order(located(dict.fromkeys([*logged.problems, *book_problems, *heat_problems]), season.folder))
    readings = Readings(
        season=season,
        files=logged.files,
        channels=logged.channels,
        findings=logged.findings,
        diary=books.diary,
        harvest=books.harvest,
        plantings=books.plantings,
        watering=books.watering,
        inspections=books.inspections,
        costs=books.costs,
        heating=heating,
        appliances=appliances,
        books=books.books,
        warnings=tuple(problem for problem in told if problem.level == "warning"),
    )
    return readings, tuple(problem for problem in told if problem.level == "problem")


def _in_order(told: list[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(told, key=lambda p: (p.file, p.line or 0, p.column or "", p.slug)))
