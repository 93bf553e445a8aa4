"""What the harvest was worth and what it cost, part by part, by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, heater, logger, picking, planting, readings, season, store

from reportgen.measures.beds import Strip, beds, dark_from, midwinter
from reportgen.measures.beds_bare import Plot, bare_ground
from reportgen.measures.diary_words import says, speaks_of_heat, words_of
from reportgen.measures.harvest import harvest, iso_week, longest_gap, pickings_table
from reportgen.measures.harvest_after import picked_after, value_of
from reportgen.measures.harvest_before import mean_of, weeks_before
from reportgen.measures.harvest_co2 import factor_of, published
from reportgen.measures.harvest_costs import cost_bars
from reportgen.measures.harvest_next import bills, lasting, next_money, usual_deliveries
from reportgen.measures.harvest_things import things
from reportgen.measures.harvest_value import break_even, household, shop_value
from reportgen.measures.identity import hashed
from reportgen.readings.types import Cost, DiaryEntry, Purchase

JAN = [dt.date(2026, 1, n) for n in range(1, 32)]
NAN = float("nan")


def entry(day: int, what: str, cost: float | None = None, **more: Any) -> DiaryEntry:
    """A line of the diary in January."""
    usual: dict[str, Any] = {
        "line": 2, "date": JAN[day - 1], "time": None, "kind": "change", "what": what, "touches": (),
        "reversible": None, "hoped_for": (), "until": None, "cost": cost, "years": None, "written": None, "note": "",
    }  # fmt: skip
    return DiaryEntry(**(usual | more))


def cost(day: dt.date, what: str, amount: float, years: float | None = None, kind: str = "") -> Cost:
    """A row of costs.csv."""
    return Cost(line=2, date=day, what=what, kind=kind, amount=amount, years=years)


def bottle(*rows: tuple[str, str, float, float], **more: Any) -> Any:
    """A burner of propane by the kilogram; heat as bought."""
    stock = more.pop("stock", store(*(r[2] for r in rows)))
    usual = {"name": "burner", "fuel": "propane", "unit": "kg", "form": "deliveries", "stock": stock}
    return heater(list(rows), **(usual | more))


@dataclass(frozen=True)
class Week:
    """A week's eaten weight and its days."""

    eaten_kg: float
    days: int


