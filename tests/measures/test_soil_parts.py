"""The bed's heat, its wave and its duct, part by part, by hand on small curves."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, readings, season

from reportgen.measures.exposure import Line, line
from reportgen.measures.soil import _below_by_day
from reportgen.measures.soil_store import (
    DuctLines,
    _held,
    curve_of,
    duct,
    night_drop_k,
    season_change_k,
    stored_kwh,
    week_change_k,
)
from reportgen.measures.soil_wave import harmonic, waves

ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
DAY_S, H = 86_400.0, 3600.0
NAN = float("nan")


def hourly(values: Any, start: pd.Timestamp = ZERO) -> pd.Series:
    """Readings by the hour."""
    return pd.Series(np.asarray(values, float), index=pd.date_range(start, periods=len(values), freq="1h"))


def fan(values: list[float], minutes: list[float]) -> Any:
    """A fan's log at these minutes after midnight of 5 January."""
    index = ZERO + pd.to_timedelta(minutes, unit="min")
    return channel(pd.Series(values, index=index, dtype=float), "fan_on")


class TestStored:
    def test_heat_of_a_bed(self) -> None:
        """3.6 m³ of 2.5 MJ/m³K by 2 K: 18 MJ, 5 kWh."""
        assert stored_kwh(2.0, 3.6, 2.5) == pytest.approx(5.0)

    def test_the_fall_of_a_night(self) -> None:
        """A straight fall of 0.1 K an hour: from 18 to 8 h, fourteen hours, 1.4 K; the last night ends after the
        record."""
        curve = line(hourly(20.0 - 0.1 * np.arange(24 * 3)))
        found = night_drop_k(curve, season("2026-01-05", "2026-01-07"))
        assert found.iloc[:2].tolist() == pytest.approx([1.4, 1.4]) and np.isnan(found.iloc[2])
        step = np.where(np.arange(72) < 19, 10.0, 8.0)  # fell between 18 and 19 h of the first evening
        assert night_drop_k(line(hourly(step)), season("2026-01-05", "2026-01-07")).iloc[0] == pytest.approx(2.0)
        late = np.where(np.arange(72) < 33, 10.0, 8.0)  # fell between 8 and 9 h of the next morning
        assert night_drop_k(line(hourly(late)), season("2026-01-05", "2026-01-07")).iloc[0] == pytest.approx(0.0)

    def test_whole_weeks_from_monday_to_monday(self) -> None:
        """A season from Wednesday the 7th to Sunday the 25th has two whole weeks, the first from the 12th. 0.01 K an
        hour are 1.68 K a week, whose mean is that of its middle."""
        of = season("2026-01-07", "2026-01-25")
        curve = line(hourly(0.01 * np.arange(24 * 21 + 1)))
        found = week_change_k(curve, of)
        assert [day.day for day in found.index] == [12, 19]
        assert found["change_k"].tolist() == pytest.approx([1.68, 1.68])
        assert found["mean_c"].tolist() == pytest.approx([0.01 * (168 + 84), 0.01 * (336 + 84)])
        assert not len(week_change_k(curve, season("2026-01-06", "2026-01-11")))
        assert [d.day for d in week_change_k(curve, season("2026-01-05", "2026-01-11")).index] == [5]
        for last, mondays in (("17", [5]), ("18", [5, 12]), ("24", [5, 12])):  # 13, 14 and 20 days from a Monday on
            assert [d.day for d in week_change_k(curve, season("2026-01-05", f"2026-01-{last}")).index] == mondays

    def test_the_records_end_stands_for_an_hour(self) -> None:
        """A record that begins an hour after Monday 0 h and ends an hour before the next: its ends stand for them; two
        hours away they do not. Under four fifths of a week there is no mean."""
        of = season("2026-01-05", "2026-01-11")
        for away, known in ((1, True), (2, False)):
            values = hourly(np.arange(169 - 2 * away), ZERO + pd.Timedelta(hours=away))
            found = week_change_k(line(values), of)
            assert bool(found["change_k"].notna().all()) is known
            if known:
                assert found["change_k"].iloc[0] == pytest.approx(166.0)
        short = week_change_k(line(hourly(np.zeros(134))), of)
        assert np.isnan(short["mean_c"]).all()
        assert week_change_k(line(hourly(np.zeros(136))), of)["mean_c"].tolist() == [0.0]

    def test_first_and_last_week_of_the_season(self) -> None:
        """1 °C in the first of three weeks, 4 in the last: 3 K; with half a week lost it cannot be told."""
        of = season("2026-01-05", "2026-01-25")
        values = np.repeat([1.0, 2.0, 4.0], 168)
        assert season_change_k(line(hourly(values)), of) == pytest.approx(3.0, abs=0.02)
        assert np.isnan(season_change_k(line(hourly(values[: 168 * 2 + 80])), of))

    def test_hours_below_the_aim_by_the_day(self) -> None:
        """Aim 7 °C. The first day falls evenly from 10 to 4 °C: half of it; of the second there is one reading, far
        from the others: nothing is told; the third lies at 6 °C."""
        first = np.linspace(10.0, 4.0, 25)
        lone = pd.Series([5.0], index=[ZERO + pd.Timedelta("36h")])
        third = pd.Series(6.0, index=pd.date_range(ZERO + pd.Timedelta("48h"), periods=25, freq="1h"))
        curve = line(pd.concat([hourly(first), lone, third]))
        found = _below_by_day(readings(season("2026-01-05", "2026-01-07")), curve, 7.0)
        assert found == pytest.approx([12.0, NAN, 24.0], nan_ok=True)


