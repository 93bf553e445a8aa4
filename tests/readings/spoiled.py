"""Logger files whose truth is known: a true series is written, then its dates are spoiled as spreadsheets do it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from readings.folder import logger, season

from reportgen.problems import Problem
from reportgen.readings.season_reader import read_what_can_be
from reportgen.readings.types import CheckFinding

DAY_FIRST, MONTH_FIRST = "%d/%m/%Y %H:%M", "%m/%d/%Y %H:%M"
Gap = tuple[pd.Timestamp, pd.Timedelta]


def curve(instants: pd.DatetimeIndex) -> np.ndarray:
    """A temperature that is never the same on two days: a daily wave on a slow, falling one [°C]."""
    days = (instants - pd.Timestamp("2020-01-01", tz="UTC")) / pd.Timedelta("1D")
    wave = 9 + 5 * np.sin(2 * np.pi * days) + 2 * np.sin(2 * np.pi * days / 9.3) + np.cos(2 * np.pi * days / 41.7)
    return np.asarray(np.round(wave, 2))


@dataclass(kw_only=True)
class Truth:
    """Rows in the order of time: what was measured when, and the text that a file says of it."""

    zone: str
    instants: pd.DatetimeIndex  # UTC
    values: np.ndarray
    texts: list[str]
    counts: list[int] = field(default_factory=list)

    @property
    def walls(self) -> pd.DatetimeIndex:
        """The clock on the wall."""
        return self.instants.tz_convert(self.zone).tz_localize(None)

    def file(self, counter: bool = False, newest_first: bool = False) -> str:
        """The CSV."""
        head = "No,Time,Temp" if counter else "Time,Temp"
        rows = [
            f"{f'{n},' if counter else ''}{text},{value:.2f}"
            for n, text, value in zip(self.counts, self.texts, self.values, strict=True)
        ]
        return "\n".join([head, *(rows[::-1] if newest_first else rows)]) + "\n"


def truth(
    first: str, last: str, *, zone: str = "Europe/Prague", step: str = "15min", day_first: bool = True,
    gaps: tuple[Gap, ...] = (),
) -> Truth:  # fmt: skip
    """A series on the clock of a zone, from the first day to the end of the last, without the gaps (wall time)."""
    start = pd.Timestamp(first).tz_localize(zone).tz_convert("UTC")
    end = (pd.Timestamp(last) + pd.Timedelta("1D")).tz_localize(zone).tz_convert("UTC")
    instants = pd.date_range(start, end, freq=step, inclusive="left")
    walls = instants.tz_convert(zone).tz_localize(None)
    keep = np.ones(len(instants), dtype=bool)
    for begin, length in gaps:
        keep &= ~np.asarray((walls >= begin) & (walls < begin + length))
    instants, walls = instants[keep], walls[keep]
    form = DAY_FIRST if day_first else MONTH_FIRST
    return Truth(
        zone=zone,
        instants=instants,
        values=curve(instants),
        texts=[at.strftime(form) for at in walls],
        counts=list(range(1, len(instants) + 1)),
    )


def exchange(series: Truth, where: Callable[[dt.date], bool], hours: float = 0.0) -> list[int]:
    """Day and month exchanged in the texts of all days that can be (day and month up to 12) and fit; those rows.

    `hours`: how far on their clock is written; the date that is exchanged is then the one so written.
    """
    changed = []
    for n, wall in enumerate(series.walls):
        if wall.day <= 12 and where(wall.date()):
            written = wall + pd.Timedelta(hours=hours)
            form = MONTH_FIRST if series.texts[n] == wall.strftime(DAY_FIRST) else DAY_FIRST
            if written.day > 12:  # such a date has no exchanged form: it stands as in the rest of the file
                form = DAY_FIRST if form == MONTH_FIRST else MONTH_FIRST
            series.texts[n] = written.strftime(form)
            changed.append(n)
    return changed


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of a spoiled file: readings that are not what was measured then, readings in the season that are not
    used, and what was told."""

    wrong: int
    lost: int
    used: int
    findings: tuple[CheckFinding, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]

    def told(self, slug: str) -> list[str]:
        """The words of everything told under a slug."""
        words = [finding.words for finding in self.findings if finding.slug == slug]
        return words + [problem.found for problem in (*self.problems, *self.warnings) if problem.slug == slug]

    @property
    def slugs(self) -> set[str]:
        """Whatever was told."""
        return {told.slug for told in (*self.findings, *self.problems, *self.warnings)}


def outcome(folder: Path, series: Truth, text: str, first: dt.date, last: dt.date, **more: Any) -> Outcome:
    """Reads the text as the one file of a season and holds the readings against the truth."""
    (folder / "a.csv").write_text(text)
    season_of = season(folder, logger(**more), first_day=first, last_day=last, time_zone=series.zone)
    readings, problems = read_what_can_be(season_of)
    true = pd.Series(series.values, index=series.instants)
    true = true[(true.index >= season_of.start) & (true.index <= season_of.end)]
    channel = readings.channel("bench", "air_temperature")
    used = channel.values.tz_convert("UTC") if channel is not None else true[:0]
    there = used.index.isin(true.index)
    right = true.reindex(used.index[there]).to_numpy() == used[there].to_numpy()
    return Outcome(
        wrong=int((~there).sum() + (~right).sum()),
        lost=int((~true.index.isin(used.index)).sum()),
        used=len(used),
        findings=readings.findings,
        problems=problems,
        warnings=readings.warnings,
    )
