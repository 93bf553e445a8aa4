"""Tables behind the pages in the units that are shown."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Note, Page, Table
from reportgen.site.shown_units import in_shown_units
from reportgen.wording import Wording

DATA = pd.DataFrame({"night": ["a", "b"], "inside °C": [0.0, -40.0], "margin K": [5.0, None], "W/K": [80.0, 90.0]})


def shown(us: bool) -> pd.DataFrame:
    """The data of a page's one table."""
    table = Table(uid="t", title="", subtitle="", columns=(), rows=(), data=DATA)
    page = Page(slug="frost", headline="", lead="", blocks=(table, Note(text="words")))
    block = in_shown_units(page, Wording(us=us, currency="")).blocks[0]
    assert isinstance(block, Table)
    return block.data


def test_us_tables_are_in_fahrenheit() -> None:
    """0 °C is 32 °F, −40 °C is −40 °F; a difference of 5 K is 9 °F; what is not known stays so; W/K keeps its unit."""
    data = shown(True)
    assert list(data.columns) == ["night", "inside °F", "margin °F", "W/K"]
    assert data["inside °F"].tolist() == [32.0, -40.0]
    assert data["margin °F"].iloc[0] == 9.0 and pd.isna(data["margin °F"].iloc[1])
    assert data["W/K"].tolist() == [80.0, 90.0]


def test_metric_tables_stay_as_they_are() -> None:
    """The same frame."""
    assert shown(False) is DATA
