"""The table of what each degree took, by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from counsel.grounded import FAN, grounds, winter
from made_season import heater

from reportgen.charts.heat_degree import degree_table
from reportgen.counsel.facts import Facts
from reportgen.measures.heat_types import DegreePrice
from reportgen.wording import NBSP


def rows(cost: bool = True) -> tuple[DegreePrice, ...]:
    """Of 60 kWh at EUR 0.30: a kelvin lower 44 (40 to 48), higher 80 (78 to 90)."""
    each = 0.3 if cost else None
    return tuple(
        DegreePrice(
            away_k=away,
            kwh=kwh,
            low=low,
            high=high,
            cost=each and each * kwh,
            cost_low=each and each * low,
            cost_high=each and each * high,
        )
        for away, kwh, low, high in ((1.0, 80.0, 78.0, 90.0), (-1.0, 44.0, 40.0, 48.0), (-5 / 9, 50.0, 47.0, 53.0))
    )


def told(found: tuple[DegreePrice, ...], kwh: float | None = 60.0, us: bool = False) -> Any:
    section = SimpleNamespace(price_of_degree=found, kwh=kwh, cost=18.0)
    burnt = (heater([("2026-01-05", "2026-02-01", 60.0, 18.0)]),)
    r = winter(heat=section, heating=burnt, sources=(FAN,), toml={"show": "us"} if us else {})
    return degree_table(Facts.of(r, grounds()))


def test_changes_with_their_ranges_lowest_hold_first() -> None:
    """16 kWh less (12 to 20), EUR 5 (4 to 6); 20 more (18 to 30), EUR 6 (5 to 9)."""
    (table,) = told(rows())
    assert [row[0] for row in table.rows] == [f"1{NBSP}K lower", f"0.6{NBSP}K lower", f"1{NBSP}K higher"]
    assert table.rows[0][1:3] == (f"16{NBSP}kWh less", f"12 to 20{NBSP}kWh")
    assert table.rows[2][1:3] == (f"20{NBSP}kWh more", f"18 to 30{NBSP}kWh")
    assert table.rows[0][3] == f"EUR{NBSP}5 less" and "4" in table.rows[0][4] and "6" in table.rows[0][4]
    assert table.data["kWh change"].tolist() == [-16.0, -10.0, 20.0]
    assert table.data["low"].tolist() == [-20.0, -13.0, 18.0] and table.data["high"].tolist() == [-12.0, -7.0, 30.0]
    assert table.data["EUR change"].tolist() == [-4.8, -3.0, 6.0]


def test_a_degree_fahrenheit_and_heat_without_a_price() -> None:
    """5/9 K are 1 °F; without money its columns are left out; without rows or heat there is no table."""
    (table,) = told(rows(cost=False), us=True)
    assert [row[0] for row in table.rows] == [f"1.8{NBSP}°F lower", f"1{NBSP}°F lower", f"1.8{NBSP}°F higher"]
    assert len(table.columns) == 3 and "EUR change" not in table.data
    assert told(()) == [] and told(rows(), kwh=None) == []
