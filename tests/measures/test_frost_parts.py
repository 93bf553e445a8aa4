"""The parts of the frost page, each on a case that can be worked out by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, picking, planting, readings, season
from measures.house.bare import plain_balance, plain_hours, plain_house
from scipy import stats

from reportgen.measures.exposure import line
from reportgen.measures.frost import _away, _clear, _entries
from reportgen.measures.frost_ahead import Ahead, _class, _coldest, _row, ahead, gap_low
from reportgen.measures.frost_alarms import _by_day, _opening, alarms, hot, needs, rings, sounding
from reportgen.measures.frost_crops import BANDS, _week_before, band_of, crop_margins, place_of, standing
from reportgen.measures.frost_failure import _pieces, _stayed_warm, failure_evenings, hold_by_hour
from reportgen.measures.frost_fit import Regression, limit_of, regress
from reportgen.measures.frost_gaps import blind, gap_table
from reportgen.measures.frost_limit import evening, holding_limit, last_touch, nights_of
from reportgen.measures.frost_nights import (
    air_lines,
    counted,
    minimum,
    night_table,
    outdoor_line,
    partly,
    shifted_line,
    unknown_accuracy,
    whole,
)
from reportgen.measures.frost_types import Failure, StateLimit
from reportgen.measures.house.failure import Stops
from reportgen.measures.house.season import HouseModel
from reportgen.measures.house.size import FlatOut
from reportgen.measures.house.without_heat import NightLine, WithoutHeat
from reportgen.readings.types import DiaryEntry, Readings

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
NAN = float("nan")
ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
H = 3600.0


def entry(day: int, kind: str, until: int | None = None, **more: Any) -> DiaryEntry:
    """A line of the diary in January."""
    usual: dict[str, Any] = {
        "line": 2, "date": JAN[day - 1], "time": None, "kind": kind, "what": "", "touches": (), "reversible": None,
        "hoped_for": (), "until": JAN[until - 1] if until else None, "cost": None, "years": None, "written": None,
        "note": "",
    }  # fmt: skip
    return DiaryEntry(**(usual | more))


def hourly(values: Any, name: str = "bench", where: str = "crop", **more: Any) -> Any:
    """Air by the hour from midnight of 5 January on."""
    at = pd.date_range(ZERO, periods=len(values), freq="1h")
    return channel(pd.Series(np.asarray(values, float), index=at), logger=name, where=where, **more)


def without(values: pd.Series, first_h: int, last_h: int) -> pd.Series:
    """Nothing between these hours after that midnight."""
    after = (values.index - ZERO) / pd.Timedelta("1h")
    return values[(after <= first_h) | (after >= last_h)]


def told(spells: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Stretches in hours after that midnight."""
    return [(round((a - ZERO.timestamp()) / H, 4), round((b - ZERO.timestamp()) / H, 4)) for a, b in spells]


