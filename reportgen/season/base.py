"""What every table of season.toml shares: frozen, strict, and the ranges of its numbers."""

from __future__ import annotations

import datetime as dt
import itertools
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

FIRST_YEAR, LAST_YEAR = 1900, 2100  # a year outside them is a slip of the pen


def in_these_centuries(day: dt.date) -> dt.date:
    """The day itself.

    Raises:
        ValueError: Its year is none in which a winter was logged.
    """
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError(f"a day of the years {FIRST_YEAR} to {LAST_YEAR}")
    return day


def _plain_text(text: str) -> str:
    if any(ord(letter) < 32 or ord(letter) == 127 for letter in text):
        raise ValueError("text on one line, without control characters")
    return text


# Upper ends are far above any house (a square kilometre, ten megawatts): what lies beyond is a slip of the pen.
Celsius = Annotated[float, Field(ge=-60, le=60)]
Percent = Annotated[float, Field(ge=0, le=100)]
Fraction = Annotated[float, Field(ge=0, le=1)]
Area = Annotated[float, Field(gt=0, le=1e6)]
Volume = Annotated[float, Field(gt=0, le=1e7)]
Watts = Annotated[float, Field(gt=0, le=1e7)]
Money = Annotated[float, Field(ge=0, le=1e9)]
Day = Annotated[dt.date, AfterValidator(in_these_centuries)]
Name = Annotated[str, Field(min_length=1, max_length=200), AfterValidator(_plain_text)]
Fuel = Literal["electricity", "propane", "natural_gas", "kerosene", "wood", "pellets", "other"]
SourceUnit = Literal["kWh", "m3", "L", "kg", "gal_us", "therm", "lb"]


class Part(BaseModel):
    """One table of season.toml: frozen, no unknown keys, no silent change of type, no number without an end."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, populate_by_name=True, allow_inf_nan=False)


class Setpoint(Part):
    """A temperature that is aimed for, or set on a thermostat, from a date on."""

    start: Day = Field(alias="from")
    c: Celsius


def in_order(steps: tuple[Setpoint, ...], key: str) -> None:
    """Nothing.

    Raises:
        ValueError: Two steps are not in order of date.
    """
    if any(later.start <= earlier.start for earlier, later in itertools.pairwise(steps)):
        raise ValueError(f"{key} in order of date, one a date")
