"""Losses by the cause that the book gives: one event a cause, its plants summed over plantings.

`lost_on` dates a loss; where it is left out the inspections that name the cause in that crop do, else the loss lies
between planting and clearing. Dated losses of one cause more than a fortnight apart are two events. What the cold took
in a cold event that is told with its crops stands there and not here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from reportgen.counsel.events_books import AFTER_DAYS
from reportgen.counsel.grounds import CropMet, Event
from reportgen.counsel.results import Results
from reportgen.measures.diary_words import says
from reportgen.readings.diary_lines import normal
from reportgen.readings.types import Planting, Readings

NO_CAUSE = "no cause written"


@dataclass(frozen=True, kw_only=True, slots=True)
class Loss:
    """One row of plantings.csv with something lost, and the days in which it was lost; `dated`: by the books, not by
    the time it stood; `on_a_day`: by `lost_on`."""

    row: Planting
    first: date
    last: date
    dated: bool
    on_a_day: bool


def losses(r: Results, told: Iterable[int]) -> list[Event]:
    """One event a cause and time.

    Args:
        told: Numbers of the plantings whose loss stands in a cold event.
    """
    known = set(told)
    rows = [p for number, p in enumerate(r.readings.plantings) if p.lost and number not in known]
    found = [loss for row in rows if (loss := _loss(r, row)) is not None]
    causes = dict.fromkeys(_cause(loss.row) for loss in found)
    return [_event(r, part) for cause in causes for part in _parts([x for x in found if _cause(x.row) == cause])]


def _cause(row: Planting) -> str:
    return normal(row.cause) or NO_CAUSE


def _loss(r: Results, row: Planting) -> Loss | None:
    """The days of a loss, cut to the season; None where they lie outside it."""
    season = r.season
    named = _named(r.readings, row)
    if row.lost_on is not None:
        first = last = row.lost_on
    elif named:
        first, last = min(named), max(named)
    else:
        first = row.planted or row.sown or season.first_day
        last = row.cleared or season.last_day
    first, last = max(first, season.first_day), min(last, season.last_day)
    if first > last:
        return None
    on_a_day = row.lost_on is not None
    return Loss(row=row, first=first, last=last, dated=on_a_day or bool(named), on_a_day=on_a_day)


def _named(readings: Readings, row: Planting) -> list[date]:
    """Days on which an inspection of that crop named the cause, while it stood."""
    if not row.cause:
        return []
    begun, gone = row.planted or row.sown, row.cleared
    return [
        i.date
        for i in readings.inspections
        if i.level != 0
        and says(i.found, row.cause)
        and (i.crop is None or normal(i.crop) == normal(row.crop))
        and (i.bed is None or row.bed is None or normal(i.bed) == normal(row.bed))
        and (begun is None or i.date >= begun)
        and (gone is None or i.date <= gone)
    ]


def _parts(found: list[Loss]) -> list[list[Loss]]:
    """Losses of one cause: the dated ones by time, those without a date as one, with the only dated one if it is so."""
    loose = [loss for loss in found if not loss.on_a_day]
    parts: list[list[Loss]] = []
    for loss in sorted((x for x in found if x.on_a_day), key=lambda x: x.first):
        if parts and loss.first - parts[-1][-1].last <= timedelta(days=AFTER_DAYS):
            parts[-1].append(loss)
        else:
            parts.append([loss])
    if loose and len(parts) == 1:
        parts[0].extend(loose)
    elif loose:
        parts.append(loose)
    return parts


def _event(r: Results, part: list[Loss]) -> Event:
    first, last = min(x.first for x in part), max(x.last for x in part)
    cause = part[0].row.cause.strip() or NO_CAUSE
    return Event(
        kind="loss",
        cause=cause,
        start=r.season.midnight(first),
        end=r.season.midnight(last + timedelta(days=1)),
        line_crossed_after_min=None,
        minimum_c=None,
        place=None,
        outdoor_c=None,
        diary=(),
        crops=tuple(
            CropMet(crop=x.row.crop, bed=x.row.bed, coldest_c=None, lost=x.row.lost, cause=x.row.cause or None)
            for x in part
        ),
        rank=3,
        dated=any(x.dated for x in part),
    )
