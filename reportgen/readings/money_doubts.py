"""The same amount of money in two books within a fortnight: one purchase written twice, or two? It is asked about."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from reportgen.problems import Problem
from reportgen.readings.types import Cost, DiaryEntry, HeatSupply

SAME_MONEY_D = 14  # days
CENT = 0.005


@dataclass(frozen=True, kw_only=True, slots=True)
class _Paid:
    """One amount in one book; `line` None in a book of deliveries, whose rows are told by their day."""

    file: str
    line: int | None
    date: dt.date
    what: str
    amount: float
    column: str


def same_money(one: float, other: float) -> bool:
    """Whether two amounts agree to the cent."""
    return abs(one - other) < CENT


def money_doubts(
    diary: Sequence[DiaryEntry], costs: Sequence[Cost], heating: Sequence[HeatSupply], files: Mapping[str, str]
) -> list[Problem]:
    """A warning for each amount of one book that stands in another within 14 days.

    Args:
        files: The file of each book (diary, costs) and, by its name, of each heater fed by deliveries.
    """
    books = [_of_diary(diary, files["diary"]), _of_costs(costs, files["costs"]), list(_of_deliveries(heating, files))]
    pairs = [
        (one, other)
        for first, second in combinations(books, 2)
        for one in first
        for other in second
        if same_money(one.amount, other.amount) and abs((one.date - other.date).days) <= SAME_MONEY_D
    ]
    return [_asked(one, other) for one, other in pairs]


def _of_diary(diary: Sequence[DiaryEntry], file: str) -> list[_Paid]:
    """The first line of each thing with its amount; an idea was not bought."""
    found: dict[tuple[str, float], _Paid] = {}
    for e in diary:
        if e.kind != "idea" and e.cost:
            one = _Paid(file=file, line=e.line, date=e.date, what=e.what, amount=e.cost, column="cost")
            found.setdefault((e.what.casefold(), e.cost), one)
    return list(found.values())


def _of_costs(costs: Sequence[Cost], file: str) -> list[_Paid]:
    return [
        _Paid(file=file, line=c.line, date=c.date, what=c.what, amount=c.amount, column="amount")
        for c in costs
        if c.amount and c.kind.casefold() != "hours"
    ]


def _of_deliveries(heating: Sequence[HeatSupply], files: Mapping[str, str]) -> Iterator[_Paid]:
    for supply in heating:
        for bought in supply.stock.purchases if supply.stock is not None else ():
            if bought.paid > 0:  # NaN where nobody wrote it
                yield _Paid(
                    file=files.get(supply.name, ""), line=None, date=bought.at.date(), what=supply.name,
                    amount=bought.paid, column="cost",
                )  # fmt: skip


def _asked(one: _Paid, other: _Paid) -> Problem:
    """The question; without the amount, for prices may be private."""
    there = f"{other.file}, line {other.line}" if other.line is not None else f"{other.file} of {other.date}"
    two = f"write both into {other.file}" if other.line is not None else "leave both as they are"
    return Problem(
        slug="paid-once-or-twice",
        file=one.file,
        line=one.line,
        column=one.column,
        found=f"the amount for “{one.what}” stands for “{other.what}” in {there} too, within {SAME_MONEY_D} days",
        expected="one purchase in one book",
        todo=f"if it is one purchase, leave the {one.column} here empty; if it is two, {two}",
        level="warning",
    )
