"""Season folders at the ends of what a grower may hand in, written as plain files for the browser tests."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd

LONG = "Third of the old oak cold frames behind the potting shed beside the pear wall"  # 77 characters
RIGHT_TO_LEFT = "מד חום ליד הדלת הצפונית של החממה"  # "thermometer by the north door of the greenhouse"
HEAD = """format = 1
title = "{title}"
first_day = {first}
last_day = {last}
time_zone = "Europe/Bratislava"
currency = "EUR"
"""


def _clock(first: str, days: int, step: str = "1h") -> pd.DatetimeIndex:
    return pd.date_range(first, periods=days * (24 if step == "1h" else 1), freq=step)


def _csv(file: Path, rows: dict[str, object]) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    pd.DataFrame(rows).to_csv(file, index=False)


def _daily(at: pd.DatetimeIndex, low: float, high: float, shift: float = 0.0) -> np.ndarray:
    """Air that swings by day, and once over the winter between low and high."""
    hours = np.arange(len(at))
    slow, fast = np.cos(2 * np.pi * hours / len(at)), np.cos(2 * np.pi * (hours % 24 - 14) / 24)
    middle, half = (low + high) / 2, (high - low) / 2
    return np.round(middle + half * (0.7 * slow + 0.3 * fast) + shift, 1)


def _logger(name: str, where: str, file: str, measures: str) -> str:
    return (
        f'\n[[logger]]\nname = "{name}"\nwhere = "{where}"\nfiles = ["{file}"]\ntime = "time"\nclock = "+01:00"\n'
        f"[logger.measures]\n{measures}\n"
    )


def ten_days_one_channel(folder: Path) -> Path:
    """One thermometer, ten days, one picking, no diary."""
    at = _clock("2026-01-05", 10)
    _csv(folder / "a.csv", {"time": at, "t": _daily(at, -3.0, 9.0)})
    head = HEAD.format(title="Ten days", first="2026-01-05", last="2026-01-14")
    measures = 'air_temperature = { column = "t", unit = "degC" }'
    (folder / "season.toml").write_text(head + _logger("one", "crop", "a.csv", measures), encoding="utf-8")
    (folder / "harvest.csv").write_text("date,crop,weight,unit\n2026-01-10,kale,120,g\n", encoding="utf-8")
    return folder


def long_and_crowded(folder: Path) -> Path:
    """240 days, thirty channels, −40 to +45 °C, a month missing, thirty entries in a month, prices of both ends."""
    at = _clock("2025-09-20", 240)
    kept = ~((at >= "2025-12-01") & (at < "2026-01-01"))
    text = [HEAD.format(title=f"{LONG} {RIGHT_TO_LEFT}", first="2025-09-20", last="2026-05-17")]
    text.append('[place]\nlatitude = 48.6\nlongitude = 18.4\n\n[house]\nkind = "glasshouse"\nfloor_area_m2 = 14.0\n')
    text.append("[aims]\nhold_c = 4.0\n")
    measure = 'air_temperature = {{ column = "{n}t", unit = "degC", accuracy = 0.5 }}'
    damp = 'relative_humidity = {{ column = "{n}h", accuracy = 3.0 }}'
    names = [f"{LONG} {n}" if n % 3 == 0 else f"{RIGHT_TO_LEFT} {n}" if n % 3 == 1 else f"pot{n}" for n in range(15)]
    columns: dict[str, object] = {"time": at[kept]}
    for n, name in enumerate(names):
        outdoor = n == 14
        columns[f"{n}t"] = _daily(at, -40.0, 45.0 if not outdoor else 20.0, n / 10)[kept]
        columns[f"{n}h"] = np.clip(75 + 20 * np.cos(np.arange(len(at)) / 30 + n), 20, 99).round(1)[kept]
        lines = f"{measure.format(n=n)}\n{damp.format(n=n)}"
        text.append(_logger(name, "outdoor" if outdoor else "crop", "all.csv", lines))
    _csv(folder / "all.csv", columns)
    days = pd.date_range("2025-11-01", "2026-03-31", freq="D")
    _csv(folder / "meter.csv", {"date": days.strftime("%Y-%m-%d"), "reading": np.arange(len(days)) * 5.0})
    for name, price in (("dear", 1e6), (LONG, 0.0001)):
        text.append(
            f'\n[[heating]]\nname = "{name}"\nrole = "main"\nfuel = "electricity"\nmeter = "meter.csv"\nunit = "kWh"\n'
            f"price = {price}\nrated_power_w = 2000\n"
        )
    (folder / "season.toml").write_text("".join(text), encoding="utf-8")
    rows = [f"2026-02-{n % 28 + 1:02d},change,{RIGHT_TO_LEFT if n % 2 else LONG} {n},warmer nights" for n in range(30)]
    (folder / "diary.csv").write_text("\n".join(["date,kind,what,hoped_for", *rows]) + "\n", encoding="utf-8")
    picked = [f'2026-0{n % 4 + 1}-1{n % 10},"{LONG} {n % 12}",{n * 3 + 1},kg,1000000' for n in range(40)]
    head = "date,crop,weight,unit,price_per_kg"
    (folder / "harvest.csv").write_text("\n".join([head, *picked]) + "\n", encoding="utf-8")
    return folder
