"""Next winter's heat, in kWh and money, by hand."""

from __future__ import annotations

from typing import Any

import pytest
from counsel.grounded import FAN, FIRST, LAST, at, grounds, lever, winter
from counsel.hand import PRICE_OF_DEGREE
from made_season import heater, season

from reportgen.counsel import bills
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Ends, JudgedLever

# 100 kWh for EUR 30 at a hold of 8 °C; a degree less by PRICE_OF_DEGREE (20 kWh a kelvin) takes 80 kWh, between
# 0.9 × 80 = 72 and 1.1 × 80 = 88 kWh; FAN's next price is EUR 0.40 a kWh
BURNT = (heater([("2026-01-05", "2026-02-01", 100.0, 30.0)]),)


def facts(*, hold_c: float | None = 8.0, rows: Any = PRICE_OF_DEGREE, source: Any = FAN, **more: Any) -> Facts:
    usual: dict[str, Any] = {"heating": BURNT, "sources": (source,)}
    return Facts.of(winter(heat={"hold_found_c": hold_c, "price_of_degree": rows}, **(usual | more)))


def up(
    winter_kwh: tuple[float | None, float | None] | None,
    since: tuple[float | None, float | None] | None,
    verdict: Any = "keep",
    **more: Any,
) -> JudgedLever:
    """A lever with what it spares in a whole winter and what it spared since it was up [kWh]."""
    whole, spared = (None if x is None else Ends(low=x[0], high=x[1]) for x in (winter_kwh, since))
    return lever("film", verdict, winter_kwh=whole, spared_kwh=spared, **more)


def next_heat(*levers: JudgedLever, **more: Any) -> bills.NextHeat | None:
    return bills.next_heat(facts(**more), grounds(*levers))


def test_without_a_lever_the_next_winter_takes_what_this_one_did_at_its_own_price() -> None:
    """100 kWh at EUR 0.40: EUR 40; without a next price EUR 30 again."""
    found = next_heat()
    assert found is not None
    assert (found.kwh, found.money, found.next_prices, found.kept) == ((100.0, 100.0), (40.0, 40.0), True, ())
    same = next_heat(source=FAN.model_copy(update={"next_price": None}))
    assert same is not None and (same.money, same.next_prices) == ((30.0, 30.0), False)


def test_a_lever_kept_takes_off_what_the_nights_before_it_would_have_been_spared() -> None:
    """30 to 50 kWh a whole winter less 10 to 20 since it was up: 20 to 30 more, so 70 to 80 kWh, EUR 28 to 32."""
    found = next_heat(up((30.0, 50.0), (10.0, 20.0)))
    assert found is not None
    assert found.kwh == (70.0, 80.0) and found.money == pytest.approx((28.0, 32.0)) and found.kept == ("film",)
    two = next_heat(
        up((30.0, 50.0), (10.0, 20.0), thing="the film"), up((11.0, 12.0), (10.0, 10.0), "keep with a condition")
    )
    assert two is not None  # 1 to 2 kWh more
    assert two.kwh == (68.0, 79.0) and two.kept == ("the film", "film")


def test_the_ends_are_put_in_order_and_never_below_nothing() -> None:
    """Ends that cross are turned; more than all the heat is all of it."""
    turned = next_heat(up((50.0, 30.0), (10.0, 20.0)))  # 40 and 10
    assert turned is not None and turned.kwh == (60.0, 90.0)
    all_of_it = next_heat(up((150.0, 200.0), (10.0, 20.0)))
    assert all_of_it is not None and all_of_it.kwh == (0.0, 0.0) and all_of_it.money == (0.0, 0.0)


@pytest.mark.parametrize(
    "of",
    [
        up((30.0, 50.0), (10.0, 20.0), "not worth it"),
        up((30.0, 50.0), (10.0, 20.0), on_now=False),
        up(None, (10.0, 20.0)),
        up((30.0, 50.0), None),
        up((None, 50.0), (10.0, 20.0)),
        up((30.0, None), (10.0, 20.0)),
        up((30.0, 50.0), (None, 20.0)),
        up((30.0, 50.0), (10.0, None)),
        up((10.0, 20.5), (10.0, 20.0)),  # half a kilowatt-hour is nothing
    ],
)
def test_a_lever_that_is_not_kept_or_not_known_takes_nothing_off(of: JudgedLever) -> None:
    """Only one that stays, is on, and has all four ends known, with more than half a kWh between."""
    found = next_heat(of)
    assert found is not None and (found.kwh, found.kept) == ((100.0, 100.0), ())


