"""What a group of reviews is, once read: houses with their winters, the things they changed, and what these did.

Everything here comes from the white list of keys of review.json (`schema.py`); null stays None, and words are the
members' own, to be escaped where they are printed. Temperatures °C, differences K, shares 0 … 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

POOLED = ("lift", "heat", "watts_per_kelvin", "night_humidity", "soil_mean")  # outcomes whose shared error is known
RELATIVE = ("heat", "watts_per_kelvin")  # pooled as a fraction of what it was without
BY_WARMTH = ("lift", "night_humidity", "soil_mean")  # heated and unheated houses stand apart


@dataclass(frozen=True, kw_only=True, slots=True)
class Band:
    """An estimate with its ends; each None where the review did not know it."""

    estimate: float | None = None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Outcome:
    """What one change did to one outcome in one house, with the weather taken out by its own review."""

    outcome: str  # "lift", … (words of review.json)
    unit: str
    declared: bool
    effect: float | None  # in `unit`
    low: float | None
    high: float | None
    se: float | None
    dof: float | None
    before_mean: float | None
    days_before: int
    days_after: int
    refused: str | None  # why it was not told


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """One line of a house's diary, as its review told it."""

    when: date
    what: str
    kind: str
    thing: str | None
    touches: tuple[str, ...]
    hoped_for: tuple[str, ...]
    undoes: str | None
    grouped_with: tuple[str, ...]
    verdict: str
    outcomes: tuple[Outcome, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Switched:
    """One lever that was put on and taken off again: its days on against its days off, as its review told it."""

    name: str  # as its first line says
    entries: tuple[date, ...]  # days of its lines
    outcomes: tuple[Outcome, ...]  # `days_before` are those off


@dataclass(frozen=True, kw_only=True, slots=True)
class EqualWeather:
    """One row of a house's own comparison of two winters."""

    what: str
    unit: str
    last: float | None
    this: float | None
    at_equal: Band | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Headlines:
    """The figures of one winter that the group's pages show; None where the review had none."""

    minimum_c: float | None
    margin_k: float | None
    outdoor_coldest_c: float | None
    mean_night_outdoor_c: float | None
    nights_below_line: Band
    line_c: float | None
    failures: int
    heat_kwh: float | None
    heat_cost: float | None
    loss_w_per_k: Band
    kelvin_hours_below_hold: float | None
    damp_hours_recorded: float | None
    hours_above_high: Band  # 80 % as a rule; `high_pct`
    hours_above_extreme: Band
    high_pct: float | None
    extreme_pct: float | None
    soil_mean_c: float | None
    harvest_kg: float | None
    kg_per_m2: float | None
    balance_total: float | None
    balance_per_kg: float | None
    weeks_at_half_or_more: int | None
    reasons: tuple[tuple[str, str], ...]  # ("heat.kwh", "no heater is listed"): dotted path, words


@dataclass(frozen=True, kw_only=True, slots=True)
class Winter:
    """One review that was read."""

    source: str  # the file as the organiser named it
    house_id: str | None  # salted hash of season.toml's id
    label: str | None  # `[share] label`
    title: str
    first_day: date
    last_day: date
    so_far: date | None
    currency: str | None
    kind: str | None
    heated: bool | None
    floor_area_m2: float | None
    glazing_area_m2: float | None
    glazing: str | None
    sealed_burner: bool  # its events tell a fuel burnt without a flue while the house was tight
    burner: bool  # a heater that burns fuel is among its sources
    last_winter: str | None
    headlines: Headlines
    lines: tuple[Line, ...]
    against_last: tuple[EqualWeather, ...]
    levers: tuple[Switched, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class House:
    """One house with its winters in their order."""

    label: str  # "Plot 7", or A, B, C … in the order of mean outdoor nights
    winters: tuple[Winter, ...]

    @property
    def newest(self) -> Winter:
        """Its last winter."""
        return self.winters[-1]


@dataclass(frozen=True, kw_only=True, slots=True)
class LeftOut:
    """An input that could not be read, with its reason in words."""

    source: str
    reason: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Member:
    """One house's own before and after for one thing and one outcome, as pooling takes it."""

    house: str
    winter: str  # "2025–26"
    when: date
    what: str
    heated: bool | None
    effect: float  # K, points, kWh a day, W/K; a fraction of what it was without for RELATIVE outcomes
    se: float
    dof: float
    low: float
    high: float
    weather: str  # houses with the same word stood under one weather and changed in one fortnight: they err together


@dataclass(frozen=True, kw_only=True, slots=True)
class Refusal:
    """A house that did the thing and could not tell, and why."""

    house: str
    winter: str
    when: date
    what: str
    reason: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Stratum:
    """Members that may be pooled: one thing, one outcome, heated or not where that matters."""

    outcome: str
    unit: str  # "K", "points", "%" for RELATIVE outcomes (effects are then fractions)
    heated: bool | None  # None: not told apart
    members: tuple[Member, ...]
    refused: tuple[Refusal, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Thing:
    """One thing that houses of the group changed."""

    name: str
    is_kind: bool  # grouped by what it touches and hopes for: a kind of thing, not one thing
    seals: bool  # it closes the house: never praised or proposed where a fuel burns inside
    lines: tuple[tuple[str, str, date, str], ...]  # house, winter, day, words: every line that counts as it
    strata: tuple[Stratum, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Pooled:
    """What k houses say together about one stratum (levers.md's recipe for pooling, see `pool.py`)."""

    k: int
    mean: float
    low: float
    high: float
    next_low: float  # where the effect in the next house would lie
    next_high: float
    houses_by_weather: tuple[int, ...]  # n_c
    survives: bool  # every leave-one-out interval leaves out 0
    verdict: str  # "more" | "less" (its sign) | "rests on one garden" | "cannot tell" | "too few for a verdict"
    more_houses: int | None  # to settle it at 80 % power, None: not by more houses (see `why`), 0 when settled
    why: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Group:
    """Everything that was gathered."""

    title: str
    show: str  # "metric" | "us"
    story: str | None  # the organiser's words, Markdown
    houses: tuple[House, ...]
    things: tuple[Thing, ...]
    alike: tuple[str, ...]  # diary lines that look alike, ready to be pasted into group.toml
    left_out: tuple[LeftOut, ...]
    mark: str | None  # label of the house that is marked in every picture
    told: tuple[str, ...] = ()  # what the organiser should know of the reading: houses that could not be joined …
