"""The parts of the damp page, each by hand on a small case."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen import air
from reportgen.measures.damp import _classes, _longest, damp
from reportgen.measures.damp_air import Moist, glazing_excess_k, inside, mean_of, outdoor_at, time_in
from reportgen.measures.damp_airing import Shift, airing_curve, airing_ends, airing_hours, outdoors_covered
from reportgen.measures.damp_mould import WetSpell, class_of, logit, mould_seen, wet_spells
from reportgen.measures.damp_tables import airing, by_clock, by_hour, by_month, by_night, dampest_month, noon_and_night
from reportgen.measures.exposure import line
from reportgen.readings.types import Inspection, Readings

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
NAN = float("nan")


def hourly(values: Any) -> pd.Series:
    """Readings by the hour from midnight of 5 January on."""
    return pd.Series(np.asarray(values, float), index=pd.date_range(ZERO, periods=len(values), freq="1h"))


def made(
    rh: Any, temp: Any = 15.0, out: tuple[Any, Any] | None = None, last: str = "2026-01-07", **more: Any
) -> Readings:
    """A house of that humidity and temperature by the hour, and the air outdoors."""
    values = hourly(rh)
    accuracy, outdoors = more.pop("accuracy", {}), {"logger": "yard", "where": "outdoor"}
    channels = [
        channel(values, "relative_humidity", accuracy=accuracy.get("rh")),
        channel(values * 0 + temp, accuracy=accuracy.get("temp")),
    ]
    if out is not None:
        channels += [
            channel(values * 0 + out[0], accuracy=accuracy.get("out"), **outdoors),
            channel(values * 0 + out[1], "relative_humidity", accuracy=accuracy.get("out_rh"), **outdoors),
        ]
    inspections = more.pop("inspections", ())
    loggers = (logger("bench", main=True), logger("yard", where="outdoor"))
    of = season("2026-01-05", last, loggers=loggers, **more)
    return readings(of, channels=tuple(channels), inspections=inspections)


def moist_of(of: Readings) -> Moist:
    """Its moist air."""
    found = inside(of)
    assert found is not None
    return found


class TestMould:
    def test_the_published_index_and_its_classes(self) -> None:
        """Broome et al. 1995: 10 h at 15 °C: −2.647866 + 10 · (−0.374927 + 0.924015 − 0.339975) = −0.556736; 20 h:
        1.534394. Classes at 0, 0.5 and 1."""
        assert logit(10.0, 15.0) == pytest.approx(-0.556736) and logit(20.0, 15.0) == pytest.approx(1.534394)
        indexes = (-1.0, 0.0, 0.01, 0.49, 0.5, 0.99, 1.0, 2.0)
        assert [class_of(x) for x in indexes] == [
            "none", "none", "low", "low", "moderate", "moderate", "high", "high",
        ]  # fmt: skip

    def test_wet_hours_over_dry_gaps_of_four_hours(self) -> None:
        """95 % from 0 to 5 h and from 9 to 14 h, 85 % between (over 90 % up to 5.5 h and from 8.5 h): one spell of 5.5
        + 6 h; with five hours more between them two. Its mean temperature weighs by time: 12 °C in the first part, 18
        in the second."""
        rh = np.full(49, 85.0)
        rh[:6], rh[9:15] = 95.0, 95.0
        temp = np.where(np.arange(49) < 7, 12.0, 18.0)
        (one,) = wet_spells(moist_of(made(rh, temp)))
        assert one.start == ZERO and one.end == ZERO + pd.Timedelta("14h30min")
        assert one.wet_h == pytest.approx(11.5)
        assert one.mean_c == pytest.approx((5.5 * 12 + 6 * 18) / 11.5)
        assert one.index == pytest.approx(logit(11.5, one.mean_c)) and one.klass == class_of(one.index)
        rh[6:] = 85.0
        rh[10:15] = 95.0  # from 5.5 to 9.5 h: just four hours
        assert len(wet_spells(moist_of(made(rh, temp)))) == 1
        rh[10] = 85.0
        assert len(wet_spells(moist_of(made(rh, temp)))) == 2

    def test_the_mean_temperature_of_a_spell_is_by_time(self) -> None:
        """From 12 to 22 °C by a kelvin an hour, and 4 K in the last: (12 + 22) / 2 over ten hours, then (22 + 26) / 2
        over one; a part whose temperature is not logged takes none."""
        temp = np.append(np.arange(12.0, 23.0), 26.0)
        (one,) = wet_spells(moist_of(made([95.0] * 12, temp)))
        assert one.mean_c == pytest.approx((17.0 * 10 + 24.0) / 11) and one.wet_h == pytest.approx(11.0)
        moist = moist_of(made([95.0] * 12, temp))
        lost = replace(moist, temp_c=np.where(np.arange(12) < 4, NAN, moist.temp_c))
        (part,) = wet_spells(lost)
        assert part.mean_c == pytest.approx((19.0 * 6 + 24.0) / 7) and part.wet_h == pytest.approx(11.0)

    def test_a_cold_spell_has_no_index_and_an_unknown_temperature_neither(self) -> None:
        """11.9 °C is too cold, 12 °C is not; without the logger's air temperature it is unknown."""
        for temp, klass in ((11.9, "too cold"), (12.0, "none")):
            (one,) = wet_spells(moist_of(made([95.0] * 6, temp)))
            assert one.klass == klass and np.isnan(one.index) == (klass == "too cold")
        whole = made([95.0] * 6)
        (one,) = wet_spells(moist_of(readings(whole.season, channels=whole.channels[:1])))
        assert one.klass == "unknown" and np.isnan(one.mean_c)

    def test_what_visits_found_beside_the_index(self) -> None:
        """A moderate spell from the 8th to the 9th: grey mould on the 16th (seven days after) was warned of, on the
        17th not, nor on the 7th; a 0, another trouble and a visit outside the season are not found."""

        def visit(day: int, found: str, level: int | None, month: int = 1) -> Inspection:
            return Inspection(
                line=2, date=dt.date(2026, month, day), bed=None, crop=None, found=found, level=level, action=""
            )

        def spell(klass: str) -> WetSpell:
            start, end = (pd.Timestamp(f"2026-01-0{n} 20:00", tz=ZONE) for n in (8, 9))
            return WetSpell(start=start, end=end, wet_h=9.0, mean_c=15.0, index=0.7, klass=klass)

        visits = (
            visit(16, "Grey mould", 1), visit(17, "leaf ROT", 2), visit(7, "mold", 1), visit(10, "mould", 0),
            visit(11, "aphids", 3), visit(12, "mould", None), visit(8, "fur", 1), visit(3, "mould", 3, month=3),
        )  # fmt: skip
        found = mould_seen([spell("moderate")], readings(inspections=visits))
        assert [day.day for day in found.found] == [7, 8, 16, 17]
        assert [day.day for day in found.warned] == [8, 16]
        assert [day.day for day in found.looked] == [7, 8, 10, 11, 12, 16, 17]
        assert mould_seen([spell("low")], readings(inspections=visits)).warned == ()


