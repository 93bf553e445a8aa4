"""season.toml in US units: each key of a temperature, length, area, volume or weight has its twin."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.problems import Problem, SeasonError
from reportgen.season import Season, load_season
from reportgen.season.keys import keys_at
from reportgen.season.twins import us_keys

HEAD = """format = 1
title = "A winter"
first_day = 2025-11-01
last_day = 2026-03-01
time_zone = "America/Denver"
currency = "USD"
show = "us"
"""
LOGGER = """[[logger]]
name = "bench"
where = "crop"
files = ["bench.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "T", unit = "degF" }
soil_temperature = { column = "S", unit = "degF", %s }
"""
US = """[place]
altitude_ft = 5280
rare_low_f = -13
[house]
floor_area_ft2 = 100
glazing_area_ft2 = 300
air_volume_ft3 = 800
soil_bed_volume_ft3 = 60
[aims]
hold = [ { from = 2025-11-01, f = 50 }, { from = 2025-12-20, f = 41.0 } ]
frost_f = 32
soil_f = 45
hot_f = 77
alarm_f = 39.2
care = { lift_f = 0.9, soil_f = 1.8 }
[[heating]]
name = "heater"
fuel = "propane"
deliveries = "bottles.csv"
unit = "gal_us"
price = 3.1
dial = [ { from = 2025-11-01, f = 41 } ]
co2_lb_per_unit = 12.7
[[crop]]
name = "spinach"
area_ft2 = 10
damage_below_f = [14, 19.4]
shop_price_per_lb = 4.0
[[crop]]
name = "leek"
damage_below_f = 5
[household]
vegetables_lb_per_week = 10
"""


def load(folder: Path, text: str, probe: str = "depth_in = 4") -> Season:
    """The season of a text below the usual head."""
    (folder / "season.toml").write_text(f"{HEAD}{text}{LOGGER % probe}", encoding="utf-8")
    return load_season(folder)


def faults(folder: Path, text: str, probe: str = "depth_in = 4") -> tuple[Problem, ...]:
    """Its problems."""
    with pytest.raises(SeasonError) as caught:
        load(folder, text, probe)
    return caught.value.problems


def test_every_twin_gives_the_metric_value(tmp_path: Path) -> None:
    """By hand: (°F − 32) × 5/9, a difference × 5/9; 1 ft = 0.3048 m, 1 in = 2.54 cm, 1 lb = 0.45359237 kg, exact."""
    s = load(tmp_path, US)
    assert s.place.altitude_m == pytest.approx(1609.344)  # a mile
    assert s.place.rare_low_c == pytest.approx(-25.0)
    assert s.house.floor_area_m2 == pytest.approx(9.290304)
    assert s.house.glazing_area_m2 == pytest.approx(27.870912)
    assert s.house.air_volume_m3 == pytest.approx(22.653477, rel=1e-6)  # 0.028316847 m³ a cubic foot
    assert s.house.soil_bed_volume_m3 == pytest.approx(1.6990108, rel=1e-6)
    assert [(h.start.isoformat(), h.c) for h in s.aims.hold] == [("2025-11-01", 10.0), ("2025-12-20", 5.0)]
    assert (s.aims.frost_c, s.aims.hot_c, s.aims.alarm_c) == (0.0, 25.0, 4.0)
    assert s.aims.soil_c == pytest.approx(7.2222222)
    assert (s.aims.care.lift_k, s.aims.care.soil_k) == (0.5, 1.0)
    assert s.heating[0].dial[0].c == 5.0
    assert s.heating[0].co2_kg_per_unit == pytest.approx(5.760623)
    assert s.crops[0].area_m2 == pytest.approx(0.9290304)
    assert s.crops[0].damage_below_c == (-10.0, -7.0) and s.crops[1].damage_below_c == (-15.0, -15.0)
    assert s.crops[0].shop_price_per_kg == pytest.approx(8.818490)  # 4 / 0.45359237
    assert s.household.vegetables_kg_per_week == pytest.approx(4.5359237)
    assert s.loggers[0].measures["soil_temperature"].depth_m == pytest.approx(0.1016)
    assert load(tmp_path, US, "depth_ft = 0.5").loggers[0].measures["soil_temperature"].depth_m == 0.1524


def test_every_metric_key_has_a_twin() -> None:
    """The keys that the models have, walked: whatever ends in _c, _k, _m, _m2, _m3 or holds a kilogram of weight."""
    tables: list[tuple[str | int, ...]] = [
        ("place",), ("house",), ("aims",), ("aims", "care"), ("aims", "hold", 0), ("heating", 0), ("crop", 0),
        ("heating", 0, "dial", 0), ("household",), ("logger", 0, "measures", "air_temperature"),
    ]  # fmt: skip
    for table in tables:
        for key in keys_at(table):
            metric = key.endswith(("_c", "_k", "_m", "_m2", "_m3", "_per_kg")) or "_kg_per_" in key or key == "c"
            assert bool(us_keys([key])) == metric, (table, key)


def test_one_of_the_two_not_both(tmp_path: Path) -> None:
    """hold_c beside hold_f, in a step and in a table: a problem with the line of the US one, and nothing else."""
    both = faults(tmp_path, "[aims]\nhold_c = 5.0\nhold_f = 41\n[house]\nfloor_area_m2 = 9\nfloor_area_ft2 = 97\n")
    assert [(p.slug, p.line, p.column) for p in both] == [
        ("both-units", 10, "[aims] · hold_f"),
        ("both-units", 13, "[house] · floor_area_ft2"),
    ]


def test_a_wrong_value_is_told_as_it_is_written(tmp_path: Path) -> None:
    """The key, its line, the number and the bounds of the file; Celsius is −60 to 60, so °F is −76 to 140."""
    text = '[aims]\nfrost_f = 400\nhold_f = "warm"\nhold = [ { from = 2025-11-01, f = 500 } ]\n'
    told = {p.column: (p.line, p.found, p.expected) for p in faults(tmp_path, text)}
    assert told["[aims] · frost_f"] == (9, "400", "at or below 140")
    assert told["[aims] · hold_f"][:2] == (10, "'warm'")
    assert told["[aims] · hold 1 · f"][1:] == ("500", "at or below 140")


def test_a_slip_of_the_pen_finds_its_twin(tmp_path: Path) -> None:
    """Among the keys that may be meant are those in US units."""
    (fault,) = faults(tmp_path, "[house]\nglazing_aera_ft2 = 300\n")
    assert (fault.slug, fault.todo) == ("unknown-key", "did you mean 'glazing_area_ft2'?")
