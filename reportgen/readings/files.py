"""Finds the files of a logger; each match is checked again to stay inside the season folder."""

from __future__ import annotations

import fnmatch
import glob
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from reportgen import limits
from reportgen.disk import Unreadable, inside, is_there, shown, too_much
from reportgen.problems import Problem
from reportgen.season import Logger


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """One file: its name as the season folder has it (forward slashes) and where it is."""

    file: str
    path: Path


def find_files(folder: Path, logger: Logger) -> tuple[list[Found], list[Problem]]:
    """The files of a logger in order of name, each once, and what is wrong with its patterns."""
    found: dict[str, Found] = {}
    problems: list[Problem] = []
    for pattern in logger.files:
        try:
            names = matches(folder, pattern)
        except Unreadable as error:
            problems.append(_of_pattern(pattern, logger, error))
            continue
        if not names:
            problems.append(_none(pattern, logger))
        for name in names:
            try:
                found[shown(name)] = Found(file=shown(name), path=inside(folder, name))
            except Unreadable as error:
                problems.append(_of_file(shown(name), error))
    if len(found) > limits.LOGGER_FILES.most:
        told = too_much(limits.LOGGER_FILES, f"{len(found):,} files")
        return [], [*problems, _of_pattern(", ".join(logger.files), logger, told)]
    return [found[name] for name in sorted(found)], list(dict.fromkeys(problems))


def matches(folder: Path, pattern: str) -> list[str]:
    """What fits a pattern of `files`, as paths below the folder: the name itself where there is nothing to fit, else
    files and links.

    Raises:
        Unreadable: A folder cannot be listed, or a ** meets more than limits.FOLDER_ENTRIES.
    """
    pattern = pattern.replace("\\", "/")
    if not glob.has_magic(pattern):
        return [pattern] if is_there(folder, pattern) else []
    try:
        return _fitting(folder, pattern.split("/"))
    except OSError as error:
        raise Unreadable(f"a folder that cannot be listed ({error.strerror})", "see that you may read it") from error


def _fitting(folder: Path, parts: Sequence[str]) -> list[str]:
    """Paths that fit the parts of a pattern; links to folders are followed by a name or *, never by **, so that a link
    to a folder above it ends."""
    places: list[str] = [""]  # folders that fit the parts so far, each with a slash at its end
    for part in parts[:-1]:
        if part == "**":
            places = [inner for place in places for inner in _folders(folder, place)]
        else:
            named = [f"{place}{name}" for place in places for name in _entries(folder / place, part)]
            places = [f"{path}/" for path in named if (folder / path).is_dir()]
        places = list(dict.fromkeys(places))
        if len(places) > limits.FOLDER_ENTRIES.most:
            raise too_much(limits.FOLDER_ENTRIES, f"{len(places):,} folders")
    last = parts[-1]
    if last == "**":
        places, last = [inner for place in places for inner in _folders(folder, place)], "*"
    files = {f"{place}{name}" for place in places for name in _entries(folder / place, last)}
    return sorted(path for path in files if not (folder / path).is_dir())


def _entries(place: Path, part: str) -> list[str]:
    """Names in one folder that fit one part of a pattern; a leading dot must be written."""
    if not glob.has_magic(part):
        return [part] if is_there(place, part) else []
    names = [entry.name for entry in os.scandir(place)]
    return [n for n in names if fnmatch.fnmatch(n, part) and (part.startswith(".") or not n.startswith("."))]


def _folders(folder: Path, below: str) -> list[str]:
    """A folder and every folder in it, each ending in a slash (the season folder itself is ""), links left out."""
    places, seen = [below], 0
    for place in places:
        for entry in os.scandir(folder / place):
            seen += 1
            if entry.is_dir(follow_symlinks=False) and not entry.name.startswith("."):
                places.append(f"{place}{entry.name}/")
        if seen > limits.FOLDER_ENTRIES.most:
            raise too_much(limits.FOLDER_ENTRIES, f"{seen:,} of them")
    return places


def _none(pattern: str, logger: Logger) -> Problem:
    return Problem(
        slug="missing-file",
        file="season.toml",
        column=f"[[logger]] {logger.name} · files",
        found=f"no file that fits {pattern!r}",
        expected="at least one file in the season folder",
        todo="put the file there or correct its name in season.toml",
    )


def _of_pattern(pattern: str, logger: Logger, error: Unreadable) -> Problem:
    return Problem(
        slug=error.slug,
        file="season.toml",
        column=f"[[logger]] {logger.name} · files",
        found=f"{pattern!r}: {error.found}",
        expected="the files of this logger",
        todo=error.todo,
    )


def _of_file(name: str, error: Unreadable) -> Problem:
    return Problem(
        slug=error.slug, file=name, found=error.found, expected="a file in the season folder", todo=error.todo
    )
