"""How large a workbook is once unpacked, seen before it is opened: a few kilobytes can claim a sheet of 17 billion
cells, which the reader would hold in memory whole."""

from __future__ import annotations

import re
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from xml.parsers import expat

from reportgen import limits
from reportgen.disk import cannot_open, too_much

CHUNK = 1_000_000  # bytes unpacked at once
OVERLAP = 200  # longer than the opening of a cell or row in XML
ROW = re.compile(rb"""<(?:\w+:)?row\s[^<>]{0,100}?\br\s*=\s*["'](\d{1,10})""")
CELL = re.compile(rb"""<(?:\w+:)?c\s[^<>]{0,100}?\br\s*=\s*["']([A-Za-z]{1,3})(\d{1,10})""")
ANY_CELL = re.compile(rb"<(?:\w+:)?c[\s/>]")
OPEN_DOCUMENT = "content.xml"


def check_workbook(path: Path) -> None:
    """Refuses a workbook that is too large once unpacked.

    Raises:
        Unreadable: It cannot be opened, unpacks to more than limits.UNPACKED_BYTES, or its used cells span more than
            limits.SHEET_CELLS. A file that is no ZIP (the older XLS holds at most 17 million cells) passes.
    """
    try:
        size = path.stat().st_size
        if size > limits.FILE_BYTES.most:
            raise too_much(limits.FILE_BYTES, f"{size:,} bytes")
        with zipfile.ZipFile(path) as packed:
            _check_parts(packed)
    except OSError as error:
        raise cannot_open(error) from error
    except (zipfile.BadZipFile, zlib.error, expat.ExpatError, NotImplementedError, RuntimeError, EOFError, ValueError):
        return  # damaged: the reader itself says so


def _check_parts(packed: zipfile.ZipFile) -> None:
    left = limits.UNPACKED_BYTES.most
    for part in packed.infolist():
        look = _OpenDocument() if part.filename == OPEN_DOCUMENT else _Sheet()
        for piece in _unpacked(packed, part):
            left -= len(piece)
            if left < 0:
                raise too_much(limits.UNPACKED_BYTES, f"more than {limits.UNPACKED_BYTES.most:,} bytes")
            look.take(piece)
            if look.rows * look.columns > limits.SHEET_CELLS.most:
                raise too_much(limits.SHEET_CELLS, f"a sheet used to row {look.rows:,} and column {look.columns:,}")


def _unpacked(packed: zipfile.ZipFile, part: zipfile.ZipInfo) -> Iterator[bytes]:
    """What one part really unpacks to, whatever size it claims."""
    part.file_size = limits.UNPACKED_BYTES.most + CHUNK  # the claimed size would hide the rest
    with packed.open(part) as stream:
        while piece := stream.read(CHUNK):
            yield piece


@dataclass(slots=True)
class _Sheet:
    """Rows and columns up to the last cell of a part of an Office Open XML workbook (ECMA-376, 18.3.1.4 and .73)."""

    rows: int = 0
    columns: int = 0
    before: bytes = b""

    def take(self, piece: bytes) -> None:
        """Looks at the next piece, with the end of the one before."""
        piece = self.before + piece
        self.before = piece[-OVERLAP:]
        cells = CELL.findall(piece)
        rows = [*ROW.findall(piece), *(row for _, row in cells)]
        self.rows = max([self.rows, *map(int, rows)])
        widest = max(len(ANY_CELL.findall(row)) for row in piece.split(b"row"))  # cells may come without a name
        self.columns = max([self.columns, widest, *(_column(letters) for letters in {letters for letters, _ in cells})])


def _column(letters: bytes) -> int:
    """A is 1, Z is 26, XFD is 16 384."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number


class _OpenDocument:
    """Rows and columns up to the last filled cell of any sheet of an OpenDocument file; empty rows and cells are
    written once with how often they repeat (OpenDocument 1.3, 19.675 and 19.677)."""

    def __init__(self) -> None:
        self.rows = self.columns = 0
        self._row = self._column = 0
        self._reader = expat.ParserCreate()
        self._reader.StartElementHandler = self._start

    def take(self, piece: bytes) -> None:
        """Looks at the next piece."""
        self._reader.Parse(piece)

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        kind = name.rpartition(":")[2]
        if kind == "table":
            self._row = 0
        elif kind == "table-row":
            self._row += _times(attributes, "table:number-rows-repeated")
            self._column = 0
        elif kind in ("table-cell", "covered-table-cell"):
            self._column += _times(attributes, "table:number-columns-repeated")
            if any(key.endswith(":value-type") for key in attributes):
                self.rows, self.columns = max(self.rows, self._row), max(self.columns, self._column)


def _times(attributes: dict[str, str], name: str) -> int:
    repeated = attributes.get(name, "1")
    return int(repeated) if repeated.isdecimal() and len(repeated) < 10 else 1
