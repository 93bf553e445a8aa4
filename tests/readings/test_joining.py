"""The joining rule of the season folder's contract, by times whose answer is plain on paper.

Two readings are joined when they lie at most max(15 min, min(3 × the usual step, 3 h)) apart, in soil 6 h.
"""

from __future__ import annotations

import numpy as np
import pytest

from reportgen.readings.join import joined

MINUTE, HOUR = 60.0, 3600.0
NOON = 1_767_607_200.0  # 5 January 2026, 10:00 UTC; any begin will do


def one_gap(step_s: float, gap_s: float, measure: str = "") -> bool:
    """Whether a gap in the middle of a day and a half at a steady step is joined."""
    count = int(36 * HOUR / step_s)
    first = NOON + step_s * np.arange(count)
    after = first[-1] + gap_s + step_s * np.arange(count)
    links = joined(np.concatenate([first, after]), measure)
    assert links[: count - 1].all() and links[count:].all()  # the steady neighbours are
    return bool(links[count - 1])


@pytest.mark.parametrize(
    ("step_s", "longest_s"),
    [
        (MINUTE, 15 * MINUTE),  # three steps would be 3 min: 15 min always join
        (10 * MINUTE, 30 * MINUTE),  # three steps
        (HOUR, 3 * HOUR),  # three steps are the cap
        (2 * HOUR, 3 * HOUR),  # three steps would be 6 h: no more than 3 h
        (3 * HOUR, 3 * HOUR),
    ],
)
def test_the_longest_gap_that_is_joined(step_s: float, longest_s: float) -> None:
    """Exactly that long it is joined, a second more and it is a gap."""
    assert one_gap(step_s, longest_s) and not one_gap(step_s, longest_s + 1.0)


@pytest.mark.parametrize(("step_s", "longest_s"), [(HOUR, 3 * HOUR), (2 * HOUR, 6 * HOUR), (4 * HOUR, 6 * HOUR)])
def test_soil_is_slow_and_joined_over_six_hours(step_s: float, longest_s: float) -> None:
    """Three steps, and never more than 6 h, of soil temperature and soil moisture alike."""
    for measure in ("soil_temperature", "soil_moisture"):
        assert one_gap(step_s, longest_s, measure) and not one_gap(step_s, longest_s + 1.0, measure)


@pytest.mark.parametrize("step_s", [3 * HOUR + 1.0, 8 * HOUR, 24 * HOUR, 31 * 24 * HOUR])
def test_readings_further_apart_than_the_cap_are_never_joined(step_s: float) -> None:
    """However steady: a reading a day or a month tells nothing of the time between."""
    seconds = NOON + step_s * np.arange(50)
    assert not joined(seconds).any()
    assert joined(seconds, "soil_temperature").all() == (step_s <= 6 * HOUR)


def test_morning_and_afternoon_leave_the_night_open() -> None:
    """08:00 and 16:00 each day: 8 h and 16 h apart, neither is joined."""
    days = np.repeat(np.arange(20) * 24 * HOUR, 2)
    assert not joined(NOON + days + np.tile([0.0, 8 * HOUR], 20)).any()


def test_hourly_by_day_leaves_the_night_open() -> None:
    """Every hour from 08:00 to 16:00: the eight hours of day are joined, the sixteen of night are not."""
    hours = (np.arange(20)[:, None] * 24 + 8 + np.arange(9)[None, :]).ravel() * HOUR
    links = joined(NOON + hours)
    assert links.sum() == 20 * 8 and not links[8::9].any()
