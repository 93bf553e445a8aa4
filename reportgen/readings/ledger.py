"""Reads one hand-kept table (a book, a meter, deliveries; CSV, XLSX or ODS) into rows of text; every fault has its line
and column."""

from __future__ import annotations

import csv
import datetime as dt
import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

from reportgen import limits
from reportgen.disk import Unreadable, inside, read_inside, too_much
from reportgen.limits import Limit
from reportgen.readings.faults import Faults
from reportgen.readings.layout import DELIMITERS, split
from reportgen.readings.sheet import SHEETS, as_book, sheet_rows
from reportgen.season.base import FIRST_YEAR, LAST_YEAR
from reportgen.units import FOOT_M, GALLON_L, INCH_M, POUND_KG

_NUMBER = re.compile(r"^[+-]?\d+(?:[.,]\d+)?$")
_THOUSANDS = re.compile(r"^[+-]?[1-9]\d{0,2},\d{3}$")
_ISO = re.compile(r"^(\d{4})-(\d{1,2})-(\d{1,2})$")
_DOTTED = re.compile(r"^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$")
_SLASHED = re.compile(r"^(\d{1,2})/(\d{1,2})/(\d{4})$")
MOST = 1e12  # above every amount, reading or price of a garden: what lies beyond is a slip of the pen
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")  # no letter, and no page can hold them
DAYS_SINCE_1899 = 5  # digits of a day of these centuries, as a workbook keeps it
LONGEST_NUMBER = 40  # digits, as told
LONGEST_WORD = 200  # letters; as the names of season.toml: a longer cell is no slip of the pen
_CLOCK = re.compile(r"^(\d{1,2}):(\d{2})(?::\d{2})?$")


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

    `day_first` says how slashed dates are read: True 31/12, False 12/31, None where the file does not settle it.
    """

    header: tuple[str, ...] = ()
    twins: dict[str, str] = field(default_factory=dict)  # column that is asked for → the one written in its place
    lines: list[tuple[int, list[str]]] = field(default_factory=list)
    day_first: bool | None = None

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
        value = _date(cell, self.ledger.day_first)
        if value is None:
            self._not_a_date(column, cell)
        elif not FIRST_YEAR <= value.year <= LAST_YEAR:
            expected = f"a day of the years {FIRST_YEAR} to {LAST_YEAR}"
            self.fault("not-a-date", column, repr(cell), expected, "correct the year")
        return value

    def day_or_words(self, column: str) -> str:
        """A day as 2026-01-14 however it is written, or the words as they stand."""
        cell = self.text(column)
        value = _date(cell, self.ledger.day_first)
        return cell if value is None else value.isoformat()

    def _not_a_date(self, column: str, cell: str) -> None:
        slashed = _SLASHED.match(cell)
        both = slashed and int(slashed[1]) <= 12 and int(slashed[2]) <= 12
        if both and self.ledger.day_first is None:
            readings = " or ".join(f"{_date(cell, first)}" for first in (True, False))
            todo = "write the dates of this file as 2026-01-14"
            self.fault("day-or-month", column, f"{cell!r}: {readings}", "a date with one meaning", todo)
        else:
            bare = self.ledger.sheet and cell.isdigit() and len(cell) == DAYS_SINCE_1899
            todo = "give the cells of this column the form of a date" if bare else "correct this date"
            self.fault("not-a-date", column, repr(cell), "a date such as 2026-01-14", todo)

    def time(self, column: str) -> dt.time | None:
        """A time of day such as 18:30, if any."""
        cell = self.text(column)
        if not cell:
            return None
        found = _CLOCK.match(cell)
        if found and int(found[1]) < 24 and int(found[2]) < 60:
            return dt.time(int(found[1]), int(found[2]))
        self.fault("not-a-time", column, repr(cell), "a time such as 18:30", "correct this time or leave it empty")
        return None

    def number(self, column: str, needed: bool = False, least: float | None = 0.0, most: float = MOST) -> float | None:
        """A number, point or comma as the decimal mark, from `least` to `most`."""
        cell = self.text(column, needed).replace("\u2212", "-")
        if not cell:
            return None
        if _THOUSANDS.match(cell):
            todo = f"write {cell.replace(',', '')} or {cell.replace(',', '.')}"
            self.fault("point-or-comma", column, repr(cell), "a number with one meaning", todo)
            return None
        if not _NUMBER.match(cell):
            self.fault("not-a-number", column, repr(cell), "a plain number such as 1.25", "correct this number")
            return None
        value = float(cell.replace(",", "."))
        if least is not None and value < least:
            self.fault("number-too-small", column, cell, f"at or above {least:g}", "correct this number")
            return None
        if value > most:
            told = cell if len(cell) <= LONGEST_NUMBER else f"a number of {len(cell)} digits"
            self.fault("number-too-large", column, told, f"at or below {most:g}", "correct this number")
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


def open_ledger(
    folder: Path, file: str, columns: Columns, most: Limit | None = None, sheet: str | None = None
) -> Ledger:
    """The rows of a file below its header, `most` of them (limits.BOOK_ROWS unless told); faults of the file as a
    whole are noted and then it has no rows. `sheet`: of a workbook, the one to read; the first unless told."""
    ledger = Ledger(file=file)
    in_workbook = file.lower().endswith(SHEETS)
    numbered = _of_sheet(folder, file, sheet, ledger) if in_workbook else _of_text(folder, file, ledger)
    if numbered is None:
        return ledger
    if not numbered:
        ledger.tell(
            "empty-file",
            found="no header",
            expected=f"a first line such as {','.join(columns.needed)}",
            todo="write it, or take the file out of the folder",
        )
        return ledger
    if not _not_too_much(ledger, numbered, most or limits.BOOK_ROWS):
        return ledger
    _head(ledger, numbered[0], columns)
    if not any(problem.level == "problem" for problem in ledger.problems):
        ledger.lines = [entry for entry in numbered[1:] if _fits(ledger, entry)]
        ledger.day_first = _day_first(ledger)
    return ledger


Numbered = list[tuple[int, list[str]]]


def _of_text(folder: Path, file: str, ledger: Ledger) -> Numbered | None:
    text = _text(folder, file, ledger)
    if text is None:
        return None
    rows = csv.reader(text.splitlines(keepends=True), delimiter=_delimiter(text))
    try:
        return [(rows.line_num, cells) for cells in rows if any(cell.strip() for cell in cells)]
    except csv.Error as error:
        ledger.tell("not-a-table", line=rows.line_num, found=str(error), expected="CSV", todo="mend the quotes here")
        return None


def _of_sheet(folder: Path, file: str, sheet: str | None, ledger: Ledger) -> Numbered | None:
    """The rows of a sheet that hold anything, numbered as the workbook shows them."""
    try:
        ledger.sheet, rows = sheet_rows(inside(folder, file), sheet)
    except Unreadable as error:
        ledger.tell(error.slug, found=error.found, expected="a workbook with that sheet", todo=error.todo)
        return None
    cells = ([_CONTROL.sub(" ", as_book(cell)) for cell in row] for row in rows)
    return [(number, row) for number, row in enumerate(cells, start=1) if any(cell.strip() for cell in row)]


def _not_too_much(ledger: Ledger, numbered: Sequence[tuple[int, list[str]]], most: Limit) -> bool:
    found = [
        (limit, f"{count:,} {words}")
        for limit, count, words in (
            (most, len(numbered) - 1, "rows"),
            (limits.COLUMNS, len(numbered[0][1]), "columns"),
        )
        if count > limit.most
    ]
    for limit, words in found:
        told = too_much(limit, words)
        ledger.tell(told.slug, found=told.found, expected=limit.words, todo=told.todo)
    return not found


def _text(folder: Path, file: str, ledger: Ledger) -> str | None:
    try:
        raw = read_inside(folder, file, limits.BOOK_BYTES)
    except Unreadable as error:
        ledger.tell(error.slug, found=error.found, expected="a file in the season folder", todo=error.todo)
        return None
    if b"\0" in raw[:4] or raw[:4] == b"PK\x03\x04":
        todo = "save it as CSV (UTF-8), XLSX or ODS in your spreadsheet program"
        ledger.tell("not-a-table", found="a file that is no plain text", expected="CSV", todo=todo)
        return None
    return _CONTROL.sub(" ", _decoded(raw).replace("\r\n", "\n").replace("\r", "\n"))


def _decoded(raw: bytes) -> str:
    """UTF-8 if it is, else the Western European code page of older spreadsheets (every byte has a letter)."""
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return raw.decode("utf-16", errors="replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace")


def _delimiter(text: str) -> str:
    """The mark that splits the header into most cells; a comma when none does."""
    header = next((line for line in text.splitlines() if line.strip()), "")
    counts = {mark: len(split(header, mark)) for mark in DELIMITERS}
    return max(DELIMITERS, key=lambda mark: counts[mark])


def _head(ledger: Ledger, first: tuple[int, list[str]], columns: Columns) -> None:
    """Checks the header: what must be there, what nobody knows, what stands twice."""
    line, cells = first
    ledger.header = tuple(" ".join(cell.lower().split()) for cell in cells)
    _take_twins(ledger, line, columns)
    missing = [name for name in columns.needed if name not in ledger.header and name not in ledger.twins]
    unknown = [name for name in ledger.header if name and name not in columns.known]
    for name in missing:
        near = nearest(name, unknown, 0.6)
        todo = f"rename the column {near!r} to {name!r}" if near else f"add the column {name!r}"
        ledger.tell(
            "missing-column", line=line, column=name, found=f"columns {', '.join(ledger.header)}",
            expected=f"at least {', '.join(columns.needed)}", todo=todo,
        )  # fmt: skip
    for name in unknown:
        near = nearest(name, columns.known, 0.6)
        todo = f"did you mean {near!r}?" if near else "give it one of these names if it is one of them; else let it be"
        ledger.tell(
            "unknown-column", line=line, column=name, found=f"a column {name!r}, which is not read",
            expected=f"one of: {', '.join(columns.known)}", todo=todo, level="warning",
        )  # fmt: skip
    for name in sorted({name for name in ledger.header if name and ledger.header.count(name) > 1}):
        ledger.tell(
            "same-column-twice", line=line, column=name, found=f"two columns {name!r}", expected="one",
            todo="rename or remove one of them",
        )  # fmt: skip


def _take_twins(ledger: Ledger, line: int, columns: Columns) -> None:
    """Columns in US units stand for those that are asked for; one of the two, not both."""
    for twin, (name, _) in TWINS.items():
        if twin not in ledger.header or name not in columns.own:
            continue
        if name in ledger.header:
            ledger.tell(
                "both-units", line=line, column=twin, found=f"the columns {name!r} and {twin!r}",
                expected="one of the two", todo="take the emptier one out",
            )  # fmt: skip
        ledger.twins[name] = twin


def _fits(ledger: Ledger, entry: tuple[int, list[str]]) -> bool:
    line, cells = entry
    longest = max(map(len, cells))
    if longest > limits.BOOK_CELL.most:
        told = too_much(limits.BOOK_CELL, f"{longest:,} characters")
        ledger.tell(told.slug, line=line, found=told.found, expected=limits.BOOK_CELL.words, todo="shorten it")
        return False
    if len(cells) <= len(ledger.header) or not any(cell.strip() for cell in cells[len(ledger.header) :]):
        return True
    ledger.tell(
        "too-many-cells",
        line=line,
        found=f"{len(cells)} cells",
        expected=f"{len(ledger.header)}, as in the header",
        todo='put a text that holds a separator in quotes: "like, this"',
    )
    return False


def _day_first(ledger: Ledger) -> bool | None:
    """What the slashed dates of the whole file settle: any first part above 12 is a day, any second a month's day."""
    found = [match for _, cells in ledger.lines for cell in cells if (match := _SLASHED.match(cell.strip()))]
    first = any(int(match[1]) > 12 for match in found)
    second = any(int(match[2]) > 12 for match in found)
    return None if first == second else first


def _date(cell: str, day_first: bool | None) -> dt.date | None:
    iso, dotted, slashed = _ISO.match(cell), _DOTTED.match(cell), _SLASHED.match(cell)
    if iso:
        return _day(iso[1], iso[2], iso[3])
    if dotted:
        return _day(dotted[3], dotted[2], dotted[1])
    if slashed and day_first is not None:
        day, month = (slashed[1], slashed[2]) if day_first else (slashed[2], slashed[1])
        return _day(slashed[3], month, day)
    return None


def _day(year: str, month: str, day: str) -> dt.date | None:
    """That day; None where there is none."""
    try:
        return dt.date(int(year), int(month), int(day))
    except ValueError:
        return None
