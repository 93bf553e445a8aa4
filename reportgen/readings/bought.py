"""What was used by a running meter or by deliveries: sums between two dates, never an hour's figure."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import pandas as pd

from reportgen.problems import Problem
from reportgen.readings.ledger import Columns, Ledger, Row, open_ledger
from reportgen.season import Season

METER = Columns(needed=("date", "reading"), optional=("time", "estimated", "note"))
DELIVERIES = Columns(needed=("date", "amount"), optional=("time", "cost", "left", "note"))


@dataclass(frozen=True, kw_only=True, slots=True)
class Bought:
    """Amounts by stretch: columns start, end (zone-aware), bought, cost (NaN where not written), estimated."""

    stretches: pd.DataFrame
    problems: tuple[Problem, ...]


def read_meter(season: Season, file: str) -> Bought:
    """Differences of the readings of a running meter; a reading without a time was taken at noon."""
    ledger = open_ledger(season.folder, file, METER)
    rows = sorted(
        (
            (at, reading, row.yes_no("estimated") or False, row)
            for row in ledger.rows()
            for at, reading in [(_at(row, season), row.number("reading", needed=True))]
            if at is not None and reading is not None
        ),
        key=lambda entry: entry[0],
    )
    _check_meter(ledger, rows)
    stretches = [
        (start, end, then - first, float("nan"), before or after)
        for (start, first, before, _), (end, then, after, _) in pairwise(rows)
    ]
    return _bought(ledger, stretches, season)


def _check_meter(ledger: Ledger, rows: list[tuple[pd.Timestamp, float, bool, Row]]) -> None:
    if len(rows) < 2 and not ledger.problems:
        todo = "write a reading from the first day of the season and one from the last"
        ledger.tell("too-few-readings", found=f"{len(rows)} readings", expected="at least two", todo=todo)
    for (start, first, _, _), (end, then, _, row) in pairwise(rows):
        if end == start:
            todo = "keep one of the two, or give both a time"
            row.fault("repeated-date", "date", f"a second reading of {start:%Y-%m-%d}", "one reading a date", todo)
        elif then < first:
            todo = "correct the reading; give a new meter a [[heating]] table of its own"
            row.fault("meter-runs-back", "reading", f"{then:g} after {first:g}", f"at or above {first:g}", todo)


def read_deliveries(season: Season, file: str) -> Bought:
    """Each delivery spread from its date to the next; the last to the season's end, less what was left then."""
    ledger = open_ledger(season.folder, file, DELIVERIES)
    rows = sorted(
        (
            (at, amount, row.number("cost"), row)
            for row in ledger.rows()
            for at, amount in [(_at(row, season), row.number("amount", needed=True))]
            if at is not None and amount is not None
        ),
        key=lambda entry: entry[0],
    )
    if not rows and not ledger.problems:
        ledger.tell("too-few-readings", found="no delivery", expected="at least one", todo="write the deliveries down")
    left = _left(ledger, rows, season)
    ends = [at for at, *_ in rows[1:]] + [season.end]
    stretches: list[_Stretch] = []
    for (start, amount, cost, row), end in reversed(list(zip(rows, ends, strict=True))):
        _check_cost(row, cost, season)
        used = max(amount - left, 0.0)
        left = max(left - amount, 0.0)
        paid = float("nan") if cost is None or amount == 0 else cost * used / amount
        stretches.insert(0, (start, max(end, start), used, paid, False))
    return _bought(ledger, stretches, season)


def _check_cost(row: Row, cost: float | None, season: Season) -> None:
    if cost is not None and season.currency is None:
        todo = 'add currency = "EUR" (or your own) at the top of season.toml'
        row.fault("missing-currency", "cost", "an amount without a currency", "the key 'currency'", todo)


def _left(ledger: Ledger, rows: list[tuple[pd.Timestamp, float, float | None, Row]], season: Season) -> float:
    """Stock after the last day, which stands in the last row only."""
    written = [(row, value) for _, _, _, row in rows if (value := row.number("left")) is not None]
    for row, _ in written:
        if row is not rows[-1][3]:
            todo = "write it in the row of the last delivery"
            row.fault("left-not-last", "left", row.text("left"), "the stock after the last day, once", todo)
    left = written[-1][1] if written else 0.0
    total = sum(amount for _, amount, _, _ in rows)
    if left > total:
        written[-1][0].fault("left-too-large", "left", f"{left:g}", f"at most {total:g}, all deliveries", "correct it")
    if rows and not written:
        ledger.tell(
            "left-unsaid",
            line=rows[-1][3].line,
            column="left",
            found="no stock after the last day",
            expected=f"what was left after {season.last_day}",
            todo="write it down, 0 if nothing was; until then all counts as used by the last day",
            level="warning",
        )
    return left


def _at(row: Row, season: Season) -> pd.Timestamp | None:
    """The local time of a row; noon when only its date is known."""
    date, time = row.date("date", needed=True), row.time("time")
    if date is None:
        return None
    naive = pd.Timestamp(date) + (
        pd.Timedelta(hours=12) if time is None else pd.Timedelta(hours=time.hour, minutes=time.minute)
    )
    return naive.tz_localize(season.zone, ambiguous=True, nonexistent="shift_forward")


_Stretch = tuple[pd.Timestamp, pd.Timestamp, float, float, bool]


def _bought(ledger: Ledger, stretches: list[_Stretch], season: Season) -> Bought:
    inside = [part for stretch in stretches if (part := _inside(stretch, season)) is not None]
    _tell_uncovered(ledger, stretches, season)
    table = pd.DataFrame(inside, columns=["start", "end", "bought", "cost", "estimated"])
    table = table.astype({"bought": float, "cost": float, "estimated": bool})
    if table.empty:
        table = table.astype(
            {"start": f"datetime64[ns, {season.time_zone}]", "end": f"datetime64[ns, {season.time_zone}]"}
        )
    return Bought(stretches=table, problems=tuple(ledger.problems))


def _inside(stretch: _Stretch, season: Season) -> _Stretch | None:
    """The part of a stretch in the season, its amount and cost shared by time."""
    start, end, amount, cost, estimated = stretch
    first, last = max(start, season.start), min(end, season.end)
    if last <= first:
        return None
    share = (last - first) / (end - start)
    return first, last, amount * share, cost * share, estimated


def _tell_uncovered(ledger: Ledger, stretches: list[_Stretch], season: Season) -> None:
    """Days of the season before the first or after the last reading, of which nothing is known."""
    if not stretches or any(problem.level == "problem" for problem in ledger.problems):
        return
    before = (stretches[0][0] - season.start) / pd.Timedelta(days=1)
    after = (season.end - stretches[-1][1]) / pd.Timedelta(days=1)
    for days, found, todo in (
        (before, "it begins {} days after the season began", "read the meter, or write the stock, on the first day"),
        (after, "it ends {} days before the season ends", "read the meter on the last day"),
    ):
        if days > 1:
            ledger.tell(
                "heat-not-covered",
                found=found.format(round(days)),
                expected=f"{season.first_day} to {season.last_day}",
                todo=f"{todo}; heat used in those days is not counted",
                level="warning",
            )
