"""What the heat page says, as frozen values; the first fields of `Heat` are the keys of review.json's `heat`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

import pandas as pd

from reportgen.measures.exposure import Band
from reportgen.plain import PAGE_ONLY
from reportgen.readings.types import Stock

NAN = float("nan")


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """One heater over the season. `hours_flat_out`: hours at 95 % or more of its rated power."""

    name: str
    fuel: str
    role: str
    kwh: float | None
    bought: float
    bought_unit: str
    cost: float | None
    hours_flat_out: float | None
    kwh_low: float | None = None  # bounds where part of it is not known
    kwh_high: float | None = None
    cost_low: float | None = None
    cost_high: float | None = None
    water_kg: float | None = field(default=None, metadata=PAGE_ONLY)  # set free inside by an unvented burner
    vented: bool | None = field(default=None, metadata=PAGE_ONLY)
    basis: str = field(default="", metadata=PAGE_ONLY)  # gross | net
    stock: Stock | None = field(default=None, metadata=PAGE_ONLY)  # of deliveries
    shared_by: str = field(default="", metadata=PAGE_ONLY)  # of sums: cold | time
    estimated_kwh: float = field(default=0.0, metadata=PAGE_ONLY)  # of readings or bills marked as estimated
    # Heat and money of a store that counts as burnt only because nobody wrote what was left; NaN: not known.
    unlooked_kwh: float = field(default=0.0, metadata=PAGE_ONLY)
    unlooked_cost: float = field(default=0.0, metadata=PAGE_ONLY)
    unknown_h: float = field(default=0.0, metadata=PAGE_ONLY)  # hours of the season without a record of its use
    by_tariff: bool = field(default=False, metadata=PAGE_ONLY)  # the price depends on hours that are not known


@dataclass(frozen=True, kw_only=True, slots=True)
class Aside:
    """One appliance: what it drew heated the house too."""

    name: str
    kind: str
    kwh: float
    cost: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldPrice:
    """One hold kept all winter long, in this winter's weather. `tested`: within 4 K of the hold found, so fit for a
    finding."""

    hold_c: float
    kwh: float
    low: float | None
    high: float | None
    cost: float | None
    tested: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class DegreePrice:
    """The winter's heat [kWh] and money with every date's own hold `away_k` from what it was; `low` to `high` and
    `cost_low` to `cost_high` held about nine in ten of the simulated houses."""

    away_k: float
    kwh: float
    low: float
    high: float
    cost: float | None
    cost_low: float | None
    cost_high: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class HeaterNeeded:
    """Heater power [W] through the hardest three hours of the winter, and of one 5 K colder, in the house as it is now.

    `to_buy`: what a heater should give, so that it stays within about a degree of the hold: single hardest hours and
    the thermostat's lag ask for more than the hardest three hours' mean.
    """

    coldest_hour: float | None
    five_colder: float | None
    to_buy: float | None
    coldest_band: Band | None = field(default=None, metadata=PAGE_ONLY)
    five_band: Band | None = field(default=None, metadata=PAGE_ONLY)
    coldest_c: float | None = field(default=None, metadata=PAGE_ONLY)  # of the winter outdoors
    at_limit: bool = field(default=False, metadata=PAGE_ONLY)  # the heater stood at its limit for over 5 % of the dark


@dataclass(frozen=True, kw_only=True, slots=True)
class StateLoss:
    """Heat loss of the house in one of its states: which levers were on (empty: none of them), from when to when, on
    how many nights."""

    state: str
    from_: date
    to: date
    nights: int
    w_per_k: Band
    present: bool = field(metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class DarkWeeks:
    """Heat, money and harvest of the days under ten hours of daylight."""

    kwh: float | None
    cost: float | None
    kg: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Stretch:
    """Days between entries that touch the thermostat, and the hold found in them [°C]."""

    first: date
    last: date
    hold_c: float | None
    hours: int  # night hours it rests on
    how: str  # "heated night hours" | "the colder half of the nights"
    kwh: float = 0.0
    cost: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class PriceBasis:
    """What the price of a degree rests on.

    `balance_c`: outdoor temperature above which the sun and the soil alone kept the hold (heat-weighted over the
    stretches); `kwh_per_kh`: heat a kelvin-hour below it; `explained`: share of the heat's variation from period to
    period that degree-hours tell; `kind`: days | readings | expectation.
    """

    kind: str
    periods: int
    mean_days: float
    balance_c: float | None
    kwh_per_kh: float | None
    explained: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Heat:
    """Everything the heat page says. `known_share`: share of the season in which the use of every heater is known;
    `kwh` and `cost` are of that, their `_low` and `_high` are None where all is known."""

    hold_c: float | None
    share_at_or_above_hold: Band
    degree_hours_below_hold: Band
    kwh: float | None
    appliances_kwh: float
    cost: float | None
    co2_kg: float | None
    loss_w_per_k: Band  # of the house as it is now
    loss_by_state: tuple[StateLoss, ...]
    loss_expected_w_per_k: float | None
    hold_found_c: float | None
    sources: tuple[Source, ...]
    price_of_hold: tuple[HoldPrice, ...]
    price_of_degree: tuple[DegreePrice, ...]
    heater_needed_w: HeaterNeeded
    above_target_kwh: float | None
    dark_weeks: DarkWeeks
    reasons: Mapping[str, str]
    known_share: float | None = None
    kwh_low: float | None = None
    kwh_high: float | None = None
    cost_low: float | None = None
    cost_high: float | None = None
    appliances: tuple[Aside, ...] = field(default=(), metadata=PAGE_ONLY)
    holds: tuple[tuple[date, float], ...] = field(default=(), metadata=PAGE_ONLY)  # aimed for, by first day
    months: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)  # month: hours, below_h, degree_hours
    hold_hours: float = field(default=0.0, metadata=PAGE_ONLY)  # hours of crop air under a hold
    loss_nights: int = field(default=0, metadata=PAGE_ONLY)
    loss_with_air: bool = field(default=False, metadata=PAGE_ONLY)  # expected figure counts 0.33·n·V
    stretches: tuple[Stretch, ...] = field(default=(), metadata=PAGE_ONLY)
    basis: PriceBasis | None = field(default=None, metadata=PAGE_ONLY)
    priced_by_run: bool = field(default=False, metadata=PAGE_ONLY)  # the house run again counts beside degree-hours
    nights: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)
    by_hour: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)
    by_day: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)
    weeks: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)  # Monday; a column a supply [kWh], cost
    spread: bool = field(default=False, metadata=PAGE_ONLY)
