"""What was bought for the house this winter or still serves in it: costs.csv and the diary put together, each once.

A thing counts whole where it has no `years`, or one at most; else by its price divided by its years. What was bought
before the season counts while its years last, and whole up to a year after. A thing that stands in both books counts
once, as costs.csv has it. Two lines are taken for one thing when

- they agree to the cent and lie within 14 days (the reader asks about these), or
- every longer word of the one stands in the other and they lie within 92 days.

Rows of one name in the diary (a spell that comes and goes) are one thing. An idea was not bought. Last winter's books
count as this winter's do: what still lasts, each thing once, and not again where this winter's books have it too.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from reportgen.readings.money_doubts import SAME_MONEY_D, same_money
from reportgen.readings.types import Cost, DiaryEntry, HeatSupply, Readings
from reportgen.units import YEAR_D

HOURS = "hours"  # kind of a row of costs.csv whose amount is hours of the grower's own work, not money
SAME_WORDS_D = 92  # our own line
LONGER = 4  # letters of a word that tells a thing from another


@dataclass(frozen=True, kw_only=True, slots=True)
class Thing:
    """Something paid for once. `share`: its part of this winter's money."""

    what: str
    date: dt.date
    amount: float
    years: float | None
    book: str  # costs.csv | diary.csv
    share: float
    before: bool = False  # from last winter's books

    @property
    def lasts(self) -> bool:
        """Whether it serves for longer than a year."""
        return self.years is not None and self.years > 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Things:
    """All of them; `twice`: names of those that stood in two books and count once; `past`: what no longer counts."""

    counted: tuple[Thing, ...]
    twice: tuple[str, ...]
    past: tuple[str, ...]


def things(readings: Readings, last: Readings | None = None) -> Things:
    """What costs.csv and the diary say was paid for, each thing once.

    Args:
        last: Last winter's readings, whose longer-lived things may still serve.
    """
    listed, twice = _listed(readings)
    first, until = readings.season.first_day, readings.season.last_day
    if last is not None:
        before = [one for one in _listed(last)[0] if one.lasts and one.date < first]
        listed += [replace(one, before=True) for one in before if not any(_again(one, now) for now in listed)]
    serves = {id(one): YEAR_D * max(one.years or 1.0, 1.0) for one in listed}
    counts = [one for one in listed if one.date <= until and (first - one.date).days < serves[id(one)]]
    return Things(
        counted=tuple(counts),
        twice=tuple(dict.fromkeys(twice)),
        past=tuple(one.what for one in listed if one not in counts),
    )


def _listed(readings: Readings) -> tuple[list[Thing], list[str]]:
    """Every thing of both books, and the names of those that stood in two."""
    rows = [cost for cost in readings.costs if cost.kind.casefold() != HOURS and cost.amount]
    twice = [row.what for row in rows if _delivered(row, readings.heating)]
    rows = [row for row in rows if not _delivered(row, readings.heating)]
    listed = [_thing(row.what, row.date, row.amount, row.years, "costs.csv") for row in rows]
    free = list(rows)
    for entry in _bought((*readings.diary_before, *readings.diary)):  # a cover of before the season serves in it too
        same = next((row for row in free if _same(entry, row)), None)
        if same is not None:
            free.remove(same)
            twice.append(entry.what)
        else:
            listed.append(_thing(entry.what, entry.date, entry.cost or 0.0, entry.years, "diary.csv"))
    return listed, twice


def _again(before: Thing, now: Thing) -> bool:
    """Whether a thing of last winter's books stands in this winter's with its old date and price."""
    return before.date == now.date and same_money(before.amount, now.amount)


def _thing(what: str, date: dt.date, amount: float, years: float | None, book: str) -> Thing:
    share = amount / years if years is not None and years > 1 else amount
    return Thing(what=what, date=date, amount=amount, years=years, book=book, share=share)


def _bought(diary: Sequence[DiaryEntry]) -> list[DiaryEntry]:
    """The dearest line of each thing in the diary that cost something."""
    found: dict[str, DiaryEntry] = {}
    for entry in diary:
        name = entry.what.casefold()
        if entry.kind != "idea" and entry.cost and entry.cost > (found[name].cost or 0.0 if name in found else 0.0):
            found[name] = entry
    return list(found.values())


def _same(entry: DiaryEntry, row: Cost) -> bool:
    apart = abs((entry.date - row.date).days)
    if same_money(entry.cost or 0.0, row.amount) and apart <= SAME_MONEY_D:
        return True
    one, other = _words(entry.what), _words(row.what)
    return apart <= SAME_WORDS_D and bool(one and other) and (one <= other or other <= one)


def _words(text: str) -> set[str]:
    return {word for word in re.findall(r"[^\W\d_]+", text.casefold()) if len(word) >= LONGER}


def _delivered(row: Cost, heating: Sequence[HeatSupply]) -> bool:
    """Whether the row is a delivery of fuel that the heating book has with its cost."""
    bought = [purchase for supply in heating if supply.stock is not None for purchase in supply.stock.purchases]
    return any(one.at.date() == row.date and same_money(one.paid, row.amount) for one in bought)
