"""Where figures come from: loggers and their columns, heaters, appliances."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from reportgen.season.base import Day, Fuel, Money, Name, Part, Percent, Setpoint, SourceUnit, Watts, in_order
from reportgen.units import MEASURES, TEMPERATURE_UNITS

EXAMPLE = dt.datetime(2025, 12, 13, 14, 15, 16, tzinfo=dt.UTC)
EARLIEST_MIN, LATEST_MIN = -12 * 60, 14 * 60  # offsets from UTC in use anywhere, IANA time zone database
MEASURE_UNIT = "measure_unit"  # the kind of error that a column's unit makes; load.py tells it with its own line


def _known_measure(name: str) -> str:
    if name not in MEASURES:
        raise ValueError(f"one of: {', '.join(MEASURES)}")
    return name


def _real_clock(clock: str) -> str:
    """`local`, `utc`, or an offset that some clock on Earth keeps."""
    if clock in ("local", "utc"):
        return clock
    found = re.fullmatch(r"([+-])(\d{2}):([0-5]\d)", clock)
    minutes = (60 * int(found[2]) + int(found[3])) * (1 if found[1] == "+" else -1) if found else None
    if minutes is None or not EARLIEST_MIN <= minutes <= LATEST_MIN:
        raise ValueError('"local" (with summer time), "utc", or a fixed "+01:00" from \u221212:00 to +14:00')
    return clock


def _readable_format(text: str) -> str:
    """A format that reads back what it writes; some are no format, others name half a date."""
    import pandas as pd  # late: a fault of season.toml is told at once

    try:
        pd.to_datetime(pd.Series([EXAMPLE.strftime(text)]), format=text, utc="%z" in text)
    except (ValueError, TypeError, KeyError, OverflowError, re.error) as error:
        raise ValueError('a format such as "%d/%m/%Y %H:%M"') from error
    return text


TimeFormat = Annotated[str, Field(min_length=1, max_length=100), AfterValidator(_readable_format)]
MeasureName = Annotated[str, AfterValidator(_known_measure)]

LONGEST_NAME = 200  # letters of a column's name that season.toml takes
MOST_TIME_PARTS = 6  # year, month, day, hour, minute, second


def _address(value: Any) -> Any:
    """Refuses what is no name and no place, in one sentence instead of one for each of the two."""
    named = isinstance(value, str) and 0 < len(value) <= LONGEST_NAME
    placed = isinstance(value, int) and not isinstance(value, bool) and value >= 1
    if not (named or placed):
        raise ValueError('a column\'s name such as "Temp", or its place from the left where it has none: 1')
    return value


Address = Annotated[str | int, BeforeValidator(_address)]


def shown(column: str | int) -> str:
    """A column as a person is told of it: its name, or `column 1` for one that is named by its place."""
    return column if isinstance(column, str) else f"column {column}"


class MeasureColumn(Part):
    """One declared column of a logger file, by its name or by its place from the left, counted from 1. `accuracy` and
    `offset` are in the column's own unit."""

    column: Address
    unit: str | None = None
    accuracy: Annotated[float, Field(ge=0)] | None = None
    offset: float = 0.0
    depth_m: Annotated[float, Field(ge=0, le=3)] | None = None


class SensorCheck(Part):
    """An ice-water or salt check the grower made."""

    date: Day
    measure: str
    reference: float
    read: float


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
    time: str | int | tuple[str | int, ...]
    time_format: TimeFormat | None = None
    clock: Annotated[str, AfterValidator(_real_clock)] = "local"
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
        try:
            good = 1 <= len([_address(column) for column in columns]) <= MOST_TIME_PARTS
        except ValueError:
            good = False
        if not good:
            raise ValueError('a column such as "Time", its place such as 1, or several to be joined: ["Date", "Clock"]')
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

    @model_validator(mode="after")
    def _placed_units(self) -> Logger:
        """Where a column has no name, no name can show °C or °F."""
        for name, column in self.measures.items():
            if isinstance(column.column, int) and column.unit is None and MEASURES[name].kept in TEMPERATURE_UNITS:
                raise ValueError(f'{name}: a unit beside column = {column.column}, such as unit = "degC"')
        return self

    @property
    def time_columns(self) -> tuple[str | int, ...]:
        """The column or columns that hold the time, by name or place."""
        return self.time if isinstance(self.time, tuple) else (self.time,)


class Price(Part):
    """A price per unit from a date on, for some hours of the day where `hours` stands ("22-06")."""

    start: Day = Field(alias="from")
    price: Money
    hours: Annotated[str, Field(pattern=r"^([01]\d|2[0-4])-([01]\d|2[0-4])$")] | None = None


class HeatSource(Part):
    """One heater, and how what it used is known: a logger, a running meter, deliveries or bills."""

    name: Name
    role: Literal["main", "backup"] = "main"
    fuel: Fuel
    logger: str | None = None
    meter: str | None = None
    deliveries: str | None = None
    bills: str | None = None
    rated_power_w: Watts | None = None
    vented: bool | None = None
    dial: tuple[Setpoint, ...] = ()  # what its thermostat was set to, by date
    unit: SourceUnit = "kWh"
    price: Money | None = None
    prices: tuple[Price, ...] = ()
    next_price: Money | None = None
    efficiency: Annotated[float, Field(gt=0, le=10)] = 1.0
    heat_kwh_per_unit: Annotated[float, Field(gt=0, le=10_000)] | None = None
    heating_value: Literal["gross", "net"] | None = None
    co2_kg_per_unit: Annotated[float, Field(ge=0, le=1000)] | None = None

    @model_validator(mode="after")
    def _one_source(self) -> HeatSource:
        if sum(x is not None for x in (self.logger, self.meter, self.deliveries, self.bills)) != 1:
            raise ValueError("exactly one of logger, meter, deliveries, bills")
        if self.price is not None and self.prices:
            raise ValueError("either price or prices, not both")
        in_order(self.dial, "dial")
        return self


class Appliance(Part):
    """A lamp, dehumidifier, fan or pump: what it draws heats the house too."""

    name: Name
    kind: Literal["dehumidifier", "lamp", "fan", "pump", "other"]
    logger: str | None = None
    rated_power_w: Watts | None = None
    hours_per_day: Annotated[float, Field(ge=0, le=24)] | None = None
    setpoint_pct: Percent | None = None
    ppfd: Annotated[float, Field(gt=0, le=3000)] | None = None
    price: Money | None = None

    @model_validator(mode="after")
    def _known_use(self) -> Appliance:
        if self.logger is None and (self.rated_power_w is None or self.hours_per_day is None):
            raise ValueError("a logger, or rated_power_w with hours_per_day")
        return self
