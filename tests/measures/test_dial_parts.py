"""The dial's rules one by one: which alarm line, how far down, which nights, what is spared; by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from heated_house import hours, supply
from made_season import ZONE, heater, planting, readings, season
from measures.house.bare import plain_balance, plain_hours, plain_house

from reportgen.measures.degree import degree
from reportgen.measures.dial import (
    Offsets,
    _present,
    _rated_w,
    dial_nights,
    event_evenings,
    main_names,
    offsets,
)
from reportgen.measures.dial_alarm import alarm_between
from reportgen.measures.dial_crops import mild, night_limits
from reportgen.measures.dial_price import _by_table, _lowered, _money_a_kwh, spared
from reportgen.measures.dial_room import DialRoom, _few, down_by, lowest_dial, monday, setting
from reportgen.measures.frost_types import Alarm
from reportgen.measures.heat import heat
from reportgen.measures.heat_types import DegreePrice, HoldPrice, Stretch
from reportgen.measures.heating_hours import heat_by_hour
from reportgen.measures.house.season import HouseModel
from reportgen.readings.lever_types import Lever, State
from reportgen.readings.types import DiaryEntry

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
NAN = float("nan")


def alarm(line_c: float, rings: int, needed: int, warning_h: float | None) -> Alarm:
    """An alarm line."""
    known: dict[str, Any] = {"alarm_c": line_c, "rings": rings, "needed": needed, "warning_h": warning_h}
    more = {name: None for name in Alarm.__dataclass_fields__ if name not in known}
    return Alarm(**(more | known))


class TestAlarm:
    def test_only_lines_between_the_setting_and_what_was_held(self) -> None:
        """At 3 and 6 °C themselves there is none."""
        ends = [alarm(3.0, 4, 4, 2.0), alarm(6.0, 4, 4, 2.0)]
        assert alarm_between(ends, 3.0, 6.0).why == "no line"
        assert alarm_between([*ends, alarm(4.0, 4, 4, 2.0)], 3.0, 6.0).alarm == alarm(4.0, 4, 4, 2.0)

    @pytest.mark.parametrize(
        ("rings", "needed", "warning", "serves"),
        [(2, 1, 1.0, True), (3, 1, 1.0, False), (2, 1, 0.9, False), (2, 1, None, False), (0, 0, 5.0, False)],
    )
    def test_a_line_serves_with_an_hours_warning_and_half_its_rings_needed(
        self, rings: int, needed: int, warning: float | None, serves: bool
    ) -> None:
        """An hour and one ring of two are just enough."""
        assert (alarm_between([alarm(4.0, rings, needed, warning)], 3.0, 6.0).alarm is not None) is serves

    def test_of_several_the_fewest_rings_for_nothing_then_the_longest_warning(self) -> None:
        """One idle ring of four before two of eight; of equals the longer warning."""
        some = [alarm(3.5, 8, 6, 5.0), alarm(4.0, 4, 3, 1.5), alarm(4.5, 4, 3, 3.0), alarm(5.0, 4, 3, 2.0)]
        assert alarm_between(some, 3.0, 6.0).alarm == some[2]

    def test_why_no_line_served(self) -> None:
        """None rang; those needed rang mostly for nothing; or they warned of minutes. The best warned longest of those
        that were mostly needed, else of those needed at all."""
        assert alarm_between([alarm(4.0, 0, 0, None)], 3.0, 6.0).why == "silent"
        often, idle = [alarm(4.0, 9, 1, 2.0), alarm(4.5, 9, 2, 3.0)], alarm(5.0, 3, 0, None)
        found = alarm_between([*often, idle], 3.0, 6.0)
        assert (found.alarm, found.why, found.best) == (None, "for nothing", often[1])
        late = [alarm(4.2, 2, 1, 0.4), alarm(4.3, 2, 2, 0.6)]
        found = alarm_between([*often, *late], 3.0, 6.0)
        assert (found.why, found.best) == ("minutes", late[1])
        assert alarm_between([idle], 3.0, 6.0).best is None


class TestRoom:
    def test_the_rule(self) -> None:
        """A crop that takes −2 °C, the coldest night 1.2 K under the setting, ± 0.5 K and 1 K more: 0.7 °C."""
        assert lowest_dial(-2.0, -1.2, 0.5) == pytest.approx(0.7)

    @pytest.mark.parametrize(
        ("held", "lowest", "step", "down"),
        [(6.0, 4.0, 0.5, 2.0), (6.0, 4.1, 0.5, 1.5), (6.0, 0.0, 0.5, 3.0), (6.0, 6.5, 0.5, 0.0), (6.0, 5.6, 0.5, 0.0),
         (6.0, 5.0, 5 / 9, 5 / 9), (9.0, 0.0, 5 / 9, 25 / 9)],
    )  # fmt: skip
    def test_whole_steps_down_and_three_kelvin_at_most(
        self, held: float, lowest: float, step: float, down: float
    ) -> None:
        """Half a degree Celsius or one degree Fahrenheit; 3 K are five whole degrees Fahrenheit."""
        assert down_by(held, lowest, step) == pytest.approx(down)

    def test_the_setting_that_took_most_of_the_heat(self) -> None:
        """6 °C with 5 + 4 kWh before 8 °C with 8; nights without heat or without a setting do not count."""
        nights = pd.DataFrame(
            {"heated": [True, True, True, False, True], "held_c": [6.0, 8.0, 6.0, 9.0, NAN], "kwh": [5, 8, 4, 90, 90]}
        )
        assert setting(nights) == 6.0
        assert setting(nights[nights["held_c"].isna()]) is None

    def test_what_the_coldest_air_would_be(self) -> None:
        """Held 6, down by 2 K: usually −0.5 K from that, of 19 nights of 20 above −0.9, the coldest −1.2."""
        told = Offsets(nights=40, median_k=-0.5, tail_k=-0.9, coldest_k=-1.2, flat_out_nights=0, loggers=())
        one = DialRoom(held_c=6.0, dial_c=None, told=told, down_by_k=2.0)
        assert (one.usually_c, one.tail_c, one.coldest_c) == (3.5, pytest.approx(3.1), pytest.approx(2.8))
        assert replace(one, down_by_k=None).usually_c == 5.5
        assert replace(one, held_c=None).usually_c is None and replace(one, told=None).coldest_c is None

    @pytest.mark.parametrize(
        ("nights", "words"),
        [(0, "no night counts of the 30"), (1, "only 1 night counts of the 30"), (2, "only 2 nights count of the 30"),
         (29, "only 29 nights count of"), (30, "")],
    )  # fmt: skip
    def test_thirty_nights_are_needed(self, nights: int, words: str) -> None:
        """One fewer is said in words, in the singular where it is one."""
        told = Offsets(nights=nights, median_k=0.0, tail_k=0.0, coldest_k=0.0, flat_out_nights=0, loggers=())
        assert _few(told if nights else None).startswith(words) and bool(_few(told)) is bool(words)

    def test_a_week_is_named_after_its_monday(self) -> None:
        """11 January 2026 is a Sunday."""
        assert [monday(dt.date(2026, 1, n)).day for n in (5, 11, 12)] == [5, 5, 12]


class TestCrops:
    def test_a_week_of_mild_nights_hardens_nothing(self) -> None:
        """The mean of the seven nights before: 5.0 is mild, 4.9 is not; with under four of them known it counts as
        mild."""
        assert mild(pd.Series([5.0] * 8)).iloc[7] and not mild(pd.Series([4.9] * 8)).iloc[7]
        assert mild(pd.Series([0.0] * 8)).tolist() == [True] * 4 + [False] * 4
        assert mild(pd.Series([-100.0, *[6.0] * 8])).iloc[8]  # the eighth night before is no longer asked

    def test_the_tenderest_standing_crop_decides(self) -> None:
        """Kale stands all along, lettuce in four nights: its band decides there, whichever is planted first; a crop
        without a band is named. After cold nights the limit is the warmer end of the band alone, before 3 K more."""
        crops = (planting("kale", "a", "2026-01-01"), planting("lettuce", "b", "2026-01-06", "2026-01-09"))
        strange = planting("triffid", "c", "2026-01-10", "2026-01-12")
        lows = pd.Series([1.0] * 12, index=[JAN[n] for n in range(4, 16)])
        for order in (crops, crops[::-1]):
            table = night_limits(readings(plantings=(*order, strange)), lows)
            assert table["crop"].tolist()[1:4] == ["lettuce"] * 3
            own = {name: night_limits(readings(plantings=(one,)), lows)["limit_c"] for name, one in
                   (("kale", crops[0]), ("lettuce", crops[1]))}  # fmt: skip
            together = pd.concat(own, axis=1).max(axis=1)
            assert table["limit_c"].tolist() == pytest.approx(together.tolist())
            assert table["unknown"].tolist()[4:9].count(("triffid",)) >= 2 and table["unknown"].iloc[0] == ()
            kale = own["kale"]
            assert kale.iloc[0] - kale.iloc[-1] == pytest.approx(3.0)
            assert table["unhardened"].tolist() == [True] * 4 + [False] * 8


def entry(day: int, kind: str, until: int | None = None) -> DiaryEntry:
    """A line of the diary in January."""
    return DiaryEntry(
        line=2, date=JAN[day - 1], time=None, kind=kind, what="", touches=(), reversible=None, hoped_for=(),
        until=JAN[until - 1] if until else None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


class TestNights:
    def test_nights_that_an_event_may_have_touched(self) -> None:
        """Of the 12th: the evenings of the 11th and 12th; of the 15th to 17th those of the 14th to 17th."""
        made = readings(diary=(entry(12, "event"), entry(15, "event", 17), entry(25, "change")))
        assert sorted(day.day for day in event_evenings(made)) == [11, 12, 14, 15, 16, 17]

    def test_main_heaters_known_by_the_hour(self) -> None:
        """The main one of two; both where neither is a main one; none of a heater known only as a sum."""
        at = hours(days=3)
        one, two = (supply(at, np.full(72, 400.0), name=name, role=role, rated_power_w=w)
                    for name, role, w in (("a", "main", 1000.0), ("b", "backup", 500.0)))  # fmt: skip
        weekly = heater([("2026-01-05", "2026-01-08", 9.0, 1.0)], name="c")
        of = season("2026-01-05", "2026-01-07")

        def told(*heaters: Any) -> tuple[list[str], float]:
            made = replace(readings(of), heating=heaters)
            by_hour = heat_by_hour(made)
            return main_names(made, by_hour), _rated_w(made, by_hour)

        assert told(one, two, weekly) == (["a"], 1000.0)
        assert told(replace(one, role="backup"), two) == (["a", "b"], 1500.0)
        assert told(weekly) == ([], float("inf"))
        assert told(replace(one, rated_power_w=None), two) == (["a"], float("inf"))

    def test_a_night_of_which_too_little_is_known_is_not_heated(self) -> None:
        """Heated at 18 h and lost from 20 h on: 2 of 15 hours are known."""
        at = hours(days=3)
        fan = supply(at, np.full(72, 400.0))
        cut = replace(fan, intervals=fan.intervals.iloc[:20])
        made = replace(readings(season("2026-01-05", "2026-01-07")), heating=(cut,))
        table = pd.DataFrame({"inside_min": 5.0, "share": 1.0, "logger": "bench"}, index=pd.Index(JAN[4:7]))
        assert not dial_nights(made, heat_by_hour(made), table, ())["heated"].any()
        whole = replace(made, heating=(fan,))
        nights = dial_nights(whole, heat_by_hour(whole), table, ())
        assert nights["heated"].tolist() == [True, True, False]
        assert nights["kwh"].tolist() == pytest.approx([0.4 * 15, 0.4 * 15, 0.4 * 6])

    def test_a_night_of_next_to_no_heat_is_not_heated(self) -> None:
        """400 W in the strongest hour: a night whose strongest hour is 8 W (2 %) is not heated, one with 8.1 W is."""
        at = hours(days=3)
        for most, heated in ((8.0, False), (8.1, True)):
            watts = np.full(72, 400.0)
            watts[18:33] = most
            made = readings(season("2026-01-05", "2026-01-07"), heating=(supply(at, watts),))
            table = pd.DataFrame({"inside_min": 5.0, "share": 1.0, "logger": "bench"}, index=pd.Index(JAN[4:7]))
            nights = dial_nights(made, heat_by_hour(made), table, ())
            assert nights["heated"].tolist() == [heated, True, False]

    def test_the_rated_power_is_heat_and_not_draw(self) -> None:
        """A heat pump that gives 3 kWh a kWh drawn: 1000 W are 3000 W of heat."""
        pump = {"name": "a", "role": "main", "fuel": "electricity", "logger": "plug", "efficiency": 3.0}
        at = hours(days=3)
        made = readings(season("2026-01-05", "2026-01-07", heating=(pump,)))
        made = replace(made, heating=(supply(at, np.full(72, 400.0), name="a", rated_power_w=1000.0),))
        assert _rated_w(made, heat_by_hour(made)) == pytest.approx(3000.0)

    def test_without_levers_every_night_is_of_the_present_house(self) -> None:
        """All of them, heated or not."""
        made = readings(season("2026-01-05", "2026-01-14"))
        assert _present(made, np.ones(10, dtype=bool), 10).tolist() == [True] * 10
        assert _present(made, np.zeros(10, dtype=bool), 10).tolist() == [True] * 10
        assert _present(made, np.zeros(0, dtype=bool), 0).tolist() == []

    def test_the_present_house_is_its_last_state_with_eight_heated_nights(self) -> None:
        """A film from the 17th on: nights from that evening are the present house's while eight of them were heated;
        with seven it is the house before, whose last night is that of the 16th."""
        on = State(from_=pd.Timestamp("2026-01-17", tz=ZONE), to=pd.Timestamp("2026-02-02", tz=ZONE), on=True)
        film = Lever(
            name="film", thing=None, touches=("envelope",), entries=(), states=(on,), hours_on=0.0, hours_off=0.0,
            reasons=MappingProxyType({}), lines=(), undone=MappingProxyType({}),
        )  # fmt: skip
        made = replace(readings(), levers=(film,))
        for heated, now in ((8, [False] * 12 + [True] * 16), (7, [True] * 12 + [False] * 16)):
            nights = np.ones(28, dtype=bool)
            nights[12 + heated :] = False
            assert _present(made, nights, 28).tolist() == now

    def test_what_counted_nights_tell(self) -> None:
        """−1, 0, 1 … 19 K: median 9, a twentieth of the way from the coldest: 0; the coldest on the first day; one
        night at its limit."""
        values = [float(n) for n in range(-1, 20)]
        table = pd.DataFrame(
            {
                "counted": [True] * 21 + [False],
                "offset_k": [*values, NAN],
                "at_limit": [False] * 21 + [True],
                "logger": ["door"] * 20 + ["bench", "attic"],
            },
            index=JAN[:22],
        )
        found = offsets(table)
        assert found is not None
        assert (found.nights, found.median_k, found.coldest_k, found.flat_out_nights) == (21, 9.0, -1.0, 1)
        assert found.tail_k == pytest.approx(0.0) and found.loggers == ("bench", "door")
        assert found.coldest_on == JAN[0]
        assert offsets(table[~table["counted"]]) is None


def row(hold: float, kwh: float, cost: float | None = None, band: float | None = None) -> HoldPrice:
    """A row of the price of a degree, `band` kWh to either side."""
    ends = (None, None) if band is None else (kwh - band, kwh + band)
    return HoldPrice(hold_c=hold, kwh=kwh, low=ends[0], high=ends[1], cost=cost, tested=True)


class TestSpared:
    ROWS = (row(4.0, 200.0, 60.0, 20.0), row(6.0, 400.0, 140.0, 10.0))

    def test_by_the_table_of_holds(self) -> None:
        """At 5 °C 300 kWh, 285 to 315: of 400 kWh 85 to 115 are spared. Money: 80 for 200 kWh, 0.40 each."""
        assert _by_table(self.ROWS, 400.0, 5.0) == pytest.approx((85.0, 115.0))
        assert _by_table((row(4.0, 200.0), row(6.0, 400.0)), 400.0, 5.0) == pytest.approx((100.0, 100.0))
        assert _by_table(self.ROWS, 200.0, 6.0) == (0.0, 0.0)
        assert _money_a_kwh(self.ROWS, 6.0, 1.0) == pytest.approx(0.4)
        assert _money_a_kwh((row(4.0, 200.0), self.ROWS[1]), 6.0, 1.0) is None
        assert _money_a_kwh((row(4.0, 200.0, 1.0), row(6.0, 200.0, 2.0)), 6.0, 1.0) is None

    def heat(self, rows: tuple[HoldPrice, ...] | None = None, stretches: int = 1, kwh: float | None = 96.0) -> Any:
        """The heat of a season with these rows."""
        one = Stretch(first=JAN[4], last=JAN[30], hold_c=8.0, hours=99, how="")
        usual = (row(6.0, 60.0, 18.0), row(7.0, 78.0, 23.4), row(8.0, 96.0, 28.8))
        return replace(
            heat(readings()), kwh=kwh, price_of_hold=usual if rows is None else rows, stretches=(one,) * stretches
        )

    def model(self, days: int = 5, **more: Any) -> HouseModel:
        """A house of 100 W/K without any capacity, held at 8 °C with 0 °C outdoors: 800 W."""
        n = 24 * days
        house = plain_house(plain_hours(n), plain_balance(n, kind="probe", **more))
        return HouseModel(house=house, why="", first=JAN[4], whole=np.ones(days - 1, dtype=bool), states=())

    def test_by_the_run_of_the_house(self) -> None:
        """Five days of 800 W, 96 kWh; two garden days a kelvin lower, 48 hours of 100 W less: 4.8 kWh, between 0.86 and
        1.20 of it. At 0.30 a kWh."""
        found = spared(self.model(), self.heat(), 8.0, 1.0, {JAN[5], JAN[6]})
        assert found is not None
        assert (found.kwh_low, found.kwh_high) == pytest.approx((4.8 * 0.86, 4.8 * 1.20))
        assert (found.money_low, found.money_high) == pytest.approx((4.8 * 0.86 * 0.3, 4.8 * 1.20 * 0.3))
        bare = replace(self.model(), house=None)
        table = spared(bare, self.heat(), 8.0, 1.0, {JAN[5]})
        assert table is not None and (table.kwh_low, table.kwh_high) == pytest.approx((18.0, 18.0))
        free = (row(6.0, 60.0), row(8.0, 96.0))
        costless = spared(self.model(), self.heat(free), 8.0, 1.0, {JAN[5]})
        assert costless is not None and costless.money_low is None and costless.money_high is None

    def test_hours_made_of_a_meter_do_not_speak(self) -> None:
        """HOLD_PRICES.md found the run of such hours at 0.35 to 1.38 of the truth: the table of holds tells it (96 less
        78 kWh), and nothing does where the house was altered."""
        model = self.model()
        assert model.house is not None
        metered = replace(model, house=replace(model.house, hours=replace(model.house.hours, by_meter=True)))
        found = spared(metered, self.heat(), 8.0, 1.0, {JAN[5], JAN[6]})
        assert found is not None and (found.kwh_low, found.kwh_high) == pytest.approx((18.0, 18.0))
        assert spared(metered, self.heat(stretches=2), 8.0, 1.0, {JAN[5]}) is None

    def test_a_garden_day_runs_from_noon_to_noon(self) -> None:
        """Of the second day: hours 36 to 59 of the season."""
        assert np.flatnonzero(_lowered(self.model(), {JAN[5]})).tolist() == list(range(36, 60))
        assert np.flatnonzero(_lowered(self.model(), {JAN[3]})).tolist() == list(range(12))

    def test_a_house_that_was_not_heated_spares_nothing(self) -> None:
        """Its run needs no heat."""
        model = self.model()
        assert model.house is not None
        cold = replace(model.house, hours=replace(model.house.hours, heaters_w=np.zeros(120)))
        found = spared(replace(model, house=cold), self.heat(), -50.0, 1.0, {JAN[5]})
        assert found is not None and (found.kwh_low, found.kwh_high) == (0.0, 0.0)

    def test_what_cannot_be_told(self) -> None:
        """Nothing lower, no heat, no prices; without the balance of a house, two stretches or two states."""
        model, days = self.model(), {JAN[5]}
        bare = replace(model, house=None)
        assert spared(model, self.heat(), 8.0, 0.0, days) is None
        assert spared(model, self.heat(kwh=0.0), 8.0, 1.0, days) is None
        assert spared(model, self.heat(rows=()), 8.0, 1.0, days) is None
        assert spared(bare, self.heat(stretches=2), 8.0, 1.0, days) is None
        assert spared(None, self.heat(), 8.0, 1.0, days) is None
        assert spared(replace(bare, states=("a", "b")), self.heat(), 8.0, 1.0, days) is None  # type: ignore[arg-type]
        assert spared(replace(bare, states=("a",)), self.heat(), 8.0, 1.0, days) is not None  # type: ignore[arg-type]


class TestDegree:
    def test_a_degree_is_the_row_of_every_hold_so_far_away(self) -> None:
        """60 kWh as it was; 80 a kelvin higher, 50 lower; a degree Fahrenheit has rows of its own. Prices only where
        they are known; nothing where a row or the heat is not."""
        rows = tuple(moved_row(away, kwh) for away, kwh in ((-1.0, 50.0), (1.0, 80.0), (-5 / 9, 54.0), (5 / 9, 70.0)))
        priced = replace(TestSpared().heat(()), kwh=60.0, cost=18.0, price_of_degree=rows)
        found = degree(priced, False)
        assert found is not None and (found.kwh_more, found.kwh_less, found.step_k) == (20.0, 10.0, 1.0)
        assert (found.cost_more, found.cost_less) == (None, None)
        us = degree(priced, True)
        assert us is not None and (us.kwh_more, us.kwh_less) == (10.0, 6.0)
        paid = tuple(replace(row, cost=0.3 * row.kwh) for row in rows)
        found = degree(replace(priced, price_of_degree=paid), False)
        assert found is not None and (found.cost_more, found.cost_less) == pytest.approx((6.0, 3.0))
        assert degree(replace(priced, price_of_degree=rows[1:]), False) is None
        assert degree(replace(priced, kwh=None), False) is None


def moved_row(away_k: float, kwh: float) -> DegreePrice:
    """A row of the price of a degree, without prices."""
    none = dict.fromkeys(("cost", "cost_low", "cost_high"))
    return DegreePrice(away_k=away_k, kwh=kwh, low=kwh, high=kwh, **none)