class TestValue:
    def kept(self) -> pd.DataFrame:
        """10 kg: 4 eaten at 3 each, 3 stored at 2, 2 given away without a price, 1 eaten without."""
        return pd.DataFrame(
            {
                "crop": ["chard", "chard", "leek", "kale"],
                "use": ["eaten", "stored", "given", "eaten"],
                "kg": [4.0, 3.0, 2.0, 1.0],
                "value": [12.0, 6.0, NAN, NAN],
            }
        )

    def test_the_households_share(self) -> None:
        """8 of 4 weeks at 5 kg: 40 %. Half of the need, 2.5 kg, is reached in a week of 2.5 kg and in one of three days
        with 1.1 (half of 5 · 3/7 is 1.071), not with 2.4."""
        of = readings(season(household={"vegetables_kg_per_week": 5.0}))
        weeks = [Week(2.5, 7), Week(2.4, 7), Week(1.1, 3), Week(1.0, 3)]
        reasons: dict[str, str] = {}
        assert household(of, self.kept(), weeks, 10.0, reasons) == (pytest.approx(0.4), 2)
        assert household(of, self.kept(), weeks, None, {"kg": "no book"}) == (None, None)
        assert household(readings(), self.kept(), weeks, 10.0, reasons) == (None, None)
        assert "vegetables_kg_per_week" in reasons["share_of_household"]

    def test_the_shops_price_of_what_has_one(self) -> None:
        """18 for seven of ten kilograms; leek and kale have no price. All priced: no words; nothing priced: none."""
        reasons: dict[str, str] = {}
        assert shop_value(self.kept(), 10.0, reasons) == (18.0, pytest.approx(0.7))
        assert reasons["shop_value"] == "no price for kale, leek: the value is that of the rest"
        whole: dict[str, str] = {}
        assert shop_value(self.kept().iloc[:2], 7.0, whole) == (18.0, 1.0) and not whole
        assert shop_value(self.kept().iloc[2:], 3.0, reasons) == (None, None)
        assert shop_value(self.kept(), 0.0, reasons) == (None, None)

    def test_where_value_and_cost_meet(self) -> None:
        """18 for 7 kg are 2.571 a kilogram: a cost of 36 is paid by 14 kg."""
        assert break_even(36.0, 18.0, 0.7, 10.0) == pytest.approx(14.0)
        for missing in (
            (None, 18.0, 0.7, 10.0),
            (36.0, None, 0.7, 10.0),
            (36.0, 18.0, None, 10.0),
            (36.0, 18.0, 0.7, None),
        ):
            assert break_even(*missing) is None

    def test_weeks_between_the_first_and_the_last_picking(self) -> None:
        """Empty weeks before and after do not count: of gaps of one and two weeks the longer; of equal ones the
        first."""
        mondays = [JAN[4] + dt.timedelta(weeks=n) for n in range(8)]
        assert longest_gap([0, 1, 0, 2, 0, 0, 3, 0], mondays) == ((mondays[4], mondays[5]), 2)
        assert longest_gap([1, 0, 2, 0, 3, 0, 0, 0], mondays) == ((mondays[1], mondays[1]), 1)
        assert longest_gap([0, 0, 3, 4, 0, 0, 0, 0], mondays) == (None, 0)
        assert longest_gap([0.0] * 8, mondays) == (None, None)
        assert (iso_week(JAN[4]), iso_week(dt.date(2027, 1, 3))) == ("2026-W02", "2026-W53")

    def test_pickings_with_their_value(self) -> None:
        """The row's own price first, else the shop's, else none."""
        of = season(crops=({"name": "kale", "shop_price_per_kg": 4.0},))
        rows = (
            picking("2026-01-07", 2.0, "kale", price_per_kg=5.0), picking("2026-01-06", 1.0, "kale"),
            picking("2026-01-06", 1.0, "chard"), picking("2026-02-02", 9.0, "kale"),
        )  # fmt: skip
        table = pickings_table(readings(of, harvest=rows))
        assert table["crop"].tolist() == ["chard", "kale", "kale"]
        assert table["value"].tolist() == pytest.approx([NAN, 4.0, 10.0], nan_ok=True)

    def test_what_a_week_and_the_four_after_it_brought(self) -> None:
        """From Monday the 5th to 8 February, 35 days; lost pickings left out; without any price no value, of nothing
        picked none but 0."""
        table = pd.DataFrame(
            {
                "date": [JAN[4], JAN[5], dt.date(2026, 2, 8), dt.date(2026, 2, 9), JAN[6]],
                "kg": [1.0, 2.0, 4.0, 8.0, 16.0], "use": ["eaten", "given", "eaten", "eaten", "lost"],
                "value": [3.0, NAN, 5.0, 7.0, 9.0], "crop": ["kale", "kale", "kale", "chard", "kale"],
            }
        )  # fmt: skip
        first, later, none = picked_after(table, [JAN[4], dt.date(2026, 2, 9), dt.date(2026, 3, 2)])
        assert (first.kg, first.value, later.kg, later.value) == (7.0, 8.0, 8.0, 7.0)
        assert (none.kg, none.value) == (0.0, 0.0)
        assert picked_after(table.iloc[[1]], [JAN[4]])[0].value is None
        assert value_of(table, ["kale"], dt.date(2026, 2, 8)) == 5.0 and value_of(table, ["kale"], JAN[4]) is None
        assert value_of(table, ["leek"], JAN[4]) is None and value_of(table, ["chard", "kale"], JAN[6]) == 12.0

    def test_totals_and_heads(self) -> None:
        """6 kg of 12 m² for three people with 30 litres: 0.5 a m², 2 a head, 5 l a kilogram; lost and given apart."""
        from reportgen.readings.types import Watering

        of = season(house={"floor_area_m2": 12.0}, household={"people": 3})
        rows = (
            picking("2026-01-06", 4.0), picking("2026-01-07", 2.0, use="given"), picking("2026-01-08", 1.0, use="lost"),
        )  # fmt: skip
        water = tuple(
            Watering(line=2, date=day, time=None, bed=None, litres=litres)
            for day, litres in ((JAN[5], 10.0), (JAN[6], 20.0), (dt.date(2026, 3, 1), 99.0), (JAN[7], None))
        )
        found = harvest(readings(of, harvest=rows, watering=water))
        assert (found.kg, found.kg_per_m2, found.kg_per_head, found.litres_per_kg) == (6.0, 0.5, 2.0, 5.0)
        assert (found.lost_kg, found.given_kg, found.first, found.last) == (1.0, 2.0, JAN[5], JAN[6])
        sown = season(crops=({"name": "spinach", "area_m2": 4.0},))
        (of_area,) = harvest(readings(sown, harvest=rows)).crops
        assert of_area.kg_per_m2 == 1.5 and "crops.0.kg_per_m2" not in harvest(readings(sown, harvest=rows)).reasons
        assert found.reasons["crops.0.kg_per_m2"] == "no area_m2 for spinach"
        (crop,) = found.crops
        assert (crop.kg, crop.lost_kg, crop.pickings, crop.shop_value) == (6.0, 1.0, 2, None)

    def test_a_reason_stands_where_a_figure_is_missing_and_nowhere_else(self) -> None:
        """No heater: neither kWh nor cost of the weeks, each with why; a heater with prices: both there, no word."""
        rows = (picking("2026-01-06", 4.0),)
        none = harvest(readings(harvest=rows))
        assert none.heat.kwh is None and none.reasons["weeks.kwh"] == none.heat.reasons["kwh"] != ""
        assert none.heat.cost is None and none.reasons["weeks.cost"] == none.heat.reasons["cost"] != ""
        burnt = heater([("2026-01-05", "2026-02-02", 84.0, 21.0)])
        both = harvest(readings(harvest=rows, heating=(burnt,)))
        assert not {"weeks.kwh", "weeks.cost", "kwh_per_kg", "cost_per_kg", "kg", "longest_gap_weeks"} & set(
            both.reasons
        )
        assert (both.kwh_per_kg, both.cost_per_kg) == (pytest.approx(21.0), pytest.approx(5.25))
        free = harvest(readings(harvest=rows, heating=(heater([("2026-01-05", "2026-02-02", 84.0, NAN)]),)))
        assert free.kwh_per_kg == pytest.approx(21.0) and "weeks.kwh" not in free.reasons
        assert free.cost_per_kg is None and free.reasons["weeks.cost"] == free.heat.reasons["cost"] != ""
        empty = harvest(readings(harvest=()))
        assert empty.kg == 0.0 and empty.reasons["longest_gap_weeks"] == "nothing was picked"
        missing = harvest(readings())
        assert missing.kg is None and missing.reasons["longest_gap_weeks"] == missing.reasons["kg"]

    def test_heat_and_weight_of_every_week_add_up(self) -> None:
        """Four weeks from Monday 5 January: 84 kWh evenly over 28 days are 21 a week (money 5.25), 4 kg in the first,
        1 given and 2 lost in the third."""
        rows = (
            picking("2026-01-06", 3.0), picking("2026-01-11", 1.0, use="stored"),
            picking("2026-01-19", 1.0, use="given"), picking("2026-01-20", 2.0, use="lost"),
        )  # fmt: skip
        found = harvest(readings(harvest=rows, heating=(heater([("2026-01-05", "2026-02-02", 84.0, 21.0)]),)))
        assert [week.monday.day for week in found.weeks] == [5, 12, 19, 26]
        assert [week.kg for week in found.weeks] == [4.0, 0.0, 1.0, 0.0]
        assert [week.kwh for week in found.weeks] == pytest.approx([21.0] * 4)
        assert [week.cost for week in found.weeks] == pytest.approx([5.25] * 4)
        assert (found.longest_gap_weeks, found.gap) == (1, (JAN[11], JAN[11]))
        assert found.cumulative["kg"].iloc[-1] == 5.0 and found.cumulative["kwh"].iloc[-1] == pytest.approx(84.0)


