"""The season's axis of time for the pen: days from the first, and the names of months or weeks along it."""

from __future__ import annotations

from datetime import date, timedelta

from reportgen.drawing.axis import Division
from reportgen.drawing.season_types import DAILY_UNDER
from reportgen.wording import MONTHS, NBSP


def brief_day(when: date) -> str:
    """14 Jan."""
    return f"{when.day}{NBSP}{MONTHS[when.month - 1][:3]}"


def days_of(first: date, last: date) -> int:
    """Days of the season, both ends with it."""
    return (last - first).days + 1


def divisions(first: date, last: date) -> tuple[Division, ...]:
    """Months; of a season shorter than six weeks, weeks by their first day."""
    if days_of(first, last) < DAILY_UNDER:
        return _weeks(first, last)
    out: list[Division] = []
    start = first
    while start <= last:
        after = date(start.year + start.month // 12, start.month % 12 + 1, 1)
        end = min(after, last + timedelta(days=1))
        name = MONTHS[start.month - 1]
        out.append(Division(first=(start - first).days, last=(end - first).days, name=name, brief=name[:3]))
        start = after
    return tuple(out)


def _weeks(first: date, last: date) -> tuple[Division, ...]:
    out: list[Division] = []
    start = first
    while start <= last:
        end = min(start + timedelta(days=7 - start.weekday()), last + timedelta(days=1))
        words = brief_day(start)
        out.append(Division(first=(start - first).days, last=(end - first).days, name=words, brief=words))
        start = end
    return tuple(out)
