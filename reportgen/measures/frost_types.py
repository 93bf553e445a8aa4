"""What the frost measures hand up. Field names are the keys of review.json's section `frost`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

import pandas as pd

from reportgen.measures.exposure import Band
from reportgen.plain import PAGE_ONLY

if TYPE_CHECKING:
    from reportgen.measures.frost_ahead import Ahead
    from reportgen.measures.house.season import HouseModel


@dataclass(frozen=True, kw_only=True, slots=True)
class Minimum:
    """The coldest moment of the crop air; all None without a crop air temperature."""

    temperature_c: float | None = None
    margin_k: float | None = None  # above the frost line
    at: pd.Timestamp | None = None
    logger: str | None = None
    outdoor_c: float | None = None  # at the same moment


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldingLimit:
    """Down to which outdoor minimum the house stays above the frost line.

    `outdoor_c` stands only where this winter tested it; else `reason` says what can be said. `chosen`: which nights it
    rests on, "with heat" by the heating log, "at the hold" by the air, empty: all. `left_out`: nights since the last
    change that are not counted, for the heat failed on them.
    """

    outdoor_c: float | None = None
    coldest_seen_c: float | None = None  # coldest outdoor minimum of the nights looked at
    heater_flat_out_c: float | None = None  # night-mean outdoor temperature at which the heater runs flat out
    reason: str = ""
    points: pd.DataFrame = field(default_factory=pd.DataFrame, metadata=PAGE_ONLY)  # date, outdoor_c, inside_c, fitted
    curve: pd.DataFrame = field(default_factory=pd.DataFrame, metadata=PAGE_ONLY)  # outdoor_c, middle_c, bound_c
    flat_out_half_k: float | None = field(default=None, metadata=PAGE_ONLY)  # half of its band
    chosen: str = field(default="", metadata=PAGE_ONLY)
    left_out: int = field(default=0, metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class StateLimit:
    """Limits of the house in one of its states: which levers were on (empty: none of them), on how many heated nights.

    `holding_limit_c`: outdoor minimum down to which it stayed above the frost line, where its own nights tested it.
    `flat_out_c`: night-mean outdoor temperature at which the heater would run flat out.
    """

    state: str
    holding_limit_c: float | None
    flat_out_c: float | None
    nights: int
    present: bool = field(default=False, metadata=PAGE_ONLY)
    flat_out_half_k: float | None = field(default=None, metadata=PAGE_ONLY)
    coldest_seen_c: float | None = field(default=None, metadata=PAGE_ONLY)
    why_no_limit: str = field(default="", metadata=PAGE_ONLY)
    why_no_flat_out: str = field(default="", metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class Forecast:
    """What a night that was not would have been [°C], with its band; `level`: share of truths that such bands held."""

    estimate: float
    low: float
    high: float
    level: float


@dataclass(frozen=True, kw_only=True, slots=True)
class AfterFailure:
    """Where the air would be 3 and 8 hours after the heat stops, at one outdoor temperature."""

    outdoor_c: float
    after_3h_c: float
    after_8h_c: float
    hours_to_line: str  # "<3", "3-8", ">8", or two of them where the band spans them
    after_3h: Forecast
    after_8h: Forecast


@dataclass(frozen=True, kw_only=True, slots=True)
class Failure:
    """A stretch without heat while the air fell well under the hold.

    `line_crossed_after_min`: measured minutes from its start until the crop air was under the frost line; None where
    it never was. `source`: the heater, where there is one that can be meant. `by_diary`: the start is the diary's.
    """

    start: pd.Timestamp
    end: pd.Timestamp
    hours: float
    minimum_c: float
    line_crossed_after_min: float | None = None
    source: str | None = field(default=None, metadata=PAGE_ONLY)
    by_diary: bool = field(default=False, metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class Alarm:
    """What a low-temperature alarm set to one line would have done.

    `needed`: times the air came within 1 K of the frost line for which it rang. `warning_h`: the shortest time that the
    air had then been under the alarm line without a break, at most 12.
    """

    alarm_c: float
    rings: int
    needed: int
    warning_h: float | None
    when: tuple[pd.Timestamp, ...] = field(default=(), metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class CropMargin:
    """How close one crop came to its damage band while it stood. `margin_k` is to the band's warmer end."""

    crop: str
    bed: str | None
    from_: date
    to: date
    damage_low_c: float | None
    damage_high_c: float | None
    coldest_c: float | None
    margin_k: float | None
    assumed_standing: bool
    coldest_at: pd.Timestamp | None = field(metadata=PAGE_ONLY)
    place: str = field(metadata=PAGE_ONLY)  # the logger that spoke for it, or "coldest place"
    week_before_c: float | None = field(metadata=PAGE_ONLY)  # mean night minimum of the seven days before that night
    survived_c: float | None = field(metadata=PAGE_ONLY)  # coldest it stood with a loss of 0 noted, else None
    lost: float | None = field(metadata=PAGE_ONLY)
    source: str = field(metadata=PAGE_ONLY)  # of the band
    without_heat_c: float | None = field(metadata=PAGE_ONLY)  # coldest it would have met without heat


@dataclass(frozen=True, kw_only=True, slots=True)
class Away:
    """The nights nobody was there: how long nothing was logged, and the closest call among them."""

    start: date
    end: date
    nights: int
    blind_hours: float
    coldest_c: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class WithoutHeatNight:
    """The coldest hour of one night without heat [°C], with its band."""

    night: date
    estimate: float
    low: float
    high: float
    level: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Frost:
    """How close the crop came to frost. Temperatures °C, differences K, times hours.

    `table`: one row a long night (18–09 h, index = its evening): inside_min, at, logger, outdoor_min, outdoor_share,
    share, margin_k, heated_h (NaN unknown), clear (0…1 of a clear sky's light the day before, NaN unknown),
    without_heat_c with its low and high, tenderest, tenderest_margin_k, entries (words). `gaps`: frost_gaps.gap_table.
    """

    line_c: float
    minimum: Minimum
    nights: int
    nights_partly_logged: int
    nights_below: Mapping[str, Band]
    hours_below: Mapping[str, Band]
    degree_hours_below: Band
    unrecorded_cold_hours: float | None  # without crop air, outdoors under the frost line
    unrecorded_unknown_hours: float  # without crop air, outdoors not known either
    could_have_been_c: float | None
    holding_limit: HoldingLimit
    limit_by_state: tuple[StateLimit, ...]
    without_heat_minimum_c: Forecast
    without_heat_nights: tuple[WithoutHeatNight, ...]
    after_failure: tuple[AfterFailure, ...]
    failures: tuple[Failure, ...]
    alarms: tuple[Alarm, ...]
    hot_hours: Band
    crops: tuple[CropMargin, ...]
    reasons: Mapping[str, str]
    hours_recorded: float = field(metadata=PAGE_ONLY)
    hours_unrecorded: float = field(metadata=PAGE_ONLY)  # of the season, without crop air
    table: pd.DataFrame = field(metadata=PAGE_ONLY)
    gaps: pd.DataFrame = field(metadata=PAGE_ONLY)
    hot_weeks: pd.DataFrame = field(metadata=PAGE_ONLY)  # week (Monday), hours
    open_week: date | None = field(metadata=PAGE_ONLY)  # Monday of the first week with three hot days running
    away: tuple[Away, ...] = field(metadata=PAGE_ONLY)
    ahead: Ahead = field(metadata=PAGE_ONLY)
    model: HouseModel | None = field(default=None, metadata=PAGE_ONLY)  # the house it rests on
