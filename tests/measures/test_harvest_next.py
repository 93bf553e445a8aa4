"""Next winter's bill, a delivery's lasting and published CO₂, against published figures and plain arithmetic."""

from __future__ import annotations

import datetime as dt
import math

import pandas as pd
import pytest
from made_season import channel, heater, logger, picking, readings, season, store

from reportgen.measures.harvest import harvest
from reportgen.measures.harvest_before import mean_of, weeks_before
from reportgen.measures.harvest_co2 import factor_of, published
from reportgen.measures.harvest_next import bills, lasting, next_money, usual_deliveries
from reportgen.readings.types import Cost
from reportgen.season.sources import HeatSource

BTU_KWH = 0.00029307107  # international table Btu, NIST SP 811


def gas(**more: object) -> object:
    rows = [("2026-01-05", "2026-01-15", 11.0, 30.0), ("2026-01-15", "2026-01-25", 11.0, 30.0)]
    usual = {"name": "gas heater", "fuel": "propane", "form": "deliveries", "unit": "kg"}
    return heater([*rows, ("2026-01-25", "2026-02-01", 5.0, 14.0)], **(usual | more))


def source(**more: object) -> HeatSource:
    return HeatSource(**({"name": "gas heater", "fuel": "propane", "deliveries": "b.csv", "unit": "kg"} | more))


def test_a_cylinder_of_propane_lasts_as_its_heat_value_says() -> None:
    """4.7 US gallons at 91 333 Btu feed a steady loss of 40 000 Btu/h for 10.7 hours.

    Source of the heat value: EIA, Units and calculators (2018 data). The rest is division; tolerance 0.5 % for the
    rounding of the Btu.
    """
    kwh = 4.7 * 91_333 * BTU_KWH
    w_per_k = 40_000 * BTU_KWH * 1000 / 20.0  # over 20 K
    (found,) = lasting(kwh, (w_per_k, w_per_k * 0.8, w_per_k * 1.25), 10.0, [-10.0])
    assert found.hours == pytest.approx(4.7 * 91_333 / 40_000, rel=0.005)
    assert found.low == pytest.approx(found.hours / 1.25) and found.high == pytest.approx(found.hours / 0.8)


def test_no_heat_is_needed_where_it_is_as_warm_outside() -> None:
    """Outdoor temperatures at or above the hold have no row: the delivery would last for ever."""
    assert [row.outdoor_c for row in lasting(100.0, (100.0, 80.0, 120.0), 5.0, [-5.0, 0.0, 5.0, 8.0])] == [-5.0, 0.0]


def test_a_heater_that_gives_less_than_the_house_loses_burns_flat_out_and_no_faster() -> None:
    """112 kWh at 1 300 W last 86.2 h however cold it is; the house loses 100 W/K × 18 K = 1 800 W at −15 °C, 1 300 W at
    −10 °C (13 K: kept just so), 800 W at −5 °C, where they last 140 h."""
    cold, edge, mild = lasting(112.0, (100.0, 90.0, 110.0), 3.0, [-15.0, -10.0, -5.0], 1300.0)
    assert (cold.hours, cold.needed_w, cold.holds) == (pytest.approx(112_000 / 1300), pytest.approx(1800.0), False)
    assert cold.low == cold.high == cold.hours
    assert (edge.hours, edge.holds) == (pytest.approx(112_000 / 1300), True)
    assert (mild.hours, mild.holds) == (pytest.approx(140.0), True)
    assert lasting(112.0, (100.0, 90.0, 110.0), 3.0, [-15.0])[0].holds is None  # rated power not given


def test_rated_power_is_what_a_heater_draws() -> None:
    """1 500 W at 0.8 give 1 200 W."""
    made = readings(season(heating=(source(efficiency=0.8),)), heating=(gas(stock=store(11.0), rated_power_w=1500.0),))
    assert usual_deliveries(made)[0].most_w == pytest.approx(1200.0)


def test_the_usual_delivery_is_the_median_and_not_the_half_used_last_one() -> None:
    """Three of 11 kg, 5 kg of the last burnt: the usual one is 11 kg, with its share of the heat."""
    (found,) = usual_deliveries(readings(heating=(gas(stock=store(11.0, 11.0, 11.0, left=6.0)),)))
    assert (found.amount, found.unit) == (11.0, "kg")
    assert found.kwh == pytest.approx(11.0)
    assert usual_deliveries(readings(heating=(gas(fuel="electricity", stock=store(11.0)),))) == ()


def test_a_row_of_nothing_is_no_delivery_and_costs_nothing() -> None:
    """A first row of 0 kg without a price says that the book begins; 11 kg stay usual and the 30.00 paid stand."""
    rows = [("2026-01-05", "2026-01-10", 0.0, math.nan), ("2026-01-10", "2026-01-20", 11.0, 20.0)]
    made = heater([*rows, ("2026-01-20", "2026-02-01", 6.0, 10.0)], name="gas heater", fuel="propane",
                  form="deliveries", unit="kg", stock=store(11.0, 11.0, left=5.0))  # fmt: skip
    (found,) = usual_deliveries(readings(heating=(made,)))
    assert found.amount == 11.0
    assert next_money(readings(season(heating=(source(),)), heating=(made,)))[0] == pytest.approx(30.0)


