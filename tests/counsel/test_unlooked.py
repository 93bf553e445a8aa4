"""A store of which nobody wrote what was left: the number says so where it stands, with both its ends."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from kept_reviews import SAMPLE, review_of

from reportgen.charts import page
from reportgen.charts.kilogram_view import kilogram_view
from reportgen.charts.season_view import season_view
from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.said_balance import each_money, total_money, total_words
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


def test_the_headline_sums_have_both_ends(unlooked: Review) -> None:
    """EUR 17.90 and 26.40 were paid for bottles of which nobody knows whether any was burnt: all sums that hold them
    lie between 44.30 less and all of it, wherever they are told; parts add up to both ends."""
    heat, balance = unlooked.heat, unlooked.counsel.grounds.balance
    assert heat.cost is not None and heat.cost_low == pytest.approx(heat.cost - 44.30)
    assert heat.cost_high == pytest.approx(heat.cost)
    assert balance.total is not None and balance.kg
    low, high = balance.total - 44.30, balance.total
    facts = Facts.of(unlooked, unlooked.counsel.grounds)
    assert total_money(balance, facts.w, 2) == f"EUR\u00a0{low:.2f} to {high:.2f}"
    assert each_money(balance, facts) == f"EUR\u00a0{low / balance.kg:.2f} to {high / balance.kg:.2f}"
    ends = [float(x) for x in re.findall(r"heat (\d+) to (\d+)", total_words(balance, facts.w))[0]]
    rest = [float(x) for x in re.findall(r"(\d+)", total_words(balance, facts.w).partition(", ")[2])]
    assert [end + sum(rest) for end in ends] == [round(low), round(high)]
    assert page("heat", unlooked).headline.startswith(f"EUR\u00a0{round(heat.cost_low or 0)} to {round(heat.cost)} of")
    assert f"picked at EUR\u00a0{low / balance.kg:.2f} to {high / balance.kg:.2f}" in page("harvest", unlooked).headline
    assert "some heat that was not recorded" not in balance.missing
    drawn, bar = season_view(unlooked).heat, kilogram_view(unlooked)
    assert drawn is not None and [words[:6] for words in drawn.words[1:]] == ["up to ", "up to "]
    assert bar is not None and bar.bars[0].said == f"up to EUR\u00a0{high / balance.kg:.2f}"


def test_a_store_that_was_looked_at_has_one_sum() -> None:
    """The sample's own: no ends."""
    balance = review_of("sample").counsel.grounds.balance
    assert balance.total_ends is None and review_of("sample").heat.cost_low is None
