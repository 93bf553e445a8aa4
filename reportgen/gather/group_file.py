"""Reads group.toml, which lies beside the reviews: what counts as one thing, title and units; all faults at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from reportgen import limits
from reportgen.disk import Unreadable, read_all
from reportgen.gather.group_table import GroupTable, ThingTable
from reportgen.gather.texts import folded, told
from reportgen.problems import Problem, SeasonError
from reportgen.season.expectations import expectation
from reportgen.season.explain import perhaps, without_echoes
from reportgen.season.opening import frozen, parsed
from reportgen.season.positions import Lines, address, key_lines, line_of

FILE = "group.toml"
KEYS: dict[tuple[str, ...], type[BaseModel]] = {(): GroupTable, ("thing",): ThingTable}
SHOWN = "`reportgen gather --help` shows a whole group.toml"
LETTERS = 80  # of what was found, as it is told


def group_table(places: Sequence[Path], named: Path | None) -> tuple[GroupTable, str]:
    """What group.toml says, and what the file is called; without one, what holds where nothing is said.

    Args:
        places: Where the reviews are looked for: a group.toml in such a folder, or beside such a file, is taken.
        named: The file that was named instead.

    Raises:
        SeasonError: It cannot be read or says something that cannot be, or two lie there; every fault at once.
    """
    found = [named] if named is not None else _beside(places)
    if not found:
        return GroupTable(), FILE
    if len(found) > 1:
        raise SeasonError([_two(found)])
    return _read(found[0]), told(found[0].name)


def _beside(places: Sequence[Path]) -> list[Path]:
    folders = dict.fromkeys((place if place.is_dir() else place.parent).resolve() for place in places)
    return [folder / FILE for folder in folders if (folder / FILE).is_file()]


def _read(path: Path) -> GroupTable:
    name = told(path.name)
    try:
        if not path.is_file():
            raise Unreadable(
                "no such file", "name the group.toml that you wrote, or leave --group out", "no-such-place"
            )
        text = read_all(path, limits.GROUP_FILE).decode("utf-8-sig")
    except Unreadable as error:
        expected = "a group.toml that can be read"
        fault = Problem(slug=error.slug, file=name, found=error.found, expected=expected, todo=error.todo)
        raise SeasonError([fault]) from None
    except UnicodeDecodeError as error:
        todo = "save the file as UTF-8 in your editor"
        found = f"bytes that are not UTF-8 (at byte {error.start})"
        raise SeasonError([Problem(slug="toml-syntax", file=name, found=found, expected="UTF-8", todo=todo)]) from None
    try:
        return _table(parsed(text), key_lines(text), name)
    except SeasonError as error:
        raise SeasonError([_renamed(problem, name) for problem in error.problems]) from None


def _table(data: dict[str, Any], lines: Lines, name: str) -> GroupTable:
    try:
        table = GroupTable.model_validate(frozen(data))
    except ValidationError as error:
        # A list whose only entry is wrong is told as too short as well.
        details = [one for one in error.errors(include_url=False) if one["type"] != "too_short" or not one["input"]]
        raise SeasonError(without_echoes([_fault(one, lines, name) for one in details])) from None
    if faults := list(_claimed_twice(table.things, lines, name)):
        raise SeasonError(faults)
    return table


def _claimed_twice(things: Sequence[ThingTable], lines: Lines, name: str) -> Iterator[Problem]:
    """Two things of one name, or with one word."""
    owner: dict[str, ThingTable] = {}
    for number, thing in enumerate(things):
        for word in dict.fromkeys(folded(word) for word in (thing.name, *thing.words)):
            if owner.setdefault(word, thing) is not thing:
                yield Problem(
                    slug="two-things-one-line",
                    file=name,
                    line=line_of(lines, ("thing", number, "words")),
                    column=address(("thing", number, "words")),
                    found=f"“{word}” under “{thing.name}” and under “{owner[word].name}”",
                    expected="each word under one thing: a line of a diary can be one thing only",
                    todo="take it out of one of the two, or make one thing of both",
                )


def _fault(details: ErrorDetails, lines: Lines, name: str) -> Problem:
    path, key = details["loc"], str(details["loc"][-1])
    slug, found, expected, todo = "wrong-value", _shown(details["input"]), expectation(details), "correct this value"
    if details["type"] == "extra_forbidden":
        known = _keys_of(path[:-1])
        slug, found, expected = "unknown-key", f"the key {key!r}", f"one of: {', '.join(known)}"
        todo = perhaps(key, known, f"take it out; {SHOWN}")
    elif details["type"] == "missing":
        slug, found, expected, todo = "missing-key", "nothing", f"the key {key!r}", f"add it; {SHOWN}"
    elif details["type"] == "literal_error":
        todo = perhaps(str(details["input"]), ["metric", "us"], "choose the one that fits best")
    line = line_of(lines, path)
    return Problem(slug=slug, file=name, line=line, column=address(path), found=found, expected=expected, todo=todo)


def _keys_of(path: Sequence[str | int]) -> list[str]:
    model = KEYS.get(tuple(part for part in path if isinstance(part, str)), GroupTable)
    return sorted(field.alias or key for key, field in model.model_fields.items())


def _shown(value: Any) -> str:
    if isinstance(value, dict):
        return "this table"
    text = repr(list(value) if isinstance(value, tuple) else value)
    return text if len(text) <= LETTERS else f"{text[: LETTERS - 1]}…"


def _renamed(problem: Problem, name: str) -> Problem:
    """A fault of reading TOML, told of this file."""
    if problem.file == name:
        return problem
    todo = problem.todo if "season.toml" not in problem.todo else "write it anew after `reportgen gather --help`"
    return replace(problem, file=name, todo=todo)


def _two(found: Sequence[Path]) -> Problem:
    return Problem(
        slug="two-group-files",
        file=FILE,
        found=f"{len(found)} of them: {', '.join(told(str(path)) for path in found[:4])}",
        expected="one for the whole group",
        todo="name the one that counts with --group",
    )
