"""Finds the files of a logger; each match is checked again to stay inside the season folder."""

from __future__ import annotations

import glob
from dataclasses import dataclass
from pathlib import Path

from reportgen.problems import Problem
from reportgen.season import Logger


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """One file: its name as the season folder has it (forward slashes) and where it is."""

    file: str
    path: Path


def find_files(folder: Path, logger: Logger) -> tuple[list[Found], list[Problem]]:
    """The files of a logger in order of name, each once, and what is wrong with its patterns."""
    root = folder.resolve()
    found: dict[str, Found] = {}
    problems: list[Problem] = []
    for pattern in logger.files:
        hits = [path for path in matches(folder, pattern) if path.is_file()]
        if not hits:
            problems.append(_none(pattern, logger))
        for path in hits:
            name = path.relative_to(folder).as_posix()
            if path.resolve().is_relative_to(root):
                found[name] = Found(file=name, path=path)
            else:
                problems.append(_leads_out(name))
    return [found[name] for name in sorted(found)], list(dict.fromkeys(problems))


def matches(folder: Path, pattern: str) -> list[Path]:
    """What a pattern of `files` finds, in order of name."""
    pattern = pattern.replace("\\", "/")
    if not glob.has_magic(pattern):
        return [folder / pattern]
    return sorted(folder / name for name in glob.glob(pattern, root_dir=folder, recursive=True))  # noqa: PTH207 (Path.glob refuses some patterns)


def _none(pattern: str, logger: Logger) -> Problem:
    return Problem(
        slug="missing-file",
        file="season.toml",
        column=f"[[logger]] {logger.name} · files",
        found=f"no file that fits {pattern!r}",
        expected="at least one file in the season folder",
        todo="put the file there or correct its name in season.toml",
    )


def _leads_out(name: str) -> Problem:
    return Problem(
        slug="path-leads-out",
        file=name,
        found="a link that leads out",
        expected="a file in the season folder",
        todo="put the file itself into the folder",
    )
