"""Light by the day, heat by the hour, and what a season has: by hand on small cases."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from heated_house import hours, supply
from made_season import ZONE, channel, heater, logger, readings, season

from reportgen.measures.heating_hours import (
    HEATERS,
    LOGGED,
    LOOSE,
    heat_between,
    heat_by_day,
    heat_by_hour,
    heat_curves,
    heated_hours,
    hourly_mean,
    hours_of,
    local_midnights,
)
from reportgen.measures.light_daily import (
    FAINT_MOL,
    _seen,
    _share_of_clear,
    daily_integral_mol,
    daily_light,
    lamp_hours,
    quanta_of_radiation_mol,
    runs,
)
from reportgen.measures.there import There, dark_half, days_lengthen, diary_covers, is_winter, outdoors_named
from reportgen.readings.types import DiaryEntry

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
NAN = float("nan")


class TestLight:
    def test_units(self) -> None:
        """100 µmol/m²s for 10 h are 3.6 mol; 10 MJ are 21.1 mol (Britton and Dodd 1976); 7.2 mol are 10 h of 200."""
        assert daily_integral_mol(np.array([100.0]), 10.0) == pytest.approx([3.6])
        assert quanta_of_radiation_mol(np.array([10.0])) == pytest.approx([21.1])
        assert quanta_of_radiation_mol(np.array([10.0]), 1.8) == pytest.approx([18.0])
        assert lamp_hours([7.2, 0.0, -1.0], 200.0) == pytest.approx([10.0, 0.0, 0.0])

    def table(self, inside: list[float], outdoors: list[float], clear: list[float]) -> pd.DataFrame:
        """Days of light."""
        return pd.DataFrame({"inside_mol": inside, "outdoor_mol": outdoors, "clear_mol": clear})

    def test_the_share_of_a_clear_day(self) -> None:
        """Outdoors over the equation's; inside over what the brightest days let through, of twenty days at least; a sun
        that brings under half a mol is none."""
        out = self.table([NAN] * 3, [5.0, 2.0, 1.0], [10.0, 10.0, FAINT_MOL - 0.01])
        assert _share_of_clear(out).tolist() == pytest.approx([0.5, 0.2, NAN], nan_ok=True)
        inside = self.table([float(n) for n in range(21)], [NAN] * 21, [10.0] * 21)
        assert _share_of_clear(inside).tolist() == pytest.approx([n / 19.0 for n in range(21)])
        assert _share_of_clear(inside.iloc[:20]).notna().all() and _share_of_clear(inside.iloc[:19]).isna().all()

    def test_what_the_cover_lets_through(self) -> None:
        """Ten days of 6 under 10: six tenths; of nine days nothing."""
        days = self.table([6.0] * 10, [10.0] * 10, [10.0] * 10)
        assert _seen(days) == pytest.approx(0.6) and _seen(days.iloc[:9]) is None
        assert _seen(self.table([0.0] * 10, [0.0] * 10, [1.0] * 10)) is None

    def test_runs_of_days(self) -> None:
        """Two, one and two days: of two equal ones the earlier first; a least of none counts single days."""
        flags = pd.Series([1, 1, 0, 1, NAN, 1, 1.0], index=JAN[:7])
        assert [(run.start.day, run.end.day, run.days) for run in runs(flags, 2)] == [(1, 2, 2), (6, 7, 2)]
        assert [run.days for run in runs(flags, 0)] == [2, 2, 1]

    def light(self, measure: str, where: str, value: float, **more: Any) -> Any:
        """Steady light all day and night, by ten minutes."""
        at = pd.date_range(ZERO, periods=144 * 3 + 1, freq="10min")
        one = channel(pd.Series(value, index=at), measure, "bench" if where == "crop" else "garden", where=where)
        of = season(
            "2026-01-05", "2026-01-07", loggers=(logger("bench"), logger("garden", where="outdoor")),
            place={"latitude": 50.0}, **more,
        )  # fmt: skip
        return daily_light(readings(of, channels=(one,)))

    def test_from_whatever_sensor_there_is(self) -> None:
        """100 µmol/m²s for a day are 8.64 mol; 100 W/m² 8.64 MJ, 18.23 mol; from outdoors six tenths of it; a negative
        reading is none."""
        share = {"house": {"light_transmission": 0.6}}
        for measure, where, kind, mol in (
            ("ppfd", "crop", "quanta inside", 8.64), ("solar_radiation", "crop", "radiation inside", 8.64 * 2.11),
            ("ppfd", "outdoor", "quanta outdoors", 8.64 * 0.6),
            ("solar_radiation", "outdoor", "radiation outdoors", 8.64 * 2.11 * 0.6),
        ):  # fmt: skip
            found = self.light(measure, where, 100.0, **share)
            assert (found.kind, found.logger) == (kind, "bench" if where == "crop" else "garden")
            assert found.table["inside_mol"].tolist() == pytest.approx([mol] * 3)
            assert found.transmission == (0.6 if where == "outdoor" else None)
        assert self.light("ppfd", "crop", -1.0).table["inside_mol"].tolist() == [0.0] * 3
        dim = self.light("solar_radiation", "outdoor", 10.0, **share).table
        assert dim["gloomy"].tolist() == [1.0 if s < 1 / 3 else 0.0 for s in dim["share"]]
        assert self.light("ppfd", "outdoor", 1.0).kind == "none"


class TestHours:
    AT = hours(days=3)

    def made(self, *heaters: Any, appliances: tuple[Any, ...] = ()) -> Any:
        """Three days with these."""
        return replace(readings(season("2026-01-05", "2026-01-07")), heating=heaters, appliances=appliances)

    def test_a_small_heater_on_a_meter_is_bounded_and_does_not_hide_the_hours(self) -> None:
        """1000 W by the hour; a mat of 90 W, 2.16 kWh a day on a meter: spread evenly (no outdoor air) 90 W in every
        hour; at the most its rated power, or all of its sum in ten hours. One of 110 W, over a tenth of the largest
        hour, leaves the hours unknown on days on which it carries more than a tenth."""
        fan = supply(self.AT, np.full(72, 1000.0))
        mat = heater([("2026-01-05", "2026-01-08", 6.48, 0.0)], name="mat", rated_power_w=90.0)
        table = heat_by_hour(self.made(fan, mat))
        assert table[LOGGED].tolist() == pytest.approx([1000.0] * 72)
        assert table[HEATERS].tolist() == pytest.approx([1090.0] * 72)
        assert table[LOOSE].tolist() == pytest.approx([90.0] * 72)
        little = replace(mat, intervals=mat.intervals.assign(heat_kwh=[0.3]))
        assert heat_by_hour(self.made(fan, little))[LOOSE].tolist() == pytest.approx([30.0] * 72)
        strong = heat_by_hour(self.made(fan, replace(mat, rated_power_w=110.0)))
        assert strong[HEATERS].notna().all()  # 2.16 of 26.16 kWh a day is under a tenth
        heavy = replace(mat, rated_power_w=500.0, intervals=mat.intervals.assign(heat_kwh=[3 * 24 * 0.2]))
        assert heat_by_hour(self.made(fan, heavy))[HEATERS].isna().all()

    def test_an_hour_is_known_with_four_fifths_of_it(self) -> None:
        """A log that ends at 10:50 tells the hour from 10 h on by its fifty minutes; one that ends at 10:40 does
        not."""
        fan = supply(self.AT, np.full(72, 600.0))
        for minutes, known in ((50, True), (40, False)):
            table = fan.intervals.iloc[:11].copy()
            table.loc[10, "end"] = table.loc[10, "start"] + pd.Timedelta(minutes=minutes)
            watts = heat_by_hour(self.made(replace(fan, intervals=table)))["fan heater"]
            assert bool(np.isfinite(watts.iloc[10])) is known and np.isnan(watts.iloc[11])
            if known:
                assert watts.iloc[10] == pytest.approx(600.0 * 60 / 50)

    def test_between_two_instants(self) -> None:
        """Half an hour of 600 W is 0.3 kWh at 0.30: 0.09; known all of it. Two heaters: the less known one counts;
        lamps count where asked."""
        fan = supply(self.AT, np.full(72, 600.0))
        lamp = replace(supply(self.AT, np.full(72, 100.0)), name="lamp", role="appliance", fuel="electricity")
        of = self.made(fan, appliances=(lamp,))
        starts = np.array([ZERO.timestamp() + 1800.0])
        both = heat_between(of, starts, starts + 1800.0)
        alone = heat_between(of, starts, starts + 1800.0, appliances=False)
        assert (both.kwh[0], alone.kwh[0]) == (pytest.approx(0.35), pytest.approx(0.3))
        assert alone.cost[0] == pytest.approx(0.09) and alone.known[0] == pytest.approx(1.0) and not alone.spread[0]
        half = replace(fan, name="other", intervals=fan.intervals.iloc[1:].reset_index(drop=True))
        two = self.made(fan, half)
        zero = np.array([ZERO.timestamp()])
        assert heat_between(two, zero, zero + 7200.0).known[0] == pytest.approx(0.5)
        assert heat_between(self.made(), zero, zero + 1.0).known.tolist() == [0.0]
        day = heat_by_day(of)
        assert day["appliances_kwh"].tolist() == pytest.approx([2.4] * 3)
        assert day["appliances_cost"].tolist() == pytest.approx([0.72] * 3)

    def test_a_curve_of_a_heater(self) -> None:
        """By the hour where at least half of its heat is known so; its rated power times what it gives for what it
        draws."""
        fan = supply(self.AT, np.full(72, 600.0), rated_power_w=1000.0)
        table = fan.intervals.copy()
        for part, fine in ((0.5, True), (0.49, False)):
            table["sparse"] = np.arange(72) >= round(72 * part)
            (curve,) = heat_curves(self.made(replace(fan, intervals=table)))
            assert curve.by_hour is fine
        (curve,) = heat_curves(self.made(fan))
        assert curve.most_w == 1000.0 and curve.sums == ()
        empty = replace(fan, intervals=fan.intervals.iloc[:0])
        (curve,) = heat_curves(self.made(empty))
        assert not curve.by_hour and curve.between("kwh", np.zeros(2), np.ones(2)).tolist() == [0.0, 0.0]

    def test_a_sum_without_any_cold_is_spread_by_time(self) -> None:
        """12 °C outdoors all along, over the aim of 8: nothing pulls, and 4.8 kWh of two days are 0.1 an hour."""
        edge = pd.date_range(ZERO, periods=73, freq="1h")
        of = season("2026-01-05", "2026-01-07", aims={"hold_c": 8.0}, loggers=(logger("yard", where="outdoor"),))
        made = readings(of, channels=(channel(pd.Series(12.0, index=edge), logger="yard", where="outdoor"),))
        made = replace(made, heating=(heater([("2026-01-05", "2026-01-07", 4.8, 1.0)]),))
        starts = ZERO.timestamp() + 3600.0 * np.arange(72)
        found = heat_between(made, starts, starts + 3600.0)
        assert (
            found.kwh == pytest.approx([0.1] * 48 + [0.0] * 24) and found.spread.tolist() == [True] * 48 + [False] * 24
        )

    def test_heated_hours(self) -> None:
        """Over 2 % of the largest: 21 of 1000 W; unknown stays unknown; a season without heat has none."""
        at = hours_of(readings(season("2026-01-05", "2026-01-05")))[:4]
        table = pd.DataFrame({HEATERS: [1000.0, 20.0, 21.0, NAN]}, index=at)
        assert heated_hours(table).tolist() == pytest.approx([1.0, 0.0, 1.0, NAN], nan_ok=True)
        assert heated_hours(table * 0).tolist() == pytest.approx([0.0, 0.0, 0.0, NAN], nan_ok=True)
        by_log = table.assign(**{LOGGED: [0.0, 5.0, 0.0, 0.0]})
        assert heated_hours(by_log).tolist() == [0.0, 1.0, 0.0, 0.0]

    def test_midnights_and_hours_of_a_clock_change(self) -> None:
        """29 March 2026 has 23 hours in Prague."""
        of = readings(season("2026-03-28", "2026-03-30"))
        days = [dt.date(2026, 3, n) for n in (28, 29, 30)]
        assert np.diff(local_midnights(days, of)).tolist() == [86_400.0, 82_800.0, 86_400.0]
        assert len(hours_of(of)) == 71

    def test_a_mean_of_an_hour_needs_four_fifths_of_it(self) -> None:
        """Readings every ten minutes up to 0:50 tell the first hour, up to 0:40 not."""
        at = pd.DatetimeIndex([ZERO])
        for last, known in ((6, True), (5, False)):
            values = pd.Series(range(last), index=pd.date_range(ZERO, periods=last, freq="10min"), dtype=float)
            found = hourly_mean(values, at)
            assert bool(np.isfinite(found[0])) is known
            assert not known or found[0] == pytest.approx(2.5)


def entry(day: int, kind: str = "change", until: int | None = None) -> DiaryEntry:
    """A line of the diary in January."""
    return DiaryEntry(
        line=2, date=JAN[day - 1], time=None, kind=kind, what="", touches=(), reversible=None, hoped_for=(),
        until=JAN[until - 1] if until else None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


class TestThere:
    @pytest.mark.parametrize(
        ("day", "latitude", "dark"),
        [
            ((3, 19), 50.0, True), ((3, 20), 50.0, False), ((9, 21), 50.0, False), ((9, 22), 50.0, True),
            ((6, 21), -40.0, True), ((12, 21), -40.0, False), ((1, 10), 0.0, True),
        ],
    )  # fmt: skip
    def test_the_darker_half_of_the_year(self, day: tuple[int, int], latitude: float, dark: bool) -> None:
        """From the autumn equinox (22 September) to that of spring (20 March), in the south the other half."""
        assert dark_half(dt.date(2026, *day), latitude) is dark

    @pytest.mark.parametrize(
        ("day", "latitude", "longer"),
        [
            ((12, 20), 50.0, False), ((12, 21), 50.0, True), ((6, 20), 50.0, True), ((6, 21), 50.0, False),
            ((12, 21), -40.0, False), ((6, 21), -40.0, True), ((6, 21), None, None),
        ],
    )  # fmt: skip
    def test_when_days_grow_longer(self, day: tuple[int, int], latitude: float | None, longer: bool | None) -> None:
        """From the winter solstice to the summer one of the hemisphere."""
        assert days_lengthen(dt.date(2026, *day), latitude) is longer

    def test_a_winter_is_mostly_dark(self) -> None:
        """15 March to 24 March has five days before the equinox of ten: half is enough; a day more is not; no winter
        within the tropics or without a latitude."""

        def winter(first: str, last: str, latitude: float | None) -> bool:
            return is_winter(season(first, last, place={} if latitude is None else {"latitude": latitude}))

        assert winter("2026-03-15", "2026-03-24", 50.0) and not winter("2026-03-15", "2026-03-25", 50.0)
        assert not winter("2026-03-15", "2026-03-24", None) and not winter("2026-01-05", "2026-01-10", 23.3)
        assert winter("2026-01-05", "2026-01-10", 23.5) and not winter("2026-01-05", "2026-01-10", -40.0)
        assert (There(winter=True).season, There(winter=False).season) == ("winter", "season")

    def test_what_nobody_looked_up_counts_as_there(self) -> None:
        """So that no sentence sends for a thing on no ground."""
        one = There()
        unlooked = {name: getattr(one, name) for name in There.__dataclass_fields__}
        assert all(value is True for value in unlooked.values() if isinstance(value, bool))
        assert {name for name, value in unlooked.items() if not isinstance(value, bool)} == {"seldom", "unheard"}
        assert not one.seldom and not one.unheard

    def test_when_the_diary_was_kept(self) -> None:
        """From its first line to its last, or the end of a spell; an idea is no keeping."""
        made = readings(diary=(entry(8), entry(10, "spell", 14), entry(25, "idea")))
        assert [n for n in range(1, 32) if diary_covers(made, JAN[n - 1])] == list(range(8, 15))
        assert not diary_covers(readings(), JAN[9])

    def test_a_thermometer_outdoors_is_named(self) -> None:
        """Air at a logger outdoors, or outdoor air at any logger; not humidity outdoors."""
        for loggers, named in (
            ((logger("garden", where="outdoor"),), True), ((logger("bench"),), False),
            ((logger("bench", "outdoor_temperature"),), True),
            ((logger("garden", "relative_humidity", where="outdoor"),), False),
        ):  # fmt: skip
            assert outdoors_named(season(loggers=loggers)) is named

    def test_what_a_season_has(self) -> None:
        """Hourly crop air and humidity; a soil probe read twice a day: too seldom; a light sensor that left nothing:
        unheard."""
        at = pd.date_range(ZERO, periods=48, freq="1h")
        soil = pd.Series(9.0, index=pd.date_range(ZERO, periods=9, freq="12h"))
        bench = logger("bench").model_copy(update={"measures": {
            **logger("bench").measures, **logger("x", "ppfd").measures, **logger("x", "relative_humidity").measures,
        }})  # fmt: skip
        of = season(loggers=(bench, logger("bed", "soil_temperature")))
        made = readings(
            of,
            channels=(
                channel(pd.Series(5.0, index=at)),
                channel(pd.Series(80.0, index=at), "relative_humidity"),
                channel(soil, "soil_temperature", "bed", step_s=43_200.0),
            ),
            diary=(),
        )
        there = There.of(made)
        assert there.crop_air and there.crop_humidity and not there.outdoor_air and not there.soil and not there.light
        assert (there.seldom, there.unheard) == (frozenset({"soil"}), frozenset({"ppfd"}))
        assert there.logged("soil") and there.logged("crop_air") and not there.logged("light")
        assert there.diary and not there.diary_lines and not there.heater and not there.latitude and not there.winter
        assert not there.dehumidifier and not there.inspections and not there.outdoor_named
