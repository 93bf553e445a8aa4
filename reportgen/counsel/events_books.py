"""What the books say of the time of an event: lines of the diary, losses and inspections by their cause."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import pandas as pd

from reportgen.measures.diary_words import words_of
from reportgen.measures.there import diary_covers
from reportgen.readings.types import DiaryEntry, Inspection, Planting, Readings
from reportgen.wording import day, listed

AFTER_DAYS = 14  # losses and inspections that are told with an event
COLD = frozenset(
    {"frost", "frosts", "frosted", "frozen", "freeze", "froze", "freezing", "cold", "chill", "chilled", "ice", "icy"}
    | {"glassy"}
)


def lines_of(readings: Readings, first: date, last: date) -> tuple[DiaryEntry, ...]:
    """Lines of the diary that lie in those days or, of a spell or an absence, run through them; ideas are none."""
    return tuple(
        entry
        for entry in readings.diary
        if entry.kind != "idea" and entry.date <= last and (entry.until or entry.date) >= first
    )


def told(entry: DiaryEntry) -> str:
    """A line with its note, as it is told."""
    return f"{entry.what}: {entry.note}" if entry.note else entry.what


def texts(lines: Iterable[DiaryEntry]) -> tuple[str, ...]:
    """Every line once, in order."""
    return tuple(dict.fromkeys(told(entry) for entry in lines))


def noted_on(lines: Iterable[DiaryEntry], first: date, last: date) -> tuple[str, ...]:
    """The days of each of `texts`, in words; empty where they are the event's own: of an event of one night its days,
    of a longer one only all of them."""
    days: dict[str, list[tuple[date, date]]] = {}
    for entry in lines:
        days.setdefault(told(entry), []).append((entry.date, entry.until or entry.date))
    return tuple(
        listed(_days(a, b) for a, b in dict.fromkeys(of) if not _own(a, b, first, last)) for of in days.values()
    )


def _own(a: date, b: date, first: date, last: date) -> bool:
    return (a, b) == (first, last) or ((last - first).days <= 1 and first <= a and b <= last)


def _days(first: date, last: date) -> str:
    return day(first) if first == last else f"{day(first)} to {day(last)}"


def nobody_noted(readings: Readings, start: pd.Timestamp, end: pd.Timestamp, lines: Iterable[DiaryEntry]) -> bool:
    """Whether the diary is kept, covers every day of it and has nothing that befell or was done then."""
    if not readings.books.get("diary", False) or any(entry.kind != "away" for entry in lines):
        return False
    return all(diary_covers(readings, day) for day in (start.date(), end.date()))


def by_cold(planting: Planting) -> bool:
    """Whether the book says that the cold took it."""
    return bool(COLD & set(words_of(planting.cause)))


def lost_by_cold(planting: Planting, first: date, last: date) -> float | None:
    """What the cold of those days took of a planting, by its book: 0 where the book says that nothing was lost, or that
    something else took it; None where the book does not say, or not of which day."""
    if planting.lost is None:
        return None
    if planting.lost == 0 or (planting.cause and not by_cold(planting)):
        return 0.0
    if planting.cause and planting.lost_on is not None:
        within = first <= planting.lost_on <= last + timedelta(days=AFTER_DAYS)
        return planting.lost if within else 0.0
    return None


def seen_after(readings: Readings, first: date, last: date) -> tuple[Inspection, ...]:
    """Inspections from an event to 14 days after it that found the marks of cold."""
    return tuple(
        row
        for row in readings.inspections
        if first <= row.date <= last + timedelta(days=AFTER_DAYS)
        and row.level != 0
        and COLD & set(words_of(f"{row.found} {row.action}"))
    )
