"""Which house this is, as others see it when many are set side by side: never its name, never its place."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

from reportgen.readings.types import Readings

PREFIX = "reportgen house 1 "  # so that the hash is of no other program's use of the same word
DIGITS = 16  # 64 bits: two of a thousand houses meet by chance once in 10¹³ groups


@dataclass(frozen=True, kw_only=True, slots=True)
class Identity:
    """The house in review.json. `id` is a hash: equal for two winters of one house, and no way back to the word."""

    id: str | None
    label: str | None
    kind: str | None
    heated: bool
    floor_area_m2: float | None
    glazing_area_m2: float | None
    glazing: str | None
    reasons: Mapping[str, str]


def identity(readings: Readings) -> Identity:
    """What season.toml says of the house, and whether a heater is listed."""
    house, label = readings.season.house, readings.season.share.label
    given = {key: getattr(house, key) for key in ("id", "kind", "floor_area_m2", "glazing_area_m2", "glazing")}
    reasons = {key: f"season.toml names no {key} under [house]" for key, value in given.items() if value is None}
    if label is None:
        reasons["label"] = "season.toml names no label under [share]"
    return Identity(
        id=hashed(house.id) if house.id is not None else None,
        label=label,
        kind=house.kind,
        heated=bool(readings.heating),
        floor_area_m2=house.floor_area_m2,
        glazing_area_m2=house.glazing_area_m2,
        glazing=house.glazing,
        reasons=reasons,
    )


def hashed(word: str) -> str:
    """The word as it leaves the house: 16 hexadecimal digits of its SHA-256 (FIPS 180-4), whatever its case."""
    plain = " ".join(word.split()).casefold()
    return hashlib.sha256(f"{PREFIX}{plain}".encode()).hexdigest()[:DIGITS]
