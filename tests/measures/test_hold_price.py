"""The hold that was found, the base of the degree-hours and the price of another hold; by hand on small cases."""

from __future__ import annotations

import datetime as dt
import itertools
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from heated_house import house, supply
from made_season import ZONE, channel, heater, logger, readings, season

from reportgen.measures.heat_types import Stretch
from reportgen.measures.heating_hours import heat_by_day, heat_by_hour, heat_curves
from reportgen.measures.hold import hold_found, hold_pieces, kept, stretches, with_heat
from reportgen.measures.hold_base import Periods, Weather, periods, weather
from reportgen.measures.hold_fit import Base, base
from reportgen.measures.hold_price import (
    Changes,
    Paid,
    Span,
    basis,
    by_degree_hours,
    degree_rows,
    expected_prices,
    hold_rows,
    moves_by,
    moves_to,
    round_holds,
)
from reportgen.problems import NotEnoughData
from reportgen.readings.types import DiaryEntry

H, DAY_S = 3600.0, 86_400.0
NAN = float("nan")
JAN = [dt.date(2026, 1, n) for n in range(1, 32)]


def air(outdoor: list[float], hold: list[float], stretch: list[int] | None = None) -> Weather:
    """Weather by the hour from 0 s on."""
    n = len(outdoor)
    number = np.array(stretch if stretch is not None else [0] * n)
    return Weather(
        seconds=np.arange(n) * H, outdoor_c=np.array(outdoor, float), hold_c=np.array(hold, float), stretch=number
    )


def held(first: int, last: int, hold: float | None, kwh: float = 0.0, cost: float = 0.0) -> Stretch:
    """A stretch of January."""
    return Stretch(first=JAN[first - 1], last=JAN[last - 1], hold_c=hold, hours=99, how="", kwh=kwh, cost=cost)


class TestWeather:
    def test_degree_hours_of_the_known_hours_count_for_all(self) -> None:
        """Held 8, base 3 K lower: 5 − 0, 5 − 4, none at 9 °C: 6 K h in three known hours of four, 8 in all."""
        one = air([0.0, 4.0, 9.0, NAN], [8.0] * 4)
        assert one.degree_hours(-3.0) == pytest.approx(8.0)
        assert one.degree_hours(-3.0, np.array([True, False, True, False])) == pytest.approx(5.0)
        assert np.isnan(one.degree_hours(-3.0, np.array([False, False, False, True])))

    def test_every_hour_has_the_hold_of_its_stretch(self) -> None:
        """Three days: 8 °C in the first, none found in the second, nothing in the third."""
        made = house(days=7)
        by_hour = heat_by_hour(made)
        days = made.season.first_day
        found = tuple(
            Stretch(first=days + dt.timedelta(n), last=days + dt.timedelta(n), hold_c=c, hours=1, how="")
            for n, c in ((0, 8.0), (1, None))
        )
        told = weather(made, by_hour, found)
        assert told.stretch.tolist() == [0] * 24 + [1] * 24 + [-1] * 120
        assert told.hold_c[:24].tolist() == [8.0] * 24 and np.isnan(told.hold_c[24:]).all()
        assert told.outdoor_c[0] == pytest.approx(made.channels[1].values.iloc[0], abs=0.01)
        assert told.seconds[1] - told.seconds[0] == H
        with pytest.raises(NotEnoughData, match="no outdoor logger"):
            weather(replace(made, channels=made.channels[:1]), by_hour, found)
        at = pd.DatetimeIndex([by_hour.index[0], by_hour.index[1]])
        for count, known in ((2, True), (1, False)):  # two readings are a line, one is none
            rare = replace(made.channels[1], values=pd.Series([3.0, 5.0], index=at)[:count])
            one = replace(made, channels=(made.channels[0], rare))
            if known:
                assert weather(one, by_hour, found).outdoor_c[0] == pytest.approx(4.0)
            else:
                with pytest.raises(NotEnoughData):
                    weather(one, by_hour, found)


