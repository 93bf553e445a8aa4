"""Tables of a page in the units that the report shows: °F where a column is headed °C or K and `show` is "us"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pandas as pd

from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.wording import Wording

Block = Drawing | Table | Note


def in_shown_units(page: Page, w: Wording) -> Page:
    """The page with every table behind it in the units shown; the same page where they are metric."""
    return replace(page, blocks=tuple(_block(block, w) for block in page.blocks)) if w.us else page


def _block(block: Block, w: Wording) -> Block:
    if isinstance(block, Drawing):
        shown = None if block.shown is None else converted(block.shown, w)
        return replace(block, table=converted(block.table, w), shown=shown)
    return replace(block, data=converted(block.data, w)) if isinstance(block, Table) else block


def converted(frame: pd.DataFrame, w: Wording) -> pd.DataFrame:
    """Columns whose heading ends in °C (a level) or K (a difference), in the shown unit and headed so."""
    units: dict[str, tuple[Callable[[float], float], str]] = {
        " °C": (w.temp_value, w.temp_unit),
        " K": (w.diff_value, w.diff_unit),
    }
    out = frame.copy()
    names = {}
    for n, name in enumerate(frame.columns):
        ending = next((end for end in units if str(name).endswith(end)), None)
        if ending is not None and pd.api.types.is_numeric_dtype(frame.iloc[:, n]):
            convert, unit = units[ending]
            out[name] = frame[name].map(convert).round(2)
            names[name] = f"{str(name).removesuffix(ending)} {unit}"
    return out.rename(columns=names)
