"""Charts for the pages: every builder takes plain DataFrames in shown units and gives (wide, narrow).

    from reportgen.charts.build import Curve, Look, Ring, change_marks, gap_marks, time_lines

    look = Look(
        unit="°C",                                       # at the topmost tick
        marks=change_marks(review.readings),             # dotted lines from the diary, on every time chart
        gaps=(Gap(start=…, end=…, label="logger off"),), # pale, named
        levels=(Level(value=0.0, label="frost line", token="cold"),),
        rings=(Ring(x=date(2026, 1, 14), y=-1.2, label="−1.2 °C, 14 January", token="cold", below=True),),
    )
    wide, narrow = time_lines(nights, "date", (Curve("inside", "cold", "coldest inside"),
                                               Curve("outside", "neutral", "outdoors", style="dash")), look)

`x` columns hold dates, Timestamps (their own local clock is drawn), or numbers. NaN is a gap and stays one. Tokens are
those of theme.PALETTE. Titles are HTML, never in the chart. Builders:

    time_lines(frame, x, curves, look)            lines over time (or over a number: set look.x_title)
    daily_range(frame, x, low, high, mean, look)  coldest, mean and warmest of each day as a band
    bars(frame, x, curves, look)                  stacked bars over dates (weeks) or over words
    points(dots, look, fits)                      marks of groups with fitted lines and bands
    intervals(rows, look)                         estimate and interval a row, zero line, care band
    ranked(rows, look)                            one horizontal bar a row, words and number beside it
    carpet(frame, edges, names, look)             day by hour in seven classes (columns date, hour, value)
    thin(frame, x, columns, pixels)               min–max per pixel column: extremes always kept
"""

from __future__ import annotations

from reportgen.charts.carpets import carpet
from reportgen.charts.interval_rows import Row, intervals, ranked
from reportgen.charts.lines import Curve, bars, daily_range, points, thin, time_lines
from reportgen.charts.look import Dots, Fit, Gap, Level, Look, Mark, Ring, Span, change_marks
from reportgen.charts.place import days, nice_ticks, shorten, signed, wrap

__all__ = [
    "Curve",
    "Dots",
    "Fit",
    "Gap",
    "Level",
    "Look",
    "Mark",
    "Ring",
    "Row",
    "Span",
    "bars",
    "carpet",
    "change_marks",
    "daily_range",
    "days",
    "intervals",
    "nice_ticks",
    "points",
    "ranked",
    "shorten",
    "signed",
    "thin",
    "time_lines",
    "wrap",
]
