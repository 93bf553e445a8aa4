"""One step of the house. Plain floats: a winter at ten minutes is about 26 000 calls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from simulator.house import HouseParams

LAYERS_M = (0.04, 0.08, 0.12, 0.20, 0.36)  # thickness of the bed's layers, from the top
MIDS_M = (0.02, 0.08, 0.18, 0.34, 0.62)
LATENT_J_KG = 2.47e6  # heat of evaporation near 10 °C (FAO-56: 2.45e6 at 20 °C)
AIR_J_M3K = 1230.0  # ρ·c_p of air near 10 °C
R_INSIDE = 0.12  # inside surface resistance [m²K/W], between ISO 6946's 0.10 and 0.13
SUBSTEPS = 5
WATER_KG_KWH = 0.117  # water that burning propane gives: 1.63 kg a kg, 13.98 kWh a kg gross
# Vapour conductances, per m² of bed or leaf-covered bed: a fully wet surface in still air gives about 0.003 m/s (an
# inside film of 3–4 W/m²K over ρ·c_p of air); a damp crust and leaves with closed pores a fraction of it (by eye).
SOIL_SKIN_MS = 0.0006
LEAF_MS = 0.0009
LEAF_SUN_KG_J = 7.0e-8  # a sixth of the sun that falls on leaves leaves them as vapour (by eye)


class Outside(NamedTuple):
    """Weather of one step, the small draught of the moment and the ground at a metre."""

    temp: float
    rh: float
    wind: float
    ghi: float
    cloud: float
    draught: float
    deep: float


@dataclass(slots=True)
class State:
    """What the house remembers from step to step."""

    air: float
    mass: float
    soil: list[float]
    vapour: float  # kg/m³
    film: float  # kg of water on the glazing
    on: bool = False
    backup_on: bool = False
    dry_on: bool = False

    @classmethod
    def begin(cls, house: HouseParams, outside_c: float) -> State:
        """A house that has stood a while in mild weather."""
        air = outside_c + 3.0
        soil = [house.soil_start_c] * len(LAYERS_M)
        return cls(air=air, mass=air, soil=soil, vapour=0.85 * density(air), film=0.0)


def saturation(temp: float) -> float:
    """Saturation vapour pressure over water [Pa], Magnus form."""
    return 611.2 * math.exp(17.62 * temp / (243.12 + temp))


def density(temp: float) -> float:
    """Saturation vapour density [kg/m³]."""
    return saturation(temp) / (461.5 * (temp + 273.15))


def step(s: State, p: HouseParams, o: Outside, dt: float) -> tuple[float, ...]:
    """Moves the house on by `dt` seconds; the row of house.OUT."""
    night = o.ghi < 5.0
    u = _u_value(p, o.wind, night)
    felt = o.temp - p.sky_k * (1 - o.cloud)
    changes = _air_changes(s, p, o)
    glass = s.air - u * R_INSIDE * (s.air - felt)
    sun = o.ghi * p.transmission * p.sun_factor * p.floor_m2 * (0.95 if p.curtain_m2kw else 1.0)
    heater, backup, dry = _air(s, p, o, dt, u * p.glazing_m2, felt, changes, sun)
    evaporated = _moisture(s, p, o, dt, glass, changes, sun, backup, dry)
    _soil(s, p, o, dt, 0.42 * sun - evaporated * LATENT_J_KG)
    rh = min(100.0, 100.0 * s.vapour / density(s.air))
    bed = s.air + 0.30 * (s.soil[0] - s.air)
    return (
        s.air, rh, bed, _at(s.soil, p.probe_depth_m), s.soil[3], glass,
        heater, backup, dry, dry + p.other_w, s.film, changes, o.ghi * p.transmission * 2.05,
    )  # fmt: skip


def _u_value(p: HouseParams, wind: float, night: bool) -> float:
    """Heat loss of the glazing [W/m²K]: the outside film thins with wind (h = 5.7 + 3.8 v, McAdams 1954)."""
    resistance = 1 / p.u_w_m2k - 1 / 13.3 + 1 / (5.7 + 3.8 * min(wind, 12.0))
    return 1 / (resistance + (p.curtain_m2kw if night else 0.0))


def _air_changes(s: State, p: HouseParams, o: Outside) -> float:
    """Air changes an hour: cracks with wind and lift, and a vent that opens when it is hot."""
    drive = 0.45 + 0.20 * o.wind + 0.012 * max(0.0, s.air - o.temp)
    opened = min(1.0, max(0.0, (s.air - p.vent_at_c) / 4.0))
    return p.air_changes_h * drive * o.draught + p.vent_most_h * opened


def _air(
    s: State, p: HouseParams, o: Outside, dt: float, ua: float, felt: float, changes: float, sun: float
) -> tuple[float, float, float]:
    """Air temperature with heaters that switch within the step; mean powers [W] of heater, backup, dehumidifier."""
    vent = changes * p.volume_m3 * AIR_J_M3K / 3600
    bed = p.soil_w_m2k * p.floor_m2
    loss = ua + vent + bed + p.mass_w_k
    s.dry_on = _dry(s, p)
    dry = p.dehumidifier_w if s.dry_on else 0.0
    steady = ua * felt + vent * o.temp + bed * s.soil[0] + p.mass_w_k * s.mass + 0.40 * sun + p.other_w + 1.6 * dry
    part = dt / SUBSTEPS
    keep = math.exp(-part * loss / (1000 * p.capacity_kj_k))
    heater = backup = 0.0
    for _ in range(SUBSTEPS):
        s.on = _switch(s.on, s.air, p.hold_c, p.hysteresis_k)
        s.backup_on = _switch(s.backup_on, s.air, p.backup_c, p.hysteresis_k)
        main = p.heater_w * p.heater_factor if s.on else 0.0
        second = p.backup_w if s.backup_on else 0.0
        goal = (steady + main + second) / loss
        s.air = goal + (s.air - goal) * keep
        heater += main / SUBSTEPS
        backup += second / SUBSTEPS
    if p.mass_kj_k > 0:
        s.mass += (s.air - s.mass) * (1 - math.exp(-dt * p.mass_w_k / (1000 * p.mass_kj_k)))
    else:
        s.mass = s.air
    return heater, backup, dry


def _switch(on: bool, air: float, hold: float, band: float) -> bool:
    """A thermostat: on below the hold, off above hold + band. So the hold is what the air is kept above."""
    if air < hold:
        return True
    return on and air < hold + band


def _dry(s: State, p: HouseParams) -> bool:
    """A dehumidifier's own humidistat, 3 points wide; below 2 °C its coil ices and it stops."""
    if p.dehumidifier_w <= 0 or s.air < 2.0:
        return False
    rh = 100 * s.vapour / density(s.air)
    return rh > p.dehumidifier_pct or (s.dry_on and rh > p.dehumidifier_pct - 3)


