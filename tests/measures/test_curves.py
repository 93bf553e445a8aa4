"""Exact times and integrals of joined readings, and the windows of a day; by hand on curves of a few readings."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, season

from reportgen.measures.days import (
    DATE,
    EVENING_SOIL,
    GARDEN_DAY,
    LONG_NIGHT,
    NEXT_MORNING,
    SUNNY,
    Window,
    bounds,
    dates,
    enough,
    least,
    mean_known,
    standard_offset,
    stats_between,
    window_stats,
)
from reportgen.measures.exposure import (
    Line,
    band,
    clip,
    degree_hours_below,
    hours_above,
    hours_below,
    line,
    lowest,
    lowest_shifted,
    spells_above,
    spells_below,
)

H = 3600.0
ZERO = pd.Timestamp("2026-01-06", tz=ZONE)


def curve(values: list[float], hours: list[float] | None = None, measure: str = "") -> Line:
    """Readings at these hours after midnight of 6 January (hourly unless told)."""
    at = range(len(values)) if hours is None else hours
    index = ZERO + pd.to_timedelta(list(at), unit="h")
    return line(pd.Series(values, index=index, dtype=float), measure)


def told(spells: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Spells in hours after that midnight."""
    return [(round((a - ZERO.timestamp()) / H, 6), round((b - ZERO.timestamp()) / H, 6)) for a, b in spells]


GAP = curve([0.0, 4.0, 4.0, 0.0, 0.0], [0, 1, 2, 20, 21])  # hourly, nothing from 2 to 20 h