class TestLimit:
    def test_the_regression_is_scipys(self) -> None:
        """Slope, intercept and residual deviation against scipy's linregress; the bound by the textbook's formula with
        scipy's t."""
        rng = np.random.default_rng(1)
        x = rng.uniform(-8, 4, 25)
        y = 3.0 + 0.4 * x + 0.5 * rng.standard_normal(25)
        fit, other = regress(x, y), stats.linregress(x, y)
        assert fit is not None
        assert (fit.n, fit.slope, fit.intercept) == (25, pytest.approx(other.slope), pytest.approx(other.intercept))
        assert fit.s / np.sqrt(fit.x_squares) == pytest.approx(other.stderr)
        assert fit.middle(np.array([-3.0])) == pytest.approx(other.intercept - 3.0 * other.slope)
        root = np.sqrt(1 + 1 / 25 + (-3.0 - x.mean()) ** 2 / ((x - x.mean()) ** 2).sum())
        bound = other.intercept - 3.0 * other.slope - stats.t.ppf(0.95, 23) * fit.s * root
        assert fit.bound(np.array([-3.0])) == pytest.approx(bound)

    def test_no_line_through_two_points_or_one_x(self) -> None:
        """Three points of two x carry one."""
        assert regress(np.array([0.0, 1.0]), np.array([0.0, 1.0])) is None
        assert regress(np.full(5, 2.0), np.arange(5.0)) is None and regress(np.zeros(0), np.zeros(0)) is None
        assert regress(np.array([0.0, 1.0, 1.0]), np.array([0.0, 1.0, 2.0])) is not None

    def exact(self, slope: float, intercept: float) -> tuple[Regression, np.ndarray, np.ndarray]:
        """Nights that lie on a line: the bound is the line itself."""
        x = np.linspace(-6.0, 4.0, 21)
        fit = regress(x, intercept + slope * x)
        assert fit is not None
        return fit, x, intercept + slope * x

    def test_the_limit_is_where_the_bound_meets_the_frost_line(self) -> None:
        """3 + 0.5 x meets 0 °C at −6 °C, within a step of 0.05 K. 3 + 0.6 x meets it at −5; the nights at −5.5 and −6
        lay under it, so no limit under the warmer of them. A line at 6 °C lies over all of them; a flat house never
        meets it."""
        assert limit_of(*self.exact(0.5, 3.0), 0.0) == pytest.approx(-6.0, abs=0.0501)
        fit, x, y = self.exact(0.6, 3.0)
        assert limit_of(fit, x, y, 0.0) == pytest.approx(-5.0, abs=0.0501)
        assert limit_of(fit, x, np.where(x == 1.0, -0.1, y), 0.0) == 1.0
        on_it = limit_of(fit, x, np.where(x == 1.0, 0.0, y), 0.0)  # on the line is not under it
        assert on_it == pytest.approx(-5.0, abs=0.0501)
        assert limit_of(fit, x, y, 6.0) is None
        flat, x, y = self.exact(0.0, 3.0)
        assert limit_of(flat, x, y, 0.0) == pytest.approx(-60.0, abs=0.1)

    def test_the_last_day_on_which_the_house_was_altered(self) -> None:
        """A change on the 8th, a spell to the 12th; not an event, not what touches water, not what lies after the
        season."""
        diary = (
            entry(8, "change", touches=("envelope",)), entry(10, "spell", 12, touches=("heater", "air")),
            entry(20, "event", touches=("envelope",)), entry(21, "change", touches=("water",)),
        )  # fmt: skip
        assert last_touch(readings(diary=diary)) == JAN[11]
        assert last_touch(readings(diary=(entry(8, "upkeep", touches=("thermostat",)),))) == JAN[7]
        short = season("2026-01-05", "2026-01-11")
        assert last_touch(readings(short, diary=diary)) == JAN[9]
        assert last_touch(readings()) is None
        assert last_touch(readings(diary=diary[:1]), frozenset({"heater", "thermostat"})) is None

    def nights(self, count: int) -> pd.DataFrame:
        """So many nights on 4 + 0.5 x, ever colder from 4 °C on by 0.2 K."""
        out = 4.0 - 0.2 * np.arange(count)
        index = pd.Index([dt.date(2026, 1, 5) + dt.timedelta(n) for n in range(count)], name="date")
        return pd.DataFrame(
            {"share": 0.8, "outdoor_share": 0.8, "outdoor_min": out, "inside_min": 4.0 + 0.5 * out}, index=index
        )

    def test_all_nights_of_an_unheated_house(self) -> None:
        """30 are needed, 29 are too few."""
        made = readings()
        found = holding_limit(made, self.nights(30), set(), False, None)
        assert int(found.points["fitted"].sum()) == 30 and "are needed" not in found.reason and found.chosen == ""
        few = holding_limit(made, self.nights(29), set(), False, None)
        assert few.reason == "only 29 nights; 30 are needed"
        found = holding_limit(made, self.nights(60), set(), False, FlatOut(outdoor_c=-9.0, half_k=2.5))
        assert found.outdoor_c is None and "colder was not tested" in found.reason  # 0 °C at −8, the coldest −7.8
        assert (found.heater_flat_out_c, found.flat_out_half_k) == (-9.0, 2.5)
        assert found.coldest_seen_c == pytest.approx(-7.8)
        colder = holding_limit(made, self.nights(70), set(), False, None)
        assert colder.outdoor_c == pytest.approx(-8.0, abs=0.06) and colder.reason == ""

    def test_nights_before_the_last_alteration_and_failures_do_not_count(self) -> None:
        """70 nights, altered on the evening of the 10th: 64 after it, one of them failed."""
        made = readings(diary=(entry(10, "change", touches=("envelope",)),))
        found = holding_limit(made, self.nights(70), {JAN[14]}, False, None)
        assert found.points is not None and int(found.points["fitted"].sum()) == 63 and len(found.points) == 70
        few = holding_limit(made, self.nights(20), set(), False, None)
        assert "since the house was last altered on 10" in few.reason
        thin = self.nights(70).assign(share=0.79)
        assert (
            holding_limit(made, thin, set(), False, None).reason == "no night with both inside and outdoor air logged"
        )
        even = self.nights(40).assign(outdoor_min=1.0)
        assert "same outdoor minimum" in holding_limit(readings(), even, set(), False, None).reason

    def test_an_unheated_house_may_have_no_limit(self) -> None:
        """Nights of 5 K scatter about 1 °C: even the mildest may fall below the line."""
        wide = self.nights(40).assign(inside_min=1.0 + 5.0 * (-1.0) ** np.arange(40))
        assert "differ too much" in holding_limit(readings(), wide, set(), False, None).reason

    def test_a_night_is_named_after_its_evening(self) -> None:
        """11:59 belongs to the evening before, 12:00 to its own; a stretch over noon touches both nights."""
        morning, noon = (pd.Timestamp(f"2026-01-10 {t}", tz=ZONE) for t in ("11:59", "12:00"))
        assert (evening(morning), evening(noon)) == (JAN[8], JAN[9])
        assert nights_of(morning, noon + pd.Timedelta(days=1)) == {JAN[8], JAN[9], JAN[10]}


