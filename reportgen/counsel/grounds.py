"""What a review speaks of beside its figures: events, levers, the hold and the balance. Field names are the keys of
review.json; the plan, the answers and the findings rest on these and say nothing against them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

import pandas as pd

from reportgen.effects.types import Outcome
from reportgen.measures.heat_needed import HeatNeeded
from reportgen.plain import PAGE_ONLY
from reportgen.readings.lever_types import State

EventKind = Literal["frost", "failure", "safety", "loss"]
# Why the line was crossed; the first that holds. A loss has the word of its own `cause` column instead.
HEAT_FAILED, TOO_COLD = "the heat failed", "colder than the heater can make good"
OPEN_OR_ALTERED = "something stood open or was altered"
HEAT_OUT, NOT_KNOWN = "the heat was out, by the diary", "not known"  # the first: nothing else recorded it
NO_HEAT_YET, NO_HEAT_ANY_MORE, UNHEATED = "no heat yet", "no heat any more", "unheated"

LeverVerdict = Literal[
    "not while that burns here",  # it tightens the house, and a fuel heater without a flue stays in it
    "not again",  # a heater whose fumes stayed in the house
    "leave undone",  # it hurt, or it was undone and that helped
    "keep",
    "keep with a condition",
    "not worth it",
    "try on and off",
    "change once",
    "cannot tell",  # refused, with the true reason
    "not judged",
]
PlanRow = Literal["Before the frost", "Sow", "Keep", "Undo", "Try", "Buy or put by", "Log"]
BY_TICKS = " on and off, by ticks"  # ends the words of a trial's row
AnswerWord = Literal["Yes", "Perhaps", "At most a little", "No", "Cannot tell"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Ends:
    """Two ends of what may be, without a middle; None where that end is not known."""

    low: float | None
    high: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class CropMet:
    """What one crop met in an event, and what was lost of it by that cause within 14 days."""

    crop: str
    bed: str | None
    coldest_c: float | None
    lost: float | None
    cause: str | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Event:
    """One thing that happened, however many measures saw it.

    `diary`: words of the lines of that time with their notes. `line_crossed_after_min`: minutes from the failure of
    the heat, as logged or by the diary's time, until the air crossed the frost line. `rank`: 0 is told first.
    """

    kind: EventKind
    cause: str
    start: pd.Timestamp
    end: pd.Timestamp
    line_crossed_after_min: float | None
    minimum_c: float | None
    place: str | None
    outdoor_c: float | None
    diary: tuple[str, ...]
    crops: tuple[CropMet, ...]
    rank: int = field(default=0, metadata=PAGE_ONLY)
    at: pd.Timestamp | None = field(default=None, metadata=PAGE_ONLY)  # of the coldest moment
    lines: tuple[int, ...] = field(default=(), metadata=PAGE_ONLY)  # of diary.csv
    levers: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # names of those that had a part in it
    source: str | None = field(default=None, metadata=PAGE_ONLY)  # the heater that failed or whose fumes stayed
    hours: float | None = field(default=None, metadata=PAGE_ONLY)  # below the line, or of a failure without heat
    nobody_noted: bool = field(default=False, metadata=PAGE_ONLY)  # the diary is kept, covers it and has no line
    days: int = field(default=0, metadata=PAGE_ONLY)  # of a safety conjunction; 0: not known by the day
    hazard: str | None = field(default=None, metadata=PAGE_ONLY)  # of fire or fumes, told before any plant
    flue_unsaid: bool = field(default=False, metadata=PAGE_ONLY)  # season.toml does not say whether that heater has one
    seen: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # marks of cold that inspections found
    nights: int = field(default=0, metadata=PAGE_ONLY)  # on which the line was crossed
    dated: bool = field(default=True, metadata=PAGE_ONLY)  # False: a loss of which only the planting's time is known
    heat_back: pd.Timestamp | None = field(default=None, metadata=PAGE_ONLY)  # when a failure ended
    diary_on: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # days of those lines; empty: the event's own

    @property
    def last_day(self) -> date:
        """The day on which it ended; of what ends at midnight the day before."""
        return max(self.start, self.end - pd.Timedelta(seconds=1)).date()


@dataclass(frozen=True, kw_only=True, slots=True)
class PriceSide:
    """One outcome that was not hoped for: what the lever did beside. `beyond_care`: its interval lies wholly beyond
    what matters, on the side that is worse."""

    outcome: str
    unit: str = field(metadata=PAGE_ONLY)
    effect: float
    low: float
    high: float
    level: float
    beyond_care: bool = field(default=False, metadata=PAGE_ONLY)
    before_mean: float = field(default=float("nan"), metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class JudgedLever:
    """One lever with both its sides and the one verdict that every page, plan row and answer says.

    `effect`, `low`, `high`: of the outcome hoped for, in its unit, signs turned so that it is the lever *on*.
    `spared_…`: since it was on; `winter_…`: what a whole winter like this one would be spared. `outcomes`: *on* against
    *off*, of a lever that was put on and taken off again; those of a lever of one line stand with it in `changes`.
    """

    name: str
    thing: str | None
    touches: tuple[str, ...]
    entries: tuple[date, ...]
    states: tuple[State, ...]
    hours_on: float
    hours_off: float
    verdict: LeverVerdict
    condition: str | None
    outcome: str | None
    effect: float | None
    low: float | None
    high: float | None
    level: float | None
    spared_kwh: Ends | None
    spared_money: Ends | None
    winter_kwh: Ends | None
    winter_money: Ends | None
    payback_winters: Ends | None  # high is None: perhaps never
    price: tuple[PriceSide, ...]
    unsafe_with: tuple[str, ...]  # names of the heaters that speak against it
    reasons: Mapping[str, str]
    outcomes: tuple[Outcome, ...] = ()
    unit: str = field(default="", metadata=PAGE_ONLY)
    lines: tuple[int, ...] = field(default=(), metadata=PAGE_ONLY)
    hoped: str | None = field(default=None, metadata=PAGE_ONLY)  # the hope it is judged on, in the diary's words
    relative: Ends | None = field(default=None, metadata=PAGE_ONLY)  # heat for each degree: share less, 0…1
    cost: float | None = field(default=None, metadata=PAGE_ONLY)
    years: float | None = field(default=None, metadata=PAGE_ONLY)
    on_now: bool = field(default=False, metadata=PAGE_ONLY)  # its last state
    undone_in_season: bool = field(default=False, metadata=PAGE_ONLY)
    saves_heat: bool = field(default=False, metadata=PAGE_ONLY)  # hoped to save heat: judged by payback
    flat_out: bool = field(default=False, metadata=PAGE_ONLY)  # part of what it spared went into warmth
    weight: float = field(default=0.0, metadata=PAGE_ONLY)  # the unfavourable end, in money or multiples of care
    counted_days: tuple[int, int] = field(default=(0, 0), metadata=PAGE_ONLY)  # off, on
    widened: float = field(default=1.0, metadata=PAGE_ONLY)  # by how much its own switches disagree; 1: they do not
    flue_unsaid: bool = field(default=False, metadata=PAGE_ONLY)  # of every heater that speaks against it, or of itself
    before_heat: bool = field(default=True, metadata=PAGE_ONLY)  # on before the first heated hour, or none was heated


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldAdvice:
    """How far the thermostat may come down, by the tenderest crop that stood; `reason` where nothing can be advised.

    `down_by_k`: None no advice, 0 the dial leaves no room. `usually_c`, `coldest_c`: what the air would be on the
    median and the coldest of such nights at that setting.
    """

    dial_c: float | None
    down_by_k: float | None
    usually_c: float | None
    coldest_c: float | None
    nights: int
    crop: str | None
    reason: str | None
    lowest_c: float | None = field(default=None, metadata=PAGE_ONLY)  # the dial then; None where none is written
    short_by_k: float | None = field(default=None, metadata=PAGE_ONLY)  # how much the dial is too low already
    limit_c: float | None = field(default=None, metadata=PAGE_ONLY)  # the crop's warmer end
    saves_money: Ends | None = field(default=None, metadata=PAGE_ONLY)
    saves_kwh: Ends | None = field(default=None, metadata=PAGE_ONLY)
    unknown_crops: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)  # without a known band
    flat_out_c: float | None = field(default=None, metadata=PAGE_ONLY)  # colder outdoors the dial decides nothing
    held_c: float | None = field(default=None, metadata=PAGE_ONLY)  # the dial; where none is written, the hold found
    tail_c: float | None = field(default=None, metadata=PAGE_ONLY)  # 19 of 20 such nights were warmer, at that setting
    unhardened: bool = field(default=False, metadata=PAGE_ONLY)  # 3 K of `limit_c` are for a mild week before
    weeks: tuple[date, ...] = field(default=(), metadata=PAGE_ONLY)  # Mondays for which it is advised
    stopped_weeks: tuple[date, ...] = field(default=(), metadata=PAGE_ONLY)  # in which an unknown crop stood
    flat_out_nights: int = field(default=0, metadata=PAGE_ONLY)  # left out: the heater had no more to give
    # The alarm line between the lowest setting and what was held: °C, hours of warning, rings and how many of them were
    # needed. `alarm_why`: "" where that line serves, else "no line", "silent", "for nothing", "minutes" or "not known".
    alarm_c: float | None = field(default=None, metadata=PAGE_ONLY)
    alarm_warning_h: float | None = field(default=None, metadata=PAGE_ONLY)
    alarm_rings: int = field(default=0, metadata=PAGE_ONLY)
    alarm_needed: int = field(default=0, metadata=PAGE_ONLY)
    alarm_why: str = field(default="not known", metadata=PAGE_ONLY)
    # Every night with its offset, and whether it counts (measures/dial.py, dial_nights); None without a heater.
    by_night: pd.DataFrame | None = field(default=None, compare=False, repr=False, metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class BalanceWeek:
    """One week: what its heat cost, what was picked in it and the four weeks after and is worth, and the share of that
    money spent on nights on which no standing crop needed it (1 − needed_share)."""

    week: str  # 2026-W03
    heat_money: float | None
    kg: float | None
    value: float | None
    needed_share: float | None
    heat_kwh: float | None = field(default=None, metadata=PAGE_ONLY)
    monday: date | None = field(default=None, metadata=PAGE_ONLY)
    stood: tuple[str, ...] = field(default=(), metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class Balance:
    """What it gave against what it took: everything or nothing; `missing` says what is not in it."""

    heat: float | None
    appliances: float | None
    costs: float | None
    changes_by_years: float | None
    total: float | None
    per_kg: float | None
    missing: tuple[str, ...]
    weeks: tuple[BalanceWeek, ...]
    reasons: Mapping[str, str]
    total_ends: Ends | None = field(default=None, metadata=PAGE_ONLY)  # of the total, where the heat's money has ends
    kg: float | None = field(default=None, metadata=PAGE_ONLY)
    shop_value: float | None = field(default=None, metadata=PAGE_ONLY)
    work_hours: float | None = field(default=None, metadata=PAGE_ONLY)
    not_needed_money: Ends | None = field(default=None, metadata=PAGE_ONLY)  # spent while no crop needed it
    judged_money: float | None = field(default=None, metadata=PAGE_ONLY)  # of the nights that could be judged
    hardy_from: date | None = field(default=None, metadata=PAGE_ONLY)  # earliest week for hardy crops alone
    hardy_until: date | None = field(default=None, metadata=PAGE_ONLY)  # last day of that run of weeks
    heat_kwh: float | None = field(default=None, metadata=PAGE_ONLY)
    needed: HeatNeeded | None = field(default=None, metadata=PAGE_ONLY)  # night by night, with its counts and reasons
    tender_value: float | None = field(default=None, metadata=PAGE_ONLY)  # picked of crops that needed heat, since then
    backup_money: float | None = field(default=None, metadata=PAGE_ONLY)  # heat of the backup heaters this winter


@dataclass(frozen=True, kw_only=True, slots=True)
class PlanStep:
    """One row of the plan: what to do from when to when, and why."""

    row: PlanRow
    from_: date
    to: date
    what: str  # ≤ 8 words
    why: str  # ≤ 12 words, with its number
    lever: str | None
    caution: str | None
    nights: tuple[tuple[date, bool], ...] = field(default=(), metadata=PAGE_ONLY)  # of a trial: night, on
    cost: float | None = field(default=None, metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class Answer:
    """A question of the grower with its answer; `why` ≤ 25 words with both sides, `sure` the sure-line."""

    ask: str
    about: str
    answer: str  # an AnswerWord, or one of them with what it is limited to ("In money, yes")
    why: str
    sure: str
    page: str = field(default="index", metadata=PAGE_ONLY)  # where the proof stands
    anchor: str | None = field(default=None, metadata=PAGE_ONLY)
    caution: str | None = field(default=None, metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class Grounds:
    """Decided before a word of findings, plan or answers is written."""

    events: tuple[Event, ...]
    levers: tuple[JudgedLever, ...]
    hold_advice: HoldAdvice
    balance: Balance

    def lever_of(self, line: int) -> JudgedLever | None:
        """The lever to which a line of the diary belongs."""
        return next((lever for lever in self.levers if line in lever.lines), None)


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """One of the five things that every short form of the review says, in their order; `safety` ones stand before them
    and do not count. `clause` ≤ 15 words is for a heading, `words` ≤ 40 a sentence with its number and both sides."""

    subject: Literal["safety", "event", "weeks", "lever", "undone", "hold"]
    clause: str
    words: str
    sure: str
    page: str
    lever: str | None = None
    caution: str | None = None
