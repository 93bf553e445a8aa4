"""What only the whole file can tell: dates in order, names that are unique, references that lead somewhere."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path, PurePosixPath
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from reportgen import limits
from reportgen.problems import Problem
from reportgen.season.explain import FILE, Lines, address, perhaps
from reportgen.season.models import Season
from reportgen.season.positions import line_of
from reportgen.season.sensible import Fault, sensor_faults
from reportgen.season.sources import HeatSource
from reportgen.units import MEASURES

NO_ZONES = frozenset({"localtime", "Factory", "posixrules", "posix", "right"})


def cross_checks(season: Season, lines: Lines) -> list[Problem]:
    """Faults of a season whose every key is right by itself."""
    faults = [
        *_date_faults(season),
        *_name_faults(season),
        *_reference_faults(season),
        *_check_faults(season),
        *sensor_faults(season),
        *_price_faults(season),
        *_path_faults(season),
        *_limit_faults(season),
    ]
    return [_problem(fault, lines) for fault in faults]


def unit_faults(data: Mapping[str, Any], lines: Lines) -> list[Problem]:
    """Units that the measure of their column cannot have; read from the raw file, so that they come with all others."""
    faults: list[Fault] = []
    loggers = data.get("logger")
    for number, logger in enumerate(loggers if isinstance(loggers, list | tuple) else ()):
        measures = logger.get("measures") if isinstance(logger, Mapping) else None
        for name, column in measures.items() if isinstance(measures, Mapping) else ():
            unit = column.get("unit") if isinstance(column, Mapping) else None
            if name in MEASURES and isinstance(unit, str) and unit not in MEASURES[name].accepted:
                path = ("logger", number, "measures", name, "unit")
                accepted = MEASURES[name].accepted
                todo = perhaps(unit, accepted, "write one of these")
                faults.append(("unknown-unit", path, repr(unit), f"one of: {', '.join(accepted)}", todo))
    return [_problem(fault, lines) for fault in faults]


def _problem(fault: Fault, lines: Lines) -> Problem:
    slug, path, found, expected, todo = fault
    return Problem(
        slug=slug,
        file=FILE,
        line=line_of(lines, path),
        column=address(path),
        found=found,
        expected=expected,
        todo=todo,
    )


def _date_faults(season: Season) -> list[Fault]:
    faults: list[Fault] = []
    if season.last_day < season.first_day:
        found = f"last_day {season.last_day} before first_day {season.first_day}"
        faults.append(("wrong-value", ("last_day",), found, "a day at or after first_day", "correct one of the two"))
    elif (season.last_day - season.first_day).days > 731:
        found = f"{season.first_day} to {season.last_day}"
        faults.append(("wrong-value", ("last_day",), found, "one winter, at most two years", "correct one of the two"))
    if not _is_zone(season.time_zone):
        todo = perhaps(season.time_zone, _cities(), "write the city of the IANA list that keeps your time")
        expected = "an IANA time zone such as Europe/Prague"
        faults.append(("unknown-time-zone", ("time_zone",), repr(season.time_zone), expected, todo))
    return faults


def _is_zone(name: str) -> bool:
    """A zone of the list, and none of the files beside it: this machine's own clock, or clocks with leap seconds."""
    if name.partition("/")[0] in NO_ZONES:
        return False
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True


def _cities() -> list[str]:
    """Zones that are named by a place; abbreviations do not say when summer time begins."""
    return sorted(name for name in available_timezones() if "/" in name and not name.startswith("Etc/"))


def _name_faults(season: Season) -> list[Fault]:
    faults: list[Fault] = []
    groups: dict[str, Sequence[str]] = {
        "logger": [logger.name for logger in season.loggers],
        "heating": [source.name for source in season.heating],
        "appliance": [item.name for item in season.appliances],
        "crop": [crop.name for crop in season.crops],
    }
    for table, names in groups.items():
        for number, name in enumerate(names):
            if name in names[:number]:
                path = (table, number, "name")
                faults.append(("same-name-twice", path, repr(name), "a name of its own", "rename one of them"))
    for where in ("crop", "outdoor", "elsewhere"):
        mains = [n for n, logger in enumerate(season.loggers) if logger.where == where and logger.main]
        for number in mains[1:]:
            path = ("logger", number, "main")
            faults.append(("two-main-loggers", path, f"a second main {where} logger", "one", "keep main = true on one"))
    if not season.loggers:
        todo = "add a [[logger]] table for each logger"
        faults.append(("missing-key", ("logger",), "no logger", "at least one [[logger]]", todo))
    return faults


