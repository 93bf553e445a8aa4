"""How long reading half a year of minutes takes, beside a bare pandas.read_csv of the same files.

Run by hand: python tests/benchmarks/reading_speed.py. Five loggers, twelve channels, 182 days of minutes; prints the
ratio of the best of three rounds, the rows a second, and the most memory the process ever held.
"""

from __future__ import annotations

import cProfile
import datetime as dt
import pstats
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pandas as pd

from reportgen.readings import read_season
from reportgen.season.models import Season

DAYS = 182
ZONE = "Europe/Prague"
FIRST, LAST = dt.date(2025, 10, 1), dt.date(2026, 3, 31)
LOGGERS = {
    "bench": ("air_temperature", "relative_humidity", "soil_temperature"),
    "door": ("air_temperature", "relative_humidity"),
    "bed": ("soil_temperature", "soil_moisture"),
    "yard": ("outdoor_temperature", "outdoor_humidity", "solar_radiation"),
    "plug": ("heater_power", "heater_energy"),
}


def _values(measure: str, hours: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    day = np.sin(2 * np.pi * hours / 24)
    noise = rng.normal(0, 0.1, len(hours))
    if "humidity" in measure:
        return 75 + 15 * day + noise
    if measure == "soil_moisture":
        return 0.3 + 0.01 * day + noise / 100
    if measure == "solar_radiation":
        return np.clip(400 * day, 0, None) + abs(noise)
    if measure == "heater_power":
        return np.clip(-900 * day, 0, None)
    return np.cumsum(np.clip(-day, 0, None)) / 60 if measure == "heater_energy" else 8 + 6 * day + noise


def write(folder: Path) -> Season:
    """The files of the season, and the season."""
    rng = np.random.default_rng(1)
    times = pd.date_range(pd.Timestamp(FIRST, tz=ZONE), periods=DAYS * 1440, freq="min")
    hours = np.arange(len(times)) / 60.0
    loggers = []
    for name, measures in LOGGERS.items():
        table = pd.DataFrame({"Time": times.strftime("%d/%m/%Y %H:%M")})
        for measure in measures:
            table[measure] = np.round(
                _values(measure, hours, rng), 3 if measure.endswith(("moisture", "energy")) else 1
            )
        table.to_csv(folder / f"{name}.csv", index=False)
        where = "outdoor" if name == "yard" else "elsewhere" if name == "plug" else "crop"
        columns = {measure: {"column": measure} for measure in measures}
        loggers.append({"name": name, "where": where, "files": (f"{name}.csv",), "time": "Time", "measures": columns})
    return Season.model_validate(
        {"folder": folder, "format": 1, "title": "Speed", "first_day": FIRST, "last_day": LAST, "time_zone": ZONE}
        | {"logger": tuple(loggers)}
    )


def best_of(rounds: int, work: Callable[[], object]) -> float:
    """Processor seconds of the quickest round, which other work on the machine does not lengthen much."""
    taken = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def main(profile: bool) -> None:
    """Measures and prints."""
    with tempfile.TemporaryDirectory() as name:
        season = write(Path(name))
        bare = best_of(3, lambda: [pd.read_csv(path) for path in sorted(Path(name).glob("*.csv"))])
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        own = best_of(3, lambda: read_season(season))
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        rows = len(LOGGERS) * DAYS * 1440
        print(f"{rows:,} rows, 12 channels: bare read_csv {bare:.2f} s, read_season {own:.2f} s")
        print(f"ratio {own / bare:.2f}, {rows / own:,.0f} rows a second, peak {peak:.0f} MB (bare {before:.0f} MB)")
        if profile:
            profiler = cProfile.Profile()
            profiler.runcall(read_season, season)
            pstats.Stats(profiler).sort_stats("tottime").print_stats(22)


if __name__ == "__main__":
    main("--profile" in sys.argv)
