"""The site of the sample season in headless Chromium: built once, opened from file://, by Playwright.

The system's own Chromium is used, so nothing is downloaded. Where there is none the tests are skipped with that reason;
with REPORTGEN_BROWSER=required (as the project's CI sets it) they fail instead.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from kept_reviews import site_of
from playwright.sync_api import Browser, Playwright, sync_playwright

ROOT = Path(__file__).parents[2]
# The shell has no windows of its own to draw around each page: a third of the computing of the others.
NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome", "chrome")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test below this folder carries the marker `browser`."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker("browser")


@pytest.fixture(scope="session")
def site() -> Path:
    """The built site of the sample season."""
    return site_of("sample")


class Running:
    """One Chromium for many tests, begun anew when the machine has ended it in between."""

    def __init__(self, playwright: Playwright, path: str) -> None:
        self.playwright, self.path = playwright, path
        self.browser: Browser | None = None

    def get(self) -> Browser:
        """A Chromium that answers."""
        if self.browser is None or not self.browser.is_connected():
            # A container's shared memory is often too small for a page drawn whole.
            args = ["--no-sandbox", "--disable-dev-shm-usage", "--disable-gpu"]
            self.browser = self.playwright.chromium.launch(executable_path=self.path, args=args)
        return self.browser


@pytest.fixture(scope="session")
def running() -> Iterator[Running]:
    """The system's Chromium, headless."""
    path = next((found for name in NAMES if (found := shutil.which(name))), None)
    if path is None:
        if os.environ.get("REPORTGEN_BROWSER") == "required":
            pytest.fail("no Chromium on this machine, and REPORTGEN_BROWSER=required")
        pytest.skip("no Chromium on this machine: install Debian's package chromium to run the browser tests")
    with sync_playwright() as playwright:
        held = Running(playwright, path)
        yield held
        if held.browser is not None and held.browser.is_connected():
            held.browser.close()


@pytest.fixture
def chromium(running: Running) -> Browser:
    """A Chromium for this test."""
    return running.get()
