"""A drawing: a chart in two widths with its words and its table, everything a page needs to show it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pandas as pd


@dataclass(frozen=True, kw_only=True, slots=True)
class Drawing:
    """One chart. `uid` is its anchor on the page, the stem of its CSV in data/ and the prefix of its SVG ids."""

    uid: str  # "frost_nights"
    title: str  # a conclusion in words
    subtitle: str  # what is plotted, with its unit
    label: str  # what it is, for a screen reader: "Line chart of …"
    description: str  # its numbers in one or two sentences
    wide: Any  # altair chart, 760 units wide (theme.WIDE), or the SVG that the pen drew
    narrow: Any  # the same for a phone and for half a column
    table: pd.DataFrame  # whole data behind it, plain column names with unit; written to data/<uid>.csv
    shown: pd.DataFrame | None = None  # condensed table for the page where `table` is long
    notes: tuple[str, ...] = ()  # beside the chart; plain text
    sure: str = ""  # one short line below it: how sure
    day_slider: bool = False  # first column of `table` is a date: the slider reads it


@dataclass(frozen=True, kw_only=True, slots=True)
class Table:
    """A table that stands on its own on a page; cells are already text. Also written to data/<uid>.csv from `data`."""

    uid: str
    title: str
    subtitle: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    data: pd.DataFrame
    notes: tuple[str, ...] = ()
    nothing: bool = False  # it only tells that nothing came up: it is folded


@dataclass(frozen=True, kw_only=True, slots=True)
class Note:
    """A paragraph on a page; `kind` caution stands in a ruled box, missing says what to log to get an answer."""

    text: str
    kind: str = "plain"  # plain | caution | missing
    title: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Page:
    """All that one page shows, in order. Built by charts/<page>.py: `page(review) -> Page`."""

    slug: str  # "frost"
    headline: str  # a conclusion in words
    lead: str  # one or two sentences below it
    blocks: tuple[Drawing | Table | Note, ...]
    answers: bool = True  # False: the season lacks the data; blocks hold the one missing-note
