"""Frost margin: every night's coldest air, the worst nights, the crops, the limit, a failure, the alarms."""

from __future__ import annotations

import math
from datetime import date, timedelta

import pandas as pd

from reportgen.charts.build import Gap, Look, Row, ranked
from reportgen.charts.frost_ahead import after_drawing, bare_drawing, limit_drawing
from reportgen.charts.frost_alarms import alarm_table
from reportgen.charts.frost_heading import headline, lead
from reportgen.charts.frost_met import crops_title, lost_above
from reportgen.charts.frost_rest import away_note, band_words, hot_drawing, method_note
from reportgen.charts.frost_tables import crop_table, failure_table, gap_table, nights_csv, worst_table
from reportgen.charts.frost_view import frost_view
from reportgen.charts.frost_worst import worst_drawing
from reportgen.charts.nights_views import dots_view
from reportgen.charts.seldom import seldom_page
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.whole import gaps_in, hidden, missing
from reportgen.drawing.dots import dots
from reportgen.drawing.frost import frost_tall, frost_wide
from reportgen.measures.exposure import Band
from reportgen.measures.frost_types import CropMargin
from reportgen.measures.places import seldom_crop
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, day

SHOWS = (
    "this page would show how close every night came to frost, for each crop while it stood, how cold it may get "
    "outside, and how long you would have without heat."
)
MISSING = (
    f"With a temperature logger among the crop {SHOWS} From now on: hang one logger in the coldest corner of the crop"
)
ALONE = " and let it write every ten minutes."
BOTH = " and one outdoors in the shade, and let both write every ten minutes."
BESIDE = " and let it and the one outdoors write every ten minutes."
UNHEARD = (
    "The thermometer inside that is listed left no readings to go by, so this page has nothing to tell. "
    "The record says what was set aside and why."
)

NO_NIGHT = "No reading lies in a night. From now on let the logger write through the night, every ten minutes or so."


def page(review: Review) -> Page:
    """The page, or the one note on what to log where there is no crop air."""
    if review.frost.minimum.temperature_c is None:
        return _without_air(review)
    facts = Facts.of(review, review.counsel.grounds)
    blocks: list[Drawing | Table | Note | None] = [
        nights_drawing(review, facts),
        worst_drawing(review, facts),
        worst_table(review, facts),
        _margins(review, facts),
        _crops(review, facts),
        crop_table(facts),
        limit_drawing(review, facts),
        bare_drawing(review, facts),
        failure_table(facts),
        after_drawing(review, facts),
        alarm_table(facts),
        gap_table(facts),
        hot_drawing(review, facts),
        away_note(facts),
        method_note(facts),
        Note(title="Before you act", kind="caution", text=f"{cautions.ALONE} {cautions.heating(facts.fuels)}".strip()),
    ]
    shown = tuple(block for block in blocks if block is not None)
    return Page(slug="frost", headline=headline(facts), lead=lead(facts), blocks=shown)


def _without_air(review: Review) -> Page:
    """No crop air, or too seldom read: what to log, and how long it was under the frost line outdoors meanwhile."""
    seldom = seldom_crop(review.readings, "air_temperature")
    lost = hidden(review.frost, Wording.of(review.season))
    if seldom is not None:
        return seldom_page(review, "frost", "Frost", seldom, SHOWS, lost)
    text = f"{lost} {_what_to_log(There.of(review.readings))}".strip()
    note = Note(text=text, kind="missing", title="Frost margin")
    return Page(slug="frost", headline="Frost: nothing logged at the crop", lead=text, blocks=(note,), answers=False)


def _what_to_log(there: There) -> str:
    if there.crop_air or "air_temperature" in there.unheard:
        return UNHEARD
    return MISSING + (ALONE if there.outdoor_air else BESIDE if there.outdoor_named else BOTH)


def night_gaps(table: pd.DataFrame) -> tuple[Gap, ...]:
    """Runs of nights without a reading."""
    out: list[Gap] = []
    start: date | None = None
    for night, empty in zip([*table.index, None], [*table["inside_min"].isna(), False], strict=True):
        if empty and start is None:
            start = night
        elif not empty and start is not None:
            end = night if night is not None else table.index[-1] + timedelta(days=1)
            out.append(Gap(start=start, end=end, label="not logged"))
            start = None
    return tuple(out)


