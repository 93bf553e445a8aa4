"""Whole sites of extreme seasons in Chromium: every page, on a phone and on a desk, with its words in place."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from browser.extreme_seasons import long_and_crowded, ten_days_one_channel
from browser.opened import COLLIDING, DESK, PHONE, opened
from playwright.sync_api import Browser

from reportgen.charts import NAMES
from reportgen.pipeline import review

SEASONS: tuple[Callable[[Path], Path], ...] = (ten_days_one_channel, long_and_crowded)


@pytest.fixture(scope="module", params=SEASONS, ids=lambda make: make.__name__)
def extreme(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built site of one of them."""
    base = tmp_path_factory.mktemp("extreme")
    (base / "season").mkdir()
    review(request.param(base / "season"), base / "site")
    return base / "site"


def test_every_page_keeps_its_words_apart(chromium: Browser, extreme: Path) -> None:
    """On a phone and on a desk: no word over another, none cut, no sideways scroll."""
    wrong = []
    for slug in NAMES:
        with opened(chromium, extreme / f"{slug}.html", width=PHONE) as found:
            for width in (PHONE, DESK):
                found.page.set_viewport_size({"width": width, "height": 900})
                wrong += [f"{slug}: {words}" for words in found.page.evaluate(COLLIDING)]
                if found.page.evaluate("document.documentElement.scrollWidth") > width:
                    wrong.append(f"{slug} scrolls sideways at {width}")
    assert wrong == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_handout_stays_one_sheet(chromium: Browser, extreme: Path, paper: str) -> None:
    """However long the names, the printed handout is exactly one page."""
    with opened(chromium, extreme / "handout.html") as found:
        pdf = found.page.pdf(format=paper, print_background=False)
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1
