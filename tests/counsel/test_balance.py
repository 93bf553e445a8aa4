"""The balance: everything that was paid, once, its parts and its weeks; worked by hand on four weeks."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel import hand
from made_season import heater, picking, planting, season

from reportgen.counsel.balance import balance
from reportgen.counsel.grounds import Balance, Ends
from reportgen.measures.days import dates
from reportgen.readings.types import Cost, DiaryEntry
from reportgen.season.models import Crop
from reportgen.wording import shares

CROPS = (Crop(name="leek", damage_below_c=(-18.0, -12.0), shop_price_per_kg=5.0),)
# 10 kWh for EUR 4 on each of the evenings of 6 and 7 January, 20 kWh for EUR 9 on that of the 21st
BURNT = [
    ("2026-01-06 18:00", "2026-01-06 23:00", 10.0, 4.0),
    ("2026-01-07 18:00", "2026-01-07 23:00", 10.0, 4.0),
    ("2026-01-21 18:00", "2026-01-21 23:00", 20.0, 9.0),
]
SEED = Cost(line=2, date=dt.date(2026, 1, 5), what="seed", kind="seed", amount=8.0, years=None)
WORK = Cost(line=3, date=dt.date(2026, 1, 5), what="digging", kind="hours", amount=12.0, years=None)


def film(amount: float = 60.0, years: float | None = 3.0) -> DiaryEntry:
    """A line of the diary with its cost."""
    return DiaryEntry(
        line=2, date=dt.date(2026, 1, 12), time=None, kind="change", what="Bubble film", touches=("envelope",),
        reversible=True, hoped_for=(), until=None, cost=amount, years=years, written=None, note="",
    )  # fmt: skip


def told(low: float = -5.0, **more: Any) -> Balance:
    """The balance of a season whose winter without heat has one low end every night, its high end 2 K above."""
    usual: dict[str, Any] = {
        "heating": (heater(BURNT),),
        "harvest": (picking("2026-01-07", 2.0, "leek"), picking("2026-01-28", 3.0, "leek")),
        "plantings": (planting("leek", "east", "2025-11-01"),),
        "costs": (SEED, WORK),
        "diary": (film(),),
    }
    made = hand.results(
        season(crop=more.pop("crop", CROPS)), **{k: v for k, v in (usual | more).items() if v is not None}
    )
    index = pd.Index(dates(made.season), name="date")
    names = ("without_heat_low_c", "without_heat_c", "without_heat_high_c")
    table = pd.DataFrame({name: low + n for n, name in enumerate(names)}, index=index).assign(outdoor_min=-20.0)
    made.frost = SimpleNamespace(table=table)  # type: ignore[misc]
    return balance(made)


def test_everything_that_was_paid_is_in_it_once() -> None:
    """17 of heat, 8 of seed, 60 over 3 years: 45 for 5 kg is 9 a kg; hours are no money."""
    b = told()
    assert (b.heat, b.appliances, b.costs, b.changes_by_years) == (pytest.approx(17.0), None, 8.0, 20.0)
    assert (b.total, b.per_kg, b.work_hours, b.shop_value) == (pytest.approx(45.0), pytest.approx(9.0), 12.0, 25.0)
    assert b.missing == () and b.reasons["appliances"] == "no appliance is listed in season.toml"


def test_no_years_is_one_year() -> None:
    """60 without years count whole."""
    assert told(diary=(film(years=None),)).changes_by_years == 60.0


def test_a_week_stands_beside_its_picking_and_that_of_the_four_weeks_after() -> None:
    """Week of the 5th: both pickings, 5 kg worth 25; of the 12th on: the second alone; heat in its own week."""
    weeks = told().weeks
    assert [week.heat_money for week in weeks] == pytest.approx([8.0, 0.0, 9.0, 0.0])
    assert [(week.kg, week.value) for week in weeks] == [(5.0, 25.0), (3.0, 15.0), (3.0, 15.0), (3.0, 15.0)]
    assert weeks[0].stood == ("leek",) and weeks[1].stood == ()


def test_the_ends_of_the_forecast_are_the_ends_of_the_money() -> None:
    """Leek stands −12: at a low end of −5 nothing was needed; at −13 (high end −11) perhaps; at −15 all was."""
    assert told(-5.0).not_needed_money == Ends(low=17.0, high=17.0)
    assert told(-13.0).not_needed_money == Ends(low=0.0, high=17.0)
    assert told(-15.0).not_needed_money == Ends(low=0.0, high=0.0)
    assert [week.needed_share for week in told(-5.0).weeks] == [0.0, None, 0.0, None]
    assert [week.needed_share for week in told(-15.0).weeks] == [1.0, None, 1.0, None]
    assert told(-5.0).judged_money == 17.0 and told(-5.0).hardy_from == dt.date(2026, 1, 5)


def test_what_the_tender_crops_gave_stands_beside_the_backup_heat() -> None:
    """Needed from the 6th on at −15: both pickings, EUR 25; the one heater is a backup, EUR 17."""
    b = told(-15.0, heating=(heater(BURNT, role="backup"),))
    assert (b.tender_value, b.backup_money) == (25.0, pytest.approx(17.0))
    assert told(-5.0).tender_value is None and told(-5.0).backup_money is None


def test_a_part_that_is_not_known_is_named() -> None:
    """No prices: no total, kWh all the same. No costs.csv, no diary: the total says what it is without."""
    free = told(heating=(heater([(a, b, kwh, float("nan")) for a, b, kwh, _ in BURNT]),))
    assert free.heat is None and free.total is None and "no price" in free.reasons["total"]
    assert free.heat_kwh == pytest.approx(40.0) and free.missing[0].startswith("heat (")
    bare = told(costs=None, diary=None)
    assert bare.total == pytest.approx(17.0) and bare.costs is None and len(bare.missing) == 2


def test_odd_seasons_have_their_reasons() -> None:
    """No heating, no harvest, a crop without a band."""
    cold = told(heating=None)
    assert cold.heat is None and cold.total == 28.0 and cold.not_needed_money is None
    assert "no heater" in cold.reasons["heat"]
    none = told(harvest=None)
    assert none.per_kg is None and none.weeks[0].kg is None and "harvest.csv" in none.reasons["per_kg"]
    odd = told(crop=(Crop(name="oddleaf"),), plantings=(planting("oddleaf", "east", "2025-11-01"),))
    assert odd.not_needed_money is None and "oddleaf" in odd.reasons["weeks.needed_share"]
    assert odd.needed is not None and odd.needed.no_band.nights == 3


def test_the_printed_parts_add_up_to_the_printed_sum() -> None:
    """61.10 over 3 years is 20.36666…: with 17.00 and 8.0033 in all 45.36996…, printed as 45.37 = 17.00 + 8.00 + 20.37.
    Three of 1.004 are 3.012, printed as 3.01: one of them gets the cent."""
    b = told(diary=(film(61.1),), costs=(replace(SEED, amount=8.0033),))
    parts = [part for part in (b.heat, b.costs, b.changes_by_years) if part is not None]
    assert shares(parts, 2) == [17.0, 8.0, 20.37] and b.total == pytest.approx(45.37, abs=0.005)
    assert shares([1.004, 1.004, 1.004], 2) == [1.01, 1.0, 1.0]
