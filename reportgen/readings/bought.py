"""Sums between two dates, whatever book tells them: put into the season by degree-hours, never an hour's figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pandas as pd

from reportgen.problems import Problem
from reportgen.readings.degree_hours import Pull
from reportgen.readings.ledger import Ledger, Row
from reportgen.readings.types import Stock
from reportgen.season import Season

COLUMNS = ["start", "end", "bought", "cost", "estimated", "known_sum"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Stretch:
    """A known amount between two instants; `cost` NaN where not written. Stretches of one `known_sum` share what was
    really read: the parts between them rest on an estimate, or on the cold alone."""

    start: pd.Timestamp
    end: pd.Timestamp
    amount: float
    cost: float
    estimated: bool
    known_sum: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Bought:
    """What a book tells of the season: one row a stretch, columns start, end (zone-aware), bought, cost (NaN where not
    written), estimated, known_sum. `stock` of deliveries; `shared_by`: "cold" | "time"."""

    stretches: pd.DataFrame
    problems: tuple[Problem, ...]
    shared_by: str
    stock: Stock | None = None


def noon(row: Row, season: Season) -> pd.Timestamp | None:
    """The local time of a row; noon when only its date is known."""
    date, time = row.date("date", needed=True), row.time("time")
    if date is None:
        return None
    naive = pd.Timestamp(date) + (
        pd.Timedelta(hours=12) if time is None else pd.Timedelta(hours=time.hour, minutes=time.minute)
    )
    return naive.tz_localize(season.zone, ambiguous=True, nonexistent="shift_forward")


def check_cost(row: Row, cost: float | None, season: Season) -> None:
    """Money needs a currency."""
    if cost is not None and season.currency is None:
        todo = 'add currency = "EUR" (or your own) at the top of season.toml'
        row.fault("missing-currency", "cost", "an amount without a currency", "the key 'currency'", todo)


def read_sums(estimated: Sequence[bool]) -> list[int]:
    """Numbers of the known sums, one a stretch: what ends on an estimate belongs with the stretch after it.

    Args:
        estimated: Whether each stretch ends on an estimated reading.
    """
    numbers, here = [], 0
    for ends_on_estimate in estimated:
        numbers.append(here)
        here += not ends_on_estimate
    return numbers


def in_season(ledger: Ledger, stretches: Sequence[Stretch], season: Season, pull: Pull) -> Bought:
    """The part of every stretch in the season, its amount and cost shared by the pull of the cold."""
    rows = [part for stretch in stretches if (part := _inside(stretch, season, pull)) is not None]
    table = pd.DataFrame(rows, columns=COLUMNS)
    table = table.astype({"bought": float, "cost": float, "estimated": bool, "known_sum": int})
    if table.empty:
        stamps = f"datetime64[ns, {season.time_zone}]"
        table = table.astype({"start": stamps, "end": stamps})
    return Bought(stretches=table, problems=tuple(ledger.problems), shared_by=pull.how)


def _inside(stretch: Stretch, season: Season, pull: Pull) -> tuple[object, ...] | None:
    first, last = max(stretch.start, season.start), min(stretch.end, season.end)
    if last <= first:
        return None
    whole = stretch.start.timestamp(), stretch.end.timestamp()
    share = 1.0 if (first, last) == (stretch.start, stretch.end) else pull.share(*whole, *_seconds(first, last))
    return first, last, stretch.amount * share, stretch.cost * share, stretch.estimated, stretch.known_sum


def _seconds(first: pd.Timestamp, last: pd.Timestamp) -> tuple[float, float]:
    return first.timestamp(), last.timestamp()


def tell_uncovered(
    ledger: Ledger, begun: pd.Timestamp | None, ended: pd.Timestamp | None, season: Season, what: str = "read the meter"
) -> None:
    """Days of the season before the first or after the last row, of which nothing is known."""
    if begun is None or ended is None or any(problem.level == "problem" for problem in ledger.problems):
        return
    before = (begun - season.start) / pd.Timedelta(days=1)
    after = (season.end - ended) / pd.Timedelta(days=1)
    for days, found, todo in (
        (before, "it begins {} days after the season began", f"{what} on the first day"),
        (after, "it ends {} days before the season ends", f"{what} on the last day"),
    ):
        if days > 1:
            ledger.tell(
                "heat-not-covered",
                found=found.format(round(days)),
                expected=f"{season.first_day} to {season.last_day}",
                todo=f"{todo}; heat used in those days is not counted",
                level="warning",
            )
