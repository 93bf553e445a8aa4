"""The recipe of DEVELOPERS.md, *To add a page*, followed to the letter on a copy of the package: a page about wind."""

from __future__ import annotations

import json
import re
from pathlib import Path

import odd_seasons as odd
import pandas as pd
import pytest
from copied_package import ROOT, Put, copied, reviewed

from reportgen.charts import anatomy
from reportgen.charts.left_out import RESTS_ON
from reportgen.charts.method import METHODS
from reportgen.charts.unknown import BARE
from reportgen.counsel.kinds import KINDS
from reportgen.counsel.results import Results
from reportgen.pages import AS_TOLD, NAMES, PAGES, SECTIONS, SUBJECTS
from reportgen.pipeline import MEASURES

SEASON = ("2026-01-05", "2026-01-14")

# What the recipe asks for: files written anew, and lines put behind (or before) a line of a file that is there.
WRITTEN = {
    "measures/wind.py": '''"""How hard the wind blew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from reportgen.measures.places import outdoor
from reportgen.readings.types import Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class Wind:
    """Mean speed of the season [m/s]."""

    mean_m_s: float | None
    reasons: Mapping[str, str]


def wind(readings: Readings) -> Wind:
    """The mean of all readings [m/s]; None without a logger."""
    channel = outdoor(readings, "wind_speed")
    if channel is None:
        return Wind(mean_m_s=None, reasons={"mean_m_s": "no wind was logged"})
    return Wind(mean_m_s=float(channel.values.mean()), reasons={})
''',
    "counsel/wind.py": '''"""What the wind asks for."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said


def blew(facts: Facts) -> Said | None:
    """The mean wind; None where none was logged."""
    mean = facts.r.wind.mean_m_s
    if mean is None:
        return None
    return Said(
        claim=f"The wind blew at {mean:.1f}\\u00a0m/s on average.",
        evidence="All readings.",
        how_sure="Sure as read.",
        next_step="Plant a hedge to windward.",
        figure=f"{mean:.1f}\\u00a0m/s",
        figure_note="mean wind",
    )
''',
    "charts/wind.py": '''"""The wind page."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Note, Page, Table
from reportgen.review import Review


def page(review: Review) -> Page:
    """One row with the mean."""
    mean = review.wind.mean_m_s
    if mean is None:
        note = Note(title="Not logged", text="Log the wind.", kind="missing")
        return Page(slug="wind", headline="Wind: not known", lead="Log it.", blocks=(note,), answers=False)
    table = Table(
        uid="wind_mean",
        title="The wind of the season",
        subtitle="Mean speed, m/s",
        columns=("mean, m/s",),
        rows=((f"{mean:.1f}",),),
        data=pd.DataFrame({"mean, m/s": [mean]}),
    )
    return Page(slug="wind", headline="A steady wind", lead="It blew all winter.", blocks=(table,))
''',
}


