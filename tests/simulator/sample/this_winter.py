"""This winter of the invented Owlbarrow glasshouse: weather, house, what was changed and what that truly did."""

from __future__ import annotations

from typing import Any

import pandas as pd

from simulator.house import Change, HouseParams, Simulated, simulate
from simulator.weather import Climate, Spell, synthetic

ZONE = "Europe/Bratislava"
START, END = "2025-10-10T22:00", "2026-04-12T22:00"  # UTC: local midnights of 11 October and 13 April
SEED = 20256

# Inland, near 48.6° N: winter means near freezing, nights to −15 °C in a hard January (from memory).
PLACE: dict[str, Any] = {"latitude": 48.6, "longitude": 18.4, "mean_c": 9.8, "swing_k": 9.9, "synoptic_sd_k": 2.9}
CLIMATE = Climate(
    **PLACE,
    spells=(
        Spell(start="2025-11-10", end="2025-11-16", shift_k=-4.0, cloud=-0.3),
        Spell(start="2025-12-06", end="2025-12-24", shift_k=1.0, cloud=0.35, damp_k=1.6, calm=0.7),
        Spell(start="2026-01-06", end="2026-02-03", shift_k=-5.0, cloud=-0.25, calm=0.8),
        Spell(start="2026-02-12", end="2026-03-20", shift_k=-4.0, cloud=-0.1),
    ),
)

# Twin-wall sheet of 6 mm: R 1.54–1.69 h·ft²·°F/Btu on makers' pages is U 3.4–3.7 W/m²K.
HOUSE = HouseParams(
    floor_m2=14.0,
    glazing_m2=33.0,
    volume_m3=29.0,
    u_w_m2k=3.5,
    air_changes_h=2.2,
    transmission=0.66,
    capacity_kj_k=650.0,
    soil_w_m2k=6.0,
    edge_w_k=4.5,
    plants_m2=7.0,
    wet=0.6,
    hold_c=3.0,
    deep_c=10.0,
)


def at(when: str) -> pd.Timestamp:
    """A local time of the garden."""
    return pd.Timestamp(when).tz_localize(ZONE)


def changes() -> tuple[Change, ...]:
    """Everything that was altered, and what the diary says of it."""
    return (*_autumn(), *_midwinter(), *_late_winter(), *_spells())


def _autumn() -> tuple[Change, ...]:
    return (
        Change(
            at=at("2025-11-02 11:00"), alters={"mass_kj_k": 40.0, "mass_w_k": 4.0},
            what="A row of bricks along the back wall", thing="bricks", touches=("bed",), hoped_for=("warmer nights",),
            reversible=True, cost=0.0, years=20, written="2025-11-01", note="48 bricks from the old path",
        ),
        Change(
            at=at("2025-11-12 16:00"), until=at("2025-11-13 08:00"), alters={"air_changes_h": 9.0},
            what="Door left ajar overnight", kind="event", note="found it open at breakfast",
        ),
        Change(
            at=at("2025-11-24 13:00"), alters={"heater_w": 1500.0},
            what="Fan heater on its own thermostat at 3 °C", thing="fan heater", touches=("heater", "thermostat"),
            hoped_for=("warmer nights",), reversible=True, timed=True, cost=79.0, years=6, written="2025-11-20",
            note="on a residual-current protected outdoor socket that an electrician fitted",
        ),
    )  # fmt: skip


def _midwinter() -> tuple[Change, ...]:
    return (
        Change(
            at=at("2025-12-10 11:30"), alters={"air_changes_h": 0.3},
            what="Vents and door gap taped shut to keep the fog out", thing="vent tape", touches=("air",),
            hoped_for=("drier air", "less heating"), reversible=True, timed=True, cost=4.5, years=1,
            written="2025-12-09",
        ),
        Change(
            at=at("2026-01-13 22:40"), until=at("2026-01-14 06:50"), alters={"heater_factor": 0.0},
            what="Heater stood still overnight", kind="event", timed=True,
            note="its overheat cut-out had tripped; a fleece had slipped against the grille",
        ),
        Change(
            at=at("2026-01-03 16:00"), until=at("2026-01-13 09:00"), alters={"backup_w": 1300.0, "backup_c": 3.3},
            what="Gas heater lit through the cold", thing="gas heater", kind="spell",
            touches=("heater",), hoped_for=("drier air", "safer"),
            reversible=True, written="2026-01-02", note="low vent opened a finger's width; alarm for carbon monoxide",
        ),
        Change(
            at=at("2026-01-22 12:00"), alters={"u_w_m2k": 2.45, "transmission": 0.60},
            what="Bubble film inside the roof and the sides", thing="bubble film",
            touches=("envelope",), hoped_for=("less heating",),
            reversible=True, timed=True, cost=68.0, years=3, written="2026-01-15",
        ),
    )  # fmt: skip


def _late_winter() -> tuple[Change, ...]:
    return (
        Change(
            at=at("2026-02-03 11:00"), alters={"wet": 0.35},
            what="Watering halved, mornings only", thing="less water",
            touches=("water",), hoped_for=("drier air",), reversible=True,
            timed=True, written="2026-02-01",
        ),
        Change(
            at=at("2026-02-06 12:00"), alters={"dehumidifier_w": 160.0, "dehumidifier_pct": 84.0},
            what="Dehumidifier set to 84 %", thing="dehumidifier",
            touches=("air",), hoped_for=("drier air",), reversible=True, timed=True,
            cost=129.0, years=8, written="2026-02-01",
        ),
        Change(
            at=at("2026-02-21 11:30"), alters={"air_changes_h": 2.2},
            what="Tape taken off the vents again", thing="vent tape", undoes="2025-12-10",
            touches=("air",), hoped_for=("drier air",), reversible=True,
            timed=True, written="2026-02-20",
        ),
        Change(
            at=at("2026-03-17 09:00"), alters={"hold_c": 6.0},
            what="Thermostat up to 6 °C for the seedlings", thing="thermostat",
            touches=("thermostat",), hoped_for=("better growth",),
            reversible=True, written="2026-03-15",
        ),
        Change(
            at=at("2026-03-01 10:00"), alters={"other_w": 55.0},
            what="Warming mat under the seed trays", thing="warming mat", kind="upkeep", note="on its own little meter",
        ),
        Change(
            at=at("2026-03-29 10:00"), alters={"vent_at_c": 15.0},
            what="Roof opener set to start at 15 °C instead of 20 °C", thing="roof opener",
            touches=("air",), hoped_for=("cooler days",),
            reversible=True, cost=0.0, written="2026-03-27",
        ),
    )  # fmt: skip


CURTAIN = (("2026-02-26", "2026-03-01"), ("2026-03-05", "2026-03-08"), ("2026-03-13", "2026-03-16"))


def _spells() -> tuple[Change, ...]:
    """An old curtain, drawn for four nights, off for three or four, drawn again: the grower's own trial."""
    day = pd.Timedelta(days=1)
    return tuple(
        Change(
            at=at(f"{first} 12:00"), until=at(f"{last} 12:00") + day, alters={"curtain_m2kw": 0.10},
            what="Old curtain drawn under the roof at night", thing="roof curtain", kind="spell", touches=("envelope",),
            hoped_for=("less heating",), reversible=True, cost=0.0, years=4, written="2026-02-24",
        )
        for first, last in CURTAIN
    )  # fmt: skip


def winter() -> Simulated:
    """The whole truth of this winter."""
    return simulate(synthetic(CLIMATE, START, END, SEED), HOUSE, changes(), SEED)
