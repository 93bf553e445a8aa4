"""Winters of known truth, each with the findings that must and must not come of it.

A slug that ends in "-" stands for every finding whose slug begins so ("worth-keeping-" and a line of the diary). The
truths are the simulator's: a heater that stops one night, a house that springs a leak, a dehumidifier that takes no
water.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pandas as pd
from simulator import (
    Change,
    Climate,
    HouseParams,
    Sensor,
    Simulated,
    Spell,
    default_loggers,
    simulate,
    synthetic,
    write_season,
)
from simulator.logger import LoggerSpec

ZONE = "Europe/Prague"
START, END = "2025-10-31T23:00", "2026-03-31T22:00"  # UTC: local midnights of 1 November and 1 April
STEP_S = 1200
HEATED = HouseParams(heater_w=3000.0, hold_c=4.0, air_changes_h=2.0, wet=0.5)
DRY = HouseParams(
    heater_w=4000.0, hold_c=9.0, u_w_m2k=2.2, air_changes_h=3.0, wet=0.1, plants_m2=2.5, sky_k=1.0, vent_at_c=16.0
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Scenario:
    """One winter of known truth. `write` makes its season folder and returns it."""

    name: str
    truth: str
    write: Callable[[Path], Path]
    must: tuple[str, ...]
    must_not: tuple[str, ...] = ()


def at(when: str) -> pd.Timestamp:
    """A local time of the made-up garden."""
    return pd.Timestamp(when).tz_localize(ZONE)


def winter(house: HouseParams = HEATED, *changes: Change, climate: Climate | None = None, seed: int = 41) -> Simulated:
    """Five months of that house in twenty-minute steps."""
    climate = climate or Climate(mean_c=9.5)
    return simulate(synthetic(climate, START, END, seed, STEP_S), house, changes, seed)


def written(folder: Path, simulated: Simulated, **more: Any) -> Path:
    """Its season folder with loggers of twenty minutes."""
    heated = bool((simulated.frame["heater_w"] > 0).any())
    loggers = more.pop("loggers", default_loggers(heated, step_min=20))
    return write_season(folder, simulated, loggers, zone=ZONE, **more)


def failing_heater(folder: Path) -> Path:
    """The heater gives nothing from ten at night to seven in a hard frost; a diary that is kept says nothing of it."""
    cold = Climate(mean_c=9.5, spells=(Spell(start="2026-01-12", end="2026-01-22", shift_k=-8.0, cloud=-0.3),))
    stop = Change(at=at("2026-01-17 22:00"), until=at("2026-01-18 07:00"), alters={"heater_factor": 0.0})
    made = written(folder, winter(HEATED, stop, climate=cold))
    lines = "2025-12-01,event,First frost on the grass\n2026-02-10,event,Rats in the shed\n"
    (made / "diary.csv").write_text(f"date,kind,what\n{lines}", encoding="utf-8")
    return made


def leaking_house(folder: Path) -> Path:
    """From 20 January a pane stands open that nobody noticed: nine air changes an hour more."""
    leak = Change(at=at("2026-01-20 12:00"), alters={"air_changes_h": 11.0})
    return written(folder, winter(HEATED, leak))


def dead_dehumidifier(folder: Path) -> Path:
    """It draws its power and takes no water out of the air; the diary hopes for drier air."""
    on = Change(
        at=at("2026-01-15 12:00"), alters={"dehumidifier_w": 150.0, "dehumidifier_kg_kwh": 0.0}, timed=True,
        what="Dehumidifier switched on", touches=("air",), hoped_for=("drier air",), reversible=True,
    )  # fmt: skip
    drawn = Sensor(truth="dehumidifier_kwh", measure="heater_energy", column="kwh", unit="kWh", resolution=0.001)
    plug = LoggerSpec(name="dry", where="elsewhere", sensors=(drawn,), step_min=20, clock="utc")
    item = {"name": "dehumidifier", "kind": "dehumidifier", "logger": "dry", "rated_power_w": 150, "setpoint_pct": 75}
    loggers = (*default_loggers(True, step_min=20), plug)
    wet = HouseParams(heater_w=3000.0, hold_c=5.0, wet=0.9)
    return written(folder, winter(wet, on), loggers=loggers, season={"appliance": [item]})


def dark_winter(folder: Path) -> Path:
    """Fog from November to March and a mild air: a third of the usual light, and no frost in the house."""
    fog = Climate(mean_c=12.0, swing_k=7.5, mean_cloud=0.97, light=0.6)
    return written(folder, winter(HEATED, climate=fog))


def perfect_winter(folder: Path) -> Path:
    """A tight, dry, well aired house that never came near frost, with every logger running."""
    mild = Climate(mean_c=12.0, swing_k=7.0, mean_cloud=0.3)
    return written(folder, winter(DRY, climate=mild))


def only_temperature(folder: Path) -> Path:
    """One crop logger with air temperature and nothing else, unheated."""
    air = Sensor(truth="temp_in_c", measure="air_temperature", column="air", unit="degC", noise=0.08)
    alone = LoggerSpec(name="bench", where="crop", sensors=(air,), step_min=20, clock="utc", main=True)
    bare: Mapping[str, Any] = {"place": {}, "house": {}}
    return written(folder, winter(HouseParams()), loggers=(alone,), season=bare)


def film_that_works(folder: Path) -> Path:
    """Film in midwinter that truly saves a third of the heat, and nothing else near it."""
    return written(folder, winter(HEATED, film()))


def film(what: str = "Bubble film") -> Change:
    """Insulation at noon on 12 January, with the light it costs."""
    return Change(
        at=at("2026-01-12 12:00"), alters={"u_w_m2k": 2.0, "transmission": 0.62}, what=what, timed=True,
        touches=("envelope",), hoped_for=("less heating",), reversible=True, cost=60.0, years=3, written="2026-01-10",
    )  # fmt: skip


def duds(folder: Path) -> Path:
    """Three changes a month apart that do nothing at all, each with a hope."""
    hopes = (("2025-12-08", "warmer nights"), ("2026-01-15", "drier air"), ("2026-02-20", "warmer soil"))
    dull = tuple(
        Change(at=at(f"{day} 12:00"), what=f"Copper wire {n}", touches=("bed",), hoped_for=(hope,), timed=True)
        for n, (day, hope) in enumerate(hopes, start=1)
    )
    return written(folder, winter(HEATED, *dull))


FAILED = ("cold-event",)
HARM = (*FAILED, "loss-by-cause", "better-left-undone-")
SCENARIOS = (
    Scenario(
        name="failing heater", truth="no heat for nine hours of one hard night", write=failing_heater,
        must=FAILED, must_not=("nothing-wrong", "coldest-moment", "worth-keeping-", "better-left-undone-"),
    ),
    Scenario(
        name="leaking house", truth="nine air changes more from 20 January, unwritten", write=leaking_house,
        must=("something-unwritten",), must_not=("worth-keeping-", "better-left-undone-"),
    ),
    Scenario(
        name="dead dehumidifier", truth="draws power, takes no water", write=dead_dehumidifier,
        must=("what-the-dehumidifier-did", "hours-too-damp"), must_not=("worth-keeping-", "nothing-wrong", *FAILED),
    ),
    Scenario(
        name="dark winter", truth="a third of the light, mild", write=dark_winter,
        must=("hours-too-damp", "days-under-ten-hours"), must_not=(*FAILED, "gloomy-run"),
    ),
    Scenario(
        name="perfect winter", truth="never near frost, dry, whole record", write=perfect_winter,
        must=("nothing-wrong", "coldest-moment", "days-under-ten-hours"), must_not=HARM,
    ),
    Scenario(
        name="only temperature", truth="one logger, one measure, no heater", write=only_temperature,
        must=("no-outdoor-logger", "coldest-moment"),
        must_not=("worth-keeping-", "better-left-undone-", "not-worth-it-", "hours-too-damp", "dew-on-the-glass"),
    ),
    Scenario(
        name="film that works", truth="a third less heat after 12 January", write=film_that_works,
        must=("worth-keeping-",), must_not=("better-left-undone-", "not-worth-it-", "fumes-in-the-house"),
    ),
    Scenario(
        name="three duds", truth="three changes of no effect", write=duds,
        must=(), must_not=("worth-keeping-", "better-left-undone-", "fumes-in-the-house"),
    ),
)  # fmt: skip


def hits(slugs: set[str], wanted: tuple[str, ...]) -> set[str]:
    """Which of the wanted slugs (or beginnings of slugs) are there."""
    return {want for want in wanted if any(s == want or (want.endswith("-") and s.startswith(want)) for s in slugs)}
