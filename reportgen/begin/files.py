"""What lies in the folder: logger files, books, meters and deliveries, and what could not be made out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

from reportgen.disk import Unreadable
from reportgen.readings.books import COLUMNS
from reportgen.readings.bought import DELIVERIES, METER
from reportgen.readings.sheet import SHEETS
from reportgen.readings.sniff import Sniffed, sniff
from reportgen.season.explain import FILE

TABLES = (".csv", ".txt", ".tsv", ".dat", *SHEETS)
DEEPEST = 3  # folders below the season's in which exports are looked for
FORMS = {**COLUMNS, "meter": METER, "deliveries": DELIVERIES}


@dataclass(frozen=True, kw_only=True, slots=True)
class Seen:
    """One file. `role`: logger, a book's name, meter, deliveries, or empty with the reason in `why`."""

    file: str  # relative to the folder, forward slashes
    role: str
    sniffed: Sniffed | None
    why: str = ""


def look_through(folder: Path, zone: ZoneInfo | None) -> list[Seen]:
    """Every table in the folder, in order of name."""
    return [_seen(folder, path, zone) for path in sorted(_tables(folder, 0))]


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


def _seen(folder: Path, path: Path, zone: ZoneInfo | None) -> Seen:
    file = path.relative_to(folder).as_posix()
    try:
        sniffed = sniff(path, zone)
    except Unreadable as error:
        return Seen(file=file, role="", sniffed=None, why=error.found)
    if sniffed is None:
        return Seen(file=file, role="", sniffed=None, why="no table with a header, times and readings")
    role = _form(sniffed, path)
    if role:
        return Seen(file=file, role=role, sniffed=sniffed)
    if sniffed.kind == "logger":
        return Seen(file=file, role="logger", sniffed=sniffed)
    return Seen(file=file, role="", sniffed=sniffed, why=_why_not(sniffed))


def _form(sniffed: Sniffed, path: Path) -> str:
    """The book, meter or deliveries whose needed columns are all there; the file's name settles a tie."""
    header = {" ".join(cell.casefold().split()) for cell in sniffed.header}
    fits = [name for name, columns in FORMS.items() if set(columns.needed) <= header]
    named = [name for name in fits if name in path.stem.casefold()]
    return (named or sorted(fits, key=lambda name: -len(FORMS[name].needed)) or [""])[0]


def _why_not(sniffed: Sniffed) -> str:
    columns = ", ".join(sniffed.header)
    if not sniffed.time:
        return f"no column of times among {columns}"
    if sniffed.kind == "book":
        harvest = ",".join(COLUMNS["harvest"].needed)
        return f"dates, but the columns of no book ({columns}); a harvest book begins with {harvest}"
    return f"times, but no column that could be named ({columns})"
