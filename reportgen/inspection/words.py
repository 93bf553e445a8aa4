"""What was found, as plain text for a terminal of 100 columns."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from reportgen.inspection.found import Found, books
from reportgen.inspection.heating_words import heating_lines
from reportgen.inspection.layout import wrapped
from reportgen.inspection.logger_words import logger_parts
from reportgen.measures import record_words as say
from reportgen.problems import Problem
from reportgen.season.guesses import guesses_left
from reportgen.wording import count, day

ALIKE_SHOWN = 4  # faults of one kind in one column that are told in full
LINES_SHOWN = 12  # lines of further faults alike that are named
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
        _faults("Warnings", found.warnings),
        _faults("Problems", found.problems),
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
    return f"{wrapped(season.title, 0)}\n{wrapped(f'{span}; clock of {season.time_zone}; {money}', 0)}"


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
    seen = say.together(found.readings.findings)
    return [f"{say.whose(item.logger, measures)}: {item.words}" for item, measures in seen]


def _faults(title: str, faults: Sequence[Problem]) -> str:
    """Every fault; of many alike in one column the first few, and how many more there are."""
    if not faults:
        return ""
    alike: dict[tuple[str, str, str | None], list[Problem]] = {}
    for fault in faults:
        alike.setdefault((fault.slug, fault.file, fault.column), []).append(fault)
    blocks = []
    for group in alike.values():
        blocks += [_fault(problem) for problem in group[:ALIKE_SHOWN]]
        if rest := group[ALIKE_SHOWN:]:
            lines = ", ".join(str(problem.line) for problem in rest[:LINES_SHOWN] if problem.line)
            lines += " …" if len(rest) > LINES_SHOWN else ""
            blocks.append(wrapped(f"and {len(rest)} more like it" + (f", in lines {lines}" if lines else "")))
    return "\n\n".join([f"{title}: {len(faults)}", *blocks])


def _fault(problem: Problem) -> str:
    rows = (("found", problem.found), ("expected", problem.expected), ("to do", problem.todo))
    lines = [wrapped(f"{name:<9} {words}", 4, 10) for name, words in rows]
    return "\n".join([f"  {problem.address}  [{problem.slug}]", *lines])


def _verdict(found: Found) -> str:
    if found.problems:
        words = f"{count(len(found.problems), 'problem')} to mend before a review can be made."
        return f"{words} Each [word] is explained in README.md under Problems."
    told = f" {count(len(found.warnings), 'warning')} to look at." if found.warnings else ""
    ready = f"Ready for a review{_if_guessed_right(found)}.{told}"
    return f"{wrapped(ready, 0, 0)}\nNext: reportgen review {found.folder} --out site"


def _if_guessed_right(found: Found) -> str:
    """What the season still rests on, where nobody has looked through the guesses of `begin`."""
    guesses = guesses_left(found.folder)
    if not guesses:
        return ""
    subject = "the guess" if guesses == 1 else f"the {guesses} guesses"
    verb = "is" if guesses == 1 else "are"
    return f", if {subject} listed at the top of season.toml {verb} right: look there, then delete the list"