class TestNext:
    def test_the_usual_delivery(self) -> None:
        """Of 11, 5 and 11 kg the median; 0.9 kWh a unit bought; 2000 W."""
        rows = [("2026-01-05", "2026-01-12", 11.0, 20.0), ("2026-01-12", "2026-01-20", 16.0, 30.0)]
        one = bottle(*rows, stock=store(11.0, 5.0, 11.0), rated_power_w=2000.0)
        one = replace(one, intervals=one.intervals.assign(heat_kwh=one.intervals["bought"] * 0.9))
        of = season()
        (found,) = usual_deliveries(replace(readings(of), heating=(one,)))
        assert (found.amount, found.kwh, found.unit, found.most_w) == (11.0, pytest.approx(9.9), "kg", 2000.0)
        idle = replace(one, intervals=one.intervals.assign(heat_kwh=0.0))
        gas = replace(one, fuel="natural_gas")
        bare = replace(one, stock=None)
        assert usual_deliveries(replace(readings(of), heating=(idle, gas, bare))) == ()
        small = replace(one, intervals=one.intervals.assign(bought=0.01, heat_kwh=0.009))
        assert usual_deliveries(replace(readings(of), heating=(small,)))[0].kwh == pytest.approx(9.9)
        (two,) = usual_deliveries(replace(readings(of), heating=(replace(one, stock=store(5.0, 11.0)),)))
        assert two.amount == 5.0  # one that came, and not too good

    def test_how_long_a_delivery_lasts(self) -> None:
        """12 kWh at 50 (40 to 60) W/K and 8 K: 400 W, 30 h (25 to 37.5); at 20 K 1000 W, but a heater of 800 W burns
        flat out: 15 h; at the hold and over it nothing is told."""
        near, far = lasting(12.0, (50.0, 40.0, 60.0), 8.0, (0.0, -12.0, 8.0, 9.0), 800.0)
        assert (near.outdoor_c, near.hours, near.low, near.high) == (0.0, 30.0, 25.0, 37.5)
        assert (near.needed_w, near.holds, far.needed_w, far.hours, far.holds) == (400.0, True, 1000.0, 15.0, False)
        (free,) = lasting(12.0, (50.0, 40.0, 60.0), 8.0, (-12.0,))
        assert (free.hours, free.holds) == (12.0, None)
        assert lasting(12.0, (50.0, 40.0, 60.0), 8.0, (0.0,), 400.0)[0].holds is True

    def test_bills_of_winters_that_may_follow(self) -> None:
        """100 kWh for 30 at 8 °C; 2 K colder 120, 2 K lower 70: 36 and 21 at this winter's price, with the rows'
        bands."""
        of = replace(readings(), heating=(heater([("2026-01-05", "2026-02-02", 100.0, 30.0)]),))
        rows = [{"away_k": a, "kwh": k, "low": 0.9 * k, "high": 1.1 * k} for a, k in ((-2.0, 70.0), (2.0, 120.0))]
        now, colder, lower = bills(of, (100.0, 30.0), 8.0, rows)
        assert (now.what, now.kwh, now.cost, now.hold_c) == ("as it was", 100.0, 30.0, 8.0)
        assert (colder.what, colder.kwh, colder.cost, colder.hold_c) == ("colder", 120.0, pytest.approx(36.0), 8.0)
        assert (colder.low, colder.high) == (pytest.approx(32.4), pytest.approx(39.6))
        assert (lower.what, lower.kwh, lower.cost, lower.hold_c) == ("lower hold", 70.0, pytest.approx(21.0), 6.0)
        assert len(bills(of, (100.0, 30.0), None, rows)) == 1 and len(bills(of, (0.0, 30.0), 8.0, rows)) == 1
        assert [b.what for b in bills(of, (100.0, 30.0), 8.0, rows[1:])] == ["as it was", "colder"]

    def test_next_winters_price(self) -> None:
        """100 kWh at 0.50 where it is given, beside 20 of money that stays; without any price nothing."""
        source = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug", "next_price": 0.5}
        one = heater([("2026-01-05", "2026-02-02", 100.0, 30.0)])
        other = heater([("2026-01-05", "2026-02-02", 50.0, 20.0)], name="stove")
        of = replace(readings(season(heating=(source,))), heating=(one, other))
        assert next_money(of) == (70.0, "", True)
        assert next_money(replace(readings(), heating=(one, other))) == (50.0, "", False)
        unused = replace(other, intervals=other.intervals.assign(cost=NAN, bought=0.0, heat_kwh=0.0))
        assert next_money(replace(of, heating=(one, unused))) == (50.0, "", True)
        unpriced = replace(other, intervals=other.intervals.assign(cost=NAN))
        money, why, given = next_money(replace(of, heating=(one, unpriced)))
        assert (money, given) == (None, True) and "stove" in why
        rows = [{"away_k": a, "kwh": k, "low": k, "high": k} for a, k in ((-2.0, 105.0), (2.0, 180.0))]
        told = bills(of, (150.0, 50.0), 8.0, rows)
        assert [(b.what, round(b.cost, 6)) for b in told] == [
            ("as it was", 50.0), ("lower hold as paid", 35.0), ("next prices", 70.0), ("colder", 84.0),
            ("lower hold", 49.0),
        ]  # fmt: skip
        assert told[0].low is None and told[3].low == told[3].high == pytest.approx(84.0)

    def test_published_factors_by_unit(self) -> None:
        """10 kg of propane at 2.994; a therm of gas is 29.3001 kWh at 0.18108; other units and fuels have none."""
        one = bottle(("2026-01-05", "2026-01-12", 10.0, 20.0))
        (burnt,) = published(replace(readings(), heating=(one,)))
        assert (burnt.name, burnt.kg) == ("burner", pytest.approx(29.94))
        gas = replace(one, fuel="natural_gas", heating_value="gross", stock=None)
        for unit, kg in (("therm", 29.3001 * 0.18108), ("kWh", 0.18108)):
            found = factor_of(replace(gas, unit=unit))
            assert found is not None and found.kg_per_unit == pytest.approx(kg)
        assert factor_of(replace(gas, unit="m3")) is None and factor_of(replace(one, unit="lb")) is None
        assert published(replace(readings(), heating=(replace(one, co2_kg_per_unit=3.0),))) == ()


