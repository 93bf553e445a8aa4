"""What a season folder holds, read from its files alone and by other code than the project's."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from pathlib import Path
from typing import Any

import pandas as pd

MOVED = 5.0  # points by which a month must lead to be called the dampest; as the page promises


@dataclass(frozen=True)
class Files:
    """One season folder."""

    folder: Path

    @cached_property
    def toml(self) -> dict[str, Any]:
        return tomllib.loads((self.folder / "season.toml").read_text(encoding="utf-8"))

    def rows(self, stem: str) -> list[dict[str, str]]:
        """Rows of a book; empty where it is not there."""
        name = self.toml.get(stem, {}).get("file", f"{stem}.csv")
        path = self.folder / name
        if not path.is_file():
            return []
        return list(pd.read_csv(path, dtype=str, sep=None, engine="python").fillna("").to_dict("records"))

    def has_book(self, stem: str) -> bool:
        return (self.folder / self.toml.get(stem, {}).get("file", f"{stem}.csv")).is_file()

    @property
    def heater(self) -> bool:
        return bool(self.toml.get("heating"))

    @property
    def dehumidifier(self) -> bool:
        return any(item.get("kind") == "dehumidifier" for item in self.toml.get("appliance", []))

    @property
    def latitude(self) -> float | None:
        return self.toml.get("place", {}).get("latitude")

    def listed(self, *measures: str, where: str | None = None) -> bool:
        """Whether a logger (standing there) lists one of the measures."""
        return any(
            set(measures) & set(one["measures"]) and (where is None or one["where"] == where)
            for one in self.toml.get("logger", [])
        )

    @property
    def outdoors(self) -> bool:
        return self.listed("outdoor_temperature") or self.listed("air_temperature", where="outdoor")

    @property
    def moist_outdoors(self) -> bool:
        return self.listed("outdoor_humidity") or self.listed("relative_humidity", where="outdoor")

    @property
    def light(self) -> bool:
        return self.listed("ppfd", "solar_radiation")

    @property
    def days(self) -> list[date]:
        first, last = self.toml["first_day"], self.toml["last_day"]
        return [first + timedelta(days=n) for n in range((last - first).days + 1)]

    @property
    def winter(self) -> bool:
        """Most days shorter than twelve hours, outside of the tropics: the sun south of the equator for the north
        (declination −23.44° · cos(360°/365 · (day + 10)), the usual textbook form)."""
        if self.latitude is None or abs(self.latitude) < 23.4:
            return False
        low = [math.cos(2 * math.pi * (d.timetuple().tm_yday + 10) / 365) > 0 for d in self.days]
        return sum(one == (self.latitude > 0) for one in low) >= len(low) / 2

    @property
    def lengthening(self) -> set[str]:
        """Months in which the days grow longer."""
        north = {"January", "February", "March", "April", "May", "June", "December"}
        south = {"July", "August", "September", "October", "November", "December", "June"}
        return set() if self.latitude is None else north if self.latitude > 0 else south

    def humid(self) -> pd.Series | None:
        """Hourly humidity by UTC time where all.csv has it, of the seasons written by hand."""
        path = self.folder / "all.csv"
        if not path.is_file() or not self.listed("relative_humidity"):
            return None
        table = pd.read_csv(path)
        return table.set_index(pd.to_datetime(table["time"], utc=True))["h"] if "h" in table else None

    def damp_by_month(self) -> dict[str, float]:
        """Share of the readings over 80 %, in percent, by month."""
        values = self.humid()
        if values is None:
            return {}
        return (100.0 * (values > 80).groupby(values.index.month_name()).mean()).to_dict()

    def dampest(self, month: str) -> bool:
        shares = self.damp_by_month()
        rest = [share for name, share in shares.items() if name != month]
        return shares[month] > 0 and shares[month] >= max(rest) + MOVED - 1.0  # joined readings move a share a little

    def noon_dried(self) -> bool:
        """Clearly fewer damp readings from 11 to 15 o'clock local time than from 22 to 6."""
        values = self.humid()
        assert values is not None
        local = values.tz_convert(self.toml["time_zone"])
        noon = (local[(local.index.hour >= 11) & (local.index.hour < 15)] > 80).mean()
        night = (local[(local.index.hour >= 22) | (local.index.hour < 6)] > 80).mean()
        return bool(night - noon > 0.05 and noon < 0.55)

    def diary_covers(self, day: date) -> bool:
        dates = [row["date"] for row in self.rows("diary") if row["kind"] != "idea"]
        dates += [row.get("until", "") for row in self.rows("diary")]
        known = sorted(d for d in dates if d)
        return bool(known) and known[0] <= day.isoformat() <= known[-1]