class TestLine:
    def test_nothing_is_joined_over_a_gap(self) -> None:
        """Hourly readings join over three hours at most: 0–2 and 20–21 h are recorded."""
        assert GAP.joined.tolist() == [True, True, False, True]
        assert GAP.hours.tolist() == [1.0, 1.0, 0.0, 1.0] and GAP.hours_recorded == 3.0

    def test_the_curve_at_any_instant(self) -> None:
        """Halfway up, on the readings beside the gap, in it and outside the record."""
        hours = np.array([-0.5, 0.0, 0.5, 2.0, 5.0, 20.0, 20.5, 21.0, 21.1])
        nan = np.nan
        wanted = [nan, 0.0, 2.0, 4.0, nan, 0.0, 0.0, 0.0, nan]
        assert GAP.at(ZERO.timestamp() + hours * H) == pytest.approx(wanted, nan_ok=True)
        assert np.isnan(curve([]).at(np.array([0.0, 1.0]))).all()
        lone = curve([3.0])
        assert lone.at(ZERO.timestamp() + np.array([-1.0, 0.0, 1.0])) == pytest.approx([nan, 3.0, nan], nan_ok=True)

    def test_a_gap_right_at_the_beginning(self) -> None:
        """One reading at midnight, the next at 20 h: nothing between, though the last hour is joined; and the other way
        round."""
        first, last = curve([1.0, 2.0, 3.0], [0, 20, 21]), curve([1.0, 2.0, 3.0], [0, 1, 21])
        at = ZERO.timestamp() + H * np.array([0.0, 10.0, 20.5, 21.0])
        assert first.at(at) == pytest.approx([1.0, np.nan, 2.5, 3.0], nan_ok=True)
        assert last.at(ZERO.timestamp() + H * np.array([0.5, 10.0, 21.0])) == pytest.approx(
            [1.5, np.nan, 3.0], nan_ok=True
        )
        two = curve([1.0, 2.0])
        assert two.at(ZERO.timestamp() + H * np.array([0.5, 1.0, 1.5])) == pytest.approx(
            [1.5, 2.0, np.nan], nan_ok=True
        )

    def test_a_part_has_readings_at_its_ends_where_it_is_joined_there(self) -> None:
        """0.5 to 1.5 h: 2, 4, 4. From within the gap: the reading at 20 h is the first."""
        part = clip(GAP, ZERO + pd.Timedelta("30min"), ZERO + pd.Timedelta("90min"))
        assert part.values.tolist() == [2.0, 4.0, 4.0] and part.hours_recorded == 1.0
        late = clip(GAP, ZERO + pd.Timedelta("5h"), ZERO + pd.Timedelta("20h30min"))
        assert late.values.tolist() == [0.0, 0.0] and late.hours_recorded == pytest.approx(0.5)
        over = clip(GAP, ZERO + pd.Timedelta("90min"), ZERO + pd.Timedelta("20h30min"))
        assert over.joined.tolist() == [True, False, True] and over.hours_recorded == pytest.approx(1.0)
        whole = clip(GAP, ZERO, ZERO + pd.Timedelta("1h"))
        assert whole.values.tolist() == [0.0, 4.0] and str(whole.times.tz) == ZONE
        for start, end in (("5h", "6h"), ("-3h", "-1h"), ("22h", "23h")):
            none = clip(GAP, ZERO + pd.Timedelta(start), ZERO + pd.Timedelta(end))
            assert len(none.values) == len(none.seconds) == len(none.joined) == 0 and none.hours_recorded == 0.0

    def test_a_part_between_two_readings_is_a_line_of_its_own(self) -> None:
        """0 → 4 in the first hour: from 15 to 45 minutes 1 → 3, joined, half an hour; one end on a reading."""
        part = clip(GAP, ZERO + pd.Timedelta("15min"), ZERO + pd.Timedelta("45min"))
        assert part.values.tolist() == [1.0, 3.0] and part.joined.tolist() == [True]
        assert part.hours_recorded == pytest.approx(0.5)
        to_one = clip(GAP, ZERO + pd.Timedelta("45min"), ZERO + pd.Timedelta("60min"))
        assert to_one.values.tolist() == [3.0, 4.0] and to_one.joined.tolist() == [True]

    def test_the_lowest_of_two_with_their_crossing(self) -> None:
        """0 → 4 and 4 → 0 cross at 2, half an hour in: the mean of the lower is 1."""
        low = lowest([curve([0.0, 4.0]), curve([4.0, 0.0])])
        assert low.values.tolist() == pytest.approx([0.0, 2.0, 0.0])
        assert hours_below(low, 2.0) == pytest.approx(1.0) and degree_hours_below(low, 2.0) == pytest.approx(1.0)

    def test_two_that_lie_on_each_other_for_a_while(self) -> None:
        """Alike at 1 and 2 h and apart before and after: no crossing, and the lower of the two all along."""
        low = lowest([curve([0.0, 2.0, 2.0, 5.0]), curve([1.0, 2.0, 2.0, 3.0])])
        assert low.values.tolist() == pytest.approx([0.0, 2.0, 2.0, 3.0]) and low.hours_recorded == 3.0
        assert not np.isnan(low.seconds).any()

    def test_where_one_records_alone_it_is_that_one(self) -> None:
        """5 °C all day beside 1 °C of 0–2 and 20–21 h: three hours at 1, the others at 5."""
        day = curve([5.0] * 22)
        low = lowest([day, curve([1.0, 1.0, 1.0, 1.0, 1.0], [0, 1, 2, 20, 21])])
        assert hours_below(low, 2.0) == pytest.approx(3.0, abs=1e-5)
        assert hours_above(low, 4.9) == pytest.approx(18.0, abs=1e-5) and low.hours_recorded == pytest.approx(21.0)
        assert lowest([curve([]), day]).values.tolist() == day.values.tolist()
        assert len(lowest([curve([])]).values) == 0

    def test_a_curve_that_begins_late_or_ends_early_pulls_nothing_down_beyond_itself(self) -> None:
        """1 °C from 10 to 11 h beside 5 °C all day: one hour under 2 °C and 22 over 4.9, in whichever order; the same
        where it is read at other minutes."""
        day = curve([5.0] * 24)
        for hours in ([10, 11], [10.25, 11.25]):
            short = curve([1.0, 1.0], hours)
            for both in ([day, short], [short, day]):
                low = lowest(both)
                assert hours_below(low, 2.0) == pytest.approx(1.0, abs=1e-5)
                assert hours_above(low, 4.9) == pytest.approx(22.0, abs=1e-5)
                assert low.hours_recorded == pytest.approx(23.0)

    def test_the_lowest_of_two_read_at_other_minutes(self) -> None:
        """0 → 6 °C over three hours beside 4 °C read at the half hours from −0.5 to 3.5 h: they cross at 4 °C, two
        hours in. Under 3 °C for an hour and a half, 4 °C from the crossing to 3.5 h; the mean over 0 to 3 h is (2 · 2 +
        4 · 1) / 3."""
        rising = curve([0.0, 2.0, 4.0, 6.0])
        steady = curve([4.0] * 5, [-0.5, 0.5, 1.5, 2.5, 3.5])
        steep = curve([1.0, 7.0], [0.0, 1.2])  # 1 → 7 in 1.2 h: at 4 °C after 0.6 h
        for both in ([rising, steady], [steady, rising]):
            low = lowest(both)
            assert low.at(ZERO.timestamp() + H * np.array([0.25, 1.0, 2.0, 2.25, 3.25])) == pytest.approx(
                [0.5, 2.0, 4.0, 4.0, 4.0]
            )
            assert hours_below(low, 3.0) == pytest.approx(1.5) and degree_hours_below(low, 4.0) == pytest.approx(4.0)
        for both in ([steep, steady], [steady, steep]):
            low = lowest(both)
            assert hours_below(low, 3.99) == pytest.approx(2.99 / 5, abs=1e-5)
            assert degree_hours_below(low, 4.0) == pytest.approx(3.0 * 0.6 / 2, abs=1e-5)

    def test_lines_moved_each_by_its_own_shift(self) -> None:
        """6 and 7, moved by 1 and −1: 6; moved alike by −1: 5, from the lowest at hand if there is one."""
        lines = [curve([6.0, 6.0]), curve([7.0, 7.0])]
        assert lowest_shifted(lines, (1.0, -1.0)).values.tolist() == [6.0, 6.0]
        assert lowest_shifted(lines, (-1.0, -1.0)).values.tolist() == [5.0, 5.0]
        assert lowest_shifted(lines, (-1.0, -1.0), curve([3.0, 3.0])).values.tolist() == [2.0, 2.0]
        assert lowest_shifted(lines, (-1.0, 1.0), curve([3.0, 3.0])).values.tolist() == [5.0, 5.0]