class TestAir:
    def test_time_of_stretches_in_spells(self) -> None:
        """Spells of 1–3 and 5–6 h: of 0–2 h one, of 2–6 h two, of 3–5 h none."""
        h = 3600.0
        spells = [(1 * h, 3 * h), (5 * h, 6 * h)]
        starts, ends = np.array([0, 2, 3.0]) * h, np.array([2, 6, 5.0]) * h
        assert time_in(spells, starts, ends) == pytest.approx([1.0, 2.0, 0.0])
        assert time_in([], starts, ends).tolist() == [0.0, 0.0, 0.0]

    def test_a_stamp_without_a_value_breaks_the_curve(self) -> None:
        """Of five stamps the third is missing: 0–1 and 3–4 h are joined; the mean of 1, 3 and 5, 5 by time is 3.5."""
        moist = moist_of(made([80.0] * 5, 15.0))
        curve = moist.curve(np.array([1.0, 3.0, NAN, 5.0, 5.0]))
        assert curve.joined.tolist() == [True, False, True] and mean_of(curve) == pytest.approx(3.5)
        assert mean_of(moist.curve(np.array([1.0, NAN, NAN, NAN, NAN]))) is None
        assert len(moist.curve(np.full(5, NAN)).values) == 0

    def test_shifted_humidity_stays_a_humidity(self) -> None:
        """98 + 5 is 100, 2 − 5 is 0."""
        assert moist_of(made([98.0, 50.0])).humidity(5.0).tolist() == [100.0, 55.0]
        assert moist_of(made([2.0, 50.0])).humidity(-5.0).tolist() == [0.0, 45.0]

    def test_how_far_the_dew_point_lies_above_the_pane(self) -> None:
        """15 °C and 80 %: dew point 11.6 °C (August 2005, Magnus: 17.625, 243.04); U 5.8, R 0.10: the pane lies 0.58 of
        the difference under the air: 15 − 0.58 · 10 = 9.2 °C at 5 °C outdoors: 2.4 K. Over a pane of −5 °C the frost
        point counts."""
        moist = moist_of(made([80.0, 80.0], 15.0))
        gamma = np.log(0.8) + 17.625 * 15 / (243.04 + 15)
        dew = 243.04 * gamma / (17.625 - gamma)
        found = glazing_excess_k(moist, np.full(2, 5.0), 5.8, 0.10, (0.0, 0.0))
        assert found == pytest.approx(np.full(2, dew - 9.2), abs=0.1)
        shifted = glazing_excess_k(moist, np.full(2, 5.0), 5.8, 0.10, (1.0, 0.0))
        assert shifted == pytest.approx(
            air.dew_point_c(np.array([16.0]), np.array([80.0]))[0] - (16 - 0.58 * 11), abs=1e-6
        )
        cold = moist_of(made([80.0, 80.0], 0.0))
        below = glazing_excess_k(cold, np.full(2, -10.0), 5.8, 0.10, (0.0, 0.0))
        frost = air.deposit_point_c(np.array([0.0]), np.array([80.0]))[0]
        assert below == pytest.approx(np.full(2, frost + 5.8), abs=1e-6)
        both = glazing_excess_k(cold, np.full(2, -10.0), 5.8, 0.10, (1.0, 5.0))  # pane at 1 − 0.58 · 11 = −5.38 °C
        frost = air.deposit_point_c(np.array([1.0]), np.array([85.0]))[0]
        assert both == pytest.approx(np.full(2, frost + 5.38), abs=1e-6)

    def test_the_air_outdoors_at_the_stamps(self) -> None:
        """What is logged, else nothing."""
        both = outdoor_at(made([80.0, 80.0], out=(3.0, 70.0)), np.array([ZERO.timestamp() + 1800.0]))
        assert (both[0].tolist(), both[1].tolist()) == ([3.0], [70.0])
        assert all(np.isnan(x).all() for x in outdoor_at(made([80.0, 80.0]), np.array([ZERO.timestamp()])))

    def test_the_longest_spell_and_the_counts_of_classes(self) -> None:
        """Of equal ones the first."""
        curve = line(hourly([90.0] * 5))
        zero = ZERO.timestamp()
        found = _longest([(zero, zero + 3600), (zero + 7200, zero + 14400), (zero + 18000, zero + 25200)], curve)
        assert (found.hours, found.start) == (2.0, ZERO + pd.Timedelta("2h"))
        assert _longest([], curve).hours is None

        def spell(klass: str) -> WetSpell:
            return WetSpell(start=ZERO, end=ZERO, wet_h=1.0, mean_c=1.0, index=0.0, klass=klass)

        counts = _classes(tuple(spell(k) for k in ("low", "low", "high", "moderate", "too cold", "none", "unknown")))
        assert (counts.low, counts.moderate, counts.high, counts.too_cold_for_equation) == (2, 1, 1, 1)


