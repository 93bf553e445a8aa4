"""Where figures come from: loggers and their columns, heaters, appliances."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, Any, Literal

import pandas as pd
from pydantic import AfterValidator, Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from reportgen.season.base import Day, Finite, Fuel, Name, NotNegative, Part, Percent, Positive, SourceUnit
from reportgen.units import MEASURES

EXAMPLE = dt.datetime(2025, 12, 13, 14, 15, 16, tzinfo=dt.UTC)
MEASURE_UNIT = "measure_unit"  # the kind of error that a column's unit makes; load.py tells it with its own line


def _known_measure(name: str) -> str:
    if name not in MEASURES:
        raise ValueError(f"one of: {', '.join(MEASURES)}")
    return name


def _readable_format(text: str) -> str:
    """A format that reads back what it writes; some are no format, others name half a date."""
    try:
        pd.to_datetime(pd.Series([EXAMPLE.strftime(text)]), format=text, utc="%z" in text)
    except (ValueError, TypeError, KeyError, OverflowError, re.error) as error:
        raise ValueError('a format such as "%d/%m/%Y %H:%M"') from error
    return text


TimeFormat = Annotated[str, Field(min_length=1, max_length=100), AfterValidator(_readable_format)]
MeasureName = Annotated[str, AfterValidator(_known_measure)]


class MeasureColumn(Part):
    """One declared column of a logger file. `accuracy` and `offset` are in the column's own unit."""

    column: Name
    unit: str | None = None
    accuracy: NotNegative | None = None
    offset: Finite = 0.0
    depth_m: Annotated[float, Field(ge=0, le=3)] | None = None


class SensorCheck(Part):
    """An ice-water or salt check the grower made."""

    date: Day
    measure: str
    reference: Finite
    read: Finite


class Logger(Part):
    """One logger: its files and what each column means."""

    name: Name
    where: Literal["crop", "outdoor", "elsewhere"]
    main: bool = False
    beds: tuple[Name, ...] = ()
    under: Name | None = None
    shielded: bool = True
    checks: tuple[SensorCheck, ...] = ()
    files: Annotated[tuple[Name, ...], Field(min_length=1)]
    time: str | tuple[str, ...]
    time_format: TimeFormat | None = None
    clock: Annotated[str, Field(pattern=r"^(local|utc|[+-]\d{2}:\d{2})$")] = "local"
    sheet: str | None = None
    delimiter: Literal[",", ";", "\t", "|"] | None = None
    decimal: Literal[".", ","] | None = None
    encoding: str | None = None
    skip_rows: Annotated[int, Field(ge=0)] | None = None
    measures: Annotated[dict[MeasureName, MeasureColumn], Field(min_length=1)]

    @field_validator("time", mode="before")
    @classmethod
    def _columns(cls, value: Any) -> Any:
        columns = value if isinstance(value, tuple) else (value,)
        if len(columns) not in (1, 2) or not all(isinstance(name, str) and name for name in columns):
            raise ValueError('a column such as "Time", or two to be joined: ["Date", "Clock"]')
        return value

    @model_validator(mode="after")
    def _known_units(self) -> Logger:
        for name, column in self.measures.items():
            if column.unit is not None and column.unit not in MEASURES[name].accepted:
                accepted = ", ".join(MEASURES[name].accepted)
                raise PydanticCustomError(
                    MEASURE_UNIT, "{name}: one of {accepted}", {"name": name, "accepted": accepted}
                )
        return self

    @property
    def time_columns(self) -> tuple[str, ...]:
        """The column or columns that hold the time."""
        return (self.time,) if isinstance(self.time, str) else self.time


class Price(Part):
    """A price per unit from a date on, for some hours of the day where `hours` stands ("22-06")."""

    start: Day = Field(alias="from")
    price: NotNegative
    hours: Annotated[str, Field(pattern=r"^([01]\d|2[0-4])-([01]\d|2[0-4])$")] | None = None


class HeatSource(Part):
    """One heater, and how what it used is known: a logger, a running meter, or deliveries."""

    name: Name
    role: Literal["main", "backup"] = "main"
    fuel: Fuel
    logger: str | None = None
    meter: str | None = None
    deliveries: str | None = None
    rated_power_w: Positive | None = None
    vented: bool | None = None
    unit: SourceUnit = "kWh"
    price: NotNegative | None = None
    prices: tuple[Price, ...] = ()
    next_price: NotNegative | None = None
    efficiency: Annotated[float, Field(gt=0, le=10)] = 1.0
    heat_kwh_per_unit: Positive | None = None
    heating_value: Literal["gross", "net"] | None = None
    co2_kg_per_unit: NotNegative | None = None

    @model_validator(mode="after")
    def _one_source(self) -> HeatSource:
        if sum(x is not None for x in (self.logger, self.meter, self.deliveries)) != 1:
            raise ValueError("exactly one of logger, meter, deliveries")
        if self.price is not None and self.prices:
            raise ValueError("either price or prices, not both")
        return self


class Appliance(Part):
    """A lamp, dehumidifier, fan or pump: what it draws heats the house too."""

    name: Name
    kind: Literal["dehumidifier", "lamp", "fan", "pump", "other"]
    logger: str | None = None
    rated_power_w: Positive | None = None
    hours_per_day: Annotated[float, Field(ge=0, le=24)] | None = None
    setpoint_pct: Percent | None = None
    ppfd: Positive | None = None
    price: NotNegative | None = None

    @model_validator(mode="after")
    def _known_use(self) -> Appliance:
        if self.logger is None and (self.rated_power_w is None or self.hours_per_day is None):
            raise ValueError("a logger, or rated_power_w with hours_per_day")
        return self
