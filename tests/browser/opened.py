"""A page of the built site as a reader opens it: its width, its colours, and all that went wrong on the way."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, ConsoleMessage, Page, Request

PHONE, DESK = 390, 1280


@dataclass
class Opened:
    """The page, what the console said, and what was asked for outside the site's folder."""

    page: Page
    said: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)


@contextmanager
def opened(browser: Browser, file: Path, *, width: int = DESK, **context: Any) -> Iterator[Opened]:
    """One page of the site, loaded from file:// in a window of its own."""
    window = browser.new_context(viewport={"width": width, "height": 900}, **context)
    try:
        found = Opened(page=window.new_page())

        def heard(message: ConsoleMessage) -> None:
            if message.type in ("error", "warning"):
                found.said.append(message.text)

        def sent(request: Request) -> None:
            inside = request.url.startswith((file.parent.as_uri(), "data:"))
            if not inside:
                found.asked.append(request.url)

        found.page.on("console", heard)
        found.page.on("pageerror", lambda error: found.said.append(str(error)))
        found.page.on("request", sent)
        found.page.goto(file.as_uri())
        yield found
    finally:
        window.close()
