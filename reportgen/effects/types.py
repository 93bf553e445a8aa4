"""What is known of a change once the weather is taken out: frozen, doubt included."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Literal

import pandas as pd

from reportgen.plain import PAGE_ONLY

if TYPE_CHECKING:
    from reportgen.effects.lever_types import LeverEffect

Verdict = Literal["helped", "hurt", "no sign", "cannot tell", "not judged"]
NAN = float("nan")
WARMTH = frozenset({"lift", "night_minimum"})  # of the nights: a bed that was warmed gives some of it back
SOIL = frozenset({"soil_mean", "soil_swing"})  # the bed answers slowly: its weather hides what one winter changed


@dataclass(frozen=True, kw_only=True, slots=True)
class Outcome:
    """One outcome of one change: its effect with a 95 % interval, or why there is none.

    For a spell, `days_before` counts the days off and `days_after` the days on.
    """

    outcome: str
    unit: str
    declared: bool
    effect: float = NAN
    low: float = NAN
    high: float = NAN
    smallest_visible: float = NAN
    days_before: int = 0
    days_after: int = 0
    se: float = NAN  # standard error of the effect, in its unit
    dof: int | None = None  # of that error: days less columns
    before_mean: float = NAN  # mean of the days before (of a spell: off); of heat what the days after took without it
    through_bed: bool = False  # its ends reach beyond effect ∓ t·se, by what may have come by way of the bed (`bed`)
    refused: str | None = None
    answerable: str = field(default="", metadata=PAGE_ONLY)  # what would have made it answerable
    columns: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # weather columns used
    left_out: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # … and those that could not be had
    covariate_set: int = field(default=0, metadata=PAGE_ONLY)  # column of the method page's table, from 1
    effective_days: float = field(default=NAN, metadata=PAGE_ONLY)
    widened: float = field(default=1.0, metadata=PAGE_ONLY)  # by how much its switches disagree, 1: not (`pooled`)
    blocked_by: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # other entries it cannot be told from
    nights: pd.DataFrame | None = field(default=None, metadata=PAGE_ONLY)  # day, value, ton, after, without_change


@dataclass(frozen=True, kw_only=True, slots=True)
class DoNothing:
    """The same estimator on a date on which nothing was done."""

    when: date
    effect: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Effect:
    """One change of the diary (or one thing switched on and off) and what it did."""

    when: date
    what: str
    kind: str
    touches: tuple[str, ...]
    hoped_for: tuple[str, ...]
    hope_written_before: bool | None
    grouped_with: tuple[str, ...]
    verdict: Verdict
    at_most: float | None
    outcomes: tuple[Outcome, ...]
    reasons: Mapping[str, str]
    thing: str | None = None  # a word by which others know it
    undoes: date | None = None  # the day of the line that it takes back
    line: int = field(metadata=PAGE_ONLY)  # of diary.csv
    until: date | None = field(default=None, metadata=PAGE_ONLY)
    switches: tuple[tuple[date, date], ...] = field(default=(), metadata=PAGE_ONLY)  # of a spell: first and last night
    reversible: bool | None = field(default=None, metadata=PAGE_ONLY)
    cost: float | None = field(default=None, metadata=PAGE_ONLY)
    years: float | None = field(default=None, metadata=PAGE_ONLY)
    saves_at_most: float | None = field(default=None, metadata=PAGE_ONLY)  # money a season, the favourable end
    small: bool = field(default=False, metadata=PAGE_ONLY)  # the whole interval lies inside what the grower cares for
    care: float = field(default=NAN, metadata=PAGE_ONLY)  # in the declared outcome's unit
    meanwhile: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # what else happened in the window
    do_nothing: tuple[DoNothing, ...] = field(default=(), metadata=PAGE_ONLY)
    unjudged_hopes: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # hopes that no logger can judge

    @property
    def too_slow(self) -> bool:
        """Hoped for the bed, and its interval holds zero: one winter cannot show it."""
        hoped = self.declared
        known = hoped is not None and hoped.refused is None and hoped.outcome in SOIL
        return known and self.verdict == "cannot tell"

    @property
    def declared(self) -> Outcome | None:
        """The one outcome hoped for, if it is among those a logger can judge."""
        return next((o for o in self.outcomes if o.declared), None)


@dataclass(frozen=True, kw_only=True, slots=True)
class Night:
    """One row of a tick sheet."""

    night: date
    on: bool
    switch: bool  # the state changes at noon of this date


@dataclass(frozen=True, kw_only=True, slots=True)
class Tryable:
    """What switching on and off could answer; whether it shall be tried, and when, is for counsel to say."""

    line: int  # of diary.csv
    what: str
    thing: str | None
    idea: bool  # noted, not done yet
    touches: tuple[str, ...]
    hopes: tuple[str, ...]  # all of them, as the diary has them
    hoped_for: str  # the one it is judged on
    outcome: str
    visible: float  # smallest effect a trial would find four times in five, NaN if unknown
    visible_unit: str
    visible_now: float  # the same of this winter's change, NaN if refused


@dataclass(frozen=True, kw_only=True, slots=True)
class Trial:
    """An on/off plan for next winter."""

    what: str
    hoped_for: str
    outcome: str
    nights: tuple[Night, ...]
    visible: float  # smallest effect it would find four times in five, NaN if unknown
    visible_unit: str
    visible_now: float  # the same of this winter's change, NaN if refused
    why: str
    diary_rows: tuple[str, ...]  # CSV rows in the order of diary.csv


@dataclass(frozen=True, kw_only=True, slots=True)
class KindOfNight:
    """Humidity of the nights of one kind less that of the others, the weather taken out, with its 95 % interval [points
    of relative humidity]."""

    name: str  # after watering | without heat
    effect: float
    low: float
    high: float
    nights: int
    others: int
    table: pd.DataFrame  # date, value, kind (1 or 0)


@dataclass(frozen=True, kw_only=True, slots=True)
class OddDate:
    """A date without an entry that looks like a change in `outcome`; its effect in half-widths of its interval, and of
    how many such dates it is the oddest."""

    when: date
    outcome: str
    half_widths: float
    dates: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Changes:
    """All changes of the winter, in order of date."""

    changes: tuple[Effect, ...]
    could_try: tuple[Tryable, ...] = ()
    no_trial: Mapping[str, str] = field(default_factory=dict)  # what is open → why no trial can answer it
    judged: int = 0
    reason: str = ""  # why there is no change at all
    heat_cost: float | None = None
    kinds_of_night: tuple[KindOfNight, ...] = ()
    odd_date: OddDate | None = None
    levers: tuple[LeverEffect, ...] = field(default=(), metadata=PAGE_ONLY)  # in the order of Readings.levers