class TestGaps:
    def test_where_crop_air_is_missing(self) -> None:
        """Two days of hourly readings with nothing from 10 to 20 h on the first, in a season of three days."""
        of = season("2026-01-05", "2026-01-07")
        values = hourly([5.0] * 49).values
        curve = line(without(values, 10, 20))
        assert told(blind(curve, of)) == [(10.0, 20.0), (48.0, 72.0)]
        assert told(blind(None, of)) == [(0.0, 72.0)]

    def test_a_gap_of_a_minute_is_none(self) -> None:
        """61 s are one, 60 are none."""
        of = season("2026-01-05", "2026-01-05")
        for seconds, gaps in ((60, 0), (61, 1)):
            end = of.end - pd.Timedelta(seconds=seconds)
            at = pd.date_range(of.start, end, periods=200)
            assert len(blind(line(pd.Series(5.0, index=at)), of)) == gaps

    def test_what_a_gap_may_have_hidden(self) -> None:
        """10 to 20 h without crop air; outdoors 2 °C, but −3 °C from 12 to 16 h (crossed at 12.4 and 15.6 … by hand:
        from 2 to −3 within an hour the frost line lies 0.4 h after the beginning): 11.4 to 16.6 h, 5.2 h; known to 18
        h: two hours unknown."""
        of = season("2026-01-05", "2026-01-05")
        values = hourly([5.0] * 25).values
        curve = line(without(values, 10, 20))
        outside = line(hourly([2.0] * 12 + [-3.0] * 5 + [2.0, 2.0]).values)
        bare = SimpleNamespace(in_gap=NightLine(weights=np.array([2.0, 1.0, 0, 0]), knee_c=0, week_c=0, half_k=1.5))
        table = gap_table(curve, outside, bare, of)  # type: ignore[arg-type]
        assert table["hours"].tolist() == [10.0] and table["cold_hours"].tolist() == pytest.approx([5.2])
        assert table["unknown_hours"].tolist() == pytest.approx([2.0])
        assert table["outdoor_c"].tolist() == [-3.0]
        assert table["could_have_been_c"].tolist() == pytest.approx([-3.5])  # 2 − 4 − 1.5
        warm = line(hourly([2.0] * 25).values)
        assert not len(gap_table(curve, warm, bare, of))  # type: ignore[arg-type]
        nothing = gap_table(curve, None, bare, of)  # type: ignore[arg-type]
        assert (nothing["cold_hours"].tolist(), nothing["unknown_hours"].tolist()) == ([0.0], [10.0])
        assert np.isnan(nothing["outdoor_c"]).all() and np.isnan(nothing["could_have_been_c"]).all()

    def test_how_a_gap_is_told(self) -> None:
        """The line of the nights without heat less its half-width, or a regression's bound; never more than 1 K under
        the outdoor air; without either nothing."""
        night = NightLine(weights=np.array([2.0, 1.0, 0, 0]), knee_c=0, week_c=0, half_k=1.5)
        ask: Any = SimpleNamespace(in_gap=night)
        assert gap_low(ask, -3.0) == pytest.approx(-3.5)
        ask.in_gap = replace(night, half_k=9.0)
        assert gap_low(ask, -3.0) == -4.0
        fit = regress(np.array([0.0, 1.0, 2.0, 3.0]), np.array([1.0, 2.0, 3.0, 4.0]))
        ask.in_gap = fit
        assert gap_low(ask, -3.0) == pytest.approx(-2.0)
        ask.in_gap = None
        assert np.isnan(gap_low(ask, -3.0))


class TestNights:
    def made(self, accuracy: float | None = 0.5) -> Readings:
        """Three days: bench at 5 °C, door at 4 °C but for −1 °C at 3 h of the 6th; outdoors at −6 °C then, else 0."""
        door, out = np.full(73, 4.0), np.zeros(73)
        door[27], out[27] = -1.0, -6.0
        of = season(
            "2026-01-05", "2026-01-07",
            loggers=(logger("bench", main=True), logger("door"), logger("garden", where="outdoor")),
        )  # fmt: skip
        channels = (
            hourly([5.0] * 73, accuracy=0.3), hourly(door, "door", accuracy=accuracy),
            hourly(out, "garden", where="outdoor"),
        )  # fmt: skip
        return readings(of, channels=channels)

    def test_the_coldest_reading_its_time_and_place(self) -> None:
        """−1 °C at the door at 3 h, −6 °C outdoors; 3 K under a frost line of 2 °C. Without outdoors, and without
        air."""
        made = self.made()
        found = minimum(air_lines(made), outdoor_line(made), 2.0)
        assert (found.temperature_c, found.margin_k, found.logger, found.outdoor_c) == (-1.0, -3.0, "door", -6.0)
        assert found.at == ZERO + pd.Timedelta("27h")
        assert minimum(air_lines(made), None, 0.0).outdoor_c is None
        assert minimum((), None, 0.0).temperature_c is None

    def test_nights_hours_and_degree_hours_under_each_margin(self) -> None:
        """4 → −1 → 4 within two hours: under 0 °C for 2 · 1/5 = 0.4 h, 0.2 K h deep; one night under 0 to 3 K, three
        under 5 K (the season's last is not whole but was logged). With ± 0.5 K: 0.2 to 0.6 h."""
        nights, hours, degree_hours = counted(self.made(), air_lines(self.made()))
        assert [nights[k].estimate for k in "0123"] == [1, 1, 1, 1] and nights["5"].estimate == 3
        assert (hours["0"].estimate, hours["0"].low, hours["0"].high) == pytest.approx((0.4, 0.2, 0.6))
        assert hours["3"].estimate == pytest.approx(1.6)
        low, high = 0.2 * 0.5 / 2, 0.6 * 1.5 / 2
        assert (degree_hours.estimate, degree_hours.low, degree_hours.high) == pytest.approx((0.2, low, high))
        unknown = self.made(accuracy=None)
        nights, hours, _ = counted(unknown, air_lines(unknown))
        assert np.isnan(nights["0"].low) and np.isnan(hours["0"].high)
        assert unknown_accuracy(air_lines(unknown)) == "no accuracy given for door"
        assert shifted_line(unknown, 1.0) is None and unknown_accuracy(air_lines(self.made())) == ""

    def test_every_logger_is_shifted_by_its_own_accuracy(self) -> None:
        """Door 4 − 0.5, bench 5 − 0.3: 3.5; the other way 4.5."""
        for sign, value in ((-1.0, 3.5), (1.0, 4.5)):
            curve = shifted_line(self.made(), sign)
            assert curve is not None and float(curve.values.max()) == pytest.approx(value)

    def test_one_row_a_night(self) -> None:
        """Evening of the 5th: −1 °C at the door, 3 h, −6 °C outdoors; of the 6th the door's 4 °C; of the 7th, six hours
        of fifteen, partly logged."""
        made = self.made()
        table = night_table(made, air_lines(made), outdoor_line(made))
        assert table["inside_min"].tolist() == [-1.0, 4.0, 4.0] and table["outdoor_min"].tolist() == [-6.0, 0.0, 0.0]
        assert table["share"].tolist() == pytest.approx([1.0, 1.0, 0.4])
        assert table["logger"].tolist() == ["door"] * 3 and table["at"].iloc[0] == ZERO + pd.Timedelta("27h")
        assert table["margin_k"].tolist() == [-1.0, 4.0, 4.0]
        assert whole(table).tolist() == [True, True, False] and partly(table).tolist() == [False, False, True]
        edge = table.assign(share=[0.8, 0.79, 0.0], inside_min=[4.0, 4.0, NAN])
        assert whole(edge).tolist() == [True, False, False] and partly(edge).tolist() == [False, True, False]
        empty = night_table(made, (), None)
        assert empty["logger"].tolist() == [""] * 3 and empty["outdoor_min"].isna().all()