class TestAiring:
    OUT = (5.0, 60.0)

    def test_where_it_is_too_damp_and_drier_outside(self) -> None:
        """90 → 70 % within an hour: over 80 % for half of it; 15 °C inside and 5 °C outdoors, so that it is drier there
        all along. At 20 °C and 95 % outdoors it never is."""
        dry, wet = made([90.0, 70.0], out=self.OUT), made([90.0, 70.0], out=(20.0, 95.0))
        for of, hours in ((dry, 0.5), (wet, 0.0)):
            moist = moist_of(of)
            out = outdoor_at(of, moist.rh.seconds)
            assert airing_hours(airing_curve(moist, *out, 80.0)) == pytest.approx(hours)
        moist, out = moist_of(dry), outdoor_at(dry, moist_of(dry).rh.seconds)
        assert airing_hours(airing_curve(moist, *out, 80.0, Shift(rh=5.0))) == pytest.approx(0.75)

    def test_every_sensor_wrong_one_way_and_the_other(self) -> None:
        """± 5 points inside: 0.25 to 0.75 h; the other sensors move nothing so far from the line."""
        accuracy = {"rh": 5.0, "temp": 0.5, "out": 0.5, "out_rh": 5.0}
        of = made([90.0, 70.0], out=self.OUT, accuracy=accuracy)
        moist = moist_of(of)
        out = outdoor_at(of, moist.rh.seconds)
        ends, why = airing_ends(of, moist, *out, {})
        assert (ends.low, ends.high) == pytest.approx((0.25, 0.75)) and why == {}
        none, why = airing_ends(of, moist, *out, {"airing_hours": "no air"})
        assert none.low is None and set(why.values()) == {"no air"}
        bare = made([90.0, 70.0], out=self.OUT, accuracy={"rh": 5.0, "temp": 0.5, "out_rh": 5.0})
        _, why = airing_ends(bare, moist_of(bare), *out, {})
        assert set(why.values()) == {"no accuracy given for yard"}
        for known in ("rh", "temp"):  # one of the two sensors inside is not enough
            one = made([90.0, 70.0], out=self.OUT, accuracy={known: 1.0, "out": 0.5, "out_rh": 5.0})
            assert set(airing_ends(one, moist_of(one), *out, {})[1].values()) == {"no accuracy given for bench"}
        blind = made([90.0, 70.0], out=self.OUT)
        assert set(airing_ends(blind, moist_of(blind), *out, {})[1].values()) == {"no accuracy given for bench, yard"}

    def test_shifted_air_outside_is_at_most_saturated(self) -> None:
        """98 % and 5 points more are 100 %: at 10 °C 1228 Pa (tables), under the 1244 Pa of 10.5 °C (1270 Pa) and 98 %
        inside; 103 % would be 1265 Pa and over it. 95 and 5 points less are 90 % of 1228 Pa: 1105 Pa, under the 1123 Pa
        of 10.5 °C and 88.4 %, which the 1167 Pa of 95 % are not."""
        moist = moist_of(made([98.0, 98.0], 10.5))
        out = np.full(2, 10.0), np.full(2, 98.0)
        assert airing_hours(airing_curve(moist, *out, 80.0, Shift(outdoor_rh=5.0))) == 1.0
        assert airing_hours(airing_curve(moist, *out, 80.0, Shift(outdoor_rh=5.0, outdoor_k=0.5))) == 0.0
        less = moist_of(made([88.4, 88.4], 10.5))
        humid = np.full(2, 10.0), np.full(2, 95.0)
        assert airing_hours(airing_curve(less, *humid, 80.0, Shift(outdoor_rh=-5.0))) == 1.0
        assert airing_hours(airing_curve(less, *humid, 80.0)) == 0.0
        assert airing_hours(airing_curve(less, *humid, 80.0, Shift(temp_k=1.0))) == 1.0  # 1356 Pa · 0.884 = 1199 Pa

    def test_all_four_sensors_take_part_in_the_ends(self) -> None:
        """10.5 °C and 88.4 % inside (1123 Pa) against 10 °C and 92 % outdoors (1130 Pa): no hour as read. Any one of
        the four sensors off by what it may be (0.5 K: ± 38 Pa; 2 points: ± 25 Pa) makes an hour of it; at 88 % outdoors
        (1081 Pa) the hour is there as read and any two of them (± 63 Pa) take it away."""
        none = dict.fromkeys(("rh", "temp", "out", "out_rh"), 0.0)
        for name, size in (("rh", 2.0), ("temp", 0.5), ("out", 0.5), ("out_rh", 2.0)):
            of = made([88.4, 88.4], 10.5, out=(10.0, 92.0), accuracy=none | {name: size})
            ends, _ = airing_ends(of, moist_of(of), *outdoor_at(of, moist_of(of).rh.seconds), {})
            assert (ends.low, ends.high) == (0.0, 1.0), name
        for pair in ({"temp": 0.5, "rh": 2.0}, {"out": 0.5, "out_rh": 2.0}):
            of = made([88.4, 88.4], 10.5, out=(10.0, 88.0), accuracy=none | pair)
            ends, _ = airing_ends(of, moist_of(of), *outdoor_at(of, moist_of(of).rh.seconds), {})
            assert (ends.low, ends.high) == (0.0, 1.0), pair

    def test_the_other_way(self) -> None:
        """All four turn."""
        one = Shift(temp_k=1.0, rh=2.0, outdoor_k=-3.0, outdoor_rh=-4.0).turned()
        assert (one.temp_k, one.rh, one.outdoor_k, one.outdoor_rh) == (-1.0, -2.0, 3.0, 4.0)
        still = Shift()
        assert (still.temp_k, still.rh, still.outdoor_k, still.outdoor_rh) == (0.0, 0.0, 0.0, 0.0)

    def test_outdoors_is_known_for_nine_tenths_of_the_hours(self) -> None:
        """Nine hours of ten are enough, not of eleven; without an outdoor logger none."""
        of = made([80.0] * 10, out=self.OUT)
        assert outdoors_covered(of, 10.0) and not outdoors_covered(of, 10.1)
        for only in (of.channels[:3], (*of.channels[:2], of.channels[3])):  # temperature alone, humidity alone
            assert not outdoors_covered(readings(of.season, channels=only), 1.0)
        assert not outdoors_covered(made([80.0] * 10), 1.0)

    def test_water_heat_and_litres(self) -> None:
        """Water by air's own figures: the difference in g/m³; heat 0.33 Wh/m³K · 10 K = 3.3; 2 changes an hour of 10 m³
        carry out 2 · 10 · 24 h times the difference. Half the hours are damp: the mean is over those alone."""
        of = made([90.0] * 24 + [70.0] * 25, out=self.OUT, house={"air_changes_per_h": 2.0, "air_volume_m3": 10.0})
        moist = moist_of(of)
        out = outdoor_at(of, moist.rh.seconds)
        curve = airing_curve(moist, *out, 80.0)
        found = airing(moist, of, curve, *out)
        inside_g = air.absolute_humidity_gm3(np.full(2, 15.0), np.array([90.0, 70.0]))
        outside_g = air.absolute_humidity_gm3(np.array([5.0]), np.array([60.0]))[0]
        assert found.wh_per_m3 == pytest.approx(3.3)
        assert found.water_gm3 == pytest.approx(inside_g[0] - outside_g, rel=0.01)  # an hour of change at its end
        whole = (inside_g * np.array([23.5, 24.5])).sum() / 48 - outside_g
        assert found.litres_a_day == pytest.approx(2 * 10 * 24 * whole / 1000, rel=1e-6)
        assert airing(moist, made([90.0] * 49, out=self.OUT), curve, *out).litres_a_day is None
        assert airing(moist, of, None, *out).water_gm3 is None
        assert airing(moist, of, moist.curve(np.array([1.0] + [NAN] * 48)), *out).water_gm3 is None
        warm = made([99.0] * 3, out=(20.0, 30.0))  # drier and warmer outside: fresh air takes no heat
        there = moist_of(warm)
        known = outdoor_at(warm, there.rh.seconds)
        assert airing(there, warm, airing_curve(there, *known, 80.0), *known).wh_per_m3 == 0.0
        two = made([99.0] * 2, out=self.OUT)
        pair = moist_of(two)
        known = outdoor_at(two, pair.rh.seconds)
        assert airing(pair, two, airing_curve(pair, *known, 80.0), *known).wh_per_m3 == pytest.approx(3.3)

    def test_just_over_the_line_is_already_damp(self) -> None:
        """80.5 % in the first two hours, 79 % after: only 0.5 over the line of 80, and still the hours whose water and
        heat are meant: 10 K, and 15 − 20 → 0 K in the hours after."""
        of = made([80.5, 80.5, 79.0, 79.0, 79.0], out=self.OUT)
        moist = moist_of(of)
        outside_c, outside_rh = np.array([5.0, 5.0, 20.0, 20.0, 20.0]), np.full(5, 60.0)
        found = airing(moist, of, moist.curve(np.array([0.5, 0.5, -1.0, -1.0, -1.0])), outside_c, outside_rh)
        inside_g = air.absolute_humidity_gm3(np.array([15.0]), np.array([80.5]))[0]
        outside_g = air.absolute_humidity_gm3(np.array([5.0]), np.array([60.0]))[0]
        # one whole hour at 3.3 Wh/m³; of the next the third in which the curve falls from 0.5 to 0, 3.3 → 2.2
        assert found.wh_per_m3 == pytest.approx((3.3 + 2.75 / 3) / (4 / 3))
        assert found.water_gm3 is not None and found.water_gm3 < inside_g - outside_g

    def test_hours_too_dry_and_near_the_dew_point(self) -> None:
        """25 °C: 3.17 kPa at saturation (Magnus). 57 % leave 1.36 kPa, 54 % 1.46 (over 1.4); 89 % a dew point 2.0 K
        under the air: within 2 K from 89 % on, 88 % is not."""
        for rh, dry in ((54.0, 1.0), (57.0, 0.0)):
            assert damp(made([rh, rh], 25.0)).too_dry_hours == dry
        assert damp(made([90.0, 90.0])).hours_recorded == 1.0 and damp(made([90.0])).hours_recorded == 0.0
        for rh, near in ((90.0, 1.0), (87.0, 0.0)):
            assert damp(made([rh, rh], 25.0)).near_wet_hours == near


