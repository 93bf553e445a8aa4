"""Notes on the nights: the coldest inside with its line of the diary, other frosts, the coldest outdoors, the hold."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import groupby

import pandas as pd

from reportgen.charts.place import shorten
from reportgen.charts.timeline import brief_day
from reportgen.counsel.brief import short
from reportgen.drawing.notes import Note
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, day, number

Values = Sequence[float | None]
HELD_DAYS = 21  # days in a row near the hold from which the picture says so; our own line
AT_HOLD_K = 1.0  # of the hold
PLACE = 24  # characters of a logger's name
LONG = 34  # characters of a diary line that a note has room for


def night_notes(review: Review, w: Wording, inside: Values, outdoors: Values) -> tuple[Note, ...]:
    """In order of rank; what is not there is left out."""
    found = [
        _coldest(review, w, inside),
        _others(review, w, inside),
        _outdoors(inside, outdoors),
        _held(review, w, inside),
    ]
    return tuple(note for note in found if note is not None)


def degrees(value: float, digits: int = 1) -> str:
    """−5.2°."""
    return f"{number(value, digits)}°"


def _least(values: Values) -> tuple[int, float] | None:
    known = [(v, n) for n, v in enumerate(values) if v is not None]
    return (min(known)[1], min(known)[0]) if known else None


def _coldest(review: Review, w: Wording, inside: Values) -> Note | None:
    found = _least(inside)
    if found is None:
        return None
    n, value = found
    night = review.season.first_day + timedelta(days=n)
    table = review.frost.table
    row = table.loc[night]
    at = row["at"] if isinstance(row["at"], pd.Timestamp) and not pd.isna(row["at"]) else night
    words = _befell(review, night)
    many = len({place for place in table["logger"] if isinstance(place, str) and place}) > 1
    where = f" at “{shorten(str(row['logger']), PLACE)}”" if many and row["logger"] else ""
    told = f" {_lower(short(words, LONG, LONG))}," if words else ""
    brief = f"{brief_day(at)}:{told} {degrees(value)}"
    return Note(day=n, value=value, words=f"{day(at)}:{told} {degrees(value)}{where}", brief=brief)


def _befell(review: Review, night: date) -> str:
    """What happened that evening or the morning after; what was set for longer is no cause of one night's cold."""
    days = (night, night + timedelta(days=1))
    return next((e.what for e in review.readings.diary if e.kind == "event" and e.date in days), "")


def _lower(words: str) -> str:
    """The first letter small, unless the second is not: "Heater stood" but not "CO alarm"."""
    return words[:1].lower() + words[1:] if words[1:2].islower() else words


def _others(review: Review, w: Wording, inside: Values) -> Note | None:
    """All other nights below the line, at the coldest of them."""
    line = w.temp_value(review.frost.line_c)
    worst = _least(inside)
    below = [(v, n) for n, v in enumerate(inside) if v is not None and v < line and worst and n != worst[0]]
    if not below:
        return None
    value, n = min(below)
    first = review.season.first_day
    if len(below) == 1:
        words = f"night of {brief_day(first + timedelta(days=n))}: {degrees(value)}"
    else:
        words = f"{count(len(below), 'other night')} below{NBSP}{degrees(line, 0)}, down to{NBSP}{degrees(value)}"
    return Note(day=n, value=value, words=words)


def _outdoors(inside: Values, outdoors: Values) -> Note | None:
    found = _least(outdoors)
    if found is None:
        return None
    n, value = found
    within = inside[n] if n < len(inside) else None
    words = f"{degrees(value)}{NBSP}outdoors"
    if within is not None:
        words += f", {degrees(within)}{NBSP}inside"
    return Note(day=n, value=value, words=words, token="neutral")


def _held(review: Review, w: Wording, inside: Values) -> Note | None:
    run = held_run(review, w, inside)
    if run is None:
        return None
    aim, n = run
    value = inside[n]
    assert value is not None
    return Note(day=n, value=value, words=f"held near{NBSP}{number(aim)}°", ring=False, italic=True)


def held_run(review: Review, w: Wording, inside: Values) -> tuple[float, int] | None:
    """The longest run of nights near the hold that was aimed for, where there is one: that aim in the shown unit, and
    a night of the run."""
    first = review.season.first_day
    if not review.heat.holds or not review.heat.kwh:
        return None
    aims = sorted(review.heat.holds)

    def near(n: int) -> float:
        night = first + timedelta(days=n)
        aim = [c for start, c in aims if start <= night]
        value = inside[n]
        if not aim or value is None or abs(value - w.temp_value(aim[-1])) > w.diff_value(AT_HOLD_K):
            return float("nan")
        return w.temp_value(aim[-1])

    runs = [
        (key, [n for n, _ in group])
        for key, group in groupby(((n, near(n)) for n in range(len(inside))), lambda p: p[1])
    ]
    runs = [(key, days) for key, days in runs if key == key and len(days) >= HELD_DAYS]
    if not runs:
        return None
    aim, days = max(runs, key=lambda run: len(run[1]))
    return aim, days[len(days) // 3]
