"""What a whole review costs: processor seconds by stage and the most memory, beside a bare read of the same files.

    python tests/benchmarks/review_speed.py [sample | big | winters]

`sample`: the sample season with its last winter. `big`: half a year of minutes, sixteen channels. `winters`: the sample
alone and beside its last winter. Each run is a process of its own, once with one thread of linear algebra and once
with the library's own choice. Modules are compiled before, as an installation does it.
"""

from __future__ import annotations

import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import pandas as pd

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "sample_season"
RUN = """
import resource, sys, time
from pathlib import Path
begun = time.process_time()
from reportgen.pipeline import review
spent, last = {}, ["imports", begun]
def tell(stage):
    now = time.process_time()
    name = "drawing" if last[0].startswith(("drawing", "writing")) else last[0]
    spent[name] = spent.get(name, 0.0) + now - last[1]
    last[:] = [stage, now]
review(sys.argv[1], sys.argv[2], tell=tell)
tell("end")
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(f"  {time.process_time() - begun:6.2f} s in all, {peak:.0f} MB")
for name, seconds in spent.items():
    print(f"  {seconds:6.2f} s {name}")
"""
BARE = """
import sys, time
from pathlib import Path
import pandas as pd
begun = time.process_time()
for path in sorted(Path(sys.argv[1]).rglob("*.csv")):
    pd.read_csv(path, header=None, names=range(20), on_bad_lines="skip", encoding="latin-1", low_memory=False)
print(f"  {time.process_time() - begun:6.2f} s reading its files bare")
"""
COMPILE = """
import importlib, pkgutil, altair, reportgen, scipy.linalg, scipy.optimize
from reportgen import cli, site
for module in pkgutil.walk_packages(reportgen.__path__, "reportgen."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
"""
DAYS = 182
CROPS = ("bench", "door", "bed", "shelf", "roof")


def big(folder: Path) -> Path:
    """Half a year of minutes: five crop loggers with air, damp or soil, outdoors, and a heater's plug."""
    folder.mkdir()
    rng = np.random.default_rng(1)
    at = pd.date_range("2025-10-01", periods=DAYS * 1440, freq="min")
    day = np.arange(len(at)) / 1440.0
    outdoors = 4 - 9 * np.sin(np.pi * day / DAYS) + 4 * np.cos(2 * np.pi * (day - 0.6)) + 3 * np.sin(day / 2.3)
    inside = np.maximum(outdoors + 3, 4.0)
    toml = [
        'format = 1\ntitle = "Half a year of minutes"\nfirst_day = 2025-10-01\nlast_day = 2026-03-31\n'
        'time_zone = "Europe/Prague"\ncurrency = "EUR"\n[place]\nlatitude = 49.2\nlongitude = 16.6\n[aims]\n'
        "hold_c = 4.0"
    ]

    def logger(name: str, where: str, columns: dict[str, tuple[str, np.ndarray]]) -> None:
        table = pd.DataFrame({"time": at.strftime("%Y-%m-%d %H:%M")})
        lines = []
        for measure, (unit, values) in columns.items():
            table[measure] = (values + rng.normal(0, 0.05, len(at))).round(2)
            accuracy = ", accuracy = 0.5" if unit == "degC" else ""
            depth = ", depth_m = 0.1" if measure == "soil_temperature" else ""
            lines.append(f'{measure} = {{ column = "{measure}", unit = "{unit}"{accuracy}{depth} }}')
        table.to_csv(folder / f"{name}.csv", index=False)
        head = f'[[logger]]\nname = "{name}"\nwhere = "{where}"\nfiles = ["{name}.csv"]\ntime = "time"\nclock = "utc"'
        toml.append(f"{head}\n[logger.measures]\n" + "\n".join(lines))

    damp = np.clip(85 - 12 * np.cos(2 * np.pi * (day - 0.6)), 5, 99)
    for n, name in enumerate(CROPS):
        air = {"air_temperature": ("degC", inside + 0.2 * n), "relative_humidity": ("%", damp - n)}
        soil = {"soil_temperature": ("degC", 6 + 3 * np.cos(day / 30))} if n < 2 else {}
        logger(name, "crop", air | soil)
    logger("yard", "outdoor", {"outdoor_temperature": ("degC", outdoors), "outdoor_humidity": ("%", damp - 5)})
    power = np.clip(120 * (inside - outdoors - 3), 0, 2000)
    energy = np.cumsum(power) / 60_000
    logger("plug", "elsewhere", {"heater_power": ("W", np.round(power)), "heater_energy": ("kWh", energy)})
    toml.append(
        '[[heating]]\nname = "fan heater"\nrole = "main"\nfuel = "electricity"\nlogger = "plug"\nrated_power_w = 2000\n'
        "price = 0.3"
    )
    (folder / "season.toml").write_text("\n".join(toml) + "\n", "utf-8")
    (folder / "diary.csv").write_text(
        "date,kind,what,touches,reversible,hoped_for\n2025-12-10,change,Film,envelope,yes,less heating\n"
        "2026-01-20,change,Fan,air,yes,drier air\n2026-02-20,change,Mulch,bed,yes,warmer soil\n",
        "utf-8",
    )
    return folder


def without_last(folder: Path) -> Path:
    """The sample without its last winter."""
    shutil.copytree(SAMPLE, folder)
    toml = folder / "season.toml"
    toml.write_text(re.sub(r"(?ms)^\[last_season\].*?(?=^\[|\Z)", "", toml.read_text("utf-8")), "utf-8")
    return folder


def run(code: str, *arguments: Path, threads: str | None, compiled: Path) -> None:
    """One process of its own; `compiled`: where its modules lie compiled."""
    left_out = ("OPENBLAS_NUM_THREADS", "PYTHONDONTWRITEBYTECODE")
    env = {name: value for name, value in os.environ.items() if name not in left_out}
    env["PYTHONPYCACHEPREFIX"] = str(compiled)
    if threads:
        env["OPENBLAS_NUM_THREADS"] = threads
    subprocess.run([sys.executable, "-c", code, *map(str, arguments)], check=True, env=env, cwd=ROOT)


def main(what: str) -> None:
    """Measures and prints."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        seasons = {
            "sample": lambda: [SAMPLE],
            "big": lambda: [big(folder / "big")],
            "winters": lambda: [without_last(folder / "alone"), SAMPLE],
        }[what]()
        compiled = folder / "compiled"
        run(COMPILE, threads="1", compiled=compiled)
        for season in seasons:
            print(season.name)
            run(BARE, season, threads=None, compiled=compiled)
            for threads in ("1", None):
                print(f"  linear algebra on {'one thread' if threads else 'as many threads as it likes'}:")
                run(RUN, season, folder / "site", threads=threads, compiled=compiled)
    print(f"largest process: {resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "sample")
