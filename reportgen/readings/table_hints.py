"""What season.toml says of how a logger's files are written."""

from __future__ import annotations

from reportgen.readings.table import Hints
from reportgen.season import Logger


def hints_of(logger: Logger) -> Hints:
    """The hints for reading any file of a logger."""
    return Hints(
        delimiter=logger.delimiter,
        decimal=logger.decimal,
        encoding=logger.encoding,
        skip_rows=logger.skip_rows,
        sheet=logger.sheet,
    )
