"""What season.toml may say (format 1), as frozen values; pydantic checks each key's type and range."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal
from zoneinfo import ZoneInfo

from pydantic import ConfigDict, Field, PrivateAttr, field_validator, model_validator

from reportgen.season.base import Area, Celsius, Day, Fraction, Money, Name, Part, Percent, Setpoint, Volume, in_order
from reportgen.season.sources import Appliance as Appliance
from reportgen.season.sources import HeatSource as HeatSource
from reportgen.season.sources import Logger as Logger
from reportgen.season.sources import MeasureColumn as MeasureColumn
from reportgen.season.sources import Price as Price
from reportgen.season.sources import SensorCheck as SensorCheck
from reportgen.units import MOIST_LOAM_MJ_M3K

if TYPE_CHECKING:  # pandas is imported late: a fault of season.toml is told at once
    import pandas as pd

TOPICS = (
    "hold",
    "frost",
    "damp",
    "money",
    "light",
    "soil",
    "winters",
)  # what a question may be about, beside the diary
QUESTIONS = 6  # as many as a first page can answer


class Place(Part):
    """Where the house stands; every key is optional."""

    name: Name | None = None
    latitude: Annotated[float, Field(ge=-90, le=90)] | None = None
    longitude: Annotated[float, Field(ge=-180, le=180)] | None = None
    altitude_m: Annotated[float, Field(ge=-430, le=6000)] = 0.0
    rare_low_c: Celsius | None = None


class House(Part):
    """The house and its bed; every key is optional."""

    id: Annotated[str, Field(min_length=1, max_length=64)] | None = None
    kind: Name | None = None
    floor_area_m2: Area | None = None
    glazing_area_m2: Area | None = None
    air_volume_m3: Volume | None = None
    glazing: Name | None = None
    u_value_w_m2k: Annotated[float, Field(gt=0, le=10)] | None = None
    air_changes_per_h: Annotated[float, Field(ge=0, le=60)] | None = None
    light_transmission: Fraction | None = None
    soil_bed_volume_m3: Volume | None = None
    soil_heat_capacity_mj_m3k: Annotated[float, Field(gt=0, le=4.2)] = MOIST_LOAM_MJ_M3K


Worth = Annotated[float, Field(gt=0, le=100)]


class Care(Part):
    """The smallest effect worth having, by kind of outcome."""

    lift_k: Worth = 0.5
    heat_pct: Worth = 10.0
    humidity_points: Worth = 3.0
    soil_k: Worth = 0.5
    light_pct: Worth = 10.0


class Aims(Part):
    """What the grower aims for. Defaults are common practice, no source; the grower's to change."""

    hold_c: Celsius | None = None
    hold: tuple[Setpoint, ...] = ()
    frost_c: Celsius = 0.0
    humidity_high_pct: Percent = 80.0
    humidity_extreme_pct: Percent = 90.0
    soil_c: Celsius = 7.0
    hot_c: Celsius = 25.0
    alarm_c: Celsius | None = None
    care: Care = Care()

    @model_validator(mode="after")
    def _one_way(self) -> Aims:
        if self.hold and self.hold_c is not None:
            raise ValueError("either hold_c or hold, not both")
        if self.humidity_extreme_pct < self.humidity_high_pct:
            raise ValueError("humidity_extreme_pct at or above humidity_high_pct")
        in_order(self.hold, "hold")
        return self


class HarvestBook(Part):
    """Where the harvest book is and its unit of weight."""

    file: Name = "harvest.csv"
    sheet: Name | None = None  # of a workbook; the first when left out
    unit: Literal["kg", "g", "lb", "oz"] = "kg"


class Crop(Part):
    """One crop: its area, what cold harms it, what it costs in a shop."""

    name: Name
    area_m2: Area | None = None
    damage_below_c: tuple[Celsius, Celsius] | None = None
    shop_price_per_kg: Money | None = None

    @field_validator("damage_below_c", mode="before")
    @classmethod
    def _band(cls, value: Any) -> Any:
        if isinstance(value, int | float) and not isinstance(value, bool):
            return (float(value), float(value))
        if isinstance(value, tuple) and len(value) == 2 and all(isinstance(v, int | float) for v in value):
            if value[0] > value[1]:
                raise ValueError("the colder end first")
            return (float(value[0]), float(value[1]))
        raise ValueError("a temperature, or a band of two")


class Household(Part):
    """Who eats, and how much."""

    people: Annotated[int, Field(ge=1, le=200)] | None = None
    vegetables_kg_per_week: Annotated[float, Field(gt=0, le=10_000)] | None = None


class Book(Part):
    """Where one of the books is, when not under its usual name."""

    file: Name
    sheet: Name | None = None  # of a workbook; the first when left out


class LastSeason(Part):
    """Another season folder, read the same way."""

    folder: Name


class Share(Part):
    """What may leave the house with `--share`, and the name under which others see it."""

    label: Name | None = None
    place: bool = False
    prices: bool = False
    harvest: bool = False
    story: bool = False
    diary_notes: bool = False
    away: bool = False


class Question(Part):
    """What the grower wants to know: in their words, and what it is about."""

    ask: Name
    about: Name  # one of TOPICS, or the date or the `what` of a diary line (readings/questions.py)


