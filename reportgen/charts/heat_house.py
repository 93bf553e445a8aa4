"""What the house loses, and the heater's line: night power against the lift over outdoors."""

from __future__ import annotations

import pandas as pd

from reportgen.charts import heat_tables as tables
from reportgen.charts.build import Dots, Fit, Look, points
from reportgen.charts.types import Drawing, Note, Table
from reportgen.findings.facts import Facts
from reportgen.findings.heat_words import known, loss_unit, per_kelvin, watts
from reportgen.review import Review
from reportgen.wording import count


def loss_block(review: Review, facts: Facts) -> list[Table | Note]:
    h = review.heat
    if not known(h.loss_w_per_k):
        why = h.reasons.get("loss_w_per_k.estimate", "")
        if not review.season.heating or not why:
            return []
        return [Note(title="What the house loses", text=f"The heat loss cannot be told: {why}.")]
    return [tables.loss(review, facts)]


def line_drawing(review: Review, facts: Facts) -> list[Drawing]:
    h, w = review.heat, facts.w
    line, nights = h.line, h.nights
    if line is None or nights is None or h.heater_needed_w.coldest_hour is None or h.hold_found_c is None:
        return []
    kept = nights[nights["counts"] == 1].dropna(subset=["lift", "heaters_w"])
    dots = pd.DataFrame({"x": kept["lift"].map(w.diff_value), "y": kept["heaters_w"]})
    far = h.hold_found_c - line.coldest_c
    ends = pd.Series([line.least_k, line.most_k, max(far, line.most_k)])
    fit = pd.DataFrame({"x": ends.map(w.diff_value), "y": (line.a_w + line.b_w_per_k * ends).clip(lower=0)})
    fits = [Fit(frame=fit.iloc[:2], token="warm", label="", style="solid")]
    if far > line.most_k:
        fits.append(Fit(frame=fit.iloc[1:], token="warm", label="drawn on", style="dash"))
    unit = w.diff_unit
    look = Look(unit="W", x_title=f"{unit} warmer than outdoors, mean of the night", zero=True)
    wide, narrow = points([Dots(frame=dots, token="warm", area=20)], look, fits)
    five = watts(h.heater_needed_w.five_colder or 0.0)
    return [
        Drawing(
            uid="heat_line",
            title=f"At the coldest hour the house needed about {watts(h.heater_needed_w.coldest_hour)}",
            subtitle=f"Mean heater power of each heated night, W, by how much warmer it was inside ({unit})",
            label="Points: heater power by night against the lift over outdoors, with a fitted line",
            description=f"{count(line.nights, 'night')}; {per_kelvin(w, line.b_w_per_k)} more for each degree. "
            f"{w.temp(line.coldest_c)} was the coldest hour outdoors.",
            wide=wide,
            narrow=narrow,
            table=tables.line(review, kept),
            notes=(
                f"At {w.temp(line.coldest_c)}, the coldest hour: {watts(line.low_w)} to {watts(line.high_w)}. "
                f"{w.diff(5.0, 0)} colder: about {five}.",
                f"The line climbs more steeply than the heat loss in {loss_unit(w)} where the soil carries part "
                "of the mild nights.",
            ),
        )
    ]
