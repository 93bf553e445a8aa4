"""What a winter cost in all: both books once, what lasts by its years, and printed parts that add up."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_season import heater, readings, store

from reportgen.measures.harvest_costs import cost_bars
from reportgen.readings.types import Cost, DiaryEntry
from reportgen.wording import shares


def cost(what: str, amount: float, years: float | None = None, day: str = "2026-01-10") -> Cost:
    """A row of costs.csv."""
    return Cost(line=2, date=dt.date.fromisoformat(day), what=what, kind="", amount=amount, years=years)


def line(what: str, amount: float | None, years: float | None = None, **more: Any) -> DiaryEntry:
    """A row of the diary."""
    usual: dict[str, Any] = {"kind": "change", "until": None, "date": dt.date(2026, 1, 12)}
    return DiaryEntry(
        line=2, time=None, what=what, touches=(), reversible=None, hoped_for=(), cost=amount, years=years,
        written=None, note="", **(usual | more),
    )  # fmt: skip


HEATER = heater([("2026-01-05", "2026-02-02", 100.0, 30.0)])


def test_what_lasts_counts_by_its_years_from_either_book() -> None:
    """30.00 of heat, 11.00 of seed, film 60.00 over 3 years, heater 78.00 over 6, tape 4.50 over one:
    30 + 11 + 4.5 = 45.50, and with 20 + 13 it is 78.50."""
    bars = cost_bars(
        readings(
            heating=(HEATER,),
            costs=(cost("seed", 11.0, 1.0), cost("bubble film", 60.0, 3.0)),
            diary=(line("Fan heater on its own thermostat", 78.0, 6.0), line("Door gap taped", 4.5, 1.0)),
        ),
        30.0,
        10.0,
    )
    assert (bars.heat, bars.running, bars.everything) == pytest.approx((30.0, 45.5, 78.5))
    assert (bars.heat_per_kg, bars.running_per_kg, bars.everything_per_kg) == pytest.approx((3.0, 4.55, 7.85))
    assert sum(part.amount for part in bars.parts) == pytest.approx(78.5)


@pytest.mark.parametrize(
    ("written", "row"),
    [
        (line("Bubble film inside the roof", 68.0, 3.0), cost("bubble film", 68.0, 3.0)),
        (line("Bubble film inside the roof", 68.0, 3.0), cost("bubble film", 71.4, 3.0)),  # with its delivery
        (line("The roof lined", 68.0, 3.0), cost("film", 68.0, 3.0)),  # to the cent, within a fortnight
    ],
)
def test_a_thing_in_both_books_counts_once_as_costs_csv_has_it(written: DiaryEntry, row: Cost) -> None:
    """A third of the row of costs.csv, and the page can name what it left out."""
    bars = cost_bars(readings(costs=(row,), diary=(written,)), None, None)
    assert bars.everything == pytest.approx(row.amount / 3)
    assert bars.twice == (written.what,)


def test_two_things_of_two_names_and_prices_count_both() -> None:
    """Film and fleece are two things."""
    bars = cost_bars(readings(costs=(cost("fleece", 12.0),), diary=(line("Bubble film", 60.0, 3.0),)), None, None)
    assert bars.everything == pytest.approx(12.0 + 20.0) and not bars.twice


def test_one_amount_three_weeks_apart_without_a_word_in_common_is_two_things() -> None:
    """68.00 on 22 December and on 12 January: 21 days; nobody asks, and both count."""
    film, roof = cost("film", 68.0, day="2025-12-22"), line("The roof lined", 68.0)
    assert cost_bars(readings(costs=(film,), diary=(roof,)), None, None).running == pytest.approx(136.0)


def test_what_last_winter_bought_counts_on_while_its_years_last_and_once() -> None:
    """Bought on 12 January 2025, this winter begins on 5 January 2026: film at 60.00 over 3 years is a third, tape of
    one year and of no years is over, and the fleece that this winter's book still names counts there alone."""
    before = {"date": dt.date(2025, 1, 12)}
    last = readings(
        diary=(
            line("Bubble film", 60.0, 3.0, **before),
            line("Tape", 4.5, **before),
            line("More tape", 5.0, 1.0, **before),
        ),
        costs=(cost("fleece", 12.0, 4.0, day="2025-01-12"), cost("pump", 40.0, 1.5, day="2023-01-12")),
    )
    now = readings(costs=(cost("fleece", 12.0, 4.0, day="2025-01-12"),))
    bars = cost_bars(now, None, None, last)
    assert {part.what: (part.amount, part.before) for part in bars.parts} == {
        "fleece": (pytest.approx(3.0), False),
        "Bubble film": (pytest.approx(20.0), True),
    }
    assert "pump" in bars.past