class TestThings:
    def test_what_counts_and_for_how_long(self) -> None:
        """Film of 90 for three years: 30 a winter; what lasts a year or has no years whole. Bought 365 days before the
        season it still counts, 366 days before not; three years are 1095 days. After the season nothing counts; hours
        and rows of nothing are no things."""
        first = dt.date(2026, 1, 5)
        rows = (
            cost(JAN[8], "Film", 90.0, 3.0), cost(JAN[9], "String", 5.0), cost(JAN[9], "Fleece", 8.0, 1.0),
            cost(first - dt.timedelta(365), "Pots", 7.0), cost(first - dt.timedelta(366), "Soil", 9.0),
            cost(first - dt.timedelta(1095), "Fan", 30.0, 3.0), cost(first - dt.timedelta(1096), "Mat", 30.0, 3.0),
            cost(dt.date(2026, 2, 2), "Late", 1.0), cost(JAN[9], "Digging", 6.0, kind="Hours"),
            cost(JAN[9], "Gift", 0.0),
        )  # fmt: skip
        found = things(readings(costs=rows))
        assert [(one.what, one.share) for one in found.counted] == [
            ("Film", 30.0), ("String", 5.0), ("Fleece", 8.0), ("Pots", 7.0), ("Fan", 10.0),
        ]  # fmt: skip
        assert found.past == ("Soil", "Mat", "Late")
        assert [one.lasts for one in found.counted] == [True, False, False, False, True]

    @pytest.mark.parametrize(
        ("what", "day", "amount", "twice"),
        [
            ("Film for the roof", 20, 44.0, True), ("Curtain", 20, 30.0, True), ("Curtain", 25, 30.0, False),
            ("Curtain", 20, 30.01, False), ("Roof", 20, 44.0, False),
            ("Film", 31, 44.0, True), ("A bit", 10, 44.0, False), ("12 × 4", 10, 44.0, False),
        ],
    )  # fmt: skip
    def test_one_thing_in_both_books(self, what: str, day: int, amount: float, twice: bool) -> None:
        """Film, 30 on the 10th in costs.csv: the same words, or the same money within 14 days."""
        made = readings(costs=(cost(JAN[9], "Film", 30.0),), diary=(entry(day, what, amount),))
        found = things(made)
        assert (found.twice == (what,)) is twice and len(found.counted) == (1 if twice else 2)

    def test_the_shorter_name_may_stand_in_either_book(self) -> None:
        """ "Film for the roof" in costs.csv is the diary's "Film", 92 days later at the most."""
        made = readings(costs=(cost(JAN[9], "Film for the roof", 30.0),), diary=(entry(20, "Film", 44.0),))
        assert things(made).twice == ("Film",)
        for days, twice in ((92, ("Film",)), (93, ())):
            row = cost(JAN[30] - dt.timedelta(days), "Film for the roof", 30.0)
            assert things(readings(costs=(row,), diary=(entry(31, "Film", 44.0),))).twice == twice

    def test_the_dearest_line_of_a_thing_and_no_idea(self) -> None:
        """A curtain noted at 20 and 25 is one of 25; an idea of 99 was not bought."""
        made = readings(
            diary=(entry(8, "Curtain", 20.0), entry(9, "curtain", 25.0), entry(9, "Stove", 99.0, kind="idea"))
        )
        assert [(one.what, one.amount, one.book) for one in things(made).counted] == [("curtain", 25.0, "diary.csv")]

    def test_what_was_bought_before_the_season_and_still_stands(self) -> None:
        """A cover of 640 over twelve years, put up in October: 53.33 of this winter's money."""
        cover = replace(entry(8, "Twin-wall sheets", 640.0), date=dt.date(2025, 10, 12), years=12.0)
        (found,) = things(replace(readings(), diary_before=(cover,))).counted
        assert (found.what, round(found.share, 2), found.book) == ("Twin-wall sheets", 53.33, "diary.csv")

    def test_words_too_short_to_tell_a_thing_make_nothing_the_same(self) -> None:
        """“Net” in costs.csv beside a dearer film of the same day in the diary: two things; the same the other way
        round, and of two that have no such word."""
        for book, line_ in (("Net", "Film"), ("Film", "Net"), ("Net", "Box")):
            made = readings(costs=(cost(JAN[9], book, 30.0),), diary=(entry(10, line_, 44.0),))
            assert sorted(one.what for one in things(made).counted) == sorted((book, line_))

    def test_last_winters_things_that_still_serve(self) -> None:
        """A fan of three years from last winter's books, once: not where this winter's have it with its date and
        price."""
        old = readings(season("2025-01-06", "2025-02-02"), costs=(cost(dt.date(2025, 1, 8), "Fan", 30.0, 3.0),
                                                                  cost(dt.date(2025, 1, 9), "Soil", 9.0)))  # fmt: skip
        (one,) = things(readings(), old).counted
        assert (one.what, one.share, one.before) == ("Fan", 10.0, True)
        again = readings(costs=(cost(dt.date(2025, 1, 8), "The fan", 30.0, 3.0),))
        (one,) = things(again, old).counted
        assert one.before is False

    def test_a_delivery_is_no_second_cost(self) -> None:
        """20 on the 9th, as the heating book has it."""
        stock = store(11.0)
        paid = Purchase(at=pd.Timestamp("2026-01-09 10:00", tz=ZONE), amount=11.0, paid=20.0)
        burner = bottle(("2026-01-05", "2026-01-12", 11.0, 20.0), stock=replace(stock, purchases=(paid,)))
        rows = (cost(JAN[8], "Propane", 20.0), cost(JAN[9], "Propane", 20.0), cost(JAN[8], "Hose", 21.0))
        found = things(replace(readings(costs=rows), heating=(burner,)))
        assert [one.date.day for one in found.counted] == [10, 9] and found.twice == ("Propane",)

    def test_three_ways_to_count(self) -> None:
        """Heat 30, a lamp 6, string 5: 41 used up; film 90 of three years: 71 in all; 2 kg."""
        lamp = heater([("2026-01-05", "2026-02-02", 20.0, 6.0)], name="lamp", role="appliance")
        dark = replace(lamp, name="fan", intervals=lamp.intervals.assign(cost=NAN))
        rows = (
            cost(JAN[8], "Film", 90.0, 3.0),
            cost(JAN[9], "String", 5.0),
            cost(JAN[9], "Digging", 6.0, kind="hours"),
        )
        of = replace(
            readings(costs=rows),
            heating=(heater([("2026-01-05", "2026-02-02", 100.0, 30.0)]),),
            appliances=(lamp, dark),
        )
        found = cost_bars(of, 30.0, 2.0)
        assert (found.heat, found.running, found.everything) == (30.0, 41.0, 71.0)
        assert (found.heat_per_kg, found.running_per_kg, found.everything_per_kg) == (15.0, 20.5, 35.5)
        assert [part.group for part in found.parts] == ["heat", "appliance", "used up", "by its years"]
        assert (found.without_price, found.hours, found.named("used up")) == (("fan",), 6.0, ("String",))
        assert (found.parts[-1].paid, found.parts[-1].years, found.parts[0].paid) == (90.0, 3.0, None)
        assert not any(part.before for part in found.parts)
        bare = cost_bars(replace(of, costs=(), appliances=()), 30.0, None)
        assert (bare.running, bare.everything, bare.heat_per_kg, bare.hours) == (None, None, None, None)
        unknown = cost_bars(of, None, 2.0)
        assert unknown.running is None and "running" in unknown.reasons
        cold = cost_bars(replace(of, heating=()), None, 2.0)
        assert (cold.heat, cold.running, cold.everything, dict(cold.reasons)) == (None, 11.0, 41.0, {})


