"""What two winters side by side hold; field names are the keys of review.json's `winters`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

import pandas as pd

from reportgen.plain import PAGE_ONLY

Ends = tuple[float, float]  # low, high of a figure: by the sensor's accuracy, the fit or what is not on record


@dataclass(frozen=True, kw_only=True, slots=True)
class EqualWeather:
    """This winter minus last winter had both had the same weather, with its 95 % interval, in the row's unit."""

    effect: float
    low: float
    high: float
    days_last: int = field(metadata=PAGE_ONLY)
    days_this: int = field(metadata=PAGE_ONLY)
    columns: tuple[str, ...] = field(metadata=PAGE_ONLY)  # weather taken out
    smallest_visible: float = field(metadata=PAGE_ONLY)
    apart_k: float = field(default=float("nan"), metadata=PAGE_ONLY)  # mean nights outdoors, this less last


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One headline of both winters, over the calendar days both have."""

    what: str
    unit: str
    last: float | None
    this: float | None
    at_equal_weather: EqualWeather | None
    key: str = field(metadata=PAGE_ONLY)  # "lift"
    headline: bool = field(default=False, metadata=PAGE_ONLY)
    better: Literal["more", "less", ""] = field(default="", metadata=PAGE_ONLY)
    last_band: Ends | None = field(default=None, metadata=PAGE_ONLY)  # None: `reasons` has why, under `band`
    this_band: Ends | None = field(default=None, metadata=PAGE_ONLY)

    @property
    def difference_band(self) -> Ends | None:
        """The least and the most that the difference may be by both bands; None where one is not known."""
        if self.last_band is None or self.this_band is None:
            return None
        return self.this_band[0] - self.last_band[1], self.this_band[1] - self.last_band[0]

    @property
    def difference(self) -> float | None:
        """This minus last, in the unit of the row; None where either is unknown."""
        return None if self.this is None or self.last is None else self.this - self.last

    @property
    def by_weather(self) -> float | None:
        """The part of the difference that the weather accounts for."""
        if self.difference is None or self.at_equal_weather is None:
            return None
        return self.difference - self.at_equal_weather.effect


@dataclass(frozen=True, kw_only=True, slots=True)
class Winters:
    """Two winters side by side; without a last winter `rows` is empty and `reasons` says why."""

    last: str | None  # last winter's title
    rows: tuple[Row, ...]
    reasons: Mapping[str, str]
    first_day: date | None = field(default=None, metadata=PAGE_ONLY)  # of the shared days, in this winter's dates
    last_day: date | None = field(default=None, metadata=PAGE_ONLY)
    only_this: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # diary: done this winter, not last
    only_last: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)
    warnings: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)
    lost_last: Mapping[str, float] = field(default_factory=dict, metadata=PAGE_ONLY)  # crop → share lost last winter
    nights: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)
    # index date (this winter's); inside_this, inside_last, outside_this, outside_last: night minima [°C]
