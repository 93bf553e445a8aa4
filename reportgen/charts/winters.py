"""Two winters: the headlines side by side, what is left at equal weather, and the nights of both."""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.charts.build import Curve, Look, Row, change_marks, intervals, time_lines
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.charts.winters_tables import data, rows_tables
from reportgen.charts.winters_view import winters_view
from reportgen.counsel.answers_winters import winters_answer
from reportgen.counsel.facts import Facts
from reportgen.counsel.winters import JUDGED, care
from reportgen.drawing.effects import Effects, effects_tall, effects_wide
from reportgen.measures.places import crop_channels
from reportgen.readings.neighbours import USUAL_K
from reportgen.review import Review
from reportgen.winters import Row as Compared
from reportgen.winters import measured
from reportgen.wording import NBSP, Wording, are, count, day, digits_for, of_all

MISSING = (
    "With last winter's folder this page would set the headlines of both winters side by side, raw and with the "
    "weather taken out. Keep this season's folder, and name it next winter as the last season."
)
INTERVALS = {"lift", "night_minimum", "soil_mean", "soil_swing"}  # rows in K, drawn on one axis


def page(review: Review) -> Page:
    """The page, or the one note where no last winter was given."""
    w = review.winters
    if not w.rows:
        why = w.reasons.get("rows", "")
        note = Note(text=f"{why[:1].upper()}{why[1:]}. {MISSING}", kind="missing", title="Two winters")
        return Page(
            slug="winters", headline="Two winters: none to compare with", lead=MISSING, blocks=(note,), answers=False
        )
    facts = Facts.of(review)
    drawn: list[Drawing | Table | Note | None] = [
        *rows_tables(review, facts),
        _intervals(review, facts),
        _nights(review, facts),
        _diary(review),
        *_alike(review),
        Note(title="How to read it", text=_reading(facts.w)),
    ]
    blocks = tuple(block for block in drawn if block is not None)
    return Page(slug="winters", headline=_headline(review), lead=_lead(facts), blocks=blocks)


def _headline(review: Review) -> str:
    """The weightiest difference at equal weather that was told, else that there is none, or that it cannot be had."""
    told = next((f.claim for f in review.findings if f.slug.startswith("than-last-winter-")), None)
    if told is not None:
        return _told(review, told)
    if all(row.at_equal_weather is None for row in review.winters.rows):
        return "Two winters side by side; the weather could not be taken out"
    judged = [row for row in review.winters.rows if row.at_equal_weather is not None and row.key in JUDGED]
    if judged and all(_within(row, care(Facts.of(review), row)) for row in judged):
        return "No difference from last winter that matters at equal weather"
    return "Nothing stands out from last winter at equal weather"


def _told(review: Review, claim: str) -> str:
    """Better or worse than last winter, and by what first; of the bed alone in the finding's own words."""
    found = winters_answer("", Facts.of(review))
    parts = [part for part in found.why.split("; ") if not part.startswith(("level: ", "heat "))]
    if found.answer in ("Better", "Worse") and parts:
        return f"{found.answer} than last winter at equal weather: {_lower(parts[0])}"
    if found.answer == "Better and worse" and len(parts) > 1:
        return f"Better and worse than last winter at equal weather: {_lower(parts[0])}, {parts[-1]}"
    return claim.rstrip(".").replace(f"{NBSP}K ", f"{NBSP}degrees ")


def _lower(text: str) -> str:
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]


def _within(row: Compared, care_for: float) -> bool:
    """Whether the whole interval lies inside what the grower cares for."""
    equal = row.at_equal_weather
    return equal is not None and care_for > 0 and -care_for <= equal.low and equal.high <= care_for


def _lead(facts: Facts) -> str:
    w = facts.r.winters
    span = f"{day(w.first_day)} to {day(w.last_day)}" if w.first_day and w.last_day else "the days both have"
    return f"Beside “{w.last}”. Only the calendar days that both winters have are counted: {span}."


def _intervals(review: Review, facts: Facts) -> Drawing | None:
    w = facts.w
    view = winters_view(facts, "winters_equal")
    if view is not None:
        return _doubt(view, review)
    found = [row for row in review.winters.rows if row.key in INTERVALS and row.at_equal_weather is not None]
    if not found:
        return None
    rows = []
    for row in found:
        equal = row.at_equal_weather
        assert equal is not None
        value, low, high = (w.diff_value(x) for x in (equal.effect, equal.low, equal.high))
        clear = not low <= 0 <= high
        token = "neutral" if not clear else ("target" if (value > 0) == (row.better == "more") else "warm")
        rows.append(
            Row(
                label=row.what,
                value=value,
                low=low,
                high=high,
                words=w.diff(equal.effect, digits_for(high - value)),
                token=token,
            )
        )
    clear_rows = [r for r in rows if r.token != "neutral"]
    title = (
        f"With the weather taken out, {of_all(len(clear_rows), len(rows), 'warmth figure')} "
        f"{are(len(clear_rows), 'differs', 'differ')} from last winter"
        if clear_rows
        else "With the weather taken out, no warmth figure can be told apart from last winter's"
    )
    wide, narrow = intervals(rows, Look(unit=w.diff_unit, plus=True))
    return Drawing(
        uid="winters_equal",
        title=title,
        subtitle=f"This winter less last at equal weather, {w.diff_unit}, with the 95 % interval",
        label="Chart of differences between two winters at equal weather with their intervals",
        description="; ".join(f"{r.label} {r.words}" for r in rows) + ".",
        wide=wide,
        narrow=narrow,
        table=data(review),
        shown=data(review)[["what", "equal weather", "low", "high"]].dropna(),
    )


