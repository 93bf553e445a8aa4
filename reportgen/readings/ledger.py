"""The rows of a hand-kept table (a book, a meter, deliveries): each cell read as what it should be, every fault with
its line and column."""

from __future__ import annotations

import datetime as dt
import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from reportgen.readings.book_days import advice, clock_in, day_of, either_way
from reportgen.readings.book_numbers import UNSHOWN, Marks, number_in, number_of, twofold
from reportgen.readings.faults import Faults
from reportgen.season.base import FIRST_YEAR, LAST_YEAR
from reportgen.units import FOOT_M, GALLON_L, INCH_M, POUND_KG

MOST = 1e12  # above every amount, reading or price of a garden: what lies beyond is a slip of the pen
DAYS_SINCE_1899 = 5  # digits of a day of these centuries, as a workbook keeps it
NO_NUMBER = "correct this number"
LONGEST_NUMBER = 40  # digits, as told
LONGEST_WORD = 200  # letters; as the names of season.toml: a longer cell is no slip of the pen
_CLOCK = re.compile(r"(?:(\d{1,2})[:.h](\d{2})(?::\d{2})?|(\d{1,2})(?=\s*[ap]))\s*(?:([ap])\.?\s?m\.?)?", re.I)
# columns of numbers by which the mark of decimals is worked out
NUMBERED = ("weight", "amount", "cost", "reading", "left", "litres", "area_m2", "price_per_kg", "years", "spacing_cm")


def nearest(word: str, known: Sequence[str], cutoff: float = 0.0) -> str | None:
    """The known word most like this one, whatever its case; None when none is like enough."""
    if len(word) > LONGEST_WORD:
        return None
    lowered = {name.lower(): name for name in known}
    found = difflib.get_close_matches(word.lower(), list(lowered), n=1, cutoff=cutoff)
    return lowered[found[0]] if found else None


