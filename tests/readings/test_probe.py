"""A soil probe that lies in no soil is told and not reckoned with; an honest one, shallow or wet, never is.

The ground's waves are the closed form of H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, § 2.6:
under a surface that swings as cos ωt, exp(−z√(ω/2κ))·cos(ωt − z√(ω/2κ)), here of every wave the air is made of.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from readings.folder import logger, season
from readings.test_accounting import check
from readings.test_checks import seen

from reportgen.inspection import inspect, text
from reportgen.measures.places import soil
from reportgen.measures.soil import soil as soil_section
from reportgen.readings import read_season
from reportgen.readings.types import Readings

DAYS, PER_DAY = 60, 48
T = np.arange(DAYS * PER_DAY) * (86_400.0 / PER_DAY)  # [s]
SANDY, LOAM, PEAT = 0.99e-6, 0.5e-6, 0.12e-6  # κ [m² s⁻¹]: de Vries 1963; loam from memory
COLUMNS = {"air_temperature": {"column": "Air"}, "soil_temperature": {"column": "Bed", "depth_m": 0.1}}


def waves(seed: int = 3) -> list[tuple[float, float, float]]:
    """Amplitude [K], ω [s⁻¹] and phase of the waves of a winter's air: of the day, of the weather, and quick ones."""
    rng = np.random.default_rng(seed)
    day = [(4.0, 1.0, -3.7), (1.2, 2.0, 0.4)]  # turns a day
    weather = [(1.5 / k, k / 9.0, rng.uniform(0, 6.3)) for k in range(1, 8)]
    quick = [(0.6 / k**0.5, 2.0 + 1.37 * k, rng.uniform(0, 6.3)) for k in range(1, 7)]
    return [(size, 2 * np.pi * turns / 86_400.0, phase) for size, turns, phase in (*day, *weather, *quick)]


def ground(depth_m: float, kappa: float, mean: float = 8.0) -> np.ndarray:
    """The temperature at a depth, to a tenth; depth 0 is the surface, here as warm as the air."""
    out = np.full(len(T), mean)
    for size, omega, phase in waves():
        deep = depth_m * np.sqrt(omega / (2 * kappa))
        out += size * np.exp(-deep) * np.cos(omega * T + phase - deep)
    return np.round(out, 1)


def write(folder: Path, **columns: np.ndarray) -> None:
    """a.csv with those columns, every half hour from 1 December on."""
    times = pd.date_range("2025-12-01", periods=len(T), freq="30min").strftime("%Y-%m-%d %H:%M")
    (folder / "a.csv").write_text(pd.DataFrame({"Time": times} | columns).to_csv(index=False))


def house(folder: Path, air: np.ndarray, bed: np.ndarray, depth_m: float | None = 0.1) -> Readings:
    """A logger with its air and its bed, every row accounted for."""
    write(folder, Air=air, Bed=bed)
    column: dict[str, Any] = {"column": "Bed"} | ({} if depth_m is None else {"depth_m": depth_m})
    found = read_season(season(folder, logger(measures={**COLUMNS, "soil_temperature": column})))
    check(found)
    return found


def told(found: Readings) -> list[str]:
    """What was seen of probes."""
    return [one.slug for one in found.findings if one.slug in ("probe-in-the-air", "columns-exchanged")]


@pytest.mark.parametrize("kappa", [SANDY, LOAM, PEAT])
@pytest.mark.parametrize("depth_m", [0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.3])
def test_an_honest_probe_is_never_doubted(tmp_path: Path, depth_m: float, kappa: float) -> None:
    """From 2 cm of moist sand to 30 cm of a wet, heavy bed, each at the depth it is declared."""
    found = house(tmp_path, ground(0.0, LOAM), ground(depth_m, kappa), depth_m)
    assert told(found) == []
    assert soil(found) is not None


@pytest.mark.parametrize("depth_m", [0.05, 0.1, 0.3])
@pytest.mark.parametrize("share", [0.75, 1.0, 1.3])
def test_a_probe_in_the_air_is_told(tmp_path: Path, depth_m: float, share: float) -> None:
    """Declared in the bed, it swings with the air a quarter of an hour late, whatever its size; no soil does so."""
    air = ground(0.0, LOAM)
    hanging = np.round(9.0 + share * (np.interp(T - 900.0, T, air) - 8.0), 1)
    found = house(tmp_path, air, hanging, depth_m)
    expected = [] if depth_m == 0.05 and share == 0.75 else ["probe-in-the-air"]  # 5 cm of sand lets 0.74 through
    assert told(found) == expected


def test_a_hanging_probe_says_how_and_is_left_out(tmp_path: Path) -> None:
    """Its swing, its minutes and what soil would do, in one sentence; then no soil, with that reason, on both pages."""
    air = ground(0.0, LOAM)
    found = house(tmp_path, air, np.round(1.0 + 0.95 * air, 1))
    words = seen(found, "probe-in-the-air").words.replace("\u00a0", " ")
    assert words.startswith(
        "the soil probe of bench, 10 cm deep, swings 95 % as much as the air of bench, at the same time"
    )
    assert "moist sand lets 55 % through, 2.3 h late" in words  # exp(−0.1/0.1658); 0.603·24/2π
    assert soil(found) is None
    reason = "the soil probe of bench seems to hang in the air, so it tells nothing of the bed"
    assert set(soil_section(found).reasons.values()) == {reason}
    assert soil_section(found).released_kwh_per_night is None


