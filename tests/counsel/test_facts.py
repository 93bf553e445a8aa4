"""Figures by their paths, and a figure for each unit of weight or area, by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from counsel.grounded import FAN, GAS, grounds, lever, winter

from reportgen.counsel.facts import Facts

NBSP = "\u00a0"


def facts(show: str = "metric", **more: Any) -> Facts:
    return Facts.of(winter(toml={"show": show}, **more))


def test_what_stands_at_a_path() -> None:
    """Mappings, attributes (`from` as `from_`), places of a list; nothing where a step is missing."""
    heat = {
        "rows": ({"kwh": 3.0}, SimpleNamespace(from_=7)),
        "by": {2: "two"},
        "flag": True,
        "nan": float("nan"),
        "n": 5,
    }
    of = facts(heat=heat)
    assert (of.at("heat.rows.0.kwh"), of.at("heat.rows.1.from"), of.at("heat.by.2")) == (3.0, 7, "two")
    for gone in ("heat.rows.2", "heat.rows.x", "heat.other", "heat.rows.0.other", "heat.n.deeper", "heat.by.x"):
        assert of.at(gone) is None
    assert of.number("heat.n") == 5.0 and of.number("heat.rows.0.kwh") == 3.0
    for none in ("heat.flag", "heat.nan", "heat.by.2", "heat.other"):
        assert of.number(none) is None


def test_money_and_mass_for_each_unit() -> None:
    """EUR 4.00 a kg is 1.81 a pound (0.45359237 kg); 5 kg/m² are 5 / 0.45359237 × 0.3048² = 1.02 lb/ft²."""
    metric, us = facts(), facts("us")
    assert metric.money_per_mass(4.0) == f"EUR{NBSP}4.00 per{NBSP}kg"
    assert us.money_per_mass(4.0) == f"EUR{NBSP}1.81 per{NBSP}lb"
    assert metric.money_per_mass_between(4.0, 3.5, 4.5) == f"EUR{NBSP}3.50 to 4.50 per{NBSP}kg"
    assert us.money_per_mass_between(4.0, 3.0, 5.0) == f"EUR{NBSP}1.36 to 2.27 per{NBSP}lb"
    for low, high in ((None, 4.5), (3.5, None)):
        assert metric.money_per_mass_between(4.0, low, high) == metric.money_per_mass(4.0)
    assert metric.mass_per_area(5.0) == f"5.0{NBSP}kg/m²" and us.mass_per_area(5.0) == f"1.02{NBSP}lb/ft²"


def test_fuels_and_the_lever_of_a_line() -> None:
    """Of all heaters; a line belongs to the lever that has it."""
    assert facts(sources=(FAN, GAS)).fuels == {"electricity", "propane"}
    film = lever("film", lines=(3, 8))
    assert grounds(lever("tape", lines=(4,)), film).lever_of(8) == film and grounds(film).lever_of(5) is None


@pytest.mark.parametrize(("low", "high"), [(0.0, 0.0), (0.0, 5.0)])
def test_a_bound_of_nothing_is_a_bound(low: float, high: float) -> None:
    """0 is known."""
    assert " to " in facts().money_per_mass_between(4.0, low, high)
