"""What lies in the folder: logger files, books, meters and deliveries, and what could not be made out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from zoneinfo import ZoneInfo

from reportgen.begin.patterns import can_be_written, pattern_of
from reportgen.disk import Unreadable
from reportgen.readings.bills import BILLS
from reportgen.readings.book_rows import COLUMNS
from reportgen.readings.deliveries import DELIVERIES
from reportgen.readings.ledger import TWINS
from reportgen.readings.meter import METER
from reportgen.readings.opening import name_and_unit
from reportgen.readings.sheet import SHEETS, workbook
from reportgen.readings.shelf import WORKBOOKS
from reportgen.readings.sniff import Sniffed, sheets_of, sniff
from reportgen.readings.ticks import FILE as TICKS_FILE
from reportgen.readings.ticks import TICKS
from reportgen.season.explain import FILE
from reportgen.season.sources import shown

TABLES = (".csv", ".txt", ".tsv", ".dat", *SHEETS)
UNWRITABLE = "its name holds signs that season.toml cannot name; rename it"
DEEPEST = 3  # folders below the season's in which exports are looked for
TICKED = "ticks"  # the tick sheet of a trial, which is read under its own name
FORMS = {**COLUMNS, TICKED: TICKS, "meter": METER, "deliveries": DELIVERIES, "bills": BILLS}


@dataclass(frozen=True, kw_only=True, slots=True)
class Seen:
    """One file, or one sheet of a workbook. `role`: logger, a book's name, meter, deliveries, bills, or empty with the
    reason in `why`. `sheet` is empty for a text file."""

    file: str  # relative to the folder, forward slashes
    role: str
    sniffed: Sniffed | None
    why: str = ""
    sheet: str = ""
    header: tuple[str, ...] = ()  # of a book

    @property
    def label(self) -> str:
        """The file, and the sheet where it has any."""
        return f"{self.file}, sheet {self.sheet!r}" if self.sheet else self.file


def look_through(folder: Path, zone: ZoneInfo | None) -> list[Seen]:
    """Every table in the folder, in order of name; of a workbook every sheet."""
    return [one for path in sorted(_tables(folder, 0)) for one in _of_file(folder, path, zone)]


def winters_below(folder: Path) -> list[str]:
    """Folders inside that are seasons themselves."""
    return sorted(path.parent.name for path in folder.glob(f"*/{FILE}"))


def _tables(folder: Path, depth: int) -> Iterator[Path]:
    for path in folder.iterdir():
        if path.name.startswith((".", "~")) or path.is_symlink():
            continue
        if path.is_dir():
            if depth < DEEPEST and not (path / FILE).exists():
                yield from _tables(path, depth + 1)
        elif path.suffix.lower() in TABLES:
            yield path


def _of_file(folder: Path, path: Path, zone: ZoneInfo | None) -> list[Seen]:
    file = path.relative_to(folder).as_posix()
    if file in WORKBOOKS:
        return _of_books(path, file)
    try:
        sheets = sheets_of(path)
    except Unreadable as error:
        return [Seen(file=file, role="", sniffed=None, why=error.found)]
    seen = [_seen(folder, path, zone, sheet) for sheet in sheets]
    return [one for one in seen if one.sniffed is not None] or seen[:1]  # a sheet of notes needs no word


def _of_books(path: Path, file: str) -> list[Seen]:
    """The sheets of a workbook of books that have rows; an empty template is no book."""
    try:
        tables = workbook(path)
    except Unreadable as error:
        return [Seen(file=file, role="", sniffed=None, why=error.found)]
    filled = {name: rows for name, rows in tables.items() if sum(any(row) for row in rows) > 1}
    return [
        Seen(file=file, role=name.strip().casefold(), sniffed=None, sheet=name, header=tuple(next(filter(any, rows))))
        for name, rows in filled.items()
        if name.strip().casefold() in COLUMNS
    ]


def _seen(folder: Path, path: Path, zone: ZoneInfo | None, sheet: str | None) -> Seen:
    file, name = path.relative_to(folder).as_posix(), sheet or ""
    try:
        sniffed = sniff(path, zone, sheet)
    except Unreadable as error:
        return Seen(file=file, role="", sniffed=None, why=error.found, sheet=name)
    if sniffed is None:
        return Seen(file=file, role="", sniffed=None, why="no table with a header, times and readings", sheet=name)
    role, why = _role(folder, file, sniffed)
    return Seen(file=file, role=role, sniffed=sniffed, why=why, sheet=name, header=sniffed.header)


def _role(folder: Path, file: str, sniffed: Sniffed) -> tuple[str, str]:
    """What a table is used as, or empty with the reason why not."""
    form = _form(sniffed, PurePosixPath(file))
    if form and sniffed.sheet and form not in COLUMNS:
        return "", f"a table of the form {form} in a workbook; save that sheet as {form}.csv"
    if form:
        return (form, "") if can_be_written(file) else ("", UNWRITABLE)
    if sniffed.kind != "logger":
        return "", _why_not(sniffed)
    return ("logger", "") if pattern_of(folder, file) is not None else ("", UNWRITABLE)


def _form(sniffed: Sniffed, path: PurePosixPath) -> str:
    """The book, meter or deliveries whose needed columns are all there; the file's name settles a tie."""
    header = {name_and_unit(cell)[0] for cell in sniffed.header}
    header |= {metric for us, (metric, _) in TWINS.items() if us in header}
    fits = [name for name, columns in FORMS.items() if set(columns.needed) <= header]
    if TICKED in fits:
        return TICKED if path.name == TICKS_FILE and len(path.parts) == 1 else ""
    named = [name for name in fits if name in path.stem.casefold()]
    return (named or sorted(fits, key=lambda name: -len(FORMS[name].needed)) or [""])[0]


def _why_not(sniffed: Sniffed) -> str:
    columns = ", ".join(shown(column.name or column.address) for column in sniffed.columns)
    if not sniffed.time:
        return f"no column of times among {columns}"
    if sniffed.kind == "book" and (rising := [column.name for column in sniffed.columns if column.runs_up]):
        return f"{rising[0]!r} runs up like a meter; as a file with the columns date,reading it can be a meter"
    if sniffed.kind == "book":
        harvest = ",".join(COLUMNS["harvest"].needed)
        return f"dates, but the columns of no book ({columns}); a harvest book begins with {harvest}"
    return f"times, but no column that could be named ({columns})"