def test_next_winters_money_takes_the_next_price_where_there_is_one() -> None:
    """27 kg at 3.00 are 81.00; without a next price the 74.00 paid stand; without any price there is a reason."""
    with_next = season(heating=(source(next_price=3.0),))
    assert next_money(readings(with_next, heating=(gas(),))) == (pytest.approx(81.0), "", True)
    assert next_money(readings(season(heating=(source(),)), heating=(gas(),))) == (pytest.approx(74.0), "", False)
    unpriced = heater([("2026-01-05", "2026-01-15", 11.0, math.nan)], name="gas heater")
    money, why, _ = next_money(readings(season(heating=(source(),)), heating=(unpriced,)))
    assert money is None and "no price" in why


def test_a_colder_winter_costs_what_a_warmer_hold_would_have() -> None:
    """Of 100 kWh two kelvin are 40 kWh either way, at next winter's price; the row of one kelvin is not asked for."""
    rows = [{"away_k": a, "kwh": k, "low": k, "high": k} for a, k in ((-2.0, 60.0), (-1.0, 79.0), (2.0, 140.0))]
    made = readings(season(heating=(source(next_price=2.0),)), heating=(gas(),))
    found = {b.what: b for b in bills(made, (100.0, 74.0), 8.0, rows)}
    assert found["as it was"].cost == 74.0
    assert found["next prices"].cost == pytest.approx(54.0)
    assert found["colder"].kwh == 140.0 and found["colder"].cost == pytest.approx(54.0 * 1.4)
    assert found["lower hold"].cost == pytest.approx(54.0 * 0.6)
    assert found["lower hold"].hold_c == 6.0


def test_without_a_hold_or_its_rows_only_the_bill_as_it_was() -> None:
    """No hold found, or no price of a degree."""
    rows = [{"away_k": 2.0, "kwh": 60.0, "low": 60.0, "high": 60.0}]
    made = readings(season(heating=(source(),)), heating=(gas(),))
    assert [b.what for b in bills(made, (27.0, 74.0), None, rows)] == ["as it was"]
    assert [b.what for b in bills(made, (27.0, 74.0), 8.0, [])] == ["as it was"]


@pytest.mark.parametrize(
    ("fuel", "unit", "basis", "kg"),
    [
        ("propane", "gal_us", "gross", 5.76),
        ("propane", "L", "gross", 0.2152 * 7.071),
        ("kerosene", "gal_us", "", 9.75),
        ("natural_gas", "kWh", "gross", 0.18108),
        ("natural_gas", "kWh", "net", 0.202),
        ("wood", "kg", "net", 0.4032 * 4.3333),
    ],
)
def test_published_factors(fuel: str, unit: str, basis: str, kg: float) -> None:
    """CO₂ per unit as printed, or per kWh times the printed heat value: two roads to the litre of propane agree.

    Sources: EIA, Carbon Dioxide Emissions Coefficients (2 Feb 2016; 63.07 and 53.07 kg a million Btu; 5.76 and 9.75 kg
    a US gallon); EIA energy units (91 333 Btu a gallon); IPCC 2006 Guidelines vol. 2 tables 1.2 and 1.4. Tolerance 1 %:
    the printed digits.
    """
    factor = factor_of(gas(fuel=fuel, unit=unit, heating_value=basis))
    assert factor is not None and factor.source
    assert factor.kg_per_unit == pytest.approx(kg, rel=0.01)


def test_a_factor_the_grower_gave_is_left_alone_and_electricity_has_none() -> None:
    """Published factors fill in nothing that was given, and no grid is guessed."""
    assert published(readings(heating=(gas(co2_kg_per_unit=1.0),))) == ()
    assert published(readings(heating=(heater([("2026-01-05", "2026-01-15", 11.0, 3.0)]),))) == ()
    (burnt,) = published(readings(heating=(gas(),)))
    assert burnt.kg == pytest.approx(27 * 2.994)


def test_hours_of_work_are_counted_and_are_no_money() -> None:
    """Rows of the kind `hours` add up apart; the seed tray's 12.00 alone is money."""

    def cost(kind: str, amount: float) -> Cost:
        return Cost(line=2, date=dt.date(2026, 1, 6), what="x", kind=kind, amount=amount, years=None)

    rows = (cost("hours", 1.5), cost("Hours", 2.0), cost("seed", 12.0))
    bars = harvest(readings(costs=rows, harvest=(picking("2026-01-06", 2.0),))).bars
    assert bars.hours == 3.5
    assert bars.running == 12.0
    assert harvest(readings(costs=rows[2:])).bars.hours is None


def test_a_week_is_set_beside_the_four_weeks_before_it() -> None:
    """Air at 5 °C for four weeks and 15 °C after: the fifth week is set beside 5 °C, the ninth beside 15 °C."""
    made = season("2026-01-05", "2026-03-15", logger=(logger("bench"),))
    hours = pd.date_range(made.start, made.end, freq="1h")
    air = pd.Series([5.0 if stamp < hours[28 * 24] else 15.0 for stamp in hours], index=hours)
    mondays = [dt.date(2026, 1, 5) + dt.timedelta(weeks=n) for n in range(10)]
    found = weeks_before(readings(made, channels=(channel(air),)), mondays, [float(n) for n in range(10)])
    assert list(found["week"]) == mondays[4:]
    assert found["warmth_c"].iloc[0] == pytest.approx(5.0, abs=0.05)
    assert found["warmth_c"].iloc[4] == pytest.approx(15.0, abs=0.05)
    assert found["light"].isna().all()


def test_too_few_days_give_no_mean() -> None:
    """21 of 28 days are less than 80 %."""
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(28)]
    assert math.isnan(mean_of(pd.Series(1.0, index=pd.Index(days[:21])), days))
    assert mean_of(pd.Series(1.0, index=pd.Index(days[:23])), days) == 1.0