class TestBeds:
    def test_ground_that_lay_bare(self) -> None:
        """A bed of 4 m²: kale on 3 of them to the 14th of February, chard on 1 all along: 3 m² bare from the 15th to
        the end; a path of 0.3 m², under a tenth, is none. A bed without areas: bare when nothing stands in it."""
        days = [dt.date(2026, 1, 5) + dt.timedelta(n) for n in range(60)]
        plots = [
            Plot("north", "kale", days[0], days[40], 3.0), Plot("north", "chard", days[0], days[-1], 1.0),
            Plot("south", "leek", days[0], days[9], None), Plot("south", "peas", days[20], days[-1], 2.0),
            Plot("east", "leek", days[0], days[40], 3.7), Plot("east", "leek", days[41], days[-1], 3.4),
            Plot("", "beet", days[0], days[3], 1.0),
        ]  # fmt: skip
        north, south = bare_ground(plots, days)
        assert (north.bed, north.start, north.end, north.m2, north.of_m2) == ("north", days[41], days[59], 3.0, 4.0)
        assert (north.after, north.open_end, north.whole, north.weeks) == ("kale", True, False, pytest.approx(19 / 7))
        assert (south.bed, south.start, south.end, south.m2, south.whole) == ("south", days[10], days[19], None, True)
        assert (south.after, south.open_end) == ("leek", False)
        (whole,) = bare_ground([Plot("w", "kale", days[0], days[40], 3.0)], days)
        assert whole.whole and whole.m2 == 3.0
        (nearly,) = bare_ground([plots[0], Plot("north", "x", days[0], days[-1], 0.2)], days)
        assert nearly.m2 == 3.0 and nearly.whole  # over nine tenths of 3.2

    def test_what_was_cleared_last_was_cleared_before_the_ground_lay_bare(self) -> None:
        """Leek leaves on 29 January, kale on the 30th, chard stays: of 3 m² one is bare on the 30th (after leek), two
        are from the 31st on (after kale)."""
        days = [JAN[0] + dt.timedelta(n) for n in range(60)]
        plots = [
            Plot("east", "leek", dt.date(2025, 12, 1), JAN[29 - 1], 1.0), Plot("east", "kale", JAN[0], JAN[29], 1.0),
            Plot("east", "chard", JAN[0], days[-1], 1.0),
        ]  # fmt: skip
        found = sorted(bare_ground(plots, days), key=lambda one: one.start)
        assert [(one.start, one.after, one.m2) for one in found] == [(JAN[29], "leek", 1.0), (JAN[30], "kale", 2.0)]

    def test_the_beds_ground_stood_four_weeks(self) -> None:
        """6 m² for 27 days count for nothing, for 28 days they are its ground; in a season of ten days the least of
        them."""
        days = [dt.date(2026, 1, 5) + dt.timedelta(n) for n in range(60)]
        for stood, bare in ((27, 0), (28, 1)):
            plots = [Plot("a", "x", days[0], days[-1], 3.0), Plot("a", "y", days[0], days[stood - 1], 3.0)]
            assert len(bare_ground(plots, days)) == bare
        short = [Plot("a", "x", days[0], days[9], 3.0), Plot("a", "y", days[0], days[8], 3.0)]
        assert bare_ground(short, days[:10]) == ()

    def test_solstice_and_dark_weeks(self) -> None:
        """21 December north, 21 June south; none in a season without one. At 50° N under ten hours from late October
        on; a season that begins in the dark, or has no latitude, tells no day."""
        span = (dt.date(2025, 10, 1), dt.date(2026, 3, 1))
        assert midwinter(*span, 50.0) == midwinter(*span, None) == dt.date(2025, 12, 21)
        assert midwinter(*span, -40.0) is None and midwinter(dt.date(2026, 6, 21), span[0], -40.0) is None
        assert midwinter(dt.date(2026, 6, 21), dt.date(2026, 7, 1), -40.0) == dt.date(2026, 6, 21)
        assert midwinter(dt.date(2025, 12, 22), span[1], 50.0) is None
        told = dark_from(season("2025-10-01", "2026-03-01", place={"latitude": 50.0}))
        assert told is not None and dt.date(2025, 10, 24) <= told <= dt.date(2025, 11, 1)  # 28 October, from memory
        assert dark_from(season(place={"latitude": 50.0})) is None and dark_from(season()) is None

    def test_what_a_strip_gave(self) -> None:
        """Kale, sown 1 December, 2 m² from the 5th to the 18th, two weeks: 4 kg are 1 a m² and week; the lost picking
        counts for nothing; 45 days from sowing to the first picking on the 15th."""
        one = planting("kale", "a", "2026-01-05", "2026-01-18", sown=dt.date(2025, 12, 1), area_m2=2.0)
        picks = (
            picking("2026-01-15", 3.0, "kale"), picking("2026-01-17", 1.0, "kale"),
            picking("2026-01-16", 9.0, "kale", use="lost"),
        )  # fmt: skip
        (strip,) = beds(readings(plantings=(one,), harvest=picks)).strips
        assert isinstance(strip, Strip)
        assert (strip.kg, strip.days_to_first, strip.cleared) == (4.0, 45, True)
        assert strip.kg_per_m2_week == pytest.approx(4.0 / 2.0 / (((strip.end - strip.start).days + 1) / 7))
        assert (strip.first_picked, strip.last_picked) == (JAN[14], JAN[16])
        assert beds(readings()).reason == "no plantings.csv"


