"""Kinds of value that a review.json may hold, each with its ends: far above any house, so that what lies beyond is no
review."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from reportgen import limits
from reportgen.gather.texts import on_one_line
from reportgen.season.base import in_these_centuries

NAME, WORD, WORDS = 200, 60, limits.BOOK_CELL.most  # characters: of a name, of a word of the report, of a line
LOOSE = 0.05  # an interval and its standard error belong together within this share
STUDENT = (1.95, 12.71)  # two-sided 95 %: t with ever so many degrees of freedom, and with one (Student 1908)
BY_BED = 10.0  # by way of the bed an interval may reach further than its error, but not ever so far; our own line
DAY = re.compile(r"\d{4}-\d\d-\d\d")


def _day(value: object) -> object:
    """A day as JSON has it, as a date; what is none is told by the date's own check."""
    if isinstance(value, str) and DAY.fullmatch(value):
        try:
            return dt.date.fromisoformat(value)
        except ValueError:
            return value
    return value


def _something(text: str) -> str:
    if not text:
        raise ValueError("words, beside spaces and signs that are not seen")
    return text


Clean = AfterValidator(on_one_line)
Name = Annotated[str, Field(max_length=NAME), Clean, AfterValidator(_something)]
Word = Annotated[str, Field(max_length=WORD), Clean]
Text = Annotated[str, Field(max_length=WORDS), Clean]
Day = Annotated[dt.date, BeforeValidator(_day), AfterValidator(in_these_centuries)]
Celsius = Annotated[float, Field(ge=-100, le=100)]
Kelvin = Annotated[float, Field(ge=-200, le=200)]
Some = Annotated[float, Field(ge=-1e6, le=1e6)]  # an effect or a level, in any unit of the report
Hours = Annotated[float, Field(ge=0, le=10_000)]
Amount = Annotated[float, Field(ge=0, le=1e6)]
Money = Annotated[float, Field(ge=-1e9, le=1e9)]
Percent = Annotated[float, Field(ge=0, le=100)]
Area = Annotated[float, Field(gt=0, le=1e6)]
Count = Annotated[int, Field(ge=0, le=10_000)]
Freedom = Annotated[float, Field(ge=1, le=10_000)]
Hash = Annotated[str, Field(pattern="^[0-9a-f]{16}$")]
Currency = Annotated[str, Field(pattern="^[A-Z]{3}$")]
Reasons = dict[str, Any]  # looked at by path, when one is wanted
Most = Field(max_length=limits.REVIEW_LIST.most)
OutcomeWord = Literal[
    "lift", "night_minimum", "heat", "watts_per_kelvin", "night_humidity", "moisture", "damp_hours", "soil_mean",
    "soil_swing", "daily_light",
]  # fmt: skip
Verdict = Literal["helped", "hurt", "no sign", "cannot tell", "not judged"]
Kind = Literal["change", "spell", "event", "away", "upkeep", "idea"]


def check_interval(effect: float, low: float, high: float, se: float | None, *, through_bed: bool) -> None:
    """Holds an effect, its interval and its standard error against each other, all in one unit.

    Args:
        effect: What was estimated.
        low: The lower end of its 95 % interval.
        high: The upper one.
        se: Its standard error; None where the review gives none.
        through_bed: Whether its way over the bed is in the interval, which then reaches further than the error.

    Raises:
        ValueError: They do not belong together.
    """
    if not low <= effect <= high:
        raise ValueError("an effect within its own interval")
    half = (high - low) / 2
    most = STUDENT[1] * (BY_BED if through_bed else 1.0)
    if se is not None and not STUDENT[0] * (1 - LOOSE) * se <= half <= most * (1 + LOOSE) * se:
        raise ValueError("a standard error that belongs to its interval (half of it is 1.96 to 12.7 of them)")
