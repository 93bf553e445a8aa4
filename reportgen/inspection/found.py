"""The result of looking at a season folder: the season and its readings as far as they could be had, and the faults."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from reportgen.measures.record import Record
from reportgen.plain import plain
from reportgen.problems import Problem
from reportgen.readings.books import BOOKS
from reportgen.readings.diary_lines import TICK_LINES
from reportgen.readings.types import HeatSupply, Readings
from reportgen.season import Season

FORMAT = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """What `inspect` shows. `season` is None where season.toml cannot be read, `readings` and `record` where nothing
    below it can. `complete` says that the readings are those a review would use."""

    folder: Path
    season: Season | None
    readings: Readings | None
    record: Record | None
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]

    @property
    def complete(self) -> bool:
        """A review can be made."""
        return self.readings is not None and not self.problems

    def to_dict(self) -> dict[str, Any]:
        """The same for programs, format 1: season, record, books, heating, checks, problems, warnings."""
        return {
            "format": FORMAT,
            "ready": self.complete,
            "season": _season(self.season),
            "record": plain(self.record),
            "gaps": _gaps(self.record),
            "books": books(self.readings),
            "heating": [_supply(s) for s in (*self.readings.heating, *self.readings.appliances)]
            if self.readings
            else [],
            "checks": plain(self.readings.findings) if self.readings else [],
            "problems": [problem.to_dict() for problem in self.problems],
            "warnings": [warning.to_dict() for warning in self.warnings],
        }


def books(readings: Readings | None) -> dict[str, int | None]:
    """Rows of every book; None where the season has none."""
    if readings is None:
        return dict.fromkeys(BOOKS)
    rows = {name: [row for row in getattr(readings, name) if row.line <= TICK_LINES] for name in BOOKS}
    return {name: len(rows[name]) if readings.books.get(name) else None for name in BOOKS}


def ticked(readings: Readings | None) -> int:
    """Nights that the tick sheet of a trial says were on."""
    spells = [entry for entry in readings.diary if entry.line > TICK_LINES] if readings is not None else []
    return sum((entry.until - entry.date).days + 1 for entry in spells if entry.until is not None)


def _season(season: Season | None) -> dict[str, Any] | None:
    if season is None:
        return None
    return {
        "title": season.title,
        "first_day": season.first_day.isoformat(),
        "last_day": season.last_day.isoformat(),
        "so_far": season.so_far is not None,
        "time_zone": season.time_zone,
        "currency": season.currency,
        "loggers": [
            {
                "name": logger.name,
                "where": logger.where,
                "main": logger.main,
                "files": list(logger.files),
                "clock": logger.clock,
                "measures": {
                    name: {"column": column.column, "unit": column.unit} for name, column in logger.measures.items()
                },
            }
            for logger in season.loggers
        ],
    }


def _gaps(record: Record | None) -> list[dict[str, Any]]:
    if record is None:
        return []
    names = ("logger", "measure", "start", "end", "hours")
    return [{name: plain(row[name]) for name in names} for row in record.gaps.to_dict("records")]


def _supply(supply: HeatSupply) -> dict[str, Any]:
    table = supply.intervals
    cost = table["cost"].sum(min_count=1) if len(table) else None
    return {
        "name": supply.name,
        "role": supply.role,
        "fuel": supply.fuel,
        "from": supply.form,
        "rows": len(table),
        "bought": plain(float(table["bought"].sum())) if len(table) else None,
        "unit": supply.unit,
        "heat_kwh": plain(float(table["heat_kwh"].sum())) if len(table) else None,
        "cost": plain(None if cost is None else float(cost)),
        "resets": supply.resets,
        "reasons": dict(supply.reasons),
    }
