"""Names of loggers and files that hold a private name: the season is read again under neutral ones.

So every sentence of the checks is made with the neutral name, and none is changed afterwards. `logger-2` is the second
logger of both winters' season.toml together, in the order of the files: one name, one alias, in both winters.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import PurePosixPath
from typing import Any

from reportgen.readings.folded import PrivateName
from reportgen.readings.season_reader import read_what_can_be
from reportgen.readings.types import Readings
from reportgen.season import Season

LONGEST_ENDING = 5  # ".xlsx"


def neutral(
    readings: Readings, last: Readings | None, names: Sequence[PrivateName]
) -> tuple[Readings, Readings | None]:
    """Both winters, with neutral names for what would tell the place; the same readings where nothing would."""
    winters = [readings] if last is None else [readings, last]
    loggers = list(dict.fromkeys(logger.name for winter in winters for logger in winter.season.loggers))
    numbered = _numbered(loggers)
    renamed = {name: numbered[name] for name in loggers if _tells(name, names)}
    this, *before = (_read_again(winter, renamed, numbered, names) for winter in winters)
    return this, before[0] if before else None


def _tells(text: str, names: Sequence[PrivateName]) -> bool:
    """Whether the letters stand in it in any way: a name that is replaced in vain costs nothing."""
    return any(name.within(text) for name in names)


def _numbered(loggers: Sequence[str]) -> dict[str, str]:
    """A neutral name for each logger, none of which another logger bears."""
    taken = {name.casefold() for name in loggers}
    aliases = {}
    for n, name in enumerate(loggers, start=1):
        tries = itertools.chain([f"logger-{n}"], (f"logger-{n}-{more}" for more in itertools.count(2)))
        aliases[name] = next(alias for alias in tries if alias not in taken or alias == name.casefold())
        taken.add(aliases[name])
    return aliases


def _read_again(
    winter: Readings, renamed: Mapping[str, str], numbered: Mapping[str, str], names: Sequence[PrivateName]
) -> Readings:
    season = winter.season
    files = _files(winter, numbered, names)
    if not files and not renamed.keys() & {logger.name for logger in season.loggers}:
        return winter
    readings, _ = read_what_can_be(_under(season, renamed), files)
    return replace(readings, warnings=winter.warnings)  # told to the grower, by the names the grower knows


def _files(winter: Readings, numbered: Mapping[str, str], names: Sequence[PrivateName]) -> dict[str, str]:
    """Neutral names of the files that need one: their logger's, numbered where it has several."""
    aliases: dict[str, str] = {}  # a file that two loggers read is called after the first
    for logger, accounts in itertools.groupby(winter.files, key=lambda account: account.logger):
        own = [account.file for account in accounts]
        for n, file in enumerate(own, start=1):
            if _tells(file, names):
                more = f"-file-{n}" if len(own) > 1 else ""
                aliases.setdefault(file, f"{numbered[logger]}{more}{_ending(file, names)}")
    return aliases


def _ending(file: str, names: Sequence[PrivateName]) -> str:
    ending = PurePosixPath(file).suffix
    return ending if len(ending) <= LONGEST_ENDING and ending[1:].isalnum() and not _tells(ending, names) else ""


def _under(season: Season, renamed: Mapping[str, str]) -> Season:
    """The season with the loggers under other names, wherever they are named."""

    def each(parts: Iterable[Any], key: str) -> tuple[Any, ...]:
        names = ((part, getattr(part, key)) for part in parts)
        return tuple(part.model_copy(update={key: renamed.get(name, name)}) for part, name in names)

    return season.model_copy(
        update={
            "loggers": each(season.loggers, "name"),
            "heating": each(season.heating, "logger"),
            "appliances": each(season.appliances, "logger"),
        }
    )