# A column in US units → the one whose place it takes, and what its numbers are multiplied by (exact, NIST SP 811).
TWINS: Mapping[str, tuple[str, float]] = MappingProxyType(
    {
        "area_ft2": ("area_m2", FOOT_M**2),
        "spacing_in": ("spacing_cm", 100 * INCH_M),
        "gallons": ("litres", GALLON_L),
        "price_per_lb": ("price_per_kg", 1 / POUND_KG),
    }
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Columns:
    """The columns a file may have, in the order they are usually written."""

    needed: tuple[str, ...]
    optional: tuple[str, ...] = ()

    @property
    def known(self) -> tuple[str, ...]:
        """All of them, each with the one that may stand for it in other units."""
        return self.own + tuple(twin for twin, (name, _) in TWINS.items() if name in self.own)

    @property
    def own(self) -> tuple[str, ...]:
        """All of them in metric units."""
        return self.needed + self.optional


@dataclass(kw_only=True, slots=True)
class Ledger(Faults):
    """One file while it is read: its rows and the faults found so far.

    `day_first` says how slashed dates are read: True 31/12, False 12/31, None where the file does not settle it;
    `marks`: those of its
    numbers. `unit`: of the weights, where the name of their column says it.
    """

    header: tuple[str, ...] = ()
    twins: dict[str, str] = field(default_factory=dict)  # column that is asked for → the one written in its place
    lines: list[tuple[int, list[str]]] = field(default_factory=list)
    day_first: bool | None = None
    marks: Marks = UNSHOWN
    unit: str = ""

    def rows(self) -> Iterator[Row]:
        """Every non-blank row below the header."""
        for line, cells in self.lines:
            texts = dict(zip(self.header, (cell.strip() for cell in cells), strict=False))
            yield Row(ledger=self, line=line, cells=texts)


@dataclass(kw_only=True, slots=True)
class Row:
    """One row; its getters give the value or None and note what cannot be read; `good` says that all could."""

    ledger: Ledger
    line: int
    cells: Mapping[str, str]
    good: bool = True

    def fault(self, slug: str, column: str, found: str, expected: str, todo: str) -> None:
        """Notes a fault of this row, which is then not used."""
        self.good = False
        column = self.ledger.twins.get(column, column)
        self.ledger.tell(slug, line=self.line, column=column, found=found, expected=expected, todo=todo)

    def text(self, column: str, needed: bool = False) -> str:
        """The cell as it stands; empty when missing."""
        column = self.ledger.twins.get(column, column)
        cell = self.cells.get(column, "")
        if needed and not cell:
            self.fault("empty-cell", column, "an empty cell", f"a {column}", "fill it in, or take the row out")
        return cell

    def date(self, column: str, needed: bool = False) -> dt.date | None:
        """A day: 2026-01-14, 14.01.2026, or with slashes where the file settles which is the day."""
        cell = self.text(column, needed)
        if not cell:
            return None
        value = day_of(cell, self.ledger.day_first)
        if value is None:
            self._not_a_date(column, cell)
        elif not FIRST_YEAR <= value.year <= LAST_YEAR:
            expected = f"a day of the years {FIRST_YEAR} to {LAST_YEAR}"
            self.fault("not-a-date", column, repr(cell), expected, "correct the year")
        return value

    def day_or_words(self, column: str) -> str:
        """A day as 2026-01-14 however it is written, or the words as they stand."""
        cell = self.text(column)
        value = day_of(cell, self.ledger.day_first)
        return cell if value is None else value.isoformat()

    def _not_a_date(self, column: str, cell: str) -> None:
        if either_way(cell) and self.ledger.day_first is None:
            readings = " or ".join(f"{day_of(cell, first)}" for first in (True, False))
            todo = "write the dates of this file as 2026-01-14"
            self.fault("day-or-month", column, f"{cell!r}: {readings}", "a date with one meaning", todo)
        else:
            bare = self.ledger.sheet and cell.isdigit() and len(cell) == DAYS_SINCE_1899
            todo = "give the cells of this column the form of a date" if bare else advice(cell, column)
            self.fault("not-a-date", column, repr(cell), "a date such as 2026-01-14", todo)

    def time(self, column: str) -> dt.time | None:
        """A time of day such as 18:30 or 6:30 pm, if any; where its own cell is empty that of the date."""
        cell = self.text(column) or clock_in(self.cells.get("date", ""))
        if not cell:
            return None
        if (found := _CLOCK.fullmatch(cell)) is not None:
            hour, minute, half = int(found[1] or found[3]), int(found[2] or 0), (found[4] or "").lower()
            if minute < 60 and (1 <= hour <= 12 if half else hour < 24):
                return dt.time(hour % 12 + 12 * (half == "p") if half else hour, minute)
        self.fault("not-a-time", column, repr(cell), "a time such as 18:30", "correct this time or leave it empty")
        return None

    def number(
        self,
        column: str,
        needed: bool = False,
        least: float | None = 0.0,
        most: float = MOST,
        point: bool = True,
        cell: str | None = None,
    ) -> float | None:
        """A number, point or comma as the decimal mark, from `least` to `most`. `point` False: three digits behind a
        point are asked about too (1.250 of money). `cell`: what to read in place of the cell as it stands."""
        cell = self.text(column, needed) if cell is None else cell
        if not cell:
            return None
        if (both := twofold(cell, self.ledger.marks, point)) is not None:
            todo = f"write {both[0]} or {both[1]}"
            self.fault("point-or-comma", column, repr(cell), "a number with one meaning", todo)
            return None
        value = number_of(cell, self.ledger.marks)
        if value is None:
            alone = number_in(cell)
            todo = f"write {alone} alone, without sign or unit, if it is in the usual one" if alone else NO_NUMBER
            self.fault("not-a-number", column, repr(cell), "a plain number such as 1.25", todo)
            return None
        if least is not None and value < least:
            self.fault("number-too-small", column, cell, f"at or above {least:g}", NO_NUMBER)
            return None
        if value > most:
            told = cell if len(cell) <= LONGEST_NUMBER else f"a number of {len(cell)} digits"
            self.fault("number-too-large", column, told, f"at or below {most:g}", NO_NUMBER)
            return None
        return value * TWINS[self.ledger.twins[column]][1] if column in self.ledger.twins else value

    def word(self, column: str, known: Sequence[str], default: str = "", needed: bool = False) -> str:
        """One of the known words, whatever its case."""
        cell = self.text(column, needed)
        return self._known(column, cell, known) if cell else default

    def words(self, column: str, known: Sequence[str]) -> tuple[str, ...]:
        """Known words separated by semicolons or commas, in the order written."""
        parts = [part.strip() for part in re.split("[;,]", self.text(column)) if part.strip()]
        return tuple(self._known(column, part, known) for part in parts)

    def _known(self, column: str, cell: str, known: Sequence[str]) -> str:
        lowered = {name.lower(): name for name in known}
        if (name := lowered.get(" ".join(cell.lower().split()))) is not None:
            return name
        near = nearest(cell, known, 0.6)
        todo = f"did you mean {near!r}?" if near else "write one of these words"
        self.fault("unknown-word", column, repr(cell), f"one of: {', '.join(known)}", todo)
        return ""

    def yes_no(self, column: str) -> bool | None:
        """yes or no, None when empty."""
        word = self.word(column, ("yes", "no", "true", "false", "1", "0"))
        return None if not word else word in ("yes", "true", "1")
