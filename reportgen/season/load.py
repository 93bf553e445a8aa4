"""Reads season.toml and tells every fault of it at once."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from reportgen import limits
from reportgen.disk import Unreadable, is_there, read_inside
from reportgen.problems import Problem, SeasonError
from reportgen.season.cross import cross_checks, unit_faults
from reportgen.season.explain import FILE, explained, without_echoes
from reportgen.season.models import Season
from reportgen.season.positions import key_lines
from reportgen.season.remains import rest_of
from reportgen.season.sources import MEASURE_UNIT

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
    text = _text(folder)
    data = _parse(text)
    lines = key_lines(text)
    try:
        season = _season(data, folder)
        problems = tuple(cross_checks(season, lines))
        return (None if problems else season), problems
    except ValidationError as error:
        told = [details for details in error.errors(include_url=False) if details["type"] != MEASURE_UNIT]
        found = without_echoes([explained(details, data, lines) for details in told])
        left = rest_of(data, lambda part: _season(part, folder))
        crossed = [problem for problem in cross_checks(left, lines) if problem.slug not in ECHOES] if left else []
        every = tuple(dict.fromkeys([*found, *unit_faults(data, lines), *crossed]))
        fits = left is not None and not cross_checks(left, lines)
        return (left if fits else None), every


def _season(data: dict[str, Any], folder: Path) -> Season:
    return Season.model_validate({**_freeze(data), "folder": folder.resolve()})


def _text(folder: Path) -> str:
    if not is_there(folder, FILE):
        found = "a folder without season.toml" if _is_folder(folder) else "no such folder"
        todo = "name the folder of one winter, or let `reportgen begin FOLDER` write a first season.toml"
        raise SeasonError(
            [Problem(slug="season-missing", file=FILE, found=found, expected="a season folder", todo=todo)]
        )
    try:
        return read_inside(folder, FILE, limits.SEASON_FILE).decode("utf-8-sig")
    except Unreadable as error:
        expected = "a file that can be read"
        raise SeasonError(
            [Problem(slug=error.slug, file=FILE, found=error.found, expected=expected, todo=error.todo)]
        ) from None
    except UnicodeDecodeError as error:
        todo = "save the file as UTF-8 in your editor"
        found = f"bytes that are not UTF-8 (at byte {error.start})"
        raise SeasonError(
            [Problem(slug="toml-syntax", file=FILE, found=found, expected="UTF-8 text", todo=todo)]
        ) from None


def _is_folder(folder: Path) -> bool:
    try:
        return folder.is_dir()
    except (OSError, ValueError):  # a name too long, or that holds a zero byte
        return False


def _parse(text: str) -> dict[str, Any]:
    try:
        data = tomllib.loads(text)
        _freeze(data)  # as deep as it will be walked
        return data
    except tomllib.TOMLDecodeError as error:
        message = str(error)
        number = message.partition("(at line ")[2].partition(",")[0]
        line = int(number) if number.isdigit() else None
        quoted = text.splitlines()[line - 1].strip() if line and line <= len(text.splitlines()) else message
        raise SeasonError(
            [
                Problem(
                    slug="toml-syntax",
                    file=FILE,
                    line=line,
                    found=f"{quoted!r}: {message.partition(' (at ')[0].lower()}",
                    expected='a line such as title = "My winter"',
                    todo="mend this line: text stands in quotes, dates do not, lists stand in [ ]",
                )
            ]
        ) from None
    except ValueError:
        raise SeasonError(
            [
                Problem(
                    slug="toml-syntax",
                    file=FILE,
                    found="a number of thousands of digits, or a date that no calendar has",
                    expected="TOML 1.0",
                    todo="look for the long number, and write it as it is meant",
                )
            ]
        ) from None
    except RecursionError:
        raise SeasonError(
            [
                Problem(
                    slug="toml-syntax",
                    file=FILE,
                    found="lists or tables nested too deeply",
                    expected="TOML 1.0",
                    todo="start again from the season.toml of the sample season",
                )
            ]
        ) from None


def _freeze(value: Any) -> Any:
    """Lists become tuples, so that the frozen Season holds nothing that can change."""
    if isinstance(value, dict):
        return {key: _freeze(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return tuple(_freeze(inner) for inner in value)
    return value
