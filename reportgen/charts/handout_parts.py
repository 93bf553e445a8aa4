"""The parts of the handout, ready in words and SVG."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.counsel.grounds import PlanRow
from reportgen.drawing.effects import Row


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """How much stands on the sheet. `root`: points of one rem on paper; `low`: the season's picture is lower."""

    root: float
    rows: int  # of the effects
    notes: bool  # how we know
    dates: bool  # in the plan
    low: bool
    full: bool  # cautions in full at the foot; else those beside the rows, and where they come from
    clauses: int = 3


@dataclass(frozen=True, kw_only=True, slots=True)
class Warned:
    """A line of safety with its caution in a few words."""

    words: str
    caution: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Answered:
    """A question with its answer."""

    ask: str
    answer: str
    why: str
    sure: str


@dataclass(frozen=True, kw_only=True, slots=True)
class PlanLine:
    """What stands in one row of the plan, with the cautions of all of it beside it."""

    row: PlanRow
    steps: tuple[str, ...]
    caution: str  # as it stands beside the row
    cautions: tuple[str, ...]  # all of its cautions, each in a few words


@dataclass(frozen=True, kw_only=True, slots=True)
class SeasonPicture:
    """The season in one picture, for paper and desk, and for a phone."""

    title: str
    sub: str
    wide: str
    tall: str
    description: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Changes:
    """Changes with their doubt; without a judged one no picture, `flat` and `tall` are empty."""

    title: str
    sub: str
    refused: str
    rows: tuple[Row, ...]
    flat: str
    tall: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Kilogram:
    """What a kilogram (or pound) cost."""

    title: str
    note: str
    svg: str
    description: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Handout:
    """All of the handout."""

    title: str
    clauses: tuple[str, ...]  # of the heading, a sentence each
    safety: tuple[Warned, ...]
    answers: tuple[Answered, ...]
    season: SeasonPicture | None
    changes: Changes | None
    kilogram: Kilogram | None
    plan_title: str
    plan: tuple[PlanLine, ...]
    how: tuple[str, ...]  # paragraphs; () where there is no room
    care: tuple[str, ...]
    closing: str
    level: Level
