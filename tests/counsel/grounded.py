"""Grounds put together by hand: a lever, an event, a hold, a balance that a rule of the plan must answer to."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
from counsel import hand
from made_season import ZONE, season

from reportgen.counsel.grounds import (
    Balance,
    CropMet,
    Ends,
    Event,
    Grounds,
    HoldAdvice,
    JudgedLever,
    LeverVerdict,
    PriceSide,
)
from reportgen.counsel.results import Results
from reportgen.readings.lever_types import Lever, State
from reportgen.season.sources import HeatSource

FIRST, LAST = "2025-10-11", "2026-04-12"
FAN = HeatSource(name="fan heater", fuel="electricity", meter="m.csv", next_price=0.4)
GAS = HeatSource(name="gas stove", fuel="propane", role="backup", deliveries="b.csv", unit="kg", heat_kwh_per_unit=13.0,
                 heating_value="gross", vented=False)  # fmt: skip


def at(day: str, clock: str = "12:00") -> pd.Timestamp:
    """A moment of the made-up season."""
    return pd.Timestamp(f"{day} {clock}", tz=ZONE)


def winter(**more: Any) -> Results:
    """Results of a winter from 11 October to 12 April; `heating` as sources, the rest as `hand.results`."""
    of = more.pop("of", None) or season(FIRST, LAST, heating=more.pop("sources", ()), **more.pop("toml", {}))
    return hand.results(of, **more)


def lever(name: str, verdict: LeverVerdict = "keep", **more: Any) -> JudgedLever:
    """A lever on since 22 January that spared 27 to 43 % of the heat for each degree."""
    on = State(from_=at("2026-01-22"), to=at("2026-04-13", "00:00"), on=True)
    off = State(from_=at(FIRST, "00:00"), to=at("2026-01-22"), on=False)
    usual: dict[str, Any] = {
        "thing": None,
        "touches": ("envelope",),
        "entries": (dt.date(2026, 1, 22),),
        "states": (off, on),
        "hours_on": 1944.0,
        "hours_off": 2472.0,
        "condition": None,
        "outcome": "watts_per_kelvin",
        "effect": -40.0,
        "low": -50.0,
        "high": -30.0,
        "level": 0.95,
        "spared_kwh": None,
        "spared_money": None,
        "winter_kwh": None,
        "winter_money": None,
        "payback_winters": None,
        "price": (),
        "unsafe_with": (),
        "reasons": {},
        "unit": "W/K",
        "lines": (3,),
        "relative": Ends(low=0.27, high=0.43),
        "on_now": True,
        "saves_heat": True,
        "counted_days": (21, 20),
    }
    return JudgedLever(name=name, verdict=verdict, **(usual | more))


def humid(low: float, high: float, **more: Any) -> dict[str, Any]:
    """What makes a lever one that is judged on night humidity, in points."""
    mid = (low + high) / 2
    usual = {"outcome": "night_humidity", "effect": mid, "low": low, "high": high, "unit": "%", "relative": None}
    return usual | {"saves_heat": False, "touches": ("air",), "hoped": "drier air"} | more


def side(outcome: str, low: float, high: float, **more: Any) -> PriceSide:
    """A second side of a lever."""
    usual: dict[str, Any] = {"unit": "%", "effect": (low + high) / 2, "level": 0.95, "before_mean": 100.0}
    return PriceSide(outcome=outcome, low=low, high=high, **(usual | more))


def raw_lever(of: JudgedLever) -> Lever:
    """The lever as the readings hold it."""
    return Lever(name=of.name, thing=of.thing, touches=of.touches, entries=of.entries, states=of.states, reasons={},
                 hours_on=of.hours_on, hours_off=of.hours_off, lines=of.lines, undone={})  # fmt: skip


def event(kind: Any = "failure", cause: str = "the heat failed", **more: Any) -> Event:
    """The heater stood still on the night of 13 January; seven pak choi were lost."""
    met = CropMet(crop="pak choi", bed="door", coldest_c=-1.2, lost=7.0, cause="frost")
    usual: dict[str, Any] = {
        "start": at("2026-01-13", "22:40"),
        "end": at("2026-01-14", "08:00"),
        "line_crossed_after_min": 95.0,
        "minimum_c": -1.2,
        "place": "door",
        "outdoor_c": -11.0,
        "diary": ("Heater stood still overnight",),
        "crops": (met,),
        "at": at("2026-01-14", "06:00"),
    }
    return Event(kind=kind, cause=cause, **(usual | more))


def hold(**more: Any) -> HoldAdvice:
    """No advice, unless told."""
    usual: dict[str, Any] = {
        "dial_c": None, "down_by_k": None, "usually_c": None, "coldest_c": None, "nights": 0, "crop": None,
        "reason": "no heated night",
    }  # fmt: skip
    return HoldAdvice(**(usual | more))


def balance(**more: Any) -> Balance:
    """Nothing known, unless told."""
    names = ("heat", "appliances", "costs", "changes_by_years", "total", "per_kg")
    usual: dict[str, Any] = dict.fromkeys(names) | {"missing": (), "weeks": (), "reasons": {}}
    return Balance(**(usual | more))


def grounds(*levers: JudgedLever, **more: Any) -> Grounds:
    """Grounds with these levers and, by name, events, hold_advice, balance."""
    usual: dict[str, Any] = {"events": (), "hold_advice": hold(), "balance": balance()}
    return Grounds(levers=levers, **(usual | more))