def nights_drawing(review: Review, facts: Facts) -> Drawing | Note:
    """Coldest air of every long night inside and outdoors, the closest call ringed."""
    f, w = review.frost, facts.w
    if not len(f.table) or f.table["inside_min"].isna().all():
        return Note(title="Night by night", kind="missing", text=NO_NIGHT)
    view = frost_view(review, "frost_nights")
    if view is None:
        return Note(title="Night by night", kind="missing", text=NO_NIGHT)
    closest = list(f.table.index)[int(f.table["inside_min"].argmin())]
    low = float(f.table["inside_min"].min())
    table = nights_csv(review, facts)
    lift = (f.table["inside_min"] - f.table["outdoor_min"]).dropna()
    mean = float(lift.mean()) if len(lift) else 0.0
    side = "warmer" if mean >= 0 else "colder"
    warmer = f" On the average night it was {w.diff(abs(mean))} {side} inside." if len(lift) > 1 else ""
    return Drawing(
        uid="frost_nights",
        title=_nights_title(facts),
        subtitle=f"Coldest air of every night, 18 to 09{NBSP}h, {w.temp_unit}; a night is named after its evening",
        label="Line chart of the coldest air of every night, inside and outdoors",
        description=f"Inside between {w.temp(low)} and {w.temp(float(f.table['inside_min'].max()))}, coldest in the "
        f"night of {day(closest)}.{warmer}",
        wide=frost_wide(view),
        narrow=frost_tall(view),
        table=table,
        shown=table.nsmallest(20, table.columns[1]).sort_values("date"),
        notes=(
            *(
                ("The table on the page has the twenty coldest nights; the file has every night.",)
                if len(table) > 20
                else ()
            ),
            "Inside is the lowest of all crop loggers, in the hours in which any of them wrote.",
            *([f"Of the season {missing(f.hours_unrecorded)}."] if gaps_in(f.hours_unrecorded) else []),
        ),
        day_slider=True,
    )


def _ringed(facts: Facts, low: float, at: object) -> str:
    return f"{facts.w.temp(low)}, {day(at)}" if isinstance(at, pd.Timestamp) else facts.w.temp(low)


def kelvins(facts: Facts, k: float) -> str:
    """A round difference in K, to the tenth in °F: 2 K, 3.6 °F."""
    return facts.w.diff(k, 1 if facts.w.us else 0)


def _nights_title(facts: Facts) -> str:
    """What the crops met; where no band is known, how much warmer it was inside than out."""
    f = facts.r.frost
    if any(c.margin_k is not None for c in f.crops):
        return crops_title(facts)
    lift = (f.table["inside_min"] - f.table["outdoor_min"]).dropna()
    if len(lift) < 2:
        return "The coldest air of every night"
    mean = float(lift.mean())
    side = "warmer inside than out" if mean >= 0 else "colder inside than out"
    return f"The average night was {facts.w.degrees(abs(mean), 1)} {side}"


