"""How one line of the diary is meant by another, or by a question: by its date, or by its words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from reportgen.readings.ledger import nearest
from reportgen.readings.types import DiaryEntry
from reportgen.season.explain import LIKE

TICK_LINES = 1_000_000  # lines of the tick sheet are counted from here on, beside those of the diary
Moment = tuple[dt.date, dt.time, int]


def normal(words: str) -> str:
    """Words as they are compared: without case and without doubled spaces."""
    return " ".join(words.split()).casefold()


def moment(entry: DiaryEntry) -> Moment:
    """What puts lines in order; a line without a time counts as noon."""
    return entry.date, entry.time or dt.time(12), entry.line


def meant(text: str, diary: Iterable[DiaryEntry]) -> list[DiaryEntry]:
    """The lines whose date (2026-01-22) or whose words (`what`) these are, in order of time."""
    found = [e for e in diary if text == e.date.isoformat() or normal(text) == normal(e.what)]
    return sorted(found, key=moment)


def untried(diary: Iterable[DiaryEntry]) -> list[DiaryEntry]:
    """The ideas that are ideas still: no spell of those words, in the diary or on the tick sheet, says it was tried."""
    listed_ = list(diary)
    done = {normal(e.what) for e in listed_ if e.kind == "spell"}
    return [e for e in listed_ if e.kind == "idea" and normal(e.what) not in done]


def alike(text: str, diary: Sequence[DiaryEntry], others: Sequence[str] = ()) -> str | None:
    """The words or the date that come nearest to what was written; None where nothing is like it."""
    dates = list(dict.fromkeys(e.date.isoformat() for e in diary))
    words = [*others, *(e.what for e in diary)]
    known = dates if text[:4].isdigit() else [*words, *dates]
    near = nearest(text, known, LIKE)
    if near is None:
        near = next((name for name in words if text and normal(text) in normal(name)), None)
    return near


def listed(entries: Iterable[DiaryEntry]) -> str:
    """Lines as a problem names them: line 6 (2025-12-10, “Vents taped”)."""
    return "; ".join(f"{numbered(e.line)} ({e.date}, “{e.what}”)" for e in entries)


def numbered(line: int) -> str:
    """Line 6, or line 6 of the tick sheet."""
    return f"line {line}" if line <= TICK_LINES else f"line {line - TICK_LINES} of ticks.csv"
