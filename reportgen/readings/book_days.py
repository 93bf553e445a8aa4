"""A day as it is written by hand: 2026-01-14, 14.01.2026, or with slashes once the file settles which is the day."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable

_ISO = re.compile(r"^(\d{4})-(\d{1,2})-(\d{1,2})$")
_DOTTED = re.compile(r"^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$")
_SLASHED = re.compile(r"^(\d{1,2})/(\d{1,2})/(\d{4})$")


def day_first(cells: Iterable[str]) -> bool | None:
    """What the slashed dates of a whole file settle: any first part above 12 is a day, any second a month's day."""
    found = [match for cell in cells if (match := _SLASHED.match(cell.strip()))]
    first = any(int(match[1]) > 12 for match in found)
    second = any(int(match[2]) > 12 for match in found)
    return None if first == second else first


def either_way(cell: str) -> bool:
    """A slashed date that is one whichever of its parts is the day."""
    slashed = _SLASHED.match(cell)
    return bool(slashed and int(slashed[1]) <= 12 and int(slashed[2]) <= 12)


def day_of(cell: str, day_first: bool | None) -> dt.date | None:
    """That day; None where it is none, or slashed and not settled."""
    iso, dotted, slashed = _ISO.match(cell), _DOTTED.match(cell), _SLASHED.match(cell)
    if iso:
        return _day(iso[1], iso[2], iso[3])
    if dotted:
        return _day(dotted[3], dotted[2], dotted[1])
    if slashed and day_first is not None:
        day, month = (slashed[1], slashed[2]) if day_first else (slashed[2], slashed[1])
        return _day(slashed[3], month, day)
    return None


def _day(year: str, month: str, day: str) -> dt.date | None:
    """That day; None where there is none."""
    try:
        return dt.date(int(year), int(month), int(day))
    except ValueError:
        return None