class TestBefore:
    def test_the_four_weeks_before_a_week(self) -> None:
        """5 °C up to the 18th of January, 9 after: Monday 2 February has two weeks of each before it, 7 °C; the week of
        the 26th has only three weeks of the season before it."""
        at = pd.date_range("2026-01-05", periods=24 * 40, freq="1h", tz=ZONE)
        air = channel(pd.Series(np.where(at < pd.Timestamp("2026-01-19", tz=ZONE), 5.0, 9.0), index=at))
        of = season("2026-01-05", "2026-02-12", loggers=(logger("bench"),), place={"latitude": 50.0})
        table = weeks_before(readings(of, channels=(air,)), [dt.date(2026, 1, 26), dt.date(2026, 2, 2)], [1.0, 2.0])
        assert table["week"].tolist() == [dt.date(2026, 2, 2)] and table["kg"].tolist() == [2.0]
        assert table["warmth_c"].iloc[0] == pytest.approx(7.0, abs=0.01)
        assert table["light_unit"].iloc[0] == "h of daylight" and 8.0 < table["light"].iloc[0] < 9.5
        sun = channel(pd.Series(50.0, index=at), "solar_radiation", "garden", where="outdoor")
        lit = season("2026-01-05", "2026-02-12", loggers=(logger("bench"), logger("garden", where="outdoor")))
        table = weeks_before(readings(lit, channels=(sun,)), [dt.date(2026, 2, 2)], [2.0])
        assert table["light"].iloc[0] == pytest.approx(1.2) and table["light_unit"].iloc[0] == "kWh/m² a day outdoors"
        assert np.isnan(table["warmth_c"].iloc[0])
        blind = weeks_before(readings(season("2026-01-05", "2026-02-12")), [dt.date(2026, 2, 2)], [2.0])
        assert np.isnan(blind["light"].iloc[0]) and blind["light_unit"].iloc[0] == ""

    def test_a_mean_needs_four_fifths_of_the_days(self) -> None:
        """8 of 10 days are enough, 7 are not."""
        values = pd.Series(range(10), index=JAN[:10], dtype=float)
        assert mean_of(values.iloc[:8], JAN[:10]) == pytest.approx(3.5) and np.isnan(mean_of(values.iloc[:7], JAN[:10]))


class TestWords:
    def test_whole_words_side_by_side(self) -> None:
        """`heat` stands in no `wheat`; a name of two words only where both stand together."""
        assert words_of("Cut-out, 3 Öfen!") == ("cut", "out", "öfen")
        assert says("the fan heater stood", "Fan heater") and not says("the heater fan stood", "fan heater")
        assert says("fan heater", "fan heater") and not says("fan", "fan heater") and not says("anything", "12")
        assert speaks_of_heat(entry(8, "Power cut")) and not speaks_of_heat(entry(8, "Wheat sown"))
        assert speaks_of_heat(entry(8, "Bertha stood"), ["Bertha"]) and not speaks_of_heat(entry(8, "Bertha stood"))
        assert speaks_of_heat(entry(8, "x", touches=("thermostat",))) and speaks_of_heat(
            entry(8, "x", note="fuse blew")
        )

    def test_the_hash_of_a_house(self) -> None:
        """The first 16 digits of SHA-256 of the prefix and the word, folded (hashlib)."""
        import hashlib

        wanted = hashlib.sha256(b"reportgen house 1 green house").hexdigest()[:16]
        assert hashed("  Green   HOUSE ") == wanted
