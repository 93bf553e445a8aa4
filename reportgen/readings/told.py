"""Everything the grower typed that a shared page may print, each with its address in the season folder."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from reportgen import limits
from reportgen.disk import Unreadable, is_there, read_inside
from reportgen.readings.shelf import Place
from reportgen.readings.ticks import line_of
from reportgen.readings.types import Readings
from reportgen.season import Season

STORY = "story.md"
TOML = "season.toml"
PICTURE = re.compile(r"(!\[[^\]]*\]\()[^)\s]*")  # the picture itself is shared, its file's name is not
BOOKS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("harvest", "harvest", ("crop", "bed", "note")),
    ("plantings", "plantings", ("crop", "cultivar", "bed", "cause")),
    ("watering", "watering", ("bed",)),
    ("inspections", "inspections", ("bed", "crop", "found", "action")),
    ("costs", "costs", ("what", "kind")),
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """One text of the grower's and where it stands."""

    file: str
    line: int | None = None
    column: str | None = None
    text: str


def told(readings: Readings, *, story: bool = True) -> tuple[Told, ...]:
    """Every text that its `[share]` lets go; names of loggers and files are not among them, they are replaced. `story`:
    whether it is the winter whose story is told."""
    found = [*_of_season(readings.season), *_of_diary(readings), *_of_books(readings)]
    found += _of_story(readings.season) if story else []
    return tuple(one for one in found if one.text)


def _of_season(season: Season) -> Iterator[Told]:
    texts: list[tuple[str, str | None]] = [("title", season.title), ("[share] · label", season.share.label)]
    texts += [(f"[house] · {key}", getattr(season.house, key)) for key in ("id", "kind", "glazing")]
    texts += [(f"[[question]] {n} · ask", asked.ask) for n, asked in enumerate(season.questions, start=1)]
    for n, logger in enumerate(season.loggers, start=1):
        texts += [(f"[[logger]] {n} · beds", bed) for bed in logger.beds] + [(f"[[logger]] {n} · under", logger.under)]
    texts += [(f"[[heating]] {n} · name", heater.name) for n, heater in enumerate(season.heating, start=1)]
    texts += [(f"[[appliance]] {n} · name", one.name) for n, one in enumerate(season.appliances, start=1)]
    texts += [(f"[[crop]] {n} · name", crop.name) for n, crop in enumerate(season.crops, start=1)]
    return (Told(file=TOML, column=column, text=text) for column, text in texts if text)


def _of_diary(readings: Readings) -> Iterator[Told]:
    share = readings.season.share
    columns = ("what", "thing", "note") if share.diary_notes else ("what", "thing")
    lines = (*readings.diary_before, *readings.diary)
    rows = (entry for entry in lines if entry.kind != "away" or share.away)
    return _of_rows(readings.place("diary"), rows, columns)


def _of_books(readings: Readings) -> Iterator[Told]:
    share = readings.season.share
    kept = {"harvest": share.harvest, "costs": share.prices}
    for book, rows, columns in BOOKS:
        if kept.get(book, True):
            told_columns = tuple(name for name in columns if name != "note" or share.diary_notes)
            yield from _of_rows(readings.place(book), getattr(readings, rows), told_columns)


def _of_rows(place: Place, rows: Iterable[object], columns: tuple[str, ...]) -> Iterator[Told]:
    for row in rows:
        file, line = line_of(place, getattr(row, "line", 0))
        for column in columns:
            text = getattr(row, column) or ""
            yield Told(file=file, line=line, column=place.column(column) if file == place.file else column, text=text)


def _of_story(season: Season) -> list[Told]:
    if not season.share.story or not is_there(season.folder, STORY):
        return []
    try:
        text = read_inside(season.folder, STORY, limits.STORY_BYTES).decode("utf-8-sig", "replace")
    except Unreadable:  # told by the reader of the story
        return []
    lines = [PICTURE.sub(r"\1", line) for line in text.splitlines()]
    return [Told(file=STORY, line=number, text=line) for number, line in enumerate(lines, start=1)]