class TestPeriods:
    def test_days_of_a_logged_heater(self) -> None:
        """A local day each, with its heat."""
        made = house(days=14)
        found = periods(made, heat_curves(made))
        assert (found.kind, len(found.kwh)) == ("days", 14)
        assert (found.ends - found.starts == DAY_S).all()
        logged = made.heating[0].intervals["heat_kwh"].to_numpy().reshape(14, 24).sum(axis=1)
        assert found.kwh == pytest.approx(logged)

    @pytest.mark.parametrize(("minutes", "days"), [(12, 14), (11, 13)])
    def test_a_day_counts_with_four_fifths_of_its_heat_known(self, minutes: int, days: int) -> None:
        """19 h 12 min of the third day are on record, just four fifths: its heat is that over 0.8; a minute less and
        the day is left out."""
        made = house(days=14)
        table = made.heating[0].intervals.copy()
        gone = slice(2 * 24 + 20, 3 * 24)
        cut = 2 * 24 + 19
        table.loc[cut, "end"] = table.loc[cut, "start"] + pd.Timedelta(minutes=minutes)
        table.loc[cut, "heat_kwh"] *= minutes / 60
        table = table.drop(table.index[gone]).reset_index(drop=True)
        one = replace(made, heating=(replace(made.heating[0], intervals=table),))
        found = periods(one, heat_curves(one))
        assert len(found.kwh) == days
        if days == 14:
            assert found.kwh[2] == pytest.approx(float(table["heat_kwh"].iloc[48 : cut + 1].sum()) / 0.8)

    def test_days_under_one_reading_are_one_period(self) -> None:
        """Weekly readings: two periods of a week."""
        made = house(every=168, days=14)
        found = periods(made, heat_curves(made))
        assert (found.kind, (found.ends - found.starts).tolist()) == ("readings", [7 * DAY_S, 7 * DAY_S])
        assert found.kwh == pytest.approx(made.heating[0].intervals["heat_kwh"])

    @pytest.mark.parametrize(("share", "kind", "count"), [(0.14, "days", 14), (0.16, "readings", 8)])
    def test_a_sum_under_15_percent_of_the_heat_of_its_time_cuts_nothing(
        self, share: float, kind: str, count: int
    ) -> None:
        """A week of a second heater, which stood in the next: with 14 % of all heat of its week it is spread, with 16 %
        it makes that week one period, beside seven days."""
        made = house(days=14)
        week = float(made.heating[0].intervals["heat_kwh"].iloc[:168].sum())
        rows = [("2026-01-05", "2026-01-12", week * share / (1 - share), 0.0), ("2026-01-12", "2026-01-19", 0.0, 0.0)]
        other = heater(rows, name="stove")
        both = replace(made, heating=(*made.heating, other))
        found = periods(both, heat_curves(both))
        assert (found.kind, len(found.kwh)) == (kind, count)

    @pytest.mark.parametrize(("end", "rest"), [("12:05", 0), ("11:55", 1)])
    def test_what_is_left_of_a_day_counts_from_half_a_day_on(self, end: str, rest: int) -> None:
        """A second heater with a sum to about noon of the 8th, nothing after: one period to there, then 11 h 55 or 12 h
        5 min of that day, then ten days."""
        made = house(days=14)
        week = float(made.heating[0].intervals["heat_kwh"].sum())
        rows = [
            ("2026-01-05 00:00", f"2026-01-08 {end}", week, 0.0),
            (f"2026-01-08 {end}", "2026-01-19 00:00", 0.0, 0.0),
        ]
        both = replace(made, heating=(*made.heating, heater(rows, name="stove")))
        found = periods(both, heat_curves(both))
        assert len(found.kwh) == 1 + rest + 10 and (found.ends - found.starts)[-10:].tolist() == [DAY_S] * 10

    def test_a_meter_read_every_day_tells_days(self) -> None:
        """Sums of 24 hours cut nothing; of 27 hours they do."""
        days = pd.date_range("2026-01-05", periods=15, freq="1D").strftime("%Y-%m-%d")
        rows = [(a, b, 10.0 + n, 3.0) for n, (a, b) in enumerate(itertools.pairwise(days))]
        made = replace(house(days=14), heating=(heater(rows),))
        found = periods(made, heat_curves(made))
        assert found.kind == "days" and found.kwh == pytest.approx([10.0 + n for n in range(14)])
        for hours, kind in ((25.5, "days"), (26.5, "readings")):
            ends = [pd.Timestamp("2026-01-05", tz=ZONE) + pd.Timedelta(hours=hours * n) for n in range(13)]
            daily = heater([(str(a)[:16], str(b)[:16], 9.0, 1.0) for a, b in itertools.pairwise(ends)])
            one = replace(made, heating=(daily,))
            assert periods(one, heat_curves(one)).kind == kind
        late = heater(
            [("2026-01-05 00:00", "2026-01-06 03:00", 9.0, 1.0), ("2026-01-06 03:00", "2026-01-19 00:00", 90.0, 9.0)]
        )
        assert periods(replace(made, heating=(late,)), heat_curves(replace(made, heating=(late,)))).kind == "readings"

    def test_stretches_of_one_reading_are_one_sum(self) -> None:
        """A week's reading written as two rows of one sum is one period of seven days; a sum of no heat cuts
        nothing."""
        rows = [("2026-01-05", "2026-01-08", 30.0, 0.0), ("2026-01-08", "2026-01-12", 40.0, 0.0)]
        two = heater(rows)
        made = replace(house(days=14), heating=(two,))
        assert len(periods(made, heat_curves(made)).kwh) == 2
        one = replace(two, intervals=two.intervals.assign(known_sum=[0, 0]))
        shared = replace(made, heating=(one,))
        found = periods(shared, heat_curves(shared))
        assert len(found.kwh) == 1 and found.kwh == pytest.approx([70.0])
        none = heater([*rows, ("2026-01-12", "2026-01-19", 0.0, 0.0)])
        idle = replace(made, heating=(none,))
        found = periods(idle, heat_curves(idle))
        assert (found.ends - found.starts).tolist() == pytest.approx([3 * DAY_S, 4 * DAY_S, *[DAY_S] * 7])