def _doubt(view: Effects, review: Review) -> Drawing:
    """All that can be set at equal weather and has a size that matters, on one axis."""
    table = data(review)
    known = sum(row.doubt is not None for group in view.groups for row in group.rows)
    apart = sum(len(group.rows) for group in view.groups if group.title in ("Better", "Worse"))
    verb = are(max(apart, 1), "differs", "differ")
    title = f"{of_all(apart, known, 'figure').capitalize()} {verb} once the weather is taken out"
    return Drawing(
        uid="winters_equal",
        title=title,
        subtitle=f"This winter less last as if both had had the same weather; the band holds the truth 95{NBSP}% of "
        "the time",
        label=view.label,
        description=view.description,
        wide=effects_wide(view),
        narrow=effects_tall(view),
        table=table,
        shown=table[["what", "equal weather", "low", "high"]].dropna(),
        sure="1 is the smallest difference that you said matters; the grey ground is too small to matter.",
    )


def _nights(review: Review, facts: Facts) -> Drawing | None:
    nights, w = review.winters.nights, facts.w
    if nights is None or nights.empty or nights["inside_this"].isna().all() or nights["inside_last"].isna().all():
        return None
    shown = nights.map(lambda v: w.temp_value(v) if np.isfinite(v) else v).reset_index(names="date")
    curves = [Curve("inside_this", "warm", "inside, this winter"), Curve("inside_last", "soil", "inside, last", "dash")]
    for column, label, style in (
        ("outside_this", "outdoors, this", "solid"),
        ("outside_last", "outdoors, last", "dot"),
    ):
        if nights[column].notna().any():
            curves.append(Curve(column, "neutral" if style == "dot" else "cold", label, style, 1.1))
    lowest = {side: float(nights[f"inside_{side}"].min()) for side in ("this", "last")}
    span = (review.winters.first_day, review.winters.last_day)
    look = Look(unit=w.temp_unit, x_domain=span, marks=change_marks(review.readings, "cold"))
    wide, narrow = time_lines(shown, "date", curves, look)
    table = shown.rename(
        columns={
            "inside_this": f"inside, this winter {w.temp_unit}",
            "inside_last": f"inside, last winter {w.temp_unit}",
            "outside_this": f"outdoors, this winter {w.temp_unit}",
            "outside_last": f"outdoors, last winter {w.temp_unit}",
        }
    )
    return Drawing(
        uid="winters_nights",
        title=_coldest_title(review, facts),
        subtitle=f"Coldest of each night inside and outdoors in both winters, {w.temp_unit}, on this winter's dates",
        label="Line chart of the coldest of each night in two winters, inside and outdoors",
        description=f"Coldest whole night inside: {w.temp(lowest['this'])} this winter, {w.temp(lowest['last'])} last.",
        wide=wide,
        narrow=narrow,
        table=table,
        shown=table.iloc[::7],
        day_slider=True,
    )


def _coldest_title(review: Review, facts: Facts) -> str:
    """By the row of the table, which knows the one place that both winters had; without it no side is colder."""
    row = next((row for row in review.winters.rows if row.key == "minimum"), None)
    if row is None or row.this is None or row.last is None:
        return "The nights of both winters, inside and outdoors"
    colder = "colder than" if row.this < row.last else "warmer than"
    word = "about as cold as" if abs(row.this - row.last) < _allowed_k(review) else colder
    return (
        f"The coldest moment inside was {word} last winter's: {facts.w.temp(row.this)} against {facts.w.temp(row.last)}"
    )


def _allowed_k(review: Review) -> float:
    """The difference of two minima that the sensors of two winters may make by themselves: twice the coarsest ±."""
    known = [c.accuracy for c in crop_channels(review.readings, "air_temperature") if c.accuracy is not None]
    return 2 * max(known, default=USUAL_K)


def _diary(review: Review) -> Table | None:
    w = review.winters
    if not w.only_this and not w.only_last:
        return None
    rows = [(what, "this winter only") for what in w.only_this] + [(what, "last winter only") for what in w.only_last]
    return Table(
        uid="winters_diary",
        title=f"The diaries differ in {count(len(rows), 'thing')}",
        subtitle="Changes, spells and upkeep written down in one winter and not, in the same words, in the other",
        columns=("what", "when"),
        rows=tuple(rows),
        data=pd.DataFrame(rows, columns=["what", "when"]),
    )


def _alike(review: Review) -> list[Table]:
    warnings = review.winters.warnings
    if not warnings:
        return []
    rows = tuple((words,) for words in warnings)
    return [
        Table(
            uid="winters_alike",
            title="What is not alike in the two records",
            subtitle="Each may make a difference that the house did not make",
            columns=("what",),
            rows=rows,
            data=pd.DataFrame({"what": list(warnings)}),
        )
    ]


def _reading(wording: Wording) -> str:
    """What the last column is, how it was tried, and what it cannot tell."""
    missed, far, held = measured.totals()
    return (
        "The raw difference mixes the house with the weather. At equal weather the nights of both winters are "
        "compared as if they had been equally cold and bright; the further apart the two winters lay outdoors, the "
        "wider the interval. It was tried on simulated houses, heated and not: with nothing altered an interval left "
        f"out zero in {missed.k} of {missed.n} cases ({far.k} of {far.n} where the nights lay "
        f"{wording.diff(3.0)} and more apart), and for a house truly improved it held the truth in {held.k} of "
        f"{held.n}. Humidity holds another winter's crop and watering too, which is no matter of the house. It tells "
        "that the winters differ, not what made them differ. A harvest has no equal weather."
    )
