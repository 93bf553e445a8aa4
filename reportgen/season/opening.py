"""season.toml → its keys as TOML reads them. Needs no model, so that a missing or broken file is told at once."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from reportgen import limits
from reportgen.disk import Unreadable, is_there, read_inside
from reportgen.problems import Problem, SeasonError

FILE = "season.toml"


def season_text(folder: Path) -> str:
    """The text of the folder's season.toml.

    Raises:
        SeasonError: It is not there, cannot be read, or is no UTF-8.
    """
    if not is_there(folder, FILE):
        found = "a folder without season.toml" if _is_folder(folder) else "no such folder"
        todo = "name the folder of one winter, or let `reportgen begin FOLDER` write a first season.toml"
        raise SeasonError([_problem("season-missing", found, "a season folder", todo)])
    try:
        return read_inside(folder, FILE, limits.SEASON_FILE).decode("utf-8-sig")
    except Unreadable as error:
        raise SeasonError([_problem(error.slug, error.found, "a file that can be read", error.todo)]) from None
    except UnicodeDecodeError as error:
        found = f"bytes that are not UTF-8 (at byte {error.start})"
        raise SeasonError([_syntax(found, "UTF-8 text", "save the file as UTF-8 in your editor")]) from None


def parsed(text: str) -> dict[str, Any]:
    """The tables and keys of a season.toml.

    Raises:
        SeasonError: It is no TOML.
    """
    try:
        data = tomllib.loads(text)
        frozen(data)  # as deep as it will be walked
        return data
    except tomllib.TOMLDecodeError as error:
        raise SeasonError([_at_its_line(text, str(error))]) from None
    except ValueError:
        found = "a number of thousands of digits, or a date that no calendar has"
        raise SeasonError(
            [_syntax(found, "TOML 1.0", "look for the long number, and write it as it is meant")]
        ) from None
    except RecursionError:
        todo = "start again from the season.toml of the sample season"
        raise SeasonError([_syntax("lists or tables nested too deeply", "TOML 1.0", todo)]) from None


def _at_its_line(text: str, message: str) -> Problem:
    number = message.partition("(at line ")[2].partition(",")[0]
    line = int(number) if number.isdigit() else None
    quoted = text.splitlines()[line - 1].strip() if line and line <= len(text.splitlines()) else message
    found = f"{quoted!r}: {message.partition(' (at ')[0].lower()}"
    return _syntax(found, 'a line such as title = "My winter"', _advice(quoted.partition("#")[0].strip()), line)


_ADVICE = (  # what a line looks like that is wrong, and what to do; the first that fits
    (r".*[\u201c\u201d\u201e\u201f\u2018\u2019\u00ab\u00bb].*", 'write straight quotes (") in place of the curly ones'),
    (r'.*"[^"]*\\[^"]*".*', "write / in place of \\ in a path, which begins in the season folder: loggers/bench.csv"),
    (r"[\w ]+=\s*[+-]?\d+,\d+", "write a number with a point: 0.31"),
    (r"[\w ]+=\s*\d{1,2}[./-]\d{1,2}[./-]\d{2,4}", "write a date as 2026-01-14, without quotes"),
    (r"[\w ]+=\s*[^\W\d_][\w ./-]*", 'put a text in quotes: "crop"'),
    (r"[\w ]+:.*", "write = between a key and its value"),
)


def _advice(line: str) -> str:
    """What to do about a line that is no TOML."""
    general = "mend this line: text stands in quotes, dates do not, lists stand in [ ]"
    return next((todo for pattern, todo in _ADVICE if re.fullmatch(pattern, line)), general)


def _syntax(found: str, expected: str, todo: str, line: int | None = None) -> Problem:
    return Problem(slug="toml-syntax", file=FILE, line=line, found=found, expected=expected, todo=todo)


def _problem(slug: str, found: str, expected: str, todo: str) -> Problem:
    return Problem(slug=slug, file=FILE, found=found, expected=expected, todo=todo)


def _is_folder(folder: Path) -> bool:
    try:
        return folder.is_dir()
    except (OSError, ValueError):  # a name too long, or that holds a zero byte
        return False


def frozen(value: Any) -> Any:
    """The same with lists as tuples, so that the Season holds nothing that can change."""
    if isinstance(value, dict):
        return {key: frozen(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return tuple(frozen(inner) for inner in value)
    return value
