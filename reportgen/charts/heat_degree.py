"""What every date's own hold a degree or two away would have made of the winter's heat, as a table."""

from __future__ import annotations

from collections.abc import Callable

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.measures.heat_types import DegreePrice
from reportgen.wording import between


def degree_table(facts: Facts) -> list[Table]:
    """Heat and money that each move takes more or less, with its ends; nothing where it cannot be told."""
    h, w = facts.r.heat, facts.w
    rows = sorted(h.price_of_degree, key=lambda row: row.away_k)
    if not rows or h.kwh is None:
        return []
    money = bool(w.currency) and h.cost is not None and all(row.cost is not None for row in rows)
    columns = ("every date's hold", "heat", "between", *(("money", "between") if money else ()))
    return [
        Table(
            uid="heat_degree",
            title="What each degree took, every date's own hold moved",
            subtitle=f"This {facts.there.season} in the same outdoor air. Ranges held about nine in ten of the "
            "changes on simulated houses",
            columns=columns,
            rows=tuple(_row(facts, row, money) for row in rows),
            data=_data(facts, rows, money),
        )
    ]


def _row(facts: Facts, row: DegreePrice, money: bool) -> tuple[str, ...]:
    w, h = facts.w, facts.r.heat
    up = row.away_k > 0
    told = [f"{w.diff(abs(row.away_k), 0 if _whole(w.diff_value(row.away_k)) else 1)} {'higher' if up else 'lower'}"]
    told += _cells((row.kwh, row.low, row.high), h.kwh or 0.0, up, w.kwh)
    if money:
        paid = (row.cost or 0.0, row.cost_low or 0.0, row.cost_high or 0.0)
        told += _cells(paid, h.cost or 0.0, up, lambda value: w.money(value, 0))
    return tuple(told)


def _whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6


def _cells(moved: tuple[float, float, float], was: float, up: bool, say: Callable[[float], str]) -> list[str]:
    """The change and its range, low first, never under nothing."""
    middle, *ends = (max(value - was if up else was - value, 0.0) for value in moved)
    return [f"{say(middle)} {'more' if up else 'less'}", between(*(say(end) for end in sorted(ends)))]


def _data(facts: Facts, rows: list[DegreePrice], money: bool) -> pd.DataFrame:
    w, h = facts.w, facts.r.heat
    was, paid = h.kwh or 0.0, h.cost or 0.0
    data = pd.DataFrame(
        {
            f"moved by {w.diff_unit}": [round(w.diff_value(row.away_k), 2) for row in rows],
            "kWh change": [round(row.kwh - was, 1) for row in rows],
            "low": [round(row.low - was, 1) for row in rows],
            "high": [round(row.high - was, 1) for row in rows],
        }
    )
    if money:
        data[f"{w.currency} change"] = [round((row.cost or 0.0) - paid, 2) for row in rows]
        data[f"{w.currency} low"] = [round((row.cost_low or 0.0) - paid, 2) for row in rows]
        data[f"{w.currency} high"] = [round((row.cost_high or 0.0) - paid, 2) for row in rows]
    return data
