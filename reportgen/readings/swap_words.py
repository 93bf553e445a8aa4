"""Stretches with day and month swapped, in words: what was put right, and both readings of what is in doubt."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from reportgen.problems import Level
from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import Opened
from reportgen.readings.stamps import NAT
from reportgen.readings.swap_hour import Swap
from reportgen.readings.swapped import Stretch
from reportgen.wording import count, day

SHOWN = 3  # stretches told one by one; the rest is counted


def swaps_words(file: str, swaps: Sequence[Swap]) -> str:
    """What was put right in a file."""
    rows = sum(swap.stretch.count for swap in swaps)
    told = "; ".join(_one(swap) for swap in swaps[:SHOWN])
    more = f"; and {count(len(swaps) - SHOWN, 'more stretch', 'more stretches')}" if len(swaps) > SHOWN else ""
    head = f"{file}: {count(rows, 'row')} had day and month swapped; put right, for only so do they run on from the "
    return f"{head}rows around them: {told}{more}{_hours(swaps)}"


def _one(swap: Swap) -> str:
    days, written = days_words(swap.stretch.exchanged), days_words(swap.stretch.as_written)
    return f"{lines_words(swap.lines)} read as {days}" + (f", not {written}" if written else "")


def _hours(swaps: Sequence[Swap]) -> str:
    """An hour by which stretches stand off: the first of each kind in full, the rest counted."""
    kinds: dict[tuple[int, bool, bool, bool], list[Swap]] = {}
    for swap in swaps:
        if (hour := swap.hour) is not None:
            kinds.setdefault((hour.off_ms, hour.above, hour.below, hour.sure), []).append(swap)
    told = ""
    for alike in kinds.values():
        told += f". {hour_words(alike[0])}"
        told += f" (likewise {count(len(alike) - 1, 'more stretch', 'more stretches')})" if len(alike) > 1 else ""
    return told


def hour_words(swap: Swap) -> str:
    """What was done with an hour by which a stretch stands off; empty where it does not."""
    hour, lines = swap.hour, swap.hour_lines
    if hour is None or lines is None:
        return ""
    way = "ahead of" if hour.off_ms > 0 else "behind"
    if hour.sure:
        why = "the row numbers show that none is missing or told twice"
        return f"{lines_words(lines).capitalize()} stood an hour {way} the rows around them; put right, for {why}"
    if hour.above and hour.below:
        told = f"{lines_words(lines).capitalize()} stand an hour {way} the rows above and below them"
        return f"{told}, as if their clock had been set otherwise; the hour is used as written"
    line = lines[0] if hour.above else lines[1]
    place = f"Above line {line}" if hour.above else f"Below line {line}"
    if hour.missing:
        return f"{place} an hour is missing: not recorded, or the clock was put on by an hour; used as written"
    return f"{place} an hour comes twice: told again, or the clock was put back by an hour; used as written"


def tell_doubt(swap: Swap, opened: Opened, naive: Ints, decided: bool, faults: Faults) -> None:
    """Shows both readings of a stretch. `decided`: season.toml's time_format has the last word, so it is a warning."""
    stretch = swap.stretch
    text = opened.texts[stretch.first].strip()
    written, exchanged = days_words(stretch.as_written), days_words(stretch.exchanged)
    found = f"{lines_words(swap.lines)}, {text!r} and on: {written} as the rest of the file is written, or "
    found += f"{exchanged} with day and month exchanged; {_around(stretch, naive)}"
    if decided:
        todo = "read as `time_format` says; if that is wrong, write dates such as 2026-01-14 in a copy of the file"
    else:
        todo = (
            "write the dates of these lines as 2026-01-14 in a copy of the file, or export it again with such dates; "
            "if they are right as they stand, write `time_format` for this logger in season.toml"
        )
    level: Level = "warning" if decided else "problem"
    faults.tell("day-or-month", found, "rows that run on in one reading only", todo, line=swap.lines[0], level=level)


def _around(stretch: Stretch, naive: Ints) -> str:
    above = [int(at) for at in naive[: stretch.first][::-1] if at != NAT][:1]
    below = [int(at) for at in naive[stretch.last + 1 :] if at != NAT][:1]
    words = [f"the row above is of {date_words(above[0])}"] if above else []
    words += (
        [f"the row below of {date_words(below[0])}" if words else f"the row below is of {date_words(below[0])}"]
        if below
        else []
    )
    return " and ".join(words) if words else "there is no other row to go by"


def lines_words(lines: tuple[int, int]) -> str:
    """line 7, lines 7 to 12."""
    low, high = min(lines), max(lines)
    return f"line {low}" if low == high else f"lines {low} to {high}"


def days_words(span: tuple[int, int]) -> str:
    """1 to 12 November 2021, whichever end comes first in the file; empty where there is no such date."""
    if NAT in span:
        return ""
    first, last = (_date(at) for at in sorted(span))
    if first == last:
        return day(first, year=True)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {day(last, year=True)}"
    return f"{day(first, year=first.year != last.year)} to {day(last, year=True)}"


def date_words(naive_ms: int) -> str:
    """3 November 2021."""
    return day(_date(naive_ms), year=True)


def _date(naive_ms: int) -> dt.date:
    return dt.date(1970, 1, 1) + dt.timedelta(milliseconds=naive_ms)
