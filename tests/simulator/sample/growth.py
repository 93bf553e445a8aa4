"""What the beds gave: fresh weight that follows the light inside and the warmth, picked on set days."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pandas as pd

from simulator.house import Simulated


@dataclass(frozen=True, kw_only=True, slots=True)
class Stand:
    """One sowing: what it gives per mol of light at full warmth [g/m²], and when it was picked (local dates)."""

    crop: str
    bed: str
    area_m2: float
    g_per_mol: float
    sown: str
    planted: str
    cleared: str
    picked: tuple[str, ...]
    plants: int
    lost: int = 0
    lost_on: str = ""
    cause: str = ""
    cultivar: str = ""
    spacing_cm: int = 15
    note: str = ""


def growth(truth: Simulated, zone: str) -> pd.Series:
    """Light that counted, by local day [mol/m²]: less in the cold, none below 2 °C (by eye)."""
    frame = truth.frame
    warm = ((frame["temp_in_c"] - 2.0) / 16.0).clip(0.0, 1.0)
    mol = (frame["ppfd_in"] * warm).tz_convert(zone).resample("D").mean() * 0.0864
    return mol.set_axis(pd.DatetimeIndex(mol.index).strftime("%Y-%m-%d"))


def picking_rows(stand: Stand, light: pd.Series) -> Iterator[dict[str, object]]:
    """A row a picking: what grew since the one before, as kitchen scales show it (5 g)."""
    since = stand.planted or stand.sown
    for day in stand.picked:
        grams = stand.g_per_mol * stand.area_m2 * float(light[since:day].sum())
        weight = max(20, 5 * round(grams * _hand(stand.crop + day) / 5))
        yield {"date": day, "crop": stand.crop, "weight": weight, "bed": stand.bed, "use": _use(stand, day)}
        since = day


def planting_row(stand: Stand) -> dict[str, object]:
    """The sowing as plantings.csv tells it."""
    return {
        "crop": stand.crop, "cultivar": stand.cultivar, "bed": stand.bed, "area_m2": stand.area_m2,
        "sown": stand.sown, "planted": stand.planted, "cleared": stand.cleared, "plants": stand.plants,
        "spacing_cm": stand.spacing_cm, "lost": stand.lost, "lost_on": stand.lost_on, "cause": stand.cause,
    }  # fmt: skip


def _hand(word: str) -> float:
    """0.85 … 1.15, the same for the same word: nobody picks to the gram."""
    return 0.85 + 0.30 * (sum(i * ord(c) for i, c in enumerate(word, 1)) % 97) / 96


def _use(stand: Stand, day: str) -> str:
    """Every ninth day of the month or so, the neighbours got it."""
    return "given" if int(day[-2:]) % 9 == 0 else "eaten"
