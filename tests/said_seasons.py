"""Seasons that lack a thing a page likes to name, or have it only in part: for what may be said of them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import odd_seasons as odd
import pandas as pd

PLUG = odd.logger("plug", "elsewhere", "plug.csv", 'heater_power = { column = "p", unit = "W" }')
FAN = '[[heating]]\nname = "fan"\nrole = "main"\nfuel = "electricity"\nlogger = "plug"\nrated_power_w = 1200\n'
HOLD = "[aims]\nhold_c = 4.0\n"
LUX = 'ppfd = { column = "lux" }'
DIARY = "date,kind,what,touches,reversible,hoped_for,until,cost,years,written\n"
SPAN = ("2025-11-20", "2026-01-25")


def _files(folder: Path, toml: str, **tables: pd.DataFrame | str) -> Path:
    """The folder with season.toml and each table or text as NAME.csv."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "season.toml").write_text(toml, encoding="utf-8")
    for stem, table in tables.items():
        path = folder / f"{stem}.csv"
        path.write_text(table, encoding="utf-8") if isinstance(table, str) else table.to_csv(path, index=False)
    return folder


def _house(
    *measures: str, first: str = SPAN[0], last: str = SPAN[1], latitude: float = 49.0, zone: str = "Europe/Prague"
) -> str:
    """season.toml with one crop logger in all.csv."""
    place = odd.PLACE.replace("49.0", str(latitude))
    return odd.head(first, last, zone=zone) + place + odd.HOUSE + odd.logger("bench", "crop", "all.csv", *measures)


def _outdoors(folder: Path, days: slice | None) -> Path:
    """An outdoor logger of its own with the given part of its rows; None: rows of the year before."""
    table = odd.readings(*SPAN)
    yard = odd.readings("2024-11-20", "2024-11-30") if days is None else table.iloc[days]
    toml = _house(odd.AIR, odd.DAMP, odd.SOIL) + odd.logger("yard", "outdoor", "yard.csv", odd.OUT)
    return _files(folder, toml, all=table, yard=yard[["time", "o", "oh"]])


def _outdoors_short(folder: Path) -> Path:
    return _outdoors(folder, slice(0, 120))


def _outdoors_of_another_year(folder: Path) -> Path:
    return _outdoors(folder, None)


def _heated(folder: Path, begins: str | None = None, **books: str) -> Path:
    """A house with a fan heater on a plug that logs from `begins` on, held at 4 °C by what it draws."""
    table = odd.readings(*SPAN)
    table["t"] = np.maximum(table["t"], 3.8)
    plug = table[["time", "p"]] if begins is None else table.loc[table["time"] >= begins, ["time", "p"]]
    toml = _house(odd.AIR, odd.DAMP, odd.SOIL, odd.OUT) + PLUG + FAN + HOLD
    return _files(folder, toml, all=table, plug=plug, **books)


def _heater_from_mid_season(folder: Path) -> Path:
    line = "2025-12-20,change,Fan heater brought in,heater,yes,warmer nights,,,,\n"
    return _heated(folder, "2025-12-20 10:00", diary=DIARY + line)


def _failed(folder: Path, **books: str) -> Path:
    """The plug tells nothing drawn for nine hours of a frosty night, in which the air falls."""
    table = odd.readings(*SPAN)
    table["t"] = np.maximum(table["t"], 4.0)
    table["p"] = 1200.0
    out = (table["time"] >= "2026-01-12 19:00") & (table["time"] < "2026-01-13 04:00")
    table.loc[out, "p"] = 0.0
    table.loc[out, "t"] = np.linspace(3.5, -3.0, int(out.sum())).round(2)
    toml = _house(odd.AIR, odd.DAMP, odd.SOIL, odd.OUT) + PLUG + FAN + HOLD
    return _files(folder, toml, all=table, plug=table[["time", "p"]], **books)


def _failed_diary_ends_before(folder: Path) -> Path:
    return _failed(folder, diary=DIARY + "2025-12-01,event,First frost,,,,,,,\n2025-12-20,event,Snow,,,,,,,\n")


