"""A season → its readings: loggers, books, heating; every problem of all of them at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

import pandas as pd

from reportgen.problems import Problem, SeasonError
from reportgen.readings.books import read_books
from reportgen.readings.heating import read_heating
from reportgen.readings.loggers import NO_ALIASES, Logged, read_loggers
from reportgen.readings.marks import OUTSIDE, REASONS
from reportgen.readings.money_doubts import money_doubts
from reportgen.readings.questions import questions
from reportgen.readings.so_far import as_far_as_read
from reportgen.readings.types import Readings
from reportgen.season import Season
from reportgen.season.located import located
from reportgen.season.sensible import doubts
from reportgen.season.settings_doubts import settings_doubts

OUTSIDE_WORDS = REASONS[OUTSIDE - 1]
NEARLY_ALL, FEW_DAYS = 0.8, 3  # of a logger's rows; days of the season that it then has; common practice, no source


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


def read_what_can_be(
    season: Season, file_aliases: Mapping[str, str] = NO_ALIASES
) -> tuple[Readings, tuple[Problem, ...]]:
    """What could be read, and every problem of the rest: whole only where there is no problem. For looking, not for
    measuring. `file_aliases`: logger files that the readings are to call by another name."""
    logged = read_loggers(season, file_aliases)
    as_read = as_far_as_read(season, logged)
    if as_read is not season:  # every count and check again, of the days that have happened
        season, logged = as_read, read_loggers(as_read, file_aliases)
    books, book_problems = read_books(season)
    heating, appliances, heat_problems = read_heating(season, logged.channels, books.diary)
    asked, ask_problems = questions(season, books.diary, books.levers)
    of_settings = [
        *doubts(season),
        *settings_doubts(season),
        *_silent(season, logged),
        *_scarce(season, logged),
        *ask_problems,
    ]
    of_money = money_doubts(books.diary, books.costs, heating, _money_files(season))
    every = [*logged.problems, *of_settings, *book_problems, *of_money, *heat_problems]
    told = _in_order(located(dict.fromkeys(every), season.folder))
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
        places=books.places,
        levers=books.levers,
        levers_before=books.levers_before,
        diary_before=books.diary_before,
        ahead=books.ahead,
        questions=asked,
        warnings=tuple(problem for problem in told if problem.level == "warning"),
    )
    return readings, tuple(problem for problem in told if problem.level == "problem")


def _silent(season: Season, logged: Logged) -> list[Problem]:
    """A warning for each logger that was read and has no reading between the first and the last day."""
    used = {channel.logger for channel in logged.channels if channel.values_used}
    aside: dict[str, Counter[str]] = {}
    for file in logged.files:
        if file.logger not in used:
            aside.setdefault(file.logger, Counter()).update(file.set_aside)
    return [
        Problem(
            slug="no-reading-in-season",
            file="season.toml",
            column=f"[[logger]] {name} · files",
            found=f"no reading of {name} from {season.first_day} to {season.last_day}{_why(aside[name])}",
            expected="a logger that ran in the season",
            todo="look at first_day and last_day, and at the date and year to which the logger was set"
            if aside[name].get(OUTSIDE_WORDS) or not aside[name]
            else "look at its columns and units: no value of any row could be used",
            level="warning",
        )
        for name in aside
    ]


def _scarce(season: Season, logged: Logged) -> list[Problem]:
    """A warning for each logger of which nearly all rows lie outside the season, and hardly a day inside."""
    rows: dict[str, list[int]] = {}
    for file in logged.files:
        total = rows.setdefault(file.logger, [0, 0])
        total[0] += file.rows_read
        total[1] += file.set_aside.get(OUTSIDE_WORDS, 0)
    told = []
    for name, (read, outside) in rows.items():
        if outside <= NEARLY_ALL * read or outside <= FEW_DAYS * 24:
            continue
        days = {day for c in logged.channels if c.logger == name for day in pd.DatetimeIndex(c.values.index).date}
        if 0 < len(days) <= FEW_DAYS:
            told.append(
                Problem(
                    slug="few-in-season",
                    file="season.toml",
                    column=f"[[logger]] {name} · files",
                    found=f"{outside} of {read} rows of {name} on days outside {season.first_day} to "
                    f"{season.last_day}, and {len(days)} days with readings inside",
                    expected="a logger that ran in the season",
                    todo="look at first_day and last_day; if they are right, its dates are read wrong: write its "
                    'time_format, such as "%y-%m-%d %H:%M" for 25-12-01',
                    level="warning",
                )
            )
    return told


def _why(aside: Mapping[str, int]) -> str:
    """For what the rows were set aside, the days first."""
    outside = aside.get(OUTSIDE_WORDS, 0)
    rest = [f"{count} rows {reason}" for reason, count in aside.items() if reason != OUTSIDE_WORDS]
    return "; " + ", ".join([f"{outside} rows on other days", *rest] if outside or not rest else rest)


def _money_files(season: Season) -> dict[str, str]:
    """The files that hold amounts paid: of two books by their name, of each heater fed by deliveries by its own."""
    fed = {source.name: source.deliveries for source in season.heating if source.deliveries is not None}
    return fed | {"diary": season.diary.file, "costs": season.costs.file}


def _in_order(told: list[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(told, key=lambda p: (p.file, p.line or 0, p.column or "", p.slug)))
