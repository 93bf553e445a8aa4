"""The times of an opened file, day and month settled row by row: what was put right, and what is asked about."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.readings.clock import to_utc
from reportgen.readings.digits import Ints
from reportgen.readings.faults import Faults
from reportgen.readings.file_rows import Opened
from reportgen.readings.row_counter import row_counter
from reportgen.readings.stamps import NAT
from reportgen.readings.swap_blocks import direction
from reportgen.readings.swap_hour import Hour, Swap, hour_of
from reportgen.readings.swap_words import tell_doubt
from reportgen.readings.swapped import Righted, Stretch, put_right
from reportgen.readings.time_faults import tell_open_order
from reportgen.season import Logger, Season


@dataclass(frozen=True, kw_only=True, slots=True)
class Dates:
    """`naive`: ms on the clock as written, by row of the table. `swaps`: the stretches that were put right."""

    naive: Ints
    swaps: tuple[Swap, ...]


def settled_dates(opened: Opened, logger: Logger, season: Season, day_first: bool, faults: Faults) -> Dates:
    """The times of a file; stretches in doubt are told, as a problem unless `time_format` has the last word."""
    asked: list[Ints | None] = []

    def counter() -> Ints | None:
        if not asked:
            asked.append(row_counter(opened, logger))
        return asked[0]

    righted = put_right(opened.stamps, day_first, opened.order.mixed, counter)
    if not righted.settled:
        tell_open_order(opened, faults)
    for stretch in righted.doubts:
        tell_doubt(_swap(stretch, None, opened), opened, righted.naive, logger.time_format is not None, faults)
    if not righted.stretches:
        return Dates(naive=righted.naive, swaps=())
    return _with_hours(righted, opened, logger, season, counter())


def _with_hours(righted: Righted, opened: Opened, logger: Logger, season: Season, counts: Ints | None) -> Dates:
    """The same with the hour settled by which a stretch stands off, where it does."""
    naive = righted.naive.copy()
    way = direction(naive)
    utc = to_utc(naive[::way], logger.clock, season.zone, opened.stamps.offset_ms[::way]).utc[::way]
    swaps = []
    for stretch in righted.stretches:
        hour = hour_of(stretch, naive, utc, righted.step * way, counts)
        if hour is not None and hour.sure:
            rows = np.arange(hour.first, hour.last + 1)
            rows = rows[naive[rows] != NAT]
            naive[rows] -= hour.off_ms
        swaps.append(_swap(stretch, hour, opened))
    return Dates(naive=naive, swaps=tuple(swaps))


def _swap(stretch: Stretch, hour: Hour | None, opened: Opened) -> Swap:
    lines = opened.table.lines
    return Swap(
        stretch=stretch,
        lines=(int(lines[stretch.first]), int(lines[stretch.last])),
        hour=hour,
        hour_lines=None if hour is None else (int(lines[hour.first]), int(lines[hour.last])),
    )
