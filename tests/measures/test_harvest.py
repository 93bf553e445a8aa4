"""Harvest and cost against published arithmetic, a standard's calendar and laws that must hold."""

from __future__ import annotations

import datetime as dt
import math

import pandas as pd
import pytest
from made_season import channel, heater, logger, picking, readings, season

from reportgen.measures.harvest import harvest, iso_week, longest_gap
from reportgen.plain import plain
from reportgen.season.models import Aims, Crop, House, Household

CONTRACT = [
    "kg",
    "kg_per_m2",
    "cost_per_kg",
    "kwh_per_kg",
    "co2_kg_per_kg",
    "share_of_household",
    "weeks_at_half_or_more",
    "longest_gap_weeks",
    "shop_value",
    "crops",
    "weeks",
    "reasons",
]


def test_yield_per_area_of_a_published_winter_kale_trial() -> None:
    """124 kg of kale from 240 ft² are 5.57 kg/m².

    Source: Heyduck, VanLeeuwen & Guldan 2020, HortTechnology 30:570 (four pickings of 216, 88, 109, 104 g/ft²);
    1 ft = 0.3048 m exactly. Tolerance 1 %: the trial prints whole grams.
    """
    picks = tuple(
        picking(day, grams / 1000 * 240, crop="kale")
        for day, grams in zip(
            ("2026-01-06", "2026-01-13", "2026-01-20", "2026-01-27"), (216, 88, 109, 104), strict=True
        )
    )
    made = season(house=House(floor_area_m2=240 * 0.3048**2))
    found = harvest(readings(made, harvest=picks))
    assert found.kg == pytest.approx(124, rel=0.01)
    assert found.kg_per_m2 == pytest.approx(5.565, rel=0.01)


@pytest.mark.parametrize(
    ("day", "week"),
    [("2008-12-29", "2009-W01"), ("2010-01-03", "2009-W53"), ("2005-01-01", "2004-W53"), ("2007-01-01", "2007-W01")],
)
def test_weeks_are_iso_8601_weeks(day: str, week: str) -> None:
    """Week names follow ISO 8601: weeks begin on Monday, week 1 holds 4 January (dates where the years differ)."""
    assert iso_week(dt.date.fromisoformat(day)) == week


def test_every_key_of_the_contract_is_there_and_nulls_have_reasons() -> None:
    """A season with nothing but temperature has every harvest key, null or empty, with a reason for each."""
    found = plain(harvest(readings()))
    assert set(CONTRACT) <= set(found)
    for key in CONTRACT[:9]:
        assert found[key] is None
        assert found["reasons"][key]
    assert found["crops"] == [] and found["reasons"]["crops"]
    assert [w["week"] for w in found["weeks"]] == ["2026-W02", "2026-W03", "2026-W04", "2026-W05"]


def test_what_was_lost_is_not_yield() -> None:
    """A picking marked lost stands apart and adds nothing to the kilograms."""
    picks = (
        picking("2026-01-06", 2.0),
        picking("2026-01-07", 1.0, use="lost"),
        picking("2026-01-08", 0.5, use="given"),
    )
    found = harvest(readings(harvest=picks))
    assert found.kg == pytest.approx(2.5)
    assert (found.lost_kg, found.given_kg) == (1.0, 0.5)


def test_cost_and_heat_per_kilogram_are_season_over_season() -> None:
    """100 kWh at 31.00 over 5 kg are 20 kWh and 6.20 a kilogram, wherever in the season either falls."""
    picks = (picking("2026-01-29", 4.0), picking("2026-01-30", 1.0))
    supply = heater([("2026-01-05", "2026-01-12", 100.0, 31.0)], co2_kg_per_unit=0.25)
    found = harvest(readings(harvest=picks, heating=(supply,)))
    assert found.kwh_per_kg == pytest.approx(20.0)
    assert found.cost_per_kg == pytest.approx(6.2)
    assert found.co2_kg_per_kg == pytest.approx(5.0)


def test_heat_by_week_adds_up_and_is_spread_by_degree_hours() -> None:
    """A sum over two weeks with 3 K and 1 K to make up is split 3 : 1 between them and nothing of it is lost."""
    supply = heater([("2026-01-05", "2026-01-19", 80.0, 24.0)])
    hours = pd.date_range("2026-01-05", "2026-02-02", freq="1h", tz="Europe/Prague")
    outdoors = pd.Series([7.0 if stamp < hours[168] else 9.0 for stamp in hours], index=hours)
    made = season(aims=Aims(hold_c=10.0), logger=(logger("outside", where="outdoor"),))
    cold = channel(outdoors, logger="outside", where="outdoor")
    weeks = harvest(readings(made, heating=(supply,), harvest=(), channels=(cold,))).weeks
    assert [w.kwh for w in weeks] == pytest.approx([60.0, 20.0, 0.0, 0.0], abs=0.3)  # one hour joins 7 °C to 9 °C
    assert sum(w.cost or 0.0 for w in weeks) == pytest.approx(24.0)


def test_without_a_price_there_is_heat_but_no_cost() -> None:
    """Heat without a price gives kWh per kg and a reason in place of the cost."""
    supply = heater([("2026-01-05", "2026-01-06", 10.0, math.nan)])
    found = harvest(readings(harvest=(picking("2026-01-06", 2.0),), heating=(supply,)))
    assert found.kwh_per_kg == 5.0
    assert found.cost_per_kg is None and "price" in found.reasons["cost_per_kg"]
    assert found.weeks[0].cost is None and found.reasons["weeks.cost"]


def test_household_counts_what_was_eaten_or_stored() -> None:
    """Of 6 kg a week over four weeks, 12 kg eaten are half; given food fed others. Two weeks reach half."""
    picks = (
        picking("2026-01-06", 9.0),
        picking("2026-01-14", 3.0, use="stored"),
        picking("2026-01-20", 5.0, use="given"),
    )
    made = season(household=Household(people=3, vegetables_kg_per_week=6.0))
    found = harvest(readings(made, harvest=picks))
    assert found.share_of_household == pytest.approx(0.5)
    assert found.weeks_at_half_or_more == 2


def test_longest_gap_lies_between_pickings() -> None:
    """Empty weeks before the first and after the last picking are no gap; the longest inside counts."""
    mondays = [dt.date(2026, 1, 5) + dt.timedelta(weeks=n) for n in range(8)]
    gap, weeks = longest_gap([0, 1, 0, 2, 0, 0, 1, 0], mondays)
    assert weeks == 2
    assert gap == (mondays[4], mondays[5])
    assert longest_gap([0, 0], mondays[:2]) == (None, None)
    assert longest_gap([1, 1], mondays[:2]) == (None, 0)


def test_shop_value_takes_the_rows_own_price_first_and_tells_what_has_none() -> None:
    """A price beside a picking overrules the crop's; weight without any price is named."""
    made = season(crop=(Crop(name="spinach", shop_price_per_kg=6.0),))
    picks = (
        picking("2026-01-06", 2.0),
        picking("2026-01-07", 1.0, price_per_kg=8.0),
        picking("2026-01-08", 1.0, "kale"),
    )
    found = harvest(readings(made, harvest=picks))
    assert found.shop_value == pytest.approx(20.0)
    assert found.priced_share == pytest.approx(0.75)
    assert "kale" in found.reasons["shop_value"]


def test_pickings_outside_the_season_do_not_count() -> None:
    """A weighing after the last day belongs to another season."""
    found = harvest(readings(harvest=(picking("2026-02-01", 1.0), picking("2026-02-02", 9.0))))
    assert found.kg == 1.0