class TestAlarms:
    def test_under_a_line_for_a_quarter_of_an_hour(self) -> None:
        """5 → 3 °C within two minutes and back: a line of 4 is crossed halfway, so that what is under it is as long as
        from the first fall to the first rise: 15.1 minutes ring, 14.9 do not."""
        for minutes, sounds in ((14.9, 0), (15.1, 1)):
            at = ZERO + pd.to_timedelta([0, 10, 12, 10 + minutes, 12 + minutes, 40], unit="min")
            assert len(sounding(line(pd.Series([5.0, 5, 3, 3, 5, 5], index=at)), 4.0)) == sounds
        long = line(hourly([5.0, 3.0, 3.0, 5.0]).values)
        assert told(sounding(long, 4.0)) == [(0.5, 2.5)]

    def test_rings_and_needs(self) -> None:
        """Under 4 °C at 1–2 h, 6–7 h (within six hours of the first ring: the same) and 12–40 h: rings at 0.5, 11.5,
        23.5 and 35.5 h. Within 1 K of 0 °C never; of 2.5 °C: three times, the first two less than 12 h apart are one
        need."""
        values = np.full(60, 6.0)
        values[[1, 2, 6, 7]] = 2.0
        values[12:41] = 2.0
        curve = line(hourly(values).values)
        assert [round((t - ZERO.timestamp()) / H, 3) for t in rings(curve, 4.0)] == [0.5, 11.5, 23.5, 35.5]
        values[50] = 2.0  # nine and a half hours after the last ring, days after the first
        assert len(rings(line(hourly(values).values), 4.0)) == 5
        values[50], values[41:44] = 6.0, [6.0, 2.0, 6.0]  # five hours after the last ring: the same
        assert len(rings(line(hourly(values).values), 4.0)) == 4
        assert needs(curve, 0.0) == []
        assert told(needs(curve, 3.0)) == [(0.5, 40.5)]
        apart = np.full(60, 6.0)
        apart[[1, 20]] = 2.0
        assert len(needs(line(hourly(apart).values), 3.0)) == 2

    def test_the_lines_and_the_growers_own(self) -> None:
        """2 to 8 °C, and 4.5 °C where it is set."""
        made = readings(season(aims={"alarm_c": 4.5}))
        curve = line(hourly([9.0, 9.0]).values)
        assert [one.alarm_c for one in alarms(made, curve)] == [2, 3, 4, 4.5, 5, 6, 7, 8]
        assert alarms(made, None) == ()

    def test_hours_of_a_day_in_spells(self) -> None:
        """22 h to 3 h of the next day: two and three hours; an hour on the third."""
        made = readings(season("2026-01-05", "2026-01-07"))
        zero = ZERO.timestamp()
        found = _by_day(made, [(zero + 22 * H, zero + 27 * H), (zero + 50 * H, zero + 51 * H)])
        assert found.tolist() == pytest.approx([2.0, 3.0, 1.0])
        assert _by_day(made, []).tolist() == [0.0, 0.0, 0.0]

    def test_three_hot_days_running_open_their_week(self) -> None:
        """Two, a pause, then three from Saturday the 10th to Monday the 12th: the week of Monday the 12th."""
        hours = pd.Series([1, 1, 0, 0, 0, 2, 2, 2, 2, 0], index=JAN[4:14])
        assert _opening(hours) == JAN[11]
        assert _opening(hours.iloc[:7]) is None

    def test_hot_hours_need_a_screened_logger(self) -> None:
        """Over 25 °C from noon to 2 h on the 5th; ± 1 K; a logger in the sun tells nothing."""
        values = np.full(28 * 24 + 1, 20.0)
        values[12:15] = 30.0
        of = season(loggers=(logger("bench", main=True),))
        band, weeks, opens, why = hot(readings(of, channels=(hourly(values, accuracy=1.0),)))
        assert (band.estimate, band.low, band.high, why) == (
            pytest.approx(3.0),
            pytest.approx(2.8),
            pytest.approx(3.2),
            "",
        )
        assert weeks["hours"].tolist() == pytest.approx([3.0, 0.0, 0.0, 0.0]) and opens is None
        assert weeks["week"].tolist()[:2] == [JAN[4], JAN[11]]
        bare = season(loggers=(logger("bench", main=True, shielded=False),))
        assert hot(readings(bare, channels=(hourly(values),)))[3] == "bench is not screened from the sun"
        assert hot(readings(of, channels=(hourly(values),)))[3] == "no accuracy given for bench"
        assert hot(readings(of))[3] == "no crop air temperature"


