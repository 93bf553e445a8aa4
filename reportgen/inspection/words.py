"""What was found, as plain text for a terminal of 100 columns."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.inspection.fault_words import fault_parts, to_mend
from reportgen.inspection.found import Found, books, ticked
from reportgen.inspection.heating_words import heating_lines
from reportgen.inspection.layout import wrapped
from reportgen.inspection.logger_words import logger_parts
from reportgen.measures import record_words as say
from reportgen.readings.book_rows import COLUMNS
from reportgen.readings.diary_lines import TICK_LINES
from reportgen.season.guesses import guesses_left
from reportgen.wording import count, day

OR_BOOKS = "or write them into books.xlsx: `reportgen begin FOLDER --books` makes an empty one"
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
        *logger_parts(found),
        _section("Books", _book_lines(found)),
        _section("Heating", heating_lines(found.readings)),
        _section("What the checks saw", _check_lines(found)),
        *fault_parts(found.warnings, found.problems),
        _verdict(found),
    ]
    return "\n\n".join(part for part in parts if part)


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
    if season.so_far is not None:
        span += ", so far: nothing in the folder is later, so this winter still runs"
    return f"{wrapped(season.heading, 0)}\n{wrapped(f'{span}; clock of {season.time_zone}; {money}', 0)}"


def _book_lines(found: Found) -> list[str]:
    if found.season is None or found.readings is None or not found.readings.books:
        return []
    lines = []
    absent = []
    for name, rows in books(found.readings).items():
        if rows is None:
            absent.append(f"{getattr(found.season, name).file}, not kept; its first line would be {_first_line(name)}")
            continue
        one, many = BOOK_ROWS[name]
        lines.append(f"{found.readings.place(name).words}: {count(rows, one, many)}{_dates(found, name)}")
    if nights := ticked(found.readings):
        lines.append(f"ticks.csv: {count(nights, 'night')} on")
    return [*lines, *absent, *([OR_BOOKS] if absent else [])]


def _first_line(book: str) -> str:
    return ",".join(COLUMNS[book].own)


def _dates(found: Found, name: str) -> str:
    rows = [row for row in getattr(found.readings, name) if row.line <= TICK_LINES]
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
    seen = say.together(found.readings.findings)
    return [f"{say.whose(item.logger, measures)}: {item.words}" for item, measures in seen]


def _verdict(found: Found) -> str:
    if found.problems:
        return to_mend(found.problems)
    told = f" {count(len(found.warnings), 'warning')} to look at." if found.warnings else ""
    ready = f"Ready for a review{_if_guessed_right(found)}.{told}"
    return f"{wrapped(ready, 0, 0)}\nNext: reportgen review {found.folder} --open"


def _if_guessed_right(found: Found) -> str:
    """What the season still rests on, where nobody has looked through the guesses of `begin`."""
    guesses = guesses_left(found.folder)
    if not guesses:
        return ""
    subject = "the guess" if guesses == 1 else f"the {guesses} guesses"
    verb = "is" if guesses == 1 else "are"
    return f", if {subject} listed at the top of season.toml {verb} right: look there, then delete the list"
