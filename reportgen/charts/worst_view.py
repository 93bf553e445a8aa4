"""What the picture of the worst night is told: every crop logger, outdoors and the heater, with what led to it."""

from __future__ import annotations

import math

import pandas as pd

from reportgen.charts.season_view import degrees_axis
from reportgen.drawing.axis import Tick
from reportgen.drawing.ink import Token
from reportgen.drawing.notes import Note
from reportgen.drawing.trace import Point
from reportgen.drawing.worst_night import Track, WorstNight
from reportgen.measures.places import crop_channels, outdoor
from reportgen.readings.join import JOIN_MOST_S
from reportgen.readings.types import Channel
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, clock, day, number

AROUND_H = 8.0
MOST_BEFORE_H = 14.0  # a night long: further back the picture would show the day
LEAST_W = 20.0  # the heater is taken to stand still below; a fan's standby draws less
TOKENS: tuple[Token, ...] = ("cold", "target", "humid", "soil", "sun")
MOST_POINTS = 200  # a curve of more is thinned by its extremes


def worst_view(review: Review, uid: str = "worst") -> WorstNight | None:
    """The night round the coldest moment of the crop air; None without one."""
    w, low = Wording.of(review.season), review.frost.minimum
    if low.at is None or low.temperature_c is None:
        return None
    at = low.at
    channels = crop_channels(review.readings, "air_temperature")
    back = before_h(review)
    tracks = [(c.logger, points(c, at, w, back)) for c in channels]
    tracks = [(name, p) for name, p in tracks if any(q is not None for q in p)]
    tracks.sort(key=lambda t: (t[0] != low.logger, min(q[1] for q in t[1] if q is not None)))
    outside = outdoor(review.readings, "air_temperature")
    drawn = [
        Track(name=name, token=TOKENS[min(n, len(TOKENS) - 1)], points=p, weight=2.2 if n == 0 else 1.6)
        for n, (name, p) in enumerate(tracks)
    ]
    yard = points(outside, at, w, back) if outside is not None else ()
    if any(p is not None for p in yard):
        drawn.insert(1, Track(name="outdoors", token="neutral", points=yard, weight=1.1))
    if not drawn:
        return None
    heat = heater(review, at, back)
    still = _still(heat)
    values = [p[1] for track in drawn for p in track.points if p is not None]
    crossed = _crossed(review, at, back)
    return WorstNight(
        uid=uid,
        label=f"The night of {day(at - pd.Timedelta(hours=12))} to {day(at)}, hour by hour"
        if at.hour < 12
        else f"{day(at)}, hour by hour",
        description=_description(review, w, crossed, still),
        first=-back,
        last=AROUND_H,
        hours=_hours(at, back),
        axis=degrees_axis(values, w, review.frost.line_c),
        tracks=tuple(drawn),
        notes=_notes(review, w, crossed),
        heat=heat,
        still=still,
        still_word="no heat",
    )


def before_h(review: Review) -> float:
    """How many hours before the coldest moment the picture begins: eight, or with what led to it, as the readings or a
    time in the diary tell."""
    at = review.frost.minimum.at
    if at is None:
        return AROUND_H
    begun = [at - pd.Timedelta(hours=AROUND_H - 1)]
    for event in review.counsel.grounds.events:
        if event.start <= at <= event.end:
            lines = [e for e in review.readings.diary if e.line in event.lines and e.time is not None]
            told = [pd.Timestamp.combine(e.date, e.time or at.time()).tz_localize(at.tz, ambiguous=True,
                    nonexistent="shift_forward") for e in lines]  # fmt: skip
            begun += [event.start, *(moment for moment in told if moment <= at)]
    hours = (at - min(begun)) / pd.Timedelta(hours=1) + 1.0
    return float(min(hours, MOST_BEFORE_H))


def points(channel: Channel, at: pd.Timestamp, w: Wording, back_h: float = AROUND_H) -> tuple[Point | None, ...]:
    """Its readings round that moment as (hours from it, shown degrees), broken at gaps, thinned by their extremes."""
    span = channel.values[at - pd.Timedelta(hours=back_h) : at + pd.Timedelta(hours=AROUND_H)].dropna()
    hours = (pd.DatetimeIndex(span.index) - at) / pd.Timedelta(hours=1)
    found = [(float(h), w.temp_value(float(v))) for h, v in zip(hours, span.to_numpy(), strict=True)]
    out: list[Point | None] = []
    for n, point in enumerate(_thin(found)):
        last = out[-1] if n else None
        if last is not None and 3600.0 * (point[0] - last[0]) > JOIN_MOST_S:
            out.append(None)
        out.append(point)
    return tuple(out)


