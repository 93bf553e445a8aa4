"""What was found, as plain text for a terminal of 100 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

import pandas as pd

from reportgen.inspection.found import Found, books
from reportgen.inspection.heating_words import heating_lines
from reportgen.measures import record_words as say
from reportgen.measures.record import ChannelRecord, FileRecord
from reportgen.problems import Problem
from reportgen.season import Logger, Season
from reportgen.wording import NBSP, Wording, count, day, number

WIDTH = 100
GAP_H = 1.0  # shorter gaps are counted in the share and not listed; ours, to keep the list to a screen
GAPS_SHOWN = 3
BOOK_ROWS = {
    "diary": ("entry", "entries"),
    "harvest": ("picking", "pickings"),
    "plantings": ("planting", "plantings"),
    "watering": ("watering", "waterings"),
    "inspections": ("look", "looks"),
    "costs": ("cost", "costs"),
}


def text(found: Found) -> str:
    """The whole of it: season, loggers, books, heating, what the checks saw, warnings, problems and the verdict."""
    parts = [
        _head(found),
        *_loggers(found),
        _section("Books", _book_lines(found)),
        _section("Heating", heating_lines(found.readings)),
        _section("What the checks saw", _check_lines(found)),
        _faults("Warnings", found.warnings),
        _faults("Problems", found.problems),
        _verdict(found),
    ]
    return "\n\n".join(part for part in parts if part)


def wrapped(words: str, indent: int = 2, hang: int = 2) -> str:
    """Words broken at the width, later lines a little further in."""
    return textwrap.fill(
        words,
        WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + hang),
        break_long_words=False,
        break_on_hyphens=False,
    )


def _section(title: str, lines: Iterable[str]) -> str:
    body = [wrapped(line) for line in lines]
    return "\n".join([title, *body]) if body else ""


def _head(found: Found) -> str:
    season = found.season
    if season is None:
        return wrapped(f"{found.folder}: season.toml could not be understood, so no other file was opened.", 0)
    days = (season.last_day - season.first_day).days + 1
    span = f"{day(season.first_day, year=True)} to {day(season.last_day, year=True)}, {count(days, 'day')}"
    money = f"money in {season.currency}" if season.currency else "no currency, so no money"
    return f"{wrapped(season.title, 0)}\n{wrapped(f'{span}; clock of {season.time_zone}; {money}', 0)}"


def _loggers(found: Found) -> list[str]:
    if found.season is None:
        return []
    return [_logger(found, found.season, logger) for logger in found.season.loggers]


def _logger(found: Found, season: Season, logger: Logger) -> str:
    title = f"{logger.name}, {say.place_name(logger.where)}{_speaks(season, logger)}"
    record = found.record
    files = [file for file in record.files if file.logger == logger.name] if record else []
    channels = [channel for channel in record.channels if channel.logger == logger.name] if record else []
    if not files and not channels:
        return f"{title}\n{wrapped('not read; see the problems below')}"
    lines = [wrapped(_file(file), 2) for file in files]
    for channel in channels:
        lines += [wrapped(line, 2 if n == 0 else 6) for n, line in enumerate(_channel(found, season, logger, channel))]
    return "\n".join([title, *lines])


def _speaks(season: Season, logger: Logger) -> str:
    alike = [other for other in season.loggers if other.where == logger.where]
    chosen = next((other for other in alike if other.main), alike[0])
    if len(alike) < 2 or logger.where == "elsewhere" or chosen.name != logger.name:
        return ""
    return ", speaks for the house" if logger.where == "crop" else ", speaks for the weather"


def _file(file: FileRecord) -> str:
    aside = say.reasons_words(file.set_aside)
    rows = f"{count(file.rows_read, 'row')}, {number(file.rows_used)} used"
    clock = f"; {file.clock}" if file.clock else ""
    return f"{file.file}: {rows}{f'; set aside: {aside}' if aside else ''}{clock}"


def _channel(found: Found, season: Season, logger: Logger, channel: ChannelRecord) -> list[str]:
    w = Wording.of(season)
    column = logger.measures[channel.measure]
    head = f"{say.measure_name(channel.measure)}, column {column.column!r}"
    head += f" in {column.unit}" if column.unit else ""
    if channel.first is None or channel.last is None:
        return [f"{head}: no reading in the season", *_aside(channel)]
    span = f"{say.moment(channel.first)} to {say.moment(channel.last)}"
    lines = [
        f"{head}: {say.readings_count(channel.values_used)}, {say.step_words(channel.step_s)}, "
        f"{say.share_words(channel.share)} of the season",
        span,
    ]
    if channel.minimum is not None and channel.maximum is not None:
        low, high = (say.value_number(w, channel.measure, v) for v in (channel.minimum, channel.maximum))
        mean = f", mean {say.value_number(w, channel.measure, channel.mean)}" if channel.mean is not None else ""
        lines.append(f"from {low} to {high}{NBSP}{say.unit_name(w, channel.measure)}{mean}")
    return [*lines, *_aside(channel), *_gaps(found, channel)]


def _aside(channel: ChannelRecord) -> list[str]:
    aside = say.reasons_words(channel.set_aside)
    return [f"set aside: {aside}"] if aside else []


def _gaps(found: Found, channel: ChannelRecord) -> list[str]:
    if found.record is None:
        return []
    table = found.record.gaps
    mine = table[(table["logger"] == channel.logger) & (table["measure"] == channel.measure)]
    long = mine[mine["hours"] >= GAP_H]
    if long.empty:
        return []
    shown = [_gap(row["start"], row["end"], row["hours"]) for row in long.head(GAPS_SHOWN).to_dict("records")]
    more = len(long) - len(shown)
    rest = f"; and {number(more)} more" if more else ""
    return [f"{count(len(long), 'gap')} of an hour or more: {'; '.join(shown)}{rest}"]


def _gap(start: pd.Timestamp, end: pd.Timestamp, hours: float) -> str:
    return f"{say.stretch_words(start, end)} ({say.long_words(hours)})"


def _book_lines(found: Found) -> list[str]:
    if found.season is None or found.readings is None or not found.readings.books:
        return []
    lines = []
    absent = []
    for name, rows in books(found.readings).items():
        if rows is None:
            absent.append(getattr(found.season, name).file)
            continue
        one, many = BOOK_ROWS[name]
        lines.append(f"{getattr(found.season, name).file}: {count(rows, one, many)}{_dates(found, name)}")
    if absent:
        lines.append(f"not kept: {', '.join(absent)}")
    return lines


def _dates(found: Found, name: str) -> str:
    rows: Sequence[object] = getattr(found.readings, name)
    days = sorted(date for row in rows if (date := getattr(row, "date", None) or getattr(row, "planted", None)))
    if not days:
        return ""
    return (
        f", {day(days[0], year=True)} to {day(days[-1], year=True)}"
        if len(days) > 1
        else f", {day(days[0], year=True)}"
    )


def _check_lines(found: Found) -> list[str]:
    if found.readings is None:
        return []
    return [f"{_whose(item.logger, item.measure)}: {item.words}" for item in found.readings.findings]


def _whose(logger: str, measure: str | None) -> str:
    return logger if measure is None else f"{logger}, {say.measure_name(measure)}"


def _faults(title: str, faults: Sequence[Problem]) -> str:
    if not faults:
        return ""
    return "\n\n".join([f"{title}: {len(faults)}", *(_fault(problem) for problem in faults)])


def _fault(problem: Problem) -> str:
    rows = (("found", problem.found), ("expected", problem.expected), ("to do", problem.todo))
    lines = [wrapped(f"{name:<9} {words}", 4, 10) for name, words in rows]
    return "\n".join([f"  {problem.address}  [{problem.slug}]", *lines])


def _verdict(found: Found) -> str:
    if found.problems:
        words = f"{count(len(found.problems), 'problem')} to mend before a review can be made."
        return f"{words} Each [word] is explained in README.md under Problems."
    told = f" {count(len(found.warnings), 'warning')} to look at." if found.warnings else ""
    return f"Ready for a review.{told}\nNext: reportgen review {found.folder} --out site"