def test_exchanged_columns_are_told_and_asked_about(tmp_path: Path) -> None:
    """The column declared as air is the bed: damped, late and steady; the probe is not said to hang in the air."""
    found = house(tmp_path, ground(0.1, LOAM), ground(0.0, LOAM))
    assert told(found) == ["columns-exchanged"]
    warning = next(w for w in found.warnings if w.slug == "columns-exchanged")
    assert "'Bed' of bench" in warning.found and "'Air' of bench" in warning.found
    assert soil(found) is None
    # exp(−0.1·√(ω/2κ)) = 0.426 and 3.26 h at κ = 0.5·10⁻⁶ m²/s
    words = seen(found, "columns-exchanged").words.replace("\u00a0", " ")
    assert "swings 43 % as much" in words and "3.3 h later" in words


def test_a_column_of_another_logger_may_be_the_bed(tmp_path: Path) -> None:
    """The probe of one logger is exchanged with the air of a second, while the first one's own air is air."""
    write(tmp_path, Air=ground(0.0, LOAM), Bed=ground(0.0, LOAM) + 0.3, Other=ground(0.15, LOAM))
    second = logger("door", measures={"air_temperature": {"column": "Other"}})
    found = read_season(season(tmp_path, logger(measures=COLUMNS), second))
    assert told(found) == ["columns-exchanged"]
    assert "'Other' of door" in seen(found, "columns-exchanged").words


def test_another_probe_in_the_bed_takes_its_place(tmp_path: Path) -> None:
    """One probe hangs in the air; a second logger's lies in the bed and speaks for it."""
    air = ground(0.0, LOAM)
    write(tmp_path, Air=air, Bed=air + 0.4, Deep=ground(0.1, LOAM))
    second = logger("bed", measures={"soil_temperature": {"column": "Deep", "depth_m": 0.1}})
    found = read_season(season(tmp_path, logger(measures=COLUMNS), second))
    bed = soil(found)
    assert told(found) == ["probe-in-the-air"] and bed is not None and bed.logger == "bed"


def test_sun_on_the_ground_makes_no_probe_of_air(tmp_path: Path) -> None:
    """A dark surface that swings twice the air and leads it by an hour: 5 cm down the day's wave is like the air's,
    and yet the quick changes of the air do not arrive."""
    rng = np.random.default_rng(5)
    gusts = np.convolve(rng.normal(0, 1.2, len(T)), np.ones(6) / 6, "same") * 2
    bed = np.round(8.0 + 2 * (np.interp(T + 3600.0, T, ground(0.05, LOAM)) - 8.0), 1)
    assert told(house(tmp_path, np.round(ground(0.0, LOAM) + gusts, 1), bed, 0.05)) == []


def test_a_probe_of_unknown_depth_in_the_air_is_told(tmp_path: Path) -> None:
    """Without depth_m it may lie at the surface, and the sentence says so."""
    air = ground(0.0, LOAM)
    found = house(tmp_path, air, np.round(air + 0.5, 1), None)
    assert "at the surface (its depth_m is not written)" in seen(found, "probe-in-the-air").words


def test_too_few_days_or_a_flat_air_say_nothing(tmp_path: Path) -> None:
    """Five days, or air that swings half a kelvin, are no ground for doubt."""
    air = ground(0.0, LOAM)
    part = np.where(np.arange(len(T)) < 5 * PER_DAY, air, np.nan)
    assert told(house(tmp_path, air, part)) == []
    flat = np.round(8.0 + 0.1 * (air - 8.0), 1)
    assert told(house(tmp_path, flat, flat)) == []


TOML = """format = 1
title = "A winter"
first_day = 2025-12-01
last_day = 2026-01-29
time_zone = "Europe/Prague"
[[logger]]
name = "bench"
where = "crop"
files = ["a.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "Air" }
soil_temperature = { column = "Bed", depth_m = 0.1 }
"""


def test_inspect_shows_both(tmp_path: Path) -> None:
    """What the checks saw of a hanging probe, and the warning about exchanged columns with its line."""
    air = ground(0.0, LOAM)
    (tmp_path / "season.toml").write_text(TOML)
    write(tmp_path, Air=air, Bed=air + 0.5)
    assert "it seems to hang in the air" in " ".join(text(inspect(tmp_path)).replace("\u00a0", " ").split())
    write(tmp_path, Air=ground(0.1, LOAM), Bed=air)
    found = inspect(tmp_path)
    assert [(w.slug, w.line) for w in found.warnings] == [("columns-exchanged", 13)]
    assert "1 warning to look at" in text(found).replace("\u00a0", " ")