class TestBase:
    def made(self, days: int, above: float, per_kh: float, **more: Any) -> tuple[Periods, Weather]:
        """Days of heat in proportion to the degree-hours below hold + above, outdoors by a fixed wave."""
        hours = np.arange(24 * days)
        out = 2.0 + 6.0 * np.sin(hours / 37.0) + 3.0 * np.cos(hours * np.pi / 12)
        pull = np.maximum(8.0 + above - out, 0.0)
        kwh = per_kh * pull.reshape(days, 24).sum(axis=1)
        starts = np.arange(days) * DAY_S
        heat = Periods(**({"kind": "days", "starts": starts, "ends": starts + DAY_S, "kwh": kwh} | more))
        return heat, air(out.tolist(), [8.0] * len(out))

    def test_a_base_made_by_the_method_is_found(self) -> None:
        """3 K under the hold of 8 °C, a step of the scan; 0.08 kWh a K h; nothing left over."""
        heat, weather_ = self.made(30, -3.0, 0.08)
        found = base(heat, weather_)
        assert (found.above_hold_k, found.kwh_per_kh) == (pytest.approx(-3.0), pytest.approx(0.08))
        assert found.explained == pytest.approx(1.0) and found.used.all()
        assert found.fitted == pytest.approx(heat.kwh)

    def test_unknown_hours_are_scaled_and_days_without_air_left_out(self) -> None:
        """Four hours of one day lost: the other twenty count for it (even pull in that day). Five hours: left out."""
        heat, weather_ = self.made(30, -3.0, 0.08)
        out = weather_.outdoor_c.copy()
        out[:48] = 0.0
        kwh = heat.kwh.copy()
        kwh[:2] = 0.08 * 5.0 * 24
        out[:4], out[24:29] = NAN, NAN
        found = base(replace(heat, kwh=kwh), replace(weather_, outdoor_c=out))
        assert found.used.tolist() == [True, False, *[True] * 28]
        assert found.above_hold_k == pytest.approx(-3.0) and found.fitted == pytest.approx(kwh[found.used])

    @pytest.mark.parametrize(
        ("kind", "days", "words"), [("days", 13, "only 13 days"), ("readings", 4, "only 4 stretches")]
    )
    def test_fourteen_days_or_five_readings_are_needed(self, kind: str, days: int, words: str) -> None:
        """One fewer is refused in words, one more told."""
        heat, weather_ = self.made(days, -3.0, 0.08, kind=kind)
        with pytest.raises(NotEnoughData, match=words) as refused:
            base(heat, weather_)
        assert ("read the meter" in str(refused.value)) == (kind == "readings")
        assert base(*self.made(days + 1, -3.0, 0.08, kind=kind)).kwh_per_kh == pytest.approx(0.08)

    def test_one_is_told_in_the_singular(self) -> None:
        """1 day; 1 stretch between readings."""
        for kind, words in (("days", "only 1 day with"), ("readings", "only 1 stretch between readings with")):
            with pytest.raises(NotEnoughData, match=words):
                base(*self.made(1, -3.0, 0.08, kind=kind))

    def test_heat_that_does_not_follow_the_cold_has_no_base(self) -> None:
        """The same heat every day: the best base lies at the warm end of the scan."""
        heat, weather_ = self.made(30, -3.0, 0.08)
        with pytest.raises(NotEnoughData, match="closely enough"):
            base(replace(heat, kwh=np.full(30, 5.0)), weather_)
        with pytest.raises(NotEnoughData, match="closely enough"):
            base(replace(heat, kwh=-heat.kwh), weather_)

    def test_bases_from_minus_five_to_25_degrees(self) -> None:
        """Held 8: a base of 24.75 °C, the last before the end of the scan, is found; one of 25 °C lies at its end."""
        heat, weather_ = self.made(30, 16.75, 0.08)
        assert base(heat, weather_).above_hold_k == pytest.approx(16.75)
        with pytest.raises(NotEnoughData, match="closely enough"):
            base(*self.made(30, 17.0, 0.08))

    def test_four_fifths_of_the_air_of_a_period_must_be_known(self) -> None:
        """Periods of 20 hours with four of them lost count, with five they do not."""
        heat, weather_ = self.made(30, -3.0, 0.08)
        short = replace(heat, ends=heat.starts + 20 * H)
        pull = np.maximum(5.0 - weather_.outdoor_c, 0.0).reshape(30, 24)[:, :20].sum(axis=1)
        out = weather_.outdoor_c.copy()
        out[:4], out[24:29] = NAN, NAN
        found = base(replace(short, kwh=0.08 * pull), replace(weather_, outdoor_c=out))
        assert found.used.tolist()[:3] == [True, False, True]

    def test_a_long_period_counts_by_the_root_of_its_length(self) -> None:
        """Against scipy's bounded scalar search on weighted misses: days and weeks that disagree by a tenth."""
        from scipy.optimize import minimize_scalar

        heat, weather_ = self.made(42, -3.0, 0.08)
        starts = np.concatenate([heat.starts[:21], heat.starts[21::7]])
        ends = np.concatenate([heat.ends[:21], heat.ends[27::7]])
        kwh = np.concatenate([heat.kwh[:21], 1.1 * heat.kwh[21:].reshape(3, 7).sum(axis=1)])
        found = base(Periods(kind="days", starts=starts, ends=ends, kwh=kwh), weather_)

        def pulls(above: float) -> np.ndarray:
            pull = np.maximum(8.0 + above - weather_.outdoor_c, 0.0)
            return np.array([pull[int(a / H) : int(b / H)].sum() for a, b in zip(starts, ends, strict=True)])

        def misses(k: float) -> float:
            return float((((kwh - k * pulls(found.above_hold_k)) ** 2) / (ends - starts)).sum())

        assert found.kwh_per_kh == pytest.approx(minimize_scalar(misses).x, rel=1e-5)
        y, weight = kwh / np.sqrt(ends - starts), 1 / np.sqrt(ends - starts)
        left = ((y - found.kwh_per_kh * pulls(found.above_hold_k) * weight) ** 2).sum()
        assert found.explained == pytest.approx(1 - left / ((y - y.mean()) ** 2).sum())

    def test_each_state_of_the_house_has_a_slope_of_its_own(self) -> None:
        """0.08 kWh a K h for 20 days, half of it from then on, when it is colder: both are found, and one slope for
        both would put the base elsewhere. Against scipy's bounded least squares at the base that was found."""
        from scipy.optimize import lsq_linear

        heat, weather_ = self.made(40, -3.0, 0.08)
        out = weather_.outdoor_c - np.where(np.arange(960) < 480, 0.0, 3.0)
        state = (np.arange(960) >= 480).astype(np.int64)
        pull = np.maximum(5.0 - out, 0.0).reshape(40, 24).sum(axis=1)
        kwh = np.where(np.arange(40) < 20, 0.08, 0.04) * pull
        two = replace(weather_, outdoor_c=out, state=state)
        found = base(replace(heat, kwh=kwh), two)
        assert found.above_hold_k == pytest.approx(-3.0) and found.slopes == pytest.approx((0.08, 0.04))
        assert found.kwh_per_kh == pytest.approx(kwh.sum() / pull.sum())
        assert base(replace(heat, kwh=kwh), replace(two, state=None)).above_hold_k != pytest.approx(-3.0)
        noisy = kwh * (1.0 + 0.1 * np.sin(np.arange(40) * 2.3))
        found = base(replace(heat, kwh=noisy), two)
        pull = np.maximum(8.0 + found.above_hold_k - out, 0.0).reshape(40, 24).sum(axis=1)
        columns = np.column_stack([np.where(np.arange(40) < 20, pull, 0.0), np.where(np.arange(40) < 20, 0.0, pull)])
        assert found.slopes == pytest.approx(lsq_linear(columns, noisy, bounds=(0.0, np.inf)).x, rel=1e-6)

    @pytest.mark.parametrize(("last", "colder", "told"), [(7, 0.0, 2), (6, 0.0, 1), (6, 20.0, 0)])
    def test_a_state_of_few_days_shares_the_slope_before_it_or_is_refused(
        self, last: int, colder: float, told: int
    ) -> None:
        """Seven days at the end have a slope of their own; six share that of the days before, unless a quarter of the
        winter's cold fell on them."""
        heat, weather_ = self.made(40, -3.0, 0.08)
        end = np.arange(960) >= 24 * (40 - last)
        out = weather_.outdoor_c - colder * end
        kwh = 0.08 * np.maximum(5.0 - out, 0.0).reshape(40, 24).sum(axis=1)
        two = replace(weather_, outdoor_c=out, state=end.astype(np.int64))
        if not told:
            with pytest.raises(NotEnoughData, match="altered within the winter"):
                base(replace(heat, kwh=kwh), two)
            return
        assert len(set(base(replace(heat, kwh=kwh), two).slopes)) == (2 if told == 2 else 0)

    def test_the_bases_that_the_readings_allow(self) -> None:
        """Against the definition: with 30 days and one slope, 28 degrees of freedom, t(0.95) = 1.701 (tables of
        Student's t): the bases whose misfit is within 1 + 1.701²/28 of the least. Exact heat allows one base."""
        heat, weather_ = self.made(30, -3.0, 0.08)
        assert [end.above_hold_k for end in base(heat, weather_).ends] == pytest.approx([-3.0, -3.0])
        kwh = heat.kwh * (1.0 + 0.1 * np.sin(np.arange(30) * 2.3))
        low, high = base(replace(heat, kwh=kwh), weather_).ends

        def miss(above: float) -> float:
            pull = np.maximum(8.0 + above - weather_.outdoor_c, 0.0).reshape(30, 24).sum(axis=1)
            return float(np.linalg.lstsq(pull[:, None], kwh, rcond=None)[1][0])

        every = np.arange(-10.0, 12.0, 0.25)
        inside = [b for b in every if miss(b) <= min(map(miss, every)) * (1 + 1.701**2 / 28)]
        assert (low.above_hold_k, high.above_hold_k) == pytest.approx((inside[0], inside[-1]))


