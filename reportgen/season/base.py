"""What every table of season.toml shares: frozen, strict, and the ranges of its numbers."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

Finite = Annotated[float, Field(allow_inf_nan=False)]
Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
NotNegative = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Celsius = Annotated[float, Field(ge=-60, le=60, allow_inf_nan=False)]
Percent = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)]
Fraction = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]
FIRST_DAY, LAST_DAY = dt.date(1970, 1, 1), dt.date(2199, 12, 31)  # days that a logger's times can have


def _plain_text(text: str) -> str:
    if any(ord(letter) < 32 or ord(letter) == 127 for letter in text):
        raise ValueError("text on one line, without control characters")
    return text


def _in_reach(day: dt.date) -> dt.date:
    if not FIRST_DAY <= day <= LAST_DAY:
        raise ValueError(f"a day from {FIRST_DAY} to {LAST_DAY}")
    return day


Name = Annotated[str, Field(min_length=1, max_length=200), AfterValidator(_plain_text)]
Day = Annotated[dt.date, AfterValidator(_in_reach)]
Fuel = Literal["electricity", "propane", "natural_gas", "kerosene", "wood", "pellets", "other"]
SourceUnit = Literal["kWh", "m3", "L", "kg", "gal_us", "therm", "lb"]


class Part(BaseModel):
    """One table of season.toml: frozen, no unknown keys, no silent change of type."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, populate_by_name=True)
