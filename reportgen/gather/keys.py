"""The white list: every key of review.json that is read, with what it may hold. No other key is kept.

A key that is missing is one that an older review did not have; a key that is there must fit.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, model_validator

from reportgen.gather.values import (
    Amount,
    Area,
    Celsius,
    Count,
    Currency,
    Day,
    Freedom,
    Hash,
    Hours,
    Kelvin,
    Kind,
    Money,
    Most,
    Name,
    OutcomeWord,
    Percent,
    Reasons,
    Some,
    Text,
    Verdict,
    Word,
    check_interval,
)

FORMAT = 1
LONGEST_DAYS = 400  # a season is at most a year


class Kept(BaseModel):
    """One table of review.json: other keys are passed over, no silent change of type, no number without an end."""

    model_config = ConfigDict(frozen=True, extra="ignore", strict=True, allow_inf_nan=False, populate_by_name=True)


class Band(Kept):
    """An estimate with its ends."""

    estimate: Some | None = None
    low: Some | None = None
    high: Some | None = None


class Share(Kept):
    """What `[share]` of its season.toml lets out of the house; without a word on it, nothing, as there."""

    place: bool = False
    prices: bool = False
    harvest: bool = False
    place_named: bool = False  # its words name it


class Season(Kept):
    """Which winter it is."""

    title: Name
    first_day: Day
    last_day: Day
    currency: Currency | None = None
    time_zone: Text | None = ""  # null: made with --share

    @model_validator(mode="after")
    def _in_order(self) -> Season:
        if not 0 <= (self.last_day - self.first_day).days <= LONGEST_DAYS:
            raise ValueError(f"a first_day before the last_day, and not more than {LONGEST_DAYS} days between them")
        return self


class House(Kept):
    """Which house it is."""

    id: Hash | None = None
    label: Name | None = None
    kind: Name | None = None
    heated: bool | None = None
    floor_area_m2: Area | None = None
    glazing_area_m2: Area | None = None
    glazing: Name | None = None
    reasons: Reasons = {}


class Weather(Kept):
    """What it stood under."""

    mean_night_c: Celsius | None = None
    coldest_c: Celsius | None = None
    kelvin_hours_below_hold: Amount | None = None
    reasons: Reasons = {}


class Minimum(Kept):
    """Its coldest moment."""

    temperature_c: Celsius | None = None
    margin_k: Kelvin | None = None


class Nothing(Kept):
    """An entry that only counts."""


class NightsBelow(Kept):
    """Nights below the line itself, of those below it by 0, 1, 2 … K."""

    line: Band = Field(default=Band(), alias="0")


class Frost(Kept):
    """How near it came."""

    line_c: Celsius | None = None
    minimum: Minimum = Minimum()
    nights_below: NightsBelow = NightsBelow()
    failures: Annotated[list[Nothing], Most] = []
    reasons: Reasons = {}


class Source(Kept):
    """A heater: only what it burns."""

    fuel: Word


class Heat(Kept):
    """What it took."""

    kwh: Amount | None = None
    cost: Money | None = None
    loss_w_per_k: Band = Band()
    sources: Annotated[list[Source], Most] = []
    reasons: Reasons = {}


class Damp(Kept):
    """How damp it was."""

    high_pct: Percent | None = None
    extreme_pct: Percent | None = None
    hours_recorded: Hours | None = None
    hours_above_high: Band = Band()
    hours_above_extreme: Band = Band()
    reasons: Reasons = {}


class Soil(Kept):
    """The bed."""

    mean_c: Celsius | None = None
    reasons: Reasons = {}


class Harvest(Kept):
    """What it gave."""

    kg: Amount | None = None
    kg_per_m2: Amount | None = None
    weeks_at_half_or_more: Count | None = None
    reasons: Reasons = {}


class Balance(Kept):
    """What it cost in all."""

    total: Money | None = None
    per_kg: Money | None = None
    reasons: Reasons = {}


class Outcome(Kept):
    """What a change or a lever did to one outcome."""

    outcome: OutcomeWord
    unit: Word = ""
    declared: bool = False
    effect: Some | None = None
    low: Some | None = None
    high: Some | None = None
    se: Amount | None = None
    dof: Freedom | None = None
    before_mean: Some | None = None
    through_bed: bool = False
    days_before: Count = 0
    days_after: Count = 0
    refused: Text | None = None

    @model_validator(mode="after")
    def _belongs_together(self) -> Outcome:
        if self.effect is None or self.low is None or self.high is None:
            return self
        check_interval(self.effect, self.low, self.high, self.se, through_bed=self.through_bed)
        return self


class Change(Kept):
    """One line of the diary."""

    when: Day
    what: Text
    kind: Kind
    thing: Text | None = None
    touches: Annotated[list[Word], Most] = []
    hoped_for: Annotated[list[Word], Most] = []
    undoes: Day | None = None
    grouped_with: Annotated[list[Text], Most] = []
    verdict: Verdict
    outcomes: Annotated[list[Outcome], Most] = []


class Lever(Kept):
    """A lever that was taken back, with its outcomes."""

    name: Text
    entries: Annotated[list[Day], Most] = []
    outcomes: Annotated[list[Outcome], Most] = []


class Event(Kept):
    """Something that happened: only its kind and cause, never the words or the notes of the diary."""

    kind: Word
    cause: Text


class AtEqualWeather(Kept):
    """A difference of two winters with the weather taken out."""

    effect: Some | None = None
    low: Some | None = None
    high: Some | None = None


class Row(Kept):
    """One row of two winters side by side."""

    what: Text
    unit: Word
    last: Some | None = None
    this: Some | None = None
    at_equal_weather: AtEqualWeather | None = None


class Winters(Kept):
    """This winter beside the last."""

    last: Name | None = None
    rows: Annotated[list[Row], Most] = []
    reasons: Reasons = {}


class Channel(Kept):
    """A logger: its name is only read so that no word with it is kept."""

    logger: Text


class File(Kept):
    """A file: as a logger."""

    file: Text
    logger: Text | None = None


class Record(Kept):
    """Names that are not kept."""

    channels: list[Channel] = []
    files: list[File] = []


class Review(Kept):
    """All that is read of a review.json."""

    format: Annotated[int, Field(ge=FORMAT, le=FORMAT)]
    season: Season
    share: Share | None = None  # not in reviews of older releases
    so_far: Day | None = None
    house: House = House()
    weather: Weather = Weather()
    record: Record = Record()
    frost: Frost = Frost()
    heat: Heat = Heat()
    damp: Damp = Damp()
    soil: Soil = Soil()
    harvest: Harvest = Harvest()
    balance: Balance = Balance()
    changes: Annotated[list[Change], Most] = []
    levers: Annotated[list[Lever], Most] = []
    events: Annotated[list[Event], Most] = []
    winters: Winters = Winters()
