"""Every page in headless Chromium: quiet, whole, readable by ear, and no wider than the screen."""

from __future__ import annotations

import re
from importlib.util import find_spec
from pathlib import Path

import pytest
from browser.opened import COLLIDING, DESK, PHONE, opened
from playwright.sync_api import Browser, Page

from reportgen.charts import NAMES

PAGES = tuple(NAMES)
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

# Our own rule: axe passes an SVG without a name in silence.
UNNAMED = """() => [...document.querySelectorAll('svg')].filter(svg => {
  if (svg.getAttribute('aria-hidden') === 'true') return false;
  const told = document.getElementById(svg.getAttribute('aria-describedby') || '-');
  return svg.getAttribute('role') !== 'img' || !(svg.getAttribute('aria-label') || '').trim()
    || !told || !told.textContent.trim();
}).map(svg => svg.id || svg.outerHTML.slice(0, 120))"""


def axe_source() -> str:
    """The accessibility rules, from the test extra's package."""
    spec = find_spec("axe_playwright_python")
    assert spec is not None and spec.origin is not None
    return (Path(spec.origin).parent / "axe.min.js").read_text(encoding="utf-8")


def violations(page: Page, only: list[str], *, contrast: bool = True) -> list[str]:
    """What axe finds under those tags or rules, one line a rule with its first node."""
    options = {"runOnly": only, "resultTypes": ["violations"]}
    if not contrast:
        options["rules"] = {"color-contrast": {"enabled": False}}
    found = page.evaluate("options => axe.run(document, options)", options)
    return [f"{one['id']}: {one['nodes'][0]['html'][:160]} ({len(one['nodes'])})" for one in found["violations"]]


def open_details(page: Page) -> None:
    """Every table shown."""
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })")


@pytest.mark.parametrize("slug", PAGES)
@pytest.mark.parametrize("width", [PHONE, DESK])
def test_a_page_is_quiet_whole_and_no_wider_than_the_screen(
    chromium: Browser, site: Path, slug: str, width: int
) -> None:
    """No word on the console, no request outside the folder, no sideways scroll, words of pictures in place."""
    with opened(chromium, site / f"{slug}.html", width=width) as found:
        assert found.said == []
        assert found.asked == []
        assert found.page.evaluate(UNNAMED) == []
        assert found.page.evaluate(COLLIDING) == []
        open_details(found.page)
        assert found.page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("slug", PAGES)
def test_no_accessibility_rule_is_broken(chromium: Browser, site: Path, slug: str) -> None:
    """axe finds nothing on a phone nor on a desk, in light nor in dark colours, with every table open.

    Colours are the same at both widths and are most of axe's work: they are measured once in light, once in dark.
    """
    # The page's own policy forbids foreign script; the checker is let in, the page stays as it is.
    with opened(chromium, site / f"{slug}.html", width=PHONE, bypass_csp=True) as found:
        found.page.evaluate(axe_source())
        open_details(found.page)
        assert violations(found.page, RULES) == []
        found.page.emulate_media(color_scheme="dark")
        assert violations(found.page, ["color-contrast"]) == []
        found.page.set_viewport_size({"width": DESK, "height": 900})
        assert violations(found.page, RULES, contrast=False) == []


@pytest.mark.parametrize("slug", PAGES)
def test_a_page_is_complete_without_javascript(chromium: Browser, site: Path, slug: str) -> None:
    """The same words and pictures stand there with scripts off; only the day slider is missing."""
    with opened(chromium, site / f"{slug}.html") as found:
        words = found.page.locator("main").inner_text()
        pictures = found.page.locator("main svg:visible").count()
    with opened(chromium, site / f"{slug}.html", java_script_enabled=False) as bare:
        bare_words = bare.page.locator("main").inner_text()
        assert bare.page.locator("main svg:visible").count() == pictures
        assert bare.page.locator("h1").count() == 1
    slider = re.compile(r"^(Read one day|Move the slider.*)$", re.MULTILINE)
    assert bare_words.split() == slider.sub("", words).split()


def test_the_slider_reads_a_day_by_keyboard(chromium: Browser, site: Path) -> None:
    """Arrow keys move from day to day, and the words beside the slider say what that day was."""
    with opened(chromium, site / "index.html") as found:
        open_details(found.page)  # it stands in the fold with its table
        slider = found.page.locator(".slider input").first
        said = found.page.locator(".slider output").first
        before = said.inner_text()
        slider.focus()
        found.page.keyboard.press("ArrowRight")
        first = said.inner_text()
        found.page.keyboard.press("ArrowRight")
        second = said.inner_text()
        assert len({before, first, second}) == 3
        assert re.search(r"\d", second)


def test_the_skip_link_is_the_first_stop(chromium: Browser, site: Path) -> None:
    """The first Tab reaches the skip link, and Enter goes to the page itself."""
    with opened(chromium, site / "frost.html") as found:
        found.page.keyboard.press("Tab")
        assert found.page.evaluate("document.activeElement.className") == "skip"
        found.page.keyboard.press("Enter")
        assert found.page.evaluate("document.activeElement.id") == "main"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_handout_is_one_sheet(chromium: Browser, site: Path, paper: str) -> None:
    """Printed, the handout is exactly one page."""
    with opened(chromium, site / "handout.html") as found:
        pdf = found.page.pdf(format=paper, print_background=False)
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1


def test_forced_colours_keep_every_picture(chromium: Browser, site: Path) -> None:
    """With the reader's own high-contrast colours and reduced motion nothing is lost or moves."""
    with opened(chromium, site / "frost.html", forced_colors="active", reduced_motion="reduce") as found:
        assert found.page.locator("main svg:visible").count() > 0
        moving = (
            "[...document.querySelectorAll('*')].filter(e => parseFloat(getComputedStyle(e).transitionDuration) > 0)"
        )
        assert found.page.evaluate(f"{moving}.length") == 0


@pytest.mark.parametrize("slug", PAGES)
def test_weights(site: Path, slug: str) -> None:
    """A page weighs at most 400 KB, a chart in both widths 60 KB, the style 14 KB, the script 2 KB."""
    page = (site / f"{slug}.html").read_text(encoding="utf-8")
    assert len(page.encode()) <= 400_000
    pictures = re.findall(r"<svg class=\"w\".*?</svg>\s*<svg class=\"n\".*?</svg>", page, re.DOTALL)
    assert all(len(one.encode()) <= 60_000 for one in pictures)
    style = re.search(r"<style>(.*?)</style>", page, re.DOTALL)
    assert style is not None and len(style[1].encode()) <= 14_000
    assert all(len(words.encode()) <= 2_000 for words in re.findall(r"<script>(.*?)</script>", page, re.DOTALL))


def test_the_whole_site_is_light(site: Path) -> None:
    """All files of a season of eleven channels, but for the tables in data/, weigh at most 6 MB."""
    assert sum(file.stat().st_size for file in site.glob("*.*")) <= 6_000_000
