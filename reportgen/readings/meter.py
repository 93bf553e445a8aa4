"""A running meter read now and then: the differences of its readings."""

from __future__ import annotations

from itertools import pairwise

import pandas as pd

from reportgen.problems import Level
from reportgen.readings.book_numbers import UNSHOWN, twofold
from reportgen.readings.bought import Bought, Stretch, in_season, noon, read_sums, tell_uncovered
from reportgen.readings.degree_hours import Pull
from reportgen.readings.ledger import Columns, Ledger, Row
from reportgen.readings.opening import open_ledger
from reportgen.season import Season
from reportgen.wording import count

NEARLY = 0.9  # of all that a meter's digits can show: from here it may have begun anew
LITTLE, LONG_D = 10.0, 14.0  # so few units in so many days, all written as 12.345, may be thousands; common practice
METER = Columns(needed=("date", "reading"), optional=("time", "estimated", "note"))


def read_meter(season: Season, file: str, pull: Pull) -> Bought:
    """Differences of the readings of a running meter; a reading without a time was taken at noon."""
    ledger = open_ledger(season.folder, file, METER)
    rows = sorted(
        (
            (at, reading, row.yes_no("estimated") or False, row)
            for row in ledger.rows()
            for at, reading in [(noon(row, season), row.number("reading", needed=True))]
            if at is not None and reading is not None
        ),
        key=lambda entry: entry[0],
    )
    _check(ledger, rows, season)
    numbers = read_sums([estimated for _, _, estimated, _ in rows[1:]])
    stretches = [
        Stretch(start=start, end=end, amount=then - first, cost=float("nan"), estimated=a or b, known_sum=number)
        for ((start, first, a, _), (end, then, b, _)), number in zip(pairwise(rows), numbers, strict=True)
    ]
    if stretches:
        tell_uncovered(ledger, stretches[0].start, stretches[-1].end, season)
    return in_season(ledger, stretches, season, pull)


def _check(ledger: Ledger, rows: list[tuple[pd.Timestamp, float, bool, Row]], season: Season) -> None:
    if len(rows) < 2 and not ledger.problems:
        todo = "write a reading from the first day of the season and one from the last"
        level: Level = "warning" if rows and season.so_far is not None else "problem"  # the second is still to come
        ledger.tell(
            "too-few-readings",
            found=count(len(rows), "reading"),
            expected="at least two",
            todo="read it again, and write it down" if level == "warning" else todo,
            level=level,
        )
    _ask_thousands(rows)
    for (start, first, _, _), (end, then, _, row) in pairwise(rows):
        if end == start:
            todo = "keep one of the two, or give both a time"
            row.fault("repeated-date", "date", f"a second reading of {start:%Y-%m-%d}", "one reading a date", todo)
        elif then < first:
            todo = "correct the reading; give a new meter a [[heating]] table of its own"
            full = 10 ** len(f"{first:.0f}")
            if first > NEARLY * full and then < (1 - NEARLY) * full:
                todo += f"; if it ran past its last digit, add {full:g} to this and all later readings"
            row.fault("meter-runs-back", "reading", f"{then:g} after {first:g}", f"at or above {first:g}", todo)


def _ask_thousands(rows: list[tuple[pd.Timestamp, float, bool, Row]]) -> None:
    """Asks where every reading is written as 12.345 and next to nothing was used: a point between thousands?"""
    if len(rows) < 2 or (rows[-1][0] - rows[0][0]) / pd.Timedelta(days=1) < LONG_D:
        return
    if rows[-1][1] - rows[0][1] < LITTLE and all(
        twofold(row.text("reading"), UNSHOWN, point=False) for *_, row in rows
    ):
        row = rows[0][3]
        row.number("reading", point=False)