class Season(Part):
    """Everything season.toml says. Dates are local days, both ends included.

    A season that still runs ends with its last crop reading (readings/so_far.py): `last_day` is then the day of that
    reading, `end` its instant, and `planned_last_day` what season.toml says.
    """

    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, populate_by_name=True, arbitrary_types_allowed=True
    )

    folder: Path
    format: Literal[1]
    title: Name
    first_day: Day
    last_day: Day
    time_zone: str
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")] | None = None
    show: Literal["metric", "us"] = "metric"
    questions: Annotated[tuple[Question, ...], Field(max_length=QUESTIONS)] = Field(default=(), alias="question")
    place: Place = Place()
    house: House = House()
    aims: Aims = Aims()
    loggers: tuple[Logger, ...] = Field(default=(), alias="logger")
    heating: tuple[HeatSource, ...] = ()
    appliances: tuple[Appliance, ...] = Field(default=(), alias="appliance")
    harvest: HarvestBook = HarvestBook()
    crops: tuple[Crop, ...] = Field(default=(), alias="crop")
    household: Household = Household()
    diary: Book = Book(file="diary.csv")
    plantings: Book = Book(file="plantings.csv")
    watering: Book = Book(file="watering.csv")
    inspections: Book = Book(file="inspections.csv")
    costs: Book = Book(file="costs.csv")
    last_season: LastSeason | None = None
    share: Share = Share()
    _open_ended: bool = PrivateAttr(default=False)  # season.toml leaves last_day out
    _read_to: dt.datetime | None = PrivateAttr(default=None)  # instant of the last crop reading of a running season
    _planned: dt.date | None = PrivateAttr(default=None)

    @property
    def open_ended(self) -> bool:
        """Whether season.toml leaves `last_day` out."""
        return self._open_ended

    def without_end(self) -> Season:
        """The same season, its `last_day` only a bound for reading."""
        copy = self.model_copy()
        copy._open_ended = True
        return copy

    def read_to(self, at: pd.Timestamp) -> Season:
        """The same season as far as it has been read: it ends with the reading at that instant."""
        import pandas as pd

        last = (at.tz_convert(self.zone) - pd.Timedelta(seconds=1)).date()
        hold = tuple(step for step in self.aims.hold if step.start <= last)  # what is to be held later was not held yet
        aims = self.aims.model_copy(update={"hold": hold})
        copy = self.model_copy(update={"last_day": last, "aims": aims})
        copy._read_to = at.to_pydatetime()
        copy._planned = None if self._open_ended else self.last_day
        return copy

    @property
    def so_far(self) -> dt.date | None:
        """The day of the last crop reading of a season that still runs; None of one that is over."""
        return self.last_day if self._read_to is not None else None

    @property
    def planned_last_day(self) -> dt.date | None:
        """Of a season that still runs the last day that season.toml names; None where it leaves it out, or is over."""
        return self._planned

    @property
    def heading(self) -> str:
        """The title, and that the season still runs."""
        return self.title if self._read_to is None else f"{self.title}, so far"

    @property
    def zone(self) -> ZoneInfo:
        """The season's time zone."""
        return ZoneInfo(self.time_zone)

    def midnight(self, day: dt.date) -> pd.Timestamp:
        """Where a local day begins: of two midnights, where the clocks go back over it, the first; where they leave it
        out, the first instant after."""
        import pandas as pd

        return pd.Timestamp(day).tz_localize(self.zone, ambiguous=True, nonexistent="shift_forward")

    @property
    def start(self) -> pd.Timestamp:
        """Local midnight at which the first day begins."""
        return self.midnight(self.first_day)

    @property
    def end(self) -> pd.Timestamp:
        """Local midnight at which the last day ends; of a season that still runs the last crop reading."""
        import pandas as pd

        midnight = self.midnight(self.last_day + dt.timedelta(days=1))
        return midnight if self._read_to is None else min(midnight, pd.Timestamp(self._read_to).tz_convert(self.zone))

    @property
    def midnights(self) -> pd.DatetimeIndex:
        """Where its days begin, and `end`: one more than it has days."""
        import pandas as pd

        days = pd.date_range(self.first_day, self.last_day, freq="D")
        return pd.DatetimeIndex([*(self.midnight(day.date()) for day in days), self.end])

    @property
    def hours(self) -> float:
        """Hours in the season (a day of a clock change has 23 or 25)."""
        return (self.end - self.start).total_seconds() / 3600.0

    def logger(self, name: str) -> Logger:
        """The logger of that name (names are unique)."""
        return next(logger for logger in self.loggers if logger.name == name)

    def hold_on(self, day: dt.date) -> float | None:
        """The target of that day [°C]; None where the grower named none."""
        if self.aims.hold_c is not None:
            return self.aims.hold_c
        begun = [hold.c for hold in self.aims.hold if hold.start <= day]
        return begun[-1] if begun else None

    def dial_on(self, day: dt.date) -> float | None:
        """What the main heater's thermostat was set to on that day [°C]; None where nobody wrote it down."""
        dials = [source.dial for source in self.heating if source.role == "main" and source.dial]
        begun = [step.c for step in dials[0] if step.start <= day] if dials else []
        return begun[-1] if begun else None
