"""A winter that still runs: how far it has been read, so that nothing is said of days that have not happened.

A season runs when season.toml leaves `last_day` out, or names one that no file of the folder comes near, and the crop
logger has kept up with whatever the other files tell. It then ends with the last crop reading. Where other files go on
and the crop logger does not, the logger has stopped: that is a gap and not a winter that still runs.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import pandas as pd

from reportgen.readings.books import read_books
from reportgen.readings.diary_lines import TICK_LINES
from reportgen.readings.ledger import Columns
from reportgen.readings.loggers import Logged
from reportgen.readings.opening import open_ledger
from reportgen.season import Season

AHEAD_D = 3  # a logger read out a day or two before the last day is no running winter; our own line
BEHIND_D = 3  # the crop logger may be read so many days before the last word of the other files; our own line
DATED = Columns(needed=("date",), optional=())


def as_far_as_read(season: Season, logged: Logged) -> Season:
    """The season to its last crop reading where it still runs, else itself.

    Args:
        season: With `last_day` as season.toml has it.
        logged: What its loggers gave up to that day.
    """
    last = _last_crop(logged)
    if season.so_far is not None or (
        not season.open_ended and (last is None or _apart(last, season.last_day) < AHEAD_D)
    ):
        return season
    days = [*_of_loggers(logged), *_of_books(season), *_of_heating(season)]
    latest = max((day for day in days if day >= season.first_day), default=season.first_day)
    kept_up = last is not None and _apart(last, latest) <= BEHIND_D
    if season.open_ended:
        return season.read_to(last if last is not None and kept_up else _midnight_after(latest, season))
    runs = _was_running(logged, last) and kept_up and (season.last_day - latest).days >= AHEAD_D
    return season.read_to(last) if runs and last is not None else season


def _last_crop(logged: Logged) -> pd.Timestamp | None:
    """The last reading among the crop: of its air, else of whatever is logged there."""
    crop = [c for c in logged.channels if c.where == "crop" and len(c.values)]
    air = [c for c in crop if c.measure == "air_temperature"]
    return max((pd.Timestamp(c.values.index[-1]) for c in air or crop), default=None)


def _was_running(logged: Logged, last: pd.Timestamp | None) -> bool:
    """Whether another crop reading lies within days before the last: one stray reading is no logger that runs."""
    crop = [c for c in logged.channels if c.where == "crop"]
    since = None if last is None else last - pd.Timedelta(days=BEHIND_D)
    return any(bool(((c.values.index >= since) & (c.values.index < last)).any()) for c in crop)


def _apart(at: pd.Timestamp, day: dt.date) -> int:
    return (day - (at - pd.Timedelta(seconds=1)).date()).days


def _midnight_after(day: dt.date, season: Season) -> pd.Timestamp:
    return season.midnight(day + dt.timedelta(days=1))


def _of_loggers(logged: Logged) -> list[dt.date]:
    return [] if logged.latest is None else [logged.latest]


def _of_books(season: Season) -> Iterator[dt.date]:
    """Days on which something was written; ideas and the nights of a tick sheet may lie ahead."""
    later = season.model_copy(update={"last_day": season.last_day + dt.timedelta(days=366)})
    books, _ = read_books(later)
    yield from (e.date for e in books.diary if e.kind != "idea" and e.line <= TICK_LINES)
    for rows in (books.harvest, books.watering, books.inspections, books.costs):
        yield from (row.date for row in rows)
    for row in books.plantings:
        yield from (day for day in (row.sown, row.planted, row.cleared, row.lost_on) if day is not None)


def _of_heating(season: Season) -> Iterator[dt.date]:
    for source in season.heating:
        for file in (source.meter, source.deliveries, source.bills):
            if file is not None:
                rows = open_ledger(season.folder, file, DATED).rows()
                yield from (day for row in rows if (day := row.date("date")) is not None)
