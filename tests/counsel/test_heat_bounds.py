"""What is not known of the heat, and between which ends heat and money then lie: each number by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from counsel.grounded import FAN, GAS, at, winter
from counsel.sentences import faults

from reportgen.counsel import heat_bounds, heat_words
from reportgen.counsel.facts import Facts
from reportgen.measures.exposure import Band
from reportgen.measures.heat_types import Source
from reportgen.readings.types import Purchase, Stock
from reportgen.wording import Wording

NBSP = "\u00a0"
EURO = Wording(us=False, currency="EUR")


def source(**more: Any) -> Source:
    """A stove that gave 300 kWh for EUR 90, all of it known."""
    usual: dict[str, Any] = {
        "name": "stove",
        "fuel": "propane",
        "role": "main",
        "kwh": 300.0,
        "bought": 23.0,
        "bought_unit": "kg",
        "cost": 90.0,
        "hours_flat_out": None,
    }
    return Source(**(usual | more))


def facts(*sources: Source, currency: str = "EUR", **heat: Any) -> Facts:
    known: dict[str, Any] = {"kwh": 300.0, "kwh_low": None, "kwh_high": None, "cost_low": None, "cost_high": None}
    section = SimpleNamespace(sources=sources, **(known | {"known_share": None} | heat))
    found = Facts.of(winter(heat=section, sources=(FAN, GAS)))
    return Facts(r=found.r, w=Wording(us=False, currency=currency), there=found.there)


def stands(words: str) -> str:
    assert not faults(words), words
    return words


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (1240.0, 1310.0, f"1\u202f240 to 1\u202f310{NBSP}kWh"),
        (1299.6, 1300.4, f"1\u202f300{NBSP}kWh"),  # both print as 1 300
        (None, 1310.0, f"1\u202f300{NBSP}kWh"),
        (1240.0, None, f"1\u202f300{NBSP}kWh"),
    ],
)
def test_heat_is_a_range_only_where_its_ends_print_apart(low: float | None, high: float | None, words: str) -> None:
    """Of 1 300 kWh; money alike."""
    assert heat_bounds.kwh_words(EURO, 1300.0, low, high) == words
    assert heat_bounds.season_heat(facts(kwh=1300.0, kwh_low=low, kwh_high=high)) == words


@pytest.mark.parametrize(
    ("low", "high", "digits", "words"),
    [
        (400.0, 430.0, 0, f"EUR{NBSP}400 to 430"),
        (400.2, 400.4, 0, f"EUR{NBSP}410"),
        (400.2, 400.4, 1, f"EUR{NBSP}400.2 to 400"),
        (None, 430.0, 0, f"EUR{NBSP}410"),
        (400.0, None, 0, f"EUR{NBSP}410"),
    ],
)
def test_money_is_a_range_only_where_its_ends_print_apart(
    low: float | None, high: float | None, digits: int, words: str
) -> None:
    """Of EUR 410, in whole money unless digits are asked for."""
    for found in (
        heat_bounds.money_words(EURO, 410.0, low, high, digits),
        heat_bounds.season_money(facts(cost_low=low, cost_high=high), 410.0, digits),
    ):
        assert found.startswith(words)


def test_what_is_not_known_is_told_by_the_heater_longest_unknown() -> None:
    """Of two heaters without a record for 40 and 100 h the second is named; 97 % known leaves 3 %; ends as they are."""
    two = (source(name="fan", unknown_h=40.0), source(unknown_h=100.0))
    found = stands(heat_bounds.unknown(facts(*two, kwh_low=280.0, kwh_high=350.0, known_share=0.97)))
    for words in (f"100{NBSP}hours", f"3{NBSP}%", "the stove", f"280{NBSP}kWh", f"350{NBSP}kWh at most"):
        assert words in found


@pytest.mark.parametrize(
    ("share", "words"), [(0.98, f"2{NBSP}%"), (0.99, f"1.0{NBSP}%"), (0.997, f"0.3{NBSP}%"), (0.5, f"50{NBSP}%")]
)
def test_less_than_a_hundredth_unknown_keeps_a_digit(share: float, words: str) -> None:
    """0.3 % is not told as 0 %."""
    told = heat_bounds.unknown(facts(source(unknown_h=9.0), kwh_low=1.0, kwh_high=2.0, known_share=share))
    assert f", {words} of the season" in told


def test_where_all_is_known_nothing_is_said_of_it() -> None:
    """Less than an hour is nothing, an hour is told; without both ends and the share nothing is."""
    ends = {"kwh_low": 280.0, "kwh_high": 350.0, "known_share": 0.9}
    assert heat_bounds.unknown(facts(source(unknown_h=0.9), **ends)) == ""
    assert f"1{NBSP}hour," in heat_bounds.unknown(facts(source(unknown_h=1.0), **ends))
    for name in ends:
        assert heat_bounds.unknown(facts(source(unknown_h=9.0), **(ends | {name: None}))) == ""


def test_sums_are_spread_by_the_cold_or_without_outdoor_air_evenly() -> None:
    """One heater shared by time is enough to say so."""
    shared = [SimpleNamespace(shared_by=by) for by in ("cold", "time")]
    assert "evenly" in heat_bounds.spread_by(SimpleNamespace(heating=shared))  # type: ignore[arg-type]
    assert heat_bounds.spread_by(SimpleNamespace(heating=shared[:1])) == "by the cold"  # type: ignore[arg-type]


def notes(one: Source, currency: str = "EUR") -> str:
    found = heat_bounds.source_notes(facts(one, currency=currency))
    return " | ".join(stands(words) for words in found)


def test_a_gap_gave_between_nothing_and_what_its_hardest_hours_allow() -> None:
    """At most 340 of 300 kWh: up to 40 in the gap; at most EUR 104 of 90: EUR 14 of it. Of one price for every hour."""
    gap = source(unknown_h=12.0, kwh_high=340.0, cost_high=104.0)
    assert f"12{NBSP}hours" in notes(gap) and f"40{NBSP}kWh, for up to EUR{NBSP}14.00:" in notes(gap)
    for other in ({"cost": None}, {"cost_high": None}, {"by_tariff": True}):
        told = notes(source(**({"unknown_h": 12.0, "kwh_high": 340.0, "cost_high": 104.0} | other)))
        assert f"40{NBSP}kWh:" in told and "for up to" not in told
    assert f"340{NBSP}kWh" in notes(source(unknown_h=1.0, kwh_high=340.0, kwh=None))
    assert notes(source(unknown_h=0.9, kwh_high=340.0)) == "" and notes(source(unknown_h=12.0)) == ""


def test_a_price_by_the_hour_leaves_two_ends_of_the_cost() -> None:
    """All in the cheapest or all in the dearest hours: EUR 80 to 120 beside 90; not without both ends."""
    ends = {"cost_low": 80.0, "cost_high": 120.0}
    told = notes(source(by_tariff=True, **ends))
    assert f"EUR{NBSP}90.00" in told and f"EUR{NBSP}80.00 to 120.00" in told
    for other in ({"by_tariff": False}, {"cost_low": None}, {"cost_high": None}):
        assert "dearest" not in notes(source(**({"by_tariff": True} | ends | other)))


def test_estimated_readings_are_told_from_half_a_kilowatt_hour() -> None:
    """0.5 kWh is little; 7 kWh rest on an estimate."""
    assert notes(source(estimated_kwh=0.5)) == "" and f"7{NBSP}kWh rest" in notes(source(estimated_kwh=7.0))


def stock(*bought: Purchase, **more: Any) -> Stock:
    usual: dict[str, Any] = {"opening": 0.0, "used_before": 0.0, "left": 0.0, "left_paid": float("nan")}
    return Stock(purchases=bought, **(usual | more))


def bottle(day: str, amount: float) -> Purchase:
    return Purchase(at=at(day), amount=amount, paid=30.0)


@pytest.mark.parametrize(
    ("left", "paid", "words"),
    [
        (4.5, 12.0, f"4.5{NBSP}kg, for which EUR{NBSP}12.00 had been paid, were left"),
        (1.0, float("nan"), f"1.0{NBSP}kg was left"),
        (120.0, float("nan"), f"120{NBSP}kg were left"),
    ],
)
def test_what_was_left_counts_neither_as_heat_nor_as_cost(left: float, paid: float, words: str) -> None:
    """With its money where that is known; from 100 on in whole units."""
    told = notes(source(stock=stock(bottle("2025-12-01", 10.0), left=left, left_paid=paid)))
    assert words in told and "neither as heat nor as cost" in told


def test_nothing_left_is_not_spoken_of_and_without_a_currency_no_money() -> None:
    """Nothing left: only how the cost was counted, and without a cost nothing."""
    assert "left" not in notes(source(stock=stock())) and "oldest stock first" in notes(source(stock=stock()))
    assert notes(source(stock=stock(), cost=None)) == "" and notes(source()) == ""
    told = notes(source(stock=stock(left=2.0, left_paid=12.0), cost=None), currency="")
    assert "paid" not in told and f"2.0{NBSP}kg were left" in told


@pytest.mark.parametrize(
    ("before", "words"), [(0.04, "none of it is"), (0.05, f"0.1{NBSP}kg of it"), (3.0, f"3.0{NBSP}kg of it")]
)
def test_what_was_bought_before_the_season_is_told_with_what_was_burnt_before_it(before: float, words: str) -> None:
    """5 + 6 of 18 kg came before 11 October; what came on its first noon or later is no early purchase."""
    bought = (bottle("2025-09-01", 5.0), bottle("2025-10-01", 6.0), bottle("2025-11-01", 7.0))
    told = notes(source(stock=stock(*bought, used_before=before)))
    assert f"11.0{NBSP}kg were bought before the season" in told and words in told
    assert "before the season" not in notes(source(stock=stock(bottle("2025-11-01", 7.0), used_before=before)))


def test_gallons_are_named_in_words() -> None:
    """gal_us of the file is US gal on the page."""
    told = notes(source(bought_unit="gal_us", stock=stock(left=2.0)))
    assert f"2.0{NBSP}US gal" in told and "gal_us" not in told


def test_a_store_that_nobody_looked_at_has_two_ends() -> None:
    """Of 300 kWh for EUR 90, 120 kWh for EUR 36 count only because nobody looked: 180 to 300 kWh, EUR 54 to 90."""
    since = at("2026-03-01")
    unlooked = {"stock": stock(unlooked_since=since), "unlooked_kwh": 120.0, "unlooked_cost": 36.0}
    told = stands(heat_bounds.unlooked_words(facts(), source(**unlooked)))
    for words in (f"1{NBSP}March", f"between 180 and 300{NBSP}kWh", f"EUR{NBSP}54 to 90"):
        assert words in told
    assert heat_bounds.unlooked(facts(source(), source(**unlooked))) == [told]
    assert told in notes(source(**unlooked))
    for other in ({"cost": None}, {"unlooked_cost": 0.0}, {"by_tariff": True}):
        without = heat_bounds.unlooked_words(facts(), source(**(unlooked | other)))
        assert f"between 180 and 300{NBSP}kWh" in without and "EUR" not in without
    every = heat_bounds.unlooked_words(facts(), source(**(unlooked | {"unlooked_kwh": 320.0, "unlooked_cost": 99.0})))
    assert f"between 0 and 300{NBSP}kWh" in every and f"EUR{NBSP}0 to 90" in every
    silent = ({"stock": None}, {"stock": stock()}, {"kwh": None}, {"kwh": 0.0}, {"unlooked_kwh": 0.5})
    assert [heat_bounds.unlooked_words(facts(), source(**(unlooked | one))) for one in silent] == [""] * 5


def test_a_share_has_its_range_where_both_ends_print_apart() -> None:
    """60 to 97 %; 60.1 to 60.4 both print as 60, and without an accuracy there are none."""
    band = Band(estimate=0.8, low=0.6, high=0.97)
    assert "(60 to 97\u00a0%" in heat_words.share_range(EURO, band)
    nan = float("nan")
    for low, high in ((0.601, 0.604), (nan, 0.97), (0.6, nan)):
        assert heat_words.share_range(EURO, Band(estimate=0.6, low=low, high=high)) == ""


@pytest.mark.parametrize(("value", "words"), [(2310.0, "2\u202f300"), (2330.0, "2\u202f350"), (20.0, "0")])
def test_watts_are_told_to_the_nearest_fifty(value: float, words: str) -> None:
    """No finer than they are known."""
    assert heat_words.watts(value) == f"{words}{NBSP}W"


def test_a_loss_is_told_in_the_shown_degree() -> None:
    """A °F is 5/9 K: 90 W/K are 50 W/°F."""
    assert heat_words.per_kelvin(EURO, 90.0) == f"90{NBSP}W/K"
    assert heat_words.per_kelvin(Wording(us=True, currency="USD"), 90.0) == f"50{NBSP}W/°F"
