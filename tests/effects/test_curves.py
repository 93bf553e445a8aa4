"""Curves made from curves, exact on joined lines of a few readings."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, season

from reportgen.effects.curves import hours_above, paired, short_of, with_crossings
from reportgen.measures.days import Window
from reportgen.measures.exposure import Line

START = pd.Timestamp("2026-01-05", tz=ZONE)


def line(hours: list[float], values: list[float], joined: list[bool] | None = None) -> Line:
    """Readings at hours after midnight of 5 January, all joined unless told."""
    seconds = START.timestamp() + 3600.0 * np.array(hours)
    return Line(
        zone=START.tz,
        seconds=seconds,
        values=np.array(values, dtype=float),
        joined=np.array([True] * (len(hours) - 1) if joined is None else joined),
    )


def told(curve: Line) -> list[tuple[float, float]]:
    """Hour and value of every reading."""
    return [
        (pytest.approx((s - START.timestamp()) / 3600.0), pytest.approx(v))
        for s, v in zip(curve.seconds, curve.values, strict=True)
    ]


def test_a_reading_is_added_where_the_line_crosses() -> None:
    """0, 4, 8, 0 °C at 0, 2, 4, 5 h cross 6 °C at 3 h and 4.25 h; where it only touches or is not joined, none."""
    found = with_crossings(line([0, 2, 4, 5], [0, 4, 8, 0]), 6.0)
    assert told(found) == [(0, 0), (2, 4), (3, 6), (4, 8), (4.25, 6), (5, 0)]
    assert found.joined.all() and len(found.joined) == 5
    assert found.times[2] == START + pd.Timedelta(hours=3) and str(found.times.tz) == ZONE
    gap = with_crossings(line([0, 2, 4, 5], [0, 4, 8, 0], [True, False, True]), 6.0)
    assert told(gap) == [(0, 0), (2, 4), (4, 8), (4.25, 6), (5, 0)]
    assert gap.joined.tolist() == [True, False, True, True]
    touching = line([0, 1, 2], [6, 4, 6])
    assert with_crossings(touching, 6.0) is touching


def test_short_of_a_base_has_its_corner() -> None:
    """A line from 3 to 7 °C in 4 h falls short of 5 °C by 2 K, by nothing from 2 h on: an area of 2 K h, not of 4."""
    found = short_of(line([0, 4], [3, 7]), 5.0)
    assert told(found) == [(0, 2), (2, 0), (4, 0)]
    area = ((found.values[1:] + found.values[:-1]) / 2 * found.hours).sum()
    assert area == pytest.approx(2.0)


def test_pairs_stand_where_both_are_known() -> None:
    """Humidity every hour, air every two with a hole from 2 to 6 h: the pairs at 0, 1, 2 and 6 h; over the hole they
    are joined as the humidity is; air read between its readings."""
    first = line([0, 1, 2, 3, 4, 5, 6], [10, 11, 12, 13, 14, 15, 16])
    second = line([0, 2, 6], [0, 20, 60], [True, False])
    found = paired(first, second, lambda a, b: a + b)
    assert found is not None
    assert told(found) == [(0, 10), (1, 21), (2, 32), (6, 76)]
    assert found.joined.tolist() == [True, True, True]
    broken = paired(line([0, 1, 2, 3, 6], [1] * 5, [True, True, False, True]), second, lambda a, b: a + b)
    assert broken is not None and broken.joined.tolist() == [True, True, False]
    assert found.times.equals(pd.DatetimeIndex([START + pd.Timedelta(hours=h) for h in (0, 1, 2, 6)]))


def test_one_pair_is_no_curve() -> None:
    """One instant in common: none; two: a curve."""
    first = line([0, 1, 2], [1, 1, 1])
    assert paired(first, line([2, 9], [5, 5], [False]), lambda a, b: a + b) is None
    two = paired(first, line([1, 2, 9], [5, 5, 5], [True, False]), lambda a, b: a + b)
    assert two is not None and len(two.values) == 2


DAY = Window(start_h=0, end_h=24)


def test_time_above_a_line_is_exact() -> None:
    """From 80 at midnight to 100 at 10 h and back at 20 h, flat to 24 h: above 90 from 5 to 15 h. A line that stands on
    the limit is not above it. Two days: each its own."""
    of = season("2026-01-05", "2026-01-06")
    curve = line([0, 10, 20, 24, 48], [80, 100, 80, 80, 80])
    found = hours_above(curve, 90.0, of, DAY)
    assert found.tolist() == pytest.approx([10.0, 0.0])
    assert list(found.index) == [dt.date(2026, 1, 5), dt.date(2026, 1, 6)] and found.index.name == "date"
    assert hours_above(curve, 80.0, of, DAY).tolist() == pytest.approx([20.0, 0.0])
    evening = hours_above(curve, 90.0, of, Window(start_h=8, end_h=18))
    assert evening.tolist() == pytest.approx([7.0, 0.0])


def test_hours_without_a_record_are_like_those_recorded() -> None:
    """Above for 6 of 18 recorded hours of the day: 8 of 24. A day without a record has no figure."""
    curve = line([0, 6, 6.001, 18, 24], [99, 99, 50, 50, 50], [True, True, True, False])
    found = hours_above(curve, 90.0, season("2026-01-05", "2026-01-06"), DAY)
    assert found.iloc[0] == pytest.approx(8.0, abs=0.01)
    assert np.isnan(found.iloc[1])