class TestCrops:
    def test_bands_of_the_sources(self) -> None:
        """Table 2 of PMC10202904: −4 to −2 °C lettuce, −7 to −4 kale; spinach −16 to −12 (Tamura 2002). The grower's
        own figure comes first, whatever the case of the name."""
        made = readings(season(crops=({"name": "Kale", "damage_below_c": (-9.0, -6.0)},)))
        assert band_of(made, "LETTUCE") == BANDS["lettuce"] and BANDS["lettuce"][:2] == (-4.0, -2.0)
        assert BANDS["kale"][:2] == (-7.0, -4.0) and BANDS["spinach"][:2] == (-16.0, -12.0)
        assert BANDS["tomato"][:2] == (0.0, 5.0) and BANDS["potato"][:2] == (-2.0, 0.0)
        assert band_of(made, "kale") == (-9.0, -6.0, "your own figure in season.toml")
        assert band_of(made, "triffid") is None
        from_memory = {  # from memory: lists of growers and garden advisers
            "leek": (-18, -12), "corn salad": (-20, -14), "chard": (-10, -5), "beet": (-5, -1), "beetroot": (-5, -1),
        }  # fmt: skip
        assert {name: BANDS[name][:2] for name in from_memory} == from_memory
        table_2 = {(0, 5): 2, (-2, 0): 4, (-4, -2): 5, (-7, -4): 9}
        listed = [band[:2] for band in BANDS.values() if "PMC10202904" in band[2]]
        assert {band: listed.count(band) for band in table_2} == table_2 and len(listed) == 20

    def test_what_stood_when(self) -> None:
        """Planted before the season and cleared on the 10th: to the evening of the 9th; sown only; no date: assumed;
        cleared before the season: not there. Without plantings every crop named or picked, all winter."""
        rows = (
            planting("kale", "a", "2025-12-01", "2026-01-10"),
            replace(planting("peas", "b", "2026-01-08"), planted=None, sown=JAN[7]),
            replace(planting("leek", "c", "2026-01-08"), planted=None),
            planting("beet", "d", "2025-11-01", "2026-01-05"),
        )  # fmt: skip
        found = standing(readings(plantings=rows))
        assert [(s.crop, s.first.day, s.last.day, s.assumed) for s in found] == [
            ("kale", 5, 9, False), ("peas", 8, 1, False), ("leek", 5, 1, True),
        ]  # fmt: skip
        named = standing(readings(season(crops=({"name": "chard"},)), harvest=(picking("2026-01-08", 1.0, "chard"),)))
        assert [(s.crop, s.assumed) for s in named] == [("chard", True)]

    def test_each_crop_at_its_own_place(self) -> None:
        """Kale in bed north by the door, −1 °C there at the lowest; lettuce in a bed of no logger: the coldest place.
        Lettuce (damage from −2 °C) stood 1 K clear of it; kale (−4 °C) 3 K. In the night of the 5th lettuce was the
        tenderest."""
        door = np.full(28 * 24 + 1, 4.0)
        door[27] = -1.0
        of = season(loggers=(logger("bench", main=True), logger("door", beds=("north",))))
        made = readings(
            of, channels=(hourly([5.0] * len(door)), hourly(door, "door")),
            plantings=(
                planting("kale", "north", "2026-01-05", lost=0.0),
                planting("lettuce", "south", "2026-01-05", "2026-01-08"),
            ),
        )  # fmt: skip
        airs = air_lines(made)
        assert place_of(made, airs, "north")[0] == "door" and place_of(made, airs, None) == ("coldest place", None)
        table = night_table(made, airs, None)
        table["without_heat_c"] = np.where(np.arange(28) == 2, -9.0, NAN)
        (kale, lettuce), nightly = crop_margins(made, airs, airs[1][1], table)
        assert (kale.place, kale.coldest_c, kale.margin_k, kale.survived_c) == ("door", -1.0, 3.0, -1.0)
        assert kale.coldest_at == ZERO + pd.Timedelta("27h") and kale.week_before_c is None
        assert (lettuce.place, lettuce.margin_k, lettuce.survived_c) == ("coldest place", 1.0, None)
        assert kale.without_heat_c == pytest.approx(
            -10.0
        )  # a kelvin colder there than at the main logger, by the median
        assert lettuce.without_heat_c == pytest.approx(-10.0)
        assert nightly["tenderest"].tolist()[:5] == ["lettuce"] * 3 + ["kale"] * 2
        assert nightly["tenderest_margin_k"].tolist()[:4] == pytest.approx([1.0, 6.0, 6.0, 8.0])

    def test_a_crop_meets_the_nights_it_stood_through(self) -> None:
        """−3 °C at 03:00 of the 8th: met by what was cleared that day, whatever the hour, not by what was planted on
        it; −4 °C at 02:00 of the first day, by what stood when the season began."""
        air = np.full(28 * 24 + 1, 5.0)
        air[2], air[75] = -4.0, -3.0
        made = readings(
            season(loggers=(logger("bench", main=True),)), channels=(hourly(air),),
            plantings=(
                planting("peas", "a", "2026-01-07", "2026-01-08"),
                planting("peas", "b", "2026-01-08", "2026-01-12"),
                planting("peas", "c", "2025-12-01", "2026-01-07"),
            ),
        )  # fmt: skip
        airs = air_lines(made)
        table = night_table(made, airs, None).assign(without_heat_c=NAN)
        rows, _ = crop_margins(made, airs, airs[0][1], table)
        assert [row.coldest_c for row in rows] == [-3.0, 5.0, -4.0]

    def test_the_week_before_a_night(self) -> None:
        """The mean of the seven evenings before the 12th, of four known ones at least."""
        lows = pd.Series([100.0, 1, 2, 3, 4, 5, 6, 7, 100.0], index=JAN[3:12])
        at = pd.Timestamp("2026-01-13 03:00", tz=ZONE)
        assert _week_before(lows, at) == pytest.approx(4.0)
        assert _week_before(lows.iloc[4:], at) == pytest.approx(5.5)
        assert _week_before(lows.iloc[5:], at) is None and _week_before(lows, None) is None


