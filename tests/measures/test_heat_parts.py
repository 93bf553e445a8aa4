"""The heat books and what the balance tells of heat, part by part, by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np
import pandas as pd
import pytest
from heated_house import hours, supply
from made_season import ZONE, channel, heater, logger, picking, readings, season, store
from measures.house.bare import plain_balance, plain_hours, plain_house

from reportgen.measures.exposure import line
from reportgen.measures.harvest_heat import daily_heat
from reportgen.measures.heat_books import dark_days, dark_weeks, sources, unlooked, weeks
from reportgen.measures.heat_house import above_aim, above_dated_aims, by_run, held_by_hour, losses, needed
from reportgen.measures.heat_nights import heat_nights
from reportgen.measures.heat_sums import cost_of, gap_hours, heat_of, known_share, total_cost, total_heat
from reportgen.measures.heat_types import HoldPrice, Source, Stretch
from reportgen.measures.heating_hours import heat_by_day, heat_by_hour, heat_curves
from reportgen.measures.hold import stretches
from reportgen.measures.house.season import HouseModel
from reportgen.measures.house.states import HouseState
from reportgen.measures.record import covered, gaps, hours_between, record
from reportgen.problems import NotEnoughData

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
NAN = float("nan")


def gap(start: str, end: str, kwh: float, cost: float) -> pd.DataFrame:
    """A stretch in which use is not known, with the most it can have taken."""
    stamps = [pd.Timestamp(at, tz=ZONE) for at in (start, end)]
    return pd.DataFrame({"start": stamps[:1], "end": stamps[1:], "heat_kwh": [kwh], "cost": [cost]})


class TestSums:
    ROWS: ClassVar = [("2026-01-05", "2026-01-12", 50.0, 15.0), ("2026-01-12", "2026-01-19", 30.0, 9.0)]

    def test_a_gap_bounds_the_sum(self) -> None:
        """80 kWh for 24, and a gap of a day of 5 kWh at most, 2 of money: 80 to 85, 24 to 26."""
        one = replace(heater(self.ROWS), gaps=gap("2026-01-20", "2026-01-21", 5.0, 2.0))
        heat, money = heat_of(one), cost_of(one)
        assert (heat.value, heat.low, heat.high) == (80.0, 80.0, 85.0)
        assert (money.value, money.low, money.high) == (24.0, 24.0, 26.0)
        plain = heat_of(heater(self.ROWS))
        assert (plain.value, plain.low, plain.high) == (80.0, None, None)
        assert gap_hours(one.gaps) == 24.0 and gap_hours(heater(self.ROWS).gaps) == 0.0
        other = replace(one, gaps=gap("2026-01-20", "2026-01-23", 5.0, 2.0))
        assert known_share([one, other], 720.0) == pytest.approx(0.9) and known_share([], 720.0) is None

    def test_what_is_not_known_has_its_reason(self) -> None:
        """No rows; a heat value or price that nobody gave; part of the rows priced is no price of all."""
        empty = replace(heater(self.ROWS), intervals=heater(self.ROWS).intervals.iloc[:0])
        assert heat_of(empty).value is None and cost_of(empty).value is None
        table = heater(self.ROWS).intervals
        blank = replace(heater(self.ROWS), intervals=table.assign(heat_kwh=[50.0, NAN], cost=[NAN, NAN]))
        assert "heat value unknown" in heat_of(blank).reason and "no price" in cost_of(blank).reason
        assert total_heat([heater(self.ROWS), blank]).value is None
        assert total_cost([blank]).reason == cost_of(blank).reason

    def test_totals_with_their_bounds(self) -> None:
        """80 and 80 to 85: 160 to 165."""
        one = replace(heater(self.ROWS), gaps=gap("2026-01-20", "2026-01-21", 5.0, 2.0))
        found = total_heat([one, heater(self.ROWS)])
        assert (found.value, found.low, found.high) == (160.0, 160.0, 165.0)
        money = total_cost([one, heater(self.ROWS)])
        assert (money.value, money.low, money.high) == (48.0, 48.0, 50.0)
        idle = heater([("2026-01-05", "2026-01-12", 0.0, NAN)])
        assert total_cost([heater(self.ROWS), idle]).value == 24.0
        assert total_cost([idle]).reason == "no price is given"

    def test_daily_heat_and_carbon(self) -> None:
        """100 units at 0.2 kg: 20 kg; without a factor, or a heater, the reason."""
        one = heater([("2026-01-05", "2026-02-02", 100.0, 30.0)], co2_kg_per_unit=0.2)
        found = daily_heat(replace(readings(), heating=(one,)))
        assert (found.kwh, found.cost, found.co2_kg, found.spread) == (100.0, 30.0, pytest.approx(20.0), True)
        bare = daily_heat(replace(readings(), heating=(one, heater(self.ROWS, name="stove"))))
        assert bare.co2_kg is None and bare.reasons["co2"] == "no co2_kg_per_unit for stove"
        assert daily_heat(readings()).reasons["kwh"] == "no heater is listed in season.toml"


class TestBooks:
    AT = hours(days=3)

    def made(self, *heaters: Any, **more: Any) -> Any:
        """Three days with these heaters."""
        return replace(readings(season("2026-01-05", "2026-01-07", **more)), heating=heaters)

    def test_a_row_of_a_heater(self) -> None:
        """1000 W rated that gives 2 kWh a kWh drawn: flat out from 1900 W of heat on; 5 hours of 1901, 7 of 1899."""
        watts = np.where(np.arange(72) < 5, 1901.0, np.where(np.arange(72) < 12, 1899.0, 0.0))
        source = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug", "efficiency": 2.0}
        of = self.made(supply(self.AT, watts, rated_power_w=1000.0), heating=(source,))
        (found,) = sources(of, heat_by_hour(of))
        assert found.hours_flat_out == 5.0 and found.kwh == pytest.approx(watts.sum() / 1000)
        assert (found.bought, found.unknown_h, found.estimated_kwh, found.by_tariff) == (
            pytest.approx(watts.sum() / 1000), 0.0, 0.0, False,
        )  # fmt: skip
        bare = self.made(supply(self.AT, watts))
        assert sources(bare, heat_by_hour(bare))[0].hours_flat_out is None
        summed = self.made(heater([("2026-01-05", "2026-01-08", 9.0, 1.0)], rated_power_w=1000.0))
        assert sources(summed, heat_by_hour(summed))[0].hours_flat_out is None

    @pytest.mark.parametrize(
        ("fuel", "vented", "basis", "water"),
        [
            ("propane", False, "gross", 100 / 0.8 * 1.634 / 50.35 * 3.6),
            ("natural_gas", False, "gross", 100 / 0.8 * 2.246 / 55.5 * 3.6),
            ("propane", True, "gross", None), ("propane", None, "gross", None), ("propane", False, "net", None),
            ("electricity", False, "", None),
        ],
    )  # fmt: skip
    def test_water_of_a_burner_without_a_flue(self, fuel: str, vented: bool | None, basis: str, water: Any) -> None:
        """100 kWh at 80 %: by stoichiometry 1.634 kg of water a kg of propane of 50.35 MJ, 2.246 a kg of methane of
        55.5 MJ (CRC Handbook); none of a flued one, of one of which nobody knows, or of a net heat value."""
        one = heater([("2026-01-05", "2026-01-08", 100.0, 1.0)], fuel=fuel, vented=vented, heating_value=basis)
        source = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug", "efficiency": 0.8}
        of = self.made(one, heating=(source,))
        (found,) = sources(of, heat_by_hour(of))
        assert found.water_kg == (None if water is None else pytest.approx(water))

    def test_estimated_and_unlooked_heat(self) -> None:
        """Of a meter's 50 and 30 kWh the second is estimated; of a store's last sum since the 12th 30 kWh were not
        looked at; a logger's marks count for nothing."""
        rows = [("2026-01-05", "2026-01-12", 50.0, 15.0), ("2026-01-12", "2026-01-19", 30.0, 9.0)]
        meter = heater(rows)
        marked = replace(meter, intervals=meter.intervals.assign(estimated=[False, True]))
        of = replace(readings(), heating=(marked, replace(marked, name="b", form="logger")))
        assert [one.estimated_kwh for one in sources(of, heat_by_hour(of))] == [30.0, 0.0]
        since = replace(store(50.0, 30.0), unlooked_since=pd.Timestamp("2026-01-12", tz=ZONE))
        tank = heater(rows, form="deliveries", stock=since)
        tank = replace(tank, intervals=tank.intervals.assign(known_sum=[0, 1]))
        assert (unlooked(tank, "heat_kwh"), unlooked(tank, "cost")) == (30.0, 9.0)
        assert unlooked(replace(tank, stock=store(50.0)), "heat_kwh") == 0.0 and unlooked(meter, "cost") == 0.0
        one = replace(tank, intervals=tank.intervals.assign(known_sum=[1, 1]))
        assert unlooked(one, "heat_kwh") == 30.0

    def test_nothing_is_made_up_of_a_heater_or_a_stretch(self) -> None:
        """What was not looked at, estimated or unknown is nothing unless it is told; so are a stretch's heat and money
        before they are shared out."""
        known: dict[str, Any] = {"name": "a", "fuel": "electricity", "role": "main", "kwh": 1.0, "bought": 1.0}
        one = Source(**known, bought_unit="kWh", cost=None, hours_flat_out=None)
        assert (one.unlooked_kwh, one.unlooked_cost, one.unknown_h, one.estimated_kwh) == (0.0, 0.0, 0.0, 0.0)
        assert (one.kwh_low, one.cost_high, one.water_kg, one.vented, one.stock) == (None,) * 5
        assert one.by_tariff is False
        of = self.made(supply(self.AT, np.full(72, 400.0)))
        assert [(s.kwh, s.cost) for s in stretches(of, heat_by_hour(of))] == [(0.0, 0.0)]

    def test_heat_by_week(self) -> None:
        """Two weeks of 70 and 35 kWh, of sums; appliances together in one column, their money apart."""
        rows = [("2026-01-05", "2026-01-12", 70.0, 14.0), ("2026-01-12", "2026-01-19", 35.0, 7.0)]
        lamp = heater([("2026-01-05", "2026-01-12", 7.0, 2.0)], name="lamp", role="appliance")
        of = replace(
            readings(season("2026-01-05", "2026-01-18")),
            heating=(heater(rows),),
            appliances=(lamp, replace(lamp, name="fan")),
        )
        table = weeks(of, heat_curves(of))
        assert table.index.tolist() == [JAN[4], JAN[11]]
        assert table["fan heater"].tolist() == pytest.approx([70.0, 35.0])
        assert table["appliances"].tolist() == pytest.approx([14.0, 0.0])
        assert table["cost"].tolist() == pytest.approx([14.0, 7.0]) and table["of sums"].tolist() == pytest.approx(
            [70, 35]
        )

    def test_the_dark_weeks(self) -> None:
        """At 50° N all of January is under ten hours: all heat and all pickings but the lost; at 40° N about 9.4 h,
        too; at 20° N none. Without a latitude, or a book, the reason."""
        of = replace(
            readings(
                season(place={"latitude": 50.0}),
                harvest=(picking("2026-01-06", 2.0), picking("2026-01-07", 9.0, use="lost")),
            ),
            heating=(heater([("2026-01-05", "2026-02-02", 100.0, 30.0)]),),
        )  # fmt: skip
        why: dict[str, str] = {}
        found = dark_weeks(of, heat_by_day(of), daily_heat(of), why)
        assert (found.kwh, found.cost, found.kg) == (pytest.approx(100.0), pytest.approx(30.0), 2.0) and not why
        assert dark_days(replace(of, season=season(place={"latitude": 20.0}))) == set()
        assert dark_days(replace(of, season=season())) is None
        bare = replace(readings(season(place={"latitude": 50.0})), heating=())
        found = dark_weeks(bare, heat_by_day(bare), daily_heat(bare), why)
        assert (found.kwh, found.cost, found.kg) == (None, None, None)
        assert set(why) == {"dark_weeks.kwh", "dark_weeks.cost", "dark_weeks.kg"}
        assert dark_weeks(replace(of, books={}), heat_by_day(of), daily_heat(of), {}).kg is None

    def test_a_night_counts_with_its_lift_and_seven_heated_hours(self) -> None:
        """Nights of ten hours at 8 °C over 4.9 °C: 3.1 K count, 3.0 K do not; heated seven hours of ten, not six."""
        at = hours(days=3)
        local = np.asarray(at.hour)
        for lift, heated, counts in ((3.1, 7, 1.0), (3.0, 7, 0.0), (3.1, 6, 0.0)):
            on = (local >= 20) | (local < 20 - 24 + heated)
            of = season("2026-01-05", "2026-01-07", loggers=(logger("bench"), logger("garden", where="outdoor")))
            edge = pd.date_range(ZERO, periods=73, freq="1h")
            made = readings(
                of,
                channels=(
                    channel(pd.Series(8.0, index=edge)),
                    channel(pd.Series(8.0 - lift, index=edge), logger="garden", where="outdoor"),
                ),
            )
            made = replace(made, heating=(supply(at, np.where(on, 500.0, 0.0)),))
            table = heat_nights(made, heat_by_hour(made))
            assert table["counts"].iloc[0] == counts
            assert table["heated_h"].iloc[0] == pytest.approx(heated)
            assert table["total_w"].iloc[0] == pytest.approx(50.0 * heated) and table["lift"].iloc[0] == pytest.approx(
                lift
            )
            assert np.isnan(table["total_w"].iloc[2])
            lamp = replace(supply(at, np.full(72, 60.0)), name="lamp", role="appliance")
            lit = replace(made, appliances=(lamp,))
            table = heat_nights(lit, heat_by_hour(lit))
            for name in ("least_w", "most_w", "total_w"):  # no heater is known only as sums, and lamps heat too
                assert table[name].iloc[0] == pytest.approx(50.0 * heated + 60.0)
            assert table["appliances_w"].iloc[0] == pytest.approx(60.0)