class TestWave:
    def test_a_wave_with_a_trend_and_gaps(self) -> None:
        """2 K with its maximum at 15 h on a trend of 0.3 K a day: amplitude 2, phase 15 / 24 of a turn; half of the
        readings lost tell the same; five tell nothing."""
        t = np.arange(72) * H
        values = 9.0 + 0.3 * t / DAY_S + 2.0 * np.cos(2 * np.pi * (t / DAY_S - 15 / 24))
        found = harmonic(t, values)
        assert abs(found) == pytest.approx(2.0)
        assert -np.angle(found) / (2 * np.pi) * 24 % 24 == pytest.approx(15.0)
        lost = np.where(np.arange(72) % 2, values, NAN)
        assert harmonic(t, lost) == pytest.approx(found)
        assert np.isnan(harmonic(t[:5], values[:5])) and not np.isnan(harmonic(t[:6] * 4, values[:24:4]))

    def curves(self, days: int = 6, air_k: float = 3.0) -> tuple[Line, Line]:
        """Bed 1 K at 18 h, air `air_k` at 14 h, in standard time."""
        t = np.arange(24 * 6 * days + 1) / 6
        at = pd.date_range(ZERO, periods=len(t), freq="10min")
        bed = 9.0 + np.cos(2 * np.pi * (t - 18) / 24)
        air = 5.0 + air_k * np.cos(2 * np.pi * (t - 14) / 24)
        return line(pd.Series(bed, index=at)), line(pd.Series(air, index=at))

    def test_days_with_three_days_around_them(self) -> None:
        """Six days: the first and the last have 48 of 72 hours, two thirds: four with a wave, 1 K against 3 K, four
        hours behind. An hour's mean flattens a wave by (24/2π) · sin(π/24) · 2 = 0.9971."""
        bed, air = self.curves()
        found = waves(bed, air, season("2026-01-05", "2026-01-10"))
        flat = np.sin(np.pi / 24) / (np.pi / 24)
        assert found.days == 4 and found.amplitude_k == pytest.approx(flat, rel=1e-3)
        assert (found.ratio, found.lag_h) == (pytest.approx(1 / 3, rel=1e-3), pytest.approx(4.0, abs=1e-2))
        assert found.table["soil_k"].notna().tolist() == [False, True, True, True, True, False]
        assert found.table["air_k"].iloc[2] == pytest.approx(3.0 * flat, rel=1e-3)
        assert found.table["lag_h"].iloc[1:5].tolist() == pytest.approx([4.0] * 4, abs=1e-2)

    def uneven(self) -> tuple[pd.Series, pd.Series]:
        """Bed and air by the hour for seven days; every day has a wave of its own size at an hour of its own."""
        t, day = np.arange(24 * 7 + 1), np.arange(24 * 7 + 1) // 24
        bed = 9.0 + 0.02 * t + (1.0 + 0.3 * day) * np.cos(2 * np.pi * (t - 17 - 0.5 * day) / 24)
        air = 5.0 + (3.0 + 0.7 * day % 3) * np.cos(2 * np.pi * (t - 13 + 0.2 * day) / 24)
        return hourly(bed), hourly(air)

    def fitted(self, values: pd.Series, day: int) -> complex:
        """A day's wave as the methods page has it, by numpy's least squares on the means of the 72 hours around it."""
        hours = np.arange(24 * (day - 1), 24 * (day + 2))
        hours = hours[(hours >= 0) & (hours < len(values) - 1)]
        means = (values.to_numpy()[hours] + values.to_numpy()[hours + 1]) / 2  # of a joined line
        turn = 2 * np.pi * (hours + 0.5) / 24
        x = np.column_stack([np.cos(turn), np.sin(turn), hours, np.ones(len(hours))])
        a, b, *_ = np.linalg.lstsq(x[~np.isnan(means)], means[~np.isnan(means)], rcond=None)[0]
        return complex(a, b)

    def test_each_day_has_the_wave_of_the_three_days_around_it(self) -> None:
        """Days 2 to 6 of seven, against a fit of our own hours: amplitude, the air's, and how far behind."""
        bed, air = self.uneven()
        found = waves(line(bed), line(air), season("2026-01-05", "2026-01-11"))
        for n in range(1, 6):
            of_bed, of_air = self.fitted(bed, n), self.fitted(air, n)
            assert found.table["soil_k"].iloc[n] == pytest.approx(abs(of_bed), abs=1e-9)
            assert found.table["air_k"].iloc[n] == pytest.approx(abs(of_air), abs=1e-9)
            behind = (np.angle(of_bed) - np.angle(of_air)) / (2 * np.pi) * 24 % 24
            assert found.table["lag_h"].iloc[n] == pytest.approx(behind, abs=1e-9)
        assert found.table["soil_k"].isna().tolist() == [True, *[False] * 5, True] and found.days == 5
        assert found.amplitude_k == pytest.approx(np.mean([abs(self.fitted(bed, n)) for n in range(1, 6)]))

    def test_one_wave_fits_all_days(self) -> None:
        """The number k for which Σ |bed − k · air|² is least, by numpy's least squares on complex figures."""
        bed, air = self.uneven()
        found = waves(line(bed), line(air), season("2026-01-05", "2026-01-11"))
        beds, airs = (np.array([self.fitted(one, n) for n in range(1, 6)]) for one in (bed, air))
        (k,), *_ = np.linalg.lstsq(airs[:, None], beds, rcond=None)
        assert found.ratio == pytest.approx(abs(k))
        assert found.lag_h == pytest.approx(np.angle(k) / (2 * np.pi) * 24 % 24)

    def test_a_record_that_goes_beyond_the_season_tells_its_first_and_last_day(self) -> None:
        """The middle five of the seven days as a season: all have their three days."""
        bed, air = self.uneven()
        found = waves(line(bed), line(air), season("2026-01-06", "2026-01-10"))
        wanted = [abs(self.fitted(bed, n)) for n in range(1, 6)]
        assert found.table["soil_k"].tolist() == pytest.approx(wanted, abs=1e-9)

    def test_a_day_without_the_bed_takes_no_part_in_the_one_wave(self) -> None:
        """The bed's last three days lost: ratio and lag are of the days before, the air's are there all along."""
        bed, air = self.uneven()
        found = waves(line(bed[: 24 * 4 + 1]), line(air), season("2026-01-05", "2026-01-11"))
        beds, airs = (np.array([self.fitted(one, n) for n in range(1, 3)]) for one in (bed, air))
        (k,), *_ = np.linalg.lstsq(airs[:, None], beds, rcond=None)
        assert found.days == 2 and found.ratio == pytest.approx(abs(k))
        assert found.lag_h == pytest.approx(np.angle(k) / (2 * np.pi) * 24 % 24)
        assert found.table["air_k"].notna().sum() == 5 and found.table["lag_h"].notna().sum() == 2

    def test_four_fifths_of_the_three_days_must_be_known(self) -> None:
        """A gap takes the hours it touches: of 72, 58 are enough (80.6 %), 57 are not (79.2 %)."""
        bed, _ = self.uneven()
        for known, told in ((58, True), (57, False)):
            lost = bed.copy()
            lost.iloc[24 * 2 : 24 * 2 + 71 - known] = NAN  # so many stamps and one hour more
            found = waves(line(lost.dropna()), None, season("2026-01-05", "2026-01-11"))
            assert bool(np.isfinite(found.table["soil_k"].iloc[2])) is told
            gap = lost.copy()
            if told:
                assert found.table["soil_k"].iloc[2] == pytest.approx(abs(self.fitted(gap, 2)), abs=1e-9)

    def test_a_flat_air_carries_no_phase(self) -> None:
        """0.9 K is under 1 K, 1.05 is not: no ratio and no lag, the bed's amplitude stands; so without air at all;
        without a bed nothing."""
        bed, air = self.curves(air_k=0.9)
        of = season("2026-01-05", "2026-01-10")
        for one in (air, None):
            found = waves(bed, one, of)
            assert (found.ratio, found.lag_h, found.days) == (None, None, 4)
            assert found.table["lag_h"].isna().all() and found.amplitude_k is not None
        enough = waves(bed, self.curves(air_k=1.05)[1], of)  # an hour's mean leaves 1.047 K of it
        assert enough.lag_h == pytest.approx(4.0, abs=1e-2)
        lone = line(pd.Series([9.0], index=[ZERO]))
        assert (waves(lone, air, of).amplitude_k, waves(lone, air, of).days) == (None, 0)


