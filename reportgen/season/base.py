"""What every table of season.toml shares: frozen, strict, and the ranges of its numbers."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
NotNegative = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Celsius = Annotated[float, Field(ge=-60, le=60, allow_inf_nan=False)]
Percent = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)]
Fraction = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]
Name = Annotated[str, Field(min_length=1, max_length=200)]
Fuel = Literal["electricity", "propane", "natural_gas", "kerosene", "wood", "pellets", "other"]
SourceUnit = Literal["kWh", "m3", "L", "kg", "gal_us", "therm", "lb"]


class Part(BaseModel):
    """One table of season.toml: frozen, no unknown keys, no silent change of type."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, populate_by_name=True)