FIT = Base(above_hold_k=-3.0, kwh_per_kh=0.1, explained=1.0, fitted=np.zeros(3), used=np.array([True, True, False]))


LOOSE = Span(less=(0.8, 1.1), more=(0.9, 1.5))


class TestPrices:
    FOUND = (held(1, 1, 8.0, 100.0, 30.0), held(2, 2, 6.0, 40.0, 16.0), held(3, 3, None, 10.0, 3.0))
    AIR = air([0.0, 1.0, 0.0], [8.0, 6.0, NAN], [0, 1, 2])

    def test_every_stretch_moves_by_its_own_degree_hours(self) -> None:
        """Base 5 at a hold of 8 °C. First stretch (0 °C): 5 K, at a hold of 9 six fifths of 100 kWh; second, held 6
        (base 3, 1 °C): 2 K, at 9 °C 5 K, 2.5 times 40; a third without a hold stays as it was. Each own hold a kelvin
        lower: 4 of 5 K and 1 of 2."""
        moves = moves_to([9.0], self.FOUND)
        assert moves.tolist() == [[1.0, 3.0, 0.0]]
        assert by_degree_hours(self.FOUND, self.AIR, FIT, moves).tolist() == [pytest.approx([20.0, 60.0, 0.0])]
        moves = moves_by([-1.0, 2.0], self.FOUND)
        assert moves.tolist() == [[-1.0, -1.0, 0.0], [2.0, 2.0, 0.0]]
        changed = by_degree_hours(self.FOUND, self.AIR, FIT, moves)
        assert changed.tolist() == [pytest.approx([-20.0, -20.0, 0.0]), pytest.approx([40.0, 40.0, 0.0])]

    def test_an_hour_counts_by_the_slope_of_its_state(self) -> None:
        """Two hours at a base of 5 °C: 5 K in a house of 0.1, 1 K in one of 0.3 kWh a K h, 0.8 kWh. A kelvin more: 0.6
        + 0.6 = 1.2, half as much again; by one slope for both it would be a third."""
        found = (held(1, 1, 8.0, 100.0),)
        both = air([0.0, 4.0], [8.0, 8.0])
        two = replace(FIT, slopes=(0.1, 0.3))
        states = replace(both, state=np.array([0, 1]))
        assert by_degree_hours(found, states, two, np.array([[1.0]])).tolist() == [[pytest.approx(50.0)]]
        assert by_degree_hours(found, both, FIT, np.array([[1.0]])).tolist() == [[pytest.approx(100 / 3)]]

    def test_a_stretch_that_asked_for_nothing_is_left_as_it_was(self) -> None:
        """9 °C outdoors all along: no degree-hours to compare."""
        found = (held(1, 1, 8.0, 50.0),)
        assert by_degree_hours(found, air([9.0], [8.0], [0]), FIT, np.array([[1.0]])).tolist() == [[0.0]]

    def test_more_and_less_do_not_make_the_band_narrower(self) -> None:
        """30 kWh more in one stretch, 20 less in another: 10 more; between 0.9 · 30 − 1.1 · 20 = 5 and 1.5 · 30 −
        0.8 · 20 = 29. Doubts add in squares: readings that allow 2 to 13 make √(5² + 8²) under and √(19² + 3²) over."""
        told = np.array([[30.0, -20.0]])
        whole, low, high = Changes(told=told, span=LOOSE).summed(np.ones(2))
        assert (whole[0], low[0], high[0]) == pytest.approx((10.0, 5.0, 29.0))
        ends = (np.array([[20.0, -18.0]]), np.array([[33.0, -20.0]]))
        whole, low, high = Changes(told=told, ends=ends, span=LOOSE).summed(np.ones(2))
        assert (whole[0], low[0], high[0]) == pytest.approx((10.0, 10 - np.hypot(5, 8), 10 + np.hypot(19, 3)))
        money = Changes(told=told, span=LOOSE).summed(np.array([0.3, 0.5]))[0]
        assert money[0] == pytest.approx(30 * 0.3 - 20 * 0.5)

    def test_rows_in_heat_and_money(self) -> None:
        """150 kWh for 49; a hold of 9 takes 20 + 60 more at 0.30 and 0.40 a kWh; a kelvin less 20 + 20 less. The ends:
        0.9 to 1.5 of what is more, 0.8 to 1.1 of what is less; heat that is not known stretches the upper end alone."""
        paid = Paid(found=self.FOUND, kwh=150.0, cost=49.0)
        more = Changes(told=np.array([[20.0, 60.0, 0.0]]), span=LOOSE)
        (row,) = hold_rows([9.0], paid, more, 8.0, False)
        assert (row.kwh, row.low, row.high) == pytest.approx((230.0, 222.0, 270.0))
        assert row.cost == pytest.approx(49 + 6 + 24) and row.tested
        (unsure,) = hold_rows([9.0], replace(paid, unknown=1.5, cost=None), more, 8.0, False)
        assert (unsure.low, unsure.high, unsure.cost) == (pytest.approx(222.0), pytest.approx(405.0), None)
        less = Changes(told=np.array([[-20.0, -20.0, 0.0]]), span=LOOSE)
        (one,) = degree_rows([-1.0], paid, less, False)
        assert (one.away_k, one.kwh, one.low, one.high) == pytest.approx((-1.0, 110.0, 106.0, 118.0))
        assert (one.cost, one.cost_low, one.cost_high) == pytest.approx((35.0, 49 - 14 * 1.1, 49 - 14 * 0.8))
        (free,) = degree_rows([-1.0], replace(paid, cost=None), less, False)
        assert (free.cost, free.cost_low, free.cost_high) == (None, None, None)
        tested = hold_rows([12.0, 12.1, 4.0, 3.9], paid, Changes(told=np.zeros((4, 3)), span=LOOSE), 8.0, False)
        assert [row.tested for row in tested] == [True, False, True, False]

    def test_no_heat_is_less_than_none(self) -> None:
        """180 of 150 kWh less are all of it."""
        changes = Changes(told=np.array([[-180.0, 0.0, 0.0]]), span=LOOSE)
        (row,) = degree_rows([-4.0], Paid(found=self.FOUND, kwh=150.0, cost=49.0), changes, False)
        assert (row.kwh, row.low, row.cost_low) == (0.0, 0.0, 0.0)

    def test_a_heater_flat_out_overstates_a_lower_hold(self) -> None:
        """By up to 1.27 at 4 K, half of it at 2 K; not a higher one."""
        paid = Paid(found=self.FOUND, kwh=150.0, cost=49.0)
        none = Changes(told=np.zeros((3, 3)), span=LOOSE)
        lows = [row.low for row in hold_rows([4.0, 6.0, 12.0], paid, none, 8.0, True)]
        assert lows == pytest.approx([150 / 1.27, 150 / 1.135, 150.0])
        (row,) = degree_rows([-2.0], paid, Changes(told=np.zeros((1, 3)), span=LOOSE), True)
        assert (row.low, row.cost_low) == pytest.approx((150 / 1.135, 49 / 1.135))

    def test_what_the_price_rests_on(self) -> None:
        """Two used periods of a day and a week, of 10 and 30 kWh: a mean of (10 · 1 + 30 · 7) / 40 = 5.5 days; base
        5."""
        heat = Periods(
            kind="readings", starts=np.zeros(3), ends=np.array([1, 7, 9]) * DAY_S, kwh=np.array([10.0, 30.0, 99.0])
        )
        found = basis(heat, FIT, 8.0)
        assert (found.kind, found.periods, found.balance_c) == ("readings", 2, 5.0)
        assert (found.mean_days, found.kwh_per_kh) == (pytest.approx(5.5), 0.1)
        little = basis(replace(heat, kwh=np.array([0.2, 0.6, 99.0])), FIT, 8.0)
        assert little.mean_days == pytest.approx((0.2 * 1 + 0.6 * 7) / 0.8)

    def test_round_holds_in_either_unit(self) -> None:
        """7.6 °C: 2 … 14 °C; 45.7 °F: every second degree from 34 to 58."""
        assert round_holds(7.6, False) == [float(c) for c in range(2, 15)]
        assert [round(c * 9 / 5 + 32, 6) for c in round_holds(7.6, True)] == [float(f) for f in range(34, 59, 2)]

    def test_an_expectation_without_a_heat_log(self) -> None:
        """50 W/K, 0 and 6 °C and an unknown hour, hold 8: (8 + 2) · 3 / 2 = 15 K h, 0.75 kWh."""
        (row,) = expected_prices(50.0, np.array([0.0, 6.0, NAN]), [8.0])
        assert (row.hold_c, row.kwh, row.low, row.cost, row.tested) == (8.0, pytest.approx(0.75), None, None, False)
        assert expected_prices(50.0, np.array([NAN]), [8.0])[0].kwh == 0.0


