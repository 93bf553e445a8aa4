"""Bills: each tells what was used up to its date, from its `from` or from the end of the bill before.

A bill covers whole local days: from the beginning of `from` to the end of `date`. Where `from` is the date on which
the bill before ended, both were read on that day, and the day belongs to the earlier one.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from itertools import pairwise

import pandas as pd

from reportgen.readings.bought import Bought, Stretch, check_cost, in_season, read_sums, tell_uncovered
from reportgen.readings.degree_hours import Pull
from reportgen.readings.ledger import Columns, Ledger, Row
from reportgen.readings.opening import open_ledger
from reportgen.season import Season
from reportgen.season.settings_doubts import DEAR_KWH, IN_CENTS

BILLS = Columns(needed=("date", "amount"), optional=("cost", "from", "estimated", "note"))


@dataclass(frozen=True, kw_only=True, slots=True)
class _Bill:
    date: dt.date
    first: dt.date | None
    amount: float
    cost: float | None
    estimated: bool
    row: Row


def read_bills(season: Season, file: str, pull: Pull, unit: str = "") -> Bought:
    """One stretch a bill; a bill that ended before the season only says where the next one begins."""
    ledger = open_ledger(season.folder, file, BILLS)
    bills = sorted((bill for row in ledger.rows() if (bill := _bill(row, season)) is not None), key=lambda b: b.date)
    if not bills and not ledger.problems:
        ledger.tell("too-few-readings", found="no bill", expected="at least one", todo="write the bills down")
    _ask_exchanged(ledger, bills, unit, season)
    stretches = _stretches(bills, season)
    known = [stretch for stretch in stretches if stretch is not None]
    if known:
        tell_uncovered(ledger, known[0].start, known[-1].end, season, "write down the bill or a reading")
        _tell_holes(ledger, known, season)
    return in_season(ledger, known, season, pull)


def _ask_exchanged(ledger: Ledger, bills: list[_Bill], unit: str, season: Season) -> None:
    """Asks where each bill's kWh cost more than any does: amount and cost may stand in each other's column."""
    dear = [b for b in bills if b.cost is not None and b.cost > DEAR_KWH * b.amount > 0]
    if unit == "kWh" and season.currency in IN_CENTS and dear and len(dear) == sum(b.cost is not None for b in bills):
        first = dear[0]
        ledger.tell(
            "price-in-cents",
            line=first.row.line,
            column="cost",
            found=f"{first.cost:g} {season.currency} for {first.amount:g} kWh",
            expected=f"less than {DEAR_KWH:g} {season.currency} a kWh",
            todo="exchange amount and cost if they stand in each other's column; write the cost in whole units",
            level="warning",
        )


def _bill(row: Row, season: Season) -> _Bill | None:
    date, amount = row.date("date", needed=True), row.number("amount", needed=True)
    first, cost, estimated = row.date("from"), row.number("cost", point=False), row.yes_no("estimated") or False
    check_cost(row, cost, season)
    if date is None or amount is None:
        return None
    if first is not None and first > date:
        todo = "correct one of the two days"
        row.fault("dates-out-of-order", "from", f"{first} after {date}", "a day at or before date", todo)
    return _Bill(date=date, first=first, amount=amount, cost=cost, estimated=estimated, row=row)


def _stretches(bills: list[_Bill], season: Season) -> list[Stretch | None]:
    """None for a bill whose beginning is not known."""
    numbers = read_sums([bill.estimated for bill in bills])
    before: _Bill | None = None
    out: list[Stretch | None] = []
    for bill, number in zip(bills, numbers, strict=True):
        start = _begin(bill, before, season)
        doubtful = bill.estimated or (before is not None and before.estimated)
        out.append(
            None
            if start is None
            else Stretch(
                start=start,
                end=season.midnight(bill.date + dt.timedelta(days=1)),
                amount=bill.amount,
                cost=float("nan") if bill.cost is None else bill.cost,
                estimated=doubtful,
                known_sum=number,
            )
        )
        before = bill
    return out


def _begin(bill: _Bill, before: _Bill | None, season: Season) -> pd.Timestamp | None:
    if before is not None and before.date == bill.date:
        todo = "keep one of the two, or add them up"
        bill.row.fault("repeated-date", "date", f"a second bill to {bill.date}", "one bill a date", todo)
        return None
    ended = None if before is None else before.date + dt.timedelta(days=1)
    if bill.first is None:
        if ended is None and bill.date >= season.first_day:
            found, todo = "the first bill, without the day on which it begins", "write that day into from"
            bill.row.fault("bill-without-begin", "from", found, "the first day that it covers", todo)
        return None if ended is None else season.midnight(ended)
    if before is not None and ended is not None and bill.first < before.date:
        found, expected = f"from {bill.first}, while the bill before ends on {before.date}", f"{before.date} or later"
        bill.row.fault("bills-overlap", "from", found, expected, "correct one of the two days: no day is paid twice")
        return None
    return season.midnight(bill.first if ended is None else max(bill.first, ended))


def _tell_holes(ledger: Ledger, stretches: list[Stretch], season: Season) -> None:
    """Days of the season between two bills that neither covers."""
    for one, other in pairwise(stretches):
        first, last = max(one.end, season.start), min(other.start, season.end)
        if (last - first) / pd.Timedelta(days=1) > 1:
            ledger.tell(
                "heat-not-covered",
                found=f"no bill for {first:%Y-%m-%d} to {last - pd.Timedelta(hours=1):%Y-%m-%d}",
                expected="bills that follow on one another",
                todo="add the bill that is missing, or correct from; heat used in those days is not counted",
                level="warning",
            )
