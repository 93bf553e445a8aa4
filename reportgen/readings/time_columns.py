"""Finds the column or columns that hold the time: one, a date beside a time of day, or year, month, day … apart."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen.readings.header_words import plain_words
from reportgen.readings.layout import MOSTLY, Layout
from reportgen.readings.stamps import NAT, Stamps, read_stamps
from reportgen.readings.time_text import format_of

_CLOCK_ONLY = re.compile(r"\d{1,2}[:h]\d{2}(?::\d{2})?(?:\s?[AaPp]\.?[Mm]\.?)?")
_HALF_DAY = re.compile(r"[AaPp]\.?\s?[Mm]\.?")
# What a column of a part of the time may be called (from memory), its letter and what its numbers may be.
_PARTS: Mapping[str, tuple[str, int, int]] = {
    "%Y": ("year|yr|jahr|rok|annee|ano|anno", 1990, 2100),
    "%m": ("month|mon|mo|monat|mesic|mois|mes|mese", 1, 12),
    "%d": ("day|dy|tag|den|jour|dia|giorno|day of month|dom", 1, 31),
    "%H": ("hour|hr|hours|stunde|std|hodina|heure|hora|ora", 0, 24),
    "%M": ("minute|min|minutes|minuta|minuto", 0, 59),
    "%S": ("second|sec|seconds|sekunde|sekunda|seconde|segundo|secondo", 0, 59),
}
_SHORT = {
    "YYYY": "%Y",
    "yyyy": "%Y",
    "MM": "%m",
    "DD": "%d",
    "dd": "%d",
    "HH": "%H",
    "hh": "%H",
    "mm": "%M",
    "ss": "%S",
}


@dataclass(frozen=True, kw_only=True, slots=True)
class TimeColumns:
    """`columns`: addresses in the order they are joined. `looks`: of each column that looks like one of times what it
    is (time, date, clock or part). `format`: the letters of the parts behind the date, None where the joined text is
    understood as it stands; `dated` that they stand behind a column of whole dates."""

    columns: tuple[str | int, ...]
    looks: Mapping[str | int, str]
    format: str | None = None
    dated: bool = False


def addresses(header: Sequence[str], longest: int) -> list[str | int]:
    """How season.toml can name each column: by its name, or by its place from 1 where that is empty, too long or of
    several columns."""
    header = list(header)
    named = [bool(name) and len(name) <= longest and header.count(name) == 1 for name in header]
    return [name if good else place for place, (name, good) in enumerate(zip(header, named, strict=True), 1)]


def find_times(layout: Layout, body: Sequence[Sequence[str]], places: Sequence[str | int]) -> TimeColumns:
    """The time of a table whose first rows are given."""
    cells = {column: [row[n] for row in body if n < len(row) and row[n]] for n, column in enumerate(places)}
    looks = {column: kind for column, texts in cells.items() if (kind := _kind(texts))}
    parts = _parts(layout.header, places, cells)
    looks |= dict.fromkeys(parts.values(), "part")
    # Numbers that could be times (a count since 1970, a day number) only where nothing is written as a time.
    whole = sorted((c for c, kind in looks.items() if kind == "time"), key=lambda c: _all_numbers(cells[c]))
    dates = [column for column, kind in looks.items() if kind == "date"]
    clocks = [column for column, kind in looks.items() if kind == "clock"]
    if whole:
        return TimeColumns(columns=(whole[0],), looks=looks)
    if dates and clocks:
        half = [column for column, texts in cells.items() if texts and all(map(_HALF_DAY.fullmatch, texts))][:1]
        looks |= dict.fromkeys(half, "part")
        return TimeColumns(columns=(dates[0], clocks[0], *half), looks=looks)
    days, hours = ([parts[letter] for letter in group if letter in parts] for group in (("%Y", "%m", "%d"), _HOURS))
    if len(days) == 3 and clocks and (clock := format_of(f"2000-01-01 {cells[clocks[0]][0]}", True)):
        return TimeColumns(columns=(*days, clocks[0]), looks=looks, format=f"%Y %m %d{clock.removeprefix('%Y-%m-%d')}")
    if hours and "%H" in parts and (len(days) == 3 or dates):
        letters = " ".join(letter for letter in _HOURS if letter in parts)
        if len(days) == 3:
            return TimeColumns(columns=(*days, *hours), looks=looks, format=f"%Y %m %d {letters}")
        return TimeColumns(columns=(dates[0], *hours), looks=looks, format=letters, dated=True)
    return TimeColumns(columns=tuple(dates[:1]), looks=looks)


_HOURS = ("%H", "%M", "%S")


def _parts(
    header: Sequence[str], places: Sequence[str | int], cells: Mapping[str | int, list[str]]
) -> dict[str, str | int]:
    """Letter → the column of that part of the time. Hours need a day beside them, minutes an hour."""
    found: dict[str, str | int] = {}
    for name, column in zip(header, places, strict=True):
        letter = _SHORT.get(name) or next(
            (letter for letter, (words, _, _) in _PARTS.items() if re.fullmatch(words, plain_words(name))), None
        )
        if letter is not None and letter not in found and _within(cells[column], *_PARTS[letter][1:]):
            found[letter] = column
    if "%H" not in found:
        found.pop("%M", None)
    if "%M" not in found:
        found.pop("%S", None)
    return found


def _within(texts: Sequence[str], low: int, high: int) -> bool:
    return bool(texts) and all(text.isdecimal() and low <= int(text) <= high for text in texts)


def _all_numbers(texts: Sequence[str]) -> bool:
    return bool(pd.to_numeric(pd.Series(texts, dtype=str), errors="coerce").notna().mean() > MOSTLY)


def _kind(cells: list[str]) -> str:
    if not cells:
        return ""
    if sum(_CLOCK_ONLY.fullmatch(cell) is not None for cell in cells) >= MOSTLY * len(cells):
        return "clock"
    stamps = read_stamps(cells)
    if float(stamps.readable.mean()) < MOSTLY or (_all_numbers(cells) and not _rising_epoch(stamps)):
        return ""
    return "date" if bool((stamps.clock_ms == 0).all()) and not any(":" in cell for cell in cells) else "time"


def _rising_epoch(stamps: Stamps) -> bool:
    """Numbers are times only when they rise and lie in this century; a day such as 20251201 may stay the same."""
    naive = stamps.naive(True)
    known = naive[naive != NAT]
    recent = (stamps.year[stamps.readable] >= 2000) & (stamps.year[stamps.readable] < 2100)
    least = 0 if all("YMD" in shape.at for _, shape in stamps.shapes) else 1
    return len(known) > 1 and bool((np.diff(known) >= least).all()) and bool(recent.all())