class TestTimes:
    def test_hours_and_degree_hours_of_one_slope(self) -> None:
        """0 → 4 in an hour: under 1 for a quarter of it, 1 · ¼ / 2 K h deep; over 3 as long; under 5 all of it, with
        5 − 2 = 3 K h."""
        slope = curve([0.0, 4.0])
        assert (hours_below(slope, 1.0), hours_above(slope, 3.0)) == pytest.approx((0.25, 0.25))
        assert degree_hours_below(slope, 1.0) == pytest.approx(0.125)
        assert (hours_below(slope, 5.0), degree_hours_below(slope, 5.0)) == (1.0, pytest.approx(3.0))
        assert (hours_below(slope, -1.0), degree_hours_below(slope, -1.0), hours_above(slope, 4.0)) == (0.0, 0.0, 0.0)

    def test_on_the_line_is_neither_below_nor_above(self) -> None:
        """An hour at 2."""
        flat = curve([2.0, 2.0])
        assert (hours_below(flat, 2.0), hours_above(flat, 2.0)) == (0.0, 0.0)
        assert (hours_below(flat, 2.1), hours_above(flat, 1.9)) == (1.0, 1.0)
        assert spells_above(flat, 2.0) == [] and spells_below(flat, 2.0) == []

    def test_nothing_counts_in_a_gap(self) -> None:
        """4 at 2 h and 0 at 20 h: over 3 it is ¼ h and 1 h; under 1 ¼ h and the last hour."""
        assert (hours_above(GAP, 3.0), hours_below(GAP, 1.0)) == pytest.approx((1.25, 1.25))

    def test_the_band_is_the_count_of_shifted_readings(self) -> None:
        """0 → 4 ± 1 K: under 1 for 0, ¼ and ½ of the hour."""
        found = band(curve([0.0, 4.0]), 1.0, lambda one: hours_below(one, 1.0))
        assert (found.low, found.estimate, found.high) == pytest.approx((0.0, 0.25, 0.5))
        alone = band(curve([0.0, 4.0]), None, lambda one: hours_below(one, 1.0))
        assert alone.estimate == pytest.approx(0.25) and np.isnan(alone.low) and np.isnan(alone.high)

    def test_stretches_above_and_below_a_line(self) -> None:
        """0, 4, 0, 0, 4, 4: over 2 from 0.5 to 1.5 and from 3.5 on; under 2 the rest. A touch from below is none; a
        reading on the line in between is where one stretch ends."""
        one = curve([0.0, 4.0, 0.0, 0.0, 4.0, 4.0])
        assert told(spells_above(one, 2.0)) == [(0.5, 1.5), (3.5, 5.0)]
        assert told(spells_below(one, 2.0)) == [(0.0, 0.5), (1.5, 3.5)]
        assert spells_above(one, 4.0) == []
        assert told(spells_above(curve([3.0, 2.0, 3.0]), 2.0)) == [(0.0, 1.0), (1.0, 2.0)]
        assert told(spells_above(GAP, 1.0)) == [(0.25, 2.0)]
        assert told(spells_above(curve([4.0, 4.0, 4.0, 4.0], [0, 1, 20, 21]), 2.0)) == [(0.0, 1.0), (20.0, 21.0)]
        assert spells_above(curve([]), 0.0) == []


