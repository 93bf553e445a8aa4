"""Alarm lines on a curve of straight lines."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE

from reportgen.measures.exposure import Line, line
from reportgen.measures.frost_alarms import alarm, rings


def curve(points: dict[str, float]) -> Line:
    """A line through the points, read every five minutes."""
    knots = pd.Series(list(points.values()), index=pd.DatetimeIndex(list(points)).tz_localize(ZONE))
    index = pd.date_range(knots.index[0], knots.index[-1], freq="5min")
    return line(knots.reindex(index.union(knots.index)).interpolate("time"))


# From 8 °C at 18:00 down 1 K/h to −1 °C at 03:00, back to 8 °C at 12:00.
NIGHT = {"2026-01-10 18:00": 8.0, "2026-01-11 03:00": -1.0, "2026-01-11 12:00": 8.0}


def test_warning_is_the_time_to_one_kelvin_above_the_line() -> None:
    """The 4 °C line is crossed at 22:00, 1 °C at 01:00: 3 h of warning; at 2 °C one hour."""
    found = alarm(curve(NIGHT), 4.0, 0.0)
    assert (found.rings, found.needed) == (1, 1)
    assert found.warning_h == pytest.approx(3.0, abs=1e-6)
    assert alarm(curve(NIGHT), 2.0, 0.0).warning_h == pytest.approx(1.0, abs=1e-6)


def test_a_ring_for_nothing() -> None:
    """A night that turns at 3 °C rings the 4 °C alarm and needed none."""
    found = alarm(curve({"2026-01-10 18:00": 8.0, "2026-01-11 03:00": 3.0, "2026-01-11 12:00": 8.0}), 4.0, 0.0)
    assert (found.rings, found.needed, found.warning_h) == (1, 0, None)


def test_ten_minutes_below_do_not_ring() -> None:
    """Below 4 °C for 10 minutes: no ring; for 20: one."""
    short = {"2026-01-10 18:00": 5.0, "2026-01-10 18:05": 3.0, "2026-01-10 18:10": 3.0, "2026-01-10 18:15": 5.0}
    assert rings(curve(short), 4.0) == []
    longer = {"2026-01-10 18:00": 5.0, "2026-01-10 18:05": 3.0, "2026-01-10 18:25": 3.0, "2026-01-10 18:30": 5.0}
    assert len(rings(curve(longer), 4.0)) == 1


def test_rings_within_six_hours_are_one() -> None:
    """Dips of an hour at 18, 22 and 01 o'clock: the second belongs to the first, the third rings anew."""
    points = {}
    for hour in ("2026-01-10 18", "2026-01-10 22", "2026-01-11 01"):
        at = pd.Timestamp(f"{hour}:00")
        for minutes, value in ((0, 5.0), (10, 3.0), (50, 3.0), (60, 5.0)):
            points[str(at + pd.Timedelta(minutes=minutes))] = value
    found = [pd.Timestamp(t, unit="s", tz="UTC").tz_convert(ZONE).hour for t in rings(curve(points), 4.0)]
    assert found == [18, 1]


def test_what_stays_below_rings_again_and_its_warning_is_twelve_hours_at_most() -> None:
    """Below 4 °C from 20:00 and at 1 °C only at 09:00: it rang at 20 and at 08 o'clock, and was needed once; nobody
    counts thirteen hours as its warning."""
    slow = {"2026-01-10 19:00": 5.0, "2026-01-10 21:00": 3.0, "2026-01-11 08:30": 1.5, "2026-01-11 09:30": 0.5}
    found = alarm(curve(slow), 4.0, 0.0)
    assert [t.hour for t in found.when] == [20, 8]
    assert (found.needed, found.warning_h) == (1, 12.0)


def test_a_warning_does_not_begin_with_an_earlier_dip() -> None:
    """Below 4 °C from 18:00 to 19:00, which came to nothing, again from 22:00, and 1 °C at 23:30: 1.5 h."""
    points = {"2026-01-10 17:50": 5.0, "2026-01-10 18:10": 3.0, "2026-01-10 18:50": 3.0, "2026-01-10 19:10": 5.0}
    points |= {"2026-01-10 21:30": 5.0, "2026-01-10 22:00": 4.0, "2026-01-10 23:30": 1.0, "2026-01-11 00:30": 0.0}
    found = alarm(curve(points), 4.0, 0.0)
    assert (found.rings, found.needed) == (1, 1)
    assert found.warning_h == pytest.approx(1.5, abs=1e-6)


def test_a_line_at_the_frost_line_itself_warns_of_nothing() -> None:
    """An alarm at 0 °C rings when the air has long been within 1 K of it: needed, no warning."""
    found = alarm(curve(NIGHT), 0.0, 0.0)
    assert (found.needed, found.warning_h) == (1, 0.0)


@pytest.mark.parametrize("seed", range(12))
def test_a_higher_line_is_needed_at_least_as_often_and_warns_as_long(seed: int) -> None:
    """Forty days of a wandering curve: needed and warning never fall with the line, and no ring is needed twice."""
    random = np.random.default_rng(seed)
    at = pd.date_range("2026-01-01", periods=40 * 24, freq="1h", tz=ZONE)
    values = 3.0 + np.cumsum(random.normal(0.0, 0.7, len(at))) * 0.3 + 2.0 * np.cos(np.arange(len(at)) * np.pi / 12)
    found = [alarm(line(pd.Series(values, index=at)), c, 0.0) for c in (1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0)]
    assert [a.needed for a in found] == sorted(a.needed for a in found)
    warned = [a.warning_h for a in found if a.warning_h is not None and a.needed == found[-1].needed]
    assert warned == sorted(warned)
    assert all(a.needed <= a.rings for a in found)
