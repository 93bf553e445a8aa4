"""The worst night, hour by hour: every crop logger, outdoors and the heater, with what led to it."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Drawing
from reportgen.charts.worst_view import AROUND_H, before_h, hour_of, worst_view
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import HEAT_FAILED, HEAT_OUT, OPEN_OR_ALTERED, TOO_COLD, Event
from reportgen.drawing.worst_night import worst_night
from reportgen.measures.places import crop_channels, outdoor
from reportgen.readings.types import Channel
from reportgen.review import Review
from reportgen.wording import NBSP, day, number


def worst_drawing(review: Review, facts: Facts) -> Drawing | None:
    """The night of the coldest moment; None without one."""
    view, at = worst_view(review, "frost_night"), review.frost.minimum.at
    if view is None or at is None:
        return None
    low = review.frost.minimum
    return Drawing(
        uid="frost_night",
        title=_title(_event_at(review, at), facts),
        subtitle=f"Air round {day(at, year=True)}, every reading, {facts.w.temp_unit}"
        + ("; below, the heater’s power by the hour" if view.heat else ""),
        label=view.label,
        description=view.description,
        wide=worst_night(view),
        narrow=worst_night(view, 360, 12.5, "one"),
        table=_hours(review, at, facts),
        sure=f"Coldest {facts.w.temp(low.temperature_c)} at the logger “{low.logger}”."
        if low.temperature_c is not None
        else "",
    )


def _event_at(review: Review, at: pd.Timestamp) -> Event | None:
    events = review.counsel.grounds.events
    return next((e for e in events if e.kind in ("frost", "failure") and e.start <= at <= e.end), None)


def _title(event: Event | None, facts: Facts) -> str:
    """By its cause; the minutes as they were measured."""
    if event is None:
        return "The coldest night, hour by hour"
    after = event.line_crossed_after_min
    if event.cause in (HEAT_FAILED, HEAT_OUT) and after is not None:
        unit = "minute" if round(after) == 1 else "minutes"
        came = "failed" if event.cause == HEAT_FAILED else "was out by the diary"
        return f"The heat {came}, and {number(after)}{NBSP}{unit} later it was {facts.w.temp(facts.r.frost.line_c, 0)}"
    titles = {
        HEAT_FAILED: "The heat failed in the coldest night",
        HEAT_OUT: "The heat was out that night, by the diary",
        OPEN_OR_ALTERED: "Something stood open or was altered that night",
        TOO_COLD: "The coldest night was colder than the heater can make good",
    }
    return titles.get(event.cause, "The coldest night, hour by hour")


def _hours(review: Review, at: pd.Timestamp, facts: Facts) -> pd.DataFrame:
    """The lowest reading of every hour, a column a logger."""
    outside = outdoor(review.readings, "air_temperature")
    named = [(c.logger, c) for c in crop_channels(review.readings, "air_temperature")]
    named += [("outdoors", outside)] if outside is not None else []
    unit = facts.w.temp_unit
    back = before_h(review)
    columns = {f"{name} {unit}": _lowest(channel, at, back, facts) for name, channel in named}
    frame = pd.DataFrame(columns)
    frame.insert(0, "hour", [f"{stamp:%Y-%m-%d %H:%M}" for stamp in pd.DatetimeIndex(frame.index)])
    return frame.reset_index(drop=True)


def _lowest(channel: Channel, at: pd.Timestamp, back_h: float, facts: Facts) -> pd.Series:
    first, last = at - pd.Timedelta(hours=back_h), at + pd.Timedelta(hours=AROUND_H)
    values = channel.values[first:last].dropna()
    hourly = values.groupby(hour_of(pd.DatetimeIndex(values.index))).min()
    return hourly.map(facts.w.temp_value).round(1)