class TestFailure:
    def test_the_hold_of_each_stretch_between_entries(self) -> None:
        """6 °C at night up to the 7th, 8 °C from the evening of the 7th on: a change of the thermostat on that day. By
        day (15 °C) and unheated nothing counts."""
        n = np.arange(24 * 6)
        local = n % 24
        hours = pd.DataFrame(
            {
                "inside": np.where((local >= 20) | (local < 6), np.where(n < 60, 6.0, 8.0), 15.0),
                "clock_h": local,
                "heated": 1.0,
                "night": [(ZERO + pd.Timedelta(hours=int(h) - 12)).date() for h in n],
            },
            index=pd.date_range(ZERO, periods=len(n), freq="1h"),
        )
        made = readings(diary=(entry(7, "change", touches=("thermostat",)), entry(9, "event", touches=("heater",))))
        found = hold_by_hour(made, hours)
        assert found[n < 60].tolist() == [6.0] * 60 and found[n >= 60].tolist() == [8.0] * 84
        assert set(hold_by_hour(readings(), hours)) == {8.0}
        spell = readings(diary=(entry(6, "spell", 6, touches=("thermostat",)),))
        assert len(set(zip(hold_by_hour(spell, hours), hours["night"], strict=True))) == 7
        cold = hours.assign(heated=np.where(n < 60, 1.0, 0.0))
        assert hold_by_hour(made, cold)[n >= 60].isna().all()

    def test_the_hold_is_of_the_heated_hours_from_20_to_6_h(self) -> None:
        """9 °C at 19 h and at 6 h, 5 °C between: 5. By day, or unheated, nothing tells a hold."""
        clock = np.arange(24.0)
        index = pd.date_range(ZERO, periods=24, freq="1h")
        dark = (clock >= 20) | (clock < 6)
        hours_ = pd.DataFrame(
            {"night": JAN[4], "clock_h": clock, "inside": np.where(dark, 5.0, 9.0), "heated": 1.0}, index=index
        )
        assert set(hold_by_hour(readings(), hours_)) == {5.0}
        few = hours_.assign(heated=np.isin(clock, (5, 6, 19, 20)).astype(float), inside=clock)
        assert set(hold_by_hour(readings(), few)) == {12.5}  # of the hours 5 and 20
        assert hold_by_hour(readings(), hours_.assign(heated=(~dark).astype(float))).isna().all()

    def test_a_run_that_cannot_be_a_failure(self) -> None:
        """Held at 6 and 8 °C: 6 °C or more all along is not 2 K under any hold; a reading just before the run, between
        which and the next it begins, counts; without readings or a hold nothing can be."""
        hold = pd.Series([6.0, 8.0, NAN])
        zero = ZERO.timestamp()

        def warm(values: list[float], first_h: float = 0.0, end_h: float = 3.0, held: pd.Series = hold) -> bool:
            curve = line(pd.Series(values, index=pd.date_range(ZERO, periods=len(values), freq="1h"), dtype=float))
            return _stayed_warm(curve, zero + 3600 * first_h, zero + 3600 * end_h, held)

        assert warm([6.0, 7.0, 6.0, 9.0]) is True and warm([6.0, 5.9, 6.0, 9.0]) is False
        assert warm([5.0, 7.0, 7.0, 7.0, 5.0, 5.0], 0.5, 2.5) is False and warm([5.0, 5.0, 7.0, 7.0, 7.0], 2.5) is True
        assert warm([7.0, 7.0, 7.0, 7.0, 5.0], 0.0, 3.5) is False and warm([7.0, 7.0, 7.0, 7.0, 5.0], 0.0, 2.5) is True
        assert warm([]) is True and warm([1.0, 1.0], held=hold * NAN) is True

    def test_stretches_of_one_hold(self) -> None:
        """6, 6, –, 7, 7, 6 by the hour."""
        index = pd.date_range(ZERO, periods=6, freq="1h")
        found = _pieces(pd.Series([6.0, 6.0, NAN, 7.0, 7.0, 6.0], index=index))
        assert [(told([(a, b)])[0], c) for a, b, c in found] == [((0, 2), 6.0), ((3, 5), 7.0), ((5, 6), 6.0)]
        assert _pieces(pd.Series([], index=index[:0], dtype=float)) == []

    def test_nothing_is_made_up_of_a_failure_or_a_state(self) -> None:
        """By the diary, of the present house: only where it is said."""
        one = Failure(start=ZERO, end=ZERO, hours=0.0, minimum_c=0.0)
        assert (one.by_diary, one.source, one.line_crossed_after_min) == (False, None, None)
        state = StateLimit(state="", holding_limit_c=None, flat_out_c=None, nights=0)
        assert (state.present, state.flat_out_half_k, state.coldest_seen_c) == (False, None, None)

    def test_nights_that_a_failure_touches(self) -> None:
        """From 20 h of the 6th to noon sharp of the 7th: the evening of the 6th alone; a minute later also that of the
        7th, if it is a night of the season."""
        table = pd.DataFrame(index=JAN[4:7])

        def evenings(end: str) -> set[dt.date]:
            one = Failure(
                start=pd.Timestamp("2026-01-06 20:00", tz=ZONE), end=pd.Timestamp(end, tz=ZONE), hours=16.0,
                minimum_c=0.0, line_crossed_after_min=None, source=None, by_diary=False,
            )  # fmt: skip
            return failure_evenings((one,), table)

        assert evenings("2026-01-07 12:00") == {JAN[5]} and evenings("2026-01-07 12:01") == {JAN[5], JAN[6]}
        assert evenings("2026-01-08 13:00") == {JAN[5]}