def running() -> Facts:
    """The same of a winter that still runs."""
    of = season(FIRST, LAST, heating=(FAN,)).read_to(at("2026-03-01"))
    return Facts.of(winter(of=of, heat={"hold_found_c": 8.0, "price_of_degree": PRICE_OF_DEGREE}, heating=BURNT))


def test_part_of_a_winter_or_heat_without_a_price_has_no_next_bill() -> None:
    """A winter that still runs is no winter; no cost, no heat, no bill."""
    assert bills.next_heat(running(), grounds()) is None and bills.bills_of(running()) == {}
    free = (heater([("2026-01-05", "2026-02-01", 100.0, float("nan"))]),)
    none = (heater([("2026-01-05", "2026-02-01", 0.0, 0.0)]),)
    for heating in (free, none, ()):
        assert next_heat(heating=heating) is None and bills.bills_of(facts(heating=heating)) == {}


def test_bills_follow_the_price_of_a_degree() -> None:
    """As it was EUR 30; at next prices 40; 2 K lower 60 kWh: EUR 24, as paid 18; 2 K colder 140 kWh: EUR 56."""
    found = {name: (bill.kwh, round(bill.cost, 9)) for name, bill in bills.bills_of(facts()).items()}
    assert found == {
        "as it was": (100.0, 30.0),
        "next prices": (100.0, 40.0),
        "lower hold as paid": (60.0, 18.0),
        "lower hold": (60.0, 24.0),
        "colder": (140.0, 56.0),
    }
    assert set(bills.bills_of(facts(hold_c=None))) == {"as it was", "next prices"}
    assert set(bills.bills_of(facts(rows=None))) == {"as it was", "next prices"}


def test_a_degree_less_spares_at_most_the_colder_end_of_its_band() -> None:
    """A kelvin lower the low end is 0.9 × 80 = 72 of 100 kWh: 28 % of EUR 30 are EUR 8.40. A °F is 5/9 K:
    0.9 × 88.89 = 80 kWh, 20 % of EUR 30 are EUR 6."""
    assert bills.degree_spares(facts()) == pytest.approx(8.4)
    assert bills.degree_spares(facts(toml={"show": "us"})) == pytest.approx(6.0)


def test_a_degree_never_spares_less_than_nothing_and_nothing_is_guessed() -> None:
    """A low end above what was paid spares nothing; no cost, no row, or one without its money: None."""
    dear = tuple(row | {"cost_low": 45.0} for row in PRICE_OF_DEGREE)
    assert bills.degree_ends(facts(rows=dear), money=True) == pytest.approx((0.0, 3.6))
    over = tuple(row | {"cost_low": 45.0, "cost_high": 50.0} for row in PRICE_OF_DEGREE)
    assert bills.degree_spares(facts(rows=over)) == 0.0
    free = (heater([("2026-01-05", "2026-02-01", 100.0, float("nan"))]),)
    assert bills.degree_spares(facts(heating=free)) is None
    assert (
        bills.degree_spares(facts(rows=None)) is None and bills.degree_spares(facts(rows=PRICE_OF_DEGREE[:1])) is None
    )
    assert bills.degree_spares(facts(rows=tuple(row | {"cost_low": None} for row in PRICE_OF_DEGREE))) is None


@pytest.mark.parametrize(
    ("money", "up_", "us", "ends"),
    [
        (True, False, False, (0.12 * 30.0, 0.28 * 30.0)),  # 88 and 72 of 100 kWh
        (False, False, False, (12.0, 28.0)),
        (True, True, False, (0.08 * 30.0, 0.32 * 30.0)),  # at 9 °C 120 kWh: 108 and 132
        (False, True, False, (8.0, 32.0)),
        (False, False, True, (100 - 1.1 * 800 / 9, 20.0)),  # 5/9 K less: 88.89 kWh, 80 to 97.78
    ],
)
def test_both_ends_of_a_degree(money: bool, up_: bool, us: bool, ends: tuple[float, float]) -> None:
    """What a degree less spares, or one more takes, in EUR or kWh, low first."""
    found = bills.degree_ends(facts(toml={"show": "us"} if us else {}), money=money, up=up_)
    assert found == pytest.approx(ends)


def test_the_ends_of_a_degree_in_heat_need_no_price() -> None:
    """Heat without a cost, and a row without one of its ends."""
    free = (heater([("2026-01-05", "2026-02-01", 100.0, float("nan"))]),)
    assert bills.degree_ends(facts(heating=free), money=False) == pytest.approx((12.0, 28.0))
    half = tuple(row | {"high": None} for row in PRICE_OF_DEGREE)
    assert bills.degree_ends(facts(rows=half), money=False) is None
