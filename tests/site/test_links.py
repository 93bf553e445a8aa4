"""The built sample site: every link leads somewhere, every finding to its chart and table, and nothing is too heavy."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlparse

import pytest

from reportgen.charts import NAMES

CHART_MOST, PAGE_MOST, SITE_MOST, STYLE_MOST, SCRIPT_MOST = 60_000, 400_000, 6_000_000, 14_000, 2_000  # bytes


class Links(HTMLParser):
    """The ids of a page, and what it links to."""

    def __init__(self) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.targets: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name == "id" and value:
                self.ids.append(value)
            elif name in ("href", "src") and value and not value.startswith("data:"):
                self.targets.append(value)


def read(page: Path) -> Links:
    """Ids and links of one page."""
    links = Links()
    links.feed(page.read_text(encoding="utf-8"))
    return links


def faults(site: Path) -> list[str]:
    """Every link of every page that leads nowhere, every id that stands twice, every address outside the folder."""
    pages = {page.name: read(page) for page in site.glob("*.html")}
    found = []
    for name, links in pages.items():
        found += [f"{name}: id {one} stands twice" for one in sorted(set(links.ids)) if links.ids.count(one) > 1]
        for target in links.targets:
            address = urlparse(target)
            if address.scheme or address.netloc:
                found.append(f"{name}: {target} leads out")
                continue
            file = unquote(address.path) or name
            if not (site / file).is_file():
                found.append(f"{name}: {target} is not there")
            elif address.fragment and file in pages and address.fragment not in pages[file].ids:
                found.append(f"{name}: {target} has no such place")
    return found


def test_the_walker_sees_what_is_broken(tmp_path: Path) -> None:
    """The walker itself: a missing page, a missing place, a doubled id and an address outside are all told."""
    (tmp_path / "a.html").write_text(
        '<p id="x"></p><p id="x"></p><a href="b.html">b</a><a href="#y">y</a><a href="a.html#x">x</a>'
        '<img src="https://example.org/a.png">',
        encoding="utf-8",
    )
    assert sorted(faults(tmp_path)) == [
        "a.html: #y has no such place",
        "a.html: b.html is not there",
        "a.html: https://example.org/a.png leads out",
        "a.html: id x stands twice",
    ]


def test_every_link_of_the_site_leads_somewhere(sample_site: Path) -> None:
    """No dead link, no doubled id, nothing that leaves the folder; every page of the navigation is there."""
    assert faults(sample_site) == []
    assert {page.stem for page in sample_site.glob("*.html")} == set(NAMES)


def test_each_finding_leads_to_its_chart_and_each_chart_to_its_table(sample_site: Path) -> None:
    """On its own page every finding links to a place that has a picture or a table, whose rows are a file in data/."""
    document = json.loads((sample_site / "data" / "review.json").read_text(encoding="utf-8"))
    assert len(document["findings"]) >= 20
    for slug in {finding["page"] for finding in document["findings"]}:
        text = (sample_site / f"{slug}.html").read_text(encoding="utf-8")
        rows = re.findall(r'<p class="sure"><b>.*?</p>', text, re.S)
        told = [f for f in document["findings"] if f["page"] == slug]
        assert len(rows) == len(told)
        for row in rows:
            link = re.search(r'href="([a-z]+\.html)?#([\w-]+)"', row)
            assert link, row
            there = (sample_site / (link[1] or f"{slug}.html")).read_text(encoding="utf-8")
            block = re.split(rf'<section class="part(?: full)?" id="{link[2]}"', there)[1].partition("</section>")[0]
            assert "<table" in block
            assert (sample_site / "data" / f"{link[2]}.csv").is_file()


def test_each_page_stands_alone(sample_site: Path) -> None:
    """Style, script and pictures are in the page: it needs no other file to be shown."""
    for page in sample_site.glob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert "<link" not in text and "<script src" not in text and not re.search(r'<img[^>]+src="(?!data:)', text)
        assert "Content-Security-Policy" in text


@pytest.mark.parametrize("slug", NAMES)
def test_no_page_is_too_heavy(sample_site: Path, slug: str) -> None:
    """Pages, charts in both widths, style and script keep to their budgets."""
    data = (sample_site / f"{slug}.html").read_bytes()
    assert len(data) <= PAGE_MOST
    charts: dict[bytes, int] = {}
    for svg in re.findall(rb"<svg.*?</svg>", data, re.S):
        uid = re.search(rb'aria-describedby="(.+?)-[wn]-d"', svg)
        if uid:
            charts[uid[1]] = charts.get(uid[1], 0) + len(svg)
    assert {uid: size for uid, size in charts.items() if size > CHART_MOST} == {}
    for tag, most in ((b"style", STYLE_MOST), (b"script", SCRIPT_MOST)):
        assert all(len(found) <= most for found in re.findall(rb"<%b>(.*?)</%b>" % (tag, tag), data, re.S))


def test_the_site_is_not_too_heavy(sample_site: Path) -> None:
    """The whole folder, tables and all."""
    assert sum(p.stat().st_size for p in sample_site.rglob("*") if p.is_file()) <= SITE_MOST


def test_the_same_season_gives_the_same_bytes(sample_site: Path, tmp_path: Path) -> None:
    """Built again, every file is the same to the byte."""
    from reportgen.pipeline import review

    review(Path(__file__).parents[2] / "sample_season", tmp_path / "again")
    first = {p.relative_to(sample_site): p.read_bytes() for p in sample_site.rglob("*") if p.is_file()}
    second = {p.relative_to(tmp_path / "again"): p.read_bytes() for p in (tmp_path / "again").rglob("*") if p.is_file()}
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []
