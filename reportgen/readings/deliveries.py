"""Deliveries: bottles, sacks, a tank. Bought on their day, burnt afterwards; `left` is what was still there.

`left` in a row is what was there on its day, before what came with it; in the last row it is what was there after the
last day. A row that brings nothing is a look at the stock: `left` is then what was there on its day, and, if no row
follows, still there after the last one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import pandas as pd

from reportgen.readings.bought import Bought, Stretch, check_cost, in_season, noon, tell_uncovered
from reportgen.readings.degree_hours import Pull
from reportgen.readings.ledger import Columns, Ledger, Row
from reportgen.readings.opening import open_ledger
from reportgen.readings.prices import price_at
from reportgen.readings.stock import Burnt, Level, Lot, burnt
from reportgen.readings.types import Purchase, Stock
from reportgen.season import HeatSource, Season

DELIVERIES = Columns(needed=("date", "amount"), optional=("time", "cost", "left", "note"))
BY_THE_BOTTLE, FEW_BOTTLES = ("kg", "L", "lb", "gal_us"), 4.0  # no bottle holds so little; common practice
LOOKED_D = 7.0  # a look at the stock this near to the first day settles what was there; our own line


@dataclass(frozen=True, kw_only=True, slots=True)
class _Delivery:
    at: pd.Timestamp
    amount: float
    cost: float | None
    left: float | None
    row: Row


def read_deliveries(season: Season, source: HeatSource, file: str, pull: Pull) -> Bought:
    """What was burnt of the deliveries in the season, when, and what had been paid for it."""
    ledger = open_ledger(season.folder, file, DELIVERIES)
    found = sorted((one for row in ledger.rows() if (one := _delivery(row, season)) is not None), key=lambda d: d.at)
    if not found and not ledger.problems:
        ledger.tell("too-few-readings", found="no delivery", expected="at least one", todo="write the deliveries down")
    _ask_bottles(ledger, found, source)
    rows = _until_the_end(ledger, found, season)
    pull = pull.as_stock(season.start.timestamp())
    if not rows:
        return in_season(ledger, (), season, pull)
    levels = _levels(ledger, rows, found[len(rows) :], season)
    lots = _lots(rows, levels[0].amount, source)
    result = burnt(lots, [Level(at=levels[0].at, amount=0.0), *levels[1:]], pull)
    stretches = [
        Stretch(
            start=_stamp(piece.start, season),
            end=_stamp(piece.end, season),
            amount=piece.used,
            cost=piece.paid,
            estimated=False,
            known_sum=piece.known_sum,
        )
        for piece in result.pieces  # those of nothing too: an empty store is known to give no heat
    ]
    tell_uncovered(ledger, rows[0].at, season.end, season, "write what was there")
    _tell_bought_before(ledger, rows, levels, season)
    book = in_season(ledger, stretches, season, pull)
    stock = _stock(rows, levels[0].amount, result, book, stretches)
    if not _left_is_written(rows, found[len(rows) :]):
        stock = replace(stock, unlooked_since=_stamp(levels[-2].at, season))
    return replace(book, stock=stock)


def _delivery(row: Row, season: Season) -> _Delivery | None:
    at, amount = noon(row, season), row.number("amount", needed=True)
    cost, left = row.number("cost", point=False), row.number("left")
    check_cost(row, cost, season)
    if at is None or amount is None:
        return None
    if cost and not amount:
        todo = "add it to the row of what was bought, or write it into costs.csv"
        row.fault("cost-of-nothing", "cost", f"{cost:g} for an amount of 0", "a cost beside an amount", todo)
    return _Delivery(at=at, amount=amount, cost=cost, left=left, row=row)


def _ask_bottles(ledger: Ledger, found: Sequence[_Delivery], source: HeatSource) -> None:
    """Asks where every delivery is of one to four whole units of a fuel that comes in bottles: bottles were counted?"""
    bought = [one for one in found if one.amount]
    if source.fuel != "propane" or source.unit not in BY_THE_BOTTLE or not bought:
        return
    if all(one.amount <= FEW_BOTTLES and one.amount.is_integer() for one in bought):
        ledger.tell(
            "bottles-counted",
            line=bought[0].row.line,
            column="amount",
            found=f"{bought[0].amount:g} {source.unit}, and no delivery of more than {FEW_BOTTLES:g} {source.unit}",
            expected=f"what came, in {source.unit}",
            todo="if these are bottles, write what is in them: 22 for two bottles of 11 kg, and unit in season.toml",
            level="warning",
        )


def _until_the_end(ledger: Ledger, found: Sequence[_Delivery], season: Season) -> list[_Delivery]:
    """The deliveries up to the last day; of later ones only what was left before them tells something."""
    for late in found:
        if late.at >= season.end and late.amount:
            runs = season.so_far is not None
            ledger.tell(
                "after-the-readings" if runs else "outside-season",
                line=late.row.line,
                column="date",
                found=f"a delivery after the last {'crop reading' if runs else 'day'}, {season.last_day}",
                expected=f"a day up to {season.last_day}",
                todo="leave it: it counts as soon as the logger is read again"
                if runs
                else "correct the day, or leave it: what came then is not counted",
                level="warning",
            )
    return [one for one in found if one.at < season.end]


def _levels(ledger: Ledger, rows: Sequence[_Delivery], late: Sequence[_Delivery], season: Season) -> list[Level]:
    """What was there: on the day of the first row, on every day on which it was written, and at the end."""
    told = next((one for one in late if one.left is not None), None)
    last = rows[-1]
    end = told.at.timestamp() if told is not None else season.end.timestamp()
    closing = told if told is not None else last
    later = [one for one in rows[1:] if one.left is not None and one.at > rows[0].at]
    over = told is not None or (not last.amount and last.at.date() < season.last_day)
    looked = [one for one in later if one is not last or over]
    opening = rows[0].left or 0.0 if len(rows) > 1 or told is not None else 0.0
    levels = [Level(at=rows[0].at.timestamp(), amount=opening)]
    levels += [Level(at=one.at.timestamp(), amount=one.left or 0.0) for one in looked]
    levels.append(Level(at=end, amount=closing.left or 0.0))
    _check_left(rows, levels, [*looked, closing])
    if closing.left is None:
        ledger.tell(
            "left-unsaid",
            line=last.row.line,
            column="left",
            found="no stock after the last day",
            expected=f"what was left after {season.last_day}",
            todo="write it down, 0 if nothing was; until then all counts as used by the last day",
            level="warning",
        )
    return levels


def _left_is_written(rows: Sequence[_Delivery], late: Sequence[_Delivery]) -> bool:
    """Whether somebody wrote what was there after the last day."""
    return rows[-1].left is not None or any(one.left is not None for one in late)


def _check_left(rows: Sequence[_Delivery], levels: Sequence[Level], told: Sequence[_Delivery]) -> None:
    """No more can be left than was there and came since; not asked where a row could not be read: it may have come."""
    if rows and any(problem.level == "problem" for problem in rows[0].row.ledger.problems):
        return
    for before, here, row in zip(levels, levels[1:], told, strict=False):
        came = sum(one.amount for one in rows if before.at <= one.at.timestamp() < here.at)
        most = before.amount + came
        if here.amount > most + 1e-9:
            expected = f"at most {most:g}: what was there before and what came since"
            row.row.fault("left-too-large", "left", f"{here.amount:g}", expected, "correct it, or add the delivery")


def _lots(rows: Sequence[_Delivery], opening: float, source: HeatSource) -> list[Lot]:
    """What was bought, with what was paid; what was there before is priced as on the day of the first row."""
    each = price_at(pd.DatetimeIndex([one.at for one in rows]), source.price, source.prices)
    paid = [one.amount * price if one.cost is None else one.cost for one, price in zip(rows, each, strict=True)]
    lots = [
        Lot(at=one.at.timestamp(), amount=one.amount, paid=float(money)) for one, money in zip(rows, paid, strict=True)
    ]
    first = Lot(at=rows[0].at.timestamp(), amount=opening, paid=float(opening * each[0]))
    return ([first] if opening > 0 else []) + [lot for lot in lots if lot.amount > 0]


def _stock(
    rows: Sequence[_Delivery], opening: float, result: Burnt, book: Bought, stretches: Sequence[Stretch]
) -> Stock:
    real = [one for one in rows if one.amount > 0]
    used = float(book.stretches["bought"].sum())
    return Stock(
        purchases=tuple(Purchase(at=one.at, amount=one.amount, paid=_paid(one)) for one in real),
        opening=opening,
        used_before=max(sum(stretch.amount for stretch in stretches) - used, 0.0),
        left=result.left,
        left_paid=result.left_paid,
    )


def _paid(one: _Delivery) -> float:
    return float("nan") if one.cost is None else one.cost


def _tell_bought_before(ledger: Ledger, rows: Sequence[_Delivery], levels: Sequence[Level], season: Season) -> None:
    """Stock of before the season of which nobody looked, on the first day, how much was there."""
    start, day = season.start.timestamp(), 86_400.0
    early = [one for one in rows if one.amount > 0 and one.at.timestamp() < start - LOOKED_D * day]
    if early and not any(abs(level.at - start) <= LOOKED_D * day for level in levels):
        ledger.tell(
            "stock-before-season",
            line=early[-1].row.line,
            column="date",
            found=f"stock of {early[-1].at:%Y-%m-%d}, {round((start - early[-1].at.timestamp()) / day)} days before "
            f"the season, and no word of what was there on {season.first_day}",
            expected="what was there on the first day",
            todo=f"add a row {season.first_day},0 with what was there under left; until then the cold alone says how "
            "much was burnt before, and days without outdoor readings burn none",
            level="warning",
        )


def _stamp(seconds: float, season: Season) -> pd.Timestamp:
    return pd.Timestamp(np.int64(round(seconds)), unit="s", tz="UTC").tz_convert(season.zone)