def _failed_diary_silent(folder: Path) -> Path:
    return _failed(folder, diary=DIARY + "2025-12-01,event,First frost,,,,,,,\n2026-01-20,event,Snow,,,,,,,\n")


def _damp(values: Callable[[pd.DataFrame], np.ndarray]) -> Callable[[Path], Path]:
    """A season whose humidity is told by a rule."""

    def made(folder: Path) -> Path:
        table = odd.readings(*SPAN)
        table["h"] = values(table)
        return _files(folder, _house(odd.AIR, odd.DAMP, odd.OUT), all=table)

    return made


def _alike(table: pd.DataFrame) -> np.ndarray:
    """86 % for a quarter of all hours, 70 % else, in the same way by day and by night, and the same every month."""
    return np.where(np.arange(len(table)) % 4 == 0, 86.0, 70.0)


def _one_damp_month(table: pd.DataFrame) -> np.ndarray:
    swing = table["h"] / 50.0  # so that the sensor does not stand still
    return np.where(table["time"].str.startswith("2025-12"), 91.0, 60.0) + swing


def _noon_dries(table: pd.DataFrame) -> np.ndarray:
    hour = table["time"].str.slice(11, 13).astype(int)
    return np.where((hour >= 9) & (hour <= 15), 60.0, 92.0) + table["h"] / 50.0


def _light(folder: Path) -> Path:
    toml = _house(odd.AIR, odd.DAMP, odd.SOIL, odd.OUT, LUX)
    return _files(folder, toml, all=odd.readings(*SPAN))


def _september(folder: Path) -> Path:
    """Warm days and a heater that never ran: nothing of winter, and no end of heating."""
    span = ("2025-09-01", "2025-09-30")
    table = odd.readings(*span, low=8.0, high=32.0)
    table["p"] = 0.0
    toml = _house(odd.AIR, odd.DAMP, odd.SOIL, odd.OUT, first=span[0], last=span[1]) + PLUG + FAN + HOLD
    return _files(folder, toml, all=table, plug=table[["time", "p"]])


def _southern(folder: Path) -> Path:
    """A whole southern winter with hot days at its end, heated through."""
    span = ("2025-05-01", "2025-09-30")
    table = odd.readings(*span)
    spring = table["time"] >= "2025-09-10"
    table.loc[spring, "t"] += 22.0
    toml = _house(
        odd.AIR, odd.DAMP, odd.SOIL, odd.OUT, LUX, first=span[0], last=span[1], latitude=-42.9, zone="Australia/Hobart"
    )
    return _files(folder, toml + PLUG + FAN + HOLD, all=table, plug=table[["time", "p"]])


def _events_only(folder: Path) -> Path:
    lines = "2025-12-01,event,First frost,,,,,,,\n2026-01-20,event,Snow,,,,,,,\n"
    return _files(folder, _house(odd.AIR, odd.DAMP, odd.OUT), all=odd.readings(*SPAN), diary=DIARY + lines)


def _one_crop(folder: Path) -> Path:
    picked = "date,crop,weight,unit\n2025-12-24,kale,120,g\n2026-01-02,kale,100,g\n"
    planted = "crop,bed,area_m2,sown,planted,cleared\nkale,east,2,2025-09-01,2025-11-21,2026-01-10\n"
    return _files(folder, _house(odd.AIR, odd.OUT), all=odd.readings(*SPAN), harvest=picked, plantings=planted)


SAID: dict[str, Callable[[Path], Path]] = {
    "outdoors there but short": _outdoors_short,
    "outdoors of another year": _outdoors_of_another_year,
    "heated": _heated,
    "heater from mid-season": _heater_from_mid_season,
    "failed without a diary": _failed,
    "failed after the diary ends": _failed_diary_ends_before,
    "failed and the diary silent": _failed_diary_silent,
    "damp alike by day and night": _damp(_alike),
    "never damp": _damp(lambda table: table["h"] / 3.0 + 10.0),
    "one damp month": _damp(_one_damp_month),
    "noon dries": _damp(_noon_dries),
    "light at the crop": _light,
    "September only": _september,
    "southern and heated": _southern,
    "a diary of events": _events_only,
    "one crop": _one_crop,
}
