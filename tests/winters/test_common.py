"""The days that two winters share, and a season cut down to them, by the calendar and by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.in_memory import entry
from made_season import ZONE, channel, heater, logger, picking, readings, season

from reportgen.readings.types import Inspection, Watering
from reportgen.winters.common import moved, restrict, shared_days, years_between

FIRST, LAST = dt.date(2026, 1, 10), dt.date(2026, 1, 20)


def test_years_are_those_between_the_middles() -> None:
    """A winter begun a month later and ended a month sooner has the same middle; three years are three; the same winter
    is none away; half a year and more either way is the nearer whole number."""
    this = season("2025-11-01", "2026-03-31")
    assert years_between(this, season("2024-10-01", "2025-04-30")) == 1
    assert years_between(this, season("2022-11-01", "2023-03-31")) == 3
    assert years_between(this, this) == 0
    assert years_between(this, season("2026-11-01", "2027-03-31")) == -1
    assert years_between(this, season("2025-06-01", "2025-10-31")) == 0  # 152 days: nearer to none
    assert years_between(this, season("2025-04-01", "2025-08-31")) == 1  # 213 days: nearer to one


def test_a_day_moves_to_its_like() -> None:
    """A common day by the years told; 29 February to the 28th but to the 29th where the year has one."""
    assert moved(dt.date(2024, 3, 31), 1) == dt.date(2025, 3, 31)
    assert moved(dt.date(2026, 3, 31), -1) == dt.date(2025, 3, 31)
    assert moved(dt.date(2024, 2, 29), -1) == dt.date(2023, 2, 28)
    assert moved(dt.date(2024, 2, 29), 4) == dt.date(2028, 2, 29)


def test_winters_share_from_the_later_start_to_the_earlier_end() -> None:
    """November to March against December to April, and the other way about; one day in common is a day."""
    long, late = season("2025-11-01", "2026-03-01"), season("2024-12-01", "2025-04-01")
    assert shared_days(long, late) == (dt.date(2025, 12, 1), dt.date(2026, 3, 1))
    assert shared_days(season("2025-12-01", "2026-04-01"), season("2024-11-01", "2025-03-01")) == (
        dt.date(2025, 12, 1), dt.date(2026, 3, 1),
    )  # fmt: skip
    one = shared_days(season("2025-11-01", "2025-12-01"), season("2024-12-01", "2025-01-01"))
    assert one == (dt.date(2025, 12, 1), dt.date(2025, 12, 1))
    assert shared_days(season("2025-11-01", "2025-11-30"), season("2024-12-01", "2025-01-01")) is None


def around(first: dt.date = FIRST, last: dt.date = LAST) -> tuple[dt.date, ...]:
    """The day before, the first, the last, the day after."""
    day = dt.timedelta(days=1)
    return first - day, first, last, last + day


def test_books_keep_the_first_and_the_last_day() -> None:
    """Of the day before, the first, the last and the day after, the two in the middle."""
    book = readings(
        harvest=tuple(picking(day.isoformat(), 1.0) for day in around()),
        watering=tuple(Watering(line=2, date=day, time=None, bed=None, litres=None) for day in around()),
        inspections=tuple(
            Inspection(line=2, date=day, bed=None, crop=None, found="x", level=1, action="") for day in around()
        ),
    )
    cut = restrict(book, FIRST, LAST)
    for rows in (cut.harvest, cut.watering, cut.inspections):
        assert [row.date for row in rows] == [FIRST, LAST]
    assert (cut.season.first_day, cut.season.last_day) == (FIRST, LAST)


def test_a_spell_that_reaches_into_the_days_stays() -> None:
    """Over by the ninth: gone; to the tenth: there; from the twentieth: there; begun on the 21st: gone."""
    before, after = dt.date(2026, 1, 5), dt.date(2026, 1, 21)
    diary = (
        entry(before, "over", kind="spell", until=dt.date(2026, 1, 9)),
        entry(before, "reaches in", kind="spell", until=FIRST),
        entry(before, "before"),
        entry(FIRST, "first"),
        entry(LAST, "last", kind="spell", until=after),
        entry(after, "after"),
    )
    assert [e.what for e in restrict(readings(diary=diary), FIRST, LAST).diary] == ["reaches in", "first", "last"]


def test_a_channel_keeps_both_midnights() -> None:
    """Hourly readings from the first midnight of the tenth to that after the twentieth, both with their reading."""
    hours = pd.date_range("2026-01-05", "2026-02-01", freq="1h", tz=ZONE)
    cut = restrict(readings(channels=(channel(pd.Series(1.0, index=hours)),)), FIRST, LAST).channels[0].values
    assert (cut.index[0], cut.index[-1]) == (
        pd.Timestamp("2026-01-10", tz=ZONE), pd.Timestamp("2026-01-21", tz=ZONE),
    )  # fmt: skip


def test_a_long_sum_is_cut_by_time_where_no_cold_was_logged() -> None:
    """Four stretches: before the days, into them (5 of 10 days inside), within, and out of them (1 of 5 days)."""
    rows = [
        ("2026-01-01", "2026-01-05", 8.0, 2.0),
        ("2026-01-05", "2026-01-15", 100.0, 30.0),
        ("2026-01-15", "2026-01-20", 7.0, 3.0),
        ("2026-01-20", "2026-01-25", 50.0, 20.0),
    ]
    plain = heater(rows)
    table = plain.intervals.assign(bought=lambda t: 2 * t["heat_kwh"], cost_low=1.0, cost_high=10.0)
    cut = restrict(readings(heating=(replace(plain, intervals=table),)), FIRST, LAST).heating[0].intervals
    assert cut["heat_kwh"].tolist() == pytest.approx([50.0, 7.0, 10.0])
    assert cut["bought"].tolist() == pytest.approx([100.0, 14.0, 20.0])
    assert cut["cost"].tolist() == pytest.approx([15.0, 3.0, 4.0])
    assert cut["cost_low"].tolist() == pytest.approx([0.5, 1.0, 0.2])
    assert cut["cost_high"].tolist() == pytest.approx([5.0, 10.0, 2.0])
    assert list(cut.index) == [0, 1, 2]
    assert cut["start"].iloc[0] == pd.Timestamp("2026-01-10", tz=ZONE)
    assert cut["end"].iloc[-1] == pd.Timestamp("2026-01-21", tz=ZONE)
    assert cut["end"].iloc[0] == pd.Timestamp("2026-01-15", tz=ZONE)


def test_a_stretch_that_ends_where_the_days_begin_is_none_of_them() -> None:
    """To midnight of the tenth, and from the midnight after the twentieth: out. An appliance is cut as a heater is."""
    outside = heater([("2026-01-05", "2026-01-10", 9.0, 1.0), ("2026-01-21", "2026-01-25", 9.0, 1.0)])
    cut = restrict(readings(heating=(outside,), appliances=(outside,)), FIRST, LAST)
    assert not len(cut.heating[0].intervals) and not len(cut.appliances[0].intervals)
    nothing = restrict(readings(heating=(replace(outside, intervals=outside.intervals.iloc[:0]),)), FIRST, LAST)
    assert not len(nothing.heating[0].intervals)


def test_a_long_sum_is_cut_by_the_cold_where_it_was_logged() -> None:
    """Ten days at 10 K and ten at 30 K under the hold of 5 °C, ten of 20 days of one sum inside the days: those at 30 K
    took 30/40 of it. A gap is cut by time: half of what it can have held."""
    hours = pd.date_range("2026-01-01", "2026-02-01", freq="1h", tz=ZONE)
    cold = np.where(hours < pd.Timestamp("2026-01-11", tz=ZONE), -5.0, -25.0)
    of = season("2026-01-01", "2026-01-31", logger=(logger("out", where="outdoor"),), aims={"hold_c": 5.0})
    gap: dict[str, Any] = {
        "start": pd.to_datetime(["2026-01-09"]).tz_localize(ZONE),
        "end": pd.to_datetime(["2026-01-13"]).tz_localize(ZONE),
        "heat_kwh": [8.0],
        "cost": [4.0],
    }
    supply = replace(heater([("2026-01-01", "2026-01-21", 80.0, 20.0)]), gaps=pd.DataFrame(gap))
    book = readings(of, heating=(supply,), channels=(channel(pd.Series(cold, hours), logger="out", where="outdoor"),))
    cut = restrict(book, dt.date(2026, 1, 11), dt.date(2026, 1, 31)).heating[0]
    assert cut.intervals["heat_kwh"].tolist() == pytest.approx([60.0])
    assert cut.gaps["heat_kwh"].tolist() == pytest.approx([4.0])
    assert cut.gaps["cost"].tolist() == pytest.approx([2.0])
    late = restrict(book, dt.date(2026, 1, 25), dt.date(2026, 1, 31)).heating[0]
    assert not len(late.gaps)
