"""What this season has and has not: loggers, books, heaters, sensors, and what part of the year it is.

A sentence that names one of these, or one that is missing, asks here first, so that no page sends a grower for a
logger that hangs there or quotes a book that nobody kept.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from reportgen.measures.places import (
    anywhere,
    crop_channels,
    main_crop,
    outdoor,
    seldom_crop,
    seldom_inside,
    seldom_outdoors,
    seldom_soil,
    soil,
)
from reportgen.readings.types import Readings
from reportgen.season import Season

TROPICS_DEG = 23.4  # within the tropics no half of the year is a winter
MARCH, SEPTEMBER = (3, 20), (9, 22)  # equinoxes to the day or two; between them the days are under twelve hours
LIGHT = ("ppfd", "solar_radiation")  # the better one first


@dataclass(frozen=True, kw_only=True, slots=True)
class There:
    """One season's things. A sensor is there when its readings tell nights and hours; a book when its file was kept."""

    crop_air: bool = True
    crop_humidity: bool = True
    outdoor_air: bool = True
    outdoor_humidity: bool = True
    outdoor_named: bool = True  # season.toml lists a thermometer outdoors, whether or not it left a reading
    soil: bool = True
    light: bool = True
    latitude: bool = True
    heater: bool = True  # season.toml lists one
    mains: bool = True  # a heater is listed, and each runs on electricity
    heat_by_hour: bool = True  # a heater whose use is known closer than by the day
    dehumidifier: bool = True
    diary: bool = True
    diary_lines: bool = True
    inspections: bool = True
    seldom: frozenset[str] = frozenset()  # which of the sensors above left readings, but too far apart to tell a night
    unheard: frozenset[str] = frozenset()  # measures that a logger inside lists and of which no reading can be used
    winter: bool = True  # most of its days lie in the darker half of the year

    @classmethod
    def of(cls, readings: Readings) -> There:
        """Of these readings."""
        season, books = readings.season, readings.books
        tables = [supply.intervals for supply in readings.heating if len(supply.intervals)]
        return cls(
            crop_air=bool(crop_channels(readings, "air_temperature")),
            crop_humidity=main_crop(readings, "relative_humidity") is not None,
            outdoor_air=outdoor(readings, "air_temperature") is not None,
            outdoor_humidity=outdoor(readings, "relative_humidity") is not None,
            outdoor_named=outdoors_named(season),
            soil=soil(readings) is not None,
            light=any(outdoor(readings, m) is not None or anywhere(readings, m) is not None for m in LIGHT),
            latitude=season.place.latitude is not None,
            heater=bool(season.heating),
            mains=bool(season.heating) and all(source.fuel == "electricity" for source in season.heating),
            heat_by_hour=any(not bool(table["sparse"].all()) for table in tables),
            dehumidifier=any(item.kind == "dehumidifier" for item in season.appliances),
            diary=books.get("diary", False),
            diary_lines=bool(readings.diary),
            inspections=bool(readings.inspections),
            seldom=_seldom(readings),
            unheard=_unheard(readings),
            winter=is_winter(season),
        )

    def logged(self, name: str) -> bool:
        """Whether a sensor left readings, often enough or not: nobody is sent to hang another one there."""
        return name in self.seldom or bool(getattr(self, name))

    @property
    def season(self) -> str:
        """What the season is called in a sentence: the winter where it is one, else the season."""
        return "winter" if self.winter else "season"


def _seldom(readings: Readings) -> frozenset[str]:
    found = {
        "crop_air": seldom_crop(readings, "air_temperature"),
        "crop_humidity": seldom_crop(readings, "relative_humidity"),
        "outdoor_air": seldom_outdoors(readings, "air_temperature"),
        "outdoor_humidity": seldom_outdoors(readings, "relative_humidity"),
        "soil": seldom_soil(readings),
        "light": next((c for m in LIGHT if (c := seldom_outdoors(readings, m) or seldom_inside(readings, m))), None),
    }
    return frozenset(name for name, channel in found.items() if channel is not None)


def _unheard(readings: Readings) -> frozenset[str]:
    inside = [one for one in readings.season.loggers if one.where != "outdoor"]
    listed = {measure for one in inside for measure in one.measures}
    return frozenset(m for m in listed if (anywhere(readings, m) or seldom_inside(readings, m)) is None)


def outdoors_named(season: Season) -> bool:
    """Whether season.toml lists a thermometer outdoors: a logger that stands there, or a column of outdoor air."""
    return any(
        "outdoor_temperature" in logger.measures or (logger.where == "outdoor" and "air_temperature" in logger.measures)
        for logger in season.loggers
    )


def is_winter(season: Season) -> bool:
    """Whether most days of the season are shorter than twelve hours; False where the latitude is not known."""
    latitude = season.place.latitude
    if latitude is None or abs(latitude) < TROPICS_DEG:
        return False
    days = (season.last_day - season.first_day).days + 1
    dark = sum(dark_half(season.first_day + timedelta(days=n), latitude) for n in range(days))
    return dark >= days / 2


def dark_half(day: date, latitude: float) -> bool:
    """Whether a date lies between the autumn and the spring equinox of that hemisphere.

    `latitude` [°], north positive.
    """
    bright_north = MARCH <= (day.month, day.day) < SEPTEMBER
    return bright_north != (latitude >= 0)


def days_lengthen(day: date, latitude: float | None) -> bool | None:
    """Whether the days grow longer at that date, None without a latitude (21 December to 20 June in the north)."""
    if latitude is None:
        return None
    north = not ((6, 21) <= (day.month, day.day) < (12, 21))
    return north == (latitude >= 0)


def diary_covers(readings: Readings, day: date) -> bool:
    """Whether the diary was being kept on that date: it lies between its first line and its last."""
    dated = [d for entry in readings.diary if entry.kind != "idea" for d in (entry.date, entry.until) if d is not None]
    return bool(dated) and min(dated) <= day <= max(dated)