def test_an_idea_was_not_bought_and_a_curtain_drawn_three_times_was_bought_once() -> None:
    """9.00 over three years once, the 50.00 of the idea not at all."""
    curtain = [line("Old curtain drawn", 9.0, 3.0, kind="spell", date=dt.date(2026, 1, day)) for day in (6, 12, 20)]
    bars = cost_bars(readings(diary=(*curtain, line("Second curtain", 50.0, kind="idea"))), None, None)
    assert bars.everything == pytest.approx(3.0)


def test_a_bottle_in_costs_csv_that_the_heating_book_has_is_no_second_cost() -> None:
    """20.00 for 11 kg stand in the deliveries; the same row in costs.csv adds nothing."""
    stock = store(11.0)
    (bought,) = stock.purchases
    paid = type(bought)(at=bought.at, amount=11.0, paid=20.0)
    gas = heater(
        [("2026-01-05", "2026-02-02", 11.0, 20.0)], form="deliveries", fuel="propane",
        stock=type(stock)(purchases=(paid,), opening=0.0, used_before=0.0, left=0.0, left_paid=0.0),
    )  # fmt: skip
    bars = cost_bars(readings(heating=(gas,), costs=(cost("gas", 20.0, day="2026-01-05"),)), 20.0, None)
    assert bars.running is None and bars.twice == ("gas",)


def test_what_was_bought_before_counts_while_its_years_last() -> None:
    """A cover of two winters ago over 4 years counts 25.00; a lamp of 2019 over 3 years is past, seed of 2024 too."""
    rows = (
        cost("cover", 100.0, 4.0, "2024-01-20"),
        cost("lamp", 90.0, 3.0, "2019-10-01"),
        cost("seed", 5.0, None, "2024-10-01"),
    )
    bars = cost_bars(readings(costs=rows), None, None)
    assert bars.everything == pytest.approx(25.0) and bars.past == ("lamp", "seed")


def test_costs_that_nobody_gave_are_absent() -> None:
    """Heat alone: no second and no third way to count; a lamp without a price is named and in no sum."""
    alone = cost_bars(readings(heating=(HEATER,)), 30.0, 10.0)
    assert (alone.heat, alone.running, alone.everything) == (30.0, None, None)
    lamp = heater([("2026-01-05", "2026-02-02", 9.0, float("nan"))], name="lamp", role="appliance")
    with_lamp = cost_bars(readings(heating=(HEATER,), appliances=(lamp,), costs=(cost("seed", 5.0),)), 30.0, 10.0)
    assert with_lamp.running == pytest.approx(35.0) and with_lamp.without_price == ("lamp",)


def test_three_thirds_of_ten_are_printed_so_that_they_add_up() -> None:
    """10/3 each is 3.33, and 9.99 is not 10.00: the first takes the missing hundredth (largest remainder, Hare)."""
    assert shares([10 / 3] * 3, 2) == [3.34, 3.33, 3.33]
    assert shares([0.29, 0.71], 2) == [0.29, 0.71]
    assert shares([], 2) == []


@given(st.lists(st.floats(min_value=0, max_value=1e6), min_size=1, max_size=12), st.integers(0, 2))
def test_printed_parts_add_up_and_stay_within_one_unit(values: list[float], digits: int) -> None:
    """Whatever the parts, each is off by less than one unit of the last digit, and their sum is the rounded sum."""
    unit = 10.0**-digits
    printed = shares(values, digits)
    assert sum(printed) == pytest.approx(sum(values), abs=0.5 * unit + 1e-5)
    assert all(abs(a - b) < unit * 1.0001 for a, b in zip(printed, values, strict=True))
