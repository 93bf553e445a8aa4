"""The filled-in tick sheet of a trial, ticks.csv (`date,what,on`): its nights on become spells of that `what`.

A row is a night, named after its evening; `on` says whether the thing was on in it, and an empty cell that nobody
ticked. What the thing touches and was hoped to do stands in the diary, in a line with the same `what`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from reportgen.disk import is_there
from reportgen.problems import Problem
from reportgen.readings.diary_lines import TICK_LINES, normal
from reportgen.readings.ledger import Columns, Row
from reportgen.readings.opening import open_ledger
from reportgen.readings.shelf import Place
from reportgen.readings.types import DiaryEntry
from reportgen.season import Season

FILE = "ticks.csv"
TICKS = Columns(needed=("date", "what", "on"), optional=("note",))
ON, OFF = ("yes", "on", "true", "1", "x", "✓", "☑"), ("no", "off", "false", "0", "☐")
SWITCHED = dt.time(12)  # a trial is switched at noon, so that no night is cut in two
TELLS = ("change", "spell", "idea", "upkeep")  # kinds of diary line that say what a thing touches


@dataclass(frozen=True, kw_only=True, slots=True)
class Tick:
    """One night of the sheet."""

    line: int
    night: dt.date
    what: str
    on: bool


def read_ticks(season: Season, diary: Sequence[DiaryEntry]) -> tuple[list[DiaryEntry], list[Problem]]:
    """The spells that a tick sheet tells, in order, and its problems; nothing where there is no sheet."""
    if not is_there(season.folder, FILE):
        return [], []
    ledger = open_ledger(Path(season.folder), FILE, TICKS)
    ticks = [tick for row in ledger.rows() if (tick := _tick(row)) is not None and row.good]
    seen: dict[tuple[str, dt.date], bool] = {}
    for tick in ticks:
        if seen.setdefault((normal(tick.what), tick.night), tick.on) != tick.on:
            ledger.tell(
                "ticked-twice",
                line=tick.line,
                column="on",
                found=f"{tick.what!r} both on and off in the night of {tick.night}",
                expected="one row a night",
                todo="keep the row that is right",
            )
    spells = [_spell(run, diary) for run in _runs(ticks)]
    for spell in spells:
        for slug, found, todo, level in _doubts(spell, diary):
            ledger.tell(
                slug,
                line=spell.line - TICK_LINES,
                column="what",
                found=found,
                expected="one line of the diary that says what it touches, and the nights here alone",
                todo=todo,
                level="problem" if level else "warning",
            )
    return spells, ledger.problems


def line_of(place: Place, line: int) -> tuple[str, int]:
    """The file and the line of an entry of the diary, which may come from the tick sheet."""
    return (FILE, line - TICK_LINES) if line > TICK_LINES else (place.file, line)


def _tick(row: Row) -> Tick | None:
    night, what = row.date("date", needed=True), row.text("what", needed=True)
    word = row.word("on", ON + OFF)
    if night is None or not word:
        return None
    return Tick(line=row.line, night=night, what=what, on=word in ON)


def _runs(ticks: Sequence[Tick]) -> Iterator[list[Tick]]:
    """Nights on, one after the other, of one thing; a night without a row, or not ticked, ends a run."""
    by_name: dict[str, dict[dt.date, Tick]] = {}
    for tick in ticks:
        by_name.setdefault(normal(tick.what), {}).setdefault(tick.night, tick)
    for nights in by_name.values():
        run: list[Tick] = []
        for night in sorted(nights):
            tick = nights[night]
            if run and (not tick.on or night - run[-1].night > dt.timedelta(days=1)):
                yield run
                run = []
            if tick.on:
                run.append(tick)
        if run:
            yield run


def _line_for(what: str, diary: Sequence[DiaryEntry]) -> DiaryEntry | None:
    """The line of those words, else the first whose `thing` that is: the plan names a thing so."""
    told = [e for e in diary if e.kind in TELLS]
    own = next((e for e in told if normal(e.what) == normal(what)), None)
    return own or next((e for e in told if e.thing and normal(e.thing) == normal(what)), None)


def _spell(run: Sequence[Tick], diary: Sequence[DiaryEntry]) -> DiaryEntry:
    told = _line_for(run[0].what, diary)
    idea = told if told is not None and told.kind == "idea" else None
    return DiaryEntry(
        line=TICK_LINES + run[0].line,
        date=run[0].night,
        time=SWITCHED,
        kind="spell",
        what=told.what if told else run[0].what,
        touches=told.touches if told else (),
        reversible=True,
        hoped_for=told.hoped_for if told else (),
        until=run[-1].night,
        cost=idea.cost if idea else None,  # an idea that hung for a night was bought; rows of one spell count once
        years=idea.years if idea else None,
        written=_written(told),
        note="",
        thing=told.thing if told else "",
    )


def _written(told: DiaryEntry | None) -> dt.date | None:
    """The day on which the hope was noted: as the line says; an idea is noted on its own day."""
    if told is None or told.written is not None:
        return told.written if told else None
    return told.date if told.kind == "idea" else None


def _doubts(spell: DiaryEntry, diary: Sequence[DiaryEntry]) -> Iterator[tuple[str, str, str, bool]]:
    """Slug, found, to do, and whether it stops the review."""
    told = _line_for(spell.what, diary)
    if told is None:
        found = f"{spell.what!r}, of which the diary has no line"
        yield (
            "tick-without-line",
            found,
            "add a line of the kind idea that says what it touches and is hoped to do",
            False,
        )
        return
    for entry in diary:
        if entry.kind == "spell" and normal(entry.what) == normal(spell.what) and _overlap(entry, spell):
            found = f"nights from {spell.date} to {spell.until}, which line {entry.line} of the diary has too"
            yield "ticked-twice", found, "take the spell out of the diary, or those nights out of the tick sheet", True


def _overlap(one: DiaryEntry, other: DiaryEntry) -> bool:
    return one.date <= (other.until or other.date) and other.date <= (one.until or one.date)