class TestAhead:
    def test_when_the_frost_line_is_reached(self) -> None:
        """Under it after 3 h, between 3 and 8 h, later."""
        assert (_class(-0.1, -5.0, 0.0), _class(0.0, -0.1, 0.0), _class(0.0, 0.0, 0.0)) == (0, 1, 2)

    def test_a_row_of_the_table_after_a_failure(self) -> None:
        """No probe, nights alike: at −5 °C told 4 °C after 3 h and 1 °C after 8, hold 8: half-widths √(2.2² + (0.25 ·
        4)²) = 2.417 and √(1² + (0.22 · 7)²) = 1.836; low, middle and high reach a line of 2 °C in under 3 h, 3 to 8,
        over 8."""
        stopped = Stops(
            air_c={3: np.full(3, 4.0), 8: np.full(3, 1.0)}, outdoor_c={3: np.full(3, -5.0), 8: np.full(3, -5.0)},
            slope={3: 0.2, 8: 0.5}, kind="no probe",
        )  # fmt: skip
        found = _row(stopped, -5.0, 8.0, 2.0)
        assert found is not None
        assert (found.after_3h_c, found.after_8h_c, found.outdoor_c) == (pytest.approx(4.0), pytest.approx(1.0), -5.0)
        assert (found.after_3h.low, found.after_3h.high) == (
            pytest.approx(1.583, abs=1e-3),
            pytest.approx(6.417, abs=1e-3),
        )
        assert found.after_8h.low == pytest.approx(1.0 - 1.836, abs=1e-3)
        assert found.hours_to_line == "<3 or 3-8 or >8"
        floor = _row(replace(stopped, air_c={3: np.full(3, 4.0), 8: np.full(3, -9.0)}), -5.0, 8.0, 2.0)
        assert floor is not None and (floor.after_8h_c, floor.after_8h.low) == (-6.0, -6.0)
        warm = _row(replace(stopped, air_c={3: np.full(3, 3.0), 8: np.full(3, 7.5)}), -5.0, 8.0, 2.0)
        assert warm is not None and warm.after_8h_c == pytest.approx(3.0) and warm.after_8h.high == 8.0
        assert _row(stopped, -5.0, -3.9, 2.0) is None  # a band of 4.4 K over 2.1 K decides nothing

    def night(self, outdoor: float, half: float) -> tuple[WithoutHeat, pd.DataFrame, pd.DataFrame]:
        """Two nights told 1 and −2 °C, the second with that outdoor minimum."""
        found = WithoutHeat(estimate_c=np.zeros(2), half_k=np.zeros(2), season_c=-2.0, season_half_k=half)
        index = pd.Index(JAN[:2])
        nights = pd.DataFrame({"without_heat_c": [1.0, -2.0]}, index=index)
        return found, nights, pd.DataFrame({"outdoor_min": [0.0, outdoor]}, index=index)

    def test_the_coldest_of_the_nights_without_heat(self) -> None:
        """−2 ± 2 °C at −2.5 °C outdoors: not under −3.5. A band of 2 · 6 over 8 + 2.5 + 1 = 11.5 K decides nothing, one
        of 2 · 5.7 does. No night told: none."""
        reasons: dict[str, str] = {}
        told_ = _coldest(*self.night(-2.5, 2.0), 8.0, reasons)
        assert told_ is not None and (told_.estimate, told_.low, told_.high) == (-2.0, -3.5, 0.0) and not reasons
        assert _coldest(*self.night(-2.5, 5.7), 8.0, reasons) is not None
        assert _coldest(*self.night(-2.5, 5.75), 8.0, reasons) is not None  # just from outdoors to the hold
        assert _coldest(*self.night(-2.5, 6.0), 8.0, reasons) is None and "decide nothing" in reasons["without_heat"]
        assert _coldest(*self.night(-2.5, 6.0), None, {}) is not None
        found, nights, table = self.night(-2.5, 2.0)
        assert _coldest(found, nights * NAN, table, 8.0, reasons) is None
        assert reasons["without_heat"] == "no night is logged whole"

    def test_nights_of_a_plain_house(self) -> None:
        """100 W/K without capacity, 800 W, 8 °C over 0 °C outdoors: every night without heat 0 °C, never warmer than it
        was with heat, the band held between −1 °C and the air as it was. After a failure 0 °C at once; ten such nights;
        the flat-out temperature has its reason."""
        n = 24 * 16
        house = plain_house(plain_hours(n), plain_balance(n, kind="probe"))
        model = HouseModel(house=house, why="", first=JAN[4], whole=np.arange(15) != 3, states=())
        index = pd.Index([JAN[4] + dt.timedelta(k) for k in range(16)], name="date")
        table = pd.DataFrame(
            {"inside_min": 8.0, "outdoor_min": 0.0, "share": 1.0, "outdoor_share": 1.0, "heated_h": 15.0}, index=index
        )
        table.loc[index[5], "inside_min"] = -0.5
        found = ahead(model, table, 8.0, 0.0, -12.0)
        nights = found.nights
        assert nights["without_heat_c"].isna().tolist() == [k in (3, 15) for k in range(16)]
        assert nights["without_heat_c"].iloc[0] == pytest.approx(0.0) and nights["without_heat_c"].iloc[5] == -0.5
        half = np.hypot(1.1, 0.17 * 8.0)
        assert nights["without_heat_low_c"].iloc[0] == pytest.approx(-1.0)
        assert nights["without_heat_high_c"].iloc[0] == pytest.approx(half)
        assert nights["without_heat_high_c"].iloc[5] == -0.5
        assert found.stopped_nights == 15 and "rated_power_w" in found.reasons["heater_flat_out_c"]
        assert found.after and found.after[0].outdoor_c == 0.0 and found.may_fall_to_c is None
        none = ahead(replace(model, house=None, why="no balance"), table, 8.0, 0.0, None)
        assert isinstance(none, Ahead) and none.season is None and set(none.reasons.values()) == {"no balance"}
        no_hold = ahead(model, table, None, 0.0, None)
        assert "too few heated night hours" in no_hold.reasons["after_failure"]

    def test_a_gap_is_told_by_the_house_where_it_has_a_line_and_by_unheated_nights_where_not(self) -> None:
        """Eight whole nights carry a line of the house; seven do not, and the nights without heat then stand for it."""
        n = 24 * 16
        house = plain_house(plain_hours(n, temp_outdoor_c=np.sin(np.arange(n) / 40.0)), plain_balance(n, kind="probe"))
        index = pd.Index([JAN[4] + dt.timedelta(k) for k in range(16)], name="date")
        outdoors = np.linspace(-6.0, 3.0, 16)
        table = pd.DataFrame(
            {"inside_min": 0.5 * outdoors + 3.0, "outdoor_min": outdoors, "share": 1.0, "outdoor_share": 1.0,
             "heated_h": 0.0}, index=index,
        )  # fmt: skip
        for told, kind in ((8, NightLine), (7, Regression)):
            model = HouseModel(house=house, why="", first=JAN[4], whole=np.arange(15) < told, states=())
            assert isinstance(ahead(model, table, 8.0, 0.0, None).in_gap, kind)
        assert ahead(model, table.assign(heated_h=9.0), 8.0, 0.0, None).in_gap is None


