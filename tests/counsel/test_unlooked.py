"""A store of which nobody wrote what was left: the number says so where it stands, with both its ends."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from kept_reviews import SAMPLE, review_of

from reportgen.charts import page
from reportgen.charts.types import Table
from reportgen.pipeline import analyse
from reportgen.review import Review

LOOKED = "2026-01-13,0.0,,2.8,"  # the last row of the sample's bottles: weighed and put away


@pytest.fixture(scope="module")
def unlooked(tmp_path_factory: pytest.TempPathFactory) -> Review:
    """The sample season without its last look at the bottles: 13 kg bought for EUR 17.90 and 26.40."""
    folder: Path = tmp_path_factory.mktemp("unlooked") / "season"
    shutil.copytree(SAMPLE, folder)
    book = folder / "heating" / "bottles.csv"
    lines = book.read_text("utf-8").splitlines()
    assert sum(line.startswith(LOOKED) for line in lines) == 1
    book.write_text("\n".join(line for line in lines if not line.startswith(LOOKED)) + "\n", "utf-8")
    return analyse(folder)


def notes(review: Review, slug: str, uid: str) -> str:
    """The notes below one table."""
    (table,) = (b for b in page(slug, review).blocks if isinstance(b, Table) and b.uid == uid)
    return " ".join(table.notes).replace("\u00a0", " ")


@pytest.mark.parametrize(("slug", "uid"), [("heat", "heat_sources"), ("harvest", "harvest_balance")])
def test_all_counts_as_burnt_and_the_page_says_so(unlooked: Review, slug: str, uid: str) -> None:
    """13 kg at 13.0 kWh (season.toml) and its efficiency at most, nothing at least; EUR 44.30 at most."""
    gas = next(source for source in unlooked.season.heating if source.deliveries)
    most = 13.0 * (gas.heat_kwh_per_unit or 0.0) * gas.efficiency
    words = notes(unlooked, slug, uid)
    assert "nobody wrote down what was left" in words and "on 11 October" in words
    assert f"between 0 and {most:.0f} kWh of heat, for EUR 0 to 44." in words


@pytest.mark.parametrize(("slug", "uid"), [("heat", "heat_sources"), ("harvest", "harvest_balance")])
def test_what_was_weighed_is_told_without_it(slug: str, uid: str) -> None:
    """The sample's grower weighed the bottle."""
    assert "nobody wrote down what was left" not in notes(review_of("sample"), slug, uid)
