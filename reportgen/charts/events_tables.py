"""What happened, as tables: a row an event, and a row for each crop that stood in one."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.changes import tried
from reportgen.counsel.grounds import Event
from reportgen.counsel.said_events import quoted_lines
from reportgen.review import Review
from reportgen.wording import Wording, count, day, listed, number, span

EVENTS, CROPS = "events", "events_crops"
KINDS = {"frost": "cold", "failure": "failure of the heat", "safety": "fire or fumes", "loss": "loss"}


def page_of_events(review: Review) -> str:
    """The page that carries the tables: Frost, else the first that has anything to show."""
    if review.frost.minimum.temperature_c is not None:
        return "frost"
    if review.harvest.kg:
        return "harvest"
    return "heat" if review.heat.kwh is not None else "changes" if tried(review.effects.changes) else "frost"


def events_tables(review: Review) -> tuple[Table, ...]:
    """Both tables; nothing where nothing happened."""
    events, w = review.counsel.grounds.events, Wording.of(review.season)
    if not events:
        return ()
    met = _crops_data(events, w)
    return (_events(events, w), *([_crops(events, met, w)] if len(met) else []))


def _events(events: Sequence[Event], w: Wording) -> Table:
    return Table(
        uid=EVENTS,
        title=f"{count(len(events), 'event')} by the readings and the books",
        subtitle="A spell of cold, a failure, a loss or a danger is one, however many readings saw it",
        columns=("when", "what", "cause", "coldest inside", "plants lost"),
        rows=tuple(_row(event, w) for event in events),
        data=_events_data(events, w),
    )


def _row(event: Event, w: Wording) -> tuple[str, ...]:
    lost = _lost(event)
    when = day(event.start) if event.start.date() == event.last_day else span(event.start, event.last_day)
    return (
        when if event.dated else f"not dated; it stood {when}",
        KINDS[event.kind],
        event.cause,
        "–" if event.minimum_c is None else w.temp(event.minimum_c),
        "–" if lost is None else number(lost),
    )


def _lost(event: Event) -> float | None:
    known = [crop.lost for crop in event.crops if crop.lost is not None]
    return sum(known) if known else None


def _events_data(events: Sequence[Event], w: Wording) -> pd.DataFrame:
    rows = [_event_cells(n, event, w) for n, event in enumerate(events, start=1)]
    frame = pd.DataFrame(rows)
    numbers = [name for name in frame if str(name).startswith(("minutes", "coldest", "outdoors", "hours", "plants"))]
    return frame.astype({name: float for name in numbers if str(name) != "coldest at"})


def _event_cells(n: int, e: Event, w: Wording) -> dict[str, object]:
    return {
        "event": n,
        "kind": KINDS[e.kind],
        "cause": e.cause,
        "from": _stamp(e.start),
        "to": _stamp(e.end),
        "dated": "yes" if e.dated else "no",
        "minutes from the failure to the frost line": e.line_crossed_after_min,
        f"coldest {w.temp_unit}": None if e.minimum_c is None else round(w.temp_value(e.minimum_c), 3),
        "coldest at": "" if e.at is None else _stamp(e.at),
        "place": e.place or "",
        f"outdoors {w.temp_unit}": None if e.outdoor_c is None else round(w.temp_value(e.outdoor_c), 3),
        "hours under the line or without heat": e.hours,
        "nights under the line": e.nights,
        "days of burning": e.days,
        "heater": e.source or "",
        "levers on": "; ".join(e.levers),
        "plants lost": _lost(e),
        "diary": "; ".join(quoted_lines(e)),
    }


def _stamp(moment: pd.Timestamp) -> str:
    return moment.isoformat(timespec="minutes")


def _crops(events: Sequence[Event], met: pd.DataFrame, w: Wording) -> Table:
    rows = []
    for event in events:
        if event.crops:
            names = [f"{c.crop}{f' in {c.bed}' if c.bed else ''}{_met(c.coldest_c, c.lost, w)}" for c in event.crops]
            rows.append((f"{day(event.start)}: {event.cause}", listed(names)))
    return Table(
        uid=CROPS,
        title="What each crop met in it",
        subtitle="The coldest air at the crop's bed, and what is booked as lost by that cause",
        columns=("event", "crops"),
        rows=tuple(rows),
        data=met,
    )


def _met(coldest_c: float | None, lost: float | None, w: Wording) -> str:
    told = [w.temp(coldest_c)] if coldest_c is not None else []
    told += [f"{number(lost)} lost"] if lost else []
    return f" ({', '.join(told)})" if told else ""


def _crops_data(events: Sequence[Event], w: Wording) -> pd.DataFrame:
    rows = [
        {
            "event": n,
            "kind": KINDS[event.kind],
            "cause": event.cause,
            "crop": met.crop,
            "bed": met.bed or "",
            f"coldest {w.temp_unit}": None if met.coldest_c is None else round(w.temp_value(met.coldest_c), 3),
            "lost": met.lost,
        }
        for n, event in enumerate(events, start=1)
        for met in event.crops
    ]
    return pd.DataFrame(rows).astype({f"coldest {w.temp_unit}": float, "lost": float}) if rows else pd.DataFrame()
