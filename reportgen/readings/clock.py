"""Times as written on a logger's clock → UTC: summer time, a fixed offset, the repeated and the missing hour."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.stamps import HOUR_MS, NAT

EVEN_MS = 60_000
CLOSE_MS = HOUR_MS + 60_000  # readings within an hour of each other are neighbours at a clock change


@dataclass(frozen=True, kw_only=True, slots=True)
class Change:
    """One change of a zone's offset: the instant (UTC) and the offsets before and after [ms]."""

    at: int
    before: int
    after: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Instants:
    """`utc`: ms since 1970, NAT where there is no such time. Counts of rows at the clock changes.

    `repeated`: rows in the hour that comes twice, told apart by order. `once`: rows of such an hour of which the file
    has one pass only, so that which of the two it was had to be taken from its neighbours. `missing`: rows in the
    hour that never was; they are not used.
    """

    utc: Ints
    repeated: int = 0
    once: int = 0
    missing: NDArray[np.bool_]


def changes(zone: ZoneInfo, first_ms: int, last_ms: int) -> list[Change]:
    """The changes of offset between two instants, found to the second."""
    day = 86_400
    edges = np.arange(first_ms // 1000 - day, last_ms // 1000 + 2 * day, day)
    offsets = [_offset_s(zone, int(edge)) for edge in edges]
    found = []
    for low, high, before, after in zip(edges, edges[1:], offsets, offsets[1:], strict=False):
        if before != after:
            at = _bisect(zone, int(low), int(high), before)
            found.append(Change(at=at * 1000, before=before * 1000, after=after * 1000))
    return found


def _offset_s(zone: ZoneInfo, second: int) -> int:
    offset = dt.datetime.fromtimestamp(second, dt.UTC).astimezone(zone).utcoffset()
    return int(offset.total_seconds()) if offset is not None else 0


def _bisect(zone: ZoneInfo, low: int, high: int, before: int) -> int:
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _offset_s(zone, middle) == before else (low, middle)
    return high


def fixed_offset_ms(clock: str) -> int | None:
    """The offset of a clock that knows no summer time; None for a local one."""
    if clock == "local":
        return None
    if clock == "utc":
        return 0
    sign = -1 if clock[0] == "-" else 1
    return sign * (int(clock[1:3]) * 60 + int(clock[4:6])) * 60_000


def to_utc(naive: Ints, clock: str, zone: ZoneInfo, offset_ms: Ints | None = None) -> Instants:
    """Instants of times in the order of the file.

    Args:
        naive: As written [ms since 1970], NAT where unreadable.
        clock: "local", "utc" or "+01:00".
        zone: The season's zone, for "local".
        offset_ms: A written offset, which goes before `clock`; NAT where none stands.
    """
    fixed = fixed_offset_ms(clock)
    nowhere = np.zeros(len(naive), dtype=bool)
    if fixed is not None:
        local = Instants(utc=np.where(naive == NAT, NAT, naive - fixed), missing=nowhere)
    elif offset_ms is not None and bool((offset_ms != NAT).all()):
        local = Instants(utc=naive, missing=nowhere)
    else:
        local = _from_local(naive, zone)
    if offset_ms is None or not bool((offset_ms != NAT).any()):
        return local
    own = offset_ms != NAT
    utc = np.where(own & (naive != NAT), naive - np.where(own, offset_ms, 0), local.utc)
    return Instants(utc=utc, repeated=local.repeated, once=local.once, missing=local.missing & ~own)


def _from_local(naive: Ints, zone: ZoneInfo) -> Instants:
    good = naive != NAT
    missing = np.zeros(len(naive), dtype=bool)
    if not good.any():
        return Instants(utc=naive.copy(), missing=missing)
    first, last = int(naive[good].min()), int(naive[good].max())
    utc = np.where(good, naive - _offset_s(zone, first // 1000 - 86_400) * 1000, NAT)
    repeated = once = 0
    for change in changes(zone, first, last):
        # On the clock: from `at + after` on (spring forward) or `at + before` on (back) the new offset holds.
        new = good & (naive >= change.at + max(change.before, change.after))
        utc[new] = naive[new] - change.after
        if change.after > change.before:
            missing |= good & (naive >= change.at + change.before) & (naive < change.at + change.after)
            continue
        twice = np.flatnonzero(good & (naive >= change.at + change.after) & (naive < change.at + change.before))
        for rows in _together(twice, good):
            late, unsure = _second_pass(naive, rows, change)
            utc[rows] = naive[rows] - np.where(late, change.after, change.before)
            repeated, once = repeated + len(rows), once + unsure
    utc[missing] = NAT
    return Instants(utc=utc, repeated=repeated, once=once, missing=missing)


def _together(rows: Ints, good: NDArray[np.bool_]) -> list[Ints]:
    """Rows parted where rows of another hour stand between them: exports that overlap tell the hour several times."""
    if not len(rows):
        return []
    place = np.cumsum(good)[rows]
    return np.split(rows, np.flatnonzero(np.diff(place) > 1) + 1)


def _second_pass(naive: Ints, rows: Ints, change: Change) -> tuple[NDArray[np.bool_], int]:
    """Which of the rows in the hour that comes twice are of its second pass, and how many nobody can tell."""
    late = np.zeros(len(rows), dtype=bool)
    steps = np.diff(naive[rows])
    back = np.flatnonzero((steps < 0) | ((steps == 0) & (len(rows) == 2)))
    if len(back):
        late[back[0] + 1 :] = True
        return late, 0
    before, after = _neighbour(naive, rows[0], -1), _neighbour(naive, rows[-1], +1)
    joins_before = before is not None and naive[rows[0]] - before <= CLOSE_MS
    joins_after = after is not None and after - naive[rows[-1]] <= CLOSE_MS
    late[:] = joins_after and not joins_before
    if joins_before != joins_after:
        return late, 0
    if before is None or after is None or joins_before:
        return late, len(rows)
    # A log of every few hours: the pass in which its steps are even.
    into, out, hour = int(naive[rows[0]]) - before, after - int(naive[rows[-1]]), change.before - change.after
    first, second = abs(into - (out + hour)) <= EVEN_MS, abs(into + hour - out) <= EVEN_MS
    late[:] = second and not first
    return late, 0 if first != second else len(rows)


def _neighbour(naive: Ints, row: int, step: int) -> int | None:
    at = int(row) + step
    while 0 <= at < len(naive):
        if naive[at] != NAT:
            return int(naive[at])
        at += step
    return None
