"""The line of season.toml to which a later floor's problem belongs, found by the key it names."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from reportgen.problems import Problem
from reportgen.season.explain import FILE, Lines
from reportgen.season.positions import key_lines, line_of
from reportgen.units import MEASURES

_ENTRY = re.compile(r"\[\[(\w+)\]\] (.+?)(?: · (.+))?")
_TABLE = re.compile(r"\[(\w+)\] · (.+)")


def located(problems: Iterable[Problem], folder: Path) -> list[Problem]:
    """The same problems; those of season.toml that lack a line get it where their key, or its table, is found.

    A column reads as `address` writes it: `[[heating]] 2 · price`, or with the entry's name for its number.
    """
    problems = list(problems)
    if not any(_open(problem) for problem in problems):
        return problems
    try:
        text = (folder / FILE).read_text(encoding="utf-8-sig")
        data = tomllib.loads(text)
    except (OSError, ValueError):
        return problems
    lines = key_lines(text)
    return [replace(p, line=_line(p.column or "", data, lines)) if _open(p) else p for p in problems]


def _open(problem: Problem) -> bool:
    return problem.file == FILE and problem.line is None and bool(problem.column)


def _line(column: str, data: Mapping[str, Any], lines: Lines) -> int | None:
    if entry := _ENTRY.fullmatch(column):
        number = _number(entry[2], data.get(entry[1]))
        keys = tuple(entry[3].split(" · ")) if entry[3] else ()
        if entry[1] == "logger" and keys[:1] and keys[0] in MEASURES:
            keys = ("measures", *keys)
        return None if number is None else line_of(lines, (entry[1], number, *keys))
    if table := _TABLE.fullmatch(column):
        return line_of(lines, (table[1], *table[2].split(" · ")))
    return line_of(lines, (column,))


def _number(which: str, entries: object) -> int | None:
    """The place of an entry from 0, by its number from 1 or by its name."""
    if not isinstance(entries, list):
        return None
    names = [str(entry.get("name")) for entry in entries if isinstance(entry, Mapping)]
    if which in names:
        return names.index(which)
    return int(which) - 1 if which.isdigit() and 0 < int(which) <= len(entries) else None
