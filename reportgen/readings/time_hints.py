"""What a column of times shows about itself: span, step, order of day and month, and the clock it was kept by."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from zoneinfo import ZoneInfo

import numpy as np

from reportgen.readings.clock import Change, changes
from reportgen.readings.digits import Ints
from reportgen.readings.order import day_order
from reportgen.readings.stamps import NAT, Stamps
from reportgen.readings.swapped import put_right


@dataclass(frozen=True, kw_only=True, slots=True)
class TimeHints:
    """See sniff.Sniffed for the meaning of each."""

    day_first: bool | None = None
    first: dt.datetime | None = None
    last: dt.datetime | None = None
    step_s: float | None = None
    clock: str | None = None
    clock_why: str = ""


def time_hints(stamps: Stamps, zone: ZoneInfo | None, day_first: bool | None = None) -> TimeHints:
    """The hints of a column; a zone lets the clock changes speak. `day_first`: what somebody said where the column
    leaves it open."""
    order = day_order(stamps)
    first = order.day_first if order.day_first is not None else day_first
    naive = put_right(stamps, first is not False, order.mixed).naive
    known = naive[naive != NAT]
    if not len(known):
        return TimeHints(day_first=first)
    if len(known) > 1 and float(np.mean(np.diff(known) < 0)) > 0.5:
        known = known[::-1]
    steps = np.diff(np.unique(known))
    clock, why = _clock(stamps, known, zone)
    return TimeHints(
        day_first=first,
        first=_moment(int(known.min())),
        last=_moment(int(known.max())),
        step_s=float(np.median(steps)) / 1000.0 if len(steps) else None,
        clock=clock,
        clock_why=why,
    )


_OFFSET = re.compile(r"(?<![a-z])(?:gmt|utc)\s*([+\u2212-])\s*(\d{1,2})(?::?([0-5]\d))?(?!\d)", re.I)
_UTC = re.compile(r"(?:(?<![a-z])|(?<=date)|(?<=time)|(?<=stamp))utc(?:(?![a-z])|(?=time|date|stamp))", re.I)
FARTHEST_MIN = 14 * 60  # from UTC, of any clock; IANA time zone database


def with_heading(hints: TimeHints, names: Sequence[str | int]) -> TimeHints:
    """The hints, with the clock that a heading of the times names where the times themselves show none."""
    if hints.clock is not None:
        return hints
    for name in (name for name in names if isinstance(name, str)):
        if found := _OFFSET.search(name):
            minutes = (60 * int(found[2]) + int(found[3] or 0)) * (1 if found[1] == "+" else -1)
            if abs(minutes) <= FARTHEST_MIN:
                return replace(hints, clock=fixed_name(minutes * 60_000), clock_why=f"its heading says {found[0]}")
        elif _UTC.search(name):
            return replace(hints, clock="utc", clock_why="its heading says UTC")
    return hints


_ZONE_WORDS = re.compile(
    r"time ?zone|timezone|zeitzone|utc[ _]?offset|fuseau|zona horaria|fuso|casove pasmo|tidszon", re.I
)
_NAMED = re.compile(r"(?<![a-z])(?:utc|gmt)(?![a-z+\u2212-])", re.I)


def with_preamble(hints: TimeHints, above: Sequence[str]) -> TimeHints:
    """The hints, with the clock that a line above the header names (Time zone: UTC+01:00), or the line below such
    names, where neither the times nor their heading show one."""
    if hints.clock is not None:
        return hints
    for line, below in zip(above, [*above, ""][1:], strict=True):
        if _ZONE_WORDS.search(line) is None:
            continue
        for text in (_ZONE_WORDS.sub("", line), below):
            found = _OFFSET.search(text)
            minutes = 0
            if found:
                minutes = (60 * int(found[2]) + int(found[3] or 0)) * (1 if found[1] == "+" else -1)
            if abs(minutes) > FARTHEST_MIN or not (found or _NAMED.search(text)):
                continue
            clock = fixed_name(minutes * 60_000) if found and minutes else "utc"
            return replace(hints, clock=clock, clock_why=f"a line above its header says {text.strip()[:60]!r}")
    return hints


def _moment(ms: int) -> dt.datetime:
    return dt.datetime.fromtimestamp(ms / 1000, dt.UTC).replace(tzinfo=None)


def _clock(stamps: Stamps, naive: Ints, zone: ZoneInfo | None) -> tuple[str | None, str]:
    own = stamps.offset_ms[stamps.readable]
    if len(own) and bool((own != NAT).all()):
        if bool((own == 0).all()):
            return "utc", "its times carry the mark of UTC"
        return "local", "each time carries its own offset"
    if zone is None:
        return None, "no clock change to judge by"
    for change in changes(zone, int(naive.min()), int(naive.max())):
        verdict = _at_change(naive, change)
        if verdict:
            return verdict
    return None, "no clock change to judge by"


def _at_change(naive: Ints, change: Change) -> tuple[str, str] | None:
    """What the hour around one change of the clock shows; None when the file has no rows there."""
    low = change.at + min(change.before, change.after)
    high = change.at + max(change.before, change.after)
    day = _moment(change.at).strftime("%-d %B %Y")
    around = naive[(naive >= low - 4 * (high - low)) & (naive < high + 4 * (high - low))]
    inside = (around >= low) & (around < high)
    if not bool((around < low).any() and (around >= high).any()):
        return None
    if change.after > change.before:
        if inside.any():
            return fixed_name(change.before), f"it has times in the hour that summer time leaves out ({day})"
        return "local", f"it leaves out the hour that summer time leaves out ({day})"
    back = bool((np.diff(around) < 0).any())
    if back or (inside.sum() > 1 and len(np.unique(around[inside])) < inside.sum()):
        return "local", f"it has the hour twice that comes twice ({day})"
    if inside.any():
        return fixed_name(change.after), f"it has the hour once that comes twice on a local clock ({day})"
    return None


def fixed_name(offset_ms: int) -> str:
    """An offset as season.toml writes it: "+01:00"."""
    minutes = offset_ms // 60_000
    return f"{'-' if minutes < 0 else '+'}{abs(minutes) // 60:02d}:{abs(minutes) % 60:02d}"