def held(first: int, last: int, hold: float | None) -> Stretch:
    """A stretch of January."""
    return Stretch(first=JAN[first - 1], last=JAN[last - 1], hold_c=hold, hours=99, how="")


def price(hold: float, kwh: float, cost: float | None = None) -> HoldPrice:
    """A row of the price of a degree."""
    return HoldPrice(hold_c=hold, kwh=kwh, low=None, high=None, cost=cost, tested=True)


class TestHouse:
    def model(self, states: tuple[HouseState, ...] = (), days: int = 10, present: int = 0, **more: Any) -> HouseModel:
        """100 W/K without capacity at 8 °C over 0 °C outdoors: 800 W."""
        n = 24 * days
        house = plain_house(plain_hours(n, **more), plain_balance(n, loss_w_k=np.array([100.0, 100.0])))
        return HouseModel(
            house=house, why="", first=JAN[4], whole=np.ones(days - 1, dtype=bool), states=states, present=present
        )

    def test_the_hold_by_the_hour(self) -> None:
        """8 °C on the 5th and 6th, none on the 7th, 9 on the 8th."""
        found = held_by_hour((held(5, 6, 8.0), held(7, 7, None), held(8, 8, 9.0)), JAN[4], 96 + 24)
        assert found[:48].tolist() == [8.0] * 48 and np.isnan(found[48:72]).all()
        assert found[72:96].tolist() == [9.0] * 24 and np.isnan(found[96:]).all()

    def test_other_holds_by_the_run(self) -> None:
        """Ten days of 800 W: a kelvin more takes an eighth more, in four of ten days a twentieth of the whole; 100 kWh
        were measured. Stretches that were not heated, or whose hold is not known, change nothing."""
        found = (held(5, 8, 8.0), held(9, 14, 8.0), held(20, 21, 8.0))
        changed = by_run(self.model(), found, 100.0, np.array([[1.0, 0.0, 0.0], [-1.0, 2.0, 5.0]]))
        assert changed.tolist() == [pytest.approx([5.0, 0.0, 0.0]), pytest.approx([-5.0, 15.0, 0.0])]
        assert by_run(self.model(), (held(5, 14, None),), 100.0, np.array([[0.0]])).tolist() == [[0.0]]

    def test_heat_above_an_aim(self) -> None:
        """Measured 100 at 8 °C; the table has 60 at 6: an aim of 7 would have taken 80. At or over what was held 0."""
        rows = (price(6.0, 60.0), price(8.0, 100.0))
        assert above_aim(rows, 100.0, 8.0, 7.0) == pytest.approx(20.0)
        assert above_aim(rows, 100.0, 8.0, 8.0) == 0.0 and above_aim(rows, 50.0, 8.0, 7.0) == 0.0
        assert above_aim(rows, 100.0, 8.0, 6.0) == pytest.approx(40.0)
        for ask, words in (
            ((rows, 100.0, 8.0, 5.9), "further"),
            (((), 100.0, 8.0, 7.0), "cannot"),
            ((rows, None, 8.0, 7.0), "cannot"),
        ):
            with pytest.raises(NotEnoughData, match=words):
                above_aim(*ask)

    def test_heat_above_aims_that_change(self) -> None:
        """Held 8 for ten days; an aim of 6 on five of them, of 9 on the others: a quarter of half the heat."""
        found = above_dated_aims(
            self.model(), (held(5, 14, 8.0),), 100.0, lambda day: 6.0 if day <= JAN[8] else 9.0
        )  # fmt: skip
        assert found == pytest.approx(12.5)
        assert above_dated_aims(self.model(), (held(5, 14, 8.0),), 100.0, lambda day: None) == pytest.approx(0.0)
        with pytest.raises(NotEnoughData, match="not known"):
            above_dated_aims(self.model(), (held(5, 14, 8.0),), None, lambda day: 6.0)

    def test_the_heater_that_is_needed(self) -> None:
        """800 W in the hardest hours: 0.97 of it, to buy 1.4 times that; 5 K colder 0.98 of 1300 W."""
        found = needed(self.model(), 8.0, "no hold", -9.0)
        assert (found.coldest_hour, found.five_colder) == (pytest.approx(776.0), pytest.approx(1274.0))
        assert found.to_buy == pytest.approx(1.4 * 776.0) and found.coldest_c == -9.0 and not found.at_limit
        with pytest.raises(NotEnoughData, match="no hold"):
            needed(self.model(), None, "no hold", None)
        with pytest.raises(NotEnoughData, match="no balance"):
            needed(replace(self.model(), house=None, why="no balance"), 8.0, "", None)

    def test_losses_of_the_house_and_of_its_states(self) -> None:
        """98 W/K (0.98 of 100) on nine nights, one state; of two states the present one is told, or why not."""
        one = (HouseState(number=0, on=(), hours=240),)
        whole, nights, listed = losses(self.model(one))
        assert (whole.estimate, nights, len(listed)) == (pytest.approx(98.0), 9, 1)
        assert (listed[0].from_, listed[0].to, listed[0].present) == (JAN[4], JAN[13], True)
        two = (HouseState(number=0, on=(), hours=240), HouseState(number=1, on=("film", "fan"), hours=240))
        state = (np.arange(480) >= 240).astype(np.int64)
        band, nights, listed = losses(self.model(two, 20, 1, state=state))
        assert (band.estimate, nights) == (pytest.approx(98.0), 9)
        assert [(s.state, s.from_.day, s.to.day, s.present) for s in listed] == [
            ("", 5, 14, False), ("film and fan", 15, 24, True),
        ]  # fmt: skip
        few = (np.arange(480) >= 400).astype(np.int64)
        with pytest.raises(NotEnoughData, match="nights as the house is now"):
            losses(self.model(two, 20, 1, state=few))


