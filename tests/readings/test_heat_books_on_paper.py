"""Two heating books worked out on paper: a tank filled before the winter, and bills of unequal length.

The weather and its degree-days stand in paper_books. Tolerances are for sums of floats, 1e-6, unless said.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from made_season import ZONE
from readings.paper_books import by_month, outdoors, read

TANK: dict[str, Any] = {
    "fuel": "kerosene",
    "unit": "L",
    "deliveries": "tank.csv",
    "heat_kwh_per_unit": 10.0,
    "heating_value": "gross",
    "efficiency": 0.9,
    "prices": ({"from": dt.date(2025, 8, 1), "price": 0.80}, {"from": dt.date(2026, 1, 1), "price": 1.10}),
    "co2_kg_per_unit": 2.5,
}
TWO_FILLINGS = "date,amount,cost,left\n2025-08-20,500,,\n2026-01-15,300,,105\n"


def tank(folder: Path, text: str = TWO_FILLINGS, **more: Any):
    """That book read."""
    (folder / "tank.csv").write_text(text)
    return read(folder, TANK, **more)


def test_the_tank_of_august_is_burnt_in_winter(tmp_path: Path) -> None:
    """500 + 300 L bought, 105 L left, so 695 L burnt over 695 degree-days: 1 L a degree-day, none of it before the
    season, since no outdoor reading says that it was cold then. Heat 695 × 10 × 0.9 = 6255 kWh."""
    found, _ = tank(tmp_path)
    assert by_month(found) == pytest.approx([90.0, 155.0, 310.0, 140.0], rel=1e-6)
    assert found.intervals["heat_kwh"].sum() == pytest.approx(6255.0)
    assert found.stock is not None and found.stock.used_before == pytest.approx(0.0, abs=1e-9)


def test_the_money_is_what_was_paid_first_in_first_out(tmp_path: Path) -> None:
    """The first 500 L had cost 0.80 and are gone after 500 degree-days, on 26 January at noon: 390 by 15 January at
    noon, then 10 a day. Then 195 L at 1.10. 400.00 + 214.50 = 614.50; by the price of the day of burning it would
    have been 245 × 0.80 + 450 × 1.10 = 691.00. The 105 L left are worth 115.50, and 614.50 + 115.50 = 730.00 paid."""
    found, _ = tank(tmp_path)
    table, stock = found.intervals, found.stock
    assert table["bought"].tolist() == pytest.approx([500.0, 195.0])
    assert table["cost"].tolist() == pytest.approx([400.0, 214.5])
    assert abs(table["end"].iloc[0] - pd.Timestamp("2026-01-26 12:00", tz=ZONE)) < pd.Timedelta(minutes=1)
    assert stock is not None
    assert (stock.left, stock.left_paid) == pytest.approx((105.0, 115.5))
    assert table["bought"].sum() + stock.left == pytest.approx(500.0 + 300.0)
    assert table["cost"].sum() + stock.left_paid == pytest.approx(500 * 0.80 + 300 * 1.10)


def test_a_cost_in_the_book_goes_before_the_price(tmp_path: Path) -> None:
    """360 were paid in August: 360.00 + 214.50."""
    text = TWO_FILLINGS.replace("500,,", "500,360,")
    assert tank(tmp_path, text)[0].intervals["cost"].sum() == pytest.approx(574.5)


def test_a_look_at_the_stock_in_any_row_is_kept(tmp_path: Path) -> None:
    """130 L in the tank before the filling of 15 January: 370 L over the 390 degree-days before it, and
    130 + 300 − 105 = 325 L over the 305 after it. In all 695 L as before, and the same money. (1e-3: the
    helper counts whole hours.)"""
    found, problems = tank(tmp_path, TWO_FILLINGS.replace("300,,105", "300,,130") + "2026-02-28,0,,105\n")
    months = by_month(found)
    assert months[:2] == pytest.approx([90 * 370 / 390, 155 * 370 / 390], rel=1e-6)
    assert sum(months) == pytest.approx(695.0) and months[3] == pytest.approx(140 * 325 / 305, rel=1e-3)
    assert found.intervals["cost"].sum() == pytest.approx(614.5)
    assert not [p for p in problems if p.level == "problem"]


def test_nothing_is_burnt_before_it_was_bought(tmp_path: Path) -> None:
    """100 L in August and 595 L on 1 January at noon, all burnt: even over the cold would be 250 L by then, but 100 is
    all there was. So 100 L go over the 250 degree-days before, and 595 L over the 445 after."""
    found, _ = tank(tmp_path, "date,amount,cost,left\n2025-08-20,100,,\n2026-01-01,595,,0\n")
    months = by_month(found)
    assert months[0] == pytest.approx(100 * 90 / 250, rel=1e-6)
    assert months[3] == pytest.approx(595 * 140 / 445, rel=1e-6)


def test_what_a_year_round_record_shows_as_burnt_before_is_not_of_the_season(tmp_path: Path) -> None:
    """Outdoors was logged from August: warm until September, 31 × 3 = 93 degree-days in October. 788 L over
    93 + 695 degree-days: 93 L before the season, 695 in it. Σ before + used + left = Σ bought, and so with the money:
    before and used together are the first 500 L at 0.80 and 288 L at 1.10."""
    text = "date,amount,cost,left\n2025-08-20,500,,\n2026-01-15,300,,12\n"
    found, problems = tank(tmp_path, text, beyond=outdoors("2025-08-01", "2025-11-01"))
    stock = found.stock
    assert stock is not None
    hour_of_clock_change = 0.01  # October has a day of 25 h
    assert stock.used_before == pytest.approx(93.0, rel=hour_of_clock_change)
    assert found.intervals["bought"].sum() + stock.used_before + stock.left == pytest.approx(800.0)
    assert found.intervals["cost"].sum() + stock.used_before * 0.80 + stock.left_paid == pytest.approx(730.0)
    assert [p.slug for p in problems] == ["stock-before-season"]


def test_without_an_outdoor_record_a_stock_is_shared_by_time_over_the_season(tmp_path: Path) -> None:
    """695 L over 120 days, none before the first: 30/120, 31/120, 31/120, 28/120 of it; and the page can say so."""
    found, _ = tank(tmp_path, weather=False)
    assert found.shared_by == "time"
    days = [(row.end - row.start) / pd.Timedelta(days=1) for row in found.intervals.itertuples()]
    assert sum(days) == pytest.approx(120.0)
    assert [used / length for used, length in zip(found.intervals["bought"], days, strict=True)] == pytest.approx(
        [695 / 120] * 2, rel=1e-3
    )


def test_more_left_than_was_there_is_refused_in_its_row(tmp_path: Path) -> None:
    """510 L cannot stand in a tank that was given 500."""
    _, problems = tank(tmp_path, TWO_FILLINGS.replace("300,,105", "300,,510") + "2026-02-28,0,,0\n")
    assert [p.slug for p in problems if p.level == "problem"] == ["left-too-large"]
    assert problems[0].line == 3 and problems[0].expected == "at most 500: what was there before and what came since"


BILLED: dict[str, Any] = {
    "fuel": "electricity",
    "bills": "bills.csv",
    "rated_power_w": 300.0,
    "prices": (
        {"from": dt.date(2025, 9, 1), "price": 0.30},
        {"from": dt.date(2025, 9, 1), "price": 0.20, "hours": "22-06"},
    ),
}
THREE_BILLS = (
    "date,amount,cost,from,estimated\n"
    "2025-11-30,183,,2025-10-01,\n"  # 61 days, 31 of them before the season
    "2026-01-15,305,91.50,,yes\n"  # 46 days
    "2026-02-28,300,,2026-01-15,\n"  # 44 days: both bills were read on 15 January
)


def bills(folder: Path, text: str = THREE_BILLS, **more: Any):
    """That book read."""
    (folder / "bills.csv").write_text(text)
    return read(folder, BILLED, **more)


def test_bills_of_unequal_length_end_on_their_dates(tmp_path: Path) -> None:
    """October, unrecorded, is taken to be as cold as the nearest week: 93 degree-days, November 90, so of 183 kWh 90
    are of the season. 305 kWh over December's 155 and 15 × 10 in January, 300 over 160 and 140: 1 kWh a degree-day.
    (October's day of 25 hours moves the first by 90/183 of a twenty-fourth of 3.)"""
    found, problems = bills(tmp_path)
    assert not problems
    assert found.intervals["bought"].tolist() == pytest.approx([90.0, 305.0, 300.0], rel=1e-3)
    assert by_month(found) == pytest.approx([90.0, 155.0, 310.0, 140.0], rel=1e-3)
    ends = [f"{at:%Y-%m-%d %H}" for at in found.intervals["end"]]
    assert ends == ["2025-12-01 00", "2026-01-16 00", "2026-03-01 00"]


def test_an_estimated_bill_makes_the_next_one_doubtful_too(tmp_path: Path) -> None:
    """What was guessed too low is billed with the next: only both together are known, as one sum."""
    found, _ = bills(tmp_path)
    assert found.intervals["estimated"].tolist() == [False, True, True]
    assert found.intervals["known_sum"].tolist() == [0, 1, 1]


def test_a_tariff_by_the_hour_bounds_what_a_bill_without_its_cost_came_to(tmp_path: Path) -> None:
    """The air is the same all day, so the mean price is (16 × 0.30 + 8 × 0.20)/24 = 0.2667: 24.00 and 80.00; the
    second bill says 91.50. At 300 W the 240 cheap hours of November take 72 of its 90 kWh at most: at least
    72 × 0.20 + 18 × 0.30 = 19.80; the dear hours can take all: 27.00. The last bill has 352 cheap hours, 105.6 kWh:
    at least 105.6 × 0.20 + 194.4 × 0.30 = 79.44; and 704 dear ones, 211.2 kWh: at most 63.36 + 88.8 × 0.20 = 81.12.
    In all 195.50, between 190.74 and 199.62. (0.03: the hour that October has more.)"""
    found, _ = bills(tmp_path)
    table = found.intervals
    assert table["cost"].tolist() == pytest.approx([24.0, 91.5, 80.0], abs=0.03)
    assert table["cost_low"].tolist() == pytest.approx([19.8, 91.5, 79.44], abs=0.03)
    assert table["cost_high"].tolist() == pytest.approx([27.0, 91.5, 81.12], abs=0.03)
    sums = table[["cost", "cost_low", "cost_high"]].sum().tolist()
    assert sums == pytest.approx([195.5, 190.74, 199.62], abs=0.06)


@pytest.mark.parametrize(
    ("text", "slug", "line"),
    [
        ("date,amount\n2025-12-31,100\n2026-02-28,100\n", "bill-without-begin", 2),
        ("date,amount,from\n2025-11-30,9,2025-11-01\n2025-12-31,9,2025-11-20\n", "bills-overlap", 3),
        ("date,amount,from\n2025-11-30,9,2025-12-01\n", "dates-out-of-order", 2),
        ("date,amount,from\n2025-11-30,9,2025-11-01\n2025-11-30,8,\n", "repeated-date", 3),
        ("date,amount\n", "too-few-readings", None),
    ],
)
def test_bills_that_cannot_be_as_they_stand_are_refused(tmp_path: Path, text: str, slug: str, line: int | None) -> None:
    """Each fault with its line; nothing is guessed."""
    _, problems = bills(tmp_path, text)
    assert (slug, line) in [(p.slug, p.line) for p in problems if p.level == "problem"]


def test_days_between_two_bills_that_neither_covers_are_told(tmp_path: Path) -> None:
    """No bill for December: a warning that names the days, and a gap bounded by the rated power."""
    text = "date,amount,from\n2025-11-30,90,2025-11-01\n2026-02-28,450,2026-01-01\n"
    found, problems = bills(tmp_path, text)
    assert [(p.slug, p.found) for p in problems] == [("heat-not-covered", "no bill for 2025-12-01 to 2025-12-31")]
    assert found.gaps["heat_kwh"].sum() == pytest.approx(31 * 24 * 0.3)
    assert found.gaps["cost"].sum() == pytest.approx(31 * 24 * 0.3 * 0.30)


def test_a_bill_of_before_the_season_says_where_the_next_begins(tmp_path: Path) -> None:
    """The bill to 31 October has no beginning and needs none; the next one covers November."""
    found, problems = bills(tmp_path, "date,amount\n2025-10-31,400\n2025-11-30,90\n2026-02-28,605\n")
    assert not problems
    assert found.intervals["bought"].tolist() == pytest.approx([90.0, 605.0])


def test_the_last_meter_reading_after_the_season_is_shared_by_the_cold(tmp_path: Path) -> None:
    """Read on 28 January and 14 March at noon, 405 kWh. In the season 3.5 × 10 + 28 × 5 = 175 degree-days; the days
    after, unrecorded, are taken to be as cold as the last week, 13.5 × 5 = 67.5. So 175/242.5 of it is the season's."""
    (tmp_path / "m.csv").write_text("date,reading\n2025-11-01,0\n2026-01-28,500\n2026-03-14,905\n")
    found, _ = read(tmp_path, {"fuel": "electricity", "meter": "m.csv"})
    assert found.intervals["bought"].iloc[-1] == pytest.approx(405 * 175 / 242.5, rel=1e-6)
