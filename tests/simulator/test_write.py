"""What write_season writes is what was simulated: read back by the standard library and by the reader itself."""

from __future__ import annotations

import csv
import datetime as dt
import tomllib
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from reportgen.readings import read_season
from reportgen.season import load_season
from simulator import (
    Change,
    Climate,
    HouseParams,
    Simulated,
    default_loggers,
    from_hourly,
    simulate,
    synthetic,
    toml,
    write_season,
)

ZONE = "Europe/Prague"
NOON = pd.Timestamp("2026-01-12 12:00", tz=ZONE)


@pytest.fixture(scope="module")
def winter() -> Simulated:
    """Four heated weeks with a change, a spell of four nights and a hidden cause."""
    changes = (
        Change(at=NOON, alters={"u_w_m2k": 2.4}, what="Film", touches=("envelope",), hoped_for=("less heating",)),
        Change(at=NOON, until=NOON + pd.Timedelta(days=4), alters={"air_changes_h": 3.0}, what="Vents", kind="spell"),
        Change(at=NOON, alters={"wet": 0.8}),
    )
    weather = synthetic(Climate(), "2025-12-31T23:00", "2026-01-28T23:00", seed=9, step_s=1200)
    return simulate(weather, HouseParams(heater_w=2000.0), changes, seed=9)


@pytest.fixture(scope="module")
def folder(winter: Simulated, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Its season folder, with loggers that make no mistake."""
    exact = default_loggers(True, step_min=20, exact=True)
    return write_season(tmp_path_factory.mktemp("made") / "season", winter, exact, zone=ZONE)


def test_a_faultless_logger_gives_the_truth_back(folder: Path, winter: Simulated) -> None:
    """Air and humidity within the 0.001 that is written; the heater's kWh within one step of the counter."""
    readings = read_season(load_season(folder))
    assert not readings.warnings
    for measure, column in (("air_temperature", "temp_in_c"), ("relative_humidity", "rh_in_pct")):
        read = next(c for c in readings.channels if (c.logger, c.measure) == ("bench", measure)).values
        truth = winter.frame[column].reindex(read.index.tz_convert("UTC"))
        np.testing.assert_allclose(read.to_numpy(), truth.to_numpy(), atol=0.00051)
    kwh = sum(float(supply.intervals["heat_kwh"].sum()) for supply in readings.heating)
    assert kwh == pytest.approx(winter.kwh(), abs=2.0 / 3 + 0.01)  # 2 kW for the 20 min before the first reading


def test_the_diary_tells_what_has_a_name_and_keeps_the_rest(folder: Path) -> None:
    """The hidden cause is not written; a spell that ends at noon has its last night the day before."""
    with (folder / "diary.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {(row["what"], row["kind"], row["until"]) for row in rows} == {
        ("Film", "change", ""),
        ("Vents", "spell", "2026-01-15"),
    }


def test_season_toml_is_toml(folder: Path) -> None:
    """The standard library's reader takes it, dates as dates; awkward words survive the round trip."""
    data = tomllib.loads((folder / "season.toml").read_text(encoding="utf-8"))
    assert data["first_day"] == dt.date(2026, 1, 1)
    assert data["logger"][0]["measures"]["air_temperature"]["unit"] == "degC"
    awkward = {
        "title": 'a "quoted" \\ line\nwith °',
        "house": {"floor": 2.5},
        "logger": [{"main": True}, {"n": [1, 2]}],
    }
    assert tomllib.loads(toml.dumps(awkward)) == awkward


def test_hourly_weather_is_kept_when_made_finer() -> None:
    """Every hour's own values stay as they were; a missing column is named."""
    hours = pd.date_range("2026-01-01", periods=48, freq="h", tz="UTC")
    swing = np.sin(np.arange(48) * 2 * np.pi / 24)
    real = pd.DataFrame({"temp_c": 5 * swing, "rh_pct": 80 + 5 * swing, "wind_ms": 2.0, "ghi_wm2": 0.0}, index=hours)
    fine = from_hourly(real, step_s=600)
    np.testing.assert_allclose(fine.loc[hours, "temp_c"], real["temp_c"])
    assert (fine.index[1] - fine.index[0]) == pd.Timedelta(minutes=10)
    with pytest.raises(ValueError, match="ghi_wm2"):
        from_hourly(real.drop(columns="ghi_wm2"))
