"""All logger files → channels: files merged, each value used or set aside under one reason."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
import pandas as pd

from reportgen import limits
from reportgen.disk import too_much
from reportgen.problems import Problem
from reportgen.readings.astray import astray
from reportgen.readings.check_words import channel_findings, empty, file_findings
from reportgen.readings.checks import mark_impossible, mark_jumps, mark_stuck
from reportgen.readings.clock_checks import drifting, hour_steps
from reportgen.readings.columns import unit_of
from reportgen.readings.dead import mark_dead_rows
from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import FileRows, Opened
from reportgen.readings.files import find_files
from reportgen.readings.levels import level_doubts
from reportgen.readings.loggerfile import open_file, rows_of
from reportgen.readings.marks import BLANK, INTERPOLATED, OUTSIDE, USED, Codes, counted, row_codes
from reportgen.readings.merge import Merged, merge
from reportgen.readings.mixed import unit_changes
from reportgen.readings.neighbours import compare
from reportgen.readings.probe import doubted_probes
from reportgen.readings.types import Channel, CheckFinding, FileAccount
from reportgen.readings.which_day import settle
from reportgen.season import Logger, Season
from reportgen.season.sources import shown
from reportgen.units import MEASURES, convert_difference

LATER_D = 366  # rows later than this after the last day are of another season, or of a wrong clock
NO_ALIASES: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, kw_only=True, slots=True)
class Logged:
    """What all loggers gave."""

    files: tuple[FileAccount, ...]
    channels: tuple[Channel, ...]
    findings: tuple[CheckFinding, ...]
    problems: tuple[Problem, ...]
    latest: dt.date | None = None  # the latest day of any row that has a time, whether or not it lies in the season


def read_loggers(season: Season, file_aliases: Mapping[str, str] = NO_ALIASES) -> Logged:
    """Every logger of the season in the order of season.toml; a file that has an alias is told of by it, except in
    problems."""
    files: list[FileAccount] = []
    channels: list[Channel] = []
    findings: list[CheckFinding] = []
    problems: list[Problem] = []
    latest: list[int] = []
    sure: set[str | None] = set()  # columns of which it is known what is wrong: no guess at their unit stands beside
    room = _Room(left=limits.SEASON_ROWS.most)
    for logger in season.loggers:
        rows = _rows(logger, season, problems, room)
        if not rows:
            continue
        merged = merge(rows, tuple(logger.measures), season)
        latest += _latest(merged, season)
        parts = [replace(part, file=file_aliases.get(part.file, part.file)) for part in rows]
        findings += file_findings(logger, parts, season) + hour_steps(logger.name, parts, season)
        mark_dead_rows(merged)
        for measure in logger.measures:
            wet = _check(measure, merged)
            channels.append(_channel(logger, measure, merged, season))
            findings += channel_findings(logger, measure, merged, wet, season)
            problems += _empty(logger, measure, merged, rows)
            if changed := unit_changes(logger, measure, merged, [part.file for part in rows]):
                problems += changed
                sure.add(f"[[logger]] {logger.name} · {measure}")
        files += [_account(logger, part, merged, n) for n, part in enumerate(parts)]
    seen, asked = compare(channels, season)
    findings += seen + drifting(channels, season)
    doubted, exchanged = doubted_probes(channels, season)
    findings += doubted
    levels = level_doubts(channels, season)
    sure |= {problem.column for problem in levels if problem.level == "problem"}
    problems += (
        [problem for problem in asked if problem.column not in sure] + exchanged + levels + astray(channels, season)
    )
    return Logged(
        files=tuple(files),
        channels=tuple(channels),
        findings=tuple(findings),
        problems=tuple(problems),
        latest=_index(np.asarray([max(latest) - 1]), season)[0].date() if latest else None,
    )


def _latest(merged: Merged, season: Season) -> list[int]:
    """The last instant [ms UTC] of a logger, years after the season left aside; midnight belongs to the day before."""
    bound = season.end.timestamp() * 1000 + (0 if season.open_ended else LATER_D * 86_400_000)
    known = merged.utc[merged.order]
    known = known[known <= bound]
    return [int(known[-1])] if len(known) else []


@dataclass(slots=True)
class _Room:
    """How many rows may still be read; told once, with the file in which it was used up."""

    left: int
    told: bool = False

    def tell(self, faults: Faults) -> None:
        """Notes that there were too many; the rows of this file and of those after it are not used."""
        if not self.told:
            error = too_much(limits.SEASON_ROWS, "this file and those before it hold more")
            faults.tell(error.slug, error.found, limits.SEASON_ROWS.words, error.todo)
        self.told = True


def _rows(logger: Logger, season: Season, problems: list[Problem], room: _Room) -> list[FileRows]:
    """The rows of every file of a logger that can be read."""
    if room.left < 0:
        return []
    found, faults = find_files(season.folder, logger)
    problems += faults
    opened: list[Opened] = []
    told: Mapping[str, Faults] = {file.file: Faults(file.file) for file in found}
    for file in found:
        one = open_file(file, logger, told[file.file])
        if one is None:
            continue
        room.left -= len(one.table.lines)
        if room.left < 0:
            room.tell(told[file.file])
            break
        opened.append(one)
    orders = settle(opened, season, told)
    rows = [
        rows_of(one, logger, season, first, told[one.found.file])
        for one, first in zip(opened, orders, strict=True)
        if first is not None
    ]
    for gathered in told.values():
        problems += gathered.problems
    return rows


def _check(measure: str, merged: Merged) -> int:
    """Codes what cannot be in one channel, each check on what the one before it left; see mark_impossible."""
    wet = mark_impossible(measure, merged, _used(measure, merged))
    code = merged.codes[measure]
    code[merged.interpolated[measure] & (code == USED)] = INTERPOLATED
    mark_stuck(measure, merged, _used(measure, merged))
    mark_jumps(measure, merged, _used(measure, merged))
    return wet


def _used(measure: str, merged: Merged) -> Ints:
    """The rows of a channel that are used, by instant."""
    rows: Ints = merged.order[merged.codes[measure][merged.order] == USED]
    return rows


def _empty(logger: Logger, measure: str, merged: Merged, rows: Sequence[FileRows]) -> list[Problem]:
    if not empty(merged, measure):
        return []
    return [
        Problem(
            slug="empty-column",
            file=rows[0].file,
            column=shown(logger.measures[measure].column),
            found=f"no value of {measure} in any file of logger {logger.name!r}",
            expected="readings",
            todo="take the measure out of season.toml, or name the column that holds it",
            level="warning",
        )
    ]


def _channel(logger: Logger, measure: str, merged: Merged, season: Season) -> Channel:
    code, values = merged.codes[measure], merged.values[measure]
    rows = _used(measure, merged)
    times = _index(merged.utc[rows], season)
    column = logger.measures[measure]
    series = pd.Series(values[rows], index=times, name=measure)
    steps = np.diff(merged.utc[rows])
    accuracy = None
    if column.accuracy is not None:
        accuracy = convert_difference(column.accuracy, unit_of(measure, column), MEASURES[measure].kept)
    return Channel(
        logger=logger.name,
        measure=measure,
        where=logger.where,
        values=series,
        accuracy=accuracy,
        depth_m=column.depth_m,
        step_s=_middle(steps) / 1000.0 if len(steps) else None,
        values_read=int((code != BLANK).sum()),
        values_used=int((code == USED).sum()),
        set_aside=counted(code),
        beyond=_beyond(logger, measure, merged, season),
    )


def _beyond(logger: Logger, measure: str, merged: Merged, season: Season) -> pd.Series | None:
    """Outdoor air on days outside the season: possible values only, nothing else checked."""
    if measure != "outdoor_temperature" and (logger.where, measure) != ("outdoor", "air_temperature"):
        return None
    rows, values = merged.order[merged.codes[measure][merged.order] == OUTSIDE], merged.values[measure]
    kept = rows[(values[rows] >= MEASURES[measure].lowest) & (values[rows] <= MEASURES[measure].highest)]
    return pd.Series(values[kept], index=_index(merged.utc[kept], season), name=measure) if len(kept) else None


def _middle(steps: Ints) -> float:
    """The median; quick where all steps are one."""
    return float(steps[0]) if steps.min() == steps.max() else float(np.median(steps))


def _index(utc_ms: Ints, season: Season) -> pd.DatetimeIndex:
    stamps = utc_ms.astype("datetime64[ms]").astype("datetime64[ns]")
    return pd.DatetimeIndex(stamps).tz_localize("UTC").tz_convert(season.zone)


def _account(logger: Logger, part: FileRows, merged: Merged, n: int) -> FileAccount:
    own = slice(merged.starts[n], merged.starts[n + 1])
    codes: Sequence[Codes] = [merged.codes[measure][own] for measure in logger.measures]
    rows = row_codes(list(codes))
    return FileAccount(
        file=part.file,
        logger=logger.name,
        rows_read=len(rows),
        rows_used=int((rows == USED).sum()),
        set_aside=counted(rows),
        clock=part.clock,
    )
