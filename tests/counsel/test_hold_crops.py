"""Which crops a lower hold puts at risk, on a house made by closed forms: held at 8 °C, spinach taken to stand 6 °C."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from effects.in_memory import entry
from heated_house import house

from reportgen.counsel.facts import Facts
from reportgen.counsel.hold_crops import kept_alive, rooms
from reportgen.measures.frost import frost
from reportgen.measures.heat import heat
from reportgen.readings.types import Readings

CROP = {"name": "spinach", "damage_below_c": (4.0, 6.0)}
NIGHT = date(2026, 1, 20)


def facts(of: Readings) -> Facts:
    """What the rule reads."""
    made = SimpleNamespace(season=of.season, readings=of, heat=heat(of), frost=frost(of))
    return Facts.of(cast("Any", made))


def with_a_cold_night(of: Readings) -> Readings:
    """The crop air at 1 °C from midnight to three, while the heater ran as ever."""
    air = of.channels[0]
    cold = (air.values.index >= pd.Timestamp("2026-01-21", tz=of.season.zone)) & (
        air.values.index < pd.Timestamp("2026-01-21 03:00", tz=of.season.zone)
    )
    return replace(of, channels=(replace(air, values=air.values.mask(cold, 1.0)), *of.channels[1:]))


def test_room_is_what_the_coldest_usual_night_leaves() -> None:
    """8 °C held on every heated night, less 6 °C: 2 K of room."""
    assert rooms(facts(house(crop=(CROP,)))) == pytest.approx({"spinach": 2.0}, abs=1e-6)


def test_the_night_of_an_event_is_not_the_thermostat_s() -> None:
    """A night at 1 °C leaves 5 K too little; told as an event in the diary it counts no more."""
    cold = with_a_cold_night(house(crop=(CROP,)))
    assert rooms(facts(cold)) == pytest.approx({"spinach": -5.0}, abs=1e-6)
    told = replace(cold, diary=(entry(NIGHT, "Door left open", kind="event"),))
    assert rooms(facts(told)) == pytest.approx({"spinach": 2.0}, abs=1e-6)


def test_a_hold_lower_by_more_than_the_room_is_a_risk() -> None:
    """At the room itself the crop still stands; without a crop nothing is told."""
    assert kept_alive({"kale": 4.0, "spinach": 2.0}, 2.0) == (["kale", "spinach"], [])
    assert kept_alive({"kale": 4.0, "spinach": 2.0}, 2.5) == (["kale"], ["spinach"])
    assert rooms(facts(house())) == {}