class TestTables:
    def test_an_hour_has_a_mean_from_48_minutes_on(self) -> None:
        """Four fifths of it recorded; 47 minutes are too few."""
        for minutes, known in ((48, True), (47, False)):
            at = ZERO + pd.to_timedelta([0, minutes], unit="min")
            rh = pd.Series([70.0, 70.0], index=at)
            of = season("2026-01-05", "2026-01-05", loggers=(logger("bench", main=True),))
            one = readings(of, channels=(channel(rh, "relative_humidity"),))
            assert bool(np.isfinite(by_hour(moist_of(one), one)["value"].iloc[0])) is known

    def test_the_share_of_each_hour_of_the_day(self) -> None:
        """Three days: over 80 % from 6 to 8 h on one of them. Hour 6 and 7: a third; the change takes half an hour of
        the hours beside. By hand 85 %: crossing of 70 → 85 at two thirds of the hour."""
        rh = np.full(73, 70.0)
        rh[6:9] = 90.0
        table = by_clock(moist_of(made(rh)), made(rh), 80.0, 95.0).set_index("hour")
        assert table["high"].iloc[6:8].tolist() == pytest.approx([100 / 3, 100 / 3])
        assert table["high"].iloc[[5, 8]].tolist() == pytest.approx([50 / 3, 50 / 3])
        assert table["high"].iloc[[0, 4, 9, 23]].tolist() == [0.0] * 4 and (table["extreme"] == 0).all()

    def test_the_share_of_an_hour_of_which_minutes_are_on_record(self) -> None:
        """Half of hour 0 of one day, all of it too damp: 100 %; of the hours not recorded nothing is told."""
        at = pd.DatetimeIndex([ZERO, ZERO + pd.Timedelta("30min")])
        of = season("2026-01-05", "2026-01-05", loggers=(logger("bench", main=True),))
        one = readings(of, channels=(channel(pd.Series([90.0, 90.0], index=at), "relative_humidity"),))
        table = by_clock(moist_of(one), one, 80.0, 95.0)
        assert table["hour"].tolist() == list(range(24))
        assert (table["high"].iloc[0], table["extreme"].iloc[0]) == (pytest.approx(100.0), 0.0)
        assert table["high"].iloc[1:].isna().all()

    def test_means_of_noon_and_of_the_night(self) -> None:
        """The hours 11 to 14 and 22 to 5."""
        share = pd.Series(np.arange(24.0))
        assert noon_and_night(share) == (12.5, (22 + 23 + 0 + 1 + 2 + 3 + 4 + 5) / 8)

    def test_the_dampest_month_leads_by_five_points(self) -> None:
        """40 of 200 h, 26 of 104 (25 %): led by 5; a month of 99 h is left out."""
        months = pd.DataFrame(
            {"month": ["Dec", "Jan", "Feb"], "recorded": [200.0, 104.0, 99.0], "above_high": [40.0, 27.04, 99.0]}
        )
        found = dampest_month(months)
        assert found is not None and (found[0], found[1]) == ("Jan", pytest.approx(26.0))
        assert dampest_month(months.assign(above_high=[45.0, 26.0, 0.0])) is None

    def test_every_hour_of_every_day(self) -> None:
        """Its mean of 70 → 80 % is 75; in standard time, from 0 h on; an hour not recorded has none."""
        rh = np.full(30, 70.0)
        rh[7:] = 80.0
        table = by_hour(moist_of(made(rh)), made(rh))
        assert len(table) == 72 and table["date"].iloc[24] == JAN[5] and table["hour"].iloc[30] == 6
        assert table["value"].iloc[:8].tolist() == pytest.approx([70.0] * 6 + [75.0, 80.0])
        assert table["value"].iloc[29:].isna().all()

    def test_by_month_with_the_sensors_band(self) -> None:
        """30 January to 2 February, 82 % all along: 48 h each over 80 %, none over 90 %; ± 3 points: 0 to 48 h."""
        at = pd.date_range("2026-01-30", periods=97, freq="1h", tz=ZONE)
        of = season("2026-01-30", "2026-02-02", loggers=(logger("bench", main=True),))
        values = pd.Series(82.0, index=at)
        one = readings(of, channels=(channel(values, "relative_humidity", accuracy=3.0), channel(values * 0 + 15.0)))
        table = by_month(moist_of(one), one, 80.0, 90.0, line(values - 80.0))
        assert table["month"].tolist() == [dt.date(2026, 1, 30), dt.date(2026, 2, 1)]
        assert table["recorded"].tolist() == table["above_high"].tolist() == table["airing"].tolist() == [48.0, 48.0]
        assert table["above_high_low"].tolist() == [0.0, 0.0] and table["above_high_top"].tolist() == [48.0, 48.0]
        assert table["above_extreme_top"].tolist() == [0.0, 0.0]
        bare = readings(of, channels=(channel(values, "relative_humidity"), channel(values * 0 + 15.0)))
        table = by_month(moist_of(bare), bare, 80.0, 90.0, None)
        assert table["above_high_low"].isna().all() and table["airing"].isna().all()

    def test_one_row_a_night(self) -> None:
        """Night of the 5th (18 to 9 h) at 95 % from 20 to 23 h: 3 h and half an hour each side over 85 %; what visits
        of the next day found; the spread at dawn: 7 h where the place is not known."""
        rh = np.full(73, 75.0)
        rh[20:24] = 95.0
        visits = tuple(
            Inspection(line=2, date=JAN[day - 1], bed=None, crop=None, found=found, level=level, action="")
            for day, found, level in ((6, "mould", 2), (6, "aphids", None), (7, "mould", 0))
        )
        of = made(rh, 16.0, inspections=visits)
        wet = wet_spells(moist_of(of))
        table = by_night(moist_of(of), of, 85.0, 99.0, wet)
        assert table["above_high"].tolist() == pytest.approx([4.0, 0.0, 0.0])
        assert table["leaf_wet"].tolist() == pytest.approx([3.5, 0.0, 0.0])
        assert table["recorded"].tolist() == pytest.approx([15.0, 15.0, 6.0])
        assert table["found"].tolist() == ["mould (2); aphids", "nothing found", ""]
        assert table["klass"].tolist() == [wet[0].klass, "", ""] and table["index"].iloc[0] == wet[0].index
        spread = 16.0 - air.dew_point_c(np.array([16.0]), np.array([75.0]))[0]
        assert table["dawn_spread_k"].iloc[:2].tolist() == pytest.approx([spread] * 2)
        assert np.isnan(table["dawn_spread_k"].iloc[2])
        early = np.full(73, 75.0)
        early[30:32] = 85.0  # 6 and 7 h of the 6th
        other = made(early, 16.0)
        at_seven = by_night(moist_of(other), other, 85.0, 99.0, ())["dawn_spread_k"]
        assert at_seven.iloc[0] == pytest.approx(16.0 - air.dew_point_c(np.array([16.0]), np.array([85.0]))[0])
        assert at_seven.iloc[1] == pytest.approx(spread)
        placed = made(early, 16.0, place={"latitude": 50.0, "longitude": 15.0})
        at_dawn = by_night(moist_of(placed), placed, 85.0, 99.0, ())["dawn_spread_k"]  # sunrise at 7.97 h
        assert at_dawn.iloc[0] == pytest.approx(spread, abs=0.1)

    def test_dawn_is_that_of_the_morning_after_the_night(self) -> None:
        """At 50° N, 15° E the sun rises at about 7.97 h on 6 January (almanac), in standard time. 75 % to midnight of
        the 7th and 85 % after, 95 % from the 8th on: the night of the 5th ends at 75, of the 6th at 85, of the 7th at
        95 %."""
        rh = np.repeat([75.0, 75.0, 85.0, 95.0], 24)
        of = made(rh, 16.0, place={"latitude": 50.0, "longitude": 15.0}, last="2026-01-08")
        table = by_night(moist_of(of), of, 85.0, 99.0, ())
        spread = [16.0 - air.dew_point_c(np.array([16.0]), np.array([one]))[0] for one in (75.0, 85.0, 95.0)]
        assert table["dawn_spread_k"].iloc[:3].tolist() == pytest.approx(spread, abs=1e-6)
        assert np.isnan(table["dawn_spread_k"].iloc[3])

    def test_the_worst_spell_that_touches_a_night_counts(self) -> None:
        """A low and a moderate one."""
        of = made([75.0] * 73)

        def spell(hour: int, klass: str, index: float) -> WetSpell:
            at = ZERO + pd.Timedelta(hours=hour)
            return WetSpell(start=at, end=at + pd.Timedelta("1h"), wet_h=1.0, mean_c=15.0, index=index, klass=klass)

        some = (spell(20, "low", 0.2), spell(25, "moderate", 0.7), spell(28, "too cold", NAN), spell(46, "none", -1.0))
        table = by_night(moist_of(of), of, 85.0, 99.0, some)
        assert table["klass"].tolist() == ["moderate", "none", ""] and table["index"].iloc[0] == 0.7
