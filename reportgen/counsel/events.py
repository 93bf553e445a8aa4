"""Events: what happened, one sentence each however many measures saw it.

Cold happenings and failures of the heat (`events_spells`), each with its cause (`events_cause`), the diary's lines and
what the crops met (`events_books`); what could have hurt someone (`events_safety`, `events_hazard`); losses by the
cause that the book gives (`events_losses`). A cold happening that the diary ties to a cut-out that tripped, or to
something on or near a heater, is one event of the first rank, not two.
"""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.counsel.events_books import lines_of, nobody_noted, noted_on, seen_after, texts
from reportgen.counsel.events_cause import cause_of, out_to_line_min
from reportgen.counsel.events_crops import met_by, stamp
from reportgen.counsel.events_hazard import hazard_of
from reportgen.counsel.events_losses import losses
from reportgen.counsel.events_safety import safety_events
from reportgen.counsel.events_spells import Airs, Happening, coldest_place, crop_airs, happenings, lowest
from reportgen.counsel.grounds import HEAT_OUT, CropMet, Event
from reportgen.counsel.results import Results
from reportgen.measures.exposure import Line, channel_line
from reportgen.measures.frost_limit import evening, nights_of
from reportgen.measures.frost_nights import coldest_line
from reportgen.measures.places import outdoor

SAFETY, FAILED, COLD = 0, 1, 2  # ranks; a loss has 3


def events(r: Results) -> tuple[Event, ...]:
    """The events of the season, the worst first: fire and fumes, then by rank, by what was lost, by the cold."""
    airs = crop_airs(r)
    curve, happened = coldest_line(r.readings), happenings(r, airs)
    cold: list[Event] = []
    told: frozenset[int] = frozenset()
    if curve is not None:
        met = met_by(r, airs, curve, happened)
        cold = [_cold(r, airs, curve, one, crops) for one, crops in zip(happened, met.crops, strict=True)]
        told = met.told
    carried = {number for event in cold if event.hazard is not None for number in event.lines}
    return tuple(sorted([*cold, *safety_events(r, carried), *losses(r, told)], key=_order))


def _order(event: Event) -> tuple[int, float, float, pd.Timestamp]:
    lost = sum(crop.lost or 0.0 for crop in event.crops)
    lowest_c = event.minimum_c if event.minimum_c is not None else 0.0
    return event.rank, -float(event.days) if event.rank == SAFETY else -lost, lowest_c, event.start


def _cold(r: Results, airs: Airs, curve: Line, one: Happening, crops: tuple[CropMet, ...]) -> Event:
    start, end = (stamp(r, second) for second in (one.start_s, one.end_s))
    minimum_c, at_s = lowest(curve, one.start_s, one.end_s)
    at = None if np.isnan(at_s) else stamp(r, at_s)
    first = evening(start) if start.hour < 9 else start.date()
    lines = lines_of(r.readings, first, end.date())
    names = [supply.name for supply in r.readings.heating]
    hazard = next((found for entry in lines if (found := hazard_of(entry, names)) is not None), None)
    worst = min(one.failures, key=lambda failure: failure.minimum_c, default=None)
    cause = cause_of(r, one, at, lines)
    after = out_to_line_min(r, one, lines) if cause == HEAT_OUT else None
    return Event(
        kind="failure" if worst is not None else "frost",
        cause=cause,
        start=start,
        end=end,
        line_crossed_after_min=worst.line_crossed_after_min if worst is not None else after,
        minimum_c=None if np.isnan(minimum_c) else minimum_c,
        place=coldest_place(airs, one.start_s, one.end_s),
        outdoor_c=_outdoors(r, at_s),
        diary=texts(lines),
        diary_on=noted_on(lines, start.date(), end.date()),
        crops=crops,
        rank=SAFETY if hazard is not None else (FAILED if worst is not None else COLD),
        at=at,
        lines=tuple(entry.line for entry in lines),
        source=worst.source if worst is not None else None,
        hours=sum(f.hours for f in one.failures) if worst is not None else one.hours,
        nobody_noted=nobody_noted(r.readings, start, end, lines),
        hazard=hazard,
        seen=tuple(dict.fromkeys(row.found for row in seen_after(r.readings, start.date(), end.date()))),
        nights=len({night for a, b in one.spells for night in nights_of(stamp(r, a), stamp(r, b))}),
        heat_back=worst.end if worst is not None else None,
    )


def _outdoors(r: Results, at_s: float) -> float | None:
    """Outdoor air at the coldest moment inside."""
    channel = outdoor(r.readings, "air_temperature")
    if channel is None or np.isnan(at_s):
        return None
    value = float(channel_line(channel).at(np.asarray([at_s]))[0])
    return None if np.isnan(value) else value
