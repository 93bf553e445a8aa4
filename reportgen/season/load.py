"""Reads season.toml and tells every fault of it at once."""

from __future__ import annotations

import difflib
import tomllib
import typing
from collections.abc import Mapping, Sequence
from pathlib import Path, PurePosixPath
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from reportgen.problems import Problem, SeasonError
from reportgen.season.models import Season
from reportgen.season.positions import key_lines, line_of
from reportgen.units import MEASURES

FILE = "season.toml"


def load_season(folder: Path) -> Season:
    """The season a folder describes.

    Raises:
        SeasonError: season.toml is missing, is no TOML, or says something that cannot be; every fault at once.
    """
    text = _text(folder)
    data = _parse(text)
    lines = key_lines(text)
    try:
        season = Season.model_validate({**_freeze(data), "folder": folder.resolve()})
    except ValidationError as error:
        found = [_problem(details, data, lines) for details in error.errors(include_url=False)]
        raise SeasonError(dict.fromkeys(found)) from None
    if problems := _cross_checks(season, lines):
        raise SeasonError(problems)
    return season


def _text(folder: Path) -> str:
    path = folder / FILE
    if not folder.is_dir() or not path.is_file():
        found = "no such folder" if not folder.is_dir() else "a folder without season.toml"
        todo = "name the folder of one winter, or let `reportgen begin FOLDER` write a first season.toml"
        raise SeasonError(
            [Problem(slug="season-missing", file=FILE, found=found, expected="a season folder", todo=todo)]
        )
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        todo = "save the file as UTF-8 in your editor"
        found = f"bytes that are not UTF-8 (at byte {error.start})"
        raise SeasonError(
            [Problem(slug="toml-syntax", file=FILE, found=found, expected="UTF-8 text", todo=todo)]
        ) from None


