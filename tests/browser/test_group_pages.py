"""The pages of groups in headless Chromium: quiet, whole, accessible, no wider than the screen, within budget."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from browser.opened import COLLIDING, DESK, PHONE, opened
from browser.test_budgets import ALTERNATIVES, GLUED, OTHER, SMALL, TARGET, Budget, over
from browser.test_pages import RULES, UNNAMED, axe_source, open_details, violations
from gather import made_pages as made
from playwright.sync_api import Browser

from reportgen.gather.pages import NAMES, SUBJECTS
from reportgen.gather.site import write_group
from reportgen.gather.types import Group

GROUPS: dict[str, Callable[[], Group]] = {
    "made": made.made,
    "sixty": lambda: made.made(60),
    "two": lambda: made.made(2),
    "bare": made.bare,
    "hostile": made.hostile,
    "crowded": made.crowded,
}
FIRST = Budget(above=175, words=1250, desk=5.0, phone=8.0)
NARROW = 320


@pytest.fixture(scope="module", params=GROUPS)
def group(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built site of each group."""
    out = tmp_path_factory.mktemp("group") / "site"
    write_group(GROUPS[request.param](), out, lambda words: None)
    return out


@pytest.mark.parametrize("slug", NAMES)
def test_a_page_is_quiet_whole_and_no_wider_than_the_screen(chromium: Browser, group: Path, slug: str) -> None:
    """At 1280, 390 and 320 px: nothing on the console, nothing asked for, words of pictures in place."""
    with opened(chromium, group / f"{slug}.html", width=DESK) as found:
        for width in (DESK, PHONE, NARROW):
            found.page.set_viewport_size({"width": width, "height": 900})
            assert found.page.evaluate(UNNAMED) == []
            assert found.page.evaluate(COLLIDING) == []
            assert found.page.evaluate(GLUED) == []
            assert found.page.evaluate(SMALL, TARGET) == []
        open_details(found.page)
        for width in (DESK, PHONE, NARROW):
            found.page.set_viewport_size({"width": width, "height": 900})
            assert found.page.evaluate("document.documentElement.scrollWidth") <= width
        assert found.said == []
        assert found.asked == []


@pytest.mark.parametrize("slug", NAMES)
def test_no_accessibility_rule_is_broken(chromium: Browser, group: Path, slug: str) -> None:
    """axe finds nothing on a phone nor on a desk, in light nor in dark colours, with every table open."""
    with opened(chromium, group / f"{slug}.html", width=PHONE, bypass_csp=True) as found:
        found.page.evaluate(axe_source())
        open_details(found.page)
        assert violations(found.page, RULES) == []
        found.page.emulate_media(color_scheme="dark")
        assert violations(found.page, ["color-contrast"]) == []
        found.page.set_viewport_size({"width": DESK, "height": 900})
        assert violations(found.page, RULES, contrast=False) == []


@pytest.mark.parametrize("slug", ["index", *SUBJECTS])
def test_a_page_asks_no_more_than_its_budget(chromium: Browser, group: Path, slug: str) -> None:
    """Words, screens and sheets, as of every page of a season; a picture is told in 1 to 60 words."""
    with opened(chromium, group / f"{slug}.html") as found:
        assert list(over(found.page, FIRST if slug == "index" else OTHER)) == []
        told = found.page.evaluate(ALTERNATIVES)
        assert [uid for uid, words in told if not 1 <= len(words.split(" ")) <= 60] == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_handout_is_one_sheet(chromium: Browser, group: Path, paper: str) -> None:
    """Printed, the handout is exactly one page."""
    with opened(chromium, group / "handout.html") as found:
        pdf = found.page.pdf(format=paper, print_background=False)
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1