def _moisture(
    s: State, p: HouseParams, o: Outside, dt: float, glass: float, changes: float, sun: float, backup: float, dry: float
) -> float:
    """Vapour in the air and water on the glazing; returns what plants and soil gave off [kg/s]."""
    outside = o.rh / 100 * saturation(o.temp) / (461.5 * (o.temp + 273.15))
    gap_soil = max(0.0, density(s.soil[0]) - s.vapour)
    gap_leaf = max(0.0, density(s.air) - s.vapour)
    given = p.wet * SOIL_SKIN_MS * p.floor_m2 * gap_soil
    given += p.plants_m2 * (LEAF_MS * gap_leaf + LEAF_SUN_KG_J * sun / p.floor_m2)
    burnt = WATER_KG_KWH * backup / 3.6e6
    taken = p.dehumidifier_kg_kwh * dry / 3.6e6 * min(1.0, max(0.2, s.air / 18.0))
    flow = changes * p.volume_m3 / 3600
    wall = 0.0021 * p.glazing_m2
    rim = density(glass)
    film_gives = s.film > 1e-4 or s.vapour > rim
    loss = flow + (wall if film_gives else 0.0)
    goal = (given + burnt - taken + flow * outside + (wall * rim if film_gives else 0.0)) / loss
    before = s.vapour
    s.vapour = max(2e-4, goal + (before - goal) * math.exp(-dt * loss / p.volume_m3))
    if film_gives:
        mean = goal + (before - goal) * (1 - math.exp(-dt * loss / p.volume_m3)) * p.volume_m3 / (dt * loss)
        s.film = min(max(0.0, s.film + wall * (mean - rim) * dt), 0.03 * p.glazing_m2)
    s.vapour = min(s.vapour, density(s.air))
    return given


def _soil(s: State, p: HouseParams, o: Outside, dt: float, gain_w: float) -> None:
    """Heat through the bed's layers, with the ground below and the cold edge [explicit, stable to 20 min]."""
    t, area = s.soil, p.floor_m2
    down = [p.soil_k_w_mk * area * (t[i] - t[i + 1]) / (MIDS_M[i + 1] - MIDS_M[i]) for i in range(len(t) - 1)]
    down.append(p.soil_k_w_mk * area * (t[-1] - o.deep) / 0.38)
    top = gain_w + p.soil_w_m2k * area * (s.air - t[0])
    for i, thick in enumerate(LAYERS_M):
        edge = p.edge_w_k * thick / sum(LAYERS_M) * (t[i] - o.temp)
        heat = (top if i == 0 else down[i - 1]) - down[i] - edge
        t[i] += dt * heat / (1e6 * p.soil_mj_m3k * area * thick)


def _at(soil: list[float], depth: float) -> float:
    """Temperature at a depth, straight between the middles of the layers."""
    for i in range(1, len(MIDS_M)):
        if depth <= MIDS_M[i]:
            share = (depth - MIDS_M[i - 1]) / (MIDS_M[i] - MIDS_M[i - 1])
            return soil[i - 1] + max(0.0, share) * (soil[i] - soil[i - 1])
    return soil[-1]
