"""A day as it is written by hand: 2026-01-14, 14.01.2026, 14 Jan 2026, or with slashes once the file settles which of
its numbers is the day."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Iterable

from reportgen.readings.shapes import understand
from reportgen.readings.stamps import NAT, read_stamps

_ISO = re.compile(r"(\d{4})([-/.])\s?(\d{1,2})\2\s?(\d{1,2})\.?|(\d{4})()(\d{2})(\d{2})")
_DOTTED = re.compile(r"(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})")
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4}|\d{2})|(\d{1,2})-(\d{1,2})-(\d{4})")
_CLOCKED = re.compile(r"(?P<day>.*\d)(?:T|,?\s+)(?P<clock>\d{1,2}:\d{2}(?::\d{2})?(?:\s?[AaPp]\.?\s?[Mm]\.?)?)")
_MONTH = re.compile(r"(\d{4})-(\d{1,2})")
_RANGE = re.compile(r"\d.*(?:\s[-–—]\s|[–—]|\bto\b|\bbis\b).*\d")
STANDING = {"cleared": "leave it empty while the crop stands", "until": "write the last day, or that of the season"}


def day_first(cells: Iterable[str]) -> bool | None:
    """What the slashed dates of a whole file settle: any first part above 12 is a day, any second a month's day."""
    found = [parts for cell in cells if (parts := _slashed(_without_clock(cell))) is not None]
    first = any(int(one) > 12 for one, _, _ in found)
    second = any(int(two) > 12 for _, two, _ in found)
    return None if first == second else first


def either_way(cell: str) -> bool:
    """A slashed date that is one whichever of its parts is the day."""
    parts = _slashed(_without_clock(cell))
    return parts is not None and int(parts[0]) <= 12 and int(parts[1]) <= 12


def day_of(cell: str, day_first: bool | None) -> dt.date | None:
    """That day, without a time of day behind it; None where it is none, or slashed and not settled."""
    text = _without_clock(cell)
    if (iso := _ISO.fullmatch(text)) is not None:
        return _day(iso[1] or iso[5], iso[3] or iso[7], iso[4] or iso[8])
    if (dotted := _DOTTED.fullmatch(text)) is not None:
        return _day(dotted[3], dotted[2], dotted[1])
    if (parts := _slashed(text)) is not None:
        if day_first is None:
            return None
        day, month = parts[:2] if day_first else parts[1::-1]
        return _day(parts[2], month, day)
    return _named(text)


def clock_in(cell: str) -> str:
    """The time of day behind a date; empty where there is none, or midnight, which workbooks and exports add."""
    found = _CLOCKED.fullmatch(cell.strip())
    return "" if found is None or re.fullmatch(r"0?0:00(:00)?", found["clock"]) else found["clock"]


def advice(cell: str, column: str) -> str:
    """What to do about a cell that is no day."""
    if (month := _MONTH.fullmatch(cell)) is not None and 1 <= int(month[2]) <= 12:
        year = int(month[1])
        return f"write the day too, such as the last of the month: {cell}-{calendar.monthrange(year, int(month[2]))[1]}"
    if _RANGE.search(cell):
        return "write the first day here; a stretch of days is a row of kind spell with its last day under until"
    if not any(map(str.isdigit, cell)):
        return STANDING.get(column, "write a day, or empty the cell; a row of totals is taken out")
    if any((shape := understand(f"{cell}{year}")) and shape.month is not None for year in (" 2025", ", 2025")):
        return "write the year too: 2026-01-14"
    return "write it as 2026-01-14"


def _named(text: str) -> dt.date | None:
    """A day whose month is a name: 14 Jan 2026, 14-Jan-26, Wed Jan 14, 2026."""
    shape = understand(text)
    if shape is None or shape.month is None or "H" in shape.at:
        return None
    ms = int(read_stamps([text]).naive(True)[0])
    return None if ms == NAT else (dt.datetime(1970, 1, 1) + dt.timedelta(milliseconds=ms)).date()


def _slashed(text: str) -> tuple[str, str, str] | None:
    found = _SLASHED.fullmatch(text)
    return None if found is None else (found[1] or found[4], found[2] or found[5], found[3] or found[6])


def _without_clock(cell: str) -> str:
    found = _CLOCKED.fullmatch(cell.strip())
    return (found["day"] if found is not None else cell).strip()


def _day(year: str, month: str, day: str) -> dt.date | None:
    """That day, years of two digits in this century; None where there is none."""
    try:
        return dt.date(int(year) + (2000 if len(year) == 2 else 0), int(month), int(day))
    except ValueError:
        return None
