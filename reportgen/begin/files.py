"""What lies in the folder: logger files, books, meters and deliveries, and what could not be made out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath
from zoneinfo import ZoneInfo

from reportgen.begin.patterns import can_be_written, pattern_of
from reportgen.disk import Unreadable
from reportgen.readings.bills import BILLS
from reportgen.readings.book_rows import COLUMNS
from reportgen.readings.deliveries import DELIVERIES
from reportgen.readings.header_words import names_time
from reportgen.readings.layout import head_lines
from reportgen.readings.ledger import TWINS
from reportgen.readings.meter import METER
from reportgen.readings.opening import name_and_unit
from reportgen.readings.sheet import SHEETS, workbook
from reportgen.readings.shelf import WORKBOOKS
from reportgen.readings.sniff import Sniffed, sheets_of, sniff
from reportgen.readings.text import load_text
from reportgen.readings.ticks import FILE as TICKS_FILE
from reportgen.readings.ticks import TICKS
from reportgen.season.explain import FILE
from reportgen.season.sources import shown

TABLES = (".csv", ".txt", ".tsv", ".dat", ".log", *SHEETS)
OTHERS = (  # what lies beside the exports and holds no readings
    *(".toml", ".md", ".html", ".htm", ".pdf", ".doc", ".docx", ".odt", ".rtf", ".ics", ".py", ".ini", ".url", ".lnk"),
    *(".png", ".jpg", ".jpeg", ".gif", ".svg", ".webp", ".heic", ".mp4", ".mov"),
)
UNWRITABLE = "its name holds signs that season.toml cannot name; rename it"
MANGLED = 1e9  # seconds since 1970, or milliseconds: a count of times that a spreadsheet may have rounded
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


def settled(folder: Path, seen: Sequence[Seen], zone: ZoneInfo) -> list[Seen]:
    """The files again with day and month as other files of their header and folder show, where one alone leaves the
    order open or shows it by 11/11 only, which is the same either way."""
    return [_settled(folder, one, seen, zone) for one in seen]


def _settled(folder: Path, one: Seen, seen: Sequence[Seen], zone: ZoneInfo) -> Seen:
    if one.role != "logger" or one.sniffed is None or not _either_way(one.sniffed):
        return one
    home = PurePosixPath(one.file).parent
    shown = {
        other.sniffed.day_first
        for other in seen
        if other.sniffed is not None
        and (other.role, other.header, PurePosixPath(other.file).parent) == (one.role, one.header, home)
        and not _either_way(other.sniffed)
    }
    if len(shown) != 1:
        return one
    again = sniff(folder / one.file, zone, one.sheet or None, next(iter(shown)))
    return one if again is None else replace(one, sniffed=again)


def _either_way(sniffed: Sniffed) -> bool:
    """Whether a file's own dates do not show which of their numbers is the day."""
    first, last = sniffed.first, sniffed.last
    mirrored = first is not None and last is not None and first.date() == last.date() and first.day == first.month
    return sniffed.day_first is None or mirrored


def winters_below(folder: Path) -> list[str]:
    """Folders inside that are seasons themselves."""
    return sorted(path.parent.name for path in folder.glob(f"*/{FILE}"))


def not_looked_at(folder: Path) -> list[str]:
    """Files that may hold readings in a form that is not read: packed, a data base, without an ending."""
    found = [path for path in sorted(_files(folder, 0)) if path.suffix.lower() not in (*TABLES, *OTHERS)]
    named = [path for path in found if path.suffix or any(map(str.isdigit, path.name))]  # LOG001, but no LICENSE
    return [path.relative_to(folder).as_posix() for path in named]


def _tables(folder: Path, depth: int) -> Iterator[Path]:
    return (path for path in _files(folder, depth) if path.suffix.lower() in TABLES)


def _files(folder: Path, depth: int) -> Iterator[Path]:
    for path in folder.iterdir():
        if path.name.startswith((".", "~")) or path.is_symlink():
            continue
        if not path.is_dir():
            yield path
        elif depth < DEEPEST and not (path / FILE).exists():
            yield from _files(path, depth + 1)


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
        return Seen(file=file, role="", sniffed=None, why=_no_table(path, sheet), sheet=name)
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


def _no_table(path: Path, sheet: str | None) -> str:
    """Why no table was found: its first line holds readings already, or there is none."""
    first = next(iter(head_lines(load_text(path), 1)), "") if sheet is None else ""
    if re.match(r"\W*\d{1,4}[-/.]\s?\d{1,2}[-/.]\s?\d{1,4}\D", first):
        return (
            "it begins with readings, without a line of names: put the first line of the file that it continues on top"
        )
    return "no table with a header, times and readings"


def _why_not(sniffed: Sniffed) -> str:
    columns = ", ".join(shown(column.name or column.address) for column in sniffed.columns)
    if not sniffed.time:
        short = next(
            (c for c in sniffed.columns if c.high is not None and c.high >= MANGLED and names_time(c.name)), None
        )
        if short is not None:
            return f"the times under {short.name!r} are cut to {short.high:.6g}, as a spreadsheet does: export it anew"
        clocks = [column.name for column in sniffed.columns if column.looks == "clock"]
        if clocks:
            return f"the times of day under {clocks[0]!r} stand without a date: add a column with the date of each row"
        return f"no column of times among {columns}"
    if sniffed.kind == "book" and (rising := [column.name for column in sniffed.columns if column.runs_up]):
        return f"{rising[0]!r} runs up like a meter; as a file with the columns date,reading it can be a meter"
    if any(column.looks in ("time", "clock", "part") for column in sniffed.columns if column.address in sniffed.time):
        doubts = "".join(f"; {column.name!r}: {column.doubt}" for column in sniffed.columns if column.doubt)
        return (
            f"times, but no column whose name says what it holds ({columns}); name them such as Temp °C, RH %{doubts}"
        )
    forms = "; ".join(f"{name}: {','.join(FORMS[name].needed)}" for name in ("harvest", "meter", "bills"))
    return f"dates, but the columns of no book ({columns}); the books begin with other names ({forms})"