class TestPage:
    def test_what_the_diary_says_of_a_night(self) -> None:
        """Of its evening and the morning after, each once; an idea is not said; a spell that lasts is."""
        made = readings(
            diary=(
                entry(9, "change", what="early"), entry(10, "change", what="film"), entry(11, "event", what="door"),
                entry(11, "event", what="door"), entry(10, "idea", what="stove"), entry(7, "spell", 10, what="fleece"),
                entry(12, "change", what="late"), entry(6, "spell", 9, what="gone"),
            )
        )  # fmt: skip
        assert _entries(made, JAN[9]) == "film; door; fleece"

    def test_absences(self) -> None:
        """From the 8th to the 9th two nights, −1 °C at the lowest, six hours without a reading; one that ended before
        the season is none; one that began before it counts from its first day."""
        values = np.full(28 * 24 + 1, 4.0)
        values[3 * 24 + 5] = -1.0
        lost = without(hourly(values).values, 96, 102)
        made = readings(
            season(loggers=(logger("bench"),)), diary=(entry(8, "away", 9), entry(1, "away", 3), entry(2, "away", 5))
        )
        first, second = _away(made, line(lost))
        assert (first.start, first.end, first.nights) == (JAN[7], JAN[8], 2)
        assert (first.coldest_c, first.blind_hours) == (-1.0, pytest.approx(6.0))
        assert (second.start, second.end, second.nights, second.blind_hours) == (JAN[4], JAN[4], 1, 0.0)
        assert _away(made, None)[0].coldest_c is None and _away(made, None)[0].blind_hours == pytest.approx(48.0)

    def test_how_clear_a_day_was(self) -> None:
        """The same light every hour: its day's sum over that of a clear sky (reportgen.sun), 100 W/m² · 24 h; a day of
        which under four fifths is recorded has none; nor has a season without a place."""
        from reportgen.sun import clear_sky_sum

        at = pd.date_range(ZERO, periods=24 * 2 + 8, freq="1h")
        light = channel(pd.Series(100.0, index=at), "solar_radiation", "garden", where="outdoor")
        of = season("2026-01-05", "2026-01-07", place={"latitude": 50.0}, loggers=(logger("garden", where="outdoor"),))
        found = _clear(readings(of, channels=(light,)), JAN[4:7])
        clear = clear_sky_sum(JAN[4:7], 50.0)
        assert found[:2] == pytest.approx([2400.0 / clear[0], 2400.0 / clear[1]]) and np.isnan(found[2])
        assert np.isnan(_clear(readings(of), JAN[4:7])).all()
        polar = season(
            "2026-01-05", "2026-01-07", place={"latitude": 80.0}, loggers=(logger("garden", where="outdoor"),)
        )
        assert np.isnan(_clear(readings(polar, channels=(light,)), JAN[4:7])).all()