def _reference_faults(season: Season) -> list[Fault]:
    names = [logger.name for logger in season.loggers]
    named: list[tuple[str, int, str | None]] = [
        ("heating", n, source.logger) for n, source in enumerate(season.heating)
    ]
    named += [("appliance", n, item.logger) for n, item in enumerate(season.appliances)]
    return [
        (
            "unknown-logger",
            (table, number, "logger"),
            repr(name),
            f"one of: {', '.join(names)}",
            perhaps(name, names, "write the name of the logger that counts it"),
        )
        for table, number, name in named
        if name is not None and name not in names
    ]


def _check_faults(season: Season) -> list[Fault]:
    """A sensor check must be of a measure that its logger has."""
    return [
        (
            "unknown-key",
            ("logger", n, "checks", k, "measure"),
            repr(check.measure),
            f"a measure of this logger: {', '.join(logger.measures)}",
            perhaps(check.measure, list(logger.measures), "name one of these"),
        )
        for n, logger in enumerate(season.loggers)
        for k, check in enumerate(logger.checks)
        if check.measure not in logger.measures
    ]


def _price_faults(season: Season) -> list[Fault]:
    priced: list[tuple[str, int]] = [
        ("heating", n)
        for n, source in enumerate(season.heating)
        if source.price is not None or source.prices or source.next_price is not None
    ]
    priced += [("appliance", n) for n, item in enumerate(season.appliances) if item.price is not None]
    priced += [("crop", n) for n, crop in enumerate(season.crops) if crop.shop_price_per_kg is not None]
    if not priced or season.currency is not None:
        return []
    todo = 'add currency = "EUR" (or your own) at the top'
    return [("missing-currency", priced[0], "a price without a currency", "the key 'currency'", todo)]


def _path_faults(season: Season) -> list[Fault]:
    named: list[tuple[tuple[str | int, ...], str]] = [
        (("logger", n, "files"), file) for n, logger in enumerate(season.loggers) for file in logger.files
    ]
    for n, source in enumerate(season.heating):
        named += [(("heating", n, key), file) for key, file in _files(source)]
    books = ("harvest", "diary", "plantings", "watering", "inspections", "costs")
    named += [((book, "file"), getattr(season, book).file) for book in books]
    return [
        ("path-leads-out", path, repr(file), "a path inside the season folder", "move the file into the folder")
        for path, file in named
        if not _stays_inside(season.folder, file)
    ]


def _limit_faults(season: Season) -> list[Fault]:
    counted = (("logger", len(season.loggers), limits.LOGGERS), ("crop", len(season.crops), limits.CROPS))
    return [
        ("too-much", (table,), f"{count:,} [[{table}]] tables", limit.words, "take out what is not of this house")
        for table, count, limit in counted
        if count > limit.most
    ]


def _files(source: HeatSource) -> list[tuple[str, str]]:
    books = (("meter", source.meter), ("deliveries", source.deliveries), ("bills", source.bills))
    return [(key, file) for key, file in books if file is not None]


def _stays_inside(folder: Path, file: str) -> bool:
    path = PurePosixPath(file.replace("\\", "/"))
    if path.is_absolute() or ".." in path.parts or ":" in (path.parts[0] if path.parts else "") or "\0" in file:
        return False
    if any(mark in file for mark in "*?["):
        return True  # each match is checked again when the files are found
    try:
        return (folder / path).resolve().is_relative_to(folder)
    except (OSError, RuntimeError):  # a link to itself, or a name too long: told when the file is opened
        return True
