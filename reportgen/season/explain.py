"""A fault of season.toml in the grower's words: where it stands, written as in the file, and what was meant."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from reportgen.problems import Problem
from reportgen.season.expectations import expectation
from reportgen.season.keys import keys_at
from reportgen.season.opening import FILE as FILE
from reportgen.season.positions import Lines as Lines
from reportgen.season.positions import Path, line_of
from reportgen.season.positions import address as address
from reportgen.season.twins import Metric, Written, us_keys
from reportgen.units import MEASURES

LIKE = 0.6  # likeness from which a word, a line or a sheet is offered as what was meant; common practice, no source


def perhaps(word: str, known: Sequence[str], otherwise: str) -> str:
    """What to do about a wrong word: the known one it resembles, if any does, else something that always helps."""
    lowered = {name.lower(): name for name in known}
    found = difflib.get_close_matches(word.lower(), list(lowered), n=1, cutoff=LIKE)
    near = lowered[found[0]] if found else next((name for name in known if word and word.lower() in name.lower()), None)
    return f"did you mean {near!r}?" if near is not None else otherwise


def explained(details: ErrorDetails, metric: Metric, lines: Lines) -> Problem:
    """One error of the models as a problem with its line; a key in US units is told as it is written."""
    path = real_path(details["loc"], metric.data)
    if details["type"] == "extra_forbidden":
        return _unknown_key(path, line_of(lines, path))
    if details["loc"] and details["loc"][-1] == "[key]":
        return _unknown_measure(path, line_of(lines, path))
    if details["type"] == "missing":
        return _missing_key(path, line_of(lines, path))
    written = metric.as_written(path)
    if written is not None:
        path, details = written.path, _in_us(details, written)
    return Problem(
        slug="wrong-value",
        file=FILE,
        line=line_of(lines, path),
        column=address(path),
        found=_shown(details["input"]),
        expected=expectation(details),
        todo=_correction(details),
    )


def _in_us(details: ErrorDetails, written: Written) -> ErrorDetails:
    """The error with what was written, and with its bounds in the same unit."""
    bounds = {
        name: written.scale.us(value) if isinstance(value, int | float) and not isinstance(value, bool) else value
        for name, value in details.get("ctx", {}).items()
    }
    changed: ErrorDetails = {**details, "input": written.value}
    if bounds:
        changed["ctx"] = bounds
    return changed


def _correction(details: ErrorDetails) -> str:
    """Which of the known words was meant, where there are such; else just to correct it."""
    if details["type"] != "literal_error" or not isinstance(details["input"], str):
        return "correct this value"
    words = re.findall(r"'([^']+)'", str(details.get("ctx", {}).get("expected", "")))
    return perhaps(details["input"], words, "choose the one that fits best")


def without_echoes(problems: Sequence[Problem]) -> list[Problem]:
    """The problems, but not a key that is missing because its name is misspelt, nor a measure's table with it."""
    unknown = [problem for problem in problems if problem.slug == "unknown-key"]
    meant = {(_table(problem.column), problem.todo) for problem in unknown}
    wrong = {problem.column for problem in unknown}
    return [
        problem
        for problem in problems
        if not (problem.slug == "missing-key" and (_table(problem.column), _meaning(problem.column)) in meant)
        and not (problem.slug == "wrong-value" and problem.column in wrong)
    ]


def _table(column: str | None) -> str:
    return (column or "").rpartition(" · ")[0]


def _meaning(column: str | None) -> str:
    return f"did you mean {(column or '').rpartition(' · ')[2]!r}?"


def _missing_key(path: Path, line: int | None) -> Problem:
    return Problem(
        slug="missing-key",
        file=FILE,
        line=line,
        column=address(path),
        found="nothing",
        expected=f"the key {str(path[-1])!r}",
        todo="add it; the sample season's season.toml shows every key",
    )


def _unknown_key(path: Path, line: int | None) -> Problem:
    known = keys_at(path[:-1])
    return Problem(
        slug="unknown-key",
        file=FILE,
        line=line,
        column=address(path),
        found=f"the key {str(path[-1])!r}",
        expected=f"one of: {', '.join(known)}",
        todo=perhaps(
            str(path[-1]),
            [*known, *us_keys(known)],
            "take it out, or look for its place in the sample season's season.toml",
        ),
    )


def _unknown_measure(path: Path, line: int | None) -> Problem:
    return Problem(
        slug="unknown-key",
        file=FILE,
        line=line,
        column=address(path),
        found=f"the measure {str(path[-1])!r}",
        expected=f"one of: {', '.join(MEASURES)}",
        todo=perhaps(str(path[-1]), list(MEASURES), "choose the measure that the column holds, or take it out"),
    )


def _shown(value: Any) -> str:
    if isinstance(value, dict | BaseModel):
        return "this table"
    text = repr(list(value) if isinstance(value, tuple) else value)
    return text if len(text) <= 80 else text[:77] + "…"


def real_path(loc: tuple[str | int, ...], data: Any) -> Path:
    """The models' path without the names of union branches and the mark of a key, which are no keys of the file."""
    path: list[str | int] = []
    here: Any = data
    for number, part in enumerate(loc):
        last = number == len(loc) - 1
        if isinstance(here, Mapping) and part in here:
            here = here[part]
        elif isinstance(here, list | tuple) and isinstance(part, int) and part < len(here):
            here = here[part]
        elif isinstance(here, Mapping) and last and part != "[key]":
            here = None
        else:
            continue
        path.append(part)
    return tuple(path)