class TestRecord:
    def test_hours_in_cells(self) -> None:
        """Recorded from 1 to 3 h and from 5 to 6 h: cells of two hours have 1, 1 and 1."""
        h = 3600.0
        spans = np.array([[1 * h, 3 * h], [5 * h, 6 * h]])
        assert hours_between(spans, np.array([0, 2, 4, 6.0]) * h).tolist() == pytest.approx([1.0, 1.0, 1.0])
        assert hours_between(spans[:0], np.array([0, 2, 4.0])).tolist() == [0.0, 0.0]

    def test_gaps_longer_than_a_second(self) -> None:
        """A season of a day, recorded but for two seconds at the beginning, one in the middle and its last hour."""
        of = season("2026-01-05", "2026-01-05")
        zero = of.start.timestamp()
        spans = np.array([[zero + 2, zero + 40_000.0], [zero + 40_001.0, zero + 82_800.0]])
        found = [(round((b - a).total_seconds(), 3)) for a, b in gaps(spans, of)]
        assert found == [2.0, 3600.0]
        for away, seen in ((0.99, []), (1.01, [1.01])):
            spans = np.array([[zero, zero + 40_000.0], [zero + 40_000.0 + away, zero + 86_400.0]])
            assert [round((b - a).total_seconds(), 3) for a, b in gaps(spans, of)] == seen

    def test_a_single_reading_has_no_mean(self) -> None:
        """Nor extremes: its step is not known. Two of them, a day apart, have a mean."""
        for values, mean in (([4.0], None), ([4.0, 7.0], 5.5)):
            at = pd.date_range(ZERO, periods=len(values), freq="1D")
            one = channel(pd.Series(values, index=at), step_s=86_400.0 if len(values) > 1 else None)
            (told,) = record(readings(season("2026-01-05", "2026-01-07"), channels=(one,))).channels
            assert (told.minimum, told.mean, told.maximum) == (None, mean, None)
            assert (told.first, told.last, told.hours_recorded) == (at[0], at[-1], 0.0)

    def test_what_a_channel_covers(self) -> None:
        """Inside the season alone; a switch that is written when it turns holds for a day at most."""
        of = season("2026-01-05", "2026-01-06")
        at = pd.date_range(ZERO - pd.Timedelta("2h"), periods=6, freq="1h")
        spans = covered(channel(pd.Series(5.0, index=at)), of)
        assert float(np.diff(spans, axis=1).sum()) / 3600 == pytest.approx(3.0)
        times = pd.DatetimeIndex([ZERO, ZERO + pd.Timedelta("1h"), ZERO + pd.Timedelta("30h")])
        switch = channel(pd.Series([1.0, 0.0, 1.0], index=times), "fan_on")
        assert float(np.diff(covered(switch, of), axis=1).sum()) / 3600 == pytest.approx(25.0)
        for changes, held_h in ((11, 20.0 + 24.0), (10, 20.0)):  # of 21 neighbours: more than half, and not
            stamps = ZERO + pd.to_timedelta([*range(21), 20 + 27], unit="h")
            log = channel(pd.Series([float(min(n, changes) % 2) for n in range(22)], index=stamps), "fan_on")
            assert float(np.diff(covered(log, of), axis=1).sum()) / 3600 == pytest.approx(held_h)
        even = channel(pd.Series([0.0, 0.0, 1.0], index=times), "fan_on")
        assert float(np.diff(covered(even, of), axis=1).sum()) / 3600 < 25.0
        assert covered(channel(pd.Series([1.0], index=times[:1])), of).shape == (0, 2)

    def test_the_record_of_a_channel(self) -> None:
        """Hourly 0 … 24 °C over the first of two days: half of the season; the mean of the straight line is 12; a probe
        read every 8 h has a mean and no extremes; a counter no mean."""
        at = pd.date_range(ZERO, periods=25, freq="1h")
        rare = pd.date_range(ZERO, periods=6, freq="8h")
        found = record(
            readings(
                season("2026-01-05", "2026-01-06", loggers=(logger("bench"),)),
                channels=(
                    channel(pd.Series(np.arange(25.0), index=at)),
                    channel(pd.Series(np.arange(6.0), index=rare), "relative_humidity", step_s=8 * 3600.0),
                    channel(pd.Series(np.arange(25.0), index=at), "heater_energy", "plug"),
                ),
            )
        )
        air, damp, counter = found.channels
        assert (air.hours_recorded, air.hours_in_season, air.share) == (24.0, 48.0, 0.5)
        assert (air.minimum, air.mean, air.maximum) == (0.0, 12.0, 24.0)
        assert (damp.minimum, damp.mean, damp.maximum) == (None, 2.5, None) and "once every 8" in damp.why_seldom
        assert counter.mean is None and found.reasons["channels.2.mean"] == "a running counter has no mean"
        days = found.days[found.days["name"] == air.name]
        assert days["hours"].tolist() == [24.0, 0.0] and days["share"].tolist() == [1.0, 0.0]
        assert found.gaps["hours"].tolist() == sorted(found.gaps["hours"], reverse=True)
        assert line(pd.Series([1.0, 2.0], index=at[:2])).hours_recorded == 1.0
