"""What the reading floor hands up: channels, books and heating, each row accounted for, all frozen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import pandas as pd

from reportgen.problems import Problem
from reportgen.readings.lever_types import Asked, Lever
from reportgen.readings.shelf import Place
from reportgen.season import Season

NOTHING: Mapping[str, int] = MappingProxyType({})
GAP_COLUMNS = ("start", "end", "heat_kwh", "cost")

PRIVATE = "kept private by the grower"


@dataclass(frozen=True, kw_only=True, slots=True)
class FileAccount:
    """One logger file: every non-blank line below the header is used or set aside under one reason."""

    file: str  # relative to the season folder
    logger: str
    rows_read: int
    rows_used: int
    set_aside: Mapping[str, int] = field(default_factory=lambda: NOTHING)  # reason → rows
    clock: str = ""  # how its times were read, in words


@dataclass(frozen=True, kw_only=True, slots=True)
class CheckFinding:
    """Something the checks saw in a channel or file: what, when, how many values, in words."""

    slug: str
    logger: str
    measure: str | None
    start: pd.Timestamp | None
    end: pd.Timestamp | None
    count: int
    words: str


@dataclass(frozen=True, kw_only=True, slots=True, eq=False, weakref_slot=True)
class Channel:
    """One measure of one logger in its kept unit (units.MEASURES).

    `values`: float, index zone-aware in the season's zone, strictly rising, no NaN: what was set aside is not there,
    and nothing was filled in. `accuracy` is the ± of the sensor in the kept unit (K for temperatures), None if not
    given. Joining two readings: measures.exposure.line. `beyond`: readings of outdoor air on days outside the season,
    by which a sum that crosses its first or last day is shared; used for nothing else.
    """

    logger: str
    measure: str
    where: str  # crop | outdoor | elsewhere
    values: pd.Series
    accuracy: float | None
    depth_m: float | None
    step_s: float | None  # usual step: the median of all differences
    values_read: int
    values_used: int
    set_aside: Mapping[str, int] = field(default_factory=lambda: NOTHING)
    beyond: pd.Series | None = field(default=None, repr=False)


@dataclass(frozen=True, kw_only=True, slots=True)
class DiaryEntry:
    """One row of diary.csv."""

    line: int
    date: dt.date
    time: dt.time | None
    kind: str  # change | spell | event | away | upkeep | idea
    what: str
    touches: tuple[str, ...]
    reversible: bool | None
    hoped_for: tuple[str, ...]
    until: dt.date | None
    cost: float | None
    years: float | None
    written: dt.date | None
    note: str
    undoes: str = ""  # as written: the date, or the words, of the line that this one takes back
    thing: str = ""  # a short word by which others know it


@dataclass(frozen=True, kw_only=True, slots=True)
class Picking:
    """One row of harvest.csv, in kilograms."""

    line: int
    date: dt.date
    crop: str
    weight_kg: float
    bed: str | None
    use: str  # eaten | given | stored | lost
    price_per_kg: float | None
    note: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Planting:
    """One row of plantings.csv."""

    line: int
    crop: str
    cultivar: str | None
    bed: str | None
    area_m2: float | None
    sown: dt.date | None
    planted: dt.date | None
    cleared: dt.date | None
    plants: float | None
    spacing_cm: float | None
    lost: float | None
    cause: str
    lost_on: dt.date | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Watering:
    """One row of watering.csv."""

    line: int
    date: dt.date
    time: dt.time | None
    bed: str | None
    litres: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Inspection:
    """One row of inspections.csv; level 0 (looked, nothing) to 3."""

    line: int
    date: dt.date
    bed: str | None
    crop: str | None
    found: str
    level: int | None
    action: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Cost:
    """One row of costs.csv."""

    line: int
    date: dt.date
    what: str
    kind: str
    amount: float
    years: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Purchase:
    """What was bought on one day: amount in the unit of the source, money paid (NaN where not known)."""

    at: pd.Timestamp
    amount: float
    paid: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Stock:
    """What a book of deliveries tells of a store; Σ bought + opening = used before + used in the season + left.

    `opening`: on the day of the first row, before it. `left`: after the last day. `left_paid`: what was paid for it,
    first in, first out; NaN where not known. `used_before`: burnt between the first row and the season's first day.
    `unlooked_since`: nobody wrote what was left at the end, so that all that was there then and came since counts as
    burnt; None where it is written.
    """

    purchases: tuple[Purchase, ...]
    opening: float
    used_before: float
    left: float
    left_paid: float
    unlooked_since: pd.Timestamp | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatSupply:
    """What one heater or appliance used.

    `intervals`: one row a stretch of use, in order, columns
        start, end   zone-aware, season's zone;
        bought       what was used of what was bought or drawn, in `unit`;
        heat_kwh     heat given to the house [kWh] = bought × heat value × efficiency;
        cost         money that was paid for it, NaN where no price is known;
        cost_low, cost_high   where the price depends on the hour and the hour is not known: the least and the most it
                     can have cost; elsewhere equal to cost;
        sparse       True where the stretch is too long to say when in it the heat was given (a meter reading,
                     a delivery, a counter across a gap): a sum to be spread, never an hour's figure;
        estimated    True where the book marks the reading as estimated;
        known_sum    stretches of one number share one known sum; −1 where a stretch is known by itself.
    `gaps`: stretches of the season of which nothing is known: start, end, heat_kwh (the most it can have given), cost
    (the most it can have cost, NaN without a price); empty where all is known.
    `heating_value` says whether heat was counted gross or net; empty for electricity.
    """

    name: str
    fuel: str
    role: str  # main | backup | appliance
    form: str  # logger | meter | deliveries | bills | rated hours
    kind: str | None  # of an appliance: dehumidifier | lamp | fan | pump | other
    unit: str
    intervals: pd.DataFrame
    rated_power_w: float | None
    vented: bool | None
    heating_value: str
    co2_kg_per_unit: float | None
    resets: int = 0  # of a running counter, mended
    reasons: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))  # cost / heat_kwh / co2 → why not
    gaps: pd.DataFrame = field(default_factory=lambda: pd.DataFrame({name: [] for name in GAP_COLUMNS}))
    stock: Stock | None = None  # of deliveries
    shared_by: str = ""  # of sums: "cold" | "time"


@dataclass(frozen=True, kw_only=True, slots=True, eq=False, weakref_slot=True)
class Readings:
    """The whole season as read."""

    season: Season
    files: tuple[FileAccount, ...]
    channels: tuple[Channel, ...]
    findings: tuple[CheckFinding, ...]  # of the checks and the clock
    diary: tuple[DiaryEntry, ...]
    harvest: tuple[Picking, ...]
    plantings: tuple[Planting, ...]
    watering: tuple[Watering, ...]
    inspections: tuple[Inspection, ...]
    costs: tuple[Cost, ...]
    heating: tuple[HeatSupply, ...]
    appliances: tuple[HeatSupply, ...]
    books: Mapping[str, bool]  # which books are there: diary, harvest, plantings, watering, inspections, costs
    warnings: tuple[Problem, ...]
    levers: tuple[Lever, ...] = ()
    levers_before: tuple[Lever, ...] = ()  # set before the season and on all through it: no line in it, nothing judged
    diary_before: tuple[DiaryEntry, ...] = ()  # their lines, without notes
    questions: tuple[Asked, ...] = ()
    ahead: tuple[DiaryEntry, ...] = ()  # of a season that still runs: nights on of a tick sheet that are still to come
    held_back: frozenset[str] = frozenset()  # "place", "prices", "harvest": there, and [share] keeps it in the house
    places: Mapping[str, Place] = field(default_factory=lambda: MappingProxyType({}))  # where each book lies

    def without(self, what: str, words: str) -> str:
        """Why there is no place, prices or harvest: that the grower keeps them to themselves, else `words`."""
        return PRIVATE if what in self.held_back else words

    def place(self, book: str) -> Place:
        """Where a book lies, or would lie."""
        return self.places.get(book) or Place(file=getattr(self.season, book).file, there=False)

    def channel(self, logger: str, measure: str) -> Channel | None:
        """That measure of that logger, if it was logged."""
        return next((c for c in self.channels if c.logger == logger and c.measure == measure), None)