def _margins(review: Review, facts: Facts) -> Drawing | None:
    """Nights by margin, with the sensors' band."""
    f, w = facts.r.frost, facts.w
    keys = list(f.nights_below)
    if not f.nights_below["5"].estimate:
        return None
    names = [f"below the line + {kelvins(facts, float(k))}" if k != "0" else "below the frost line" for k in keys]
    view = dots_view(review, "frost_margins")
    if view is None:
        return None
    rows = tuple(
        Row(
            label=name,
            value=f.nights_below[k].estimate,
            low=f.nights_below[k].low,
            high=f.nights_below[k].high,
            words=count(f.nights_below[k].estimate, "night"),
            token="cold",
        )
        for k, name in zip(keys, names, strict=True)
    )
    table = pd.DataFrame(
        {
            "margin": names,
            "nights": [f.nights_below[k].estimate for k in keys],
            "nights, low": [f.nights_below[k].low for k in keys],
            "nights, high": [f.nights_below[k].high for k in keys],
            "hours": [round(f.hours_below[k].estimate, 1) for k in keys],
            "hours, low": [round(f.hours_below[k].low, 1) for k in keys],
            "hours, high": [round(f.hours_below[k].high, 1) for k in keys],
        }
    )
    degree = f.degree_hours_below
    unit = "K" if not w.us else "°F"
    scale = 1.0 if not w.us else 1.8
    cold = band_words(Band(estimate=scale * degree.estimate, low=scale * degree.low, high=scale * degree.high), 1)
    return Drawing(
        uid="frost_margins",
        title=_near_title(facts),
        subtitle=f"One dot a night, by the coldest air inside, {w.temp_unit}",
        label=view.label,
        description="; ".join(f"{r.label}: {r.words}" for r in rows) + ".",
        wide=dots(view),
        narrow=dots(view, 360, 12.5, "one"),
        table=table,
        notes=(
            f"Below the line, depth times time: {cold} {unit}·h, of {w.hours(f.hours_recorded)} on record.",
            *([] if math.isfinite(degree.low) else [f"No band: {f.reasons.get('degree_hours_below.low', '')}."]),
        ),
    )


def _room_title(known: list[CropMargin], facts: Facts) -> str:
    """The crop with the least to spare, by its distance from the limit."""
    worst = known[0]
    room = facts.w.degrees(abs(worst.margin_k or 0.0))
    return f"{worst.crop[:1].upper()}{worst.crop[1:]} had the least to spare: {room} {_side(worst.margin_k)} its limit"


def _side(margin_k: float | None) -> str:
    return "under" if (margin_k or 0.0) < 0 else "above"


def _near_title(facts: Facts) -> str:
    """How many nights came within two degrees of the line, or of the nearest distance that any came within."""
    f = facts.r.frost
    near = next((k for k in ("2", "3", "5") if k in f.nights_below and f.nights_below[k].estimate), "5")
    came = count(f.nights_below[near].estimate, "night").capitalize()
    return f"{came} came within {facts.w.degrees(float(near), 1 if facts.w.us else 0)} of the frost line, or below it"


def _crops(review: Review, facts: Facts) -> Drawing | None:
    """How far every crop stayed from its damage band."""
    w = facts.w
    known = [c for c in review.frost.crops if c.margin_k is not None]
    if not known:
        return None
    known.sort(key=lambda c: (c.margin_k or 0.0, c.crop, c.bed or ""))
    rows = tuple(
        Row(
            label=f"{c.crop}{f', {c.bed}' if c.bed else ''}, {day(c.from_)} to {day(c.to)}",
            value=w.diff_value(c.margin_k or 0.0),
            words=w.diff(c.margin_k or 0.0),
            token="cold" if (c.margin_k or 0.0) < 0 else "target",
            pale=c.source.startswith("from memory"),
        )
        for c in known
    )
    wide, narrow = ranked(rows, Look(unit=w.diff_unit, zero=True, plus=True))
    return Drawing(
        uid="frost_crops",
        title=_room_title(known, facts),
        subtitle=f"Coldest air while it stood, less the warmer end of its damage band, {w.diff_unit}; below 0 it "
        "was met",
        label="Bar chart of each crop's margin to its damage band",
        description="; ".join(f"{r.label}: {r.words}" for r in rows) + ".",
        wide=wide,
        narrow=narrow,
        table=pd.DataFrame(
            {
                "crop": [c.crop for c in known],
                "bed": [c.bed or "" for c in known],
                f"margin {w.diff_unit}": [round(w.diff_value(c.margin_k or 0.0), 2) for c in known],
            }
        ),
        notes=(
            "A band is a rough thing: hardiness moves by several degrees with the weeks before, and cold air is "
            "not yet a cold leaf.",
            *(
                f"{crop[:1].upper()}{crop[1:]} was lost above its band, which did not fit here. Write your own limit "
                "beside the crop, as damage_below_c."
                for crop in lost_above(facts)
            ),
            *(("Pale bars rest on a band from memory.",) if any(r.pale for r in rows) else ()),
        ),
    )
