"""The bed strips: one row a bed, one bar a planting from planting to clearing, over the length of the day."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts import harvest_tables as tables
from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.place import days, shorten
from reportgen.charts.theme import Size
from reportgen.charts.types import Drawing
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_beds import bare_words
from reportgen.measures.beds import Strip
from reportgen.review import Review
from reportgen.sun import day_length_h
from reportgen.wording import between, count

ROW, BAR, CURVE = 30, 9, 78  # heights: a planting, its bar, the day-length plot below


def strips_drawing(review: Review) -> Drawing | None:
    """The chart, or None without plantings."""
    found = review.harvest.beds.strips
    if not found:
        return None
    wide, narrow = theme.sizes(ROW * len(found) + CURVE)
    bare, early = review.harvest.beds.bare, sum(bool(s.before_dark) for s in found)
    told = bare_words(Facts.of(review), bare[0]) if bare and bare[0].weeks >= 1 else "No ground lay bare for a week"
    title = told[:1].upper() + told[1:].partition(", after ")[0]
    sown = (f"{count(early, 'planting').capitalize()} could be picked before the dark weeks.",) if early else ()
    unknown = sorted({s.reason for s in found if s.reason})
    return Drawing(
        uid="harvest_beds",
        title=title,
        subtitle="Each planting from planting to clearing; full where it was being picked; below, the length of "
        "the day",
        label="Chart of the time each planting stood in its bed, over the length of the day",
        description=_words(found),
        wide=_draw(review, wide),
        narrow=_draw(review, narrow),
        table=tables.strips(review),
        notes=(*sown, *(f"Where no picking is drawn: {why}." for why in unknown)),
    )


def _words(found: tuple[Strip, ...]) -> str:
    picked = [s for s in found if s.days_to_first is not None]
    if not picked:
        return f"{count(len(found), 'planting')} in {count(len({s.bed for s in found}), 'bed')}."
    quick, slow = min(s.days_to_first or 0 for s in picked), max(s.days_to_first or 0 for s in picked)
    return (
        f"{count(len(found), 'planting')} in {count(len({s.bed for s in found}), 'bed')}; from sowing to first "
        f"picking {between(count(quick, 'day'), count(slow, 'day'))}."
    )


def _draw(review: Review, size: Size) -> Any:
    found = review.harvest.beds.strips
    span = (float(days(review.season.first_day)), float(days(review.season.last_day)))
    canvas = Canvas(size=size, x_domain=span, y_domain=(size.height, 0))
    room = int(size.plot / (theme.SMALL * theme.EM_SHARE))
    for n, strip in enumerate(found):
        y = n * ROW + 20
        left, right, first, last = (
            float(np.clip(canvas.px(days(d)), 0, size.plot)) if d else float("nan")
            for d in (strip.start, strip.end, strip.first_picked, strip.last_picked)
        )
        canvas.rects([(left, y, right, y + BAR)], theme.line("target"), 0.3)
        if strip.first_picked is not None:
            canvas.rects([(first, y, max(last, first + 2), y + BAR)], theme.line("target"), 1.0)
        name = " ".join(part for part in (strip.bed and f"{strip.bed}:", strip.crop, strip.cultivar) if part)
        canvas.words([(0, y - 8, shorten(name, room))], theme.INK)
        if strip.kg is not None:
            words = parts_words(review, strip.kg)
            canvas.words([(size.plot + 8, y + BAR / 2, words)], theme.text("target"), bold=True)
    _day_length(review, canvas, len(found) * ROW + 14)
    parts.draw_time_axis(canvas)
    return canvas.chart()


def parts_words(review: Review, kg: float) -> str:
    """The weight beside a strip."""
    from reportgen.wording import Wording

    return Wording.of(review.season).picked(kg)


def _day_length(review: Review, canvas: Canvas, top: float) -> None:
    latitude = review.season.place.latitude
    if latitude is None:
        return
    dates = pd.date_range(review.season.first_day, review.season.last_day).date
    hours = day_length_h(list(dates), latitude)
    low, high = float(min(hours.min(), 8.0)), float(max(hours.max(), 12.0))
    bottom = canvas.size.height - 4.0

    def place(h: Any) -> Any:
        return bottom - (np.asarray(h) - low) / (high - low) * (bottom - top)

    ten = float(place(10.0))
    canvas.rules([(0, ten, canvas.size.plot, ten)], theme.line("sun"), 1.0, "dash")
    canvas.curve(canvas.px(days(list(dates))), place(hours), theme.line("sun"), 1.6)
    canvas.words([(canvas.size.plot + 8, ten, "ten hours")], theme.text("sun"))
    canvas.words([(canvas.size.plot + 8, float(place(hours[-1])), "day length")], theme.text("sun"), bold=True)
