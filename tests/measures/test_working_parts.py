"""What one measure hands the next: windows, stretches of a counter, heat by the hour, bands and why there is none."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import kept_reviews
import numpy as np
import pandas as pd
import pytest
from heated_house import house
from made_season import ZONE, channel, heater, logger, readings, season, store

from reportgen.effects.heat_days import heat_days
from reportgen.measures import days
from reportgen.measures.damp import damp
from reportgen.measures.damp_air import inside
from reportgen.measures.draw import drawn
from reportgen.measures.heat import heat
from reportgen.measures.hold import kept
from reportgen.measures.record import record
from reportgen.measures.there import There
from reportgen.readings.types import DiaryEntry, Readings

MINUTES = pd.date_range("2026-01-06", periods=48 * 60, freq="1min", tz=ZONE)


def test_windows_are_those_that_the_pages_name() -> None:
    """Night N is 20 to 6 h, the long night 18 to 9 h, the garden day noon to noon (methods page, *Words*)."""
    told = {"NIGHT": (20, 6), "LONG_NIGHT": (18, 9), "GARDEN_DAY": (12, 12), "DAYTIME": (6, 20)}
    for name, (first, last) in told.items():
        window = getattr(days, name)
        assert (window.start_h % 24, window.end_h % 24) == (first, last)


def test_the_smallest_step_of_a_counter() -> None:
    """Rises of 0.02, 0, 0.01 and 0.03 kWh: 0.01."""
    at = pd.date_range("2026-01-06", periods=5, freq="10min", tz=ZONE)
    counter = channel(pd.Series([1.0, 1.02, 1.02, 1.03, 1.06], index=at), "heater_energy")
    assert drawn(counter).least_kwh == pytest.approx(0.01)


def damp_house(rh: pd.Series, accuracy: float | None) -> Readings:
    """One logger of humidity at 20 °C."""
    channels = (channel(rh, "relative_humidity", accuracy=accuracy), channel(rh * 0 + 20.0))
    return readings(season(loggers=(logger("bench", main=True),)), channels=channels)


def test_a_wet_spell_has_its_class_by_the_published_equation() -> None:
    """12 h over 95 % at 20 °C: logit −2.647866 + 12 · (−0.374927 + 0.061601 · 20 − 0.001511 · 400) = 0.384, low (under
    0.5); Broome et al. 1995, Phytopathology 85:97."""
    rh = pd.Series(np.where((np.arange(len(MINUTES)) >= 600) & (np.arange(len(MINUTES)) < 1320), 95.0, 70.0), MINUTES)
    (spell,) = damp(damp_house(rh, 3.0)).wet_spells
    assert spell.index == pytest.approx(0.384, abs=0.01)
    assert spell.klass == "low"


def test_the_humidity_sensors_accuracy_goes_with_its_air() -> None:
    """3 points, or not given."""
    rh = pd.Series(80.0, index=MINUTES)
    for accuracy in (3.0, None):
        moist = inside(damp_house(rh, accuracy))
        assert moist is not None and moist.rh_accuracy == accuracy


def test_why_there_is_no_band_on_what_was_kept() -> None:
    """Without an accuracy the logger is named; with one there is a band and no reason."""
    air = pd.Series(6.0 + np.sin(np.arange(len(MINUTES)) / 200), index=MINUTES)
    for accuracy, why in ((None, "no accuracy given for bench"), (0.5, "")):
        made = season(aims={"hold_c": 6.0}, loggers=(logger("bench", main=True),))
        found = kept(readings(made, channels=(channel(air, accuracy=accuracy),)))
        assert found.band_reason == why
        assert np.isnan(found.share.low) == (accuracy is None)


def test_two_loggers_of_one_place_in_the_record() -> None:
    """Side by side, 1 K apart, each ± 0.3 K."""
    air = pd.Series(6.0 + np.sin(np.arange(len(MINUTES)) / 200), index=MINUTES)
    loggers = (logger("bench", main=True), logger("door"))
    both = (channel(air, accuracy=0.3), channel(air + 1.0, logger="door", accuracy=0.3))
    (pair,) = record(readings(season(loggers=loggers), channels=both)).agreement
    assert (pair.first, pair.second) == ("bench", "door")
    assert (pair.median, pair.allowed, pair.disagree) == (pytest.approx(1.0), pytest.approx(0.6), True)


def test_heat_that_nobody_looked_at_and_hours_without_a_record() -> None:
    """Two bottles, the second (30 kWh, 9.00) not looked at since the 12th: all of it counts so. A day and a half of
    another heater is unknown: 36 h."""
    rows = [("2026-01-05", "2026-01-12", 50.0, 15.0), ("2026-01-12", "2026-02-02", 30.0, 9.0)]
    since = replace(store(50.0, 30.0), unlooked_since=pd.Timestamp("2026-01-12", tz=ZONE))
    bottles = heater(rows, form="deliveries", stock=since)
    bottles = replace(bottles, intervals=bottles.intervals.assign(known_sum=[0, 1]))
    ends = [pd.Timestamp(at, tz=ZONE) for at in ("2026-01-20 00:00", "2026-01-21 12:00")]
    gap = pd.DataFrame({"start": ends[:1], "end": ends[1:], "heat_kwh": [12.0], "cost": [4.0]})
    other = replace(heater([("2026-01-05", "2026-01-20", 88.0, 44.0)]), name="oil heater", gaps=gap)
    first, second = heat(readings(heating=(bottles, other))).sources
    assert (first.unlooked_kwh, first.unlooked_cost, first.unknown_h) == (30.0, 9.0, 0.0)
    assert (second.unlooked_kwh, second.unknown_h) == (0.0, 36.0)


def test_heat_by_the_hour_and_by_the_week() -> None:
    """Only an hourly log tells nights from days, and its hours add up to the season's heat; a large heater that is read
    by the week from the sixth on is named as one that hides it; weekly readings alone tell no night."""
    hourly, weekly = house(), house(every=24 * 7)
    found = heat(hourly)
    assert found.by_hour is not None and found.kwh is not None
    assert found.by_hour["fan heater"].sum() / 1000 == pytest.approx(found.kwh, rel=1e-6)
    large = replace(weekly.heating[0], name="oil heater", intervals=weekly.heating[0].intervals.iloc[5:])
    both = heat_days(replace(hourly, heating=(hourly.heating[0], large)))
    assert (both.by_hour, both.large_sums) == (True, ("oil heater",))
    assert (heat_days(hourly).by_hour, heat_days(hourly).large_sums) == (True, ())
    assert (heat_days(weekly).by_hour, There.of(weekly).heat_by_hour) == (False, False)
    assert There.of(hourly).heat_by_hour is True


def test_a_diary_with_lines_and_one_without() -> None:
    """Kept and empty is not the same as written in."""
    line = DiaryEntry(
        line=2, date=dt.date(2026, 1, 12), time=None, kind="change", what="Film up", touches=(), reversible=None,
        hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    assert There.of(readings(diary=(line,))).diary_lines is True
    assert There.of(readings(diary=())).diary_lines is False


def test_forecasts_without_heat_hang_together() -> None:
    """The coldest of the nights without heat is the season's; after a failure of 3 h it is no colder than after 8 h;
    every middle lies within its band."""
    found = kept_reviews.review_of("sample").frost
    nights = found.without_heat_nights
    assert nights and all(night.low <= night.estimate <= night.high for night in nights)
    assert found.without_heat_minimum_c.estimate == pytest.approx(min(night.estimate for night in nights))
    assert found.after_failure
    for after in found.after_failure:
        assert (after.after_3h.estimate, after.after_8h.estimate) == (after.after_3h_c, after.after_8h_c)
        assert after.after_8h.estimate <= after.after_3h.estimate
        assert after.after_8h.low <= after.after_8h.estimate <= after.after_8h.high