class TestDuct:
    def test_a_switch_is_held_for_a_day_and_a_steady_log_as_long_as_it_is_joined(self) -> None:
        """Written when it turns: on at 0, off at 2 h, on at 40 h: known from 2 to 26 h. Every ten minutes: over 15
        minutes at the most."""
        grid = ZERO.timestamp() + H * np.array([-1.0, 1.0, 3.0, 25.9, 26.1, 41.0])
        told = _held(fan([1, 0, 1], [0, 120, 2400]), grid)
        assert told == pytest.approx([NAN, 1.0, 0.0, 0.0, NAN, 1.0], nan_ok=True)
        steady = fan([1, 1, 1, 0], [0, 10, 20, 30])
        minutes = np.array([0.0, 5.0, 25.0, 35.0, 59.0, 61.0])
        told = _held(steady, ZERO.timestamp() + 60 * minutes)
        assert told == pytest.approx([1.0, 1.0, 1.0, 0.0, 0.0, NAN], nan_ok=True)
        assert np.isnan(_held(fan([1], [0]), grid)).all()

    def test_a_log_that_turns_at_half_of_its_readings_is_one_of_a_steady_step(self) -> None:
        """Two of four neighbours differ: not more than half, so nothing is held over the 33 hours to the last reading;
        of three it is."""
        grid = ZERO.timestamp() + H * np.array([1 / 12, 3.0])
        minutes = [0, 10, 20, 30, 2000]
        assert _held(fan([1, 0, 1, 1, 1], minutes), grid) == pytest.approx([1.0, NAN], nan_ok=True)
        assert _held(fan([1, 0, 1, 0, 0], minutes), grid) == pytest.approx([1.0, 0.0])

    def test_hours_and_heat_on_a_grid_of_ten_minutes(self) -> None:
        """One day. Air 5 K over the bed from 0 to 6 h (not more than 5), 6 K from 6 to 12 h, 1 K under it to 17 h and
        half a kelvin over it after. The fan runs from 3 to 9 and from 15 to 18 h: used 3 h (6–9), missed 3 h (9–12),
        drained 2 h (15–17). Duct: 4 K cooler out, after noon 2 K warmer: 0.05 m³/s · 1.2 kg/m³ · 1006 J/kgK · 4 K · 6 h
        = 1.4486 kWh in, · 2 K · 3 h = 0.3622 out; in the mean of its nine hours 2 K."""
        at = pd.date_range(ZERO, periods=24 * 60 + 1, freq="1min")
        n = np.arange(len(at)) / 60
        gain = np.where(n < 6, 5.0, np.where(n < 12, 6.0, np.where(n < 17, -1.0, 0.5)))
        air, bed = line(pd.Series(10.0 + gain, index=at)), line(pd.Series(10.0, index=at))
        on = channel(pd.Series(((n >= 3) & (n < 9)) | ((n >= 15) & (n < 18)), index=at).astype(float), "fan_on")
        out = line(pd.Series(np.where(n < 12, 16.0, 22.0), index=at))
        lines = DuctLines(
            inlet=line(pd.Series(20.0, index=at)), outlet=out, flow=line(pd.Series(0.05, index=at), "duct_airflow")
        )
        of = season("2026-01-05", "2026-01-06")
        found = duct(on, air, bed, of, lines)
        assert (found.used_h, found.missed_h, found.drained_h) == pytest.approx((3.0, 3.0, 2.0), abs=1e-9)
        assert found.recorded_h == pytest.approx(24.0) and found.heat_h == pytest.approx(9.0)
        assert found.drop_k == pytest.approx(2.0)
        assert found.stored_kwh == pytest.approx(0.05 * 1.2 * 1006 * 4 * 6 / 1000, rel=0.01)
        assert found.drawn_kwh == pytest.approx(0.05 * 1.2 * 1006 * 2 * 3 / 1000, rel=0.01)
        assert found.by_day["used_h"].tolist() == pytest.approx([3.0, 0.0])
        assert list(found.by_day.index) == [dt.date(2026, 1, 5), dt.date(2026, 1, 6)]
        bare = duct(on, air, bed, of, DuctLines())
        assert (bare.drop_k, bare.stored_kwh, bare.drawn_kwh, bare.heat_h) == (None, None, None, 0.0)

    def test_air_as_warm_as_the_bed_drains_nothing(self) -> None:
        """A day of the fan with both at 10 °C: neither used, missed nor drained; and a fan that stands is not."""
        at = pd.date_range(ZERO, periods=24 * 6 + 1, freq="10min")
        still = line(pd.Series(10.0, index=at))
        colder = line(pd.Series(9.9, index=at))
        of = season("2026-01-05", "2026-01-05")
        for on, air, drained in ((1.0, still, 0.0), (1.0, colder, 24.0), (0.0, colder, 0.0)):
            found = duct(channel(pd.Series(on, index=at), "fan_on"), air, still, of, DuctLines())
            assert (found.used_h, found.missed_h, found.drained_h) == pytest.approx((0.0, 0.0, drained))

    def test_a_curve_has_two_readings(self) -> None:
        """One is none."""
        assert curve_of(None) is None and curve_of(fan([1], [0])) is None and curve_of(fan([1, 1], [0, 10])) is not None
