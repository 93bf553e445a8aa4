"""What `begin` says no to before it looks at any file."""

from __future__ import annotations

from pathlib import Path

from reportgen.problems import Problem, SeasonError

TOML = "season.toml"


class AlreadyBegun(Exception):
    """What would be written is there, and nobody said that it may be replaced."""


def refuse(folder: Path, force: bool) -> None:
    """Nothing, where a first season.toml may be written.

    Raises:
        SeasonError: There is no such folder.
        AlreadyBegun: A season.toml is there and `force` is not set.
    """
    if not is_folder(folder):
        raise SeasonError([nothing("season-missing", "no such folder", "a folder with the exports of your loggers")])
    if (folder / TOML).exists() and not force:
        raise AlreadyBegun(f"{TOML} is there already; --force replaces it")


def is_folder(folder: Path) -> bool:
    """Whether it is one; no for a name that the system cannot hold."""
    try:
        return folder.is_dir()
    except (OSError, ValueError):
        return False


def nothing(slug: str, found: str, expected: str) -> Problem:
    """The problem of a folder that holds nothing to go by."""
    todo = "put the files as they came off the loggers into the folder, then run `reportgen begin` again"
    return Problem(slug=slug, file=TOML, found=found, expected=expected, todo=todo)
