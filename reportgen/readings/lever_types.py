"""What the grower set and what they ask, as frozen values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

import pandas as pd

from reportgen.plain import PAGE_ONLY


@dataclass(frozen=True, kw_only=True, slots=True)
class State:
    """A stretch of the season in which a lever stood one way."""

    from_: pd.Timestamp
    to: pd.Timestamp
    on: bool

    @property
    def hours(self) -> float:
        """Its length [h]."""
        return (self.to - self.from_) / pd.Timedelta(hours=1)


@dataclass(frozen=True, kw_only=True, slots=True)
class Lever:
    """One thing the grower set, with all its lines of the diary and its states over the whole season.

    `hours_on` and `hours_off` are the hours *since* and *before* of a change; of a spell, or of what was undone again,
    the hours with and without it.
    """

    name: str  # as its first line says
    thing: str | None
    touches: tuple[str, ...]
    entries: tuple[dt.date, ...]  # of its lines, in order of time
    states: tuple[State, ...]
    hours_on: float
    hours_off: float
    reasons: Mapping[str, str]
    lines: tuple[int, ...] = field(metadata=PAGE_ONLY)  # of diary.csv, in the order of `entries`
    undone: Mapping[int, int] = field(metadata=PAGE_ONLY)  # line → the line it takes back


@dataclass(frozen=True, kw_only=True, slots=True)
class Asked:
    """A question of the grower: about one of the subjects (season.models.TOPICS), or about a line of the diary."""

    ask: str
    topic: str | None
    line: int | None  # of diary.csv; of a lever, the first that was named