PUT = (
    Put("pages.py", '    Subject(slug="record", name="Record", told=9),\n',
        '    Subject(slug="wind", name="Wind", told=10),\n'),
    Put("counsel/results.py", "from reportgen.measures.weather import Weather\n",
        "from reportgen.measures.wind import Wind\n"),
    Put("counsel/results.py", "    winters: Winters\n", "    wind: Wind\n"),
    Put("pipeline.py", "from reportgen.measures.weather import weather\n",
        "from reportgen.measures.wind import wind\n"),
    Put("pipeline.py", '    "harvest": harvest,\n', '    "wind": wind,\n'),
    Put("counsel/kinds.py", "    the_hold,\n", "    wind,\n"),
    Put("counsel/kinds.py", "_FROST = {\n",
        '    "mean-wind": kind("wind", "growth", "wind was logged", "wind_mean", wind.blew, "wind.mean_m_s"),\n'),
    Put("charts/anatomy.py", '        "record": ("record_days", "record_gaps"),\n',
        '        "wind": ("wind_mean",),\n'),
    Put("charts/left_out.py", '        "harvest": _HEATER,\n', '        "wind": ("wind_speed",),\n'),
    Put("charts/unknown.py", "BARE: Mapping[str, str] = MappingProxyType(\n    {\n",
        '        "wind": "How hard it blew is not known. Log the wind.",\n'),
    Put("charts/method_climate.py", "METHODS: tuple[Method, ...] = (\n",
        '    Method(slug="wind", page="wind", title="Wind", text="All readings of the wind are averaged."),\n'),
)  # fmt: skip


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A season with a wind logger, reviewed by a copy of the package to which the page was added."""
    base = tmp_path_factory.mktemp("added")
    copy = copied(base, PUT, WRITTEN)
    table = odd.readings(*SEASON)
    table["v"] = [2.0, 4.0] * (len(table) // 2)
    speed = 'wind_speed = { column = "v", unit = "m/s" }'
    loggers = odd.logger("one", "crop", "all.csv", odd.AIR) + odd.logger("yard", "outdoor", "all.csv", speed)
    season = odd.write(base / "season", odd.head(*SEASON) + loggers, table)
    return reviewed(copy, season, base / "site")


def test_it_stands_in_the_navigation_and_the_page_list_of_every_page(site: Path) -> None:
    """Both lists of every page lead to it, and it leads to every other."""
    for slug in (*NAMES, "wind"):
        html = (site / f"{slug}.html").read_text(encoding="utf-8")
        links = html.count('href="wind.html"')
        assert links >= (1 if slug == "wind" else 2), slug
        assert f'href="{slug}.html"' in (site / "wind.html").read_text(encoding="utf-8")
    front = (site / "index.html").read_text(encoding="utf-8")
    assert re.search(r'<a href="wind.html"><b>Wind</b> <span>A steady wind</span>', front)


def test_its_section_and_its_finding_stand_in_review_json(site: Path) -> None:
    """The mean as it was logged; its finding is put in order with all others."""
    document = json.loads((site / "data" / "review.json").read_text(encoding="utf-8"))
    assert document["wind"] == {"mean_m_s": pytest.approx(3.0), "reasons": {}}
    found = [one for one in document["findings"] if one["page"] == "wind"]
    assert [one["slug"] for one in found] == ["mean-wind"]
    assert sorted(one["rank"] for one in document["findings"]) == list(range(len(document["findings"])))


def test_its_page_has_its_words_its_finding_and_its_table(site: Path) -> None:
    html = (site / "wind.html").read_text(encoding="utf-8")
    assert "<h1>A steady wind</h1>" in html
    assert "3.0" in html and "Plant a hedge to windward." in html
    table = pd.read_csv(site / "data" / "wind_mean.csv")
    assert table["mean, m/s"].tolist() == [pytest.approx(3.0)]


def test_its_method_is_told(site: Path) -> None:
    html = (site / "method.html").read_text(encoding="utf-8")
    assert 'href="#wind"' in html and "All readings of the wind are averaged." in html


def recipe() -> str:
    told = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return told.split("### To add a page")[1].split("\n## ")[0].split("\n### ")[0]


def test_the_recipe_names_every_place_that_was_touched() -> None:
    """Every file that this test writes or adds to, with wind for <subject>."""
    places = {name.replace("wind", "<subject>") for name in WRITTEN} | {put.file for put in PUT}
    places = {"charts/method_*.py" if place.startswith("charts/method_") else place for place in places}
    assert [place for place in sorted(places) if f"`{place}`" not in recipe()] == []


@pytest.mark.parametrize("slug", PAGES)
def test_no_page_lacks_one_of_its_places(slug: str) -> None:
    """What the recipe asks of a page, asked of those that are there."""
    assert (ROOT / "reportgen" / "charts" / f"{slug}.py").is_file()
    assert (ROOT / "reportgen" / "counsel" / f"{slug}.py").is_file()
    assert slug in anatomy.OPEN
    assert slug in {kind.page for kind in KINDS.values()}
    assert slug in {method.page for method in METHODS}
    assert slug in {*RESTS_ON, "record"}  # the record is of everything
    assert slug in {*BARE, "record"}


def test_the_lists_of_pages_are_one() -> None:
    """Sections, results and order derive from one list or are held to it."""
    assert sorted(one.told for one in SUBJECTS) == list(range(1, len(SUBJECTS) + 1))
    assert set(AS_TOLD) == set(PAGES) == set(NAMES) - {"index", "method", "handout"}
    assert set(SECTIONS) == {*MEASURES, "house", "weather", "winters"}
    assert set(SECTIONS) <= set(Results.__slots__)
    assert set(anatomy.OPEN) == set(PAGES)
    assert set(RESTS_ON) | set(BARE) <= set(PAGES)
