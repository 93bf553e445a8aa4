"""Each finding's number comes out again from the CSV it rests on, with pandas alone; its link leads to its own page."""

from __future__ import annotations

import io
from functools import lru_cache

import pandas as pd
import pytest
from kept_reviews import review_of

from reportgen.charts import PAGES, page
from reportgen.charts.types import Drawing, Table
from reportgen.counsel.types import Source

DRAWN = ["failing heater", "sample"]  # winters whose pages are drawn here: a page takes a second
ROUNDED = 0.002  # tables are rounded for reading: a sum of a winter's months may be off by a few tenths


@lru_cache(maxsize=16)
def files_of(name: str) -> tuple[dict[str, str], dict[str, str]]:
    """(file name → its CSV text, anchor → page) of every chart and table of the winter's pages."""
    files, anchors = {}, {}
    for slug in PAGES:
        for block in page(slug, review_of(name)).blocks:
            if isinstance(block, Drawing | Table):
                frame = block.table if isinstance(block, Drawing) else block.data
                files[f"{block.uid}.csv"], anchors[block.uid] = frame.to_csv(index=False), slug
    return files, anchors


def recomputed(text: str, source: Source) -> float:
    """The number a source names, from the file alone."""
    frame = pd.read_csv(io.StringIO(text))
    column = (frame.query(source.rows) if source.rows else frame)[source.column]
    if source.how == "cell":
        assert len(column) == 1
        return float(column.iloc[0])
    return float(getattr(column, source.how)())


def test_a_wrong_number_would_be_seen() -> None:
    """The check can fail: three cells of 1, 2, 6 make 9, 3, 2, 1 or one of them by name."""
    text = "name,h\na,1\nb,2\nc,6\n"
    for how, value in (("sum", 9.0), ("mean", 3.0), ("count", 3.0), ("min", 1.0), ("max", 6.0)):
        assert recomputed(text, Source(csv="x.csv", how=how, column="h", value=0.0)) == value
    assert recomputed(text, Source(csv="x.csv", how="cell", column="h", rows="name == 'b'", value=0.0)) == 2.0


@pytest.mark.parametrize("name", DRAWN)
def test_every_number_comes_out_of_its_file(name: str) -> None:
    """Every source of every finding, within the rounding of the tables; counts exactly."""
    files, _ = files_of(name)
    wrong = {}
    for finding in review_of(name).findings:
        for source in finding.sources:
            value = recomputed(files[source.csv], source)
            apart = 0.0 if source.how == "count" else max(ROUNDED * abs(source.value), 0.06)
            if abs(value - source.value) > apart + 1e-9:
                wrong[finding.slug] = (source, value)
    assert wrong == {}


@pytest.mark.parametrize("name", DRAWN)
def test_every_link_leads_to_a_chart_of_the_findings_own_page(name: str) -> None:
    """Findings that tell of a chart link to it; those that tell what is missing link to the page's own note."""
    _, anchors = files_of(name)
    for finding in review_of(name).findings:
        if finding.anchor.endswith("_missing") or finding.anchor == finding.page:
            continue
        assert anchors.get(finding.anchor) == finding.page, finding.slug


def test_most_that_is_told_can_be_recomputed() -> None:
    """On the sample season at least half of what is told names the cells it rests on."""
    told = review_of("sample").findings
    assert sum(bool(f.sources) for f in told) >= len(told) / 2


def test_the_grounds_name_their_cells() -> None:
    """What rests on an event, a lever with an estimate or the balance names its row."""
    named = {f.slug.rstrip("0123456789").rstrip("-") for f in review_of("sample").findings if f.sources}
    wanted = {"fire-or-fumes", "cold-event", "loss-by-cause", "worth-keeping", "better-left-undone", "cannot-tell"}
    assert wanted | {"the-hold", "the-balance"} <= named
