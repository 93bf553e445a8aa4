"""How much a page may ask of its reader: words, screens, sheets and findings, on the sample and on five odd seasons.

The numbers are the project's own budgets, set before the pages were built; none is a measured output.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from browser.opened import DESK, PHONE, opened
from browser.test_pages import axe_source, open_details, violations
from kept_reviews import site_of
from playwright.sync_api import Browser, Page

from reportgen.charts import NAMES
from reportgen.pages import PAGES as SUBJECTS

# Ten days; °F; the other hemisphere; no heater; no harvest.
ODD = ("ten days", "US units", "southern", "one picking", "heater by meter")
NARROW, TARGET, WORDS_OF_A_PICTURE = 320, 44, 60


@dataclass(frozen=True)
class Budget:
    """What one page may have at most."""

    above: int  # words above the first picture, with its title and what is plotted
    words: int  # visible words, with those of the pictures
    desk: float  # screens of 1280 × 900
    phone: float  # screens of 390 × 844
    sheets: int = 3  # of A4
    findings: int = 5  # standing open


WINTER = Budget(above=175, words=1250, desk=5.0, phone=8.0)
OTHER = Budget(above=90, words=1150, desk=4.5, phone=8.5)

# Words before the first picture in the order of the page; without a picture, all words before the first section.
ABOVE = """() => {
  const main = document.querySelector('main'), end = main.querySelector('figure') || main.querySelector('section');
  const walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
  let words = 0;
  for (let node; (node = walker.nextNode());) {
    if (end && !(node.compareDocumentPosition(end) & Node.DOCUMENT_POSITION_FOLLOWING)) break;
    if (node.parentElement.checkVisibility()) words += node.textContent.split(/\\s+/).filter(Boolean).length;
  }
  return words;
}"""
VISIBLE = "() => document.querySelector('main').innerText.split(/\\s+/).filter(Boolean).length"
OPEN_FINDINGS = "() => [...document.querySelectorAll('.rows > li')].filter(li => li.checkVisibility()).length"
HEIGHT = "() => document.documentElement.scrollHeight"
SMALL = """least => [...document.querySelectorAll('.mast nav a, ul.pages a, .toc a, summary')]
  .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < least - 0.5)
  .map(e => `${e.textContent.trim().slice(0, 40)}: ${e.getBoundingClientRect().height}`)"""
# What stands below a picture keeps its distance from it, and the line above it too.
GLUED = """() => [...document.querySelectorAll('figure')].filter(f => f.checkVisibility()).flatMap(f => {
  const own = f.getBoundingClientRect(), near = [f.previousElementSibling, f.nextElementSibling];
  return near.filter(e => e && e.checkVisibility()).map(e => {
    const r = e.getBoundingClientRect();
    return [e, r.top >= own.bottom ? r.top - own.bottom : own.top - r.bottom];
  }).filter(([, gap]) => gap < 4).map(([e, gap]) => `${e.textContent.trim().slice(0, 40)}: ${gap}`);
})"""
ALTERNATIVES = """() => [...document.querySelectorAll('svg[aria-describedby]')].map(svg => {
  const told = document.getElementById(svg.getAttribute('aria-describedby'));
  return [svg.id || svg.getAttribute('aria-label'), told ? told.textContent.trim() : ''];
})"""


@pytest.fixture(scope="module", params=("sample", *ODD))
def built(request: pytest.FixtureRequest) -> Path:
    """The site of the sample and of each odd season."""
    return site_of(str(request.param))


def over(page: Page, budget: Budget) -> Iterator[str]:
    """What of an open page is over its budget, in words; the grower's own story is not counted."""
    page.evaluate("() => document.querySelectorAll('.story').forEach(e => e.remove())")
    measured = {
        "words above the first picture": (page.evaluate(ABOVE), budget.above),
        "visible words": (page.evaluate(VISIBLE), budget.words),
        "findings open": (page.evaluate(OPEN_FINDINGS), budget.findings),
        "screens at 1280": (page.evaluate(HEIGHT) / 900, budget.desk),
    }
    page.set_viewport_size({"width": PHONE, "height": 844})
    measured["screens at 390"] = (page.evaluate(HEIGHT) / 844, budget.phone)
    page.set_viewport_size({"width": DESK, "height": 900})
    pdf = page.pdf(format="A4", print_background=False)
    measured["A4 sheets"] = (len(re.findall(rb"/Type\s*/Page\b", pdf)), budget.sheets)
    for name, (value, most) in measured.items():
        if value > most:
            yield f"{name}: {value:.1f}, at most {most}"


@pytest.mark.parametrize("slug", SUBJECTS)
def test_a_subject_asks_no_more_than_its_budget(chromium: Browser, built: Path, slug: str) -> None:
    """Words, findings, screens and sheets of every page but the first, the method and the handout."""
    with opened(chromium, built / f"{slug}.html") as found:
        assert list(over(found.page, OTHER)) == []


def test_winter_asks_no_more_than_its_budget(chromium: Browser, built: Path) -> None:
    """The first page, without its story."""
    with opened(chromium, built / "index.html") as found:
        assert list(over(found.page, WINTER)) == []


def test_headings_are_sentences_of_at_most_fifteen_words(chromium: Browser, built: Path) -> None:
    """A figure with its unit is one word; a lead has at most 25."""
    wrong = []
    for slug in SUBJECTS:
        with opened(chromium, built / f"{slug}.html") as found:
            told = found.page.locator("h1").inner_text()
            lead = found.page.locator(".lead").first.inner_text() if found.page.locator(".lead").count() else ""
            answers = found.page.locator(".open").count() > 0
        if len(told.split(" ")) > 15 or (answers and len(lead.split(" ")) > 25):
            wrong.append(f"{slug}: {told} / {lead}")
    assert wrong == []


def test_targets_distances_and_alternatives(chromium: Browser, built: Path) -> None:
    """Every target is 44 px high, no picture touches its words, a picture is told in 1 to 60 words, nothing scrolls
    sideways at 320 px with all that is folded open."""
    wrong = []
    for slug in NAMES:
        with opened(chromium, built / f"{slug}.html", width=NARROW) as found:
            for width in (DESK, NARROW):
                found.page.set_viewport_size({"width": width, "height": 900})
                wrong += [f"{slug} at {width}, small: {one}" for one in found.page.evaluate(SMALL, TARGET)]
                wrong += [f"{slug} at {width}, glued: {one}" for one in found.page.evaluate(GLUED)]
            told = found.page.evaluate(ALTERNATIVES)
            wrong += [f"{slug}: {uid} in {len(words.split())} words" for uid, words in told
                      if not 1 <= len(words.split(" ")) <= WORDS_OF_A_PICTURE]  # fmt: skip
            open_details(found.page)
            if found.page.evaluate("document.documentElement.scrollWidth") > NARROW:
                wrong.append(f"{slug} scrolls sideways")
    assert wrong == []


@pytest.mark.parametrize("slug", NAMES)
def test_no_accessibility_rule_is_broken_at_320(chromium: Browser, site: Path, slug: str) -> None:
    """axe finds nothing on the narrowest screen, with every fold open."""
    with opened(chromium, site / f"{slug}.html", width=NARROW, bypass_csp=True) as found:
        found.page.evaluate(axe_source())
        open_details(found.page)
        rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
        assert violations(found.page, rules, contrast=False) == []