def entry(day: int, kind: str, until: int | None = None, touches: tuple[str, ...] = ("thermostat",)) -> DiaryEntry:
    """A line of the diary in January."""
    return DiaryEntry(
        line=2, date=JAN[day - 1], time=None, kind=kind, what="", touches=touches, reversible=None, hoped_for=(),
        until=JAN[until - 1] if until else None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


class TestHold:
    def test_the_hold_of_the_winter_is_weighted_by_heat(self) -> None:
        """6 °C with 30 kWh, 9 with 10, one without: 6.75."""
        assert hold_found((held(1, 2, 6.0, 30.0), held(3, 4, 9.0, 10.0), held(5, 6, None, 60.0))) == pytest.approx(6.75)
        assert hold_found((held(1, 2, 6.0, 0.0),)) is None and hold_found(()) is None

    def test_a_stretch_that_took_under_one_percent_of_the_heat_held_nothing(self) -> None:
        """1.0 of 100 kWh is not more than 1 %, 1.1 is."""
        for kwh, holds in ((1.0, None), (1.1, 7.0)):
            days = pd.DataFrame({"kwh": [100.0 - kwh, kwh], "cost": [30.0, 0.4]}, index=JAN[:2])
            first, second = with_heat((held(1, 1, 8.0), held(2, 2, 7.0)), days)
            assert (first.kwh, first.cost, first.hold_c) == (100.0 - kwh, 30.0, 8.0)
            assert (second.kwh, second.cost, second.hold_c) == (kwh, 0.4, holds)

    def test_the_season_is_cut_where_the_thermostat_was_touched_or_the_aim_changed(self) -> None:
        """A change on the 12th; a spell from the 15th to the 17th begins and ends a stretch; an upkeep, and a change of
        something else, do not; nor what lies outside the season; an aim from the 25th does."""
        of = season(aims={"hold": ({"from": dt.date(2026, 1, 25), "c": 9.0},)}, loggers=(logger("bench"),))
        diary = (
            entry(12, "change"), entry(15, "spell", 17), entry(20, "upkeep"), entry(21, "change", touches=("air",)),
            entry(2, "change"),
        )  # fmt: skip
        made = replace(readings(of), diary=diary, heating=(heater([("2026-01-05", "2026-02-02", 99.0, 9.0)]),))
        found = stretches(made, heat_by_hour(made))
        assert [one.first.day for one in found] == [5, 12, 15, 18, 25]
        assert [one.last.day for one in found] == [11, 14, 17, 24, 1]
        assert all(one.hold_c is None for one in found)
        assert stretches(replace(made, heating=()), heat_by_hour(made)) == ()

    def test_with_heat_by_the_hour_it_is_the_median_of_heated_night_hours(self) -> None:
        """Held 7 on heated hours of the night, 21 to 5 h: 27 nights of eight hours and three of the last evening. Of
        two nights, 16 hours, there is none: 24 are needed."""
        at = pd.date_range("2026-01-05", periods=24 * 28 + 1, freq="1h", tz=ZONE)
        temps = pd.Series(np.where((at.hour >= 20) | (at.hour < 7), 7.0, 15.0), index=at)
        of = season(loggers=(logger("bench"),))
        for nights, told in ((28, (7.0, 27 * 8 + 3)), (3, (7.0, 24)), (2, (None, 16))):
            on = ((at.hour >= 21) | (at.hour < 5)) & (np.arange(len(at)) < 24 * nights + 12)
            heat = supply(at[:-1], np.where(on, 1000.0, 0.0)[:-1])
            made = replace(readings(of, channels=(channel(temps),)), heating=(heat,))
            (found,) = stretches(made, heat_by_hour(made))
            assert found.how == "heated night hours"
            assert (found.hold_c, found.hours) == told

    def test_a_hold_needs_a_day_of_heated_night_hours(self) -> None:
        """Heated in the last 24 and in the last 23 night hours of three nights of ten, 20 to 6 h."""
        at = pd.date_range("2026-01-05", periods=24 * 28 + 1, freq="1h", tz=ZONE)
        night = (at.hour >= 20) | (at.hour < 6)
        of = season(loggers=(logger("bench"),))
        spots = np.flatnonzero(night)[6:36]  # of the evening of the 5th and the two after
        for count, told in ((24, (7.0, 24)), (23, (None, 23))):
            watts = np.zeros(len(at))
            watts[spots[-count:]] = 1000.0
            made = readings(of, channels=(channel(pd.Series(7.0, index=at)),))
            made = replace(made, heating=(supply(at[:-1], watts[:-1]),))
            (found,) = stretches(made, heat_by_hour(made))
            assert (found.hold_c, found.hours) == told

    def test_with_sums_alone_it_is_the_colder_half_of_the_nights(self) -> None:
        """Nights of 6 °C where it froze outdoors, of 9 where not, in turns: 6, of 14 of the 27 whole nights, ten hours
        each. Without a logger outdoors the median of all. Of nine nights five are the colder half, enough; of eight
        four, too few."""
        at = pd.date_range("2026-01-05", periods=24 * 28 + 1, freq="1h", tz=ZONE)
        cold = ((np.arange(len(at)) + 12) // 24) % 2 == 1
        inside = channel(pd.Series(np.where(cold, 6.0, 9.0), index=at))
        outside = channel(pd.Series(np.where(cold, -4.0, 4.0), index=at), logger="garden", where="outdoor")
        of = season(loggers=(logger("bench"), logger("garden", where="outdoor")))
        sums = (heater([("2026-01-05", "2026-02-02", 99.0, 9.0)]),)

        def told(*channels: Any) -> tuple[float | None, int, str]:
            made = replace(readings(of, channels=channels), heating=sums)
            (found,) = stretches(made, heat_by_hour(made))
            return found.hold_c, found.hours, found.how

        how = "the colder half of the nights"
        assert told(inside, outside) == (pytest.approx(6.0), 140, how)
        assert told(inside) == (pytest.approx(6.0), 270, how)
        assert told(channel(inside.values[: 24 * 9 + 8]), outside) == (pytest.approx(6.0), 50, how)
        assert told(channel(inside.values[: 24 * 8 + 8]), outside) == (None, 0, how)

    def test_the_season_cut_by_month_and_by_aim(self) -> None:
        """From the 25th 8 °C, from the 30th 9: two pieces of January, one of February."""
        of = season(aims={"hold": ({"from": dt.date(2026, 1, 25), "c": 8.0}, {"from": dt.date(2026, 1, 30), "c": 9.0})})
        told = [(a.day, b.day, c) for a, b, c in hold_pieces(readings(of))]
        assert told == [(25, 29, 8.0), (30, 31, 9.0), (1, 1, 9.0)]

    def test_how_much_of_the_time_the_aim_was_kept(self) -> None:
        """Aim 6 from 30 January on, air at 5 °C on the 30th and at 7 after: one day of three below by 1 K, two thirds
        kept; with ± 0.5 K the same share and 12 to 36 K h; by month 48 and 24 hours."""
        at = pd.date_range("2026-01-05", periods=24 * 28 + 1, freq="1h", tz=ZONE)
        inside = pd.Series(np.where(at < pd.Timestamp("2026-01-31", tz=ZONE), 5.0, 7.0), index=at)
        of = season(
            aims={"hold": ({"from": dt.date(2026, 1, 30), "c": 6.0},)}, loggers=(logger("bench", accuracy=0.5),)
        )
        found = kept(readings(of, channels=(channel(inside, accuracy=0.5),)))
        below = 23.5  # the last hour of the 30th rises through the aim
        assert found.hours == pytest.approx(72.0) and found.share.estimate == pytest.approx(1 - below / 72, abs=1e-6)
        assert found.degree_hours.estimate == pytest.approx(23.0 + 0.25)
        assert found.degree_hours.low == pytest.approx(23 * 0.5 + 0.0625)
        assert found.degree_hours.high == pytest.approx(23 * 1.5 + 0.5625)
        assert found.share.low == pytest.approx(1 - 23.75 / 72) and found.share.high == pytest.approx(1 - 23.25 / 72)
        assert found.months["hours"].tolist() == pytest.approx([48.0, 24.0])
        assert found.months.index.tolist() == [dt.date(2026, 1, 1), dt.date(2026, 2, 1)]

    def test_why_what_was_kept_cannot_be_told(self) -> None:
        """No hold, no air, and air that was logged only before any hold."""
        at = pd.date_range("2026-01-05", periods=100, freq="1h", tz=ZONE)
        inside = (channel(pd.Series(5.0, index=at)),)
        of = {"loggers": (logger("bench"),)}
        assert kept(readings(season(**of), channels=inside)).reason == "no hold is named in season.toml"
        assert "no air temperature was logged" in kept(readings(season(aims={"hold_c": 6.0}, **of))).reason
        late = season(aims={"hold": ({"from": dt.date(2026, 1, 30), "c": 6.0},)}, **of)
        assert kept(readings(late, channels=inside)).reason == "no hour under a hold"
        for none in (kept(readings(late, channels=inside)), kept(readings(season(**of), channels=inside))):
            assert none.hours == 0.0 and np.isnan([none.share.estimate, none.degree_hours.estimate]).all()
            assert len(none.months) == 0


def test_heat_by_the_day_is_the_sum_of_its_hours() -> None:
    """Of the made house, with its money."""
    made = house(days=7)
    table = heat_by_day(made)
    logged = made.heating[0].intervals["heat_kwh"].to_numpy().reshape(7, 24).sum(axis=1)
    assert table["kwh"].tolist() == pytest.approx(logged) and table["cost"].tolist() == pytest.approx(logged * 0.3)
    assert table["known"].tolist() == pytest.approx([1.0] * 7) and not table["spread"].any()