class TestDays:
    def test_windows_in_standard_time(self) -> None:
        """Prague keeps UTC + 1: the garden day of 5 January runs from 11 h to 11 h UTC; 24, 15, 10, 1, 12 hours."""
        of = season("2026-01-05", "2026-01-07")
        assert standard_offset(of) == dt.timedelta(hours=1)
        starts, ends = bounds(of, GARDEN_DAY)
        assert pd.Timestamp(starts[0], unit="s") == pd.Timestamp("2026-01-05 11:00")
        assert pd.Timestamp(ends[2], unit="s") == pd.Timestamp("2026-01-08 11:00")
        spans = (GARDEN_DAY, LONG_NIGHT, SUNNY, EVENING_SOIL, NEXT_MORNING, DATE)
        assert [w.hours for w in spans] == [24, 15, 10, 1, 12, 24]
        assert [w.start_h for w in spans] == [12, 18, 9, 19, 24, 0]
        assert dates(of) == [dt.date(2026, 1, 5), dt.date(2026, 1, 6), dt.date(2026, 1, 7)]

    def test_standard_time_is_kept_in_summer(self) -> None:
        """June in Prague, UTC + 2 by the clock, is told in UTC + 1 all the same; a southern zone in its summer too."""
        summer = season("2026-06-01", "2026-06-10")
        assert standard_offset(summer) == dt.timedelta(hours=1)
        south = season("2026-01-05", "2026-01-10").model_copy(update={"time_zone": "Australia/Sydney"})
        assert standard_offset(south) == dt.timedelta(hours=10)

    def test_what_a_curve_did_between_two_instants(self) -> None:
        """0 → 4 → 4 over two hours: from 0.5 to 1.5 h a mean of (3 · ½ + 4 · ½) = 3.5, least 2, most 4, all recorded;
        from 1.5 to 4 h half an hour of two and a half; in the gap and outside it nothing."""
        zero = ZERO.timestamp()
        starts, ends = zero + H * np.array([0.5, 1.5, 5.0, -3.0, 0.0]), zero + H * np.array([1.5, 4.0, 6.0, -1.0, 21.0])
        table = stats_between(GAP, starts, ends)
        nan = np.nan
        assert table["mean"].tolist() == pytest.approx([3.5, 4.0, nan, nan, 2.0], nan_ok=True)
        assert table["min"].tolist() == pytest.approx([2.0, 4.0, nan, nan, 0.0], nan_ok=True)
        assert table["max"].tolist() == pytest.approx([4.0, 4.0, nan, nan, 4.0], nan_ok=True)
        assert table["hours"].tolist() == pytest.approx([1.0, 0.5, 0.0, 0.0, 3.0])
        assert table["share"].tolist() == pytest.approx([1.0, 0.2, 0.0, 0.0, 3 / 21])

    def test_a_record_of_one_reading_or_none_tells_nothing(self) -> None:
        """No hours, no mean."""
        zero = np.array([ZERO.timestamp()])
        for one in (curve([]), curve([3.0])):
            table = stats_between(one, zero, zero + H)
            assert (
                np.isnan(table["mean"]).all() and table["hours"].tolist() == [0.0] and table["share"].tolist() == [0.0]
            )
        assert len(stats_between(GAP, zero[:0], zero[:0])) == 0

    def test_a_window_counts_with_four_fifths_on_record(self) -> None:
        """5 hours of readings: a window of 6 h has 83 %, one of 7 h has 71 %."""
        steady = curve([3.0] * 6)
        of = season("2026-01-06", "2026-01-06")
        for hours, counts in ((6, True), (7, False)):
            table = window_stats(steady, of, Window(start_h=0, end_h=hours))
            assert bool(enough(table).notna().all()) is counts
            assert table["share"].tolist() == pytest.approx([5 / hours])

    def test_means_and_the_least_of_what_is_known(self) -> None:
        """Of 3, –, 1, 2 the mean is 2 and the least 1, on the third day; of nothing neither."""
        days = [dt.date(2026, 1, n) for n in (5, 6, 7, 8)]
        values = pd.Series([3.0, np.nan, 1.0, 2.0], index=days)
        assert mean_known(values) == 2.0 and least(values) == (days[2], 1.0)
        assert mean_known(values * np.nan) is None and least(values * np.nan) is None
