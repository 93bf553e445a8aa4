"""Every chart builder on extreme data, measured in Chromium: no word over another, none cut, no axis without words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import Any

import numpy as np
import pandas as pd
import pytest
from browser.opened import COLLIDING
from playwright.sync_api import Browser, Page

from reportgen.charts.build import (
    Curve,
    Dots,
    Fit,
    Gap,
    Level,
    Look,
    Mark,
    Ring,
    Row,
    Span,
    bars,
    carpet,
    daily_range,
    intervals,
    points,
    ranked,
    time_lines,
)
from reportgen.charts.embed import picture
from reportgen.charts.types import Drawing
from reportgen.site.resources import style

LONG = "The third of the old oak cold frames behind the potting shed, next to the pear wall"  # 83 characters
RIGHT_TO_LEFT = "מד חום ליד הדלת הצפונית של החממה"  # "thermometer by the north door of the greenhouse"
FIRST = date(2025, 10, 3)


def season(days: int, low: float = -5.0, high: float = 15.0, hole: tuple[int, int] | None = None) -> pd.DataFrame:
    """Columns date, low, high, mean over so many days that swing between the two values; a hole is NaN."""
    at = np.arange(days)
    wave = np.sin(at / 3.0)
    frame = pd.DataFrame(
        {
            "date": [FIRST + timedelta(days=int(n)) for n in at],
            "low": low + (high - low) * (0.2 + 0.2 * wave),
            "high": high - (high - low) * (0.2 - 0.2 * wave),
        }
    )
    frame["mean"] = (frame["low"] + frame["high"]) / 2
    if hole:
        frame.loc[hole[0] : hole[1], ["low", "high", "mean"]] = np.nan
    return frame


LOW, HIGH, MEAN = Curve("low", "cold", "coldest"), Curve("high", "warm", "warmest"), Curve("mean", "neutral", "mean")


def lines(frame: pd.DataFrame, **look: Any) -> Any:
    """Lowest, mean and highest of each day."""
    return daily_range(frame, "date", LOW, HIGH, MEAN, Look(unit="°C", **look))


def thirty_in_a_month() -> Any:
    """A diary entry every day of a month, within a long season."""
    marks = tuple(Mark(FIRST + timedelta(days=60 + n), f"Change number {n + 1}") for n in range(30))
    return lines(season(240), marks=marks)


def extremes_side_by_side() -> Any:
    """Rings on neighbouring days at both ends of the plot, at a level line, beside a named gap."""
    frame = season(120, hole=(50, 70))
    rings = tuple(
        Ring(x=FIRST + timedelta(days=n), y=y, label=f"{y} °C, a label of words", below=n % 2 == 0)
        for n, y in ((0, -3.0), (1, -3.1), (2, 12.0), (118, 12.0), (119, -3.0))
    )
    gaps = (Gap(start=FIRST + timedelta(days=50), end=FIRST + timedelta(days=70), label=LONG),)
    levels = (Level(value=0.0, label=LONG, token="cold"), Level(value=0.4, label="another line"))
    return lines(frame, rings=rings, gaps=gaps, levels=levels, spans=(Span(low=5, high=9, label="what it likes"),))


def many_gaps() -> Any:
    """Twenty gaps with names of their own."""
    frame = season(200)
    gaps = tuple(
        Gap(start=FIRST + timedelta(days=9 * n), end=FIRST + timedelta(days=9 * n + 4), label=f"logger {n} off")
        for n in range(20)
    )
    return lines(frame, gaps=gaps)


def crowd_of_ends() -> Any:
    """Seven curves that end at the same value, with long names."""
    frame = pd.DataFrame({"date": [FIRST + timedelta(days=n) for n in range(40)]})
    curves = []
    for n, token in enumerate(("cold", "target", "warm", "humid", "soil", "sun", "money")):
        frame[f"c{n}"] = 5.0 + 0.01 * n
        curves.append(Curve(f"c{n}", token, f"bed {n} by the long wall"))
    return time_lines(frame, "date", curves, Look(unit="°C"))


def rows_of(names: list[str], values: list[float], words: list[str]) -> list[Row]:
    """Rows with an interval of a fifth either way."""
    return [
        Row(label=n, value=v, words=w, low=v - abs(v) / 5, high=v + abs(v) / 5)
        for n, v, w in zip(names, values, words, strict=True)
    ]


def words_below(count: int, name: str = "bed") -> Any:
    """Bars over so many words."""
    frame = pd.DataFrame({"what": [f"{name} {n}" for n in range(count)], "kg": np.arange(count) + 1.0})
    return bars(frame, "what", (Curve("kg", "target", "picked"),), Look(unit="kg"))


def hours(days: int) -> pd.DataFrame:
    """Day by hour, half of it not there."""
    cells = [(FIRST + timedelta(days=d), h, float(d + h) if d % 2 else np.nan) for d in range(days) for h in range(24)]
    return pd.DataFrame(cells, columns=["date", "hour", "value"])


EDGES, CLASSES = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0), [f"{n} to {n + 5} °C and over" for n in range(0, 35, 5)]
CLOUD = pd.DataFrame({"x": [-40.0, 45.0, 0.0], "y": [1e6, 0.0001, 3.0]})

CASES: dict[str, Callable[[], Any]] = {
    "ten days": lambda: lines(season(10)),
    "two hundred and forty days": lambda: lines(season(240)),
    "one day": lambda: lines(season(1)),
    "two days": lambda: lines(season(2)),
    "a month not logged": lambda: lines(season(150, hole=(60, 92))),
    "nothing logged": lambda: lines(season(150, hole=(0, 149))),
    "−40 to +45 °C": lambda: lines(season(180, -40.0, 45.0)),
    "always the same": lambda: lines(season(90, 3.0, 3.0)),
    "prices of 0.0001": lambda: time_lines(season(90, 0.0001, 0.0004), "date", (LOW,), Look(unit="EUR", zero=True)),
    "prices of a million": lambda: time_lines(season(90, 0, 1e6), "date", (LOW,), Look(unit="EUR", zero=True)),
    "thirty diary entries in a month": thirty_in_a_month,
    "thirty diary entries in ten days": lambda: lines(
        season(10), marks=tuple(Mark(FIRST + timedelta(days=n / 3), LONG) for n in range(30))
    ),
    "diary names of 80 characters": lambda: lines(
        season(120), marks=tuple(Mark(FIRST + timedelta(days=20 * n), LONG) for n in range(1, 6))
    ),
    "right-to-left names": lambda: lines(
        season(120),
        marks=(Mark(FIRST + timedelta(days=30), RIGHT_TO_LEFT), Mark(FIRST + timedelta(days=60), RIGHT_TO_LEFT)),
        levels=(Level(value=2.0, label=RIGHT_TO_LEFT),),
    ),
    "extremes side by side": extremes_side_by_side,
    "twenty gaps": many_gaps,
    "seven curves that end alike": crowd_of_ends,
    "a single picking": lambda: bars(
        pd.DataFrame({"week": [FIRST], "kg": [0.2]}), "week", (Curve("kg", "target", "picked"),), Look(unit="kg")
    ),
    "no picking": lambda: bars(
        pd.DataFrame({"week": [FIRST], "kg": [0.0]}), "week", (Curve("kg", "target", "picked"),), Look(unit="kg")
    ),
    "thirty layers a bar": lambda: bars(
        pd.DataFrame({"week": [FIRST + timedelta(days=7 * n) for n in range(9)]} | {f"c{n}": 1.0 for n in range(30)}),
        "week",
        tuple(Curve(f"c{n}", "target" if n % 2 else "soil", f"crop number {n}") for n in range(30)),
        Look(unit="kg"),
    ),
    "bars over three words": lambda: words_below(3),
    "bars over thirty words": lambda: words_below(30),
    "bars over long words": lambda: words_below(9, LONG),
    "rows with long and right-to-left names": lambda: intervals(
        rows_of([LONG, RIGHT_TO_LEFT, "short"], [-40.0, 45.0, 0.0], [LONG, RIGHT_TO_LEFT, "0.0 K"]),
        Look(unit="K", plus=True, spans=(Span(low=-1, high=1, label="care"),)),
    ),
    "thirty rows": lambda: ranked(
        rows_of([f"{LONG} {n}" for n in range(30)], [float(n) for n in range(30)], [f"{n} kWh" for n in range(30)]),
        Look(unit="kWh"),
    ),
    "rows of 0.0001": lambda: ranked(rows_of(["a", "b"], [0.0001, 0.0004], ["0.0001", "0.0004"]), Look(unit="EUR")),
    "rows of a million": lambda: ranked(
        rows_of(["a", "b"], [1e6, 2.5e6], ["EUR\u00a01\u202f000\u202f000", "EUR\u00a02\u202f500\u202f000"]),
        Look(unit="EUR", levels=(Level(value=2e6, label="what it would cost elsewhere in the shop"),)),
    ),
    "rows with two levels side by side": lambda: ranked(
        rows_of(["a", "b"], [1.0, 2.0], ["1 h", "2 h"]),
        Look(unit="h", levels=(Level(value=1.0, label="a level of ours"), Level(value=1.05, label="another level"))),
    ),
    "no row": lambda: ranked([], Look(unit="EUR")),
    "rows without a value": lambda: intervals(
        rows_of(["a"], [float("nan")], ["cannot tell"]), Look(unit="K", plus=True)
    ),
    "a carpet of ten days": lambda: carpet(hours(10), EDGES, CLASSES, Look()),
    "a carpet of 240 days": lambda: carpet(hours(240), EDGES, CLASSES, Look()),
    "points far apart": lambda: points(
        (Dots(frame=CLOUD, token="cold", label=LONG), Dots(frame=CLOUD, token="warm", label=RIGHT_TO_LEFT)),
        Look(unit="EUR", x_title=LONG),
        (Fit(frame=CLOUD, token="cold", label="a fitted line with a long name"),),
    ),
    "no point": lambda: points(
        (Dots(frame=CLOUD.iloc[:0], token="cold", label="nights"),), Look(unit="°C", x_title="outdoors, °C")
    ),
}


@pytest.fixture
def sheet(chromium: Browser) -> Iterator[Page]:
    """An empty page with the site's own style, both widths of a chart shown."""
    window = chromium.new_context(viewport={"width": 900, "height": 900})
    page = window.new_page()
    page.set_content(f"<style>{style()} svg.w,svg.n{{display:block!important}}</style><main></main>")
    yield page
    window.close()


@pytest.mark.parametrize("case", CASES)
def test_words_stand_apart_and_whole(sheet: Page, case: str) -> None:
    """Measured boxes: no word over another, none outside of the drawing; and both axes have their words."""
    wide, narrow = CASES[case]()
    drawn = picture(
        Drawing(
            uid="x", title="t", subtitle="s", label="l", description="d", wide=wide, narrow=narrow, table=pd.DataFrame()
        )
    )
    sheet.evaluate(
        "([main, html]) => { document.querySelector(main).innerHTML = html; }", ["main", f"{drawn.wide}{drawn.narrow}"]
    )
    assert sheet.evaluate(COLLIDING) == []
    for svg in (drawn.wide, drawn.narrow):
        assert len(svg.encode()) <= 45_000
        assert len(re.findall("<text", svg)) >= 3
        assert "NaN" not in svg and "Infinity" not in svg