def _parse(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
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
                    expected="TOML 1.0",
                    todo="mend this line: text stands in quotes, dates do not, lists stand in [ ]",
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


def _problem(details: ErrorDetails, data: Mapping[str, Any], lines: Mapping[tuple[str | int, ...], int]) -> Problem:
    path = _real_path(details["loc"], data)
    key = ".".join(str(part) for part in path) or "(whole file)"
    line = line_of(lines, path)
    if details["type"] == "extra_forbidden":
        return _unknown_key(path, key, line)
    if details["type"] == "missing":
        return Problem(
            slug="missing-key",
            file=FILE,
            line=line,
            column=key,
            found="nothing",
            expected=f"the key {str(details['loc'][-1])!r}",
            todo="add it; the sample season's season.toml shows every key",
        )
    message = details["msg"].removeprefix("Value error, ").removeprefix("Input should be ")
    if "unknown measure" in message:
        message = f"{message}; nearest known: {_nearest(message.split(chr(39))[1], list(MEASURES))}"
    return Problem(
        slug="wrong-value",
        file=FILE,
        line=line,
        column=key,
        found=_shown(details["input"]),
        expected=message[:1].lower() + message[1:],
        todo="correct this value",
    )


def _shown(value: Any) -> str:
    if isinstance(value, dict | BaseModel):
        return "this table"
    text = repr(list(value) if isinstance(value, tuple) else value)
    return text if len(text) <= 80 else text[:77] + "…"


def _real_path(loc: tuple[str | int, ...], data: Any) -> tuple[str | int, ...]:
    """pydantic's path without the names of union branches, which are no keys of the file."""
    path: list[str | int] = []
    here: Any = data
    for part in loc:
        if isinstance(here, dict) and part in here:
            here = here[part]
        elif isinstance(here, list) and isinstance(part, int) and part < len(here):
            here = here[part]
        elif not isinstance(here, dict):
            continue
        else:
            here = None
        path.append(part)
    return tuple(path)


def _unknown_key(path: tuple[str | int, ...], key: str, line: int | None) -> Problem:
    known = _keys_at(path[:-1])
    near = _nearest(str(path[-1]), known)
    return Problem(
        slug="unknown-key",
        file=FILE,
        line=line,
        column=key,
        found=f"the key {str(path[-1])!r}",
        expected=f"one of: {', '.join(known)}",
        todo=f"did you mean {near!r}? Otherwise take the line out",
    )


def _keys_at(path: Sequence[str | int]) -> list[str]:
    """The keys a table of season.toml may have, found by walking the models."""
    model: Any = Season
    for part in path:
        if isinstance(part, int):
            continue
        if isinstance(model, type) and issubclass(model, BaseModel):
            fields = {field.alias or name: field.annotation for name, field in model.model_fields.items()}
            model = _inner_model(fields.get(part))
    if not (isinstance(model, type) and issubclass(model, BaseModel)):
        return []
    return sorted(field.alias or name for name, field in model.model_fields.items() if name != "folder")


def _inner_model(annotation: Any) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in typing.get_args(annotation):
        if (model := _inner_model(inner)) is not None:
            return model
    return None


def _nearest(word: str, known: Sequence[str]) -> str:
    lowered = {name.lower(): name for name in known}
    found = difflib.get_close_matches(word.lower(), list(lowered), n=1, cutoff=0.0)
    return lowered[found[0]] if found else "nothing like it"


def _cross_checks(season: Season, lines: Mapping[tuple[str | int, ...], int]) -> list[Problem]:
    """What only the whole file can tell: dates in order, unique names, references that lead somewhere."""
    faults = [
        *_date_faults(season),
        *_name_faults(season),
        *_logger_reference_faults(season),
        *_price_faults(season),
        *_path_faults(season),
    ]
    return [
        Problem(
            slug=slug,
            file=FILE,
            line=line_of(lines, path),
            column=".".join(str(part) for part in path),
            found=found,
            expected=expected,
            todo=todo,
        )
        for slug, path, found, expected, todo in faults
    ]


_Fault = tuple[str, tuple[str | int, ...], str, str, str]


def _date_faults(season: Season) -> list[_Fault]:
    faults: list[_Fault] = []
    if season.last_day < season.first_day:
        found = f"last_day {season.last_day} before first_day {season.first_day}"
        faults.append(("wrong-value", ("last_day",), found, "a day at or after first_day", "correct one of the two"))
    try:
        ZoneInfo(season.time_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        near = _nearest(season.time_zone, sorted(available_timezones()))
        faults.append(
            (
                "unknown-time-zone",
                ("time_zone",),
                repr(season.time_zone),
                "an IANA time zone such as Europe/Prague",
                f"did you mean {near!r}?",
            )
        )
    return faults


def _name_faults(season: Season) -> list[_Fault]:
    faults: list[_Fault] = []
    groups = (("logger", season.loggers), ("heating", season.heating), ("crop", season.crops))
    for table, entries in groups:
        seen: set[str] = set()
        for number, entry in enumerate(entries):
            if entry.name in seen:
                path = (table, number, "name")
                faults.append(("same-name-twice", path, repr(entry.name), "a name of its own", "rename one of them"))
            seen.add(entry.name)
    for where in ("crop", "outdoor", "elsewhere"):
        mains = [n for n, logger in enumerate(season.loggers) if logger.where == where and logger.main]
        for number in mains[1:]:
            path = ("logger", number, "main")
            faults.append(("two-main-loggers", path, f"a second main {where} logger", "one", "keep main = true on one"))
    if not season.loggers:
        todo = "add a [[logger]] table for each logger"
        faults.append(("missing-key", ("logger",), "no logger", "at least one [[logger]]", todo))
    return faults


def _logger_reference_faults(season: Season) -> list[_Fault]:
    names = [logger.name for logger in season.loggers]
    faults: list[_Fault] = []
    for table, entries in (("heating", season.heating), ("appliance", season.appliances)):
        for number, entry in enumerate(entries):
            if entry.logger is not None and entry.logger not in names:
                path = (table, number, "logger")
                todo = f"did you mean {_nearest(entry.logger, names)!r}?"
                faults.append(("unknown-logger", path, repr(entry.logger), f"one of: {', '.join(names)}", todo))
    return faults


def _price_faults(season: Season) -> list[_Fault]:
    priced = [("heating", n) for n, source in enumerate(season.heating) if source.price is not None or source.prices]
    priced += [("appliance", n) for n, item in enumerate(season.appliances) if item.price is not None]
    priced += [("crop", n) for n, crop in enumerate(season.crops) if crop.shop_price_per_kg is not None]
    if not priced or season.currency is not None:
        return []
    todo = 'add currency = "EUR" (or your own) at the top'
    return [("missing-currency", priced[0], "a price without a currency", "the key 'currency'", todo)]


def _path_faults(season: Season) -> list[_Fault]:
    named: list[tuple[tuple[str | int, ...], str]] = [
        (("logger", n, "files"), file) for n, logger in enumerate(season.loggers) for file in logger.files
    ]
    for n, source in enumerate(season.heating):
        named += [(("heating", n, key), value) for key, value in _heating_files(source)]
    books = ("harvest", "diary", "plantings", "watering", "inspections", "costs")
    named += [((book, "file"), getattr(season, book).file) for book in books]
    return [
        ("path-leads-out", path, repr(file), "a path inside the season folder", "move the file into the folder")
        for path, file in named
        if not _stays_inside(season.folder, file)
    ]


def _heating_files(source: Any) -> list[tuple[str, str]]:
    return [(key, value) for key in ("meter", "deliveries") if (value := getattr(source, key)) is not None]


def _stays_inside(folder: Path, file: str) -> bool:
    path = PurePosixPath(file.replace("\\", "/"))
    if path.is_absolute() or ".." in path.parts or ":" in (path.parts[0] if path.parts else "") or "\0" in file:
        return False
    if any(mark in file for mark in "*?["):
        return True  # each match is checked again when the files are found
    return (folder / path).resolve().is_relative_to(folder)
