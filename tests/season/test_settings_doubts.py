"""Settings that hardly are right are asked about; what is only cold, warm or dear is not."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest
from readings.folder import season

from reportgen.season.models import Season
from reportgen.season.settings_doubts import settings_doubts

HEATER = {"name": "fan", "fuel": "electricity", "meter": "m.csv"}


def told(folder: Path, **more: Any) -> list[tuple[str, str | None, str]]:
    found: Season = season(folder, **more)
    return [(problem.slug, problem.column, problem.level) for problem in settings_doubts(found)]


@pytest.mark.parametrize("held", [45.0, -13.9])
def test_a_hold_in_the_other_unit(tmp_path: Path, held: float) -> None:
    """hold_c = 45, and hold_f = 7 (−13.9 °C); in a list by date, as an alarm and on a dial too."""
    asked = [("hold-in-other-unit", "[aims] · hold", "warning")]
    assert told(tmp_path, aims={"hold_c": held}) == asked
    steps = (
        {"from": dt.date(2025, 11, 1), "c": 5.0},
        {"from": dt.date(2025, 12, 1), "c": held},
        {"from": dt.date(2026, 1, 1), "c": held},
    )
    assert told(tmp_path, aims={"hold": steps}) == asked
    assert told(tmp_path, aims={"alarm_c": held}) == [("hold-in-other-unit", "[aims] · alarm", "warning")]
    dial = told(tmp_path, heating=(HEATER | {"dial": steps},))
    assert dial == [("hold-in-other-unit", "[[heating]] fan · dial", "warning")]


@pytest.mark.parametrize("held", [-5.0, 0.0, 7.2, 24.0])
def test_what_houses_are_kept_at_is_not_asked(tmp_path: Path, held: float) -> None:
    """From an overwintering shed to a house of cuttings."""
    assert told(tmp_path, aims={"hold_c": held, "alarm_c": held}) == []


@pytest.mark.parametrize(
    ("currency", "unit", "price", "asked"),
    [
        ("EUR", "kWh", 31, True),
        ("GBP", "kWh", 27.5, True),
        ("EUR", "kWh", 0.31, False),
        ("EUR", "kWh", 1.2, False),
        ("CZK", "kWh", 7.1, False),
        ("EUR", "m3", 3.2, False),
    ],
)
def test_a_price_in_cents(tmp_path: Path, currency: str, unit: str, price: float, asked: bool) -> None:
    """31 euros a kWh are cents; seven crowns are a price, and so are three euros a cubic metre."""
    source = HEATER | {"unit": unit, "fuel": "other" if unit == "m3" else "electricity"}
    expected = [("price-in-cents", "[[heating]] fan · price", "warning")] if asked else []
    assert told(tmp_path, currency=currency, heating=(source | {"price": price},)) == expected
    assert (
        told(
            tmp_path,
            currency=currency,
            heating=(source | {"prices": ({"from": dt.date(2025, 10, 1), "price": price},)},),
        )
        == expected
    )


@pytest.mark.parametrize(("watts", "asked"), [(2, True), (1.5, True), (45, False), (2000, False)])
def test_a_heater_s_power_in_kilowatts(tmp_path: Path, watts: float, asked: bool) -> None:
    """rated_power_w = 2 is 2 kW; a mat of 45 W is one."""
    expected = [("power-unit", "[[heating]] fan · rated_power_w", "warning")] if asked else []
    assert told(tmp_path, heating=(HEATER | {"rated_power_w": watts},)) == expected
