"""Two loggers at one place that differ by more than their accuracies allow: the difference day by day."""

from __future__ import annotations

import pandas as pd

from reportgen.charts import record_tables as tables
from reportgen.charts.build import Curve, Level, Look, change_marks, time_lines
from reportgen.charts.types import Drawing
from reportgen.measures import record_words as say
from reportgen.measures.agreement import Agreement
from reportgen.review import Review
from reportgen.units import MEASURES, TEMPERATURE_UNITS
from reportgen.wording import Wording

DRAWN = 3


def sides(review: Review) -> list[Drawing]:
    """The pairs whose usual difference is more than both sensors allow, the worst first."""
    off = [one for one in review.record.agreement if one.disagree]
    off.sort(key=lambda a: -abs(a.median) / (a.allowed or 1.0))
    return [_side(review, one) for one in off[:DRAWN]]


def anchor(one: Agreement) -> str:
    """The anchor of a pair's chart."""
    return f"record_{_bare(one.first)}_{_bare(one.second)}_{one.measure}"


def _bare(name: str) -> str:
    """A name as part of an anchor and a file name."""
    return "".join(c if c.isascii() and c.isalnum() else "-" for c in name.lower()).strip("-") or "logger"


def _side(review: Review, one: Agreement) -> Drawing:
    w = Wording.of(review.season)
    temperature = MEASURES[one.measure].kept in TEMPERATURE_UNITS
    unit = w.diff_unit if temperature else "points"
    column = f"{one.second} less {one.first}, {unit}"
    table = _table(review, one, column, w.diff_value(1.0) if temperature else 1.0)
    allowed = (w.diff_value(1.0) if temperature else 1.0) * (one.allowed or 0.0)
    look = Look(
        unit=unit,
        plus=True,
        zero=True,
        levels=(Level(value=allowed, label="both allow"), Level(value=-allowed, label="both allow")),
        marks=change_marks(review.readings),
        x_domain=(review.season.first_day, review.season.last_day),
    )
    wide, narrow = time_lines(table, "date", (Curve(column, "cold", "mean of the day"),), look)
    usual, low, high, both = (
        tables.difference_words(w, one.measure, v) for v in (abs(one.median), one.low, one.high, one.allowed or 0.0)
    )
    name = say.measure_name(one.measure)
    return Drawing(
        uid=anchor(one),
        title=f"Beside {one.first}, {one.second} usually reads {usual} {'lower' if one.median < 0 else 'higher'}",
        subtitle=f"Mean difference of each day in {name}, {unit}",
        label=f"Line chart of the difference between two loggers in {name} by day",
        description=f"The middle 95\u00a0% of the differences lie between {low} and {high}.",
        wide=wide,
        narrow=narrow,
        table=table.dropna(),
        notes=(f"Together the accuracies of the two sensors allow {both} either way.",),
        day_slider=True,
    )


def _table(review: Review, one: Agreement, column: str, factor: float) -> pd.DataFrame:
    """Every day of the season, so that a gap stays a gap."""
    days = pd.date_range(review.season.first_day, review.season.last_day).date
    known = one.days.set_index("date")["difference"].reindex(days) * factor
    return pd.DataFrame({"date": days, column: known.to_numpy()})
