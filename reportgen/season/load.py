"""Reads season.toml and tells every fault of it at once."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from reportgen.problems import Problem, SeasonError
from reportgen.season.cross import cross_checks, unit_faults
from reportgen.season.explain import explained, without_echoes
from reportgen.season.models import Season
from reportgen.season.opening import frozen, parsed, season_text
from reportgen.season.positions import key_lines
from reportgen.season.remains import rest_of
from reportgen.season.sources import MEASURE_UNIT
from reportgen.season.twins import metric

A_YEAR = dt.timedelta(days=365)  # as far as a season is read whose last day is left out
# What may only look wrong because a faulty key was left out before looking.
ECHOES = frozenset({"missing-currency", "missing-key", "unknown-logger", "two-main-loggers"})


def load_season(folder: Path) -> Season:
    """The season a folder describes.

    Raises:
        SeasonError: season.toml is missing, is no TOML, or says something that cannot be; every fault at once.
    """
    season, problems = load_what_can_be(folder)
    if problems or season is None:
        raise SeasonError(problems)
    return season


def load_what_can_be(folder: Path) -> tuple[Season | None, tuple[Problem, ...]]:
    """The season without its faulty keys, and every fault: whole only where there is none. None where what is left is
    no season, or where its parts do not fit together. For looking, not for measuring.

    Raises:
        SeasonError: season.toml is missing or is no TOML.
    """
    text = season_text(folder)
    lines = key_lines(text)
    inputs = metric(parsed(text), lines)
    data = inputs.data
    try:
        season = _season(data, folder)
        problems = (*inputs.problems, *cross_checks(season, lines))
        return (None if problems else season), problems
    except ValidationError as error:
        told = [details for details in error.errors(include_url=False) if details["type"] != MEASURE_UNIT]
        found = without_echoes([explained(details, inputs, lines) for details in told])
        left = rest_of(data, lambda part: _season(part, folder))
        crossed = [problem for problem in cross_checks(left, lines) if problem.slug not in ECHOES] if left else []
        every = tuple(dict.fromkeys([*found, *inputs.problems, *unit_faults(data, lines), *crossed]))
        fits = left is not None and not cross_checks(left, lines)
        return (left if fits else None), every


def _season(data: dict[str, Any], folder: Path) -> Season:
    inputs = {**frozen(data), "folder": folder.resolve()}
    first = data.get("first_day")
    if "last_day" in data or not isinstance(first, dt.date) or isinstance(first, dt.datetime):
        return Season.model_validate(inputs)
    return Season.model_validate({**inputs, "last_day": first + A_YEAR}).without_end()