def _thin(found: list[Point]) -> list[Point]:
    """Least and greatest of each stretch, in their order; short records stay whole."""
    if len(found) <= MOST_POINTS:
        return found
    step = len(found) / (MOST_POINTS / 2)
    out: list[Point] = []
    for n in range(MOST_POINTS // 2):
        part = found[int(n * step) : int((n + 1) * step)]
        ends = {min(part, key=lambda p: p[1]), max(part, key=lambda p: p[1])} if part else set()
        out += sorted(ends)
    return out


def heater(review: Review, at: pd.Timestamp, back_h: float = AROUND_H) -> tuple[tuple[float, float, float], ...]:
    """(hour, hour, watts) of the heaters that were logged by the hour; () where none was."""
    table = review.heat.by_hour
    names = [s.name for s in review.heat.sources if table is not None and s.name in table]
    if table is None or not names:
        return ()
    start, end = (at + pd.Timedelta(hours=h) for h in (-back_h - 1, AROUND_H))
    part = table.loc[(table.index > start) & (table.index < end), names]
    power = part.sum(axis=1, min_count=1).dropna()
    hours = (pd.DatetimeIndex(power.index) - at) / pd.Timedelta(hours=1)
    return tuple((float(h), float(h) + 1.0, float(v)) for h, v in zip(hours, power.to_numpy(), strict=True))


def _still(heat: tuple[tuple[float, float, float], ...]) -> tuple[float, float] | None:
    """The stretch without heat that holds, or ends last before, the coldest moment, after heat was given."""
    on = [h for h in heat if h[2] >= LEAST_W]
    before, after = [h for h in on if h[0] <= 0], [h for h in on if h[0] > 0]
    if before and before[-1][1] >= 0 and len(before) > 1:
        before, after = before[:-1], [before[-1], *after]
    if not before or not heat:
        return None
    start, end = before[-1][1], after[0][0] if after else heat[-1][1]
    return (start, end) if end - start >= 1.0 else None


def hour_of(at: pd.DatetimeIndex) -> pd.DatetimeIndex:
    """Where the hour of the clock begins that each instant lies in; resample and floor stop at one that comes twice."""
    seconds = at.minute * 60 + at.second + at.microsecond * 1e-6
    return at - pd.to_timedelta(seconds, unit="s")


def _hours(at: pd.Timestamp, back_h: float) -> tuple[Tick, ...]:
    """Every third hour of the clock, midnight in words."""
    out = []
    for h in range(-math.ceil(back_h) - 1, 10):
        (hour,) = hour_of(pd.DatetimeIndex([at + pd.Timedelta(hours=h)]))
        place = (hour - at) / pd.Timedelta(hours=1)
        if hour.hour % 3 == 0 and -back_h <= place <= AROUND_H:
            out.append(Tick(float(place), "midnight" if hour.hour == 0 else f"{hour.hour}{NBSP}h"))
    return tuple(out)


def _crossed(review: Review, at: pd.Timestamp, back_h: float) -> tuple[float, pd.Timestamp] | None:
    """When the coldest logger last went below the line before its coldest moment."""
    low = review.frost.minimum
    channel = review.readings.channel(low.logger, "air_temperature") if low.logger else None
    if channel is None or low.temperature_c is None or low.temperature_c >= review.frost.line_c:
        return None
    span = channel.values[at - pd.Timedelta(hours=back_h) : at].dropna()
    warm = span.index[(span >= review.frost.line_c).to_numpy()]
    after = span.index[span.index > warm[-1]] if len(warm) else span.index[:0]
    return ((after[0] - at) / pd.Timedelta(hours=1), after[0]) if len(after) else None


def _notes(review: Review, w: Wording, crossed: tuple[float, pd.Timestamp] | None) -> tuple[Note, ...]:
    low, line = review.frost.minimum, w.temp_value(review.frost.line_c)
    assert low.at is not None and low.temperature_c is not None
    value = w.temp_value(low.temperature_c)
    notes = [Note(day=0.0, value=value, words=f"{number(value, 1)}° at {clock(low.at)}")]
    if crossed is not None:
        words = f"below {number(line)}° by {clock(crossed[1])}"
        notes.append(Note(day=crossed[0], value=line, words=words))
    return tuple(notes)


def _description(
    review: Review, w: Wording, crossed: tuple[float, pd.Timestamp] | None, still: tuple[float, float] | None
) -> str:
    low = review.frost.minimum
    assert low.at is not None and low.temperature_c is not None
    parts = [f"Coldest {w.temp(low.temperature_c)} at {clock(low.at)}"]
    if low.outdoor_c is not None:
        parts.append(f"{w.temp(low.outdoor_c)} outdoors")
    if crossed is not None:
        parts.append(f"below {w.temp(review.frost.line_c, 0)} by {clock(crossed[1])}")
    if still is not None:
        start, end = (low.at + pd.Timedelta(hours=h) for h in still)
        parts.append(f"no heat from {clock(start)} to {clock(end)}")
    return "; ".join(parts) + "."
